import type { PickupAnalysis } from './analysis-types.ts';

/** Without those that another of them reworks: a former state is a record of the pickup, not a pickup of its own. */
export function newestOf<P extends Pick<PickupAnalysis, 'pickup'>>(pickups: readonly P[]): readonly P[] {
  const former = new Set(pickups.map(({ pickup }) => pickup.reworks));
  return pickups.filter(({ pickup }) => !former.has(pickup));
}
