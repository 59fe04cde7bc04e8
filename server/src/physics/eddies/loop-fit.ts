import type { Complex } from '../complex.ts';

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
 * Least squares of `values` by Σ weightₗ · jxₗ/(1 + jxₗ) at given corners, weights of either sign; a little held back, since two
 * corners may lie close.
 */
export function fitWeights(corners: readonly number[], values: readonly LossPoint[]): readonly number[] {
  const { gram, moments } = normalEquations(corners, values);
  corners.forEach((_, index) => {
    const row = gram[index];
    if (row) row[index] = (row[index] ?? 0) * (1 + 1e-4);
  });
  return solveSmall(gram, moments);
}

interface Fit {
  readonly corners: readonly number[];
  readonly weights: readonly number[];
  readonly error: number;
}

const loopsOf = ({ corners, weights }: Fit): readonly EddyLoop[] =>
  corners
    .map((cornerHz, index) => ({ squaredCoupling: weights[index] ?? 0, cornerHz }))
    .sort((a, b) => a.cornerHz - b.cornerHz);

function bestOnGrid(curve: readonly LossPoint[], count: number): Fit | undefined {
  const { gram, moments } = normalEquations(CORNERS_HZ, curve);
  const square = squareOf(curve);
  let best: Fit | undefined;
  const visit = (chosen: readonly number[]) => {
    if (chosen.length === count) {
      const fit = weighed(
        chosen.map((index) => CORNERS_HZ[index] ?? 0),
        chosen.map((row) => chosen.map((column) => gram[row]?.[column] ?? 0)),
        chosen.map((row) => moments[row] ?? 0),
        square,
      );
      if (fit && (best === undefined || fit.error < best.error)) best = fit;
      return;
    }
    for (let next = (chosen.at(-1) ?? -1) + 1; next < CORNERS_HZ.length; next++) visit([...chosen, next]);
  };
  visit([]);
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
          const fit = weighed(corners, gram, moments, square);
          if (fit && fit.error < best.error * (1 - 1e-9)) [best, improved] = [fit, true];
        }
    }
  }
  return best;
}

/** Undefined where a weight would not be positive, or all of them would take too much. */
function weighed(
  corners: readonly number[],
  gram: readonly (readonly number[])[],
  moments: readonly number[],
  square: number,
): Fit | undefined {
  const weights = solveSmall(
    gram.map((row) => [...row]),
    moments,
  );
  if (!weights.every((weight) => weight > 0)) return undefined;
  if (weights.reduce((sum, weight) => sum + weight, 0) > MOST_TAKEN) return undefined;
  const explained = weights.reduce((sum, weight, index) => sum + weight * (moments[index] ?? 0), 0);
  return { corners, weights, error: square - explained };
}

function normalEquations(corners: readonly number[], curve: readonly LossPoint[]) {
  const shapes = corners.map((corner) => curve.map(({ frequencyHz }) => loopShape(frequencyHz, corner)));
  const inner = (a: readonly Complex[], b: readonly Complex[]) =>
    a.reduce((sum, { re, im }, k) => sum + re * (b[k]?.re ?? 0) + im * (b[k]?.im ?? 0), 0);
  const lost = curve.map((point) => point.lost);
  return {
    gram: shapes.map((a) => shapes.map((b) => inner(a, b))),
    moments: shapes.map((a) => inner(a, lost)),
  };
}

const squareOf = (curve: readonly LossPoint[]): number =>
  curve.reduce((sum, { lost }) => sum + lost.re ** 2 + lost.im ** 2, 0);

/** A few equations, symmetric and positive; changes its matrix. */
function solveSmall(matrix: number[][], right: readonly number[]): number[] {
  const size = right.length;
  const solution = [...right];
  for (let pivot = 0; pivot < size; pivot++)
    for (let row = pivot + 1; row < size; row++) {
      const [upper, lower] = [matrix[pivot] ?? [], matrix[row] ?? []];
      const factor = (lower[pivot] ?? 0) / (upper[pivot] ?? 1);
      for (let k = pivot; k < size; k++) lower[k] = (lower[k] ?? 0) - factor * (upper[k] ?? 0);
      solution[row] = (solution[row] ?? 0) - factor * (solution[pivot] ?? 0);
    }
  for (let row = size - 1; row >= 0; row--) {
    let value = solution[row] ?? 0;
    for (let k = row + 1; k < size; k++) value -= (matrix[row]?.[k] ?? 0) * (solution[k] ?? 0);
    solution[row] = value / (matrix[row]?.[row] ?? 1);
  }
  return solution;
}
