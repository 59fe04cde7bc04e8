/**
 * Builds made by chance are computed, their numbers made targets, and their turns, wire, bobbin or magnet left out: what is proposed
 * holds the original, or one that beats it. A few here; PROPOSALS=200 for as many.
 */
import assert from 'node:assert/strict';
import { deviationOf } from '../../server/src/estimates/aims.ts';
import { type ProposedBuild, proposeBuilds } from '../../server/src/proposal/propose.ts';
import { chance } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';
import { type SeededBuild, seededBuild, seededSpec } from '../support/seeded-shelf.ts';

const COUNT = Number(process.env.PROPOSALS ?? 20);

/** What is left out, by turns. */
const OPENINGS = [
  { turns: true },
  { turns: true, wire: true },
  { turns: true, wire: true, magnet: true },
  { turns: true, bobbin: true },
  { turns: true, wire: true, bobbin: true, magnet: true },
] as const;

/** With as many turns as its windows hold. */
function fitting(build: SeededBuild): SeededBuild {
  const [pickup] = analyse(seededSpec(build, { target: '', without: {} })).pickups;
  const filled = Math.max(...build.coils.map(({ name }) => pickup?.quick.coils.get(name)?.windowFilled?.value ?? 0));
  if (filled <= 0.98) return build;
  return {
    ...build,
    coils: build.coils.map((coil) => ({ ...coil, turns: 10 * Math.floor((coil.turns * 0.095) / filled) })),
  };
}

const number = (value: number, digits = 6) => value.toPrecision(digits);

/** The numbers of the build as targets of some kinds. */
function targetOf(build: SeededBuild, seed: number): string {
  const [pickup] = analyse(seededSpec(build, { target: '', without: {} })).pickups;
  const { resistance20COhm, inductanceH, resonanceHz } = pickup?.estimates() ?? {};
  assert.ok(resistance20COhm && inductanceH && resonanceHz);
  const lines = [
    `    resistance ${number(resistance20COhm.value)} ohm ± 3 %\n`,
    `    resonance ${number(resonanceHz.value)} Hz ± 3 % loaded\n`,
    `    inductance ${number(inductanceH.value)} H ± 4 %\n`,
  ];
  const by = chance(seed);
  const first = by.whole(3);
  return by.whole(3) === 0 ? (lines[first] ?? '') : `${lines[first] ?? ''}${lines[(first + 1) % 3] ?? ''}`;
}

const distance = ({ judged }: ProposedBuild): number =>
  Math.max(...judged.map(({ aim, reached }) => Math.abs(deviationOf(aim, reached?.value))));

describe('what is proposed for the numbers of a build', () => {
  for (let seed = 1; seed <= COUNT; seed++) {
    const build = fitting(seededBuild(seed));
    const without = OPENINGS[seed % OPENINGS.length] ?? OPENINGS[0];
    it(`${seed}: without ${Object.keys(without).join(', ')}: holds it, or one that beats it`, () => {
      const analysis = analyse(seededSpec(build, { target: targetOf(build, seed), without }));
      const [pickup] = analysis.pickups;
      assert.ok(pickup);
      const proposal = proposeBuilds(analysis, pickup);
      assert.ok(typeof proposal !== 'string', String(proposal));
      // Wire of the original: the coils' own mass by the same text with nothing left out.
      const [whole] = analyse(seededSpec(build, { target: '', without: {} })).pickups;
      const ownKg = build.coils.reduce(
        (sum, { name }) => sum + (whole?.quick.coils.get(name)?.wireMassKg?.value ?? 0),
        0,
      );
      const isAsGood = (each: ProposedBuild): boolean => {
        const kg = each.build.coils.reduce(
          (sum, { opening }) => sum + (each.pickup.quick.coils.get(opening.coil.name)?.wireMassKg?.value ?? 0),
          0,
        );
        return distance(each) < 0.3 && each.cost.buys === 0 && kg <= ownKg * 1.02;
      };
      assert.ok(
        proposal.builds.some(isAsGood),
        JSON.stringify(
          proposal.builds.map((each) => [
            each.build.coils.map(({ bobbin, spool, turns }) => [bobbin.name, spool?.name, turns]),
            distance(each),
            each.cost,
          ]),
        ) + JSON.stringify([build.coils, ownKg * 1.1]),
      );
    });
  }
});
