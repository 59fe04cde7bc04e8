import type { PickupRecord, StateRecord } from '../features/pickup-record.ts';
import { asksForSweeps, filterExamples, filtersBy, reasonsAskedFor, recordFilter } from '../features/record-filter.ts';
import { type FileFacts, type PickupThere, statedPickups } from '../features/stated-pickups.ts';
import { cautionsOf } from '../words/cautions.ts';
import { CommandError, defineCommand } from './command.ts';
import type { Context } from './context.ts';
import { padded, valueText, widest } from './figures-text.ts';
import { specFiles } from './files.ts';
import { jsonEntry, jsonList } from './json-list.ts';
import { factsTask, type ListSettings, recordTask } from './list-tasks.ts';
import { didYouMean } from './meant.ts';
import { SOURCE_OPTIONS } from './source.ts';
import type { Styles } from './styles.ts';
import { visible, visibleLines } from './visible.ts';

export const list = defineCommand({
  name: 'list',
  summary: 'the pickups on record, filtered',
  positionals: '[DIR]',
  options: {
    where: { type: 'list', value: 'FILTER', meaning: 'only pickups that fit; several filters must all fit' },
    life: { type: 'flag', meaning: 'below each pickup what it was before it was reworked' },
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the records are written' },
    root: SOURCE_OPTIONS.root,
  },
  notes: [
    `A filter is written like a fact, * stands for anything:\n${filterExamples()
      .map((example) => `  --where "${example}"`)
      .join('\n')}`,
    'A pickup that was reworked is listed in its newest state, and found by it.',
    'Resistances are between hot and ground at 20 °C.',
  ],
  example: {
    line: 'pickup-spec list samples --where "spool RYD-W7" --where "made 2026-03 to 2026-04"',
    meaning: 'everything wound from one spool in two months',
  },
  async run(values, [folder = '.'], context) {
    for (const written of values.where) requireFilter(written);
    const settings: ListSettings = { cwd: context.cwd, root: values.root, where: values.where };
    const { files, problems } = specFiles([folder], context.cwd);
    const facts = await readFacts(files, settings, context);
    const unusable = [...problems, ...facts.problems];
    context.progress.clear();
    for (const problem of unusable) context.stderr.write(`pickup-spec: ${visibleLines(problem)}\n`);
    const stated = facts.pickups.map(({ record }) => record);
    const listing = values.format === 'json' ? jsonListing() : textListing(stated, values, context.styles);
    let done = 0;
    let count = 0;
    const wanted = facts.pickups.map(({ file, index, record: { instruments } }) => ({ file, index, instruments }));
    for await (const { record } of context.threads.each(recordTask, settings, wanted)) {
      done += 1;
      if (record) {
        context.progress.clear();
        context.stdout.write(listing.entry(record, count === 0));
        count += 1;
      }
      context.progress.step(`${done} of ${facts.pickups.length} pickups`);
    }
    context.progress.clear();
    context.stdout.write(listing.end(count === 0));
    return unusable.length > 0 ? 2 : 0;
  },
});

interface Facts {
  /** In the order in which they are listed. */
  readonly pickups: readonly PickupThere[];
  readonly problems: readonly string[];
}

/** What may fit, by all that files state. */
async function readFacts(files: readonly string[], settings: ListSettings, context: Context): Promise<Facts> {
  const problems: string[] = [];
  const read: { readonly file: string; readonly facts: FileFacts }[] = [];
  let done = 0;
  for await (const each of context.threads.each(factsTask, settings, files)) {
    const file = files[done] ?? '';
    done += 1;
    context.progress.step(`${done} of ${files.length} files`);
    if (each.ok) read.push({ file, facts: each });
    else problems.push(each.problem);
  }
  return { problems, pickups: statedPickups(read, filtersBy(settings.where, 'its instruments')) };
}

function requireFilter(written: string): void {
  const result = recordFilter(written);
  if ('filter' in result) return;
  if ('example' in result) throw new CommandError(`--where "${written}": write it like "${result.example}"`);
  const hint = didYouMean(result.word, result.words, `begins with one of ${result.words.join(', ')}`);
  throw new CommandError(`--where "${written}": ${hint}`);
}

type Listed = StateRecord & Partial<PickupRecord>;

const COLUMNS: readonly (readonly [title: string, cell: (record: Listed) => string])[] = [
  ['serial', ({ serial, file }) => serial ?? (file === undefined ? '' : '-')],
  ['pickup', ({ name, file }) => (file === undefined ? `was ${name}` : name)],
  ['made', ({ made }) => made ?? '-'],
  ['resistance', ({ resistance20COhm: figure }) => resistanceCell(figure)],
  ['turns', ({ coils }) => coils.map(({ turns }) => (turns === undefined ? '?' : Math.round(turns))).join(' + ')],
  ['magnet', ({ magnets }) => magnets.at(-1) ?? '-'],
  ['instrument', ({ instruments }) => (instruments === undefined ? '' : instruments.join(', ') || '-')],
  ['file', ({ file }) => file ?? ''],
];

/** Of resistance and turns. */
const USUAL_WIDTHS: readonly number[] = [0, 0, 0, '10.52 ± 0.05 kΩ'.length, '5050 + 5050'.length];

/** Entries as text, one by one. */
interface Listing {
  entry(record: PickupRecord, isFirst: boolean): string;
  end(isEmpty: boolean): string;
}

function jsonListing(): Listing {
  const list = jsonList('list/1', 'pickups');
  return { entry: (record, isFirst) => list.before(isFirst) + jsonEntry(record), end: (isEmpty) => list.end(isEmpty) };
}

/** Columns as wide as what the files state needs, and as numbers of the usual length do: rows are written before all are known. */
function textListing(
  stated: readonly PickupRecord[],
  { where, life }: { readonly where: readonly string[]; readonly life: boolean },
  styles: Styles,
): Listing {
  const widths = COLUMNS.map(([title, cell], column) =>
    Math.max(USUAL_WIDTHS[column] ?? 0, widest([title, ...stated.map((record) => visible(cell(record)))])),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, column) => padded(cell, widths[column] ?? 0))
      .join('  ')
      .trimEnd();
  const row = (record: Listed): readonly string[] => [
    line(COLUMNS.map(([, cell]) => visible(cell(record)))),
    ...reasonsAskedFor(record, where).map((reason) => `    ${visible(reason)}`),
  ];
  return {
    entry(record, isFirst) {
      const title = isFirst ? [styles.faint(line(COLUMNS.map(([name]) => name)))] : [];
      return `${[...title, ...row(record), ...(life ? record.life : []).flatMap(row)].join('\n')}\n`;
    },
    end: (isEmpty) => {
      if (isEmpty) return where.length === 0 ? 'no pickups on record\n' : 'no pickup fits\n';
      return asksForSweeps(where) ? `\n${cautionsOf('sweep').join('\n')}\n` : '';
    },
  };
}

function resistanceCell(figure: PickupRecord['resistance20COhm']): string {
  return figure === undefined ? '-' : valueText({ figure, dimension: 'resistance', none: 'open' });
}
