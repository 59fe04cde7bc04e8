/**
 * The sum of squares of all points of sweeps, told by few points of each. What a model differs by from itself with other values is smooth
 * along a curve: between the few points it is the cubic through the nearest four of them, along log f. With those weights Φ what is left
 * at all points, r + Φδ, each over its deviation, is |Lᵀδ + L⁻¹ΦᵀWr|² and a remainder that stays, where LLᵀ = ΦᵀWΦ: no point is lost.
 */
import type { CoilForm } from './coil-form.ts';
import type { Noise } from './scatter.ts';
import {
  deviationsOf,
  type MeasuredCurve,
  type SweepProblem,
  type SweepsOfCoil,
  sweepProblem,
  wrapped,
} from './sweep-problem.ts';

/** Each curve at so many of its points as say where a fit of it lies. */
export const thinnedOut = (sweeps: SweepsOfCoil): SweepsOfCoil => ({ ...sweeps, curves: sweeps.curves.map(thinned) });

function thinned(curve: MeasuredCurve): MeasuredCurve {
  const places = fewPlaces(curve);
  const { hz, magnitude, phase, relativeSd } = curve;
  const some = (of: readonly number[]) => places.map((at) => of[at] as number);
  return {
    ...curve,
    hz: some(hz),
    magnitude: some(magnitude),
    phase: phase && some(phase),
    relativeSd: relativeSd && some(relativeSd),
  };
}

/** Where frequency, level or phase have moved by so much since the last one: closely where a curve turns. */
function fewPlaces({ hz, magnitude, phase }: MeasuredCurve): readonly number[] {
  if (hz.length < MANY_POINTS) return hz.map((_, at) => at);
  const movedFrom = (from: number, to: number) =>
    Math.hypot(
      Math.log((hz[to] as number) / (hz[from] as number)),
      Math.log((magnitude[to] as number) / (magnitude[from] as number)),
      phase ? wrapped((phase[to] as number) - (phase[from] as number)) : 0,
    );
  const places = [0];
  for (let at = 1; at < hz.length; at++)
    if (at === hz.length - 1 || movedFrom(places.at(-1) as number, at + 1) > MOVED) places.push(at);
  return places.length < FEWEST ? hz.map((_, at) => at) : places;
}

const MOVED = 0.4;
/** With fewer points little is gained. */
const MANY_POINTS = 60;
/** With fewer places there is no cubic, or nothing to be seen. */
const FEWEST = 8;

/** The problem of all points as it is near such values. */
export function problemAtFewPoints(
  sweeps: SweepsOfCoil,
  form: CoilForm,
  noise: readonly Noise[],
  values: Float64Array,
): SweepProblem {
  const whole = sweepProblem(sweeps, form, noise);
  const few = thinnedOut(sweeps);
  const asItIs = few.curves.map((curve) => ({ ...curve, relativeSd: undefined }));
  const some = sweepProblem(
    { ...few, curves: asItIs },
    form,
    few.curves.map(() => ONE),
  );
  const before = new Float64Array(some.residuals);
  some.at(values, before, undefined);
  let row = 0;
  let remainder = 0;
  const parts = sweeps.curves.map((curve, index) => {
    const { level, phase } = whole.rest(values, index);
    const part = condensed(curve, deviationsOf(curve, noise[index]), level, phase);
    remainder += part.remainder;
    const first = row;
    row += part.rights.length * part.size;
    return { ...part, first };
  });
  return {
    ...whole,
    residuals: some.residuals + 1,
    at: (moved, into, slopes) => {
      some.at(moved, into, slopes);
      for (let at = 0; at < row; at++) into[at] = (into[at] as number) - (before[at] as number);
      for (const { first, rights, size, factor } of parts) {
        multiply(into, first, 1, { size, step: rights.length, factor });
        if (slopes) multiply(slopes, first, some.parameters, { size, step: rights.length, factor });
        rights.forEach((right, place) => {
          for (let at = 0; at < size; at++) {
            const to = first + rights.length * at + place;
            into[to] = (into[to] as number) - (right[at] as number);
          }
        });
      }
      into[some.residuals] = Math.sqrt(Math.max(0, remainder));
      slopes?.fill(0, some.residuals * some.parameters);
    },
  };
}

const ONE: Noise = { share: 1, floor: 0 };

interface Condensed {
  readonly size: number;
  /** L, by the columns: four numbers each from the diagonal down. */
  readonly factor: Float64Array;
  /** L⁻¹ΦᵀWr of level and phase. */
  readonly rights: readonly Float64Array[];
  readonly remainder: number;
}

/** Numbers of a cubic. */
const WIDE = 4;

function condensed(
  curve: MeasuredCurve,
  deviations: Float64Array,
  level: Float64Array,
  phase: Float64Array | undefined,
): Condensed {
  const { hz } = curve;
  const places = fewPlaces(curve);
  const size = places.length;
  const logs = Float64Array.from(places, (at) => Math.log(hz[at] as number));
  const sums = phase ? [level, phase] : [level];
  const factor = new Float64Array(WIDE * size);
  const rights = sums.map(() => new Float64Array(size));
  const weights = new Float64Array(WIDE);
  let remainder = 0;
  let next = 0;
  hz.forEach((each, at) => {
    while (next < size && (places[next] as number) <= at) next += 1;
    const first = Math.max(0, Math.min(size - WIDE, next - 2));
    cubic(logs, first, Math.log(each), weights);
    const square = 1 / (deviations[at] as number) ** 2;
    for (let a = 0; a < WIDE; a++) {
      const weight = square * (weights[a] as number);
      for (let b = a; b < WIDE; b++) {
        const to = WIDE * (first + a) + b - a;
        factor[to] = (factor[to] as number) + weight * (weights[b] as number);
      }
      sums.forEach((sum, index) => {
        const right = rights[index] as Float64Array;
        right[first + a] = (right[first + a] as number) + weight * (sum[at] as number);
      });
    }
    for (const sum of sums) remainder += square * (sum[at] as number) ** 2;
  });
  for (let column = 0; column < size; column++) {
    const root = Math.sqrt(factor[WIDE * column] as number);
    for (let down = 0; down < WIDE; down++)
      factor[WIDE * column + down] = (factor[WIDE * column + down] as number) / root;
    for (let a = 1; a < WIDE && column + a < size; a++)
      for (let b = a; b < WIDE; b++) {
        const to = WIDE * (column + a) + b - a;
        factor[to] =
          (factor[to] as number) - (factor[WIDE * column + a] as number) * (factor[WIDE * column + b] as number);
      }
    for (const right of rights) {
      const found = (right[column] as number) / root;
      right[column] = found;
      remainder -= found ** 2;
      for (let a = 1; a < WIDE && column + a < size; a++)
        right[column + a] = (right[column + a] as number) - (factor[WIDE * column + a] as number) * found;
    }
  }
  return { size, factor, rights, remainder };
}

/** Of what has four values at `logs` from `first` on: how much of each the cubic through them has at `log` (J. L. Lagrange). */
function cubic(logs: Float64Array, first: number, log: number, into: Float64Array): void {
  for (let a = 0; a < WIDE; a++) {
    let weight = 1;
    for (let b = 0; b < WIDE; b++)
      if (b !== a)
        weight *= (log - (logs[first + b] as number)) / ((logs[first + a] as number) - (logs[first + b] as number));
    into[a] = weight;
  }
}

/** Lᵀ times rows of so many numbers, of which each `step`-th is of the same sum; each row needs only itself and those below. */
function multiply(
  rows: Float64Array,
  firstRow: number,
  width: number,
  { size, step, factor }: { readonly size: number; readonly step: number; readonly factor: Float64Array },
): void {
  for (let at = 0; at < size; at++) {
    const below = Math.min(WIDE, size - at);
    for (let place = 0; place < step; place++) {
      const start = (firstRow + step * at + place) * width;
      for (let column = start; column < start + width; column++) {
        let sum = 0;
        for (let down = 0; down < below; down++)
          sum += (factor[WIDE * at + down] as number) * (rows[column + down * step * width] as number);
        rows[column] = sum;
      }
    }
  }
}
