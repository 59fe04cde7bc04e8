/**
 * What coils give together, from the law of induction alone: a string's e.m.f. goes with turns, that of a uniform field with the sum
 * of the turns' areas; equal ones of opposite sense leave nothing, one more than its fellow leaves the difference, two that add give
 * 20 lg 2 = 6.02 dB.
 */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { humDb, opposed, pairsHeard, phaseOf, type Sounding } from '../../server/src/estimates/phase.ts';
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

  it('sets three against one, whichever is asked for of sides alike', () => {
    const live = [sized(a, { string: other }), sized(b, {}), sized(c, {})];
    const { against, others } = opposed(live, pairsHeard(live), 'last');
    assert.deepEqual(
      [against, others].map((side) => side.map(({ coil }) => coil.name)),
      [['a'], ['b', 'c']],
    );
  });
});
