import type { Analysis } from '../analysis/analysis-types.ts';
import { ownSubjects } from '../features/own-subjects.ts';
import { type PickupRecord, pickupRecords } from '../features/pickup-record.ts';
import { filterExamples, filtersIn, type RecordFilter, recordFilter } from '../features/record-filter.ts';
import { printQuantity } from '../quantities/print.ts';
import type { FindParams, FindResult, FoundPickup } from './bench-view-protocol.ts';
import { PROTOCOL_VERSION } from './protocol.ts';
import type { Session } from './session.ts';
import { toRange } from './to-protocol.ts';

/** Pickups on record in these files that fit every filter, in order of their date. */
export function findPickups(session: Session, analyses: readonly Analysis[], { typed }: FindParams): FindResult {
  const filters = filtersIn(typed);
  const always = { protocol: PROTOCOL_VERSION, isFiltered: filters.length > 0, examples: filterExamples() };
  const read = filters.map(recordFilter);
  const problem = read.flatMap((each, index) => problemOf(each, filters[index] ?? ''))[0];
  if (problem !== undefined) return { ...always, found: [], problem };
  const filterFunctions: readonly RecordFilter[] = read.flatMap((each) => ('filter' in each ? [each.filter] : []));
  const found = pickupRecords(analyses.map((analysis) => ({ analysis, file: analysis.uri }))).filter(({ record }) =>
    filterFunctions.every((fits) => fits(record)),
  );
  found.sort(
    (a, b) => compareTexts(a.record.made ?? '', b.record.made ?? '') || compareTexts(a.record.file, b.record.file),
  );
  return {
    ...always,
    found: found.flatMap(({ record, analysis }) => foundPickup(session, record, analysis, filters)),
  };
}

function problemOf(result: ReturnType<typeof recordFilter>, written: string): readonly string[] {
  if ('filter' in result) return [];
  if ('example' in result) return [`“${written}”: write it like “${result.example}”`];
  return [`“${written}”: begins with one of ${result.words.join(', ')}`];
}

function foundPickup(
  session: Session,
  record: PickupRecord,
  analysis: Analysis,
  filters: readonly string[],
): readonly FoundPickup[] {
  const document = session.files.document(analysis.uri);
  const own = ownSubjects(analysis).find(({ kind, name }) => kind === 'pickup' && name === record.name);
  if (document === undefined || own === undefined) return [];
  const asks = (begin: string): boolean => filters.some((filter) => filter.trim().startsWith(begin));
  return [
    {
      uri: analysis.uri,
      range: toRange(document, own.span),
      name: record.name,
      ...(record.title === undefined ? {} : { title: record.title }),
      about: aboutRecord(record),
      reasons: [...(asks('design') ? record.differsFromDesign : []), ...(asks('needs') ? record.needsRetest : [])],
    },
  ];
}

function aboutRecord({ serial, made, resistance20COhm: ohm, coils, magnets, instruments }: PickupRecord): string {
  const turns = coils.map(({ turns: count }) => (count === undefined ? '?' : Math.round(count))).join(' + ');
  const magnet = magnets.at(-1);
  return [
    ...(serial === undefined ? [] : [serial]),
    ...(made === undefined ? [] : [made]),
    ...(ohm === undefined
      ? []
      : [
          ohm === null
            ? 'open'
            : printQuantity({ value: ohm.value, sd: ohm.uncertainty ?? Number.NaN, dimension: 'resistance' }),
        ]),
    `${turns} turns`,
    ...(magnet === undefined ? [] : [magnet]),
    ...(instruments.length === 0 ? [] : [`in ${instruments.join(', ')}`]),
  ].join(' · ');
}

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
