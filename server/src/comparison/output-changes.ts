/** What two states of a pickup change of its output: by the coils, and by the magnets, which the levels of pickups and positions leave out. */
import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { magnetLevelDb } from '../estimates/magnet-estimates.ts';
import { difference, type Estimate, estimateOf } from '../quantities/estimate.ts';
import type { NumberName } from '../words/numbers.ts';

export interface OutputRow {
  readonly key: 'outputDb' | 'magnetDb';
  readonly name: NumberName;
  readonly before: Estimate;
  readonly after: Estimate;
  readonly difference: Estimate;
}

const BY_COILS: NumberName = { what: 'output by the coils', dimension: 'level', decimals: 1 };
const BY_MAGNETS: NumberName = { what: 'output by the magnets', dimension: 'level', decimals: 1 };

/** The magnets against what they were, so only where they differ. */
export function outputChanges(before: PickupAnalysis, after: PickupAnalysis): readonly OutputRow[] {
  const coils = after.outputSince(before.pickup);
  const [was, is] = [magnetLevelDb(before.pickup), magnetLevelDb(after.pickup)];
  const magnets = was && is && Math.abs(is.value - was.value) > SAME_DB ? difference(is, was) : undefined;
  const rows: readonly (OutputRow | undefined)[] = [
    coils && { ...coils, key: 'outputDb', name: BY_COILS, after: coils.now },
    magnets && { key: 'magnetDb', name: BY_MAGNETS, before: UNCHANGED, after: magnets, difference: magnets },
  ];
  return rows.flatMap((row) => row ?? []);
}

const UNCHANGED = estimateOf(0, { basis: 'computed' });

/** Rounding noise of a computation that went another way. */
const SAME_DB = 1e-9;
