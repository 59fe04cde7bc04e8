/** Who uses the parts that a file declares, and what is left on its spools after the coils that are still to be wound. */

import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import { newestOf } from '../analysis/newest.ts';
import { type OwnPart, ownParts } from '../analysis/own-parts.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { coilsToWind, wireForCoils } from '../estimates/coils-to-wind.ts';
import type { Place } from '../model/place.ts';
import type { Spool } from '../model/wire.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { printQuantity } from '../quantities/print.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { titleOf } from '../words/parts.ts';
import { list } from '../words/text.ts';
import { WIRE_SPARE_SHARE } from '../words/wire-spare.ts';

export interface PartUsage {
  readonly part: OwnPart;
  /** Pickups with their coils, parts that are like it, spools that hold it; each once. */
  readonly usedBy: readonly string[];
  /** Of a spool: what is on it and what is left once the coils that are planned have been wound. */
  readonly left?: string;
}

/** `among`: the files that may use them, the file itself included. */
export function partUsage(analysis: Analysis, among: readonly Analysis[], t = ENGLISH): readonly PartUsage[] {
  return ownParts(analysis)
    .filter(({ of }) => of.kind !== 'bench')
    .map((part) => {
      const isIt = isThe(blockAt(analysis, part.place));
      const usedBy = among.flatMap((other) => [...partsThatUse(other, isIt), ...pickupsThatUse(other, isIt, t)]);
      return {
        part,
        usedBy: [...new Set(usedBy)],
        ...(part.of.kind === 'spool' ? { left: leftWords(part.of.thing, among, isIt, t) } : {}),
      };
    });
}

/** Where the block begins that a place lies in: a name, a block and a reference to it are told to be one by that. */
const blockAt = (analysis: Analysis, place: Place | undefined): FileSpan | undefined =>
  place && analysis.locate({ chunk: place.chunk, span: { start: 0, end: 0 } });

type IsIt = (analysis: Analysis, place: Place | undefined) => boolean;

const isThe =
  (wanted: FileSpan | undefined): IsIt =>
  (analysis, place) => {
    const at = blockAt(analysis, place);
    return at !== undefined && at.uri === wanted?.uri && at.start === wanted.start;
  };

function partsThatUse(analysis: Analysis, isIt: IsIt): readonly string[] {
  return ownParts(analysis).flatMap(({ name, place }) =>
    analysis.model
      .references()
      .some(
        (reference) => !reference.declares && reference.place.chunk === place.chunk && isIt(analysis, reference.target),
      )
      ? [name]
      : [],
  );
}

/** Former states of a pickup are records: the pickup as it is uses the part. */
function pickupsThatUse(analysis: Analysis, isIt: IsIt, t: Language): readonly string[] {
  return newestOf(analysis.pickups).flatMap(({ pickup }) => {
    const coils = pickup.coils.filter(({ bobbin, wire, spool }) =>
      [bobbin, wire, spool].some((each) => isIt(analysis, each?.place)),
    );
    if (coils.length > 0)
      return [
        `${titleOf(pickup)} (${list(
          coils.map(({ name }) => name),
          t('and'),
        )})`,
      ];
    return isIt(analysis, pickup.barMagnet?.value.magnet?.place) ? [titleOf(pickup)] : [];
  });
}

/** What is on a spool, and what is left once the coils have been wound that these files plan on it. */
export const leftOnSpool = (analysis: Analysis, spool: Spool, among: readonly Analysis[] = [analysis]): string =>
  leftWords(spool, among, isThe(blockAt(analysis, spool.place)), ENGLISH);

function leftWords(spool: Spool, among: readonly Analysis[], isIt: IsIt, t: Language): string {
  const planned = among.flatMap((analysis) =>
    newestOf(analysis.pickups).flatMap(({ pickup }) => {
      const quick = quickOf(analysis.bench)(pickup);
      return [...coilsToWind(quick)].flatMap(([from, coils]) =>
        isIt(analysis, from.place) ? coils.map((coil) => quick.windings.get(coil)?.wireMassKg) : [],
      );
    }),
  );
  const on = spool.left?.value;
  if (planned.length === 0) return on ? `${on.written}; ${t('no coil is planned on it')}` : t('not stated');
  return `${on ? `${on.written}; ` : ''}${plannedWords(planned, on?.si, t)}`;
}

function plannedWords(planned: readonly (Estimate | undefined)[], onKg: number | undefined, t: Language): string {
  const coils =
    planned.length === 1 ? t('one coil still to be wound') : t('{0} coils still to be wound', String(planned.length));
  const needed = wireForCoils(planned);
  if (!needed) return t('{0}, of which the wire is not known', coils);
  const grams = (value: number): string =>
    printQuantity({ value, dimension: 'mass', unit: 'g', digits: 2, style: t.numbers });
  const takes = t('{0} for {1}, with {2} spare', grams(needed.withSpareKg.value), coils, WIRE_SPARE_SHARE);
  if (onKg === undefined) return takes;
  const left = onKg - needed.withSpareKg.value;
  return `${takes}; ${left < 0 ? t('{0} too little', grams(-left)) : t('{0} left after that', grams(left))}`;
}
