/**
 * What coils give together, from the law of induction alone: a string's e.m.f. goes with turns, that of a uniform field with the sum
 * of the turns' areas; equal ones of opposite sense leave nothing, one more than its fellow leaves the difference, two that add give
 * 20 lg 2 = 6.02 dB.
 */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import {
  combinedDb,
  heardTogether,
  hearsString,
  humDb,
  humsNeedlessly,
  humVerdict,
  knownOrAlike,
  openSigns,
  opposed,
  pairsHeard,
  phaseOf,
  type Sounding,
  stringShare,
  stringsUnder,
  strongestHum,
} from '../../server/src/estimates/phase.ts';
import { soundingIn } from '../../server/src/estimates/quick.ts';
import { analyse } from '../support/check-fixture.ts';

/** Coils in series, each wound clockwise under a north pole, joined so that they add. */
function coils(names: string): readonly Sounding[] {
  const each = names.split(' ');
  const text = `pickup row {
${each
  .map(
    (name) =>
      `  coil ${name} {\n    wound clockwise\n    polarity north-up\n    start ${name}-in\n    finish ${name}-out\n  }\n`,
  )
  .join('')}  hookup {
    hot ${each[0]}-out
${each
  .slice(1)
  .map((name, index) => `    link ${each[index]}-in ${name}-out\n`)
  .join('')}    ground ${each.at(-1)}-in
  }
}
`;
  const [pickup] = analyse(text).pickups;
  assert.ok(pickup);
  return soundingIn(quickOf(undefined)(pickup.pickup));
}

const sized = (coil: Sounding | undefined, more: Partial<Sounding>): Sounding => {
  assert.ok(coil);
  return { ...coil, ...more };
};

describe('hum of coils together', () => {
  const [a, b] = coils('a b');

  it('goes with their turn-areas, where all are known', () => {
    const left = humDb([sized(a, { turnAreaM2: 4 }), sized(b, { turnAreaM2: 3, hum: a?.hum === 1 ? -1 : 1 })]);
    assert.equal(left?.toFixed(3), (20 * Math.log10(1 / 4)).toFixed(3));
  });

  it('counts all coils alike where one is not known: a guess is not weighed against what is known', () => {
    const left = humDb([sized(a, { turnAreaM2: 4 }), sized(b, { turnAreaM2: undefined, hum: a?.hum === 1 ? -1 : 1 })]);
    assert.equal(left, -120);
    assert.equal(humDb([sized(a, { turnAreaM2: 4 }), sized(b, { turnAreaM2: undefined })])?.toFixed(2), '6.02');
  });

  it('is open where a sense is, and of no interest for one coil', () => {
    assert.equal(humDb([sized(a, {}), sized(b, { hum: undefined })]), undefined);
    assert.equal(humDb([sized(a, {})]), undefined);
  });
});

describe('phase of coils together', () => {
  const [a, b, c] = coils('a b c');
  const other = a?.string === 1 ? -1 : 1;

  it('is unproven of none, single of one, in or out of more', () => {
    assert.equal(phaseOf([]), 'unproven');
    assert.equal(phaseOf([sized(a, {})]), 'single');
    assert.equal(phaseOf([sized(a, {}), sized(b, {})]), 'in');
    assert.equal(phaseOf([sized(a, {}), sized(b, { string: undefined })]), 'unproven');
    assert.equal(phaseOf([sized(a, {}), sized(b, { string: other }), sized(c, { string: undefined })]), 'out');
  });

  it('names the lesser side by its turns, and says nothing of sides nearer than turns are known', () => {
    const against = (turns: readonly [number, number], ofAlike: 'first' | 'last') => {
      const live = [sized(a, { stringTurns: turns[0] }), sized(b, { stringTurns: turns[1], string: other })];
      return opposed(live, pairsHeard(live), ofAlike).against.map(({ coil }) => coil.name);
    };
    assert.deepEqual(against([5000, 4000], 'first'), ['b']);
    assert.deepEqual(against([4000, 5000], 'last'), ['a']);
    assert.deepEqual([against([5000, 4850], 'first'), against([5000, 4850], 'last')], [['a'], ['b']]);
  });

  it('takes of sides alike the first or last coil that clashes, and has no part in it for one whose sign is open', () => {
    const open = sized(c, { string: undefined, stringTurns: undefined });
    for (const [ofAlike, turns, against, others] of [
      ['first', 5000, 'a', 'b'],
      ['last', 5000, 'b', 'a'],
      ['first', 3000, 'b', 'a'],
    ] as const) {
      // Of the open one not even the size is known: the others are weighed by theirs all the same.
      const live = [sized(a, { stringTurns: 5000 }), open, sized(b, { stringTurns: turns, string: other })];
      const sides = opposed(live, pairsHeard(live), ofAlike);
      assert.deepEqual(
        [sides.against, sides.others].map((side) => side.map(({ coil }) => coil.name).join()),
        [against, others],
        `${ofAlike} ${turns}`,
      );
    }
  });

  it('takes the very last of several on each side', () => {
    const [w, x, y, z] = coils('w x y z');
    const live = [sized(w, {}), sized(x, {}), sized(y, { string: other }), sized(z, { string: other })];
    const names = (ofAlike: 'first' | 'last') =>
      opposed(live, pairsHeard(live), ofAlike)
        .against.map(({ coil }) => coil.name)
        .join();
    assert.deepEqual([names('first'), names('last')], ['w,x', 'y,z']);
  });

  it('goes the way of the larger part of its hum', () => {
    const way = (...hums: readonly (readonly [area: number, hum: 1 | -1])[]) =>
      strongestHum(hums.map(([turnAreaM2, hum]) => sized(a, { turnAreaM2, hum })));
    assert.equal(way([3, 1], [2, -1], [2, -1]), -1);
    assert.equal(way([5, 1], [2, -1], [2, -1]), 1);
    assert.equal(way([0.5, -1]), -1);
  });

  it('sets three against one, whichever is asked for of sides alike', () => {
    const live = [sized(a, { string: other }), sized(b, {}), sized(c, {})];
    const { against, others } = opposed(live, pairsHeard(live), 'last');
    assert.deepEqual(
      [against, others].map((side) => side.map(({ coil }) => coil.name)),
      [['a'], ['b', 'c']],
    );
  });
});

describe('which strings a coil hears', () => {
  const [all] = coils('all');
  assert.ok(all);
  const place = all.coil.place;
  const over = (from: number, to: number): Sounding => ({
    ...all,
    coil: { ...all.coil, serves: { value: { from, to }, place } },
  });
  const dummy: Sounding = { ...all, coil: { ...all.coil, serves: { value: 'none', place } } };
  const lower: Sounding = { ...all, coil: { ...all.coil, below: { value: 'upper', place } } };

  it('is all where it says none, else those that it serves; of a dummy none', () => {
    const heard = ({ coil }: Sounding) => [undefined, 1, 2, 3, 4].map((string) => hearsString(coil, string));
    assert.deepEqual(heard(all), [true, true, true, true, true]);
    assert.deepEqual(heard(over(2, 3)), [true, false, true, true, false]);
    assert.deepEqual(heard(dummy), [true, false, false, false, false]);
  });

  it('is told of how many strings its pickup has, or of those that its coils serve', () => {
    const under = (coil: Sounding, more: object) =>
      stringsUnder(coil.coil, { coils: [over(1, 3).coil, over(4, 6).coil], strings: undefined, ...more } as never);
    assert.deepEqual(under(over(1, 3), {}), { from: 1, to: 3, of: 6 });
    assert.deepEqual(under(over(1, 3), { strings: { value: 7, place } }), { from: 1, to: 3, of: 7 });
    assert.deepEqual(under(over(1, 3), { strings: { value: 4, place } }), { from: 1, to: 3, of: 6 });
    assert.deepEqual([under(all, {}), under(dummy, {})], [undefined, undefined]);
    // Beside one under all of them and a dummy.
    const beside = { coils: [all.coil, dummy.coil, over(1, 3).coil] };
    assert.deepEqual(under(over(1, 3), beside), { from: 1, to: 3, of: 3 });
  });

  it('is with another coil where one string runs over both, and none is a dummy or below', () => {
    assert.equal(heardTogether(all, { ...all }), false);
    assert.equal(heardTogether(over(1, 3), over(3, 6)), true);
    assert.equal(heardTogether(over(1, 3), over(4, 6)), false);
    assert.equal(heardTogether(over(4, 6), over(1, 3)), false);
    assert.equal(heardTogether(all, over(1, 3)), true);
    assert.deepEqual(
      [dummy, lower].flatMap((each) => [heardTogether(all, each), heardTogether(each, all)]),
      [false, false, false, false],
    );
    assert.deepEqual(
      [all, dummy, lower].map(({ coil }) => stringShare(coil)),
      [1, 0, 0.15],
    );
  });

  it('leaves phase open where a sign is missing that another coil is heard with; hum where any is', () => {
    const open = { string: undefined, hum: undefined };
    const [a, b] = [over(1, 3), { ...over(4, 6), ...open }];
    const names = (coils: readonly Sounding[]) => {
      const { phase, hum } = openSigns(coils);
      return [phase.length, hum.length];
    };
    assert.deepEqual(names([a, b]), [0, 1]);
    assert.deepEqual(names([a, b, all]), [1, 1]);
    assert.deepEqual(names([{ ...all, ...open }]), [0, 0]);
  });
});

describe('coils that clash', () => {
  const [a, b, c] = coils('a b c');
  const place = a?.coil.place;
  const over = (coil: Sounding | undefined, from: number, to: number, more: Partial<Sounding> = {}): Sounding => {
    assert.ok(coil && place);
    return { ...coil, coil: { ...coil.coil, serves: { value: { from, to }, place } }, ...more };
  };

  it('are each pair once', () => {
    assert.ok(a && b && c);
    assert.deepEqual(
      pairsHeard([a, b, c]).map((pair) => pair.map(({ coil }) => coil.name).join()),
      ['a,b', 'a,c', 'b,c'],
    );
  });

  it('are those that one string runs over, not all that there are', () => {
    const other = a?.string === 1 ? -1 : 1;
    const live = [over(a, 1, 3), over(b, 1, 3, { string: other, stringTurns: 10 }), over(c, 4, 6)];
    const { against, others } = opposed(live, pairsHeard(live), 'last');
    assert.deepEqual(
      [against, others].map((side) => side.map(({ coil }) => coil.name)),
      [['b'], ['a']],
    );
  });
});

describe('levels together', () => {
  it('are dB of the sum against the strongest, silence at 120 dB below, no number of nothing', () => {
    assert.equal(combinedDb([3, -3]), -120);
    assert.equal(combinedDb([1, 1]).toFixed(2), '6.02');
    assert.equal(combinedDb([4, -3]).toFixed(2), (20 * Math.log10(1 / 4)).toFixed(2));
    assert.equal(combinedDb([-2]), 0);
    assert.ok(Number.isNaN(combinedDb([0, 0])));
  });

  it('count alike where not all are known', () => {
    assert.deepEqual(knownOrAlike([2, 3], 1), [2, 3]);
    assert.deepEqual(knownOrAlike([2, undefined], 5), [5, 5]);
  });

  // Common practice, no published source: within 1 dB of one coil nothing is gained, what steel leaves is gone.
  it('of hum are told in four words', () => {
    assert.deepEqual([1.01, 1, -1, -1.01, -6, -29.9, -30, -31].map(humVerdict), [
      'adds',
      'hums',
      'hums',
      'in part',
      'in part',
      'in part',
      'gone',
      'gone',
    ]);
  });

  it('of hum are needless where another choice is 6 dB quieter', () => {
    assert.deepEqual(
      [
        [0, -6],
        [0, -5.9],
        [-6, -12],
        [-6.1, -40],
      ].map(([db = 0, left = 0]) => humsNeedlessly(db, left)),
      [true, false, true, false],
    );
  });
});
