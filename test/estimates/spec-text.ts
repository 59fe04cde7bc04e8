/** Numbers of a spec given as text, so that a test goes the whole way from the file to the estimate. */
import assert from 'node:assert/strict';
import type { PickupAnalysis } from '../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { CoilEstimates } from '../../server/src/estimates/estimates.ts';
import type { QuickEstimates } from '../../server/src/estimates/quick.ts';
import type { Estimate } from '../../server/src/quantities/estimate.ts';
import { analyse } from '../support/check-fixture.ts';

export function pickupOf(text: string, others: Readonly<Record<string, string>> = {}): PickupAnalysis {
  const analysis = analyse(text, others);
  const [pickup] = analysis.pickups;
  const serious = analysis.findings.filter(({ code }) => /^(syntax|unit|name|value|circuit|lead)\//.test(code));
  assert.deepEqual(
    serious.map(({ code, message }) => `${code}: ${message}`),
    [],
    text,
  );
  assert.ok(pickup, text);
  return pickup;
}

export function quickOfText(text: string): QuickEstimates {
  const analysis = analyse(text);
  const [pickup] = analysis.pickups;
  assert.ok(pickup, text);
  return quickOf(analysis.bench)(pickup.pickup);
}

export function coilOf(pickup: PickupAnalysis, name = 'c1'): CoilEstimates {
  const coil = pickup.estimates().coils.get(name);
  assert.ok(coil, name);
  return coil;
}

/** The estimate, where there must be one. */
export function known(estimate: Estimate | null | undefined, what = 'estimate'): Estimate {
  assert.ok(estimate, `${what} is not known`);
  return estimate;
}

export function near(actual: number, expected: number, relative: number, what = ''): void {
  const off = Math.abs(actual / expected - 1);
  assert.ok(
    off <= relative,
    `${what} ${actual}, expected ${expected}: ${(100 * off).toFixed(3)} % off, ${100 * relative} % allowed`,
  );
}
