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
      for (const a of moves)
        for (const b of moves) {
          if (a === b || exclude(a, b)) continue;
          const faults = judge.faults([a, b]);
          const key = judge.bitsOf(a) ^ judge.bitsOf(b);
          if (!faults) continue;
          const left = foreseen(faults).join();
          assert.equal(states.get(key) ?? left, left, `seed ${seed}: ${a.work} and ${b.work}`);
          states.set(key, left);
        }
    }
  });
});
