/** What a part of a tapped coil has of the whole, and what each coil has in the resistance between two nets. */
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { WindingEstimates } from './coil-winding.ts';
import { NOMINAL_OHM } from './common-practice.ts';
import { dcTransfers, type Segment } from './pickup-circuit.ts';

/** Resistance at 20 degC of a segment: its share of the coil's wire. */
export function segmentOhm(segment: Segment, windings: ReadonlyMap<Coil, WindingEstimates>): number | undefined {
  const whole = windings.get(segment.coil)?.resistance20COhm?.value;
  return whole === undefined ? undefined : whole * wireShareOf(segment, windings.get(segment.coil));
}

/** What a segment has of its coil's turns, wire and turn-area. Inner turns are shorter and smaller. */
export type SegmentShare = (segment: Segment, winding: WindingEstimates | undefined) => number;

export const turnsShareOf: SegmentShare = (segment, winding) => shareOf(segment, winding, (turns) => turns);
export const wireShareOf: SegmentShare = (segment, winding) =>
  shareOf(segment, winding, (turns) => winding?.lengthShareOfFirst(turns) ?? turns);
export const areaShareOf: SegmentShare = (segment, winding) =>
  shareOf(segment, winding, (turns) => winding?.areaShareOfFirst(turns) ?? turns);

/** `ofFirst` gives the share of a coil's first turns, themselves given as a share of all turns. */
function shareOf(
  { fromTurn, toTurn }: Segment,
  winding: WindingEstimates | undefined,
  ofFirst: (shareOfTurns: number) => number,
): number {
  if (fromTurn === 0 && toTurn === undefined) return 1;
  const turns = winding?.turns?.value;
  if (!turns) return 1;
  const upTo = (turn: number) => ofFirst(Math.min(turn, turns) / turns);
  return Math.max(0, upTo(toTurn ?? turns) - upTo(fromTurn));
}

/**
 * Resistance between two nets is Σ weight · ohm over the coils, share² of a meter's current summed over the parts of each, and these
 * weights are also its slopes. `undefined`: no path.
 */
export function resistanceWeights(
  netlist: PickupNetlist,
  windings: ReadonlyMap<Coil, WindingEstimates>,
  a: number,
  b: number,
): ReadonlyMap<Coil, number> | undefined {
  const shares = dcTransfers(netlist, (segment) => segmentOhm(segment, windings) ?? NOMINAL_OHM, a, b);
  if (shares === undefined) return undefined;
  const weights = new Map<Coil, number>();
  for (const [segment, share] of shares) {
    const weight = share ** 2 * wireShareOf(segment, windings.get(segment.coil));
    if (weight > NO_PATH) weights.set(segment.coil, (weights.get(segment.coil) ?? 0) + weight);
  }
  return weights;
}

/** A coil that carries less of a meter's current, squared, is not in its path. */
const NO_PATH = 1e-9;
