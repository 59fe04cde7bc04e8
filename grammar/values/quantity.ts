import { codeMultiplier, type Dimension, type Unit, unitOf } from './unit-table.ts';

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

/** Why a written quantity has no value. */
export type QuantityProblem =
  | 'unit-missing'
  | 'unit-wrong'
  | 'code-wrong'
  | 'not-finite'
  | 'below-absolute-zero'
  | 'uncertainty-negative'
  | 'uncertainty-unit-wrong';

export type QuantityResult =
  | { readonly ok: true; readonly quantity: Quantity }
  | { readonly ok: false; readonly problem: QuantityProblem };

/** The SI value of a written quantity, or the reason why it has none. A `±` is taken as one standard deviation. */
export function quantityOf(written: WrittenQuantity): QuantityResult {
  const { dimension, value, text } = written;
  if (!Number.isFinite(value)) return failed('not-finite');
  const scale = scaleOf(written);
  if (typeof scale === 'string') return failed(scale);
  const si = value * scale.factor + scale.offset;
  if (!Number.isFinite(si)) return failed('not-finite');
  if (dimension === 'temperature' && si < -1e-9) return failed('below-absolute-zero');
  const sd = deviationOf(written, scale.factor);
  if (typeof sd === 'string') return failed(sd);
  const quantity = { dimension, si, written: text };
  return { ok: true, quantity: sd === undefined ? quantity : { ...quantity, sd } };
}

function scaleOf({ dimension, unit, code }: WrittenQuantity): Pick<Unit, 'factor' | 'offset'> | QuantityProblem {
  if (unit === undefined) return dimension === 'turns' ? { factor: 1, offset: 0 } : 'unit-missing';
  if (code) {
    const factor = codeMultiplier(unit, dimension);
    return factor === undefined ? 'code-wrong' : { factor, offset: 0 };
  }
  const row = unitOf(unit);
  return row?.dimension === dimension ? row : 'unit-wrong';
}

/** One standard deviation in SI. A percentage is of the number as written, so `21 degC ± 5 %` is ± 1.05 K. */
function deviationOf(written: WrittenQuantity, factor: number): number | undefined | QuantityProblem {
  const { uncertainty, dimension } = written;
  if (uncertainty === undefined) return undefined;
  const { value, unit } = uncertainty;
  if (!Number.isFinite(value)) return 'not-finite';
  if (value < 0) return 'uncertainty-negative';
  if (unit === undefined) return value * factor;
  if (unit === '%' && dimension !== 'percentage') return (value / 100) * Math.abs(written.value) * factor;
  const row = unitOf(unit);
  return row?.dimension === dimension ? value * row.factor : 'uncertainty-unit-wrong';
}

const failed = (problem: QuantityProblem): QuantityResult => ({ ok: false, problem });

/** A count as it is written: `5_000`. */
export const grouped = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, '_');
