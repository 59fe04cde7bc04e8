import assert from 'node:assert/strict';
import { leastSquares } from '../../server/src/physics/levenberg-marquardt.ts';
import { sweepProblem } from '../../server/src/physics/sweep/sweep-problem.ts';
import { referenceCurves, sweepsFor } from '../sweeps/reference-sweeps.ts';

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
});
