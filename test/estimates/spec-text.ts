/** Specs put together from numbers: text in, as a winder would write it, so that a test goes the whole way from the file to the estimate. */
import assert from 'node:assert/strict';
import type { PickupAnalysis } from '../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { CoilEstimates } from '../../server/src/estimates/estimates.ts';
import type { QuickEstimates } from '../../server/src/estimates/quick.ts';
import type { Estimate } from '../../server/src/quantities/estimate.ts';
import { analyse } from '../support/check-fixture.ts';

export interface CoilText {
  readonly name?: string;
  /** Length and width of the core, corner radius where its ends are not round, mm. */
  readonly coreMm?: readonly [number, number] | readonly [number, number, number];
  readonly heightMm?: number;
  readonly bareMm?: number;
  readonly overallMm?: number;
  /** Further facts of the coil, one a line. */
  readonly facts?: string;
  readonly wound?: 'clockwise' | 'counterclockwise';
  /** Poles of its bobbin. */
  readonly pole?: string;
}

/** One or more coils, each with leads `a1 b1`, `a2 b2`; `hookup` joins them. */
export function pickupText(
  coils: readonly CoilText[],
  {
    hookup,
    readings = '',
    facts = '',
    bench = '',
  }: { hookup: string; readings?: string; facts?: string; bench?: string },
): string {
  const parts = coils.map((coil, index) => {
    const { coreMm = [60, 6], heightMm = 7, bareMm = 0.0635, overallMm = 0.07, pole = 'pole none' } = coil;
    const [length, width, corner] = coreMm;
    const n = index + 1;
    return `wire w${n} {\n  diameter ${bareMm} mm\n  overall ${overallMm} mm\n}
bobbin f${n} {\n  core ${length} x ${width} mm${corner === undefined ? '' : ` corner ${corner} mm`}\n  window ${heightMm} x 25 mm\n  ${pole}\n}\n`;
  });
  const blocks = coils.map(
    ({ name, facts: own = '', wound = 'clockwise' }, index) => `  coil ${name ?? `c${index + 1}`} {
    bobbin f${index + 1}
    wire w${index + 1}
    wound ${wound}
    polarity ${index % 2 === 0 ? 'north-up' : 'south-up'}
    start a${index + 1}
    finish b${index + 1}
${own}
  }\n`,
  );
  return `${bench}${parts.join('')}pickup wren {\n${facts}\n${blocks.join('')}  hookup {\n${hookup}\n  }\n${readings}}\n`;
}

export const SINGLE = '    hot b1\n    ground a1';
/** Series, finish to finish: coils wound alike are in phase with opposite poles, hum cancels. */
export const HUM_CANCELLING = '    hot a2\n    link b1 b2\n    ground a1';
export const PARALLEL = '    hot b1 a2\n    ground a1 b2';

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
