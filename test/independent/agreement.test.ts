/**
 * A thousand random pickups and two hundred random instruments against a model of signed sources of their own (signed-sources.ts):
 * resistance, phase, string signal, hum and level, each within 0.8 dB, or both below −20 dB, where the last digit of a null means
 * nothing. Every kind of coil and joint stands among them: tapped, stacked, shorted, left out, side by side, split with resistors,
 * reversed with controls of their own.
 */
import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { PositionEstimates } from '../../server/src/estimates/estimates.ts';
import { levelInPlace } from '../../server/src/estimates/level-in-place.ts';
import { phaseOf } from '../../server/src/estimates/phase.ts';
import { NO_LOAD, pickupContributions } from '../../server/src/estimates/pickup-estimates.ts';
import { AS_PLAYED, AT_THE_METER, positionNetwork } from '../../server/src/estimates/position-network.ts';
import { jackResistance, soundingCoils } from '../../server/src/estimates/positions.ts';
import { contributionsOf, REFERENCE_LEVEL_DB, stringDrives } from '../../server/src/estimates/sources.ts';
import { responseOf } from '../../server/src/physics/circuit/response.ts';
import type { Estimate } from '../../server/src/quantities/estimate.ts';
import { analyse, declaredIn } from '../support/check-fixture.ts';
import { thorough } from '../support/thorough.ts';
import { type Figures, pickupFigures, positionFigures } from './signed-sources.ts';
import { instrumentText, type Joined, pickupText, randomInstrument, randomPickup, selectionText } from './structure.ts';

type Declared = Pick<Analysis, 'model' | 'bench'>;

/** What is compared; the product's numbers are asked for singly, since a whole report of a thousand pickups takes a minute. */
interface Told {
  readonly ohm: number | null | undefined;
  readonly phase: string;
  readonly signalDb: number | undefined;
  readonly humDb: number | undefined;
  readonly levelDb?: number | undefined;
}

function differences(told: Told, own: Figures & { readonly levelDb?: number }): readonly string[] {
  const found: string[] = [];
  const say = (what: string, a: unknown, b: unknown) => found.push(`${what}: told ${a}, by itself ${b}`);
  const same = told.ohm === null || own.ohm === null || told.ohm === undefined;
  if (same ? told.ohm !== own.ohm : Math.abs((told.ohm ?? 0) / (own.ohm ?? 1) - 1) > 1e-3)
    say('resistance', told.ohm, own.ohm);
  if (told.phase !== own.phase) say('phase', told.phase, own.phase);
  for (const key of ['signalDb', 'humDb', 'levelDb'] as const)
    if (!alike(told[key], own[key])) say(key, told[key], own[key]);
  return found;
}

/** Where nothing reaches the output neither tells a level, or tells silence. */
function alike(told: number | undefined, own: number | undefined): boolean {
  if (told === undefined || own === undefined) return (told ?? -120) < -20 && (own ?? -120) < -20;
  return Math.abs(told - own) < 0.8 || (told < -20 && own < -20);
}

const ohmOf = (ohm: Estimate | null | undefined) => (ohm === null ? null : ohm?.value);

function pickupTold({ model, bench }: Declared): Told {
  const [pickup] = model.pickups;
  assert.ok(pickup);
  const quick = quickOf(bench)(pickup);
  const level = (what: 'string' | 'hum', hz: number) => {
    const contributions = pickupContributions(quick, NO_LOAD, what, hz);
    return contributions && levelInPlace(contributions).value;
  };
  const ohm = quick.resistance20COhm;
  return {
    ohm: ohmOf(ohm),
    phase: quick.phase,
    signalDb: level('string', 100),
    humDb: level('hum', 50),
  };
}

function positionTold({ model, bench }: Declared, index: number): Told {
  const [instrument] = model.instruments;
  const selection = instrument?.positions[index]?.selection;
  assert.ok(instrument && selection);
  const quick = quickOf(bench);
  const sounding = soundingCoils(positionNetwork(instrument, selection, quick, AT_THE_METER), 0);
  const played = positionNetwork(instrument, selection, quick, AS_PLAYED);
  const level = (what: 'string' | 'hum', hz: number) => {
    const contributions = sounding.length > 0 ? contributionsOf(played, what, hz) : undefined;
    return contributions && levelInPlace(contributions).value;
  };
  const response = responseOf(played.network, played.output, stringDrives(played), Float64Array.of(10));
  const ohm = jackResistance({ instrument, quickOf: quick, bench }, selection);
  return {
    ohm: ohmOf(ohm),
    phase: phaseOf(sounding),
    signalDb: level('string', 100),
    humDb: level('hum', 50),
    levelDb: typeof response === 'string' ? undefined : (response.levelDb[0] ?? 0) - REFERENCE_LEVEL_DB,
  };
}

const told = ({ resistanceOhm, phase, signalDb, humDb, levelDb }: PositionEstimates): Told => ({
  ohm: ohmOf(resistanceOhm),
  phase,
  signalDb: signalDb?.value,
  humDb: humDb?.value,
  levelDb: levelDb?.value,
});

const PICKUPS = thorough(240);
const INSTRUMENTS = thorough(60);
const AT_ONCE = 60;

describe('a model of signed sources of its own', () => {
  for (let from = 0; from < PICKUPS; from += AT_ONCE)
    it(`agrees on ${AT_ONCE} random pickups from ${from}`, () => {
      const faults = Array.from({ length: AT_ONCE }, (_, index) => from + index).flatMap((seed) => {
        const pickup = randomPickup(seed);
        return differences(pickupTold(declaredIn(pickupText(pickup))), pickupFigures(pickup)).map(
          (each) => `seed ${seed}, ${each}`,
        );
      });
      assert.deepEqual(faults, []);
    });

  for (let from = 0; from < INSTRUMENTS; from += AT_ONCE)
    it(`agrees on every position of ${AT_ONCE} random instruments from ${from}`, () => {
      const faults = Array.from({ length: AT_ONCE }, (_, index) => from + index).flatMap((seed) => {
        const instrument = randomInstrument(seed);
        const declared = declaredIn(instrumentText(instrument));
        return instrument.positions.flatMap((position, index) =>
          differences(positionTold(declared, index), positionFigures(instrument, position)).map(
            (each) => `seed ${seed}, ${selectionText(position)}, ${each}`,
          ),
        );
      });
      assert.deepEqual(faults, []);
    });

  it('holds every kind of coil, joint and control many times', () => {
    const pickups = Array.from({ length: PICKUPS }, (_, seed) => randomPickup(seed));
    const instruments = Array.from({ length: INSTRUMENTS }, (_, seed) => randomInstrument(seed));
    const parts = (joined: Joined): readonly Joined[] =>
      'of' in joined ? [joined, ...[joined.of].flat().flatMap(parts)] : [joined];
    const positions = instruments.flatMap((instrument) =>
      instrument.positions.map((position) => ({ instrument, parts: parts(position) })),
    );
    const slotsIn = (joined: Joined) => parts(joined).flatMap((each) => ('slot' in each ? [each.slot] : []));
    const counts = {
      tapped: pickups.filter(({ coils }) => coils.some(({ taps }) => taps.length > 0)).length,
      'hot on a tap': pickups.filter(({ hot }) => hot.some((lead) => lead.startsWith('t'))).length,
      stacked: pickups.filter(({ coils }) => coils.some(({ below }) => below)).length,
      dummy: pickups.filter(({ coils }) => coils.some(({ serves }) => serves === 'none')).length,
      'other strings': pickups.filter(({ coils }) => coils.some(({ serves }) => Array.isArray(serves))).length,
      shorted: pickups.filter(({ coils, links }) =>
        coils.some(({ start, finish }) => links.some((link) => link.includes(start) && link.includes(finish))),
      ).length,
      'left out': pickups.filter(({ coils, free }) =>
        coils.some(({ start, finish }) => free.includes(start) && free.includes(finish)),
      ).length,
      'side by side': pickups.filter(({ ground }) => ground.length > 1).length,
      'reversed with controls of its own': positions.filter(({ instrument, parts: all }) =>
        all.some(
          (each) =>
            each.kind === 'reversed' &&
            instrument.controls.some(({ slot }) => slot !== undefined && slotsIn(each.of).includes(slot)),
        ),
      ).length,
      'split through a resistor': positions.filter(({ parts: all }) =>
        all.some((each) => each.kind === 'coil' && each.throughOhm),
      ).length,
      'taken at a tap': positions.filter(({ parts: all }) => all.some(({ kind }) => kind === 'tap')).length,
      series: positions.filter(({ parts: all }) => all.some(({ kind }) => kind === 'series')).length,
    };
    for (const [kind, count] of Object.entries(counts)) assert.ok(count >= 5, `${kind}: ${count}`);
  });

  it('is compared with what reports tell: they hold the same numbers', () => {
    for (let seed = 0; seed < 8; seed += 1) {
      const pickup = randomPickup(seed);
      const analysis = analyse(pickupText(pickup));
      const estimates = analysis.pickups[0]?.estimates();
      const { ohm, ...rest } = pickupTold(analysis);
      assert.equal(ohmOf(estimates?.resistance20COhm), ohm);
      assert.deepEqual(
        { phase: estimates?.phase, signalDb: estimates?.signalDb?.value, humDb: estimates?.humDb?.value },
        rest,
      );
      const positions = analyse(instrumentText(randomInstrument(seed)));
      positions.instruments[0]?.positions().forEach((each, index) => {
        const { levelDb, ...others } = told(each);
        const { levelDb: own, ...same } = positionTold(positions, index);
        assert.deepEqual(others, same);
        assert.ok(Math.abs((levelDb ?? -120) - Math.max(-120, own ?? -120)) < 1e-9);
      });
    }
  });
});
