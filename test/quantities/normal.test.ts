/** The normal distribution against its table. */
import assert from 'node:assert/strict';
import { shareBelow, shareBetween } from '../../server/src/quantities/normal.ts';

describe('share of a normal distribution', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1.
  for (const [deviations, share] of [
    [0, 0.5],
    [0.5, 0.691462461],
    [1, 0.841344746],
    [1.96, 0.975002105],
    [-2, 0.022750132],
    [3, 0.998650102],
  ] as const)
    it(`below ${deviations}`, () => assert.ok(Math.abs(shareBelow(deviations) - share) < 2e-7));

  it('between two bounds', () => {
    const within = shareBetween({ least: 9, most: 11 }, { value: 10, sd: 1 });
    assert.ok(Math.abs(within - 0.682689492) < 4e-7);
  });

  it('is all or nothing of what is exact', () => {
    assert.equal(shareBetween({ least: 9, most: 11 }, { value: 11, sd: 0 }), 1);
    assert.equal(shareBetween({ least: 9, most: 11 }, { value: 11.1, sd: 0 }), 0);
  });
});
