/**
 * Least squares of a function that bends: D. W. Marquardt, "An Algorithm for Least-Squares Estimation of Nonlinear Parameters", Journal
 * of the Society for Industrial and Applied Mathematics 11 (1963) 431–441, with the diagonal of the normal equations as the measure of
 * a step. Where the sum of squares falls along a narrow valley that turns, a step bends with it: M. K. Transtrum and J. P. Sethna,
 * "Improvements to the Levenberg-Marquardt algorithm for nonlinear least-squares minimization", arXiv 1201.5885 (2012). Parameters are
 * logarithms or pure numbers of about 1, so a step is limited by one length for all.
 */
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
 * squares, it has been found; where that falls by 1, a parameter lies one deviation off. `damping`: of the first step, little where the
 * start lies in the valley already.
 */
export function leastSquares(
  problem: LeastSquares,
  start: ArrayLike<number>,
  { mostRounds = 60, enough = 1e-4, damping = 1e-3 }: { mostRounds?: number; enough?: number; damping?: number } = {},
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
  let harder = HARDER;
  let slow = 0;
  let rounds = 0;
  for (; rounds < mostRounds && damping < MOST_DAMPING; rounds++) {
    const factor = dampedFactor(information, parameters, damping);
    const straight = solved(factor, gradient);
    // What is less than enough is not stepped for.
    if (damping < 1 && expectedGain(straight, information, gradient) < enough) break;
    const step = bentStep({ problem, values, residuals, slopes, information, factor, straight, trial });
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
  readonly factor: Float64Array;
  readonly straight: Float64Array;
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
  factor,
  straight,
  trial,
}: Place): Float64Array | undefined {
  const size = straight.length;
  const step = limited(straight);
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
  const bent = solved(factor, pull);
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

/** How much the sum of squares falls by such a step where nothing bends. */
function expectedGain(step: Float64Array, information: Float64Array, gradient: Float64Array): number {
  const size = step.length;
  let gain = 0;
  for (let row = 0; row < size; row++) {
    let along = 0;
    for (let at = 0; at < size; at++) along += (information[row * size + at] as number) * (step[at] as number);
    gain += (step[row] as number) * (2 * (gradient[row] as number) - along);
  }
  return gain;
}

/** The lower triangle L, LLᵀ the normal equations with so much more on their diagonal (A.-L. Cholesky): each round solves them twice. */
function dampedFactor(information: Float64Array, size: number, damping: number): Float64Array {
  const factor = Float64Array.from(information);
  for (let row = 0; row < size; row++) {
    const line = row * size;
    factor[line + row] = (factor[line + row] as number) * (1 + damping) + TINY;
    for (let column = 0; column <= row; column++) {
      const top = column * size;
      let rest = factor[line + column] as number;
      for (let at = 0; at < column; at++) rest -= (factor[line + at] as number) * (factor[top + at] as number);
      factor[line + column] = column === row ? Math.sqrt(rest) : rest / (factor[top + column] as number);
    }
  }
  return factor;
}

function solved(factor: Float64Array, right: Float64Array): Float64Array {
  const size = right.length;
  const solution = Float64Array.from(right);
  for (let row = 0; row < size; row++) {
    const line = row * size;
    let rest = solution[row] as number;
    for (let at = 0; at < row; at++) rest -= (factor[line + at] as number) * (solution[at] as number);
    solution[row] = rest / (factor[line + row] as number);
  }
  for (let row = size - 1; row >= 0; row--) {
    const line = row * size;
    const found = (solution[row] as number) / (factor[line + row] as number);
    solution[row] = found;
    for (let at = 0; at < row; at++) solution[at] = (solution[at] as number) - (factor[line + at] as number) * found;
  }
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
