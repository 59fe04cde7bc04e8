/**
 * Least squares of a function that bends: D. W. Marquardt, "An Algorithm for Least-Squares Estimation of Nonlinear Parameters", Journal
 * of the Society for Industrial and Applied Mathematics 11 (1963) 431–441, with the diagonal of the normal equations as the measure of
 * a step. Where the sum of squares falls along a narrow valley that turns, a step bends with it: M. K. Transtrum and J. P. Sethna,
 * "Improvements to the Levenberg-Marquardt algorithm for nonlinear least-squares minimization", arXiv 1201.5885 (2012). Parameters are
 * logarithms or pure numbers of about 1, so a step is limited by one length for all.
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
  const { parameters } = problem;
  const rows = AT_ONCE * Math.ceil(problem.residuals / AT_ONCE);
  let values = Float64Array.from(start);
  let residuals = new Float64Array(rows);
  let trial = new Float64Array(rows);
  // Most steps are taken, so their slopes are wanted, too.
  let slopes = new Float64Array(rows * parameters);
  let trialSlopes = new Float64Array(rows * parameters);
  problem.at(values, residuals, slopes);
  let chiSquared = sumOfSquares(residuals);
  let { information, gradient } = normalEquations(residuals, slopes, parameters);
  let damping = 1e-3;
  let harder = HARDER;
  let slow = 0;
  let rounds = 0;
  for (; rounds < mostRounds && damping < MOST_DAMPING; rounds++) {
    const step = bentStep({ problem, values, residuals, slopes, information, gradient, damping, trial });
    const moved = step && values.map((value, index) => value - (step[index] ?? 0));
    if (moved) problem.at(moved, trial, trialSlopes);
    const now = moved ? sumOfSquares(trial) : Number.NaN;
    if (!moved || !(now <= chiSquared)) {
      damping *= harder;
      harder *= 2;
      continue;
    }
    const gained = chiSquared - now;
    [values, residuals, trial, chiSquared] = [moved, trial, residuals, now];
    [slopes, trialSlopes] = [trialSlopes, slopes];
    ({ information, gradient } = normalEquations(residuals, slopes, parameters));
    damping = Math.max(damping / 3, 1e-12);
    harder = HARDER;
    // A step that is held short gains little anywhere, but not again and again.
    slow = gained < enough ? slow + 1 : 0;
    if (slow > MOST_SLOW || (slow > 0 && damping < 1)) break;
  }
  return { values, chiSquared, information, rounds };
}

/** What a step that fails is damped more by; the next one by twice that. */
const HARDER = 5;
const MOST_DAMPING = 1e12;
const MOST_SLOW = 4;

/** A factor of e^1.5 a round. */
const LONGEST_STEP = 1.5;

interface Place {
  readonly problem: LeastSquares;
  readonly values: Float64Array;
  readonly residuals: Float64Array;
  readonly slopes: Float64Array;
  readonly information: Float64Array;
  readonly gradient: Float64Array;
  readonly damping: number;
  /** Written over. */
  readonly trial: Float64Array;
}

/**
 * The straight step and half of what the residuals' bend along it asks for; `undefined` where they bend too much for either to mean
 * something.
 */
function bentStep({
  problem,
  values,
  residuals,
  slopes,
  information,
  gradient,
  damping,
  trial,
}: Place): Float64Array | undefined {
  const size = gradient.length;
  const step = limited(solved(information, gradient, damping));
  problem.at(
    values.map((value, index) => value - AHEAD * (step[index] as number)),
    trial,
    undefined,
  );
  const pull = new Float64Array(size);
  for (let row = 0; row < trial.length; row++) {
    const start = row * size;
    let along = 0;
    for (let at = 0; at < size; at++) along -= (slopes[start + at] as number) * (step[at] as number);
    const bend = (2 / AHEAD) * (((trial[row] as number) - (residuals[row] as number)) / AHEAD - along);
    for (let at = 0; at < size; at++) pull[at] = (pull[at] as number) + (slopes[start + at] as number) * bend;
  }
  const bent = solved(information, pull, damping);
  const lengthOf = (of: Float64Array) =>
    Math.sqrt(of.reduce((sum, each, at) => sum + (information[at * size + at] as number) * each * each, 0));
  return lengthOf(bent) > MOST_BENT * lengthOf(step)
    ? undefined
    : limited(step.map((each, at) => each + (bent[at] as number) / 2));
}

function limited(step: Float64Array): Float64Array {
  const longest = step.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  return longest > LONGEST_STEP ? step.map((each) => (each * LONGEST_STEP) / longest) : step;
}

/** How far along a step its bend is looked for, and how long what it asks for may be against the step. */
const AHEAD = 0.1;
const MOST_BENT = 0.375;

function solved(information: Float64Array, right: Float64Array, damping: number): Float64Array {
  const size = right.length;
  const matrix = Float64Array.from(information);
  for (let index = 0; index < size; index++) {
    const own = information[index * size + index] ?? 0;
    matrix[index * size + index] = own * (1 + damping) + TINY;
  }
  const solution = Float64Array.from(right);
  solveInPlace(matrix, [solution]);
  return solution;
}

/** A parameter that nothing depends on stays where it is. */
const TINY = 1e-12;

/** Some rows at a time, which mostly have slopes by the same parameters: what is added to is fetched once for all of them. */
function normalEquations(residuals: Float64Array, slopes: Float64Array, parameters: number) {
  const information = new Float64Array(parameters * parameters);
  const gradient = new Float64Array(parameters);
  const used = new Int32Array(parameters);
  const packed = new Float64Array(AT_ONCE * parameters);
  for (let row = 0; row < residuals.length; row += AT_ONCE) {
    let count = 0;
    for (let a = 0; a < parameters; a++) {
      const at = row * parameters + a;
      const one = slopes[at] as number;
      const two = slopes[at + parameters] as number;
      const three = slopes[at + 2 * parameters] as number;
      const four = slopes[at + 3 * parameters] as number;
      if (one === 0 && two === 0 && three === 0 && four === 0) continue;
      gradient[a] =
        (gradient[a] as number) +
        one * (residuals[row] as number) +
        two * (residuals[row + 1] as number) +
        three * (residuals[row + 2] as number) +
        four * (residuals[row + 3] as number);
      const place = AT_ONCE * count;
      packed[place] = one;
      packed[place + 1] = two;
      packed[place + 2] = three;
      packed[place + 3] = four;
      used[count] = a;
      count += 1;
      const line = a * parameters;
      for (let index = 0; index < count; index++) {
        const from = AT_ONCE * index;
        const to = line + (used[index] as number);
        information[to] =
          (information[to] as number) +
          one * (packed[from] as number) +
          two * (packed[from + 1] as number) +
          three * (packed[from + 2] as number) +
          four * (packed[from + 3] as number);
      }
    }
  }
  for (let a = 0; a < parameters; a++)
    for (let b = 0; b < a; b++) information[b * parameters + a] = information[a * parameters + b] as number;
  return { information, gradient };
}

/** Rows that the normal equations are made of at once; those that are missing are zeros. */
const AT_ONCE = 4;

const sumOfSquares = (values: Float64Array): number => values.reduce((sum, each) => sum + each * each, 0);
