/** What drives a circuit of coils: the signed e.m.f. of each for a string and for hum, and what reaches the output of it. */
import { given } from '../../../grammar/values/present.ts';
import type { Coil } from '../model/coil.ts';
import type { Slot } from '../model/instrument.ts';
import type { Network } from '../physics/circuit/network.ts';
import type { Drives } from '../physics/circuit/response.ts';
import { transfers } from '../physics/circuit/solve.ts';
import { add, type Complex, magnitude, scale, zero } from '../physics/complex.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { WindingEstimates } from './coil-winding.ts';
import type { Contribution } from './level-in-place.ts';
import { knownOrAlike, stringShare, stringsUnder } from './phase.ts';
import type { Segment } from './pickup-circuit.ts';
import type { QuickEstimates } from './quick.ts';
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

/** Signed e.m.f. of each source for a string, by its turns. Where some are not known, all coils count as of 5,000 turns. */
export const stringSources = (sources: readonly Source[]): Record<string, number> =>
  signed(sources, {
    sign: ({ windPole }) => windPole,
    size: ({ turns }) => turns,
    part: turnsShareOf,
    alike: REFERENCE_TURNS,
    share: stringShare,
  });

const ownStrings = ({ segment, quick }: Source) => stringsUnder(segment.coil, quick.netlist.pickup);

/** A circuit with what drives it. */
export interface DrivenCircuit {
  readonly network: Network;
  readonly output: string;
  readonly segments: readonly Source[];
}

/**
 * What strings drive at their times: all coils together where no coil has strings of its own, else what each string runs over, of those
 * strings that anything sounding hears.
 */
export function stringDrives(circuit: DrivenCircuit): Drives {
  const { network, output, segments } = circuit;
  const values = stringSources(segments);
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
export const humSources = (sources: readonly Source[]): Record<string, number> =>
  signed(sources, {
    sign: ({ wind }) => wind,
    size: ({ turnAreaM2 }) => turnAreaM2,
    part: areaShareOf,
    alike: 1,
    share: () => 1,
  });

interface Excitation {
  sign(signs: CoilSigns): CoilSigns['wind'];
  size(winding: WindingEstimates): Estimate | undefined;
  readonly part: SegmentShare;
  readonly alike: number;
  share(coil: Coil): number;
}

function signed(sources: readonly Source[], { sign, size, part, alike, share }: Excitation): Record<string, number> {
  const windings = sources.map(({ segment, quick }) => quick.windings.get(segment.coil));
  const sizes = knownOrAlike(
    windings.map((winding) => winding && size(winding)?.value),
    alike,
  );
  return Object.fromEntries(
    sources.map(({ segment, quick }, index) => {
      const signs = quick.signs.find(({ coil }) => coil === segment.coil);
      const way = (signs && sign(signs)?.sign) ?? 1;
      return [segment.source, way * (sizes[index] ?? alike) * part(segment, windings[index]) * share(segment.coil)];
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
