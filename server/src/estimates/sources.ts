/** What drives a circuit of coils: the signed e.m.f. of each for a string and for hum, and what reaches the output of it. */
import { given } from '../../../grammar/values/present.ts';
import type { Coil } from '../model/coil.ts';
import type { Slot } from '../model/instrument.ts';
import type { Network } from '../physics/circuit/network.ts';
import type { Drives } from '../physics/circuit/response.ts';
import { transfers } from '../physics/circuit/solve.ts';
import { add, type Complex, magnitude, scale, zero } from '../physics/complex.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { causes } from './causes.ts';
import { LOUDNESS_BY_INDUCTANCE_RELATIVE_SD, USUAL_COIL_HENRY } from './common-practice.ts';
import type { Contribution } from './level-in-place.ts';
import { pickupMagnetics } from './magnetics.ts';
import { knownOrAlike, stringShare, stringsUnder } from './phase.ts';
import type { Segment } from './pickup-circuit.ts';
import type { QuickEstimates } from './quick.ts';
import { because } from './reasons.ts';
import { areaShareOf, type SegmentShare, turnsShareOf } from './segment-shares.ts';
import type { CoilSigns } from './signs.ts';

/** A coil, or a part of one, as a source; where it is fitted, if anywhere. */
export interface Source {
  readonly segment: Segment;
  readonly quick: QuickEstimates;
  readonly slot?: Slot;
}

export type Drive = 'string' | 'hum';

/** Unloaded string signal of one coil of this many turns is 0 dB. */
export const REFERENCE_TURNS = 5000;
export const REFERENCE_LEVEL_DB = 20 * Math.log10(REFERENCE_TURNS);

/**
 * Signed e.m.f. of each source for a string, by its turns. Where some are not known, all coils count by the root of their inductance,
 * which goes with the turns of coils that are alike otherwise; where that is not known either, as of 5,000 turns. `loudness`: a factor on
 * what is not known by turns.
 */
export const stringSources = (sources: readonly Source[], loudness = 1): Record<string, number> =>
  signed(sources, stringSizes(sources, loudness), {
    sign: ({ windPole }) => windPole,
    part: turnsShareOf,
    share: stringShare,
  });

function stringSizes(sources: readonly Source[], loudness: number): readonly number[] {
  const turns = sources.map(turnsOf);
  const known = turns.flatMap((each) => each ?? []);
  if (known.length === sources.length) return known;
  const sizes = sources.map(sizeByInductance);
  const isEachMeasured = sizes.every((size) => size !== undefined);
  const unsure = new Set(sources.filter((_, at) => turns[at] === undefined || !isEachMeasured).map(coilOf));
  // Where all are, the others are held against the first.
  const [first] = sources;
  if (first && sources.every((source) => unsure.has(coilOf(source)))) unsure.delete(coilOf(first));
  return sources.map(
    (source, at) => ((isEachMeasured && sizes[at]) || REFERENCE_TURNS) * (unsure.has(coilOf(source)) ? loudness : 1),
  );
}

const turnsOf = ({ segment, quick }: Source): number | undefined => quick.windings.get(segment.coil)?.turns?.value;
const coilOf = ({ segment }: Source): Coil => segment.coil;

/** Of a pickup that was swept closed all coils at once: in series as in parallel their e.m.f. goes with the root of their number times L. */
function sizeByInductance({ segment, quick }: Source): number | undefined {
  const henry = pickupMagnetics(quick).coils.get(segment.coil)?.totalH.value;
  return henry && REFERENCE_TURNS * Math.sqrt(((quick.coilsSweptWhole ?? 1) * henry) / USUAL_COIL_HENRY);
}

/** What is not known of how loud coils are beside each other, by a measured inductance only; 1 where their turns are known. */
export const loudnessCause = (quick: readonly QuickEstimates[]): Estimate =>
  isByInductance(quick)
    ? estimateOf(1, { sd: LOUDNESS_BY_INDUCTANCE_RELATIVE_SD, basis: 'assumed', source: causes.loudness })
    : estimateOf(1, { basis: 'computed' });

/** What is to be said where a response rests on that. */
export const loudnessReasons = (quick: readonly QuickEstimates[]): readonly string[] =>
  isByInductance(quick) ? [BY_INDUCTANCE] : [];

export const BY_INDUCTANCE = because(
  'how loud coils of unknown turns are beside others, by the root of their inductance, to 30\u202F%',
);

function isByInductance(quick: readonly QuickEstimates[]): boolean {
  const windings = quick.flatMap((each) => [...each.windings.values()]);
  return windings.length > 1 && windings.some(({ turns }) => turns === undefined);
}

const ownStrings = ({ segment, quick }: Source) => stringsUnder(segment.coil, quick.netlist.pickup);

/** A circuit with what drives it. */
export interface DrivenCircuit {
  readonly network: Network;
  readonly output: string;
  readonly segments: readonly Source[];
  /** Of coils of unknown turns, see `stringSources`. */
  readonly loudness?: number;
}

/**
 * What strings drive at their times: all coils together where no coil has strings of its own, else what each string runs over, of those
 * strings that anything sounding hears.
 */
export function stringDrives(circuit: DrivenCircuit): Drives {
  const { network, output, segments, loudness } = circuit;
  const values = stringSources(segments, loudness);
  const ranges = segments.map((source) => ({ name: source.segment.source, strings: ownStrings(source) }));
  const count = Math.max(0, ...ranges.map(({ strings }) => strings?.of ?? 0));
  if (count === 0) return values;
  const shares = transfers(network, output, LOW_HZ);
  const live = typeof shares === 'string' ? [] : soundingSources(circuit, shares).map(({ segment }) => segment.source);
  const sounding = ranges.filter(({ name }) => values[name] !== 0 && live.includes(name));
  const heardBy = new Map<string, { readonly values: Record<string, number>; weight: number }>();
  for (let string = 1; string <= count; string++) {
    const own = sounding.filter(({ strings }) => !strings || (strings.from <= string && string <= strings.to));
    const key = own.map(({ name }) => name).join();
    const before = heardBy.get(key);
    if (before) before.weight += 1;
    else if (own.length > 0)
      heardBy.set(key, { values: Object.fromEntries(own.map(({ name }) => [name, values[name] ?? 0])), weight: 1 });
  }
  return heardBy.size > 0 ? [...heardBy.values()] : values;
}

/** Below every resonance, where resistances alone decide what reaches the output. */
const LOW_HZ = 10;

/** Signed e.m.f. of each source in a uniform field, by its turn-area. Where some are not known, all coils count alike. */
export const humSources = (sources: readonly Source[]): Record<string, number> => {
  const areas = sources.map(({ segment, quick }) => quick.windings.get(segment.coil)?.turnAreaM2?.value);
  return signed(sources, knownOrAlike(areas, 1), { sign: ({ wind }) => wind, part: areaShareOf, share: () => 1 });
};

interface Excitation {
  sign(signs: CoilSigns): CoilSigns['wind'];
  readonly part: SegmentShare;
  share(coil: Coil): number;
}

function signed(
  sources: readonly Source[],
  sizes: readonly number[],
  { sign, part, share }: Excitation,
): Record<string, number> {
  return Object.fromEntries(
    sources.map(({ segment, quick }, index) => {
      const signs = quick.signs.find(({ coil }) => coil === segment.coil);
      const way = (signs && sign(signs)?.sign) ?? 1;
      const winding = quick.windings.get(segment.coil);
      return [segment.source, way * (sizes[index] ?? 1) * part(segment, winding) * share(segment.coil)];
    }),
  );
}

/**
 * What each coil that sounds gives to the output at a frequency: of a string by its turns, of hum in a uniform field by its turn-area.
 * The parts of a tapped coil are one coil. `undefined` where nothing reaches the output.
 */
export function contributionsOf(
  circuit: DrivenCircuit,
  what: Drive,
  frequencyHz: number,
  placeOf: (slot: Slot) => number | undefined = () => undefined,
): readonly Contribution[] | undefined {
  const { network, output, segments } = circuit;
  const shares = transfers(network, output, frequencyHz);
  if (typeof shares === 'string') return undefined;
  const emfs = what === 'string' ? stringSources(segments) : humSources(segments);
  const sounding = soundingSources(circuit, shares);
  const coils: { readonly source: Source; amplitude: Complex }[] = [];
  for (const source of sounding) {
    const { segment, slot } = source;
    const share = scale(shares[network.sources.indexOf(segment.source)] ?? zero, emfs[segment.source] ?? 0);
    const before = coils.find((each) => each.source.segment.coil === segment.coil && each.source.slot === slot);
    if (before) before.amplitude = add(before.amplitude, share);
    else coils.push({ source, amplitude: share });
  }
  const contributions = coils.flatMap(({ source, amplitude }): readonly Contribution[] => {
    const { segment, quick, slot } = source;
    const strings = what === 'string' ? ownStrings(source) : undefined;
    const place = slot && placeOf(slot);
    const winding = quick.windings.get(segment.coil);
    const term = what === 'string' ? winding?.turns : winding?.turnAreaM2;
    if (!term || !(term.value > 0) || magnitude(amplitude) === 0) return [];
    return [{ term, weight: scale(amplitude, 1 / term.value), ...given({ strings, place }) }];
  });
  return contributions.length > 0 ? contributions : undefined;
}

/**
 * Sources of coils of which more than a hundredth of the strongest share reaches the output. A shorted coil gives the little that its
 * coupling carries, a coil that hangs at one end what strays carry: both are silent.
 */
function soundingSources({ network, segments }: DrivenCircuit, shares: readonly Complex[]): readonly Source[] {
  const sizes = segments.map(({ segment }) => magnitude(shares[network.sources.indexOf(segment.source)] ?? zero));
  const strongest = Math.max(0, ...sizes);
  const least = Math.max(SILENT * strongest, LEAST_SHARE);
  const live = new Set(segments.filter((_, index) => (sizes[index] ?? 0) > least).map(({ segment }) => segment.coil));
  return segments.filter(({ segment }) => live.has(segment.coil));
}

const SILENT = 0.01;
/** Less is rounding and strays, whatever else sounds. */
const LEAST_SHARE = 1e-9;
