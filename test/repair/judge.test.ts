/**
 * What the planner takes a change to do, against the text after it: each possible change of small instruments is written and analysed as
 * any text is. The pickup that is read again says what the changed model says, and its findings are the faults that were foreseen.
 */
import assert from 'node:assert/strict';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import type { Pickup } from '../../server/src/model/pickup.ts';
import { changedPickup } from '../../server/src/repair/changed-pickup.ts';
import type { Fault } from '../../server/src/repair/faults.ts';
import { changesOf, exclude, type Move } from '../../server/src/repair/moves.ts';
import { searchable, stepsOf } from '../../server/src/repair/plan-repairs.ts';
import { chance } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';
import { smallInstrument } from './small-instrument.ts';

const INSTRUMENTS = 6;
const PAIRS = 6;

const leadOf = (lead: Pickup['coils'][number]['start']) => lead && [lead.value.own?.value, lead.value.to?.value.text];

/** What a spec says of a pickup that a plan may change. */
const said = ({ coils, hookup, barMagnet }: Pickup): unknown => ({
  coils: coils.map(({ name, wound, spindle, polarity, start, finish }) => [
    name,
    wound?.value,
    spindle?.value.rotation,
    polarity?.value,
    leadOf(start),
    leadOf(finish),
  ]),
  joints: hookup?.joints.map(({ kind, leads }) => [kind, ...leads.map(({ text }) => text)]),
  bar: barMagnet?.value.pole,
});

const KINDS: Readonly<Record<string, string>> = {
  'phase/coils-cancel': 'phase',
  'phase/position-cancels': 'phase',
  'hum/not-cancelled': 'hum',
  'hum/position-hums': 'hum',
  'ground/metal-hot': 'metal',
};

/** Metal may be hot in one position only: which pickup's it is, is one and the same then. */
const named = (kind: string | undefined, where: string): string => (kind === 'metal' ? kind : `${kind} ${where}`);

const foundIn = ({ findings }: Analysis): readonly string[] => [
  ...new Set(
    findings
      .filter(({ code, severity }) => KINDS[code] !== undefined && severity !== 'information')
      .map(({ code, subject: { pickup, position } }) =>
        named(KINDS[code], position === undefined ? (pickup ?? '') : `position ${position}`),
      ),
  ),
];

const foreseen = (faults: readonly Fault[]): readonly string[] => [
  ...new Set(
    faults.map(({ kind, pickup, position }) =>
      named(kind, position ? `position ${position.key.value}` : (pickup?.name ?? '')),
    ),
  ),
];

const ofPickups = (all: readonly string[]) => [...new Set(all.filter((each) => !each.includes('position')))].sort();

describe('every change of small instruments', () => {
  const analyser = createAnalyser();
  const tried = Array.from({ length: INSTRUMENTS }, (_, seed) => {
    const analysis = analyse(smallInstrument(seed), {}, analyser);
    const [instrument] = analysis.model.instruments;
    assert.ok(instrument);
    const pickups = [...new Set(instrument.slots.flatMap(({ pickup }) => pickup ?? []))];
    return { seed, analysis, ...searchable(analysis, { instrument, pickups }) };
  });

  it('is written so that it is read again as it was meant, and finds what was foreseen', () => {
    let count = 0;
    for (const { seed, analysis, quick, moves, judge } of tried) {
      const { whole } = chance(seed);
      const pairs = Array.from({ length: PAIRS }, () => [moves[whole(moves.length)], moves[whole(moves.length)]])
        .map((pair) => pair.flatMap((move) => move ?? []))
        .filter(([a, b]) => a && b && a !== b && !exclude(a, b));
      const sets: readonly (readonly Move[])[] = [[], ...moves.map((move) => [move]), ...pairs];
      for (const set of sets) {
        const steps = stepsOf(set, quick, analysis.model.pickups);
        const faults = judge.faults(set);
        const after = steps && analysis.edited(steps.flatMap(({ edits }) => edits));
        if (!steps || !faults || !after) continue;
        count++;
        const words = `seed ${seed}: ${steps.map(({ text }) => text).join('; ')}`;
        for (const [pickup, change] of changesOf(set)) {
          const signs = quick.find(({ netlist }) => netlist.pickup === pickup)?.signs ?? [];
          const meant = changedPickup(pickup, signs, change);
          const read: Pickup | undefined = after.model.pickups.find(({ name }) => name === pickup.name);
          assert.ok(meant && read, words);
          assert.deepEqual(said(read), said(meant), words);
        }
        const [told, expected] = [foundIn(after), foreseen(faults)];
        assert.deepEqual(ofPickups(told), ofPickups(expected), words);
        // A position is not told of where a pickup in it is at fault by itself.
        if (ofPickups(told).length === 0) assert.deepEqual([...told].sort(), [...expected].sort(), words);
      }
    }
    assert.ok(count > 15 * INSTRUMENTS, `${count} sets`);
  });

  it('comes to one state with others whose bits are the same: they leave the same faults', () => {
    for (const { seed, moves, judge } of tried) {
      const states = new Map<bigint, string>();
      const pairs = moves.flatMap((a, index) =>
        moves.slice(index + 1).flatMap((b) => (exclude(a, b) ? [] : [[a, b] as const])),
      );
      const sets: readonly (readonly Move[])[] = [[], ...moves.map((move) => [move]), ...pairs];
      for (const set of sets) {
        const faults = judge.faults(set);
        if (!faults) continue;
        const key = set.reduce<bigint>((bits, move) => bits ^ judge.bitsOf(move), 0n);
        const left = foreseen(faults).join();
        assert.equal(states.get(key) ?? left, left, `seed ${seed}: ${set.map(({ work }) => work).join(' and ')}`);
        states.set(key, left);
      }
    }
  });
});

describe('the faults of an instrument', () => {
  const double = (name: string, more = '', joints = '    shield bare\n') => `pickup ${name} {
  conductors violet grey pink turquoise
  shield bare
${more}  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start to pink
    finish to grey
  }
  coil slug {
    turns 5_000
    wound clockwise
    polarity south-up
    start to violet
    finish to turquoise
  }
  hookup {
    hot violet
    link turquoise grey
    ground pink${joints === '' ? ' bare' : ''}
${joints}  }
}
`;
  const judgeOf = (text: string) => {
    const analysis = analyse(text);
    const [instrument] = analysis.model.instruments;
    assert.ok(instrument);
    const pickups = [...new Set(instrument.slots.flatMap(({ pickup }) => pickup ?? []))];
    const { judge, moves } = searchable(analysis, { instrument, pickups });
    const move = (work: Move['work'], name: string) => {
      const found = moves.find((each) => each.work === work && each.on === 'pickup' && each.pickup.name === name);
      assert.ok(found, `${work} of ${name}`);
      return found;
    };
    return { judge, move, faults: (...made: readonly Move[]) => foreseenBy(judge.faults(made)) };
  };
  const foreseenBy = (faults: readonly Fault[] | undefined) =>
    faults?.map(({ kind, pickup, position }) => `${kind} ${pickup?.name ?? position?.key.value}`);
  const instrument = (positions: string, slots = '  pickup bridge heron\n  pickup neck wren\n') =>
    `instrument i {\n${slots}  selector {\n${positions}  }\n}\n`;

  it('are none where all is well, and one where a pickup stands against another', () => {
    const { faults, move } = judgeOf(
      double('heron') + double('wren') + instrument('    1 "both" bridge parallel neck\n'),
    );
    assert.deepEqual(faults(), []);
    assert.deepEqual(faults(move('hot and ground', 'heron')), ['phase 1']);
    assert.deepEqual(faults(move('hot and ground', 'heron'), move('hot and ground', 'wren')), []);
    // With the rods of one coil turned, its coils cancel in the pickup itself; both turned stand against the other pickup.
    assert.deepEqual(faults(move('rods of a coil', 'heron')), ['phase heron', 'phase 1']);
    assert.deepEqual(faults(move('rods of all coils', 'heron')), ['phase 1']);
  });

  it('are that a position is in phase which is meant not to be', () => {
    const meant = (selection: string) =>
      judgeOf(double('heron') + double('wren') + instrument(`    1 "odd" ${selection}, on purpose\n`));
    const odd = meant('bridge parallel reversed neck');
    assert.deepEqual(odd.faults(), []);
    assert.deepEqual(odd.faults(odd.move('hot and ground', 'heron')), ['meant 1']);
    // In phase already: nobody knows what was meant.
    const even = meant('bridge parallel neck');
    assert.deepEqual(even.faults(), []);
    assert.deepEqual(even.faults(even.move('hot and ground', 'heron')), []);
  });

  it('leave out a pickup that is meant to be out of phase, and positions of a pickup that is not known', () => {
    const turned = double('heron').replace(
      'link turquoise grey\n    ground pink',
      'link turquoise pink\n    ground grey',
    );
    assert.deepEqual(judgeOf(turned + double('wren') + instrument('    1 "bridge" bridge\n')).faults(), [
      'phase heron',
    ]);
    const meant = turned.replace('  hookup {', '  hookup {\n    on purpose');
    assert.deepEqual(judgeOf(meant + double('wren') + instrument('    1 "bridge" bridge\n')).faults(), []);
    const unknown = judgeOf(
      double('heron') +
        instrument(
          '    1 "both" bridge parallel neck\n    2 "bridge" bridge\n',
          '  pickup bridge heron\n  pickup neck nobody\n',
        ),
    );
    assert.deepEqual([unknown.faults(), unknown.faults(unknown.move('hot and ground', 'heron'))], [[], []]);
  });

  it('are metal that comes to hot: with hot and ground swapped, or where a pickup lies on another one', () => {
    const shared = judgeOf(double('heron', '', '') + double('wren') + instrument('    1 "bridge" bridge\n'));
    assert.deepEqual(shared.faults(), []);
    const series = (first: string, second: string, joints: string) =>
      judgeOf(
        double('heron', '', joints) + double('wren') + instrument(`    1 "both" ${first} series ${second}\n`),
      ).faults();
    // The first of a row lies on hot, and its own ground on the second.
    assert.deepEqual(series('bridge', 'neck', ''), ['metal heron']);
    assert.deepEqual(series('neck', 'bridge', ''), []);
    assert.deepEqual(series('bridge', 'neck', '    shield bare\n'), []);
    const reversed = judgeOf(double('heron', '', '') + double('wren') + instrument('    1 "odd" reversed bridge\n'));
    assert.deepEqual(reversed.faults(), ['metal heron']);
    const hot = double('heron').replace('hot violet', 'hot violet bare').replace('    shield bare\n', '');
    assert.deepEqual(judgeOf(hot + double('wren') + instrument('    1 "bridge" bridge\n')).faults(), ['metal heron']);
  });

  it('are not told of what cannot be made', () => {
    const { judge, move } = judgeOf(double('heron') + double('wren') + instrument('    1 "bridge" bridge\n'));
    const impossible: Move = {
      ...(move('hot and ground', 'heron') as Extract<Move, { on: 'pickup' }>),
      add: (change) => ({ ...change, leadsSwapped: ['nobody'] }),
    };
    assert.equal(judge.faults([impossible]), undefined);
  });
});
