/**
 * Two fits whose recordings share a set-up. What each found of the resistor, the recorder and the meter is one thing: both are brought to
 * agree on it, and what was believed of it beforehand counts once. To first order, as sums of information matrices (D. R. Cox and D. V.
 * Hinkley, Theoretical Statistics (1974), chapter 10; recalled).
 */
import { solveInPlace } from '../linear-solve.ts';
import { type SweepFit, slopesOf } from './sweep-fit.ts';
import type { Nuisance } from './sweep-problem.ts';

export interface JoinedFits {
  readonly before: SweepFit;
  readonly after: SweepFit;
  /** Covariances of the parameters of the one with those of the other, row by row of the one before. */
  readonly between: Float64Array;
}

export function joinedFits(before: SweepFit, after: SweepFit): JoinedFits {
  const [rows, others] = [before.values.length, after.values.length];
  const same = after.nuisances.flatMap((nuisance) => {
    const key = keyOf(nuisance, after.nuisances);
    const own = before.nuisances.find((each) => keyOf(each, before.nuisances) === key);
    return own && Number.isFinite(nuisance.sd) ? [{ own, nuisance }] : [];
  });
  let size = rows;
  const places = Array.from(after.values, (_, index) => {
    const shared = same.find(({ nuisance }) => nuisance.at === index);
    return shared ? shared.own.at : size++;
  });
  const matrix = new Float64Array(size * size);
  const right = new Float64Array(size);
  const put = ({ values, covariance }: SweepFit, place: (index: number) => number) => {
    const count = values.length;
    const information = inverseOf(covariance, count);
    for (let row = 0; row < count; row++)
      for (let column = 0; column < count; column++) {
        const each = information[row * count + column] ?? 0;
        const at = place(row) * size + place(column);
        matrix[at] = (matrix[at] ?? 0) + each;
        right[place(row)] = (right[place(row)] ?? 0) + each * (values[column] ?? 0);
      }
  };
  put(before, (index) => index);
  put(after, (index) => places[index] ?? 0);
  for (const { own, nuisance } of same) {
    const at = own.at * (size + 1);
    matrix[at] = (matrix[at] ?? 0) - 1 / Math.max(own.sd, nuisance.sd) ** 2;
  }
  const covariance = inverseOf(matrix, size);
  const found = Float64Array.from({ length: size }, (_, row) =>
    right.reduce((sum, each, column) => sum + (covariance[row * size + column] ?? 0) * each, 0),
  );
  const part = (from: (row: number) => number, to: (column: number) => number, height: number, width: number) =>
    Float64Array.from(
      { length: height * width },
      (_, index) => covariance[from(Math.floor(index / width)) * size + to(index % width)] ?? 0,
    );
  const [asOwn, asOther] = [(index: number) => index, (index: number) => places[index] ?? 0];
  return {
    before: { ...before, values: found.slice(0, rows), covariance: part(asOwn, asOwn, rows, rows) },
    after: {
      ...after,
      values: Float64Array.from(places, (place) => found[place] ?? 0),
      covariance: part(asOther, asOther, others, others),
    },
    between: part(asOwn, asOther, rows, others),
  };
}

/** A part by what it is marked with; the balance of two channels by its sweep, first to first. */
function keyOf(nuisance: Nuisance, among: readonly Nuisance[]): string {
  const alike = among.filter(({ name, marked }) => name === nuisance.name && marked === nuisance.marked);
  return `${nuisance.name} ${nuisance.marked} ${alike.indexOf(nuisance)}`;
}

function inverseOf(matrix: Float64Array, size: number): Float64Array {
  const columns = Array.from({ length: size }, (_, column) => {
    const unit = new Float64Array(size);
    unit[column] = 1;
    return unit;
  });
  solveInPlace(Float64Array.from(matrix), columns);
  return Float64Array.from(
    { length: size * size },
    (_, index) => columns[index % size]?.[Math.floor(index / size)] ?? 0,
  );
}

/** f of what was found after, less f of what was found before, and one deviation of that. */
export function changeOf(
  { before, after, between }: JoinedFits,
  f: (values: Float64Array, fit: SweepFit) => number,
): { readonly value: number; readonly sd: number } {
  const [was, is] = [before, after].map((fit) => slopesOf(fit, (values) => f(values, fit)));
  const [left = [], right = []] = [was, is];
  const along = (a: readonly number[], covariance: Float64Array, b: readonly number[]) =>
    a.reduce(
      (sum, slope, row) =>
        sum + slope * b.reduce((inner, other, column) => inner + other * (covariance[row * b.length + column] ?? 0), 0),
      0,
    );
  const variance =
    along(left, before.covariance, left) + along(right, after.covariance, right) - 2 * along(left, between, right);
  return { value: f(after.values, after) - f(before.values, before), sd: Math.sqrt(Math.max(0, variance)) };
}
