/** How many of the numbers of drawn sweeps lie within one and two of their stated deviations. */
import { figureOf, fitSweeps } from '../../server/src/physics/sweep/sweep-fit.ts';
import { type DrawnCoil, drawnSweep } from './drawn-sweeps.ts';

/** Capacitance only where the set-up tells it. */
export const COVERED: readonly (keyof DrawnCoil)[] = [
  'resistanceOhm',
  'inductanceH',
  'capacitanceF',
  'share',
  'cornerHz',
];

const NUMBERS: Readonly<Record<keyof DrawnCoil, (values: Float64Array) => number>> = {
  resistanceOhm: ([ohm = 0]) => Math.exp(ohm),
  inductanceH: ([, henry = 0]) => Math.exp(henry),
  capacitanceF: ([, , farad = 0]) => Math.exp(farad),
  share: ([, , , logit = 0]) => 1 / (1 + Math.exp(-logit)),
  cornerHz: ([, , , , corner = 0]) => Math.exp(corner),
};

export interface Coverage {
  readonly fits: number;
  /** Fits whose form is the one that was drawn; of others only R, L and C are counted. */
  readonly sameForm: number;
  readonly counts: Readonly<
    Record<keyof DrawnCoil, { readonly values: number; readonly one: number; readonly two: number }>
  >;
  /** The fastest and the middle of the times of one fit, ms. */
  readonly fastestMs: number;
  readonly middleMs: number;
}

export function coverage(kind: 'over' | 'through', draws: number, firstSeed = 1): Coverage {
  const counts = Object.fromEntries(COVERED.map((name) => [name, { values: 0, one: 0, two: 0 }])) as Record<
    keyof DrawnCoil,
    { values: number; one: number; two: number }
  >;
  const times: number[] = [];
  let fits = 0;
  let sameForm = 0;
  for (let seed = firstSeed; seed < firstSeed + draws; seed++) {
    const { truth, sweeps } = drawnSweep(kind, seed);
    const before = performance.now();
    const fit = fitSweeps(sweeps);
    times.push(performance.now() - before);
    if (!fit) continue;
    fits += 1;
    if (fit.form === 'loop') sameForm += 1;
    for (const name of COVERED) {
      if ((name === 'share' || name === 'cornerHz') && fit.form !== 'loop') continue;
      // What one loop has is another number than what a solid core has.
      const told = name === 'share' || name === 'cornerHz' ? { ...fit, rival: undefined } : fit;
      const { value, sd } = figureOf(told, NUMBERS[name]);
      const off = Math.abs(value - truth[name]) / sd;
      const count = counts[name];
      count.values += 1;
      if (off <= 1) count.one += 1;
      if (off <= 2) count.two += 1;
    }
  }
  times.sort((a, b) => a - b);
  return { fits, sameForm, counts, fastestMs: times[0] ?? 0, middleMs: times[Math.floor(times.length / 2)] ?? 0 };
}
