import { planElimination } from './elimination-plan.ts';
import type { LinearSystem } from './network.ts';
import type { Factors } from './solver.ts';

/**
 * Elimination over the entries that are not zero, in one fixed order, written out as a list of steps: a frequency
 * then costs a few hundred multiplications. `null` where the system is singular at the frequency of ordering.
 */
export function sparseFactors(system: LinearSystem, orderingOmega: number): Factors | null {
  const plan = planElimination(system, orderingOmega);
  if (plan === null) return null;
  const { size } = system;
  const { pivotSlots, pivotRows, pivotColumns, lowerStart, upperStart, lowerSlots, lowerRows } = plan;
  const { upperSlots, upperColumns, targetSlots, slotCount } = plan;
  const { g, b } = system;
  const re = new Float64Array(slotCount);
  const im = new Float64Array(slotCount);
  const workRe = new Float64Array(size);
  const workIm = new Float64Array(size);

  const factor = (omega: number): boolean => {
    re.fill(0);
    im.fill(0);
    re.set(g);
    for (let k = 0; k < b.length; k++) im[k] = omega * (b[k] ?? 0);
    let target = 0;
    for (let k = 0; k < size; k++) {
      const pivot = pivotSlots[k] ?? 0;
      const pRe = re[pivot] ?? 0;
      const pIm = im[pivot] ?? 0;
      const scale = pRe * pRe + pIm * pIm;
      if (!(scale > 0) || scale === Number.POSITIVE_INFINITY) return false;
      const invRe = pRe / scale;
      const invIm = -pIm / scale;
      re[pivot] = invRe;
      im[pivot] = invIm;
      const lowerEnd = lowerStart[k + 1] ?? 0;
      const upperFrom = upperStart[k] ?? 0;
      const upperEnd = upperStart[k + 1] ?? 0;
      for (let l = lowerStart[k] ?? 0; l < lowerEnd; l++) {
        const lower = lowerSlots[l] ?? 0;
        const lRe = re[lower] ?? 0;
        const lIm = im[lower] ?? 0;
        const fRe = lRe * invRe - lIm * invIm;
        const fIm = lRe * invIm + lIm * invRe;
        re[lower] = fRe;
        im[lower] = fIm;
        for (let u = upperFrom; u < upperEnd; u++) {
          const upper = upperSlots[u] ?? 0;
          const slot = targetSlots[target++] ?? 0;
          const uRe = re[upper] ?? 0;
          const uIm = im[upper] ?? 0;
          re[slot] = (re[slot] ?? 0) - (fRe * uRe - fIm * uIm);
          im[slot] = (im[slot] ?? 0) - (fRe * uIm + fIm * uRe);
        }
      }
    }
    return true;
  };

  const solve = (bRe: Float64Array, bIm: Float64Array) => {
    for (let k = 0; k < size; k++) {
      const row = pivotRows[k] ?? 0;
      const end = lowerStart[k + 1] ?? 0;
      for (let l = lowerStart[k] ?? 0; l < end; l++)
        subtractProduct(bRe, bIm, lowerRows[l] ?? 0, re, im, lowerSlots[l] ?? 0, bRe[row] ?? 0, bIm[row] ?? 0);
    }
    for (let k = size - 1; k >= 0; k--) {
      const row = pivotRows[k] ?? 0;
      const column = pivotColumns[k] ?? 0;
      const end = upperStart[k + 1] ?? 0;
      for (let u = upperStart[k] ?? 0; u < end; u++) {
        const from = upperColumns[u] ?? 0;
        subtractProduct(bRe, bIm, row, re, im, upperSlots[u] ?? 0, workRe[from] ?? 0, workIm[from] ?? 0);
      }
      setProduct(workRe, workIm, column, re, im, pivotSlots[k] ?? 0, bRe[row] ?? 0, bIm[row] ?? 0);
    }
    bRe.set(workRe);
    bIm.set(workIm);
  };

  const solveTransposed = (bRe: Float64Array, bIm: Float64Array) => {
    for (let k = 0; k < size; k++) {
      const row = pivotRows[k] ?? 0;
      const column = pivotColumns[k] ?? 0;
      setProduct(workRe, workIm, row, re, im, pivotSlots[k] ?? 0, bRe[column] ?? 0, bIm[column] ?? 0);
      const xRe = workRe[row] ?? 0;
      const xIm = workIm[row] ?? 0;
      const end = upperStart[k + 1] ?? 0;
      for (let u = upperStart[k] ?? 0; u < end; u++)
        subtractProduct(bRe, bIm, upperColumns[u] ?? 0, re, im, upperSlots[u] ?? 0, xRe, xIm);
    }
    for (let k = size - 1; k >= 0; k--) {
      const row = pivotRows[k] ?? 0;
      const end = lowerStart[k + 1] ?? 0;
      for (let l = lowerStart[k] ?? 0; l < end; l++) {
        const from = lowerRows[l] ?? 0;
        subtractProduct(workRe, workIm, row, re, im, lowerSlots[l] ?? 0, workRe[from] ?? 0, workIm[from] ?? 0);
      }
    }
    bRe.set(workRe);
    bIm.set(workIm);
  };

  return { factor, solve, solveTransposed };
}

function subtractProduct(
  re: Float64Array,
  im: Float64Array,
  target: number,
  aRe: Float64Array,
  aIm: Float64Array,
  slot: number,
  xRe: number,
  xIm: number,
): void {
  const fRe = aRe[slot] ?? 0;
  const fIm = aIm[slot] ?? 0;
  re[target] = (re[target] ?? 0) - (fRe * xRe - fIm * xIm);
  im[target] = (im[target] ?? 0) - (fRe * xIm + fIm * xRe);
}

function setProduct(
  re: Float64Array,
  im: Float64Array,
  target: number,
  aRe: Float64Array,
  aIm: Float64Array,
  slot: number,
  xRe: number,
  xIm: number,
): void {
  const fRe = aRe[slot] ?? 0;
  const fIm = aIm[slot] ?? 0;
  re[target] = fRe * xRe - fIm * xIm;
  im[target] = fRe * xIm + fIm * xRe;
}
