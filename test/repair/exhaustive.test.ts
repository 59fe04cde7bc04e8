/**
 * The planner against looking at every set of changes. The sets are written into the text and analysed as any text is: this knows
 * nothing of how the planner judges a set on the model.
 */
import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { exclude, type Move, minutesOf } from '../../server/src/repair/moves.ts';
import { planRepairs, searchable, stepsOf } from '../../server/src/repair/plan-repairs.ts';
import { analyse } from '../support/check-fixture.ts';
import { thorough } from '../support/thorough.ts';
import { smallInstrument } from './small-instrument.ts';

const INSTRUMENTS = thorough(24);
/** Dearer sets are looked at only below a plan that was found. */
const WITHOUT_PLAN_MINUTES = 45;

/** Some thousand sets, each written and analysed. */
const TIMEOUT_MS = 300_000;

const FAULTS = [
  'phase/coils-cancel',
  'phase/position-cancels',
  'hum/not-cancelled',
  'hum/position-hums',
  'ground/metal-hot',
];

describe('plans for small instruments', () => {
  const cases = Array.from({ length: INSTRUMENTS }, (_, seed) => {
    const analysis = analyse(smallInstrument(seed));
    return { seed, analysis, outcome: planRepairs(analysis, { instrument: 'juniper' }) };
  });

  it('are found for most of those with a fault, and some need several steps', () => {
    const faulty = cases.filter(({ analysis }) => isFaulty(analysis));
    const planned = faulty.filter(({ outcome }) => outcome.plans.length > 0);
    assert.ok(faulty.length > INSTRUMENTS / 2, `${faulty.length} faulty`);
    assert.ok(planned.length > 0.8 * faulty.length, `${planned.length} of ${faulty.length} planned`);
    assert.ok(planned.some(({ outcome }) => (outcome.plans[0]?.steps.length ?? 0) >= 3));
  });

  it('leave no fault in the text, whichever is taken, and come in rank: findings left, readings, work', () => {
    for (const { seed, analysis, outcome } of cases) {
      for (const { steps } of outcome.plans) {
        const after = analysis.edited(steps.flatMap(({ edits }) => edits));
        assert.ok(after && !isFaulty(after), `seed ${seed}: ${steps.map(({ text }) => text).join('; ')}`);
      }
      const ranks = outcome.plans.map(({ leaves, against, minutes }) => [leaves.length, against.length, minutes]);
      assert.deepEqual(
        ranks,
        [...ranks].sort((a, b) => a.map((each, index) => each - (b[index] ?? 0)).find((each) => each !== 0) ?? 0),
        `seed ${seed}`,
      );
    }
  });

  it('are asked for only where something is wrong', () => {
    for (const { seed, analysis, outcome } of cases)
      if (!isFaulty(analysis)) assert.deepEqual([outcome.plans, outcome.impossible], [[], undefined], `seed ${seed}`);
  });

  it('take no more work than the least of all sets of changes', () => {
    let looked = 0;
    for (const { seed, analysis, outcome } of cases) {
      if (!isFaulty(analysis)) continue;
      const { quick, moves } = searchable(analysis, scopeOf(analysis));
      const limit =
        outcome.plans.length > 0 ? Math.min(...outcome.plans.map(({ minutes }) => minutes)) : WITHOUT_PLAN_MINUTES;
      for (const set of setsBelow(moves, limit)) {
        looked += 1;
        const steps = stepsOf(set, quick, analysis.model.pickups);
        const after = steps && analysis.edited(steps.flatMap(({ edits }) => edits));
        assert.ok(
          !after || isFaulty(after) || errors(after) > errors(analysis),
          `seed ${seed}: found ${limit} min, but less is enough: ${steps?.map(({ text }) => text).join('; ')}`,
        );
      }
    }
    assert.ok(looked > 500, `${looked} sets`);
  }).timeout(TIMEOUT_MS);
});

const isFaulty = ({ findings }: Analysis): boolean =>
  findings.some(({ code, severity }) => FAULTS.includes(code) && severity !== 'information');

const errors = ({ findings }: Analysis): number => findings.filter(({ severity }) => severity === 'error').length;

function scopeOf({ model }: Analysis): Parameters<typeof searchable>[1] {
  const [instrument] = model.instruments;
  assert.ok(instrument);
  return { instrument, pickups: instrument.slots.flatMap(({ pickup }) => pickup ?? []) };
}

/** Every set of moves that takes less than so many minutes. */
function setsBelow(moves: readonly Move[], minutes: number): readonly (readonly Move[])[] {
  const sets: (readonly Move[])[] = [];
  const grow = (set: readonly Move[], from: number): void => {
    if (set.length > 0) sets.push(set);
    moves.slice(from).forEach((move, index) => {
      if (minutesOf([...set, move]) >= minutes || set.some((each) => exclude(each, move))) return;
      grow([...set, move], from + index + 1);
    });
  };
  grow([], 0);
  return sets;
}
