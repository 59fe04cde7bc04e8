/**
 * What follows from products of signs. The answers come from trying every combination of the signs, which knows nothing of elimination:
 * something is known where it is the same in all combinations that the equations leave.
 */
import assert from 'node:assert/strict';
import { type Known, type SignSystem, signSystem } from '../../server/src/estimates/sign-system.ts';
import type { Sign } from '../../server/src/model/coil.ts';
import type { Place } from '../../server/src/model/place.ts';
import { chance } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';

const [first] = analyse('wire w {\n}\n').tree.chunks;
assert.ok(first);
/** The place of the equation of that number. */
const places: readonly Place[] = Array.from({ length: 30 }, (_, start) => ({
  chunk: first.chunk,
  span: { start, end: start },
}));
const said = (sign: Sign, index = 0, basis: Known['basis'] = 'declared'): Known => ({
  sign,
  basis,
  places: places.slice(index, index + 1),
});
const signOf = (system: SignSystem, ...names: readonly string[]) => system.known(names)?.sign;

describe('signs measured as products', () => {
  it('are known once two of three are', () => {
    const system = signSystem();
    system.add(['wind', 'pole'], said(-1));
    assert.equal(signOf(system, 'wind'), undefined);
    assert.equal(signOf(system, 'wind', 'pole'), -1);
    system.add(['pole'], said(1));
    assert.equal(signOf(system, 'wind'), -1);
    assert.equal(signOf(system, 'nobody spoke of it'), undefined);
  });

  it('of one coil with itself are 1, whatever it is', () => {
    assert.deepEqual(signSystem().known(['a', 'a']), { sign: 1, basis: 'declared', places: [] });
  });

  it('that contradict what stands are left out, and what they contradict is given back with the lines that fix it', () => {
    const system = signSystem();
    assert.equal(system.add(['a', 'b'], said(1, 0)), undefined);
    assert.equal(system.add(['b', 'c'], said(-1, 1)), undefined);
    assert.equal(system.add(['c', 'd'], said(-1, 2)), undefined);
    assert.deepEqual(system.add(['a', 'c'], said(1, 3, 'measured')), {
      sign: -1,
      basis: 'declared',
      places: [places[0], places[1]],
    });
    assert.equal(system.add(['a', 'c'], said(-1, 4)), undefined);
    assert.equal(signOf(system, 'a', 'd'), 1);
  });

  it('are as sure as what they follow from: stated throughout, measured somewhere, or else derived', () => {
    const basisOf = (...bases: readonly Known['basis'][]) => {
      const system = signSystem();
      for (const [index, basis] of bases.entries()) system.add([`${index}`, `${index + 1}`], said(1, index, basis));
      return system.known(['0', `${bases.length}`])?.basis;
    };
    assert.equal(basisOf('declared', 'declared'), 'declared');
    assert.equal(basisOf('declared', 'derived'), 'derived');
    assert.equal(basisOf('declared', 'derived', 'measured'), 'measured');
  });

  it('follow as they do from trying every combination (seed 5)', () => {
    const { whole, pick } = chance(5);
    const names = ['a', 'b', 'c', 'd', 'e'] as const;
    const all = Array.from({ length: 2 ** names.length }, (_, bits) =>
      Object.fromEntries(names.map((name, index): [string, Sign] => [name, (bits >> index) & 1 ? -1 : 1])),
    );
    const product = (signs: Readonly<Record<string, Sign>>, of: readonly string[]) =>
      of.reduce((sign: number, name) => sign * (signs[name] ?? 1), 1);
    for (let round = 0; round < 60; round++) {
      const system = signSystem();
      let left = all;
      for (let count = 0; count < 6; count++) {
        const of = names.filter(() => whole(3) === 0);
        const sign = pick([1, -1] as const);
        const agreeing = left.filter((each) => product(each, of) === sign);
        const against = system.add(of, said(sign, count));
        assert.equal(against !== undefined, agreeing.length === 0);
        if (agreeing.length > 0) left = agreeing;
        for (const asked of [of, ...names.map((name) => [name]), ['a', 'b'], ['c', 'd', 'e']]) {
          const answers = new Set(left.map((each) => product(each, asked)));
          assert.equal(system.known(asked)?.sign, answers.size === 1 ? [...answers][0] : undefined);
        }
      }
    }
  });
});
