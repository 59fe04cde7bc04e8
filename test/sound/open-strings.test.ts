import assert from 'node:assert/strict';
import { openStrings } from '../../server/src/sound/open-strings.ts';

describe('open strings', () => {
  /** Equal temperament on A4 = 440 Hz (ISO 16:1975): frequencies of the notes to a hundredth, as handbooks list them (recalled). */
  const cases: readonly (readonly [count: number | undefined, ...hz: readonly number[]])[] = [
    [undefined, 82.41, 110, 146.83, 196, 246.94, 329.63],
    [6, 82.41, 110, 146.83, 196, 246.94, 329.63],
    [4, 41.2, 55, 73.42, 98],
    [5, 30.87, 41.2, 55, 73.42, 98],
    [7, 61.74, 82.41, 110, 146.83, 196, 246.94, 329.63],
    [8, 46.25, 61.74, 82.41, 110, 146.83, 196, 246.94, 329.63],
    [12, 82.41, 110, 146.83, 196, 246.94, 329.63],
  ];
  for (const [count, ...hz] of cases)
    it(`${count ?? 'unstated'}: as they are usually tuned`, () => {
      assert.deepEqual(
        openStrings(count).map((each) => Math.round(100 * each.hz) / 100),
        hz,
      );
    });

  it('are numbered from the highest, and there is always one', () => {
    assert.deepEqual(
      openStrings(4).map(({ name }) => name),
      ['4, E1', '3, A1', '2, D2', '1, G2'],
    );
    for (const count of [1, 2, 3, 9, 10, 40]) assert.notEqual(openStrings(count).length, 0);
  });
});
