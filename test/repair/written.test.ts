/** What a change of a pickup is in its text, and in words: read again, the text says what was meant. */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { Coil } from '../../server/src/model/coil.ts';
import { changedPickup, NO_CHANGE, type PickupChange } from '../../server/src/repair/changed-pickup.ts';
import { freeChoices, possibleMoves } from '../../server/src/repair/moves.ts';
import { pickupEdits } from '../../server/src/repair/pickup-edits.ts';
import { stepsOf } from '../../server/src/repair/plan-repairs.ts';
import { stepWords } from '../../server/src/repair/step-words.ts';
import { analyse } from '../support/check-fixture.ts';

const coil = (name: string, ...lines: readonly string[]) =>
  `  coil ${name} {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const pickup = (...parts: readonly string[]) => `pickup heron {\n${parts.join('')}}\n`;
const hookup = (...lines: readonly string[]) => `  hookup {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;

/** The lines that a change takes out (−) and brings (+); `undefined` where it cannot be written. */
function written(text: string, change: Partial<PickupChange>): readonly string[] | undefined {
  const analysis = analyse(text);
  const before = analysis.model.pickups[0];
  assert.ok(before);
  const meant = changedPickup(before, quickOf(undefined)(before).signs, { ...NO_CHANGE, ...change });
  const edits = meant && pickupEdits(before, meant, analysis.pickupsInSight());
  const after = edits && analysis.edited(edits);
  if (!after) return undefined;
  const lines = (of: string) => of.split('\n');
  const taken = lines(analysis.text).filter((line) => !lines(after.text).includes(line));
  const brought = lines(after.text).filter((line) => !lines(analysis.text).includes(line));
  assert.deepEqual(after.model.pickups[0]?.coils.map(senseOf), meant?.coils.map(senseOf));
  return [...taken.map((line) => `− ${line.trim()}`), ...brought.map((line) => `+ ${line.trim()}`)];
}
const senseOf = ({ wound, spindle, polarity }: Coil) => [wound?.value, spindle?.value.rotation, polarity?.value];

describe('a change in the text', () => {
  const spun = (...lines: readonly string[]) =>
    pickup(
      coil('a', 'spindle clockwise, top toward it', 'polarity north-up', 'start a-in', 'finish a-out'),
      ...lines,
      hookup('hot a-out', 'ground a-in'),
    );

  it('of a spindle turns its word; where another coil is like it, that one keeps its own', () => {
    assert.deepEqual(written(spun(), { rewound: ['a'] }), [
      '− spindle clockwise, top toward it',
      '+ spindle counterclockwise, top toward it',
    ]);
    const alike = spun('  coil b like a {\n    start b-in\n    finish b-out\n  }\n');
    assert.deepEqual(written(alike, { rewound: ['b'] }), ['+ spindle counterclockwise, top toward it']);
  });

  it('of one of two spindles leaves the other', () => {
    const lines = (name: string, side: string) =>
      coil(name, `spindle clockwise, ${side} toward it`, 'polarity north-up', `start ${name}-in`, `finish ${name}-out`);
    const two = pickup(lines('a', 'bottom'), lines('b', 'top'), hookup('hot a-out', 'link a-in b-out', 'ground b-in'));
    assert.deepEqual(written(two, { rewound: ['b'] }), [
      '− spindle clockwise, top toward it',
      '+ spindle counterclockwise, top toward it',
    ]);
  });

  it('of a line that another pickup, which is like it, would take over cannot be written', () => {
    const kicked = pickup(
      coil('a', 'polarity north-up', 'start a-in', 'finish a-out'),
      hookup('hot a-out', 'ground a-in'),
      '  readings "bench" 2026-10-02 {\n    kick a-out to a-in approach positive\n  }\n',
    );
    const stepsBeside = (other: string) => {
      const { model } = analyse(kicked + other);
      const quick = model.pickups.slice(0, 1).map(quickOf(undefined));
      const moves = possibleMoves(quick, undefined).filter(({ work }) => work === 'rods of a coil');
      assert.equal(moves.length, 1);
      return stepsOf(moves, quick, model.pickups)?.length;
    };
    assert.equal(stepsBeside(''), 1);
    assert.equal(stepsBeside('pickup wren like heron {\n}\n'), undefined);
    assert.equal(stepsBeside('pickup wren like heron {\n  coil a {\n    wound clockwise\n  }\n}\n'), 1);
  });

  it('of two pickups, one like the other, is the same for both where it is done to both', () => {
    const spec = (other: string, ...readings: readonly string[]) =>
      pickup(
        coil('a', 'polarity north-up', 'start a-in', 'finish a-out'),
        hookup('hot a-out', 'ground a-in'),
        ...readings,
      ) + other;
    const stepsFor = (text: string, works: readonly [string, string]) => {
      const { model } = analyse(text);
      const quick = model.pickups.map(quickOf(undefined));
      const moves = possibleMoves(quick, undefined).filter(
        (move) => move.on === 'pickup' && move.work === works[model.pickups.indexOf(move.pickup)],
      );
      assert.equal(moves.length, 2);
      return stepsOf(moves, quick, model.pickups)?.length;
    };
    const rods = 'rods of a coil';
    const kick = '  readings "bench" 2026-10-02 {\n    kick a-out to a-in approach positive\n  }\n';
    // The wind that each of them now states is its own: nothing is taken over.
    assert.equal(stepsFor(spec(`pickup wren like heron {\n${kick}}\n`, kick), [rods, rods]), 2);
    const wound = (other: string) => spec(other).replace('    polarity', '    wound clockwise\n    polarity');
    // The block that holds what is done to the one would have to hold, a second time, what it keeps of the other.
    assert.equal(stepsFor(wound('pickup wren like heron {\n}\n'), [rods, 'rewind']), undefined);
    assert.equal(
      stepsFor(wound('pickup wren like heron {\n  coil a {\n    turns 5_000\n  }\n}\n'), [rods, 'rewind']),
      2,
    );
  });

  it('of what a kick proved states the wind', () => {
    const kicked = pickup(
      coil('a', 'polarity north-up', 'start a-in', 'finish a-out'),
      hookup('hot a-out', 'ground a-in'),
      '  readings "bench" 2026-10-02 {\n    kick a-out to a-in approach positive\n  }\n',
    );
    assert.deepEqual(written(kicked, { rodsTurned: ['a'] }), [
      '− polarity north-up',
      '+ wound clockwise',
      '+ polarity south-up',
    ]);
  });

  it('of a bar turns its pole', () => {
    const bar = pickup(
      coil('a', 'wound clockwise', 'start a-in', 'finish a-out'),
      '  magnet m north toward a\n',
      hookup('hot a-out', 'ground a-in'),
    );
    assert.deepEqual(written(`magnet m {\n}\n${bar}`, { barTurned: true }), [
      '− magnet m north toward a',
      '+ magnet m south toward a',
    ]);
  });

  it('of leads rewrites the lines that name them, or where they are soldered', () => {
    const conductors = pickup(
      '  conductors violet grey\n  shield bare\n',
      coil('a', 'start brown to bare', 'finish to violet'),
      hookup('hot violet', 'ground bare', 'free grey'),
    );
    assert.deepEqual(written(conductors, { hotAndGroundSwapped: true }), [
      '− hot violet',
      '− ground bare',
      '+ hot bare',
      '+ ground violet',
    ]);
    assert.deepEqual(written(conductors, { offShield: { coil: 'a', end: 'start' } }), [
      '− start brown to bare',
      '− ground bare',
      '+ start brown',
      '+ ground brown',
      '+ shield bare',
    ]);
    const tied = pickup(
      '  conductors violet grey\n  shield bare\n',
      coil('a', 'start to bare', 'finish to violet'),
      '  baseplate nickel-silver tied to bare\n',
      hookup('hot violet', 'ground bare', 'free grey'),
    );
    assert.deepEqual(written(tied, { leadsSwapped: ['a'] }), [
      '− start to bare',
      '− finish to violet',
      '+ start to violet',
      '+ finish to bare',
    ]);
  });

  it('of poles that only readings tell of is a later state, of a stack too', () => {
    const stack = pickup(
      coil('a', 'start a-in', 'finish a-out'),
      coil('low', 'below a', 'start low-in', 'finish low-out'),
      hookup('hot a-out', 'link a-in low-in', 'ground low-out'),
      '  readings "bench" 2026-10-02 {\n    compass a north-up\n  }\n',
    );
    const { model } = analyse(stack);
    const [before] = model.pickups;
    assert.ok(before);
    const after = changedPickup(before, quickOf(undefined)(before).signs, { ...NO_CHANGE, barTurned: true });
    const texts = after && pickupEdits(before, after, model.pickups)?.map(({ newText }) => newText.trim());
    assert.deepEqual(texts, [
      'heron-before',
      'pickup heron reworks heron-before {\n  coil a {\n    polarity south-up, turned\n  }\n}',
    ]);
  });

  it('is none where nothing is changed', () => {
    const bare = pickup(coil('a', 'start a-in'), '  coil b {\n  }\n', hookup('hot a-in'));
    const kicked = pickup(
      coil('a', 'start a-in', 'finish a-out'),
      hookup('hot a-in', 'ground a-out'),
      '  readings "bench" 2026-10-02 {\n    kick hot to ground approach positive\n  }\n',
    );
    for (const text of [spun(), bare, kicked]) {
      const [before] = analyse(text).model.pickups;
      assert.ok(before);
      assert.deepEqual(pickupEdits(before, { ...before }, [before]), []);
      assert.deepEqual(pickupEdits(before, { ...before, coils: before.coils.map((each) => ({ ...each })) }, []), []);
    }
  });
});

describe('a change in words', () => {
  const wordsOf = (text: string) => {
    const [held] = analyse(text).model.pickups;
    assert.ok(held);
    return possibleMoves([quickOf(undefined)(held)], undefined).map((move) => {
      const { text: what, why } = stepWords(move);
      return [what, why.split(';')[0]];
    });
  };
  const A = coil('a', 'turns 5_000', 'wound clockwise', 'polarity north-up', 'start a-in', 'finish a-out');
  const below = coil('low', 'turns 5_000', 'wound clockwise', 'below a', 'start low-in', 'finish low-out');

  it('says what is done and what it does, the lower coil of a stack with the rods that it shares', () => {
    assert.deepEqual(wordsOf(pickup(A, below, hookup('hot a-out', 'link a-in low-in', 'ground low-out'))), [
      [
        'Swap hot and ground of heron',
        'Turns string signal and hum of heron over against other pickups, inside it nothing changes',
      ],
      [
        'Swap the leads of the low coil of heron: low-in and low-out change places',
        'Turns string signal and hum of the low coil over',
      ],
      [
        'Swap the leads of the a coil of heron: a-in and a-out change places',
        'Turns string signal and hum of the a coil over',
      ],
      [
        'Magnetise the rods of the a coil and the low coil of heron the other way',
        'Turns the string signal of the a coil and the low coil over and leaves its hum as it is',
      ],
      ['Wind the a coil of heron again, the other way round', 'Turns string signal and hum of the a coil over'],
      ['Wind the low coil of heron again, the other way round', 'Turns string signal and hum of the low coil over'],
    ]);
  });

  it('says it of the whole pickup where there is one coil, and of its shield', () => {
    const one = pickup('  shield bare\n', A, hookup('hot a-out', 'ground a-in bare'));
    assert.deepEqual(wordsOf(one), [
      [
        'Give the shield of heron a line of its own: `shield bare`',
        'Keeps the metal of heron on ground wherever its leads go',
      ],
      ['Swap hot and ground of heron', 'Turns string signal and hum of heron over against other pickups'],
      [
        'Magnetise the rods of heron the other way',
        'Turns the string signal of the a coil over and leaves its hum as it is',
      ],
      ['Wind the a coil of heron again, the other way round', 'Turns string signal and hum of the a coil over'],
    ]);
  });

  it('goes through a dummy first, whichever stands first', () => {
    const dummy = coil('hum', 'turns 5_000', 'wound clockwise', 'serves none', 'start h-in', 'finish h-out');
    const other = (name: string, inside: string, start: string, finish: string) =>
      `pickup ${name} {\n${inside}  hookup {\n    hot ${finish}\n    ground ${start}\n  }\n}\n`;
    const { model } = analyse(other('heron', A, 'a-in', 'a-out') + other('quiet', dummy, 'h-in', 'h-out'));
    const words = possibleMoves(model.pickups.map(quickOf(undefined)), undefined).map((move) => stepWords(move));
    assert.deepEqual(
      words.slice(0, 1).map(({ text, why }) => [text, why.split(';')[0]]),
      [
        [
          'Turn the dummy coil round at its own hookup: hot and ground of quiet change places',
          'No string drives it: its hum alone is turned over',
        ],
      ],
    );
  });

  it('chooses another coil of a split where the pickup stands there once', () => {
    const text = (
      selection: string,
    ) => `${pickup(A, coil('b', 'turns 5_000', 'wound clockwise', 'polarity south-up', 'start b-in', 'finish b-out'), hookup('hot b-in', 'link a-out b-out', 'ground a-in'))}instrument i {
  pickup bridge heron
  pickup neck heron
  selector {
    1 "x" ${selection}
  }
}
`;
    const choices = (selection: string) => {
      const held = analyse(text(selection)).model.instruments[0]?.positions[0]?.selection;
      return held && freeChoices(held).map(({ from, to }) => `${from} ${to}`);
    };
    assert.deepEqual(choices('bridge.a parallel neck'), ['bridge.a bridge.b']);
    assert.deepEqual(choices('bridge.a parallel neck.b'), ['bridge.a bridge.b', 'neck.b neck.a']);
    assert.deepEqual(choices('bridge.a parallel bridge.b'), []);
    assert.deepEqual(choices('bridge'), []);
  });
});
