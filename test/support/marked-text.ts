/**
 * Spec text whose findings are marked under their place, so that nobody counts columns:
 *
 *     core 60,0 x 5.8 mm
 *          ^^^^ syntax/number
 */
import type { Span } from '../../grammar/src/span.ts';

export interface Mark {
  readonly code: string;
  readonly span: Span;
}

const MARK_LINE = /^(\s*)(\^+) (\S.*)$/;

/** The text without its mark lines, and the marks as spans of it. */
export function readMarks(marked: string): { readonly text: string; readonly marks: readonly Mark[] } {
  const marks: Mark[] = [];
  const lines: string[] = [];
  let lineStart = 0;
  let offset = 0;
  for (const line of marked.split('\n')) {
    const [, before, carets, code] = MARK_LINE.exec(line) ?? [];
    if (before !== undefined && carets !== undefined && code !== undefined) {
      const start = lineStart + before.length;
      marks.push({ code, span: { start, end: start + carets.length } });
    } else {
      lines.push(line);
      lineStart = offset;
      offset += line.length + 1;
    }
  }
  return { text: lines.join('\n'), marks };
}

/** The text with a mark line under each finding; one of several lines is marked on its first, an empty one with one caret. */
export function writeMarks(text: string, marks: readonly Mark[]): string {
  const out: string[] = [];
  let lineStart = 0;
  for (const line of text.split('\n')) {
    out.push(line);
    const lineEnd = lineStart + line.length;
    for (const { code, span } of marks) {
      if (span.start < lineStart || span.start > lineEnd) continue;
      const width = Math.max(1, Math.min(span.end, lineEnd) - span.start);
      out.push(`${' '.repeat(span.start - lineStart)}${'^'.repeat(width)} ${code}`);
    }
    lineStart = lineEnd + 1;
  }
  return out.join('\n');
}

/** The text without its cursor `‸`, which no spec holds, and where that stood. */
export function readCursor(marked: string): { readonly text: string; readonly offset: number } {
  const offset = marked.indexOf('‸');
  if (offset < 0 || marked.indexOf('‸', offset + 1) >= 0) throw new Error('one cursor ‸ is needed');
  return { text: marked.slice(0, offset) + marked.slice(offset + 1), offset };
}
