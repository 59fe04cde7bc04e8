import { denseFactors } from './dense-factors.ts';
import type { LinearSystem } from './network.ts';
import { sparseFactors } from './sparse-factors.ts';

/** Triangular factors of a system at one frequency. The arrays hold the right-hand side, then the solution. */
export interface Factors {
  /** False where the system has no unique solution at this angular frequency. */
  factor(omega: number): boolean;
  solve(re: Float64Array, im: Float64Array): void;
  /** Solves with the transposed matrix: what every source contributes to one output, all sources at once. */
  solveTransposed(re: Float64Array, im: Float64Array): void;
}

export interface Solver {
  readonly size: number;
  /** Solves in place; false where there is no unique solution. */
  solve(omega: number, re: Float64Array, im: Float64Array): boolean;
  solveTransposed(omega: number, re: Float64Array, im: Float64Array): boolean;
}

/** Where the order of elimination of the sparse factors is chosen. */
const orderingOmega = 2 * Math.PI * 1000;

/** Largest backward error, relative to the terms of each equation, that the fixed order of elimination may leave. */
const acceptedBackwardError = 1e-11;

/**
 * Eliminates in an order chosen once, which needs only the entries that are not zero. Whether that order served a
 * frequency well is measured there by putting the solution back into the equations; if not, the dense factors with
 * partial pivoting take over.
 */
export function solverOf(system: LinearSystem, direct: boolean): Solver {
  const { size } = system;
  let sparse: Factors | null | undefined;
  let dense: Factors | undefined;
  const rightRe = new Float64Array(size);
  const rightIm = new Float64Array(size);
  const check = backwardError(system);

  const run = (transposed: boolean, omega: number, re: Float64Array, im: Float64Array): boolean => {
    if (sparse === undefined) sparse = sparseFactors(system, direct ? 0 : orderingOmega);
    rightRe.set(re);
    rightIm.set(im);
    if (sparse?.factor(omega)) {
      if (transposed) sparse.solveTransposed(re, im);
      else sparse.solve(re, im);
      if (check(transposed, omega, re, im, rightRe, rightIm) <= acceptedBackwardError) return true;
    }
    re.set(rightRe);
    im.set(rightIm);
    dense ??= denseFactors(system);
    if (!dense.factor(omega)) return false;
    if (transposed) dense.solveTransposed(re, im);
    else dense.solve(re, im);
    return true;
  };
  return {
    size,
    solve: (omega, re, im) => run(false, omega, re, im),
    solveTransposed: (omega, re, im) => run(true, omega, re, im),
  };
}

/** The largest residual of any equation against the sum of the sizes of its terms (Oettli and Prager 1964). */
function backwardError({ size, rows, columns, g, b }: LinearSystem) {
  const residualRe = new Float64Array(size);
  const residualIm = new Float64Array(size);
  const terms = new Float64Array(size);
  return (
    transposed: boolean,
    omega: number,
    re: Float64Array,
    im: Float64Array,
    rightRe: Float64Array,
    rightIm: Float64Array,
  ): number => {
    const out = transposed ? columns : rows;
    const into = transposed ? rows : columns;
    for (let i = 0; i < size; i++) {
      const r = rightRe[i] ?? 0;
      const s = rightIm[i] ?? 0;
      residualRe[i] = r;
      residualIm[i] = s;
      terms[i] = Math.abs(r) + Math.abs(s);
    }
    for (let k = 0; k < out.length; k++) {
      const i = out[k] ?? 0;
      const j = into[k] ?? 0;
      const aRe = g[k] ?? 0;
      const aIm = omega * (b[k] ?? 0);
      const xRe = re[j] ?? 0;
      const xIm = im[j] ?? 0;
      residualRe[i] = (residualRe[i] ?? 0) - (aRe * xRe - aIm * xIm);
      residualIm[i] = (residualIm[i] ?? 0) - (aRe * xIm + aIm * xRe);
      terms[i] = (terms[i] ?? 0) + (Math.abs(aRe) + Math.abs(aIm)) * (Math.abs(xRe) + Math.abs(xIm));
    }
    let worst = 0;
    for (let i = 0; i < size; i++) {
      const residual = Math.abs(residualRe[i] ?? 0) + Math.abs(residualIm[i] ?? 0);
      if (residual === 0) continue;
      const error = residual / (terms[i] ?? 0);
      if (!(error <= worst)) worst = error;
    }
    return worst;
  };
}
