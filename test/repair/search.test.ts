/** The search for the cheapest sets of changes, against looking at every set. */
import assert from 'node:assert/strict';
import type { Pickup } from '../../server/src/model/pickup.ts';
import type { Fault, Judge } from '../../server/src/repair/faults.ts';
import { exclude, type Move, minutesOf } from '../../server/src/repair/moves.ts';
import { cheapestSolutions } from '../../server/src/repair/search.ts';
import { type Chance, chance } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';

const [covered, open] = ['  cover nickel-silver\n', ''].map((metal) => {
  const pickup = analyse(`pickup p${metal.length} {\n${metal}}\n`).model.pickups[0];
  assert.ok(pickup);
  return pickup;
}) as [Pickup, Pickup];

const WORKS = ['hot and ground', 'leads outside', 'leads inside', 'bar magnet', 'rods of a coil', 'rewind'] as const;

/** Moves of any work and any minutes: nothing but their names and times is looked at. */
const movesBy = ({ pick, whole }: Chance): readonly Move[] =>
  Array.from({ length: 6 }, (_, index) => ({
    on: 'pickup',
    work: pick(WORKS),
    minutes: 5 + 5 * whole(8),
    pickup: pick([covered, open]),
    coil: whole(2) === 0 ? undefined : `c${index % 3}`,
    add: (change) => change,
  }));

const FAULT: Fault = { kind: 'phase' };

/** Right is what turns so many things the right way round: each move turns some of three. */
function judgeBy({ whole }: Chance, moves: readonly Move[]): Judge {
  const bits = new Map(moves.map((move) => [move, BigInt(whole(8))]));
  const wanted = BigInt(whole(7) + 1);
  const bitsOf = (move: Move) => bits.get(move) ?? 0n;
  return {
    subjects: [],
    bitsOf,
    faults: (made) => (made.reduce((state, move) => state ^ bitsOf(move), 0n) === wanted ? [] : [FAULT]),
  };
}

/** Sets of moves that leave no fault and none of whose parts leaves none either. */
function smallest(moves: readonly Move[], judge: Judge): readonly (readonly Move[])[] {
  const sets = Array.from({ length: 2 ** moves.length }, (_, bits) => moves.filter((_, index) => (bits >> index) & 1));
  return sets.filter(
    (set) =>
      judge.faults(set)?.length === 0 && !set.some((a, index) => set.slice(index + 1).some((b) => exclude(a, b))),
  );
}

const NO_LIMIT = { states: 100_000, beyondBestMinutes: Number.POSITIVE_INFINITY, solutions: 100 };

describe('the cheapest sets of changes', () => {
  it('are found first, none holding another, all of them where nothing limits it (seeds 1 to 80)', () => {
    let solved = 0;
    for (let seed = 1; seed <= 80; seed++) {
      const by = chance(seed);
      const moves = movesBy(by);
      const judge = judgeBy(by, moves);
      const all = smallest(moves, judge);
      const { solutions, completeBelowMinutes } = cheapestSolutions(moves, judge, NO_LIMIT);
      assert.equal(completeBelowMinutes, Number.POSITIVE_INFINITY);
      const least = Math.min(...all.map(minutesOf));
      assert.equal(solutions[0]?.minutes ?? Number.POSITIVE_INFINITY, least, `seed ${seed}`);
      const minutes = solutions.map((each) => each.minutes);
      assert.deepEqual(
        minutes,
        [...minutes].sort((a, b) => a - b),
        `seed ${seed}`,
      );
      for (const { moves: made, minutes: told } of solutions) {
        assert.equal(minutesOf(made), told);
        assert.deepEqual(judge.faults(made), []);
        assert.ok(solutions.every(({ moves: other }) => other === made || !other.every((each) => made.includes(each))));
      }
      if (solutions.length > 0) solved++;
    }
    assert.ok(solved > 40, `${solved} solved`);
  });

  it('are the same on every run, fewer moves first', () => {
    const by = chance(3);
    const moves = movesBy(by);
    const judge = judgeBy(by, moves);
    const run = () =>
      cheapestSolutions(moves, judge, NO_LIMIT).solutions.map((each) => each.moves.map((move) => moves.indexOf(move)));
    assert.deepEqual(run(), run());
    const alike: readonly Move[] = [10, 10, 20].map((minutes) => ({
      on: 'pickup',
      work: 'hot and ground',
      minutes,
      pickup: open,
      coil: undefined,
      add: (change) => change,
    }));
    // Two moves together, or the third alone, in the same time.
    const either: Judge = {
      subjects: [],
      bitsOf: (move) => 1n << BigInt(alike.indexOf(move)),
      faults: (made) =>
        made.length === 2 && !made.includes(alike[2] as Move) ? [] : made.includes(alike[2] as Move) ? [] : [FAULT],
    };
    const { solutions } = cheapestSolutions(alike, either, NO_LIMIT);
    assert.deepEqual(
      solutions.map((each) => each.moves.map((move) => alike.indexOf(move))),
      [[2], [0, 1]],
    );
  });

  it('are, of sets alike, those of earlier moves first', () => {
    const four: readonly Move[] = Array.from({ length: 4 }, () => ({
      on: 'pickup',
      work: 'hot and ground',
      minutes: 10,
      pickup: open,
      coil: undefined,
      add: (change) => change,
    }));
    const indices = (made: readonly Move[]) => made.map((move) => four.indexOf(move)).sort();
    const outerOrInner: Judge = {
      subjects: [],
      bitsOf: (move) => 1n << BigInt(four.indexOf(move)),
      faults: (made) => (['0,3', '1,2'].includes(indices(made).join()) ? [] : [FAULT]),
    };
    const { solutions } = cheapestSolutions([...four], outerOrInner, NO_LIMIT);
    assert.deepEqual(
      solutions.map((each) => each.moves.map((move) => four.indexOf(move))),
      [
        [0, 3],
        [1, 2],
      ],
    );
  });

  it('end at so many sets, so many solutions, and so much more than the best', () => {
    const moves: readonly Move[] = Array.from({ length: 5 }, (_, index) => ({
      on: 'pickup',
      work: 'hot and ground',
      minutes: 10 + 10 * index,
      pickup: open,
      coil: undefined,
      add: (change) => change,
    }));
    const bitsOf = (move: Move) => 1n << BigInt(moves.indexOf(move));
    const anyOne: Judge = { subjects: [], bitsOf, faults: (made) => (made.length === 1 ? [] : [FAULT]) };
    const found = (limits: Partial<typeof NO_LIMIT>) => {
      const { solutions, completeBelowMinutes } = cheapestSolutions(moves, anyOne, { ...NO_LIMIT, ...limits });
      return [solutions.map(({ minutes }) => minutes), completeBelowMinutes];
    };
    assert.deepEqual(found({}), [[10, 20, 30, 40, 50], Number.POSITIVE_INFINITY]);
    assert.deepEqual(found({ solutions: 2 }), [[10, 20], 30]);
    assert.deepEqual(found({ beyondBestMinutes: 20 }), [[10, 20, 30], 40]);
    // The empty set is the first that is looked at.
    assert.deepEqual(found({ states: 3 }), [[10, 20], 30]);
    assert.deepEqual(found({ states: 1 }), [[], 10]);
    const none: Judge = { subjects: [], bitsOf, faults: () => [FAULT] };
    assert.deepEqual(cheapestSolutions(moves, none, NO_LIMIT), {
      solutions: [],
      completeBelowMinutes: Number.POSITIVE_INFINITY,
    });
  });

  it('go by way of sets that cannot be made', () => {
    const moves = movesBy(chance(9))
      .slice(0, 2)
      .map((move): Move => ({ ...move, work: 'hot and ground' }));
    const both: Judge = {
      subjects: [],
      bitsOf: (move) => 1n << BigInt(moves.indexOf(move)),
      faults: (made) => (made.length === 2 ? [] : made.length === 1 ? undefined : [FAULT]),
    };
    assert.deepEqual(
      cheapestSolutions(moves, both, NO_LIMIT).solutions.map((each) => each.moves.length),
      [2],
    );
  });

  it('take a cover off once, whatever is done under it', () => {
    const inside = (minutes: number): Move => ({
      on: 'pickup',
      work: 'leads inside',
      minutes,
      pickup: covered,
      coil: undefined,
      add: (change) => change,
    });
    const moves = [inside(50), inside(50), inside(30)];
    const two: Judge = {
      subjects: [],
      bitsOf: (move) => 1n << BigInt(moves.indexOf(move)),
      faults: (made) => (made.length === 2 ? [] : [FAULT]),
    };
    assert.deepEqual(
      cheapestSolutions(moves, two, NO_LIMIT).solutions.map(({ minutes }) => minutes),
      [100, 100, 120],
    );
  });
});
