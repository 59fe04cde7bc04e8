/** A few of the draws that `test/scripts/sweep-coverage.ts` counts by the hundred. */
import assert from 'node:assert/strict';
import { COVERED, coverage } from './coverage.ts';
import { KINDS, specCoverage } from './spec-coverage.ts';

const UNDER_A_COVER = 4;

describe('the ± of a sweep', () => {
  for (const kind of ['over', 'through'] as const)
    it(`covers the error that is there, recorded ${kind} a resistor`, () => {
      const draws = Number(process.env.SWEEP_DRAWS ?? 12);
      const { counts, fits } = coverage(kind, draws, 1001);
      assert.equal(fits, draws);
      const all = COVERED.map((name) => counts[name]);
      const values = all.reduce((sum, each) => sum + each.values, 0);
      const two = all.reduce((sum, each) => sum + each.two, 0);
      const one = all.reduce((sum, each) => sum + each.one, 0);
      // Of 95 % and of 68 %, with the chance of some fifty values.
      assert.ok(two / values > 0.86, `${two} of ${values} within two deviations`);
      assert.ok(one / values > 0.5 && one / values < 0.9, `${one} of ${values} within one`);
    });

  for (const kind of KINDS)
    it(`covers the error in what a spec's own circuit was swept for, ${kind}`, () => {
      const draws = Number(process.env.SWEEP_DRAWS ?? 1);
      // The first of them lies under a cover, whose metal both coils share.
      const { counts, worstLeft } = specCoverage(kind, draws, UNDER_A_COVER);
      const all = [...counts.values()];
      const values = all.reduce((sum, each) => sum + each.values, 0);
      const two = all.reduce((sum, each) => sum + each.two, 0);
      // Of 95 %, with the chance of a handful of numbers; what is left shows whether the circuit is the one that is declared.
      assert.ok(values >= 4 * draws && two / values > 0.86, `${two} of ${values} within two deviations`);
      assert.ok(worstLeft < 1.5, `${worstLeft} times the scatter is left`);
    });
});
