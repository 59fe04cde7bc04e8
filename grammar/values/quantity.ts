import { codeMultiplier, type Dimension, likelyUnit, symbolsOf, type Unit, unitOf } from './unit-table.ts';

/** A quantity in SI (see the unit table for what SI means in each dimension) that remembers how its author wrote it. */
export interface Quantity {
  readonly dimension: Dimension;
  readonly si: number;
  /** One standard deviation in SI, where the author stated a ±. */
  readonly sd?: number;
  readonly written: string;
}

/** A quantity as it was read from text: the number and its unit still as written. */
export interface WrittenQuantity {
  readonly dimension: Dimension;
  readonly value: number;
  /** Unit symbol, or the letter of an IEC 60062 code where `code` is true; `undefined` for a bare number. */
  readonly unit: string | undefined;
  readonly code: boolean;
  readonly uncertainty: WrittenUncertainty | undefined;
  /** The whole text as written, unit and uncertainty included. */
  readonly text: string;
  readonly decimals: number;
}

export interface WrittenUncertainty {
  readonly value: number;
  /** `undefined`: in the unit of the quantity it belongs to. `%` is relative. */
  readonly unit: string | undefined;
}

/** Why a written quantity has no value. `expected` lists the symbols that would do, the likeliest first. */
export type QuantityProblem =
  | { readonly kind: 'unit-missing'; readonly expected: readonly string[] }
  | { readonly kind: 'unit-wrong'; readonly unit: string; readonly expected: readonly string[] }
  | { readonly kind: 'code-wrong'; readonly letter: string; readonly expected: readonly string[] }
  | { readonly kind: 'not-finite' }
  | { readonly kind: 'gauge-out-of-range'; readonly smallest: '0000'; readonly largest: '60' }
  | { readonly kind: 'below-absolute-zero' }
  | { readonly kind: 'uncertainty-negative' }
  | { readonly kind: 'uncertainty-unit-wrong'; readonly unit: string; readonly expected: readonly string[] };

export type QuantityResult =
  | { readonly ok: true; readonly quantity: Quantity }
  | { readonly ok: false; readonly problem: QuantityProblem };

/** The AWG series runs from 0000 (here -3) to 60 in the tables that magnet wire is sold by. */
const GAUGE_RANGE = { smallest: -3, largest: 60 } as const;

/** The SI value of a written quantity, or the reason why it has none. A `±` is taken as one standard deviation. */
export function quantityOf(written: WrittenQuantity): QuantityResult {
  if (!Number.isFinite(written.value)) return failed({ kind: 'not-finite' });
  const scale = scaleOf(written);
  if ('kind' in scale) return failed(scale);
  const si = gaugeNumber(written) * scale.factor + scale.offset;
  if (!Number.isFinite(si)) return failed({ kind: 'not-finite' });
  if (written.dimension === 'gauge' && (si < GAUGE_RANGE.smallest || si > GAUGE_RANGE.largest)) {
    return failed({ kind: 'gauge-out-of-range', smallest: '0000', largest: '60' });
  }
  if (written.dimension === 'temperature' && si < -1e-9) return failed({ kind: 'below-absolute-zero' });
  const sd = deviationOf(written, scale.factor);
  if (typeof sd === 'object') return failed(sd);
  const quantity = { dimension: written.dimension, si, written: written.text };
  return { ok: true, quantity: sd === undefined ? quantity : { ...quantity, sd } };
}

type Scale = Pick<Unit, 'factor' | 'offset'>;

function scaleOf({ dimension, value, unit, code }: WrittenQuantity): Scale | QuantityProblem {
  const expected = expectedSymbols(dimension, value);
  if (unit === undefined) {
    return dimension === 'turns' ? { factor: 1, offset: 0 } : { kind: 'unit-missing', expected };
  }
  if (code) {
    const factor = codeMultiplier(unit, dimension);
    return factor === undefined ? { kind: 'code-wrong', letter: unit, expected } : { factor, offset: 0 };
  }
  const row = unitOf(unit);
  return row?.dimension === dimension ? row : { kind: 'unit-wrong', unit, expected };
}

/** One standard deviation in SI. A percentage is of the number as written, so `21 degC ± 5 %` is ± 1.05 K. */
function deviationOf(written: WrittenQuantity, factor: number): number | undefined | QuantityProblem {
  const { uncertainty, dimension } = written;
  if (uncertainty === undefined) return undefined;
  if (!Number.isFinite(uncertainty.value)) return { kind: 'not-finite' };
  if (uncertainty.value < 0) return { kind: 'uncertainty-negative' };
  if (uncertainty.unit === undefined) return uncertainty.value * factor;
  if (uncertainty.unit === '%' && dimension !== 'percentage') {
    return (uncertainty.value / 100) * Math.abs(written.value) * factor;
  }
  const row = unitOf(uncertainty.unit);
  if (row?.dimension === dimension) return uncertainty.value * row.factor;
  return { kind: 'uncertainty-unit-wrong', unit: uncertainty.unit, expected: [...symbolsOf(dimension), '%'] };
}

/** AWG counts down below 0: 00 is -1, 000 is -2, 0000 is -3; the digits carry it, the number read from them cannot. */
function gaugeNumber({ dimension, value, text }: WrittenQuantity): number {
  if (dimension !== 'gauge' || value !== 0) return value;
  const zeros = /^0+(?![\d.])/.exec(text)?.[0].length ?? 1;
  return 1 - zeros;
}

function expectedSymbols(dimension: Dimension, value: number): readonly string[] {
  const likely = likelyUnit(dimension, value);
  return [likely, ...symbolsOf(dimension).filter((symbol) => symbol !== likely)];
}

function failed(problem: QuantityProblem): QuantityResult {
  return { ok: false, problem };
}
