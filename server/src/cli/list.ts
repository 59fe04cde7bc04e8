import { type PickupRecord, pickupRecords, type RecordedFile, type StateRecord } from '../features/pickup-record.ts';
import { filterExamples, type RecordFilter, recordFilter } from '../features/record-filter.ts';
import { CommandError, defineCommand } from './command.ts';
import { padded, valueText, widest } from './figures-text.ts';
import { specFiles } from './files.ts';
import { meant } from './meant.ts';
import { analyseSource, SOURCE_OPTIONS, sourceReader } from './source.ts';
import type { Styles } from './styles.ts';
import { jsonText, visible, visibleLines } from './visible.ts';

export const list = defineCommand({
  name: 'list',
  summary: 'the pickups on record, filtered',
  positionals: '[DIR]',
  least: 0,
  most: 1,
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
    const filters = values.where.map(requireFilter);
    const { files, problems } = specFiles([folder], context.cwd);
    const unusable = [...problems];
    const read: RecordedFile[] = [];
    const reader = sourceReader(values.root, context.cwd);
    for (const file of files) {
      const result = reader(file);
      if (result.ok) read.push({ file: result.source.shown, analysis: analyseSource(result.source, context) });
      else unusable.push(result.problem);
    }
    const records = pickupRecords(read)
      .map(({ record }) => record)
      .filter((record) => filters.every((fits) => fits(record)))
      .sort((a, b) => compareTexts(a.made ?? '', b.made ?? '') || compareTexts(a.file, b.file));
    context.progress.clear();
    for (const problem of unusable) context.stderr.write(`pickup-spec: ${visibleLines(problem)}\n`);
    context.stdout.write(
      values.format === 'json'
        ? jsonText({ schema: 'list/1', pickups: records })
        : listText(records, values, context.styles),
    );
    return unusable.length > 0 ? 2 : 0;
  },
});

function requireFilter(written: string): RecordFilter {
  const result = recordFilter(written);
  if ('filter' in result) return result.filter;
  if ('example' in result) throw new CommandError(`--where "${written}": write it like "${result.example}"`);
  const likely = meant(result.word, result.words);
  const hint = likely === undefined ? `begins with one of ${result.words.join(', ')}` : `did you mean ${likely}?`;
  throw new CommandError(`--where "${written}": ${hint}`);
}

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

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

function listText(
  found: readonly PickupRecord[],
  { where, life }: { readonly where: readonly string[]; readonly life: boolean },
  styles: Styles,
): string {
  const records = found.flatMap((record): readonly Listed[] => [record, ...(life ? record.life : [])]);
  if (records.length === 0) return where.length === 0 ? 'no pickups on record\n' : 'no pickup fits\n';
  const rows = records.map((record) => COLUMNS.map(([, cell]) => visible(cell(record))));
  const table = [COLUMNS.map(([title]) => title), ...rows];
  const widths = COLUMNS.map((_, column) => widest(table.map((row) => row[column] ?? '')));
  const lines = table.map((row) =>
    row
      .map((cell, column) => padded(cell, widths[column] ?? 0))
      .join('  ')
      .trimEnd(),
  );
  const [title = '', ...body] = lines;
  const asks = (begin: string): boolean => where.some((filter) => filter.trim().startsWith(begin));
  const reasons = records.map((record) => [
    ...(asks('design') ? (record.differsFromDesign ?? []) : []),
    ...(asks('needs') ? (record.needsRetest ?? []) : []),
  ]);
  return [
    styles.faint(title),
    ...body.flatMap((line, index) => [line, ...(reasons[index] ?? []).map((reason) => `    ${visible(reason)}`)]),
    '',
  ].join('\n');
}

function resistanceCell(figure: PickupRecord['resistance20COhm']): string {
  return figure === undefined ? '-' : valueText({ figure, dimension: 'resistance', none: 'open' });
}
