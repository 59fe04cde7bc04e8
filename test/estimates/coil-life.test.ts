/** Which readings are of a coil as it is now: by what is said of it, else by the newest reading before the work. */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { countsNow, newestUpTo } from '../../server/src/estimates/coil-life.ts';
import { analyse } from '../support/check-fixture.ts';

/** 5,000 turns of 42 AWG on this bobbin compute to about 4.0 kohm at 20 °C (test/estimates/life-table.json). */
const SHELF = `wire w {
  gauge 42 AWG
  overall 0.07 mm
}
bobbin b {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
`;
const coil = (...lines: readonly string[]) =>
  `  coil main {\n    start grey\n    finish violet\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const WOUND = ['bobbin b', 'wire w', 'packing 0.66', 'turns 5_000'];
const found = (...lines: readonly string[]) =>
  `  readings found "as it came" 2026-09-01 {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const HOOKUP = '  hookup {\n    hot violet\n    ground grey\n  }\n';
const done = (...lines: readonly string[]) =>
  `  readings "done" 2026-10-02 {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;

function lifeOf(...parts: readonly string[]) {
  const pickup = analyse(`${SHELF}pickup heron {\n${parts.join('')}}\n`).model.pickups.at(-1);
  const [main] = pickup?.coils ?? [];
  assert.ok(pickup && main);
  const { life } = quickOf(undefined)(pickup);
  const words = (read: ReturnType<typeof newestUpTo>) =>
    read && (read.line.value === 'open' ? 'open' : read.line.value.written);
  return {
    life,
    reads: (life.reads.get(main) ?? []).map(words),
    doubts: life.doubts.map(({ read, expected }) => [words(read), expected && Math.round(expected.value / 100) / 10]),
    newest: words(newestUpTo(life, main, undefined)),
    upTo: life.blocks.map(({ block }) => words(newestUpTo(life, main, block))),
  };
}

describe('a reading of before the work', () => {
  it('is of the coil that was kept, and not of one that is new', () => {
    const of = (...lines: readonly string[]) => lifeOf(coil(...lines), found('main 4.0 kohm'), done('main 4.1 kohm'));
    assert.deepEqual(of('kept').reads, ['4.0 kohm', '4.1 kohm']);
    assert.deepEqual(of('kept').upTo, ['4.0 kohm', '4.1 kohm']);
    assert.deepEqual(of('new').reads, ['4.1 kohm']);
    assert.deepEqual(of('new').upTo, [undefined, '4.1 kohm']);
    assert.equal(of('kept').newest, '4.1 kohm');
    const [dated] = of('kept').life.blocks;
    assert.ok(dated);
    assert.deepEqual(
      [of('kept'), of('new')].map(({ life }) => countsNow(life, 'main', dated)),
      [true, false],
    );
  });

  it('between two leads is of the only coil, however it was joined then; of two, where nothing was', () => {
    for (const line of ['grey to violet 4.0 kohm', 'hot to ground 4.0 kohm', 'main.start to main.finish 4.0 kohm'])
      assert.deepEqual(lifeOf(coil('kept'), HOOKUP, found(line)).reads, ['4.0 kohm'], line);
    const other = coil('kept').replace('main', 'other').replace('grey', 'pink').replace('violet', 'turquoise');
    const two = (head: string) =>
      lifeOf(coil('kept'), other, HOOKUP, found('grey to violet 4.0 kohm').replace('found', head)).reads;
    assert.deepEqual([two('found'), two('found apart')], [[], ['4.0 kohm']]);
  });

  it('counts where nobody says which and it agrees with the turns, and is in doubt where not', () => {
    const agrees = lifeOf(coil(...WOUND), found('main 4.0 kohm at 20 degC'));
    assert.deepEqual([agrees.reads, agrees.doubts], [['4.0 kohm'], []]);
    const other = lifeOf(coil(...WOUND), found('main 6.5 kohm at 20 degC'));
    assert.deepEqual([other.reads, other.doubts], [[], [['6.5 kohm', 4]]]);
    // Warm copper reads more: 4.0 kohm are 4.63 kohm at 60 °C, by 0.393 % a kelvin.
    const warm = lifeOf(coil(...WOUND), found('main 4.63 kohm at 60 degC'));
    assert.deepEqual(warm.reads, ['4.63 kohm']);
  });

  it('is the newest of them that decides', () => {
    const of = (...lines: readonly string[]) => lifeOf(coil(...WOUND), found(...lines));
    assert.deepEqual(of('main 6.5 kohm at 20 degC', 'main 4.0 kohm at 20 degC').doubts, []);
    assert.deepEqual(of('main 4.0 kohm at 20 degC', 'main 6.5 kohm at 20 degC').doubts, [['6.5 kohm', 4]]);
  });

  it('is in doubt where nothing computes from the turns, and no reading at all where it is open', () => {
    assert.deepEqual(lifeOf(coil('turns 5_000'), found('main 4.0 kohm')).doubts, [['4.0 kohm', undefined]]);
    assert.deepEqual(lifeOf(coil(...WOUND), found('main open')).reads, []);
  });

  it('goes back over as many works as the coil outlasted', () => {
    const chain = (first: string, second: string) =>
      lifeOf(
        coil(),
        done('main 4.0 kohm'),
        `}\npickup later reworks heron {\n${coil(first)}`,
        done('main 4.1 kohm'),
        `}\npickup now reworks later {\n${coil(second)}`,
        done('main 4.2 kohm'),
      ).reads;
    assert.deepEqual(chain('kept', 'kept'), ['4.0 kohm', '4.1 kohm', '4.2 kohm']);
    assert.deepEqual(chain('new', 'kept'), ['4.1 kohm', '4.2 kohm']);
    assert.deepEqual(chain('kept', 'new'), ['4.2 kohm']);
  });
});
