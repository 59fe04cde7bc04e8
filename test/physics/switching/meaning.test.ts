import assert from 'node:assert/strict';
import { changed, rightingChanges, wrongAmong } from '../../../server/src/physics/switching/changes.ts';
import type { Folded } from '../../../server/src/physics/switching/folded.ts';
import {
  hotBetween,
  meaningIn,
  numberedRig,
  type StateMeaning,
  unusedLugs,
} from '../../../server/src/physics/switching/meaning.ts';
import { type Nets, type Rig, statesOf, stepsOf } from '../../../server/src/physics/switching/rig.ts';
import { uniform } from '../../support/chance.ts';
import { nodalSigns } from './nodal-signs.ts';
import { analysisCases, movableIn, rigOf, stateText, wantedOf } from './switching-cases.ts';

describe('a wired switch, against cases worked out by nodal equations', () => {
  for (const each of analysisCases)
    it(`${each.id} ${each.title}`, () => {
      const rig = rigOf(each);
      const numbered = numberedRig(rig);
      const states = statesOf(rig).map((state) =>
        Object.assign(meaningIn(numbered, state), { at: stateText(rig, state) }),
      );
      const { expected } = each;
      assert.deepEqual(
        states.map(({ at, fault, text, dead }) => ({
          ...{ at, fault: fault ?? null, dead: deadWords(dead) },
          // The cases say no more of a bridge than that it is one.
          network: text.replace(/^bridge: .*$/, 'bridge'),
        })),
        expected.states.map(({ at, fault, network, dead }) => ({ at, fault, network, dead })),
      );
      assert.deepEqual(
        states.map(({ at, network }) => ({ at, coils: network ? coilSigns(network, rig) : undefined })),
        expected.states.map(({ at, fault, network, coils }) => ({
          at,
          coils: fault || network === 'bridge' ? undefined : coils,
        })),
      );
      const [{ contacts } = { contacts: undefined }] = rig.switches;
      assert.ok(contacts?.travel);
      assert.deepEqual(
        stepsOf(rig).map((step) => ({
          from: stateText(rig, step.from),
          to: stateText(rig, step.to),
          hot: hotBetween(numbered, step, rig.switches[step.moving]?.contacts.travel ?? 'break-before-make'),
        })),
        expected.between,
      );
      assert.deepEqual([...unusedLugs(rig)].sort(), [...expected.unusedLugs].sort());
      assert.deepEqual(sameStates(states), expected.sameStates);
      assert.deepEqual(
        states.map(({ at, netOf }) => ({ at, lugs: sortedGroups(lugsTogether(rig, { netOf })) })),
        expected.continuity.map(({ at, lugsTogether: lugs }) => ({ at, lugs: sortedGroups(lugs) })),
      );
    });
});

describe('what is wrong with a wired switch', () => {
  for (const each of analysisCases.filter(({ expected }) => expected.faults))
    it(`${each.id} ${each.title}: every single change that puts all positions right`, () => {
      const rig = rigOf(each);
      const wanted = wantedOf(each);
      const faults = each.expected.faults;
      const wrong = wrongAmong(numberedRig(rig), wanted).map((index) => index + 1);
      assert.deepEqual(wrong, faults?.wrongPositions);
      const found = rightingChanges(rig, wanted, movableIn(rig)).map((change) =>
        change.kind === 'swap'
          ? `swap ${[...change.terminals].sort().join(' ')}`
          : `move ${change.terminal} to ${change.to === 'nothing' ? 'nothing' : [...change.to].sort().join(' ')}`,
      );
      const known = (faults?.repairs ?? []).map((repair) =>
        'swap' in repair
          ? `swap ${[...repair.swap].sort().join(' ')}`
          : `move ${repair.move} to ${repair.to === 'nothing' ? 'nothing' : [...repair.to].sort().join(' ')}`,
      );
      assert.deepEqual(found.sort(), known.sort());
    });
});

describe('what sounds, by nodal equations beside it', () => {
  it('agrees for every case with one end moved at random', () => {
    const next = uniform(20_261);
    for (const each of analysisCases)
      for (let round = 0; round < 4; round++) {
        const rig = rigOf(each);
        const all = movableIn(rig);
        const pick = () => all[Math.floor(next() * all.length)] ?? '';
        const [terminal, to] = [pick(), pick()];
        const links = terminal === to ? rig.links : changed(rig.links, { kind: 'move', terminal, to: [to] });
        const moved = { ...rig, links };
        for (const state of statesOf(moved)) {
          const meaning = meaningIn(numberedRig(moved), state);
          const { shorted, signs } = nodalSigns(moved, state, next);
          const where = `${each.id}, ${terminal} moved to ${to}, ${stateText(rig, state)}`;
          assert.equal(meaning.fault === 'shorted', shorted, where);
          const heard = Object.entries(signs).flatMap(([name, sign]) => (sign === 0 ? [] : [name]));
          const coils = rig.elements.flatMap(({ name, isCoil }) => (isCoil ? [name] : []));
          const isDriven = heard.some((name) => coils.includes(name));
          assert.deepEqual(meaning.sounding, isDriven ? heard : [], where);
          if (meaning.network)
            for (const [name, sign] of Object.entries(coilSigns(meaning.network, rig)))
              assert.equal(sign, signs[name] === 1 ? '+' : '-', `${where}: ${name}`);
        }
      }
  });
});

const deadWords = (dead: StateMeaning['dead']) =>
  Object.fromEntries([...dead].map(([coil, { closed, on }]) => [coil, `${closed} at ${on}`]));

function coilSigns(network: Folded, rig: Rig): Readonly<Record<string, '+' | '-'>> {
  if (network.kind !== 'element') return Object.assign({}, ...network.of.map((part) => coilSigns(part, rig)));
  const isCoil = rig.elements.some(({ name, isCoil }) => isCoil && name === network.name);
  return isCoil ? { [network.name]: network.turned ? '-' : '+' } : {};
}

const sortedGroups = (groups: readonly (readonly string[])[]) =>
  groups.map((each) => [...each].sort().join(' ')).sort();

function sameStates(states: readonly (StateMeaning & { readonly at: string })[]): readonly (readonly string[])[] {
  return states.flatMap((first, index) =>
    states
      .slice(index + 1)
      .filter((second) => !first.fault && first.network && second.text === first.text)
      .map((second) => [first.at, second.at]),
  );
}

/** Lugs that a meter finds joined, without coils: groups of two and more, by terminal. */
function lugsTogether({ switches }: Pick<Rig, 'switches'>, { netOf }: Pick<StateMeaning, 'netOf'>): Nets {
  const groups = new Map<number, string[]>();
  for (const { slot, contacts } of switches)
    for (const lug of contacts.lugs) {
      const terminal = `${slot}.${lug}`;
      const net = netOf(terminal) ?? -1;
      const group = groups.get(net);
      if (group) group.push(terminal);
      else groups.set(net, [terminal]);
    }
  return [...groups.values()].filter((group) => group.length > 1);
}

describe('what is neither series nor parallel', () => {
  const fiveCoils = (fifth: readonly [string, string], ...links: readonly (readonly string[])[]) =>
    meaningIn(
      numberedRig({
        switches: [],
        elements: [
          { name: 'a', isCoil: true, ends: ['hot', 'x'] },
          { name: 'b', isCoil: true, ends: ['x', 'ground'] },
          { name: 'c', isCoil: true, ends: ['hot', 'y'] },
          { name: 'd', isCoil: true, ends: ['y', 'ground'] },
          { name: 'e', isCoil: true, ends: fifth },
        ],
        fixed: [],
        links,
      }),
      [],
    ).text;

  it('is compared by the ends that meet on its nets, whatever they are called', () => {
    const text = fiveCoils(['x', 'y']);
    assert.match(text, /^bridge: /);
    assert.equal(fiveCoils(['lug', 'y'], ['x', 'lug']), text);
    assert.notEqual(fiveCoils(['y', 'x']), text);
  });
});
