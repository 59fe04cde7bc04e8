import assert from 'node:assert/strict';
import { combAmplitude, firstNullHz, usualTuning } from '../../server/src/estimates/comb.ts';

const STRING = { fundamentalHz: 110, scaleM: 0.648 };
const at = (share: number) => [{ distanceM: share * STRING.scaleM, weight: 1 }];

/** Shapes of the standing waves of an ideal string: nodes of partial n at every nth of its length (any textbook of acoustics). */
describe('comb of a place on a string', () => {
  it('in the middle hears odd partials whole and even ones not at all', () => {
    for (const partial of [1, 3, 5, 7])
      assert.ok(Math.abs(combAmplitude(STRING, at(1 / 2), 110 * partial) - 1) < 1e-12);
    for (const partial of [2, 4, 6, 8]) assert.ok(combAmplitude(STRING, at(1 / 2), 110 * partial) < 1e-12);
  });

  it('at a quarter of the string, where the 24th fret is, loses every fourth partial', () => {
    const heard = [1, 2, 3, 4, 5, 6, 7, 8].map((partial) => combAmplitude(STRING, at(1 / 4), 110 * partial));
    const expected = [Math.SQRT1_2, 1, Math.SQRT1_2, 0, Math.SQRT1_2, 1, Math.SQRT1_2, 0];
    heard.forEach((amplitude, index) => {
      assert.ok(Math.abs(amplitude - (expected[index] ?? Number.NaN)) < 1e-12, `partial ${index + 1}: ${amplitude}`);
    });
  });

  it('has its first gap where half a wave fits between saddle and coil', () => {
    assert.ok(Math.abs(firstNullHz(STRING, 0.162) - 440) < 1e-9);
    assert.ok(combAmplitude(STRING, at(0.25), firstNullHz(STRING, 0.162)) < 1e-12);
  });

  it('stays where it is when the string is stopped at the twelfth fret', () => {
    const stopped = { fundamentalHz: 220, scaleM: 0.324 };
    for (const hz of [220, 660, 1500, 4321])
      assert.ok(Math.abs(combAmplitude(STRING, at(0.1), hz) - combAmplitude(stopped, at(0.1), hz)) < 1e-12);
  });

  it('of two equal coils in phase is that of their middle times that of their aperture', () => {
    const [place, apart] = [0.043, 0.018];
    const pair = [place - apart / 2, place + apart / 2].map((distanceM) => ({ distanceM, weight: 1 }));
    for (const hz of [82, 500, 1234, 3000, 7000]) {
      const product =
        combAmplitude(STRING, [{ distanceM: place, weight: 1 }], hz) *
        Math.abs(Math.cos((Math.PI * hz * apart) / (2 * STRING.fundamentalHz * STRING.scaleM)));
      assert.ok(Math.abs(combAmplitude(STRING, pair, hz) - product) < 1e-12);
    }
  });

  it('of two equal coils out of phase loses the lowest notes', () => {
    const pair = [
      { distanceM: 0.16, weight: 1 },
      { distanceM: 0.04, weight: -1 },
    ];
    assert.ok(combAmplitude(STRING, pair, 20) < combAmplitude(STRING, pair, 400));
  });
});

/** Equal temperament on A = 440 Hz, as printed in tables of it: E2 82.41, A2 110.00, D3 146.83, G3 196.00, B3 246.94, E4 329.63 Hz. */
describe('usual tuning', () => {
  it('of six strings', () => {
    const tones = usualTuning(6).map(({ note, fundamentalHz }) => `${note} ${fundamentalHz.toFixed(2)}`);
    assert.deepEqual(tones, ['E 329.63', 'B 246.94', 'G 196.00', 'D 146.83', 'A 110.00', 'E 82.41']);
  });

  it('of four and five strings is that of a bass: E1 41.20, B0 30.87 Hz', () => {
    assert.equal(usualTuning(4).at(-1)?.fundamentalHz.toFixed(2), '41.20');
    assert.equal(usualTuning(5).at(-1)?.fundamentalHz.toFixed(2), '30.87');
  });

  it('is not known for eight strings, of which there are many', () => assert.deepEqual(usualTuning(8), []));
});
