/** Why nothing helps, in a sentence, with a judge that is made up for each case. */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { Finding } from '../../server/src/checks/finding.ts';
import type { Fault, Judge } from '../../server/src/repair/faults.ts';
import { whyImpossible } from '../../server/src/repair/impossible.ts';
import { type Move, possibleMoves } from '../../server/src/repair/moves.ts';
import { withoutAccepted, withoutMeant } from '../../server/src/repair/scope.ts';
import { analyse } from '../support/check-fixture.ts';

const single = (name: string) => `pickup ${name} {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
`;
const BAR = '  magnet bar-5 north toward a\n';
/** Two coils in series. */
const alike = (more: string, a: string, b: string) => `magnet bar-5 {
  material alnico-5
  size 63.5 x 12.7 x 3.2 mm
}
pickup p {
${more}  coil a {
    wound clockwise
    polarity ${a}
    start a-in
    finish a-out
  }
  coil b {
    wound clockwise
    polarity ${b}
    start b-in
    finish b-out
  }
  hookup {
    hot b-in
    link a-out b-out
    ground a-in
  }
}
`;
const { model } = analyse(`${single('heron')}${single('wren')}instrument i {
  pickup bridge heron
  pickup neck wren
  selector {
    1 "bridge" bridge
    2 "both" neck parallel bridge
    3 "against" neck parallel reversed bridge
  }
}
`);
const [heron, wren] = model.pickups;
const [one, both, against] = model.instruments[0]?.positions ?? [];
assert.ok(heron && wren && one && both && against);
const quick = [heron, wren].map(quickOf(undefined));
const moves = possibleMoves(quick, undefined).filter(({ work }) => work === 'hot and ground');
const [ofHeron] = moves;
assert.ok(ofHeron);

const judge = (
  faults: (moves: readonly Move[]) => readonly Fault[] | undefined,
  subjects: Judge['subjects'] = [],
): Judge => ({
  subjects,
  faults,
  bitsOf: (move) => 1n << BigInt(moves.indexOf(move)),
});
const why = (faults: readonly Fault[], judge: Judge, completeBelowMinutes = Number.POSITIVE_INFINITY): string =>
  whyImpossible({ faults, moves, judge, pickups: quick, search: { solutions: [], completeBelowMinutes } });
const has = (made: readonly Move[], move: Move) => made.includes(move);

describe('why nothing helps', () => {
  it('of one fault that nothing puts right: it is named', () => {
    const fault: Fault = { kind: 'phase', position: both };
    const words = why(
      [fault],
      judge(() => [fault]),
    );
    assert.equal(words, 'No change of leads, poles, winding direction or splits puts position 2 out of phase right.');
    const hums: Fault = { kind: 'hum', pickup: heron };
    assert.match(
      why(
        [hums],
        judge(() => [hums]),
      ),
      /puts heron right: its coils are too unequal/,
    );
  });

  it('of one fault that goes only where another comes: both are named', () => {
    const [fault, other]: readonly Fault[] = [
      { kind: 'hum', pickup: heron },
      { kind: 'metal', pickup: heron },
    ];
    assert.ok(fault && other);
    const either = judge((made) => (has(made, ofHeron) ? [other] : [fault]));
    assert.equal(
      why([fault], either),
      'Of the changes that the spec holds enough for, what puts right the hum of heron brings the hot metal of heron.',
    );
  });

  it('of two that contradict each other: they are named, and a reversal that may be meant', () => {
    const [a, b]: readonly Fault[] = [
      { kind: 'phase', position: both },
      { kind: 'phase', position: against },
    ];
    assert.ok(a && b);
    const opposite = judge((made) => (has(made, ofHeron) ? [b] : [a]), [{ position: both }, { position: against }]);
    const words = why([a], opposite);
    assert.match(
      words,
      /^Position 2.* and position 3.* contradict each other: whatever puts one right puts the other wrong/,
    );
    assert.match(words, /because one of them takes a pickup reversed; where that is meant, say `on purpose`\.$/);
  });

  it('of several, each of which could be put right by itself', () => {
    const faults: readonly Fault[] = [
      { kind: 'phase', position: one },
      { kind: 'hum', pickup: wren },
    ];
    // Either move puts one right; both together bring both back.
    const never = judge((made) =>
      made.length === 1
        ? faults.filter((fault) => (fault.position ? !has(made, ofHeron) : has(made, ofHeron)))
        : faults,
    );
    assert.equal(
      why(faults, never),
      'Each of these can be put right by itself, but no set of changes puts all of them right at once: position 1 out of phase and the hum of wren.',
    );
  });

  it('of a pickup and a position that contradict each other', () => {
    const faults: readonly Fault[] = [
      { kind: 'hum', pickup: heron },
      { kind: 'phase', position: both },
    ];
    const [hums, out] = faults;
    assert.ok(hums && out);
    assert.equal(
      why(
        [hums],
        judge((made) => (has(made, ofHeron) ? [out] : [hums]), [{ pickup: heron }, { position: both }]),
      ),
      'Heron and position 2 (both) contradict each other: whatever puts one right puts the other wrong.',
    );
  });

  it('of a fault that only changes elsewhere would put right: they are none of it', () => {
    const fault: Fault = { kind: 'hum', pickup: heron };
    const elsewhere = judge((made) => (made.length > 0 && !has(made, ofHeron) ? [] : [fault]));
    assert.match(why([fault], elsewhere), /^No change of leads.* puts heron right/);
    const split = analyse(`${alike('  ', 'north-up', 'south-up')}instrument i {
  pickup neck p
  selector {
    1 "a" neck.a
    2 "b" neck.b
  }
}
`).model;
    const [first] = split.instruments[0]?.positions ?? [];
    assert.ok(first);
    const meant: Fault = { kind: 'meant', position: first };
    const ofPositions = possibleMoves(split.pickups.map(quickOf(undefined)), split.instruments[0]).filter(
      ({ on }) => on === 'position',
    );
    const putRightBy = (key: string) =>
      whyImpossible({
        faults: [meant],
        moves: ofPositions,
        judge: {
          subjects: [],
          faults: (made) =>
            made.some((move) => move.on === 'position' && move.position.key.value === key) ? [] : [meant],
          bitsOf: (move) => 1n << BigInt(ofPositions.indexOf(move)),
        },
        pickups: [],
        search: { solutions: [], completeBelowMinutes: Number.POSITIVE_INFINITY },
      });
    assert.equal(
      putRightBy('2'),
      'No change of leads, poles, winding direction or splits puts position 1, which is meant to be out of phase right.',
    );
    assert.match(putRightBy('1'), /^Of the changes that the spec holds enough for/);
  });

  it('of the hum of coils that lie on one bar: by their poles and how many they are', () => {
    const hum = (text: string): string => {
      const { pickups } = analyse(text).model;
      const all = pickups.map(quickOf(undefined));
      const own = possibleMoves(all, undefined);
      const [pickup] = pickups;
      assert.ok(pickup);
      const fault: Fault = { kind: 'hum', pickup };
      return whyImpossible({
        faults: [fault],
        moves: own,
        judge: { subjects: [], faults: () => [fault], bitsOf: (move) => 1n << BigInt(own.indexOf(move)) },
        pickups: all,
        search: { solutions: [], completeBelowMinutes: Number.POSITIVE_INFINITY },
      });
    };
    const alikeWords = /^Nothing helps p: both coils have the same poles up.*only poles that can be turned one by one/;
    assert.match(hum(alike(BAR, 'north-up', 'north-up')), alikeWords);
    assert.match(hum(alike(BAR, 'north-up', 'south-up')), /its coils are too unequal/);
    assert.match(hum(alike('', 'north-up', 'north-up')), /its coils are too unequal/);
    const third = '  coil c {\n    wound clockwise\n    polarity north-up\n    start c-in\n    finish c-out\n  }\n';
    const three = alike(`${BAR}${third}`, 'north-up', 'north-up');
    assert.match(
      hum(three.replace('hot b-in', 'hot c-in\n    link c-out b-in')),
      /^Nothing helps p: .* of three coils one/,
    );
    assert.match(hum(three.replace('hot b-in', 'free c-in\n    free c-out\n    hot b-in')), alikeWords);
  });

  it('as far as was looked', () => {
    const fault: Fault = { kind: 'hum', pickup: heron };
    const words = why(
      [fault],
      judge((made) => (made.length > 0 ? [] : [fault])),
      44.6,
    );
    assert.equal(
      words,
      'Nothing that takes less than 45 minutes puts everything right; dearer sets of changes were not looked at.',
    );
  });
});

describe('a judge', () => {
  const all: readonly Fault[] = [
    { kind: 'phase', position: both },
    { kind: 'hum', pickup: heron },
    { kind: 'hum', pickup: wren },
    { kind: 'metal', pickup: wren },
    { kind: 'meant', position: against },
  ];
  const kinds = (faults: readonly Fault[] | undefined) =>
    faults?.map(({ kind, pickup, position }) => `${kind} ${pickup?.name ?? position?.key.value}`);
  const finding = (code: string, subject: Finding['subject']) => ({ code, subject }) as Finding;

  it('leaves out what is no finding before: the writer accepts it', () => {
    const found = [
      finding('hum/not-cancelled', { pickup: 'heron' }),
      finding('phase/position-cancels', { instrument: 'i', position: '2' }),
    ];
    assert.deepEqual(
      kinds(
        withoutAccepted(
          judge(() => all),
          found,
        ).faults([]),
      ),
      ['phase 2', 'hum heron', 'meant 3'],
    );
    const metal = [finding('ground/metal-hot', { pickup: 'wren' }), finding('hum/not-cancelled', { pickup: 'wren' })];
    assert.deepEqual(
      kinds(
        withoutAccepted(
          judge(() => all),
          metal,
        ).faults([]),
      ),
      ['hum wren', 'metal wren', 'meant 3'],
    );
    const nothing = judge(() => []);
    assert.equal(withoutAccepted(nothing, []), nothing);
  });

  it('still tells what comes with a change', () => {
    const strict = judge((made) =>
      made.length > 0
        ? [
            { kind: 'hum', pickup: wren },
            { kind: 'phase', pickup: heron },
          ]
        : [{ kind: 'hum', pickup: wren }],
    );
    assert.deepEqual(kinds(withoutAccepted(strict, []).faults([ofHeron])), ['phase heron']);
    assert.equal(
      withoutAccepted(
        judge((made) => (made.length > 0 ? undefined : all)),
        [],
      ).faults([ofHeron]),
      undefined,
    );
  });

  it('leaves out what is meant out of phase and is not even now, and nothing else', () => {
    assert.deepEqual(kinds(withoutMeant(judge(() => all)).faults([])), [
      'phase 2',
      'hum heron',
      'hum wren',
      'metal wren',
    ]);
  });
});
