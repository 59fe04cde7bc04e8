import assert from 'node:assert/strict';
import { createPace } from '../../server/src/lsp/pace.ts';

/** A clock that work moves by hand; turns and waits are written down. */
function clock() {
  let at = 1000;
  const told: string[] = [];
  const pace = createPace({
    now: () => at,
    soon: (callback) => {
      told.push('turn');
      callback();
    },
    after: (milliseconds, callback) => {
      told.push(`rest ${milliseconds}`);
      at += milliseconds;
      callback();
    },
  });
  return { pace, told, work: (milliseconds: number) => (at += milliseconds) };
}

describe('work in the background', () => {
  it('goes on within its slice and gives way behind it', async () => {
    const { pace, told, work } = clock();
    work(1);
    await pace.turn();
    assert.deepEqual(told, []);
    work(2);
    await pace.turn();
    assert.deepEqual(told, ['turn']);
    await pace.turn();
    assert.deepEqual(told, ['turn']);
  });

  it('rests while hands type', async () => {
    const { pace, told } = clock();
    pace.interrupted();
    await pace.turn();
    assert.deepEqual(told, ['turn', 'rest 300']);
  });

  it('gives way but does not rest where somebody waits for it', async () => {
    const { pace, told, work } = clock();
    pace.interrupted();
    await pace.urgently(async () => {
      work(3);
      await pace.turn();
    });
    assert.deepEqual(told, ['turn']);
  });
});
