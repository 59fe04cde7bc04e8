import { vanishingPivot } from '../../server/src/physics/circuit/elimination-plan.ts';
import type { LinearSystem } from '../../server/src/physics/circuit/linear-system.ts';

/** Triangular factors of a system at one frequency. The right-hand side is real and kept; `re` and `im` are filled. */
export interface Factors {
  /** False where the system has no unique solution at this angular frequency. */
  factor(omega: number): boolean;
  solve(right: Float64Array, re: Float64Array, im: Float64Array): void;
  solveTransposed(right: Float64Array, re: Float64Array, im: Float64Array): void;
}

/** Gaussian elimination with partial pivoting on the full complex matrix: slow, and right wherever anything is. */
export function denseFactors(system: LinearSystem): Factors {
  const n = system.size;
  const re = new Float64Array(n * n);
  const im = new Float64Array(n * n);
  const order = new Int32Array(n);
  const largest = new Float64Array(n);
  const workRe = new Float64Array(n);
  const workIm = new Float64Array(n);

  const factor = (omega: number): boolean => {
    re.fill(0);
    im.fill(0);
    largest.fill(0);
    system.rows.forEach((row, k) => {
      const column = system.columns[k] ?? 0;
      re[row * n + column] = system.g[k] ?? 0;
      im[row * n + column] = omega * (system.b[k] ?? 0);
      largest[column] = Math.max(largest[column] ?? 0, sizeAt(row * n + column));
    });
    for (let i = 0; i < n; i++) order[i] = i;
    for (let k = 0; k < n; k++) {
      let pivotRow = k;
      for (let i = k + 1; i < n; i++) if (sizeAt(i * n + k) > sizeAt(pivotRow * n + k)) pivotRow = i;
      const size = sizeAt(pivotRow * n + k);
      if (!(size > vanishingPivot * (largest[k] ?? 0)) || size === Number.POSITIVE_INFINITY) return false;
      if (pivotRow !== k) swapRows(k, pivotRow);
      eliminateBelow(k);
    }
    return true;
  };

  const sizeAt = (at: number) => Math.abs(re[at] ?? 0) + Math.abs(im[at] ?? 0);

  const swapRows = (a: number, b: number) => {
    for (let j = 0; j < n; j++) {
      [re[a * n + j], re[b * n + j]] = [re[b * n + j] ?? 0, re[a * n + j] ?? 0];
      [im[a * n + j], im[b * n + j]] = [im[b * n + j] ?? 0, im[a * n + j] ?? 0];
    }
    [order[a], order[b]] = [order[b] ?? 0, order[a] ?? 0];
  };

  const eliminateBelow = (k: number) => {
    const at = k * n + k;
    const scale = (re[at] ?? 0) ** 2 + (im[at] ?? 0) ** 2;
    const invRe = (re[at] ?? 0) / scale;
    const invIm = -(im[at] ?? 0) / scale;
    for (let i = k + 1; i < n; i++) {
      const below = i * n + k;
      if (sizeAt(below) === 0) continue;
      const fRe = (re[below] ?? 0) * invRe - (im[below] ?? 0) * invIm;
      const fIm = (re[below] ?? 0) * invIm + (im[below] ?? 0) * invRe;
      re[below] = fRe;
      im[below] = fIm;
      for (let j = k + 1; j < n; j++)
        subtractProduct(re, im, i * n + j, fRe, fIm, re[k * n + j] ?? 0, im[k * n + j] ?? 0);
    }
    re[at] = invRe;
    im[at] = invIm;
  };

  const solve = (right: Float64Array, xRe: Float64Array, xIm: Float64Array) => {
    for (let i = 0; i < n; i++) {
      workRe[i] = right[order[i] ?? 0] ?? 0;
      workIm[i] = 0;
      for (let j = 0; j < i; j++) subtract(i, i * n + j, j);
    }
    for (let i = n - 1; i >= 0; i--) {
      for (let j = i + 1; j < n; j++) subtract(i, i * n + j, j);
      multiplyBy(i, i * n + i);
    }
    xRe.set(workRe);
    xIm.set(workIm);
  };

  const solveTransposed = (right: Float64Array, xRe: Float64Array, xIm: Float64Array) => {
    workRe.set(right);
    workIm.fill(0);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < i; j++) subtract(i, j * n + i, j);
      multiplyBy(i, i * n + i);
    }
    for (let i = n - 1; i >= 0; i--) for (let j = i + 1; j < n; j++) subtract(i, j * n + i, j);
    for (let i = 0; i < n; i++) {
      xRe[order[i] ?? 0] = workRe[i] ?? 0;
      xIm[order[i] ?? 0] = workIm[i] ?? 0;
    }
  };

  const subtract = (target: number, entry: number, from: number) =>
    subtractProduct(workRe, workIm, target, re[entry] ?? 0, im[entry] ?? 0, workRe[from] ?? 0, workIm[from] ?? 0);

  const multiplyBy = (target: number, entry: number) => {
    const xRe = workRe[target] ?? 0;
    const xIm = workIm[target] ?? 0;
    workRe[target] = xRe * (re[entry] ?? 0) - xIm * (im[entry] ?? 0);
    workIm[target] = xRe * (im[entry] ?? 0) + xIm * (re[entry] ?? 0);
  };

  return { factor, solve, solveTransposed };
}

function subtractProduct(
  re: Float64Array,
  im: Float64Array,
  target: number,
  aRe: number,
  aIm: number,
  bRe: number,
  bIm: number,
): void {
  re[target] = (re[target] ?? 0) - (aRe * bRe - aIm * bIm);
  im[target] = (im[target] ?? 0) - (aRe * bIm + aIm * bRe);
}
