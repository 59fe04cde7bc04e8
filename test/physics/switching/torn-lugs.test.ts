/** A lug that two states want on different nets, worked out by hand on a switch whose middle joins both throws. */
import assert from 'node:assert/strict';
import type { Nets, Rig } from '../../../server/src/physics/switching/rig.ts';
import { tornLug } from '../../../server/src/physics/switching/torn-lugs.ts';

const rig = (links: Nets): Rig => ({
  switches: [
    {
      slot: 's',
      contacts: {
        lugs: ['a0', 'a1', 'a2'],
        detents: [
          { name: 'up', joins: [['a0', 'a1']] },
          { name: 'middle', joins: [['a0', 'a1', 'a2']] },
          { name: 'down', joins: [['a0', 'a2']] },
        ],
        travel: undefined,
      },
    },
  ],
  elements: ['n', 'b'].map((name) => ({ name, isCoil: true, ends: [`${name}.1`, 'ground'] as const })),
  fixed: [],
  links,
});
const wanted = (...texts: readonly string[]) =>
  texts.map((text, state) => ({ state: [state], texts: new Set([text]) }));
const LUGS = ['s.a0', 's.a1', 's.a2'];
const WIRED = rig([
  ['hot', 's.a0'],
  ['n.1', 's.a1'],
  ['b.1', 's.a2'],
]);

describe('a lug that is torn', () => {
  it('would have to carry a coil in one state and nothing in the next', () =>
    assert.deepEqual(tornLug(WIRED, wanted('+n', '+b', '+b'), LUGS), {
      lug: 's.a1',
      wants: [
        { state: 0, on: ['n.1'] },
        { state: 1, on: 'nothing' },
      ],
    }));

  it('is none where the states do as they should', () =>
    assert.equal(tornLug(WIRED, wanted('+n', '[+b +n]', '+b'), LUGS), undefined));

  it('is none where one place of a lug puts all right', () => {
    const forgotten = rig([
      ['hot', 's.a0'],
      ['b.1', 's.a2'],
    ]);
    assert.equal(tornLug(forgotten, wanted('+n', '[+b +n]', '+b'), LUGS), undefined);
  });

  it('is none where some state is wrong wherever it lies', () =>
    assert.equal(tornLug(WIRED, wanted('+n', '+b', '-n'), LUGS), undefined));
});
