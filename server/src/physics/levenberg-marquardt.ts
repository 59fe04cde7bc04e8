/**
 * Least squares of a function that bends: D. W. Marquardt, "An Algorithm for Least-Squares Estimation of Nonlinear Parameters", Journal
 * of the Society for Industrial and Applied Mathematics 11 (1963) 431–441, with the diagonal of the normal equations as the measure of
 * a step. Parameters are logarithms or pure numbers of about 1, so a step is limited by one length for all.
 */
import { solveInPlace } from './linear-solve.ts';

export interface LeastSquares {
  readonly residuals: number;
  readonly parameters: number;
  /** Writes the residuals, each over its deviation, and where asked their slopes (residual by residual, one after the other). */
  at(values: Float64Array, residuals: Float64Array, slopes: Float64Array | undefined): void;
}

export interface Minimum {
  readonly values: Float64Array;
  /** Sum of the squared residuals. */
  readonly chiSquared: number;
  /** Slopesᵀ · slopes at the minimum, row by row. */
  readonly information: Float64Array;
  readonly rounds: number;
}

/**
 * The minimum that lies below a start; the start itself where nothing better is found. `enough`: where a round takes less from the sum of
 * squares, it has been found; where that falls by 1, a parameter lies one deviation off.
 */
export function leastSquares(
  problem: LeastSquares,
  start: ArrayLike<number>,
  { mostRounds = 60, enough = 1e-4 }: { mostRounds?: number; enough?: number } = {},
): Minimum {
  const { residuals: rows, parameters } = problem;
  let values = Float64Array.from(start);
  let residuals = new Float64Array(rows);
  let trial = new Float64Array(rows);
  // Most steps are taken, so their slopes are wanted, too.
  const slopes = new Float64Array(rows * parameters);
  problem.at(values, residuals, slopes);
  let chiSquared = sumOfSquares(residuals);
  let { information, gradient } = normalEquations(residuals, slopes, parameters);
  let damping = 1e-3;
  let rounds = 0;
  for (; rounds < mostRounds; rounds++) {
    const step = stepOf(information, gradient, damping);
    const moved = values.map((value, index) => value - (step[index] ?? 0));
    problem.at(moved, trial, slopes);
    const now = sumOfSquares(trial);
    if (!(now <= chiSquared)) {
      damping *= 11;
      if (damping > 1e12) break;
      continue;
    }
    const gained = chiSquared - now;
    [values, residuals, trial, chiSquared] = [moved, trial, residuals, now];
    ({ information, gradient } = normalEquations(residuals, slopes, parameters));
    damping = Math.max(damping / 9, 1e-12);
    if (gained < enough) break;
  }
  return { values, chiSquared, information, rounds };
}

/** A factor of e^1.5 a round. */
const LONGEST_STEP = 1.5;

function stepOf(information: Float64Array, gradient: Float64Array, damping: number): Float64Array {
  const size = gradient.length;
  const matrix = Float64Array.from(information);
  for (let index = 0; index < size; index++) {
    const own = information[index * size + index] ?? 0;
    matrix[index * size + index] = own * (1 + damping) + TINY;
  }
  const step = Float64Array.from(gradient);
  solveInPlace(matrix, [step]);
  const longest = step.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  return longest > LONGEST_STEP ? step.map((each) => (each * LONGEST_STEP) / longest) : step;
}

/** A parameter that nothing depends on stays where it is. */
const TINY = 1e-12;

function normalEquations(residuals: Float64Array, slopes: Float64Array, parameters: number) {
  const information = new Float64Array(parameters * parameters);
  const gradient = new Float64Array(parameters);
  for (let row = 0; row < residuals.length; row++) {
    const start = row * parameters;
    const residual = residuals[row] as number;
    for (let a = 0; a < parameters; a++) {
      const slope = slopes[start + a] as number;
      if (slope === 0) continue;
      gradient[a] = (gradient[a] as number) + slope * residual;
      for (let b = 0; b <= a; b++)
        information[a * parameters + b] =
          (information[a * parameters + b] as number) + slope * (slopes[start + b] as number);
    }
  }
  for (let a = 0; a < parameters; a++)
    for (let b = 0; b < a; b++) information[b * parameters + a] = information[a * parameters + b] as number;
  return { information, gradient };
}

const sumOfSquares = (values: Float64Array): number => values.reduce((sum, each) => sum + each * each, 0);
