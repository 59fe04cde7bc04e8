import type { Complex } from '../complex.ts';
import { solveInPlace } from '../linear-solve.ts';

/** A shorted loop beside a coil: of the inductance at 0 Hz it takes the share k² · jx/(1 + jx), x = f/corner. */
export interface EddyLoop {
  readonly squaredCoupling: number;
  readonly cornerHz: number;
}

/** What the coil's inductance loses at a frequency, over its inductance at 0 Hz: 1 − L(f)/L(0). */
export interface LossPoint {
  readonly frequencyHz: number;
  readonly lost: Complex;
}

/** Frequencies over which loops stand for a curve. */
export const FIT_FREQUENCIES_HZ: readonly number[] = Array.from(
  { length: 13 },
  (_, index) => 300 * (20_000 / 300) ** (index / 12),
);

/** A curve that fewer loops meet to this share of the inductance needs no more of them. */
const GOOD_ENOUGH = 0.005;
const MOST_LOOPS = 3;
const CORNERS_HZ: readonly number[] = Array.from({ length: 20 }, (_, index) => 150 * 1.42 ** index);
/** All loops together leave this much of the inductance, or a circuit with them would make energy. */
const MOST_TAKEN = 0.98;

/**
 * One to three loops for a whole curve by least squares with positive weights: of all sets of corners on a grid the best, its
 * corners then moved one by one until nothing better lies beside them. The same curve gives the same loops. As many as are needed to
 * meet the curve, and to be `enough`; a curve that takes nothing gives none.
 */
export function fitLoops(
  curve: readonly LossPoint[],
  enough: (loops: readonly EddyLoop[]) => boolean = () => true,
): readonly EddyLoop[] {
  const greatest = Math.max(0, ...curve.map(({ lost }) => Math.hypot(lost.re, lost.im)));
  if (!(greatest > 1e-6)) return [];
  let best: readonly EddyLoop[] = [];
  for (let count = 1; count <= MOST_LOOPS; count++) {
    const fit = refined(bestOnGrid(curve, count), curve);
    if (fit === undefined) break;
    best = loopsOf(fit);
    if (fitErrorOf(best, curve) <= GOOD_ENOUGH && enough(best)) break;
  }
  return best;
}

/** Largest distance of a curve from its loops, as a share of the inductance at 0 Hz. */
export function fitErrorOf(loops: readonly EddyLoop[], curve: readonly LossPoint[]): number {
  return Math.max(
    ...curve.map(({ frequencyHz, lost }) => {
      const { re, im } = lostTo(loops, frequencyHz);
      return Math.hypot(re - lost.re, im - lost.im);
    }),
  );
}

/** 1 − L(f)/L(0) of a coil beside loops. */
export function lostTo(loops: readonly EddyLoop[], frequencyHz: number): Complex {
  let [re, im] = [0, 0];
  for (const { squaredCoupling, cornerHz } of loops) {
    const one = loopShape(frequencyHz, cornerHz);
    re += squaredCoupling * one.re;
    im += squaredCoupling * one.im;
  }
  return { re, im };
}

/** jx/(1 + jx), x = f/corner. */
export function loopShape(frequencyHz: number, cornerHz: number): Complex {
  const x = frequencyHz / cornerHz;
  return { re: (x * x) / (1 + x * x), im: x / (1 + x * x) };
}

/**
 * Least squares of `values` by Σ weightₗ · jxₗ/(1 + jxₗ) at the corners of these loops: the loops with those weights, of either sign,
 * in place of their own. A little is held back, since two corners may lie close.
 */
export function reweighted(loops: readonly EddyLoop[], values: readonly LossPoint[]): readonly EddyLoop[] {
  const corners = loops.map(({ cornerHz }) => cornerHz);
  const { gram, moments } = normalEquations(corners, values);
  const size = corners.length;
  for (let k = 0; k < size; k++) gram[k * size + k] = (gram[k * size + k] ?? 0) * (1 + 1e-4);
  solveInPlace(gram, [moments]);
  return withWeights(corners, moments);
}

interface Fit {
  readonly corners: readonly number[];
  readonly weights: readonly number[];
  readonly error: number;
}

const withWeights = (corners: readonly number[], weights: ArrayLike<number>): EddyLoop[] =>
  corners.map((cornerHz, index) => ({ squaredCoupling: weights[index] ?? 0, cornerHz }));

const loopsOf = ({ corners, weights }: Fit): readonly EddyLoop[] =>
  withWeights(corners, weights).sort((a, b) => a.cornerHz - b.cornerHz);

function bestOnGrid(curve: readonly LossPoint[], count: number): Fit | undefined {
  const { gram, moments } = normalEquations(CORNERS_HZ, curve);
  const square = squareOf(curve);
  const chosen = new Uint8Array(count);
  const part = new Float64Array(count * count);
  const right = new Float64Array(count);
  let best: Fit | undefined;
  const choose = (place: number, from: number): void => {
    if (place < count) {
      for (let next = from; next < CORNERS_HZ.length; next++) {
        chosen[place] = next;
        choose(place + 1, next + 1);
      }
      return;
    }
    for (let i = 0; i < count; i++) {
      const row = (chosen[i] ?? 0) * CORNERS_HZ.length;
      right[i] = moments[chosen[i] ?? 0] ?? 0;
      for (let j = 0; j < count; j++) part[i * count + j] = gram[row + (chosen[j] ?? 0)] ?? 0;
    }
    const error = weigh(part, right, square);
    if (error === undefined || (best !== undefined && error >= best.error)) return;
    best = { corners: Array.from(chosen, (index) => CORNERS_HZ[index] ?? 0), weights: [...right], error };
  };
  choose(0, 0);
  return best;
}

function refined(start: Fit | undefined, curve: readonly LossPoint[]): Fit | undefined {
  if (start === undefined) return undefined;
  const square = squareOf(curve);
  let best = start;
  for (let step = 0.12; step > 1e-3; step /= 2) {
    for (let improved = true; improved; ) {
      improved = false;
      for (let index = 0; index < best.corners.length; index++)
        for (const factor of [Math.exp(step), Math.exp(-step)]) {
          const corners = best.corners.map((corner, place) => (place === index ? corner * factor : corner));
          const { gram, moments } = normalEquations(corners, curve);
          const error = weigh(gram, moments, square);
          if (error === undefined || error >= best.error * (1 - 1e-9)) continue;
          best = { corners, weights: [...moments], error };
          improved = true;
        }
    }
  }
  return best;
}

/**
 * Solves the normal equations in place, weights in `moments`, and gives the sum of squares left; undefined where a weight would not be
 * positive, or all of them would take too much.
 */
function weigh(gram: Float64Array, moments: Float64Array, square: number): number | undefined {
  const before = [...moments];
  solveInPlace(gram, [moments]);
  let [sum, explained] = [0, 0];
  for (let k = 0; k < moments.length; k++) {
    const weight = moments[k] ?? 0;
    if (!(weight > 0)) return undefined;
    sum += weight;
    explained += weight * (before[k] ?? 0);
  }
  return sum > MOST_TAKEN ? undefined : square - explained;
}

function normalEquations(corners: readonly number[], curve: readonly LossPoint[]) {
  const size = corners.length;
  const gram = new Float64Array(size * size);
  const moments = new Float64Array(size);
  const real = new Float64Array(size);
  const imaginary = new Float64Array(size);
  for (const { frequencyHz, lost } of curve) {
    for (let i = 0; i < size; i++) {
      const { re, im } = loopShape(frequencyHz, corners[i] ?? 1);
      real[i] = re;
      imaginary[i] = im;
      moments[i] = (moments[i] ?? 0) + re * lost.re + im * lost.im;
      for (let j = 0; j <= i; j++)
        gram[i * size + j] = (gram[i * size + j] ?? 0) + re * (real[j] ?? 0) + im * (imaginary[j] ?? 0);
    }
  }
  for (let i = 0; i < size; i++) for (let j = 0; j < i; j++) gram[j * size + i] = gram[i * size + j] ?? 0;
  return { gram, moments };
}

const squareOf = (curve: readonly LossPoint[]): number =>
  curve.reduce((sum, { lost }) => sum + lost.re ** 2 + lost.im ** 2, 0);
