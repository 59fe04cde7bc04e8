/** Findings for people: where and what, the line with marks under it, the lines that are part of the cause, what to do, the fix. */
import type { Severity } from '../checks/finding.ts';
import { changedLines, gutter } from './changed-lines.ts';
import type { CheckedFile, LocatedFinding, Location, OfferedPlan } from './located-finding.ts';
import { markedLines } from './source-lines.ts';
import type { Styles } from './styles.ts';
import { visible } from './visible.ts';
import { wrapped } from './wrap.ts';

/** More than this of one file helps nobody at a terminal; the machine formats hold all. */
const MOST_PER_FILE = 200;

export function findingsText({ path, findings }: CheckedFile, look: Look): string {
  const shown = findings.slice(0, MOST_PER_FILE).map((finding) => `${findingText(finding, look)}\n`);
  const left = findings.length - shown.length;
  const more = left > 0 ? `${visible(path)}: ${left} more of this file (--format json holds all)\n\n` : '';
  return shown.join('') + more;
}

export interface Look {
  readonly styles: Styles;
  readonly columns: number | undefined;
}

/** Where it is, how grave, its code; then what, in whole sentences; then the line with a rule under the piece that is meant. */
function findingText(finding: LocatedFinding, { styles, columns }: Look): string {
  const { at, severity, code, what, hint, action, plan, fixes } = finding;
  const { line, character } = at.range.start;
  const place = styles.strong(`${visible(at.path)}:${line + 1}:${character + 1}`);
  const part = (lead: string, text: string) => wrapped(`  ${lead}`, visible(text), columns);
  return [
    `${place}  ${styles[severity](severity)}  ${code}`,
    ...part('', what),
    ...source(at, HERE, styles[severity]),
    ...relatedText(finding, { styles, columns }),
    ...(hint ? part('hint: ', hint) : []),
    ...(action ? part('do: ', action) : []),
    ...(plan ? planText(plan, columns) : []),
    ...fixes.flatMap((fix) => [...part('fix: ', fix.title), ...changedLines(fix.edits, at.path, styles)]),
    '',
  ].join('\n');
}

/** Rules under a piece of a line: of the fault itself, and of what belongs to it. */
const HERE = '━';
const RELATED = '╌';

/** Before the fixes: a fix settles one finding, a plan all that hang together. */
function planText({ minutes, steps, leaves, settles }: OfferedPlan, columns: number | undefined): readonly string[] {
  const all = settles > 1 ? `, settles ${settles} findings` : '';
  return [
    ...wrapped('  ', `plan, about ${minutes} min${all} (\`repair\` tells its lines, and others):`, columns),
    ...steps.flatMap((step) => wrapped('    ', visible(step), columns)),
    ...leaves.flatMap((each) => wrapped('    ', `then ${visible(each)}`, columns)),
  ];
}

/** Lines that share their message stand under it together. */
function relatedText({ related, at: home }: LocatedFinding, { styles, columns }: Look): readonly string[] {
  return related.flatMap(({ message, at }, index) => {
    const before = related[index - 1];
    const said = before?.message === message && before.at.path === at.path;
    const where = at.path === home.path ? '' : ` (${visible(at.path)})`;
    const words = said ? [] : wrapped('  ', `${visible(message)}${where}:`, columns);
    return [...words, ...source(at, RELATED, styles.information)];
  });
}

function source(at: Location, mark: string, style: (text: string) => string): readonly string[] {
  return markedLines(at.lines, at.range, mark).flatMap(({ number, text, marks }) => [
    `${gutter(number)}   ${text}`,
    ...(marks.trim() === '' ? [] : [`${gutter('')}   ${marks.replace(/\S+$/, (piece) => style(piece))}`]),
  ]);
}

/** What was found so far: how often, of each severity. */
export interface Tally {
  readonly files: number;
  readonly counts: ReadonlyMap<Severity, number>;
}

/** Behind the findings: once for all that asks for work at the bench, and what there was in all. */
export function endText({ files, counts }: Tally, cautions: readonly string[], columns: number | undefined): string {
  const lines = cautions.flatMap((each) => wrapped('  ', each, columns));
  const mind = cautions.length === 0 ? '' : `${['mind at the bench', ...lines, ''].join('\n')}\n`;
  const count = (...of: readonly Severity[]): number => of.reduce((sum, each) => sum + (counts.get(each) ?? 0), 0);
  const told = [
    plural(count('error'), 'error'),
    plural(count('warning'), 'warning'),
    plural(count('information', 'hint'), 'note'),
  ].filter((each) => each !== '');
  const where = plural(files, 'file') || 'no files';
  return `${mind}${told.length === 0 ? 'nothing found' : told.join(', ')} in ${where}\n`;
}

const plural = (count: number, word: string): string =>
  count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`;
