/** What sweeps of two states say of a pickup beside each other: what recorder, resistor and meter do to both has cancelled. */
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { type SweptPair, sweptInBoth } from '../estimates/sweep-comparison.ts';
import type { Pickup } from '../model/pickup.ts';

export interface SweepChange {
  /** `pickup hesk-neck`; as called after the change. */
  readonly path: readonly string[];
  readonly pickup: Pickup;
  readonly pair: SweptPair;
}

/** Of pickups that both states have, and that were swept again. */
export function compareSweeps(
  before: Analysis,
  after: Analysis,
  renamed: ReadonlyMap<string, string>,
): readonly SweepChange[] {
  const former = new Map(before.pickups.map(({ pickup }) => [renamed.get(pickup.name) ?? pickup.name, pickup]));
  return after.pickups.flatMap(({ pickup }) => {
    const past = former.get(pickup.name);
    const pair = past && sweptInBoth(quickOf(before.bench)(past), quickOf(after.bench)(pickup));
    return pair ? [{ path: [`pickup ${pickup.name}`], pickup, pair }] : [];
  });
}
