/**
 * Fewest wires, clashes and poles against a constraint solver with flows and, up to 12 terminals, all partitions (see the file of cases);
 * what is planned is judged by analysing it. Names of lugs, leads and switches are made up.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { changed } from '../../../server/src/physics/switching/changes.ts';
import { type Folded, joined, turned } from '../../../server/src/physics/switching/folded.ts';
import { type LeastWiring, leastWiring } from '../../../server/src/physics/switching/least-wiring.ts';
import { meaningIn, numberedRig, textOf } from '../../../server/src/physics/switching/meaning.ts';
import { alikePoles } from '../../../server/src/physics/switching/poles.ts';
import { type Contacts, closedIn, type Nets, type Rig, statesOf } from '../../../server/src/physics/switching/rig.ts';
import { finished } from '../../../server/src/physics/switching/steps.ts';
import { wantedNets } from '../../../server/src/physics/switching/wanted-state.ts';
import { polesNeeded, smallestClashes } from '../../../server/src/physics/switching/why-no-wiring.ts';
import {
  Budget,
  GROUND_LEAD,
  HOT_LEAD,
  type WiringProblem,
} from '../../../server/src/physics/switching/wiring-problem.ts';
import { uniform } from '../../support/chance.ts';
import { analysisCases, movableIn, rigOf, stateAt } from './switching-cases.ts';

interface SynthesisCase {
  readonly id: string;
  readonly title: string;
  readonly given: {
    readonly switches: Readonly<Record<string, Contacts>>;
    readonly coils: Readonly<Record<string, readonly [string, string]>>;
    readonly parts: Readonly<Record<string, readonly [string, string]>>;
    readonly wholes: Readonly<Record<string, readonly string[]>>;
    readonly positions: readonly { readonly at: Readonly<Record<string, string>>; readonly want: string }[];
    readonly quiet: boolean;
  };
  readonly expected: {
    readonly feasible: boolean;
    readonly wires?: number | null;
    readonly smallestCores?: readonly (readonly number[])[];
    readonly polesNeeded?: number;
  };
}

const cases: readonly SynthesisCase[] = JSON.parse(
  readFileSync(new URL('./synthesis-cases.json', import.meta.url), 'utf8'),
).synthesis;

/** More than any of these cases takes. */
const SEARCHES = 1_000_000;
/** As the command line has. */
const FEW_SEARCHES = 15_000;

interface Task {
  readonly rig: Rig;
  readonly problem: WiringProblem;
  readonly leads: readonly string[];
  readonly lugs: readonly string[];
  readonly wanted: readonly (Folded | undefined)[];
}

function taskOf(
  rig: Rig,
  asked: readonly { readonly state: readonly number[]; readonly network: Folded | undefined }[],
  isQuiet: boolean,
): Task {
  const leads = [...new Set(['hot', 'ground', ...rig.elements.flatMap(({ ends }) => ends)])];
  const lugs = rig.switches.flatMap(({ slot, contacts }) => contacts.lugs.map((lug) => `${slot}.${lug}`));
  const states = asked.map(({ state, network }) => ({
    closed: closedIn(rig, state).map((group) => group.map((lug) => lugs.indexOf(lug))),
    ...wantedNets(network, rig.elements, (end) => leads.indexOf(end)),
  }));
  const alike = rig.switches.flatMap(({ slot, contacts }) =>
    alikePoles(contacts).map((commons) => commons.map((lug) => lugs.indexOf(`${slot}.${lug}`))),
  );
  const problem = { leads: leads.length, lugs: lugs.length, states, sealed: [], isQuiet, alike };
  return { rig, problem, leads, lugs, wanted: asked.map(({ network }) => network) };
}

function caseTask({ given }: SynthesisCase): Task {
  const element =
    (isCoil: boolean) =>
    ([name, ends]: [string, readonly [string, string]]) => ({ name, isCoil, ends });
  const rig: Rig = {
    switches: Object.entries(given.switches).map(([slot, contacts]) => ({ slot, contacts })),
    elements: [...Object.entries(given.coils).map(element(true)), ...Object.entries(given.parts).map(element(false))],
    fixed: [],
    links: [],
  };
  const asked = given.positions.map(({ at, want }) => ({
    state: stateAt(rig, at),
    network: want === 'off' ? undefined : read(want, given),
  }));
  return taskOf(rig, asked, given.quiet);
}

/** The selector's words once more: `series` binds tighter than `parallel`. */
function read(want: string, { wholes, coils, parts }: SynthesisCase['given']): Folded {
  const words = want.replace(/[()]/g, ' $& ').trim().split(/\s+/);
  const element = (name: string): Folded => ({
    kind: 'element',
    name: name in coils || name in parts ? name : `${name}.main`,
    turned: false,
  });
  const one = (): Folded => {
    const word = words.shift() ?? '';
    if (word === 'reversed') return turned(one());
    if (word === '(') {
      const inner = rows();
      words.shift();
      return inner;
    }
    const whole = wholes[word];
    return whole ? joined('series', whole.map(element)) : element(word);
  };
  const several = (kind: 'series' | 'parallel', part: () => Folded): Folded => {
    const of = [part()];
    while (words[0] === kind) {
      words.shift();
      of.push(part());
    }
    return joined(kind, of);
  };
  const rows = (): Folded => several('parallel', () => several('series', one));
  return rows();
}

/** What is planned, as nets of a rig. */
const linksOf = ({ leads, lugs }: Task, { nets }: LeastWiring): Nets =>
  nets.map((net) => [...net.leads.map((lead) => leads[lead] ?? ''), ...net.lugs.map((lug) => lugs[lug] ?? '')]);

/** Every wanted state does what is asked of it; and where it shall be quiet, no dead coil hangs on what is heard by one end. */
function assertDoes(task: Task, wiring: LeastWiring, states: readonly (readonly number[])[]): void {
  const links = linksOf(task, wiring);
  assert.equal(
    wiring.wires,
    links.reduce((sum, net) => sum + net.length - 1, 0),
  );
  assert.equal(new Set(links.flat()).size, links.flat().length, 'a terminal in two nets');
  const numbered = numberedRig({ ...task.rig, links });
  states.forEach((state, index) => {
    const { text, fault, dead } = meaningIn(numbered, state);
    const network = task.wanted[index];
    assert.equal(network ? text : fault, network ? textOf(network, task.rig.elements) : 'open');
    if (!task.problem.isQuiet) return;
    for (const { closed, on } of dead.values())
      assert.ok(!(closed === 'open' && (on === 'hot' || on === 'link')), `${state}: a coil hangs ${closed} on ${on}`);
  });
}

describe('the wiring with the fewest wires', () => {
  it('has the problems of the cases in the order that it reads them in', () => {
    assert.deepEqual([HOT_LEAD, GROUND_LEAD], [0, 1]);
    assert.ok(cases.length >= 26);
  });

  for (const each of cases) {
    const { expected, given } = each;
    it(`${each.id} ${each.title}: ${expected.feasible ? `${expected.wires} wires` : 'impossible'}`, () => {
      const task = caseTask(each);
      const { wiring, isProven } = finished(leastWiring(task.problem, new Budget(SEARCHES)));
      assert.ok(isProven);
      assert.equal(wiring?.wires, expected.wires ?? undefined);
      if (wiring)
        assertDoes(
          task,
          wiring,
          given.positions.map(({ at }) => stateAt(task.rig, at)),
        );
      if (expected.feasible) return;
      const clashes = finished(smallestClashes(task.problem, new Budget(SEARCHES))).map((some) =>
        some.map((index) => index + 1),
      );
      const sorted = (sets: readonly (readonly number[])[]) => sets.map((set) => set.join(' ')).sort();
      assert.deepEqual(sorted(clashes), sorted(expected.smallestCores ?? []));
      assert.equal(finished(polesNeeded(task.problem, new Budget(SEARCHES))), expected.polesNeeded);
    });
  }

  it('says nothing of clashes and poles that it had no time to prove', () => {
    const [impossible] = cases.filter(({ expected }) => !expected.feasible);
    assert.ok(impossible);
    const { problem } = caseTask(impossible);
    assert.deepEqual(finished(smallestClashes(problem, new Budget(0))), []);
    assert.equal(finished(polesNeeded(problem, new Budget(0))), undefined);
    assert.deepEqual(finished(leastWiring(problem, new Budget(0))), { wiring: undefined, isProven: false });
  });

  /** `SWITCH_ROUNDS=20` for many. */
  const ROUNDS = Number(process.env.SWITCH_ROUNDS ?? 1);

  /** What a wiring does in its first states made wanted: some wiring is found that does it with no more wires. */
  function planAgain(id: string, made: Rig): boolean {
    const numbered = numberedRig(made);
    const wanted = statesOf(made)
      .slice(0, 6)
      .flatMap((state) => {
        const { network } = meaningIn(numbered, state);
        return network ? [{ state, network }] : [];
      });
    if (wanted.length === 0) return false;
    const task = taskOf({ ...made, links: [] }, wanted, false);
    const { wiring } = finished(leastWiring(task.problem, new Budget(FEW_SEARCHES)));
    const wires = made.links.reduce((sum, net) => sum + net.length - 1, 0);
    assert.ok(wiring && wiring.wires <= wires, `${id}: ${wiring?.wires} wires, where ${wires} did it`);
    assertDoes(
      task,
      wiring,
      wanted.map(({ state }) => state),
    );
    return true;
  }

  it('of what a wiring made by chance does, takes no more wires than that one', () => {
    const next = uniform(20_268);
    let asked = 0;
    for (const each of analysisCases)
      for (let round = 0; round < 2 * ROUNDS; round++) {
        const rig = rigOf(each);
        const links: string[][] = Array.from({ length: 4 + Math.floor(3 * next()) }, () => []);
        for (const terminal of numberedRig(rig).terminals)
          if (next() < 0.8) links[Math.floor(next() * links.length)]?.push(terminal);
        if (links.some((net) => net.includes('hot') && net.includes('ground'))) continue;
        if (planAgain(each.id, { ...rig, links: links.filter((net) => net.length > 1) })) asked += 1;
      }
    assert.ok(asked > 5, `${asked}`);
  });

  it('of what a wiring of the cases does with one end moved by chance, takes no more wires than that one', () => {
    const next = uniform(20_269);
    let asked = 0;
    for (const each of analysisCases)
      for (let round = 0; round < ROUNDS; round++) {
        const rig = rigOf(each);
        const all = movableIn(rig);
        const pick = () => all[Math.floor(next() * all.length)] ?? '';
        const [terminal, to] = [pick(), pick()];
        const isMoved = round > 0 && terminal !== to;
        const links = isMoved ? changed(rig.links, { kind: 'move', terminal, to: [to] }) : rig.links;
        if (planAgain(each.id, { ...rig, links })) asked += 1;
      }
    assert.ok(asked > 20, `${asked}`);
  });
});
