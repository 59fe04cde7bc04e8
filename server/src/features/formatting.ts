import { formatFile } from '../../../grammar/src/format.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { inFile, syntaxAt } from './syntax-at.ts';

/** The one layout, as edits of the lines that differ; none where the text has an error of syntax. */
export function formatting(analysis: Analysis): readonly SpanEdit[] {
  const formatted = formatFile(analysis.tree);
  return formatted === undefined ? [] : lineEdits(analysis.text, formatted);
}

interface SpanEdit {
  readonly span: Span;
  readonly newText: string;
}

/**
 * The same for the lines that a span touches, each by itself: a fault in another block does not matter, and empty lines stay as they
 * are being typed.
 */
export function formattingOf(analysis: Analysis, within: Span): readonly SpanEdit[] {
  return analysis.tree.chunks.flatMap(({ chunk, offset }): readonly SpanEdit[] => {
    if (offset > within.end || offset + chunk.text.length < within.start) return [];
    const formatted = formatFile({ text: chunk.text, chunks: [{ offset: 0, chunk }] });
    if (formatted === undefined) return [];
    const wanted = linesOf(formatted).map(bare).filter(isWritten);
    let start = offset;
    const written = linesOf(chunk.text).flatMap((line) => {
      const span = { start, end: start + bare(line).length };
      start += line.length;
      return isWritten(line) ? [{ line: bare(line), span }] : [];
    });
    if (written.length !== wanted.length) return [];
    return written.flatMap(({ line, span }, index) => {
      const newText = wanted[index] ?? line;
      return newText === line || span.end < within.start || span.start > within.end ? [] : [{ span, newText }];
    });
  });
}

/** After a brace that closes a block, the block; after the end of a line, that line. */
export function formattingAfter(analysis: Analysis, offset: number, typed: string): readonly SpanEdit[] {
  if (typed === '}') {
    const at = syntaxAt(analysis.tree, Math.max(offset - 1, 0));
    const closed = at?.blocks.at(-1);
    if (!at || !closed?.close || inFile(at.placed, closed.close).end !== offset) return [];
    return formattingOf(analysis, inFile(at.placed, closed.span));
  }
  const end = analysis.text.slice(0, offset).search(/(?:\r\n|\r|\n)[ \t]*$/);
  if (end < 0) return [];
  const start = Math.max(analysis.text.lastIndexOf('\n', end - 1), analysis.text.lastIndexOf('\r', end - 1)) + 1;
  return formattingOf(analysis, { start, end });
}

const bare = (line: string): string => line.replace(/[\r\n]+$/, '');
const isWritten = (line: string): boolean => line.trim() !== '';

/** Where the lines correspond, each changed line by itself, so that cursors stay; otherwise what lies between the equal ends. */
function lineEdits(before: string, after: string): readonly SpanEdit[] {
  if (before === after) return [];
  const [old, wanted] = [linesOf(before), linesOf(after)];
  if (old.length === wanted.length) {
    let start = 0;
    return old.flatMap((line, index) => {
      const span = { start, end: start + line.length };
      start = span.end;
      const newText = wanted[index] ?? '';
      return line === newText ? [] : [{ span, newText }];
    });
  }
  let first = 0;
  while (first < old.length && old[first] === wanted[first]) first += 1;
  let same = 0;
  while (same < Math.min(old.length, wanted.length) - first && old.at(-1 - same) === wanted.at(-1 - same)) same += 1;
  const start = lengthOf(old.slice(0, first));
  const end = before.length - lengthOf(old.slice(old.length - same));
  return [{ span: { start, end }, newText: wanted.slice(first, wanted.length - same).join('') }];
}

/** Lines with their ends. */
const linesOf = (text: string): readonly string[] => text.match(/[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+$/g) ?? [];

const lengthOf = (lines: readonly string[]): number => lines.reduce((total, line) => total + line.length, 0);
