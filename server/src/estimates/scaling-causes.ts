import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { pickupMagnetics } from './magnetics.ts';
import type { QuickEstimates } from './quick.ts';

/**
 * One standard deviation of all resistances, inductances and capacitances of some pickups, each as a factor round 1. The least
 * known coil stands for all. What it owes to a named cause (a reel, the poles of one pickup) stays named, so that the difference of
 * two states of one pickup is known better than either.
 */
export function scalingCauses(quick: readonly QuickEstimates[]): readonly Estimate[] {
  const magnetics = quick.flatMap((each) => [...pickupMagnetics(each).coils.values()]);
  return [
    leastKnown(quick.flatMap((each) => [...each.windings.values()].map(({ resistance20COhm }) => resistance20COhm))),
    leastKnown(magnetics.map(({ totalH }) => totalH)),
    leastKnown(magnetics.map(({ capacitanceF }) => capacitanceF)),
  ];
}

function leastKnown(estimates: readonly (Estimate | undefined)[]): Estimate {
  const known = estimates.flatMap((each) => (each && each.value > 0 ? [each] : []));
  const worst = known.reduce<Estimate | undefined>(
    (before, each) => (before && before.sd / before.value >= each.sd / each.value ? before : each),
    undefined,
  );
  if (worst === undefined) return estimateOf(1, { basis: 'computed' });
  const sources = Object.entries(worst.sources ?? {}).map(([name, share]) => [name, share / worst.value] as const);
  return {
    ...estimateOf(1, { sd: worst.sd / worst.value, basis: 'computed' }),
    ...(sources.length > 0 ? { sources: Object.fromEntries(sources) } : {}),
  };
}
