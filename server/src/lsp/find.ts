import { given } from '../../../grammar/values/present.ts';
import type { FileSpan } from '../analysis/analysis-types.ts';
import { type PickupRecord, pickupRecord } from '../features/pickup-record.ts';
import {
  asksForSweeps,
  filterExamples,
  filtersBy,
  filtersIn,
  reasonsAskedFor,
  recordFilter,
} from '../features/record-filter.ts';
import { type FileFacts, fileFacts, type PickupThere, statedPickups } from '../features/stated-pickups.ts';
import type { Pickup } from '../model/pickup.ts';
import { printQuantity } from '../quantities/print.ts';
import { cautionsOf } from '../words/cautions.ts';
import type { Language } from '../words/languages/language.ts';
import type { FindParams, FindResult, FoundPickup } from './bench-view-protocol.ts';
import { whenRead } from './compared-states.ts';
import { fileKey } from './file-key.ts';
import type { Session } from './session.ts';
import { toRange } from './to-protocol.ts';

/** More than these are not looked at one by one: they are told by what is stated of them, unless a filter asks for numbers. */
const MOST_SOLVED = 40;

export interface Search {
  readonly session: Session;
  /** Lets what is typed or asked meanwhile come first; false where nobody waits any more. */
  readonly goOn: () => Promise<boolean>;
  readonly t: Language;
}

/** Pickups on record in these files that fit every filter, in order of their date. Only those are solved that a filter or the list asks for. */
export async function findPickups(
  { session, goOn, t }: Search,
  { typed, uris }: FindParams,
): Promise<Omit<FindResult, 'protocol'>> {
  const filters = filtersIn(typed);
  const always = { isFiltered: filters.length > 0, examples: filterExamples(), found: [], cautions: [] };
  const problem = filters.flatMap((each) => problemOf(recordFilter(each), each))[0];
  if (problem !== undefined) return { ...always, problem };
  const files = new Map<string, ReadFacts>();
  for (const uri of uris) {
    if (!(await goOn())) return always;
    const declared = await whenRead(() => session.declared(uri));
    if (declared)
      files.set(fileKey(uri), {
        file: uri,
        facts: fileFacts(declared, uri, filtersBy(filters, 'the pickup')),
        blocks: declared.model.pickups.map((pickup) => declared.locate(blockOf(pickup))),
      });
    session.release(uri);
  }
  const stated = statedPickups([...files.values()], filtersBy(filters, 'its instruments'));
  const ofNumbers = filtersBy(filters, 'its numbers');
  const isSolved = ofNumbers.length > 0 || stated.length <= MOST_SOLVED;
  const found: FoundPickup[] = [];
  for (const each of stated) {
    if (!(await goOn())) return always;
    const record = isSolved ? await solvedRecord(session, each) : each.record;
    const at = files.get(fileKey(each.file))?.blocks[each.index];
    if (at && record && ofNumbers.every((fits) => fits(record)))
      found.push(...foundPickup(session, record, at, filters));
    session.release(each.file);
  }
  const isSweepProposed = found.length > 0 && asksForSweeps(filters);
  return { ...always, found, cautions: isSweepProposed ? cautionsOf('sweep').map((each) => t(each)) : [] };
}

interface ReadFacts {
  readonly file: string;
  readonly facts: FileFacts;
  /** Where its pickups stand. */
  readonly blocks: readonly (FileSpan | undefined)[];
}

const blockOf = ({ place }: Pickup): Pickup['place'] => ({
  chunk: place.chunk,
  span: place.chunk.content?.span ?? place.span,
});

async function solvedRecord(session: Session, { file, index, record }: PickupThere): Promise<PickupRecord | undefined> {
  const analysis = await whenRead(() => session.analysisOfFile(file));
  const analysed = analysis?.pickups.find(({ pickup }) => pickup === analysis.model.pickups[index]);
  return analysis && analysed && pickupRecord(analysed, { analysis, file }, record.instruments);
}

function problemOf(result: ReturnType<typeof recordFilter>, written: string): readonly string[] {
  if ('filter' in result) return [];
  if ('example' in result) return [`“${written}”: write it like “${result.example}”`];
  return [`“${written}”: begins with one of ${result.words.join(', ')}`];
}

function foundPickup(
  session: Session,
  record: PickupRecord,
  at: FileSpan,
  filters: readonly string[],
): readonly FoundPickup[] {
  const document = session.files.document(at.uri);
  if (document === undefined) return [];
  return [
    {
      uri: at.uri,
      range: toRange(document, at),
      name: record.name,
      ...given({ title: record.title }),
      about: aboutRecord(record),
      reasons: reasonsAskedFor(record, filters),
    },
  ];
}

function aboutRecord({ serial, made, resistance20COhm: ohm, coils, magnets, instruments }: PickupRecord): string {
  const known = coils.some(({ turns }) => turns !== undefined);
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
    ...(known ? [`${turns} turns`] : []),
    ...(magnet === undefined ? [] : [magnet]),
    ...(instruments.length === 0 ? [] : [`in ${instruments.join(', ')}`]),
  ].join(' · ');
}
