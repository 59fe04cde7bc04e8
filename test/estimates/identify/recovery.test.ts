/** Leads of random pickups from what a bench reads of them: never a claim that is wrong, and all of them where enough is read. */
import assert from 'node:assert/strict';
import { quickOf } from '../../../server/src/analysis/pickup-analysis.ts';
import { type Identification, identifyLeads } from '../../../server/src/estimates/identify/identify.ts';
import { type Chance, chance } from '../../support/chance.ts';
import { declaredIn } from '../../support/check-fixture.ts';
import { thorough } from '../../support/thorough.ts';
import {
  foundText,
  kindOf,
  pairsOf,
  readKick,
  readResistance,
  type Told,
  type TruePickup,
  truePickup,
} from './simulated-bench.ts';

const PICKUPS = thorough(120);
const PARTLY_READ = thorough(60);
/** A pickup takes some hundredths of a second: two specs are read and solved. */
const TIMEOUT_MS = 300_000;

interface Bench {
  readonly pickup: TruePickup;
  readonly told: readonly Omit<Told, 'ends'>[];
  readonly lines: readonly string[];
}

describe('leads from readings', () => {
  it(`recovers the leads of ${PICKUPS} random pickups from their simulated readings`, () => {
    const kinds = new Map<string, number>();
    for (let seed = 0; seed < PICKUPS; seed++) {
      const by = chance(seed);
      const kind = kindOf(by);
      const pickup = truePickup(by, kind);
      const bench = everythingRead(pickup, by);
      const found = identify(bench);
      assert.deepEqual(found.contradicts, [], words(seed, bench));
      for (const coil of pickup.coils) {
        const each = found.coils.find((one) => one.coil.name === coil.name);
        assert.deepEqual([each?.start, each?.finish], [coil.start, coil.finish], words(seed, bench));
      }
      assert.equal(found.next?.text, undefined, words(seed, bench));
      for (const [name, value] of Object.entries(kind)) if (value === true) kinds.set(name, (kinds.get(name) ?? 0) + 1);
    }
    for (const name of ['spare', 'tapped', 'onShield', 'equalTurns'])
      assert.ok((kinds.get(name) ?? 0) > 5, `few pickups that are ${name}`);
  }).timeout(TIMEOUT_MS);

  it('claims nothing that is wrong, whatever is left unread', () => {
    let [claimed, open] = [0, 0];
    for (let seed = 0; seed < PARTLY_READ; seed++) {
      const by = chance(10_000 + seed);
      const bench = partlyRead(truePickup(by, kindOf(by)), by);
      const found = identify(bench);
      assert.deepEqual(found.contradicts, [], words(seed, bench));
      for (const coil of bench.pickup.coils) {
        const each = found.coils.find((one) => one.coil.name === coil.name);
        if (each?.leads) {
          claimed += 1;
          assert.deepEqual([...each.leads].sort(), [coil.start, coil.finish].sort(), words(seed, bench));
          if (each.leads[0] === coil.start && each.windIfFirstIsStart)
            assert.equal(each.windIfFirstIsStart, coil.wound, words(seed, bench));
        } else open += 1;
        if (each?.start !== undefined) assert.equal(each.start, coil.start, words(seed, bench));
        if (each?.finish !== undefined) assert.equal(each.finish, coil.finish, words(seed, bench));
      }
    }
    assert.ok(claimed > 15 && open > 15, `${claimed} coils claimed, ${open} left open`);
  }).timeout(TIMEOUT_MS);

  it('names the measurement that settles the rest, and taken, it does', () => {
    let taken = 0;
    for (let seed = 0; seed < PARTLY_READ; seed++) {
      const by = chance(20_000 + seed);
      const bench = partlyRead(truePickup(by, kindOf(by)), by);
      const { next } = identify(bench);
      if (!next?.settles) continue;
      taken += 1;
      const after = identify(measured(bench, next, by));
      assert.equal(after.next?.text, undefined, `${next.text}\n${words(seed, bench)}`);
    }
    assert.ok(taken > 6, `${taken} taken`);
  }).timeout(TIMEOUT_MS);
});

function identify({ pickup, told, lines }: Bench): Identification {
  const { model, bench } = declaredIn(foundText(pickup, told, lines));
  const [found] = model.pickups;
  assert.ok(found);
  return identifyLeads(quickOf(bench)(found), bench);
}

/** Every pair of leads, and a kick at every coil. The poles are stated or shown by a compass. */
function everythingRead(pickup: TruePickup, by: Chance): Bench {
  const told = pickup.coils.map(() => ({ turns: by.whole(2) === 0, wound: true, poles: by.whole(2) === 0 }));
  const compasses = pickup.coils.flatMap((coil, index) =>
    told[index]?.poles ? [] : [`compass ${coil.name} ${coil.poles}`],
  );
  const resistances = pairsOf(pickup.points).map(([a, b]) => readResistance(pickup, a, b, by));
  const kicks = pickup.coils.map((coil) => kickAt(pickup, coil, by));
  return { pickup, told, lines: [...resistances, ...kicks, ...compasses] };
}

function kickAt(pickup: TruePickup, coil: TruePickup['coils'][number], by: Chance): string {
  const [red, black] = by.pick([
    [coil.start, coil.finish],
    [coil.finish, coil.start],
  ]);
  return readKick(pickup, red, black, coil, by) ?? '';
}

/** Some of it: pairs unread, kicks not taken, wind and poles nobody saw. */
function partlyRead(pickup: TruePickup, by: Chance): Bench {
  const told = pickup.coils.map(() => ({
    turns: by.whole(3) === 0,
    wound: by.whole(2) === 0,
    poles: by.whole(2) === 0,
  }));
  const share = by.pick([1, 2, 4]);
  return {
    pickup,
    told,
    lines: [
      ...pairsOf(pickup.points).flatMap(([a, b]) => (by.whole(4) < share ? [readResistance(pickup, a, b, by)] : [])),
      ...pickup.coils.flatMap((coil) => (by.whole(3) > 0 ? [kickAt(pickup, coil, by)] : [])),
      ...pickup.coils.flatMap((coil) => (by.whole(3) === 0 ? [`compass ${coil.name} ${coil.poles}`] : [])),
    ],
  };
}

/** The bench after one more measurement, as its words ask for it. */
function measured(bench: Bench, { measurement, text }: NonNullable<Identification['next']>, by: Chance): Bench {
  const { pickup, lines, told } = bench;
  if (measurement.kind === 'resistance') {
    const [, a = '', b = ''] = /`(\S+) to (\S+)`/.exec(text) ?? [];
    return { ...bench, lines: [...lines, readResistance(pickup, a, b, by)] };
  }
  const coil = pickup.coils.find(({ name }) => name === measurement.coil.name);
  assert.ok(coil);
  switch (measurement.kind) {
    case 'compass':
      return { ...bench, lines: [...lines, `compass ${coil.name} ${coil.poles}`] };
    case 'wind':
      return {
        ...bench,
        told: told.map((each, index) => (pickup.coils[index] === coil ? { ...each, wound: true } : each)),
      };
    case 'kick': {
      const kicking = pairsOf(pickup.points).flatMap(([a, b]) => readKick(pickup, a, b, coil, by) ?? []);
      const asked = [...text.matchAll(/`(\S+ to \S+)`/g)].map(([, pair]) => pair ?? '');
      const first = asked.flatMap((pair) => kicking.filter((line) => line.startsWith(`kick ${pair} `)))[0];
      return { ...bench, lines: [...lines, first ?? kicking[0] ?? ''] };
    }
  }
}

const words = (seed: number, { pickup, lines }: Bench): string =>
  `seed ${seed}\n${pickup.coils.map((coil) => JSON.stringify(coil)).join('\n')}\n${lines.join('\n')}`;
