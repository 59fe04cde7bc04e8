/** What the coils of two states of a pickup give to its output under the same load; magnets are told apart from them. */
import { type Estimate, restingOn } from '../quantities/estimate.ts';
import { type Contribution, levelDifference, levelOfSum } from './level-in-place.ts';
import { DEFAULT_LOAD, pickupContributions } from './pickup-estimates.ts';
import type { QuickEstimates } from './quick.ts';
import { REFERENCE_LEVEL_DB } from './sources.ts';

export interface OutputChange {
  /** dB at 100 Hz; 0 dB is one coil of 5,000 turns. */
  readonly before: Estimate;
  readonly now: Estimate;
  /** Causes of error that both share count with what they change of the difference. */
  readonly difference: Estimate;
}

const STRING_HZ = 100;

/** `undefined` where a coil's turns or sign is not known in either state. */
export function outputChange(before: QuickEstimates, now: QuickEstimates): OutputChange | undefined {
  const of = (quick: QuickEstimates): readonly Contribution[] | undefined =>
    quick.phase === 'unproven' ? undefined : pickupContributions(quick, DEFAULT_LOAD, 'string', STRING_HZ);
  const [past, present] = [of(before), of(now)];
  if (!past?.length || !present?.length || past.length < before.netlist.pickup.coils.length) return undefined;
  const level = (contributions: readonly Contribution[]) =>
    restingOn(levelOfSum(contributions, REFERENCE_LEVEL_DB), DEFAULT_LOAD.words);
  return { before: level(past), now: level(present), difference: levelDifference(present, past, 'absolute') };
}
