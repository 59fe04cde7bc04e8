/**
 * A coil from its sweeps: what was measured, how well, and whether the circuit holds. Of several forms of loss the simplest is taken whose
 * Bayesian criterion (G. Schwarz, Annals of Statistics 6 (1978) 461–464) lies within 10 of the least.
 */
import { leastSquares, type Minimum } from '../levenberg-marquardt.ts';
import { solveInPlace } from '../linear-solve.ts';
import { type CoilForm, metalPartsOf, partsOfForm } from './coil-form.ts';
import { type CoilsJoined, withoutSurroundings } from './coil-network.ts';
import { problemAtFewPoints, thinnedOut } from './few-points.ts';
import { type Noise, scatterOf } from './scatter.ts';
import { type Nuisance, type SweepProblem, type SweepsOfCoil, sweepProblem, wrapped } from './sweep-problem.ts';
import { startOf } from './sweep-start.ts';

export interface SweepFit {
  readonly form: CoilForm;
  readonly problem: SweepProblem;
  readonly values: Float64Array;
  /** Of all parameters, row by row; stretched where the circuit does not hold wholly. */
  readonly covariance: Float64Array;
  readonly nuisances: readonly Nuisance[];
  readonly noise: readonly Noise[];
  /** Of one coil: what each form that was tried makes of the metal. */
  readonly losses: ReadonlyMap<CoilForm, readonly number[]>;
  /** Another form of as many parameters that does nearly as well, and how likely it is the true one of both. */
  readonly rival:
    | { readonly problem: SweepProblem; readonly values: Float64Array; readonly likely: number }
    | undefined;
  /** Squared residuals over what the points' scatter allows; 1 where the circuit holds. */
  readonly reducedChiSquared: number;
  /** Root mean square of what is left, of ln level and radians together, and the scatter of the points at the same places. */
  readonly rest: number;
  readonly scatter: number;
}

/** `undefined` where no start can be found: nothing rises like a coil. */
export function fitSweeps(asked: SweepsOfCoil): SweepFit | undefined {
  const tried = asked.joined?.start ? triedFrom(asked, asked.joined.start) : triedByEye(asked);
  if (!tried) return undefined;
  const best = chosenForm(tried);
  const { sweeps, chosen } = simplerSurroundings(asked, best);
  const settledNoise = noiseOf(sweeps, chosen);
  const problem = sweepProblem(sweeps, chosen.problem.form, settledNoise);
  const toTheEnd = ({ minimum: { values } }: Tried) => {
    if (!asked.joined) return minimum(problem, values, TO_THE_END);
    const few = problemAtFewPoints(sweeps, chosen.problem.form, settledNoise, values);
    return minimum(few, values, { ...TO_THE_END, ...IN_THE_VALLEY });
  };
  // Minima that are about as low may change places on the way.
  const others = chosen === best ? tried.filter((each) => each !== best && isNear(each, best)).map(toTheEnd) : [];
  const ends = [toTheEnd(chosen), ...others];
  const lowest = least(ends);
  const last = asked.joined ? minimum(problem, lowest.minimum.values, AT_ALL_POINTS) : lowest;
  const ofOtherForm = tried.filter(({ problem: { form } }) => form !== best.problem.form);
  // Sums are compared where both were made with the same scatter.
  const rivals = [rivalOf(last, ends), rivalOf(best, ofOtherForm)].flatMap((each) => each ?? []);
  const [rival] = rivals.sort((a, b) => b.likely - a.likely);
  const losses = asked.joined
    ? []
    : tried.map(
        ({ problem: { form, network }, minimum: { values } }) =>
          [form, Array.from(values.subarray(3, network.count))] as const,
      );
  return { ...finished(sweeps, last, settledNoise), losses: new Map(losses), rival };
}

/** Another minimum of the same form. */
const isNear = ({ problem: { form }, criterion }: Tried, best: Tried): boolean =>
  form === best.problem.form && criterion < best.criterion + RIVALLING;

/** From a sum of squares that lies so much higher more is gained on the way than minima that are apart differ by. */
const RIVALLING = 30;

/** Without what stands about the coils, where less than half of what is computed is seen of it and as much is left without. */
function simplerSurroundings(
  asked: SweepsOfCoil,
  best: Tried,
): { readonly sweeps: SweepsOfCoil; readonly chosen: Tried } {
  const { aboutAt } = best.problem.network;
  const isSeen = aboutAt < 0 || (best.minimum.values[aboutAt] ?? 0) > 0.5;
  if (!asked.joined || isSeen) return { sweeps: asked, chosen: best };
  const sweeps = { ...asked, joined: withoutSurroundings(asked.joined) };
  const problem = sweepProblem(sweeps, best.problem.form, noiseOf(asked, best));
  const start = carriedOver(best, problem);
  // Both with the scatter that the fuller one leaves.
  const fuller = minimum(sweepProblem(asked, best.problem.form, noiseOf(asked, best)), best.minimum.values, ROUGHLY);
  const simpler = minimum(problem, start, ROUGHLY);
  return simpler.criterion <= fuller.criterion + NEAR ? { sweeps, chosen: simpler } : { sweeps: asked, chosen: fuller };
}

/** The same values without the factor on what stands about the coils. */
function carriedOver(
  { problem: { network: before }, minimum: { values } }: Tried,
  { network: after, parameters }: SweepProblem,
) {
  const carried = new Float64Array(parameters);
  carried.set(values.subarray(0, before.aboutAt));
  carried.set(values.subarray(before.aboutAt + 1), before.aboutAt);
  return after.count === before.count - 1 ? carried : values;
}

function triedByEye(sweeps: SweepsOfCoil): readonly Tried[] | undefined {
  const start = startOf(sweeps);
  if (!start) return undefined;
  if (sweeps.curves.every(({ kind }) => kind === 'alone'))
    return begun(sweepProblem(sweeps, 'plain', firstNoise(sweeps)), [start], [1]);
  const first = firstLoop(sweeps, start);
  return triedForms(sweeps, noiseOf(sweeps, first), first);
}

/**
 * All forms; of shared metal both solutions, which may do equally well. Where they lie is looked for with few of the points, since most
 * starts end alike, and each is settled by few that stand for all; a form that leaves far more than the first is not.
 */
function triedFrom(
  sweeps: SweepsOfCoil,
  { forms, couplings, noise }: NonNullable<CoilsJoined['start']>,
): readonly Tried[] {
  const some = thinnedOut(sweeps);
  let from = couplings;
  let most = Number.POSITIVE_INFINITY;
  return forms.flatMap(({ form, sets }): readonly Tried[] => {
    const settled = ({ minimum: { values } }: Tried) =>
      minimum(problemAtFewPoints(sweeps, form, noise, values), values, { ...ROUGHLY, ...IN_THE_VALLEY });
    const begunWith = eachOnce(begun(sweepProblem(some, form, noise), sets, from));
    const tried = eachOnce(begunWith.filter((each) => sumOf(each) < most).map(settled));
    const [best] = tried;
    if (best && most === Number.POSITIVE_INFINITY) {
      from = [best.minimum.values[best.problem.network.couplingAt] ?? 1];
      most = sumOf(begunWith[0] ?? best) + RIVALLING;
    }
    return tried;
  });
}

/** A criterion without regard to where the metal's corners lie. */
const sumOf = ({ problem, minimum: { chiSquared } }: Omit<Tried, 'criterion'>): number =>
  chiSquared + problem.parameters * Math.log(problem.data);

/** The lowest of those that have come together in one valley. */
function eachOnce(tried: readonly Tried[]): readonly Tried[] {
  const kept: Tried[] = [];
  for (const each of tried.toSorted((a, b) => a.minimum.chiSquared - b.minimum.chiSquared))
    if (!kept.some((other) => isSameValley(each, other))) kept.push(each);
  return kept;
}

const isSameValley = (a: Tried, b: Tried): boolean =>
  a.problem.form === b.problem.form &&
  Math.abs(a.minimum.chiSquared - b.minimum.chiSquared) < 1 &&
  a.minimum.values.every((each, at) => Math.abs(each - (b.minimum.values[at] ?? 0)) < 0.5);

const least = (tried: readonly Tried[]): Tried =>
  tried.reduce((low, each) => (each.minimum.chiSquared < low.minimum.chiSquared ? each : low));

const ROUGHLY = { mostRounds: 40, enough: 0.01 };

/** Where two coils share several turns of metal the sum of squares falls slowly along a narrow valley: some 200 rounds. */
const TO_THE_END = { mostRounds: 300 };

/** Near a minimum the step is what the normal equations say; damping, they would take many rounds along a valley. */
const IN_THE_VALLEY = { damping: 1e-7 };

/** Some hundredths of a deviation, after few points have stood for all. */
const AT_ALL_POINTS = { mostRounds: 300, enough: 0.002, ...IN_THE_VALLEY };

const BRIEFLY = { mostRounds: 6, enough: 0.01 };

/** How far metal lies about the other coil where a fit begins, and of how many such starts it is followed on. */
const SOME_REACH = 0.3;
const FOLLOWED = 4;

/**
 * The least from a start. Of couplings the one begins that leaves least as it stands. Metal that no coil shares is alike on both sides,
 * where a fit would stand still, and each part may lie on the same side of both coils or on opposite ones: of the least of either
 * those that fall lowest at first are followed.
 */
function begun(
  problem: SweepProblem,
  sets: readonly (readonly number[])[],
  couplings: readonly number[],
): readonly [Tried, ...Tried[]] {
  const { count, couplingAt, aboutAt, reachAt, reaches } = problem.network;
  const values = new Float64Array(count);
  values.set(sets.flat().slice(0, count));
  if (aboutAt >= 0) values[aboutAt] = 1;
  const parts = metalPartsOf(problem.form);
  const from = (coupling: number, sides: number, patience: Patience) => {
    if (couplingAt >= 0) values[couplingAt] = coupling;
    for (let at = 0; at < reaches; at++) {
      const isSame = ((sides >> (at % parts)) & 1) === (at % (2 * parts) < parts ? 1 : 0);
      values[reachAt + at] = isSame ? SOME_REACH : -SOME_REACH;
    }
    return minimum(problem, problem.start(values), patience);
  };
  // Of several pairs the sides of each are not tried one by one: that would take long.
  const [tried, followed] = reaches > 2 * parts ? [[0, 2 ** parts - 1], 1] : [[...Array(2 ** parts).keys()], FOLLOWED];
  const lowest = (of: readonly Tried[]) => of.toSorted((a, b) => a.minimum.chiSquared - b.minimum.chiSquared);
  const asked = couplingAt < 0 ? [0] : couplings;
  const sorted = asked
    .map((coupling) => ({ coupling, as: from(coupling, 0, AS_IT_STANDS).minimum.chiSquared }))
    .sort((a, b) => a.as - b.as);
  let found: readonly Tried[] = [];
  for (const { coupling } of sorted) {
    const next =
      reaches === 0
        ? [from(coupling, 0, ROUGHLY)]
        : eachOnce(tried.map((sides) => from(coupling, sides, BRIEFLY)))
            .slice(0, followed)
            .map((each) => minimum(problem, each.minimum.values, ROUGHLY));
    found = lowest([...found, ...next]).slice(0, followed);
    if (least(found).minimum.chiSquared < NEARLY * problem.data) break;
  }
  return found as [Tried, ...Tried[]];
}

type Patience = Parameters<typeof leastSquares>[2];
const AS_IT_STANDS = { mostRounds: 0 };

/** Squared residuals of a point of a circuit that is found: another start finds the same. */
const NEARLY = 4;

/** From the first corner; from others as well where these do not agree. */
function firstLoop(sweeps: SweepsOfCoil, start: readonly number[]): Tried {
  const problem = sweepProblem(sweeps, 'loop', firstNoise(sweeps));
  const from = (corner: number) => begun(problem, [[...start, LOGIT_WEAK, Math.log(corner)]], [1])[0];
  let best = from(FIRST_CORNERS[0] ?? 8000);
  for (const corner of FIRST_CORNERS.slice(1)) {
    const next = from(corner);
    const isSame = Math.abs(next.minimum.chiSquared - best.minimum.chiSquared) < 1;
    if (next.minimum.chiSquared < best.minimum.chiSquared) best = next;
    if (isSame) break;
  }
  return best;
}

/** What is not smooth along a curve as it stands. */
const firstNoise = ({ curves }: SweepsOfCoil): readonly Noise[] =>
  curves.map(({ magnitude, phase }) =>
    scatterOf(magnitude, Float64Array.from(magnitude, Math.log), phase && Float64Array.from(unwrapped(phase))),
  );

function unwrapped(phase: readonly number[]): readonly number[] {
  let turned = phase[0] ?? 0;
  return phase.map((each) => {
    turned += wrapped(each - turned);
    return turned;
  });
}

/** The simple forms; where they leave nothing that follows a line, two kinds of loss could not be told. */
function triedForms(sweeps: SweepsOfCoil, noise: readonly Noise[], loop: Tried): readonly Tried[] {
  const simple = SIMPLE_FORMS.map((form) => fitForm(sweeps, form, noise, loop));
  if (simple.some((each) => Number.isFinite(each.criterion) && leavesNothing(sweeps, each))) return simple;
  const twoLoops = fitForm(sweeps, 'two loops', noise, loop);
  return [
    ...simple,
    twoLoops,
    fitForm(sweeps, 'core and loop', noise, loop),
    fitForm(sweeps, 'three loops', noise, twoLoops, thirdLoop(twoLoops)),
    fitForm(sweeps, 'loop and resistance', noise, loop),
  ];
}

/** Three loops where two were found: one below both, one between, one above; or both and one far above. */
function thirdLoop({ minimum: { values } }: Tried): readonly (readonly number[])[] {
  const [one, other] = [values.slice(3, 5), values.slice(5, 7)].sort(([, a = 0], [, b = 0]) => a - b);
  const [[lower = 0, low = 0], [upper = 0, high = 0]] = [one ?? [], other ?? []];
  return [
    [lower - 0.8, low - 1.3, lower + 0.4, (low + high) / 2, upper - 0.4, high + 0.3],
    [lower, low, upper, high, upper + 0.7, high + 1.7],
  ];
}

const SIMPLE_FORMS: readonly CoilForm[] = ['plain', 'loop', 'core'];

function leavesNothing(sweeps: SweepsOfCoil, { problem, minimum: { values } }: Tried): boolean {
  const { chiSquared, follows } = leftBy(sweeps, problem, values);
  return chiSquared < 1.1 && follows < 0.1;
}

interface Tried {
  readonly problem: SweepProblem;
  readonly minimum: Minimum;
  readonly criterion: number;
}

/** What lies beyond these no sweep tells from inductance or capacitance; of two alike that lie within a factor of 2 none tells each one's strength. */
const LEAST_CORNER_HZ = 60;
const MOST_CORNER_HZ = 80_000;

const FIRST_CORNERS = [8000, 2000, 30_000, 3000];
/** k² of 0.1, and of 0.05. */
const LOGIT_WEAK = Math.log(0.1 / 0.9);
const LOGIT_SLIGHT = Math.log(0.05 / 0.95);

function minimum(problem: SweepProblem, start: Float64Array, patience: Patience): Tried {
  const found = leastSquares(problem, start, patience);
  const { sets, ofSet } = problem.network;
  const isInside = Array.from({ length: sets }, (_, set) => {
    const corners = partsOfForm(problem.form).flatMap((part, index) =>
      part === 'across' ? [] : [{ part, log: found.values[set * ofSet + 4 + 2 * index] ?? 0 }],
    );
    return corners.every(
      ({ part, log }, at) =>
        log > Math.log(LEAST_CORNER_HZ) &&
        log < Math.log(MOST_CORNER_HZ) &&
        corners.slice(at + 1).every((other) => other.part !== part || Math.abs(other.log - log) > Math.LN2),
    );
  }).every((each) => each);
  const tried = { problem, minimum: found };
  return { ...tried, criterion: isInside ? sumOf(tried) : Number.POSITIVE_INFINITY };
}

const noiseOf = ({ curves }: SweepsOfCoil, { problem, minimum: { values } }: Tried): readonly Noise[] =>
  curves.map(({ magnitude }, index) => {
    const { level, phase } = problem.rest(values, index);
    return scatterOf(magnitude, level, phase);
  });

/** Losses of a form where one loop was found. */
export const lossesFrom = (
  form: CoilForm,
  strength: number,
  corner: number,
): readonly [readonly number[], ...(readonly number[])[]] => {
  switch (form) {
    case 'plain':
      return [[]];
    case 'loop':
      return [[strength, corner]];
    case 'core':
      return [[strength + 0.5, corner - 0.7]];
    case 'two loops':
      return [
        [strength - 0.5, corner + 1, strength - 0.5, corner - 1],
        [strength - 0.4, corner, LOGIT_SLIGHT, corner + 0.8],
        [strength + 0.7, corner + 0.4, LOGIT_SLIGHT, corner - 0.8],
      ];
    case 'core and loop':
      return [
        [strength - 0.7, corner - 1.2, strength - 0.7, corner + 0.7],
        [LOGIT_SLIGHT, corner + 0.6, strength - 0.4, corner],
      ];
    case 'three loops':
      return [[strength - 1.5, corner - 2, strength - 0.3, corner, strength, corner + 1.7]];
    case 'loop and resistance':
      return [
        [strength, corner, Math.log(1e6)],
        [LOGIT_WEAK, Math.log(8000), Math.log(3e5)],
      ];
  }
};

/** Of one coil, from the loop that was found, or from such losses. */
function fitForm(
  sweeps: SweepsOfCoil,
  form: CoilForm,
  noise: readonly Noise[],
  { problem: { network }, minimum: { values } }: Tried,
  asked?: readonly (readonly number[])[],
): Tried {
  const problem = sweepProblem(sweeps, form, noise);
  const [strength = LOGIT_WEAK, corner = Math.log(8000)] = values.slice(3, network.count);
  const tried = (asked ?? lossesFrom(form, strength, corner)).map((losses) =>
    minimum(problem, Float64Array.from([...values.slice(0, 3), ...losses, ...values.slice(network.count)]), ROUGHLY),
  );
  return tried.reduce((low, each) => (each.criterion < low.criterion ? each : low));
}

/** A resistance across only where it is better than all others; of the others the simplest that is near the best, of two as simple the better. */
function chosenForm(tried: readonly Tried[]): Tried {
  const best = (of: readonly Tried[]) => of.reduce((low, each) => (each.criterion < low.criterion ? each : low));
  const across = tried.find(({ problem }) => problem.form === 'loop and resistance');
  const others = tried.filter((each) => each !== across);
  const least = best(others).criterion;
  if (across && across.criterion + NEAR < least) return across;
  const near = others.filter(({ criterion }) => criterion <= least + NEAR);
  const fewest = Math.min(...near.map(({ problem }) => problem.parameters));
  return best(near.length > 0 ? near.filter(({ problem }) => problem.parameters === fewest) : others);
}

const NEAR = 10;

/** By the ratio of their likelihoods; what is told of the coil covers what both say. */
function rivalOf(chosen: Tried, tried: readonly Tried[]): SweepFit['rival'] {
  const others = tried.filter(
    (each) =>
      each.problem.parameters === chosen.problem.parameters && each.criterion < Infinity && isUnlike(each, chosen),
  );
  if (others.length === 0) return undefined;
  const {
    problem,
    minimum: found,
    criterion,
  } = others.reduce((low, each) => (each.criterion < low.criterion ? each : low));
  const likely = 1 / (1 + Math.exp((criterion - chosen.criterion) / 2));
  return likely < UNLIKELY ? undefined : { problem, values: found.values, likely };
}

const UNLIKELY = 0.003;

/**
 * Another form, or other values of it than the same minimum has when it is come to from elsewhere, where turns of metal may have changed
 * places.
 */
const isUnlike = (a: Tried, b: Tried): boolean =>
  a.problem.form !== b.problem.form ||
  (Math.abs(a.minimum.chiSquared - b.minimum.chiSquared) > 0.1 &&
    a.minimum.values.some(
      (each, at) => at < a.problem.network.count && Math.abs(each - (b.minimum.values[at] ?? 0)) > 0.1,
    ));

function finished(sweeps: SweepsOfCoil, last: Tried, noise: readonly Noise[]): Omit<SweepFit, 'rival' | 'losses'> {
  const {
    problem,
    minimum: { values },
  } = last;
  const { chiSquared, follows, freedom } = leftBy(sweeps, problem, values);
  const stretch = Math.sqrt((Math.max(1, chiSquared) * (1 + follows)) / (1 - follows)) * (1 + 2 / freedom);
  const { rest, scatter } = restOf(sweeps.curves, problem, values, noise);
  return {
    form: problem.form,
    problem,
    values,
    covariance: covarianceOf(sweeps, last, stretch),
    nuisances: problem.nuisances,
    noise,
    reducedChiSquared: chiSquared,
    rest,
    scatter,
  };
}

/** Of sweeps that were fitted together the fit of some curves, as if they had been fitted alone. */
export function partOfFit(fit: SweepFit, { curves }: SweepsOfCoil, places: readonly number[]): SweepFit {
  const at = (curve: number) => places[curve] ?? 0;
  const partOf = (problem: SweepProblem): SweepProblem => ({
    ...problem,
    rest: (of, curve) => problem.rest(of, at(curve)),
    setUpAt: (of, curve) => problem.setUpAt(of, at(curve)),
    terminalsAt: (of, curve) => problem.terminalsAt(of, at(curve)),
    admittanceAt: (of, curve, hz) => problem.admittanceAt(of, at(curve), hz),
    modelled: (of, curve, hz) => problem.modelled(of, at(curve), hz),
  });
  const problem = partOf(fit.problem);
  const noise = places.flatMap((place) => fit.noise[place] ?? []);
  const own = places.flatMap((place) => curves[place] ?? []);
  return {
    ...fit,
    noise,
    problem,
    rival: fit.rival && { ...fit.rival, problem: partOf(fit.rival.problem) },
    ...restOf(own, problem, fit.values, noise),
  };
}

/** Squared residuals over their deviations for each point that is not used up, and how far each follows the one before. */
function leftBy(sweeps: SweepsOfCoil, problem: SweepProblem, values: Float64Array) {
  const residuals = new Float64Array(problem.residuals);
  problem.at(values, residuals, undefined);
  const data = residuals.subarray(0, problem.data);
  const freedom = Math.max(1, problem.data - problem.parameters);
  return {
    freedom,
    chiSquared: data.reduce((sum, each) => sum + each * each, 0) / freedom,
    follows: Math.min(0.9, Math.max(0, correlationOf(sweeps, data))),
  };
}

/** Lag-1 correlation along each curve, of level and phase apart. */
function correlationOf({ curves }: SweepsOfCoil, data: Float64Array): number {
  let products = 0;
  let squares = 0;
  let row = 0;
  for (const { hz, phase } of curves) {
    const step = phase ? 2 : 1;
    const end = row + step * hz.length;
    for (let at = row; at < end; at++) {
      squares += (data[at] as number) ** 2;
      if (at + step < end) products += (data[at] as number) * (data[at + step] as number);
    }
    row = end;
  }
  return squares > 0 ? products / squares : 0;
}

function restOf(curves: SweepsOfCoil['curves'], problem: SweepProblem, values: Float64Array, noise: readonly Noise[]) {
  let left = 0;
  let expected = 0;
  let count = 0;
  curves.forEach(({ magnitude, relativeSd }, index) => {
    const { level, phase } = problem.rest(values, index);
    const { share = 0, floor = 0 } = noise[index] ?? {};
    magnitude.forEach((each, at) => {
      const sd = relativeSd?.[at] ?? Math.hypot(share, floor / each);
      const parts = phase ? [level[at] ?? 0, phase[at] ?? 0] : [level[at] ?? 0];
      for (const part of parts) {
        left += part ** 2;
        expected += sd ** 2;
        count += 1;
      }
    });
  });
  return { rest: Math.sqrt(left / count), scatter: Math.sqrt(expected / count) };
}

/** Where the deviations of all points, but not those of what is believed, are so much greater. */
function covarianceOf(sweeps: SweepsOfCoil, { problem, minimum: { values, information } }: Tried, stretch: number) {
  const pointless = sweeps.curves.map((curve) => ({ ...curve, hz: [], magnitude: [], phase: curve.phase && [] }));
  const believed = leastSquares(sweepProblem({ ...sweeps, curves: pointless }, problem.form, []), values, AS_IT_STANDS);
  const size = problem.parameters;
  const matrix = information.map((each, at) => {
    const before = believed.information[at] as number;
    return before + (each - before) / stretch ** 2;
  });
  for (let index = 0; index < size; index++)
    matrix[index * size + index] = (matrix[index * size + index] as number) + 1e-9;
  const columns = Array.from({ length: size }, (_, column) => {
    const unit = new Float64Array(size);
    unit[column] = 1;
    return unit;
  });
  solveInPlace(matrix, columns);
  return Float64Array.from(
    { length: size * size },
    (_, index) => columns[index % size]?.[Math.floor(index / size)] ?? 0,
  );
}

/** A number made of a fit: its deviation, and what of that each nuisance makes. */
export interface Figure {
  readonly value: number;
  readonly sd: number;
  /** Signed, by the place of the nuisance's parameter. */
  readonly shares: ReadonlyMap<number, number>;
}

/**
 * Numbers of the parameters, to first order, and as far as a rival form makes others of them. A share is what one is moved by where the
 * set-up lies one deviation off what was believed of it before the sweep: what the sweep itself tells of a resistor is no error that
 * another sweep has as well. What is asked for together is computed together.
 */
export function figuresOf<K extends string>(
  fit: SweepFit,
  of: (values: Float64Array, problem: SweepProblem) => Readonly<Record<K, number>>,
): Readonly<Record<K, Figure>> {
  const { values, covariance, nuisances, problem, rival } = fit;
  const size = values.length;
  const found = of(values, problem);
  const others = rival && of(rival.values, rival.problem);
  // No number of the coils asks for the set-up, which they were measured through.
  const moved = movedEach(fit, (by) => of(by, problem), problem.network.count);
  const figure = (key: K): Figure => {
    const slopes = moved.map(({ up, down, step }) => (up[key] - down[key]) / (2 * step));
    const along = Array.from({ length: size }, (_, row) =>
      slopes.reduce((sum, slope, column) => sum + slope * (covariance[row * size + column] ?? 0), 0),
    );
    const variance = slopes.reduce((sum, slope, index) => sum + slope * (along[index] ?? 0), 0);
    const shares = new Map(nuisances.map(({ at, sd }) => [at, (along[at] ?? 0) / sd] as const));
    const apart = rival && others ? Math.sqrt(rival.likely) * (others[key] - found[key]) : 0;
    return { value: found[key], sd: Math.sqrt(Math.max(0, variance) + apart ** 2), shares };
  };
  return Object.fromEntries((Object.keys(found) as K[]).map((key) => [key, figure(key)])) as Record<K, Figure>;
}

export const figureOf = (fit: SweepFit, of: (values: Float64Array, problem: SweepProblem) => number): Figure =>
  figuresOf(fit, (...at) => ({ one: of(...at) })).one;

export const slopesOf = (fit: SweepFit, f: (values: Float64Array) => number): readonly number[] =>
  movedEach(fit, f).map(({ up, down, step }) => (up - down) / (2 * step));

/** What f becomes where each parameter, or the first so many, is moved by a part of its deviation, either way. */
function movedEach<T>(
  { values, covariance }: Pick<SweepFit, 'values' | 'covariance'>,
  f: (values: Float64Array) => T,
  count = values.length,
) {
  const size = values.length;
  return Array.from({ length: count }, (_, index) => {
    const step = Math.max(1e-5, Math.min(1e-2, 0.1 * Math.sqrt(covariance[index * size + index] ?? 0)));
    const moved = (by: number) => f(values.map((each, at) => (at === index ? each + by : each)));
    return { up: moved(step), down: moved(-step), step };
  });
}
