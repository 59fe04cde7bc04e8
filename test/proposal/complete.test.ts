/**
 * Small shelves searched by brute force: every bobbin with every spool, every count of turns. Nothing of that is nearer to the target at no
 * greater cost than what is proposed. Resistance and resonance of each count come from whole analyses at nine counts, cubic in the
 * logarithms between them. A few shelves here; SHELVES=40 for as many.
 */
import assert from 'node:assert/strict';
import { deviationOf } from '../../server/src/estimates/aims.ts';
import { proposeBuilds } from '../../server/src/proposal/propose.ts';
import { chance } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';
import { type SeededBuild, seededBuild, seededSpec } from '../support/seeded-shelf.ts';

const COUNT = Number(process.env.SHELVES ?? 3);

/** Tolerances of both numbers, relative. */
const TOLERANCE = 0.04;
/** What counts as nearer: a little more than the quarter of a tolerance that builds are told apart by. */
const NEARER = 0.3;

interface Wanted {
  readonly ohm: number;
  readonly hz: number;
}

interface Wound {
  readonly turns: number;
  readonly ohm: number;
  readonly hz: number | undefined;
  readonly filled: number;
  /** Wire of all coils. */
  readonly kg: number;
}

const without = (build: SeededBuild, bobbin: string, spool: string, turns: number): SeededBuild => ({
  ...build,
  magnet: build.magnets[0],
  coils: build.coils.map((coil) => ({ ...coil, bobbin, spool, turns })),
});

/** As a whole analysis has it. */
function wound(build: SeededBuild): Wound {
  const [pickup] = analyse(seededSpec(build, { target: '', without: {} })).pickups;
  assert.ok(pickup);
  const { resistance20COhm, resonanceHz } = pickup.estimates();
  const coils = build.coils.map(({ name }) => pickup.quick.coils.get(name));
  return {
    turns: build.coils[0]?.turns ?? 0,
    ohm: resistance20COhm?.value ?? Number.NaN,
    hz: resonanceHz?.value,
    filled: Math.max(...coils.map((coil) => coil?.windowFilled?.value ?? 0)),
    kg: coils.reduce((sum, coil) => sum + (coil?.wireMassKg?.value ?? 0), 0),
  };
}

const GRID = Array.from({ length: 9 }, (_, index) => Math.round(2200 * 1.24 ** index));

/** Cubic through the four points about it, in logarithms. */
function between(
  points: readonly Wound[],
  turns: number,
  of: (point: Wound) => number | undefined,
): number | undefined {
  const at = Math.min(points.length - 3, Math.max(1, points.findIndex((point) => point.turns > turns) - 1));
  const near = points.slice(at - 1, at + 3).map((point) => ({ x: Math.log(point.turns), y: of(point) }));
  if (near.some(({ y }) => y === undefined)) return undefined;
  const x = Math.log(turns);
  return Math.exp(
    near.reduce(
      (sum, one) =>
        sum +
        near.reduce(
          (term, other) => (other === one ? term : (term * (x - other.x)) / (one.x - other.x)),
          Math.log(one.y ?? 1),
        ),
      0,
    ),
  );
}

const off = ({ ohm, hz }: Wanted, wound: { readonly ohm: number; readonly hz: number | undefined }): number =>
  wound.hz === undefined
    ? Number.POSITIVE_INFINITY
    : Math.sqrt((((wound.ohm / ohm - 1) / TOLERANCE) ** 2 + ((wound.hz / hz - 1) / TOLERANCE) ** 2) / 2);

describe('what is proposed, against every bobbin, spool and count of turns', () => {
  for (let seed = 1; seed <= COUNT; seed++)
    it(`${seed}: nothing is nearer at no greater cost`, () => {
      const by = chance(900 + seed);
      const build = seededBuild(500 + seed, { bobbins: 2, spools: 2 });
      const own = wound({ ...build, magnet: build.magnets[0] });
      const wanted: Wanted = {
        ohm: own.ohm * (0.85 + by.whole(300) / 1000),
        hz: (own.hz ?? 4000) * (0.85 + by.whole(300) / 1000),
      };
      const tolerance = 100 * TOLERANCE;
      const target = `    resistance ${wanted.ohm.toFixed(2)} ohm ± ${tolerance} %\n    resonance ${wanted.hz.toFixed(2)} Hz ± ${tolerance} %\n`;
      const analysis = analyse(
        seededSpec(build, { target, without: { turns: true, wire: true, bobbin: true, magnet: true } }),
      );
      const [pickup] = analysis.pickups;
      assert.ok(pickup);
      const proposal = proposeBuilds(analysis, pickup);
      assert.ok(typeof proposal !== 'string', String(proposal));
      const proposed = proposal.builds.map((each) => ({
        off: Math.sqrt(
          each.judged.reduce((sum, { aim, reached }) => sum + deviationOf(aim, reached?.value) ** 2, 0) /
            each.judged.length,
        ),
        kg: each.build.coils.reduce(
          (sum, { opening }) => sum + (each.pickup.quick.coils.get(opening.coil.name)?.wireMassKg?.value ?? 0),
          0,
        ),
        buys: each.cost.buys,
      }));
      const nearest = Math.min(...proposed.filter(({ buys }) => buys === 0).map((each) => each.off));
      for (const bobbin of build.bobbins)
        for (const spool of build.spools) {
          const points = GRID.map((turns) => wound(without(build, bobbin, spool, turns)));
          for (let turns = GRID[0] ?? 0; turns <= (GRID.at(-1) ?? 0); turns++) {
            const of = (pick: (point: Wound) => number | undefined) => between(points, turns, pick);
            const [ohm, hz, filled, kg] = [of((p) => p.ohm), of((p) => p.hz), of((p) => p.filled), of((p) => p.kg)];
            if (ohm === undefined || filled === undefined || kg === undefined || filled > 1) continue;
            const distance = off(wanted, { ohm, hz });
            const what = `${bobbin}, ${spool}, ${turns} turns: ${distance.toFixed(2)} with ${kg.toFixed(4)} kg; ${JSON.stringify(proposed)}`;
            if (nearest < Number.POSITIVE_INFINITY) assert.ok(distance > nearest - NEARER, what);
            // What would have to be bought is proposed alone only where nothing at hand reaches the target.
            else assert.ok(distance > 0.7, what);
            for (const each of proposed)
              if (each.buys === 0) assert.ok(distance > each.off - NEARER || kg > each.kg * 0.98, what);
          }
        }
    });
});
