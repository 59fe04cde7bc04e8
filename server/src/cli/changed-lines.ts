/** Lines of specs before and after a change, as a terminal shows them. */
import { editedText } from '../../../grammar/src/edited-text.ts';
import type { Range } from './line-map.ts';
import type { LocatedFix, Location } from './located-finding.ts';
import type { Styles } from './styles.ts';
import { visible } from './visible.ts';

export const gutter = (number: number | ''): string => String(number).padStart(6);

/** The lines that edits change, before and after, edits of one line together; `path`: the file that need not be named. */
export function changedLines(
  changes: LocatedFix['edits'],
  path: string | undefined,
  styles: Styles,
): readonly string[] {
  const groups: { at: Location; range: Range; edits: LocatedFix['edits'][number][] }[] = [];
  const inOrder = [...changes].sort(
    (a, b) => Number(a.at.path !== path) - Number(b.at.path !== path) || comparePlaces(a.at, b.at),
  );
  for (const edit of inOrder) {
    const last = groups.at(-1);
    if (last && last.at.path === edit.at.path && edit.at.range.start.line <= last.range.end.line) {
      last.edits.push(edit);
      last.range = { start: last.range.start, end: edit.at.range.end };
    } else groups.push({ at: edit.at, range: edit.at.range, edits: [edit] });
  }
  return groups.flatMap(({ at, range, edits }, index) => {
    const from = range.start.line;
    const before = Array.from({ length: range.end.line - from + 1 }, (_, index) => at.lines.line(from + index));
    const after = applied(before, from, edits);
    const where = at.path === (groups[index - 1]?.at.path ?? path) ? [] : [`    in ${visible(at.path)}:`];
    const changed = trimSame(before, after);
    const context = changed.before.length === 0 ? before.slice(0, changed.skipped).slice(-1) : [];
    return [
      ...where,
      ...context.map((text) => `${gutter(from + changed.skipped)}   ${visible(text)}`),
      ...changed.before.map((text, index) =>
        styles.removed(`${gutter(from + changed.skipped + index + 1)} - ${visible(text)}`),
      ),
      ...changed.after.map((text) => styles.added(`${gutter('')} + ${visible(text)}`)),
    ];
  });
}

function applied(before: readonly string[], firstLine: number, edits: LocatedFix['edits']): readonly string[] {
  const text = before.join('\n');
  const offset = ({ line, character }: Range['start']): number =>
    before.slice(0, line - firstLine).reduce((total, each) => total + each.length + 1, 0) + character;
  const placed = edits.map(({ at: { range }, newText }) => ({
    start: offset(range.start),
    end: offset(range.end),
    newText,
  }));
  return (editedText(text, placed) ?? text).split(/\r\n|\r|\n/);
}

/** Without the lines at both ends that stay as they are. */
function trimSame(
  before: readonly string[],
  after: readonly string[],
): { readonly before: readonly string[]; readonly after: readonly string[]; readonly skipped: number } {
  let skipped = 0;
  while (skipped < Math.min(before.length, after.length) && before[skipped] === after[skipped]) skipped++;
  let end = 0;
  const room = Math.min(before.length, after.length) - skipped;
  while (end < room && before.at(-1 - end) === after.at(-1 - end)) end++;
  return {
    before: before.slice(skipped, before.length - end),
    after: after.slice(skipped, after.length - end),
    skipped,
  };
}

function comparePlaces(a: Location, b: Location): number {
  if (a.path !== b.path) return a.path < b.path ? -1 : 1;
  return a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character;
}
