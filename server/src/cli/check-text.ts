/** Findings for people: where and what, the line with marks under it, the lines that are part of the cause, what to do, the fix. */
import { editedText } from '../../../grammar/src/edited-text.ts';
import type { Severity } from '../checks/finding.ts';
import type { Range } from './line-map.ts';
import type { CheckedFile, LocatedFinding, LocatedFix, Location } from './located-finding.ts';
import { markedLines } from './source-lines.ts';
import type { Styles } from './styles.ts';
import { visible } from './visible.ts';

/** More than this of one file helps nobody at a terminal; the machine formats hold all. */
const MOST_PER_FILE = 200;

export function checkText(files: readonly CheckedFile[], styles: Styles): string {
  const parts = files.flatMap((file) => {
    const shown = file.findings.slice(0, MOST_PER_FILE).map((finding) => findingText(finding, styles));
    const left = file.findings.length - shown.length;
    return left > 0
      ? [...shown, `${visible(file.path)}: ${left} more of this file (--format json holds all)\n`]
      : shown;
  });
  return [...parts, summary(files)].join('\n');
}

function findingText(finding: LocatedFinding, styles: Styles): string {
  const { line, character } = finding.at.range.start;
  const place = styles.strong(`${visible(finding.at.path)}:${line + 1}:${character + 1}:`);
  const severity = styles[finding.severity](`${finding.severity}:`);
  const marks = (text: string): string => styles[finding.severity](text);
  return [
    `${place} ${severity} ${visible(finding.what)} [${finding.code}]`,
    ...source(finding.at, '^', marks),
    ...relatedText(finding, styles),
    ...(finding.hint ? [`  hint: ${visible(finding.hint)}`] : []),
    ...(finding.action ? [`  do: ${visible(finding.action)}`] : []),
    ...finding.fixes.flatMap((fix) => fixText(fix, finding.at.path, styles)),
    '',
  ].join('\n');
}

/** Lines that share their message stand under it together. */
function relatedText({ related, at: home }: LocatedFinding, styles: Styles): readonly string[] {
  return related.flatMap(({ message, at }, index) => {
    const before = related[index - 1];
    const said = before?.message === message && before.at.path === at.path;
    const where = at.path === home.path ? '' : ` (${visible(at.path)})`;
    return [...(said ? [] : [`  ${visible(message)}${where}:`]), ...source(at, '-', styles.information)];
  });
}

function source(at: Location, mark: '^' | '-', style: (text: string) => string): readonly string[] {
  return markedLines(at.lines, at.range, mark).flatMap(({ number, text, marks }) => [
    `${gutter(number)} | ${text}`,
    `${gutter('')} | ${marks.trimEnd() === '' ? '' : marks.replace(/\S+$/, (piece) => style(piece))}`,
  ]);
}

const gutter = (number: number | ''): string => String(number).padStart(6);

function fixText(fix: LocatedFix, path: string, styles: Styles): readonly string[] {
  return [`  fix: ${visible(fix.title)}`, ...changedLines(fix, path, styles)];
}

/** The lines that a fix changes, before and after, edits of one line together. */
function changedLines(fix: LocatedFix, path: string, styles: Styles): readonly string[] {
  const groups: { at: Location; range: Range; edits: LocatedFix['edits'][number][] }[] = [];
  const inOrder = [...fix.edits].sort((a, b) => comparePlaces(a.at, b.at));
  for (const edit of inOrder) {
    const last = groups.at(-1);
    if (last && last.at.path === edit.at.path && edit.at.range.start.line <= last.range.end.line) {
      last.edits.push(edit);
      last.range = { start: last.range.start, end: edit.at.range.end };
    } else groups.push({ at: edit.at, range: edit.at.range, edits: [edit] });
  }
  return groups.flatMap(({ at, range, edits }) => {
    const from = range.start.line;
    const before = Array.from({ length: range.end.line - from + 1 }, (_, index) => at.lines.line(from + index));
    const after = applied(before, from, edits);
    const where = at.path === path ? [] : [`    in ${visible(at.path)}:`];
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

function summary(files: readonly CheckedFile[]): string {
  const count = (severity: Severity): number =>
    files.reduce((total, file) => total + file.findings.filter((each) => each.severity === severity).length, 0);
  const counts = [
    plural(count('error'), 'error'),
    plural(count('warning'), 'warning'),
    plural(count('information') + count('hint'), 'note'),
  ].filter((each) => each !== '');
  const where = plural(files.length, 'file') || 'no files';
  return counts.length === 0 ? `nothing found in ${where}\n` : `${counts.join(', ')} in ${where}\n`;
}

const plural = (count: number, word: string): string =>
  count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`;
