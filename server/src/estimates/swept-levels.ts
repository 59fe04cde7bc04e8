/** What a swept coil gives under a load, over frequency, from its sweep alone: nothing computed is in it. */
import { magnitude } from '../physics/complex.ts';
import { measuredPoints } from '../physics/sweep/measured-impedance.ts';
import { changeOf, type JoinedFits } from '../physics/sweep/shared-set-up.ts';
import type { SweepFit } from '../physics/sweep/sweep-fit.ts';
import { offFitted, throughFitted } from '../physics/sweep/under-load.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { type Load, loadAdmittance } from './pickup-estimates.ts';
import { type SweptCoil, sweptFigure } from './sweeps-measured.ts';

/** Of the voltage in the winding, what is left at the leads; dB. */
export const levelEstimate = (swept: SweptCoil, load: Load, hz: number): Estimate =>
  sweptFigure(swept, (values, problem) => levelOf({ problem }, values, load, hz));

/** The same above what is left of a low note. */
export const aboveLow = (fit: Fitted, values: Float64Array, load: Load, hz: number): number =>
  levelOf(fit, values, load, hz) - levelOf(fit, values, load, LOW_HZ);

/** Frequency and height of the peak, against what it gives at low frequency; `undefined` where there is none. */
export function sweptPeak(swept: SweptCoil, load: Load): { readonly hz: Estimate; readonly db: Estimate } | undefined {
  const peakOf = peakFinder(swept.fit, load);
  if (!peakOf) return undefined;
  const db = sweptFigure(swept, (values, problem) => aboveLow({ problem }, values, load, peakOf(values, problem)));
  return db.value < LEAST_PEAK_DB ? undefined : { hz: sweptFigure(swept, peakOf), db };
}

/** How far the peak has moved; `undefined` where one of both has none. */
export function peakChange(pair: JoinedFits, load: Load): ReturnType<typeof changeOf> | undefined {
  const finders = new Map([pair.before, pair.after].map((fit) => [fit, peakFinder(fit, load)] as const));
  return [...finders.values()].every((each) => each !== undefined)
    ? changeOf(pair, (values, fit) => finders.get(fit)?.(values, fit.problem) ?? 0)
    : undefined;
}

/** Where values near those that were found have their peak, hertz. */
function peakFinder(
  fit: SweepFit,
  load: Load,
): ((values: Float64Array, problem: SweepFit['problem']) => number) | undefined {
  const levels = GRID_HZ.map((hz) => levelOf(fit, fit.values, load, hz));
  const top = levels.indexOf(Math.max(...levels));
  if (top === 0 || top === GRID_HZ.length - 1) return undefined;
  const [low = 0, high = 0] = [GRID_HZ[top - 1], GRID_HZ[top + 1]];
  return (values, problem) => highestBetween((hz) => levelOf({ problem }, values, load, hz), low, high);
}

export interface SweptLevels {
  readonly hz: readonly number[];
  readonly levelDb: readonly number[];
  /** Of each point, what it lies above the fit. */
  readonly offDb: readonly number[];
}

/** The points that were measured, brought to a load. */
export function sweptPoints(swept: SweptCoil, load: Load): SweptLevels {
  const points = swept.sweeps.curves
    .flatMap((_, at) => measuredPoints(swept.fit, swept.sweeps, at))
    .filter(({ hz }) => hz >= AUDIBLE_HZ.from && hz <= AUDIBLE_HZ.to)
    .sort((a, b) => a.hz - b.hz);
  const offDb = points.map((point) => offFitted(point, swept.capacitanceF.value, loadAdmittance(load, point.hz)));
  return {
    hz: points.map(({ hz }) => hz),
    levelDb: points.map(({ hz }, index) => levelOf(swept.fit, swept.fit.values, load, hz) + (offDb[index] ?? 0)),
    offDb,
  };
}

type Fitted = Pick<SweepFit, 'problem'>;

const levelOf = ({ problem }: Fitted, values: Float64Array, load: Load, hz: number): number =>
  DB * Math.log(magnitude(throughFitted(problem, values, 0, hz, loadAdmittance(load, hz))));

const DB = 20 / Math.LN10;
const AUDIBLE_HZ = { from: 20, to: 20_000 };
const LOW_HZ = 20;
const LEAST_PEAK_DB = 0.01;
const STEPS = 120;
const GRID_HZ = Array.from({ length: STEPS + 1 }, (_, index) => 200 * 100 ** (index / STEPS));

/** By the golden section, over the logarithm of frequency. */
function highestBetween(level: (hz: number) => number, fromHz: number, toHz: number): number {
  let [low, high] = [Math.log(fromHz), Math.log(toHz)];
  for (let round = 0; round < 40; round++) {
    const third = (high - low) * GOLDEN;
    if (level(Math.exp(low + third)) > level(Math.exp(high - third))) high -= third;
    else low += third;
  }
  return Math.exp((low + high) / 2);
}

const GOLDEN = (3 - Math.sqrt(5)) / 2;
