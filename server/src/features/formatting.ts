import { formatFile } from '../../../grammar/src/format.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';

/** The one layout, as edits of the lines that differ; none where the text has an error of syntax. */
export function formatting(analysis: Analysis): readonly { readonly span: Span; readonly newText: string }[] {
  const formatted = formatFile(analysis.tree);
  return formatted === undefined ? [] : lineEdits(analysis.text, formatted);
}

/** Where the lines correspond, each changed line by itself, so that cursors stay; otherwise what lies between the equal ends. */
function lineEdits(before: string, after: string): readonly { readonly span: Span; readonly newText: string }[] {
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
