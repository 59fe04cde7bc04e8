/** Findings for people: where and what, the line with marks under it, the lines that are part of the cause, what to do, the fix. */
import type { Severity } from '../checks/finding.ts';
import { changedLines, gutter } from './changed-lines.ts';
import type { CheckedFile, LocatedFinding, LocatedFix, Location, OfferedPlan } from './located-finding.ts';
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
    ...(finding.plan ? planText(finding.plan) : []),
    ...finding.fixes.flatMap((fix) => fixText(fix, finding.at.path, styles)),
    '',
  ].join('\n');
}

/** Before the fixes: a fix settles one finding, a plan all that hang together. */
const planText = ({ minutes, steps, leaves, settles }: OfferedPlan): readonly string[] => [
  `  plan, about ${minutes} min${settles > 1 ? `, settles ${settles} findings` : ''} (\`repair\` tells its lines, and others):`,
  ...steps.map((step) => `    ${visible(step)}`),
  ...leaves.map((each) => `    then ${visible(each)}`),
];

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

function fixText(fix: LocatedFix, path: string, styles: Styles): readonly string[] {
  return [`  fix: ${visible(fix.title)}`, ...changedLines(fix.edits, path, styles)];
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
