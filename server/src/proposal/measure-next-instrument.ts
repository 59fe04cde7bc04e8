/**
 * The one measurement that settles most of the phase and hum that are open in the positions of an instrument. A compass needs nothing
 * taken apart; for a kick at its own leads a pickup is taken out.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis, InstrumentAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { type CoilSigns, sounds } from '../estimates/signs.ts';
import type { Pickup } from '../model/pickup.ts';
import { samePlace } from '../model/place.ts';
import {
  bestOf,
  coilCandidates,
  GAP,
  handling,
  type Measurement,
  type NextMeasurement,
  type OpenQuestion,
  type Settled,
  WORDS,
  withReading,
  worstOf,
} from './measure-next.ts';

/** At one of its pickups. */
export type NextInInstrument = NextMeasurement & { readonly pickup: Pickup };

export const measureNextIn = onceFor(
  (analysed: InstrumentAnalysis, analysis: Analysis): NextInInstrument | undefined => {
    const open = openSignsOf(analysed, analysis);
    if (open.size === 0) return undefined;
    const best = bestOf(candidatesOf(analysed, analysis), (each) => settledBy(each, { analysed, analysis, open }));
    return best && { ...best.candidate, settles: best.settles.flatMap((key) => open.get(key) ?? []) };
  },
);

type OpenSigns = ReadonlyMap<string, OpenQuestion>;

/** A pickup once, also where two slots hold it. */
const pickupsOf = ({ instrument }: InstrumentAnalysis): readonly Pickup[] => [
  ...new Set(instrument.slots.flatMap(({ pickup }) => pickup ?? [])),
];

/** Of the coils that the findings of its positions and of its pickups name. */
function openSignsOf(analysed: InstrumentAnalysis, analysis: Analysis): OpenSigns {
  const own = analysed.findings.filter(({ code, isAccepted }) => code === 'phase/unproven' && !isAccepted);
  const told = own.flatMap(({ related }) => related.map(({ place }) => place));
  return openSigns(
    analysed,
    analysis,
    (signs, { coils }) =>
      (coils.length > 1 && sounds(signs)) || told.some((place) => samePlace(place, signs.coil.place)),
  );
}

const openSigns = (
  analysed: InstrumentAnalysis,
  { bench }: Analysis,
  isAsked: (signs: CoilSigns, pickup: Pickup) => boolean,
): OpenSigns =>
  new Map(
    pickupsOf(analysed).flatMap((pickup) =>
      quickOf(bench)(pickup).signs.flatMap((each) => (isAsked(each, pickup) ? openOf(each, pickup) : [])),
    ),
  );

function openOf({ coil, string, hum }: CoilSigns, pickup: Pickup): readonly (readonly [string, OpenQuestion])[] {
  const kinds = [...(string === undefined ? ['phase' as const] : []), ...(hum === undefined ? ['hum' as const] : [])];
  return kinds.map((kind) => [`${kind} ${pickup.name}.${coil.name}`, { kind, coil }]);
}

type Candidate = Measurement & { readonly pickup: Pickup };

const candidatesOf = (analysed: InstrumentAnalysis, { bench }: Analysis): readonly Candidate[] =>
  pickupsOf(analysed).flatMap((pickup) => {
    const quick = quickOf(bench)(pickup);
    return quick.signs
      .flatMap((signs) => coilCandidates(signs, quick))
      .map((each) => ({
        ...each,
        pickup,
        ...handling(each.kind, each.kind === 'compass' ? [] : ['takenOut', ...each.work]),
      }));
  });

interface Asked {
  readonly analysed: InstrumentAnalysis;
  readonly analysis: Analysis;
  readonly open: OpenSigns;
}

function settledBy(candidate: Candidate, { analysed, analysis, open }: Asked): Settled {
  if (candidate.kind !== 'kick' && candidate.kind !== 'compass') return new Map();
  return worstOf(
    WORDS[candidate.kind].map((word) => {
      const after = withReading(analysis, candidate.pickup, candidate.line.replace(GAP, word));
      const again = after?.instruments.find(({ instrument }) => instrument.name === analysed.instrument.name);
      const still = after && again ? openSigns(again, after, () => true) : open;
      return new Map([...open.keys()].map((key) => [key, still.has(key) ? 0 : 1]));
    }),
  );
}
