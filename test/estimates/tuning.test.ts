import assert from 'node:assert/strict';
import { usualTuning } from '../../server/src/estimates/tuning.ts';

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
