/**
 * Standard deviations against seeded Monte Carlo runs (JCGM 101:2008) of the whole way from the inputs to the number, each input drawn
 * by itself; and what common causes do to sums and differences (JCGM 100:2008, 5.2).
 */
import assert from 'node:assert/strict';
import { NO_SCALING, type Scaling } from '../../server/src/estimates/electric.ts';
import { DEFAULT_LOAD, pickupResponse, responseCauses } from '../../server/src/estimates/pickup-estimates.ts';
import {
  FILL_PERMITTIVITY,
  USUAL_CLEARANCE,
  USUAL_TURNS_PER_PASS,
  windingCapacitanceF,
} from '../../server/src/physics/capacitance.ts';
import { turnsOfResistance, type Winding, windCoil } from '../../server/src/physics/coil-geometry.ts';
import { inductancePerTurnSquaredH } from '../../server/src/physics/inductance.ts';
import { racetrackOfCore } from '../../server/src/physics/racetrack.ts';
import { difference, sum } from '../../server/src/quantities/estimate.ts';
import { uniform } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';
import { correlation } from '../support/correlation.ts';
import { monteCarlo, monteCarloOfAll } from '../support/monte-carlo.ts';
import { ALONE, HUM_CANCELLING, pickupText, plainBobbin, plainPickup, read } from '../support/shop.ts';
import { coilOf, known, near, pickupOf, quickOfText } from './spec-text.ts';

/** Errors of a spec that states no ± of its own: as the reference of the language lists them. */
const PACKING = { name: 'packing', value: 0.66, sd: 0.02 } as const;
const OVERALL = { name: 'overall', value: 0.07e-3, sd: 1e-6 } as const;
const OUTLINE = { name: 'outline', value: 1, sd: 0.005 } as const;
const SPOOL = { name: 'spool', value: 5.52, sd: 5.52 * Math.hypot(0.005, 0.5 * 0.00393) } as const;

const SHELF =
  'wire reel-wire {\n  gauge 42 AWG\n  overall 0.07 mm\n}\nspool R1 {\n  wire reel-wire\n  measures 5.52 ohm/m at 20 degC\n}\n';
const fromSpool = (facts: string) => `    spool R1\n    packing 0.66\n${facts}`;
const text = (facts: string, readings = '') =>
  pickupText([{ coreMm: [63, 5.6], heightMm: 7.2, facts: fromSpool(facts) }], {
    hookup: ALONE,
    readings,
    bench: SHELF,
  }).replace('    wire w1\n', '');

const winding = ({ packing, overall, outline }: { packing: number; overall: number; outline: number }): Winding => ({
  core: racetrackOfCore({ lengthM: 63e-3 * outline, widthM: 5.6e-3 * outline }),
  heightM: 7.2e-3,
  overallDiameterM: overall,
  laying: { kind: 'scatter', packing },
});

describe('standard deviations against a seeded Monte Carlo run', () => {
  it('resistance of 5,000 ± 20 turns from a measured spool (10,000 draws; 3 %)', () => {
    const drawn = monteCarlo(
      (v) => windCoil(winding(v), v.turns).wireLengthM * v.spool,
      [PACKING, OVERALL, OUTLINE, SPOOL, { name: 'turns', value: 5000, sd: 20 }],
      { samples: 10_000, seed: 1 },
    );
    const ohm = known(coilOf(pickupOf(text('    turns 5000 ± 20'))).resistance20COhm);
    near(ohm.sd, drawn.sd, 0.03, 'sd');
    near(ohm.value, drawn.mean, 0.001, 'mean');
  });

  it('turns inferred from a reading: packing, wire, spool and meter (10,000 draws; 3 %)', () => {
    // 1 % + 3 digits of 10 ohm are limits: over the root of three. A stated temperature is good to half a kelvin.
    const sd = Math.hypot((0.01 * 4050) / Math.sqrt(3), 30 / Math.sqrt(3), 4050 * 0.00393 * 0.5);
    const drawn = monteCarlo(
      (v) => turnsOfResistance(winding(v), { resistanceAt20COhm: v.reading, ohmPerM: v.spool }).turns,
      [PACKING, OVERALL, OUTLINE, SPOOL, { name: 'reading', value: 4050, sd }],
      { samples: 10_000, seed: 2 },
    );
    const pickup = pickupOf(text('', '  readings "kept" {\n    c1 4.05 kohm at 20 degC\n  }\n'));
    const turns = known(coilOf(pickup).turns);
    near(turns.sd, drawn.sd, 0.03, 'sd');
    near(turns.value, drawn.mean, 0.001, 'mean');
  });

  it('air-core inductance through the build (250 draws of the integral itself; 12 %, twice the error of such a run)', () => {
    const drawn = monteCarlo(
      ({ scale, ...v }) => {
        const { buildM } = windCoil(winding({ ...v, outline: 1 }), 5000);
        return (
          scale *
          5000 ** 2 *
          inductancePerTurnSquaredH({ core: winding({ ...v, outline: 1 }).core, buildM, heightM: 7.2e-3 })
        );
      },
      [PACKING, OVERALL, { name: 'scale', value: 1, sd: 0.01 }],
      { samples: 250, seed: 3 },
    );
    const henry = known(coilOf(pickupOf(text('    turns 5000'))).inductanceAirH);
    near(henry.sd, drawn.sd, 0.12, 'sd');
    near(henry.value, drawn.mean, 0.005, 'mean');
  });

  it('resonance and peak under the usual load (400 draws; 12 % and 15 %)', () => {
    const facts = text('    turns 5000');
    const quick = quickOfText(facts);
    const [resistance, inductance, capacitance, losses, screening, loudness, tracks, capacitors] = responseCauses(
      quick,
      DEFAULT_LOAD,
    );
    assert.equal(known(loudness).sd, 0, 'the turns are known');
    const drawn = monteCarloOfAll(
      (v) => peakOf(quick, v),
      [
        { name: 'resistance', value: 1, sd: known(resistance).sd },
        { name: 'inductance', value: 1, sd: known(inductance).sd },
        { name: 'capacitance', value: 1, sd: known(capacitance).sd },
        { name: 'losses', value: 1, sd: known(losses).sd },
        { name: 'screening', value: 1, sd: known(screening).sd },
        { name: 'tracks', value: 1, sd: known(tracks).sd },
        { name: 'capacitors', value: 1, sd: known(capacitors).sd },
      ],
      { samples: 400, seed: 4 },
    );
    const { resonanceHz, peakDb } = pickupOf(facts).estimates();
    near(known(resonanceHz).sd, drawn.hz.sd, 0.12, 'sd of the resonance');
    near(known(peakDb).sd, drawn.db.sd, 0.15, 'sd of the peak');
  });
});

function peakOf(quick: ReturnType<typeof quickOfText>, scaling: Partial<Scaling>) {
  const response = pickupResponse(quick, undefined, { ...NO_SCALING, ...scaling });
  assert.ok(response);
  const { frequencyHz, levelDb } = response;
  const top = levelDb.reduce((best, level, index) => (level > (levelDb[best] ?? level) ? index : best), 0);
  // The vertex of the parabola through the highest point and its neighbours: 500 points leave 1.4 % between them.
  const [a = 0, b = 0, c = 0] = [levelDb[top - 1], levelDb[top], levelDb[top + 1]];
  const shift = (a - c) / (2 * (a - 2 * b + c));
  const ratio = (frequencyHz[top + 1] ?? 1) / (frequencyHz[top] ?? 1);
  return { hz: (frequencyHz[top] ?? 0) * ratio ** shift, db: b - (a - c) * (shift / 4) - (levelDb[0] ?? 0) };
}

describe('what two coils have in common', () => {
  const shelf = `${SHELF}${SHELF.slice(SHELF.indexOf('spool')).replace('R1', 'R2')}`;
  const pair = (readings = '', second = 'R1') =>
    pickupOf(
      pickupText(
        ['R1', second].map((spool) => ({ facts: `    spool ${spool}\n    packing 0.66 ± 0\n    turns 5000` })),
        { hookup: HUM_CANCELLING, readings, bench: shelf },
      ).replace(/ {4}wire w\d\n/g, ''),
    );
  const ohms = (pickup: ReturnType<typeof pair>) =>
    [known(coilOf(pickup, 'c1').resistance20COhm), known(coilOf(pickup, 'c2').resistance20COhm)] as const;
  /** Part of an sd that one named cause makes. */
  const share = (estimate: { readonly sources?: Readonly<Record<string, number>> }, cause: string) =>
    Math.abs(estimate.sources?.[cause] ?? 0);

  it('one spool: its part of the sum doubles, its part of the difference is nothing', () => {
    const [a, b] = ohms(pair());
    near(share(sum(a, b), 'spool R1'), 2 * share(a, 'spool R1'), 1e-9);
    assert.ok(share(difference(a, b), 'spool R1') < 1e-9 * share(a, 'spool R1'));
    // The spool is 0.54 % of each, geometry little: the pair is known no better, in per cent, than one coil of it.
    assert.ok(correlation(a, b) > 0.5, `correlation ${correlation(a, b)}`);
    assert.ok(difference(a, b).sd < 0.7 * a.sd * Math.SQRT2);
  });

  it('two spools: their errors are independent', () => {
    const [a, b] = ohms(pair('', 'R2'));
    assert.equal(share(a, 'spool R2'), 0);
    near(share(b, 'spool R2'), share(a, 'spool R1'), 1e-9);
    assert.ok(Math.abs(correlation(a, b)) < 0.2, `correlation ${correlation(a, b)}`);
  });

  it('hot to ground of coils of one spool has the sd of their sum', () => {
    const pickup = pair();
    const [a, b] = ohms(pickup);
    near(known(pickup.estimates().resistance20COhm).sd, sum(a, b).sd, 1e-9);
  });

  it('one meter: its scale is common to both readings', () => {
    const readings = '  readings "bench" {\n    c1 4.05 kohm at 20 degC\n    c2 4.05 kohm at 20 degC\n  }\n';
    const [a, b] = ohms(pair(readings));
    near(share(sum(a, b), 'the meter'), 2 * share(a, 'the meter'), 1e-9);
    assert.ok(difference(a, b).sd < a.sd);
    // 1 % limit of 4.05 kohm over the root of three.
    near(share(a, 'the meter'), 40.5 / Math.sqrt(3), 1e-6);
  });

  it('a room that nobody noted is common to both, a noted temperature is not', () => {
    const at = (words: string) =>
      ohms(pair(`  readings "bench" {\n    c1 4.05 kohm${words}\n    c2 4.05 kohm${words}\n  }\n`))[0];
    assert.ok(share(at(''), 'temperature of the room') > 0);
    assert.equal(share(at(' at 20 degC'), 'temperature of the room'), 0);
    assert.ok(at('').sd > at(' at 20 degC').sd);
  });
});

describe('numbers of whole specs against draws of what their facts are not known to', () => {
  /** A coil of 44 AWG read with a meter, behind pots that are sold within ± 20 %. */
  const spec = (ohm: number, potOhm: number) => `wire w {
  gauge 44 AWG
}
${plainBobbin('  poles 6 spread 50 mm\n  pole rod alnico-5 4.8 x 16 mm\n')}${plainPickup({ readings: read(`${ohm / 1e3} kohm`) })}instrument i {
  pickup neck p at 160 mm
  controls {
    volume ${potOhm / 1e3} kohm audio
  }
  selector {
    1 "n" neck
  }
}
`;

  it('resistance at the jack, pots drawn evenly within their limits (10,000 draws; 0.8 to 1.3 of the scatter)', () => {
    const position = analyse(spec(17_000, 250_000)).instruments[0]?.positions()[0];
    const told = known(position?.resistanceOhm ?? undefined);
    // 1 % + 3 digits of 10 ohm are limits of the meter, ± 20 % of the pot; a stated temperature is good to half a kelvin.
    const readSd = Math.hypot((0.01 * 17_000) / Math.sqrt(3), 30 / Math.sqrt(3), 17_000 * 0.00393 * 0.5);
    const chance = uniform(7);
    const drawn = monteCarlo(
      ({ read }) => {
        const pot = 250_000 * (1 + 0.2 * (2 * chance() - 1));
        return (read * pot) / (read + pot);
      },
      [{ name: 'read', value: 17_000, sd: readSd }],
      { samples: 10_000, seed: 8 },
    );
    near(told.value, drawn.mean, 0.005, 'mean');
    const share = told.sd / drawn.sd;
    assert.ok(share > 0.8 && share < 1.3, `± ${told.sd} against ${drawn.sd}`);
  });

  it('resonance and peak of a position, both pots and the cable drawn (300 draws; 0.8 to 1.3 of the scatter)', () => {
    const heard = (volumeOhm: number, toneOhm: number, cable: string) => {
      const text = spec(6_000, 250_000)
        .replace(
          /volume .*/,
          `volume ${volumeOhm.toFixed(0)} ohm audio\n    tone ${toneOhm.toFixed(0)} ohm audio with 22 nF`,
        )
        .replace('  selector', `${cable}  selector`);
      const position = analyse(text).instruments[0]?.positions()[0];
      return { hz: known(position?.resonanceHz ?? undefined), db: known(position?.peakDb ?? undefined) };
    };
    const told = heard(250_000, 250_000, '');
    const chance = uniform(10);
    const pot = () => 250_000 * (1 + 0.2 * (2 * chance() - 1));
    const scatter = monteCarloOfAll(
      ({ cable }) => {
        const { hz, db } = heard(pot(), pot(), `  cable 1 m of ${Math.max(cable, 50).toFixed(1)} pF/m\n`);
        return { hz: hz.value, db: db.value };
      },
      [{ name: 'cable', value: 450, sd: 0.25 * 450 }],
      { samples: 300, seed: 11 },
    );
    for (const [name, estimate, { sd }] of [
      ['resonance', told.hz, scatter.hz],
      ['peak', told.db, scatter.db],
    ] as const) {
      // Of all causes, those that were drawn.
      const drawn = Math.hypot(...['tracks of the pots', 'the cable'].map((cause) => estimate.sources?.[cause] ?? 0));
      assert.ok(drawn > 0.8 * sd && drawn < 1.3 * sd, `${name}: ± ${drawn} against ${sd}`);
    }
  });

  it('capacitance of a coil in air, clearance drawn between its limits (10,000 draws; 0.8 to 1.3 of the scatter)', () => {
    const farad = known(coilOf(pickupOf(text('    turns 5000'))).capacitanceF);
    const meanTurnM = known(coilOf(pickupOf(text('    turns 5000'))).meanTurnM).value;
    // The range of the clearance, 0.01 to 0.06 about 0.03, as 10 and 90 % of a logarithmic normal distribution; 12 % of the closed form.
    const drawn = monteCarlo(
      ({ clearance, form }) =>
        (1 + form) *
        windingCapacitanceF({
          meanTurnM,
          heightM: 7.2e-3,
          turns: 5000,
          bareDiameterM: 63.5e-6,
          overallDiameterM: 70e-6,
          laying: 'scatter',
          turnsPerPass: USUAL_TURNS_PER_PASS,
          guide: 'unknown',
          clearance: USUAL_CLEARANCE * Math.exp(clearance),
          fill: FILL_PERMITTIVITY.air,
        }),
      [
        { name: 'clearance', value: 0, sd: Math.log(6) / 2 / 1.28 },
        { name: 'form', value: 0, sd: 0.12 },
      ],
      { samples: 10_000, seed: 9 },
    );
    const share = farad.sd / drawn.sd;
    assert.ok(share > 0.8 && share < 1.3, `± ${farad.sd} against ${drawn.sd}`);
  });
});
