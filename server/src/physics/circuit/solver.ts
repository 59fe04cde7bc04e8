import { denseFactors, type Factors } from './dense-factors.ts';
import type { LinearSystem } from './linear-system.ts';
import { type BlockFactors, blockLength, sparseFactors } from './sparse-factors.ts';

/** Solves one system at any angular frequency. Right-hand sides are real; nothing is allocated while it works. */
export interface Solver {
  readonly size: number;
  /** Fills `re` and `im`, all unknowns at one frequency; false where there is no unique solution. */
  solve(omega: number, right: Float64Array, re: Float64Array, im: Float64Array): boolean;
  /** The same with the transposed matrix: what every source contributes to one output, all sources at once. */
  solveTransposed(omega: number, right: Float64Array, re: Float64Array, im: Float64Array): boolean;
  /** Fills `re` and `im` with one unknown at many frequencies; false where one of them has no unique solution. */
  sweep(omegas: Float64Array, right: Float64Array, unknown: number, re: Float64Array, im: Float64Array): boolean;
}

/** Where the order of elimination of the sparse factors is chosen. */
const orderingOmega = 2 * Math.PI * 1000;

/**
 * Eliminates in an order chosen once, over the entries that are not zero. Where that order does not serve a frequency,
 * which shows in its multipliers, the full matrix with partial pivoting takes over.
 */
export function solverOf(system: LinearSystem, direct: boolean): Solver {
  const { size } = system;
  const omegas1 = new Float64Array(1);
  const trusted = new Uint8Array(blockLength);
  const blockRe = new Float64Array(size * blockLength);
  const blockIm = new Float64Array(size * blockLength);
  const oneRe = new Float64Array(size);
  const oneIm = new Float64Array(size);
  let sparse: BlockFactors | null | undefined;
  let dense: Factors | undefined;

  const sparseOnce = (): BlockFactors | null => {
    if (sparse === undefined) sparse = sparseFactors(system, direct ? 0 : orderingOmega);
    return sparse;
  };
  const densely = (omega: number): Factors | null => {
    dense ??= denseFactors(system);
    return dense.factor(omega) ? dense : null;
  };

  const solveOne = (method: 'solve' | 'solveTransposed') => {
    return (omega: number, right: Float64Array, re: Float64Array, im: Float64Array): boolean => {
      const quick = sparseOnce();
      if (quick !== null) {
        omegas1[0] = omega;
        quick.factor(omegas1, 0, 1, trusted);
        quick[method](right, 1, blockRe, blockIm);
        if (trusted[0] === 1 && takeFirst(size, blockRe, blockIm, re, im)) return true;
      }
      const factors = densely(omega);
      factors?.[method](right, re, im);
      return factors !== null;
    };
  };
  const solve = solveOne('solve');

  const sweep = (omegas: Float64Array, right: Float64Array, unknown: number, re: Float64Array, im: Float64Array) => {
    const quick = sparseOnce();
    for (let first = 0; first < omegas.length; first += blockLength) {
      const count = Math.min(blockLength, omegas.length - first);
      if (quick === null) trusted.fill(0);
      else {
        quick.factor(omegas, first, count, trusted);
        quick.solve(right, count, blockRe, blockIm, unknown);
      }
      for (let f = 0; f < count; f++) {
        let outRe = blockRe[unknown * blockLength + f] ?? 0;
        let outIm = blockIm[unknown * blockLength + f] ?? 0;
        if (trusted[f] !== 1 || !Number.isFinite(outRe + outIm)) {
          const factors = densely(omegas[first + f] ?? 0);
          if (factors === null) return false;
          factors.solve(right, oneRe, oneIm);
          outRe = oneRe[unknown] ?? 0;
          outIm = oneIm[unknown] ?? 0;
        }
        re[first + f] = outRe;
        im[first + f] = outIm;
      }
    }
    return true;
  };
  return { size, solve, solveTransposed: solveOne('solveTransposed'), sweep };
}

/** Copies the first frequency of a block; false where a value is not finite. */
function takeFirst(
  size: number,
  blockRe: Float64Array,
  blockIm: Float64Array,
  re: Float64Array,
  im: Float64Array,
): boolean {
  let sum = 0;
  for (let i = 0; i < size; i++) {
    re[i] = blockRe[i * blockLength] ?? 0;
    im[i] = blockIm[i * blockLength] ?? 0;
    sum += (re[i] ?? 0) + (im[i] ?? 0);
  }
  return Number.isFinite(sum);
}
