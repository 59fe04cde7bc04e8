import assert from 'node:assert/strict';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { leastSquares } from '../../server/src/physics/levenberg-marquardt.ts';
import { solveInPlace } from '../../server/src/physics/linear-solve.ts';
import type { CoilForm } from '../../server/src/physics/sweep/coil-form.ts';
import type { CoilsJoined } from '../../server/src/physics/sweep/coil-network.ts';
import { problemAtFewPoints } from '../../server/src/physics/sweep/few-points.ts';
import { type SweepProblem, type SweepsOfCoil, sweepProblem } from '../../server/src/physics/sweep/sweep-problem.ts';
import { drawnSweep } from '../sweeps/drawn-sweeps.ts';
import { referenceCurves, sweepsFor } from '../sweeps/reference-sweeps.ts';

const alone = (coil: number) => ({ nodes: 2, coils: [{ coil, start: 1, finish: 0 }], capacitors: [] });

/** Two coils in series, under a cable. */
const inSeries: CoilsJoined = {
  coils: [0, 1].map((set) => ({ set, ohm: 1, henry: 1, farad: 1 })),
  pairs: [{ a: 0, b: 1, coupling: 1, isMetalShared: true }],
  isCouplingFree: true,
  cableSd: 0.05,
  circuits: [
    alone(0),
    alone(1),
    {
      nodes: 3,
      coils: [
        { coil: 0, start: 2, finish: 1 },
        { coil: 1, start: 0, finish: 2 },
      ],
      capacitors: [{ from: 1, to: 0, farad: 60e-12, scaledBy: 'cable' }],
    },
  ],
};

const reference = ['t-screw', 't-slug', 't-series-aiding'].map((name) =>
  sweepsFor(referenceCurves.find(({ file }) => file.includes(name)) ?? assert.fail()),
);
const ONE = [Math.log(7000), Math.log(3), Math.log(1e-10), -2, Math.log(8000)];
const OF_TWO = [Math.log(4000), Math.log(2), Math.log(5e-11), -2.2, Math.log(8000)];

/** 0.1 % a point. */
const known = (sweeps: SweepsOfCoil): SweepsOfCoil => ({
  ...sweeps,
  curves: sweeps.curves.map((curve) => ({ ...curve, relativeSd: curve.hz.map(() => 0.001) })),
});

const SWEPT: readonly {
  readonly what: string;
  readonly form: CoilForm;
  readonly sweeps: SweepsOfCoil;
  readonly coils: readonly number[];
}[] = [
  { what: 'one coil', form: 'loop', sweeps: known(drawnSweep('over', 3).sweeps), coils: ONE },
  { what: 'a coil behind a resistor', form: 'core', sweeps: known(drawnSweep('through', 4).sweeps), coils: ONE },
  {
    what: 'two coils apart and in series',
    form: 'loop',
    sweeps: known({
      curves: reference.flatMap(({ curves }, circuit) => curves.map((curve) => ({ ...curve, circuit }))),
      recorder: reference[0]?.recorder ?? assert.fail(),
      dc: [],
      joined: inSeries,
    }),
    coils: [...OF_TWO, ...OF_TWO, 0.13, 0.3, -0.3],
  },
];

describe('least squares', () => {
  it('find the certified values of a bent function from a start far off', () => {
    // Misra1a, NIST Statistical Reference Datasets, nonlinear regression: y = b1 (1 − exp(−b2 x)), second start.
    const x = [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760];
    const y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78];
    const { values, chiSquared } = leastSquares(
      {
        residuals: x.length,
        parameters: 2,
        // By the logarithms of both: a step is limited by a factor.
        at: ([logB1 = 0, logB2 = 0], residuals, slopes) => {
          const [b1, b2] = [Math.exp(logB1), Math.exp(logB2)];
          x.forEach((each, index) => {
            const left = Math.exp(-b2 * each);
            residuals[index] = b1 * (1 - left) - (y[index] ?? 0);
            if (!slopes) return;
            slopes[2 * index] = b1 * (1 - left);
            slopes[2 * index + 1] = b1 * each * left * b2;
          });
        },
      },
      [Math.log(250), Math.log(5e-4)],
      { enough: 1e-14 },
    );
    const [b1 = 0, b2 = 0] = [...values].map(Math.exp);
    assert.ok(Math.abs(b1 / 2.3894212918e2 - 1) < 1e-7, `${b1}`);
    assert.ok(Math.abs(b2 / 5.5015643181e-4 - 1) < 1e-7, `${b2}`);
    assert.ok(Math.abs(chiSquared / 1.2455138894e-1 - 1) < 1e-7, `${chiSquared}`);
  });

  it('of a sweep are those of another program: scipy 1.17.1, optimize.least_squares, method lm (MINPACK)', () => {
    // The curve s-10k with one loop, recorder and resistor as believed, 0.1 % a point; ln R, ln L, ln C, logit of k², ln corner.
    const entry = referenceCurves.find(({ file }) => file.includes('s-10k')) ?? assert.fail();
    const { curves, recorder } = sweepsFor(entry);
    const sure = 1e-9;
    const problem = sweepProblem(
      {
        curves: curves.map((curve) => ({
          ...curve,
          seriesSd: sure,
          scaleSd: sure,
          relativeSd: curve.hz.map(() => 0.001),
        })),
        recorder: { ...recorder, ohmSd: sure, faradSd: sure * recorder.farad },
        dc: [],
      },
      'loop',
      [],
    );
    const start = problem.start([Math.log(7000), Math.log(3.3), Math.log(1e-10), -2, 9]);
    const { values, chiSquared } = leastSquares(problem, start, { enough: 1e-10 });
    const theirs = [8.876174877232641, 1.2468374357203387, -23.072675483426824, -1.9923799959803474, 8.876098950466991];
    for (const [index, value] of theirs.entries())
      assert.ok(Math.abs((values[index] ?? 0) - value) < 1e-6, `parameter ${index}: ${values[index]}, ${value} there`);
    assert.ok(Math.abs(chiSquared - 270.52882200497646) < 1e-6, `${chiSquared}`);
  });

  for (const { what, form, sweeps, coils } of SWEPT)
    it(`of ${what} are those of another program: ml-levenberg-marquardt 5.1.0, begun a little off`, () => {
      const problem = sweepProblem(sweeps, form, []);
      const { values, chiSquared, information } = leastSquares(problem, problem.start(coils), {
        mostRounds: 200,
        enough: 1e-9,
      });
      const { parameterValues, parameterError } = levenbergMarquardt(...asTheyAsk(problem, sweeps, values));
      const deviations = deviationsOf(information);
      for (const [at, value] of parameterValues.entries()) {
        const apart = Math.abs((values[at] ?? 0) - value) / (deviations[at] ?? 0);
        assert.ok(apart < 0.01, `parameter ${at}: ${values[at]}, ${value} there, ${apart} deviations`);
      }
      assert.ok(Math.abs(parameterError / chiSquared - 1) < 1e-6, `${chiSquared}, ${parameterError} there`);
      // Few points that stand for all of them, from a place off the minimum, and from what was found there.
      const off = leastSquares(problem, problem.start(coils), { mostRounds: 8 }).values;
      const byFew = (from: Float64Array) =>
        leastSquares(problemAtFewPoints(sweeps, form, [], from), from, { mostRounds: 200, enough: 1e-9 });
      const found = byFew(byFew(off).values);
      for (const [at, value] of found.values.entries()) {
        const apart = Math.abs((values[at] ?? 0) - value) / (deviations[at] ?? 0);
        assert.ok(apart < 0.1, `parameter ${at}: ${values[at]}, ${value} by few points, ${apart} deviations`);
      }
      assert.ok(Math.abs(found.chiSquared - chiSquared) < 0.05, `${chiSquared}, ${found.chiSquared} by few points`);
    });
});

/**
 * The same rows, each over its deviation; complex points as two real ones, what is believed as points of 0. Its own weights are not used:
 * they divide what a step is made of, and multiply the sum that it is judged by.
 */
function asTheyAsk(
  problem: SweepProblem,
  { curves, dc }: SweepsOfCoil,
  found: Float64Array,
): Parameters<typeof levenbergMarquardt> {
  const rows: { readonly measured: number; readonly sd: number }[] = [];
  for (const { magnitude, phase, relativeSd } of curves)
    magnitude.forEach((each, at) => {
      const sd = relativeSd?.[at] ?? assert.fail();
      rows.push({ measured: Math.log(each), sd }, { measured: phase?.[at] ?? assert.fail(), sd });
    });
  const believed = problem.nuisances.filter(({ sd }) => Number.isFinite(sd));
  const { reachAt, reaches } = problem.network;
  const reach = Array.from({ length: reaches }, (_, at) => ({ at: reachAt + at, sd: 1 }));
  const modelled = (values: Float64Array) => [
    ...curves.flatMap(({ magnitude, phase }, curve) => {
      const rest = problem.rest(values, curve);
      return magnitude.flatMap((each, at) => [
        Math.log(each) - (rest.level[at] ?? 0),
        (phase?.[at] ?? 0) - (rest.phase?.[at] ?? 0),
      ]);
    }),
    ...[...believed, ...reach].map(({ at }) => values[at] ?? 0),
    ...dc.map(() => {
      const { re, im } = problem.admittanceAt(values, 0, 1e-6);
      return -Math.log(Math.hypot(re, im));
    }),
  ];
  rows.push(
    ...[...believed, ...reach].map(({ sd }) => ({ measured: 0, sd })),
    ...dc.map(({ ohm, sd }) => ({ measured: Math.log(ohm), sd })),
  );
  const allOf = (values: readonly number[]) => {
    const all = modelled(Float64Array.from(values));
    return (row: number) => (all[row] ?? Number.NaN) / (rows[row]?.sd ?? 1);
  };
  return [
    { x: rows.map((_, row) => row), y: rows.map(({ measured, sd }) => measured / sd) },
    allOf,
    {
      initialValues: found.map((value, at) => value + 0.02 * Math.sin(3 * at)),
      gradientDifference: 1e-6,
      centralDifference: true,
      maxIterations: 15,
      errorTolerance: 1e-9,
    },
  ];
}

function deviationsOf(information: Float64Array): readonly number[] {
  const size = Math.sqrt(information.length);
  return Array.from({ length: size }, (_, at) => {
    const unit = new Float64Array(size);
    unit[at] = 1;
    solveInPlace(Float64Array.from(information), [unit]);
    return Math.sqrt(unit[at] ?? 0);
  });
}
