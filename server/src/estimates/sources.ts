/** What drives a circuit of coils: the signed e.m.f. of each for a string and for hum, and what reaches the output of it. */
import type { Coil } from '../model/coil.ts';
import type { Slot } from '../model/instrument.ts';
import type { Network } from '../physics/circuit/network.ts';
import { transfers } from '../physics/circuit/solve.ts';
import { add, type Complex, scale, zero } from '../physics/complex.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { WindingEstimates } from './coil-winding.ts';
import type { Contribution } from './level-in-place.ts';
import { knownOrAlike, stringShare } from './phase.ts';
import type { Segment } from './pickup-circuit.ts';
import { areaShareOf, type QuickEstimates, type SegmentShare, turnsShareOf } from './quick.ts';
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
 * What each coil gives to the output at a frequency: of a string by its turns, of hum in a uniform field by its turn-area. The parts
 * of a tapped coil are one coil. `undefined` where nothing reaches the output.
 */
export function contributionsOf(
  {
    network,
    output,
    segments,
  }: { readonly network: Network; readonly output: string; readonly segments: readonly Source[] },
  what: Drive,
  frequencyHz: number,
): readonly Contribution[] | undefined {
  const shares = transfers(network, output, frequencyHz);
  if (typeof shares === 'string') return undefined;
  const emfs = what === 'string' ? stringSources(segments) : humSources(segments);
  const coils: { readonly source: Source; amplitude: Complex }[] = [];
  for (const source of segments) {
    const { segment, slot } = source;
    const share = scale(shares[network.sources.indexOf(segment.source)] ?? zero, emfs[segment.source] ?? 0);
    const before = coils.find((each) => each.source.segment.coil === segment.coil && each.source.slot === slot);
    if (before) before.amplitude = add(before.amplitude, share);
    else coils.push({ source, amplitude: share });
  }
  return coils.flatMap(({ source: { segment, quick }, amplitude }) => {
    const winding = quick.windings.get(segment.coil);
    const term = what === 'string' ? winding?.turns : winding?.turnAreaM2;
    return term && term.value > 0 ? [{ term, weight: scale(amplitude, 1 / term.value) }] : [];
  });
}
