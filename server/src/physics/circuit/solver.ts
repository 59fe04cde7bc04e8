import type { LinearSystem } from './linear-system.ts';
import { type BlockFactors, blockLength, sparseFactors } from './sparse-factors.ts';

/** Solves one system at any angular frequency. Right-hand sides are real. */
export interface Solver {
  readonly size: number;
  /** Fills `re` and `im`, all unknowns at one frequency; false where there is no unique solution. */
  solve(omega: number, right: Float64Array, re: Float64Array, im: Float64Array): boolean;
  /** The same with the transposed matrix: what every source contributes to one output, all sources at once. */
  solveTransposed(omega: number, right: Float64Array, re: Float64Array, im: Float64Array): boolean;
  /** Fills `re` and `im` with one unknown at many frequencies; false where one of them has no unique solution. */
  sweep(omegas: Float64Array, right: Float64Array, unknown: number, re: Float64Array, im: Float64Array): boolean;
}

/** Where the order of elimination is chosen that serves nearly every frequency. */
const orderingOmega = 2 * Math.PI * 1000;

/**
 * Eliminates in an order chosen once, over the entries that are not zero. Where that order does not serve a frequency,
 * which shows in its multipliers, one is chosen for that frequency alone.
 */
export function solverOf(system: LinearSystem, direct: boolean): Solver {
  const { size } = system;
  let usual: BlockFactors | null | undefined;

  const usualOnce = (): BlockFactors | null => {
    if (usual === undefined) usual = sparseFactors(system, direct ? 0 : orderingOmega);
    return usual;
  };

  const solveOne = (method: 'solve' | 'solveTransposed') => {
    return (omega: number, right: Float64Array, re: Float64Array, im: Float64Array): boolean => {
      const { omegas1, trusted, blockRe, blockIm } = roomFor(size);
      omegas1[0] = omega;
      const solvedBy = (factors: BlockFactors | null): boolean => {
        if (factors === null) return false;
        factors.factor(omegas1, 0, 1, trusted);
        factors[method](right, 1, blockRe, blockIm);
        return trusted[0] === 1 && takeFirst(size, blockRe, blockIm, re, im);
      };
      return solvedBy(usualOnce()) || solvedBy(sparseFactors(system, omega));
    };
  };
  const solve = solveOne('solve');

  const sweep = (omegas: Float64Array, right: Float64Array, unknown: number, re: Float64Array, im: Float64Array) => {
    const factors = usualOnce();
    const { trusted, blockRe, blockIm } = roomFor(size);
    for (let first = 0; first < omegas.length; first += blockLength) {
      const count = Math.min(blockLength, omegas.length - first);
      factors?.factor(omegas, first, count, trusted);
      factors?.solve(right, count, blockRe, blockIm, unknown);
      for (let f = 0; f < count; f++) {
        const served = factors !== null && trusted[f] === 1;
        re[first + f] = served ? (blockRe[unknown * blockLength + f] ?? 0) : Number.NaN;
        im[first + f] = served ? (blockIm[unknown * blockLength + f] ?? 0) : Number.NaN;
      }
    }
    const oneRe = new Float64Array(size);
    const oneIm = new Float64Array(size);
    for (let at = 0; at < omegas.length; at++) {
      if (Number.isFinite((re[at] ?? 0) + (im[at] ?? 0))) continue;
      if (!solve(omegas[at] ?? 0, right, oneRe, oneIm)) return false;
      re[at] = oneRe[unknown] ?? 0;
      im[at] = oneIm[unknown] ?? 0;
    }
    return true;
  };
  return { size, solve, solveTransposed: solveOne('solveTransposed'), sweep };
}

/** Where the numbers of one call lie: the same room for all circuits, since hundreds are kept and one is solved at a time. */
function roomFor(size: number): typeof room {
  if (room.blockRe.length < size * blockLength) {
    room.blockRe = new Float64Array(size * blockLength);
    room.blockIm = new Float64Array(size * blockLength);
  }
  return room;
}

const room = {
  omegas1: new Float64Array(1),
  trusted: new Uint8Array(blockLength),
  blockRe: new Float64Array(),
  blockIm: new Float64Array(),
};

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
