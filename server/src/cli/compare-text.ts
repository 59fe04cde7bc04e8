/** A comparison for people: what was changed, what that changes in numbers, and which findings went and came. */
import { type FactChange, sidesOf } from '../comparison/compare-facts.ts';
import { type Comparison, sameMeaning } from '../comparison/comparison.ts';
import { numberRows } from '../comparison/number-rows.ts';
import { changeWords } from '../words/sweep-words.ts';
import type { ComparedAll } from './comparison-data.ts';
import { padded, plainSpaces, widest } from './figures-text.ts';
import type { Styles } from './styles.ts';
import { visible } from './visible.ts';

/** Each comparison by itself; of folders, what happened to their files above them. */
export function comparedText({ names, compared, folders }: ComparedAll, styles: Styles): string {
  const each = compared.map(({ comparison, names: own }) => compareText(comparison, own, styles));
  if (folders === undefined) return each.join('\n');
  const files = (count: number): string => `${count} ${count === 1 ? 'file' : 'files'}`;
  const heading = [
    `${visible(names.before)} → ${visible(names.after)}: ${files(compared.length)} changed, ${files(folders.same)} without a change of meaning`,
    ...folders.come.map((file) => `  ${styles.added('new')}   ${visible(file)}`),
    ...folders.gone.map((file) => `  ${styles.removed('gone')}  ${visible(file)}`),
  ];
  return [`${heading.join('\n')}\n`, ...each].join('\n');
}

function compareText(
  comparison: Comparison,
  names: { readonly before: string; readonly after: string },
  styles: Styles,
): string {
  const heading = `${visible(names.before)} → ${visible(names.after)}`;
  if (sameMeaning(comparison)) return `${heading}: no change of meaning\n`;
  const parts = [
    section('facts', factLines(comparison.facts, styles)),
    section('numbers', numberLines(comparison)),
    section('as measured', sweepLines(comparison)),
    section('findings', findingLines(comparison.findings, styles)),
  ];
  return [heading, ...parts.filter((part) => part !== '')].join('\n\n').concat('\n');
}

const section = (title: string, lines: readonly string[]): string =>
  lines.length === 0 ? '' : [title, ...lines].join('\n');

function factLines(changes: readonly FactChange[], styles: Styles): readonly string[] {
  const lines: string[] = [];
  let above = '';
  for (const change of changes) {
    const path = change.path.map(visible).join(' / ');
    if (path !== above) lines.push(`  ${styles.strong(path)}`);
    above = path;
    lines.push(...changeLines(change, styles).map((line) => `    ${line}`));
  }
  return lines;
}

function changeLines(change: FactChange, styles: Styles): readonly string[] {
  if (change.kind === 'renamed') return [`renamed from ${visible(change.from)}`];
  return sidesOf(change).flatMap(([before, after]) => [
    ...(before === '' ? [] : [styles.removed(`- ${visible(before)}`)]),
    ...(after === '' ? [] : [styles.added(`+ ${visible(after)}`)]),
  ]);
}

function numberLines(comparison: Comparison): readonly string[] {
  const rows = numberRows(comparison).map(({ path, what, before, after, by }) => ({
    path: path.map(visible).join(' / '),
    what: plainSpaces(what),
    before: plainSpaces(before),
    after: plainSpaces(after),
    by: by === '' ? '' : `(${by})`,
  }));
  const widths = {
    what: widest(rows.map(({ what }) => what)),
    before: widest(rows.map(({ before }) => before)),
    after: widest(rows.map(({ after }) => after)),
  };
  const paths = [...new Set(rows.map(({ path }) => path))];
  return paths.flatMap((path) => [
    `  ${path}`,
    ...rows
      .filter((row) => row.path === path)
      .map(({ what, before, after, by }) =>
        [padded(`    ${what}`, widths.what + 4), padded(before, widths.before), '→', padded(after, widths.after), by]
          .join('  ')
          .trimEnd(),
      ),
  ]);
}

/** Of each pickup that was swept again, what the two sweeps say beside each other. */
const sweepLines = ({ sweeps }: Comparison): readonly string[] =>
  sweeps.flatMap(({ path, pair }) => [`  ${path.map(visible).join(' / ')}`, `    ${plainSpaces(changeWords(pair))}`]);

function findingLines({ gone, come, changed }: Comparison['findings'], styles: Styles): readonly string[] {
  return [
    ...gone.map((each) => `  ${styles.added('gone')}  ${each.severity} ${each.code}: ${visible(each.what)}`),
    ...come.map((each) => `  ${styles.removed('new')}   ${each.severity} ${each.code}: ${visible(each.what)}`),
    ...changed.map(
      ({ before, after }) => `  now   ${after.severity} ${after.code} (was ${before.severity}): ${visible(after.what)}`,
    ),
  ];
}
