import assert from 'node:assert/strict';
import { circuit, ground } from '../../server/src/physics/circuit/circuit.ts';
import { coil } from '../../server/src/physics/circuit/coil.ts';
import { capacitor, resistor, wire } from '../../server/src/physics/circuit/components.ts';
import { resistanceBetween } from '../../server/src/physics/circuit/dc.ts';
import { networkOf } from '../../server/src/physics/circuit/network.ts';
import { potentiometer, rheostat } from '../../server/src/physics/circuit/potentiometer.ts';
import { responseFigures } from '../../server/src/physics/circuit/response.ts';
import { besideOhm, type Meter, parallelOhm, readingLimitOhm } from '../../server/src/physics/meter.ts';
import { copperTemperatureFactor } from '../../server/src/physics/wire.ts';
import { difference, estimateOf } from '../../server/src/quantities/estimate.ts';
import {
  type Comparison,
  numberAt,
  type ReferenceCase,
  referenceCases,
  testAgainstReference,
  uncertaintyOf,
} from '../support/reference-cases.ts';

/* meter.json: Ohm's law in closed form, and the usual accuracy statement of a multimeter's data sheet. */

testAgainstReference('meter: accuracy, and what is beside the probes', () => [
  ...referenceCases('meter', 'M-ACC').flatMap((reference): Comparison[] => {
    const readingOhm = numberAt(reference.inputs, 'readingOhm');
    const plusMinusOhm = readingLimitOhm(meterOf(reference), readingOhm);
    return [
      compare(reference, 'plusMinusOhm', plusMinusOhm),
      compare(reference, 'lowOhm', readingOhm - plusMinusOhm),
      compare(reference, 'highOhm', readingOhm + plusMinusOhm),
      compare(reference, 'relative', plusMinusOhm / readingOhm),
    ];
  }),
  ...referenceCases('meter', 'M-MATCH').flatMap((reference): Comparison[] => {
    const [first, second] = (['reading1Ohm', 'reading2Ohm'] as const).map((key) => {
      const value = numberAt(reference.inputs, key);
      return estimateOf(value, { sd: readingLimitOhm(meterOf(reference), value), basis: 'reading' });
    });
    assert.ok(first && second);
    const { value, sd } = difference(second, first);
    return [compare(reference, 'differenceOhm', value), compare(reference, 'plusMinusOhm', sd)];
  }),
  ...referenceCases('meter', 'M-HANDS').flatMap((reference): Comparison[] => {
    const ohm = numberAt(reference.inputs, 'ohm');
    const reads = parallelOhm(ohm, numberAt(reference.inputs, 'parallelOhm'));
    return [compare(reference, 'readsOhm', reads), compare(reference, 'relative', reads / ohm - 1)];
  }),
  ...referenceCases('meter', 'M-PAIR').flatMap((reference): Comparison[] => {
    const [first, second] = [numberAt(reference.inputs, 'ohm1'), numberAt(reference.inputs, 'ohm2')];
    const ends = (link: [string, string, string, string]) =>
      networkOf(
        circuit([
          coil({ name: 'first', start: link[0], finish: link[1], ohm: first, henry: 2 }),
          coil({ name: 'second', start: link[2], finish: link[3], ohm: second, henry: 2 }),
        ]),
      );
    const series = ends([ground, 'link', 'link', 'hot']);
    const parallel = ends([ground, 'hot', ground, 'hot']);
    return [
      compare(reference, 'seriesOhm', resistanceBetween(series, 'hot', ground) ?? Number.NaN),
      compare(reference, 'parallelOhm', resistanceBetween(parallel, 'hot', ground) ?? Number.NaN),
      compare(reference, 'differenceRelativeToLarger', Math.abs(first - second) / Math.max(first, second)),
    ];
  }),
]);

testAgainstReference('meter: a pickup read at the jack', () => [
  ...referenceCases('meter', 'M-JACK-', 'M-JACKPOT').flatMap((reference): Comparison[] => {
    const pickupOhm = numberAt(reference.inputs, 'pickupOhm');
    const trackOhm = numberAt(reference.inputs, 'volumePotOhm');
    const fraction = 'wiperFraction' in reference.inputs ? numberAt(reference.inputs, 'wiperFraction') : 1;
    const solved = resistanceBetween(networkOf(atJack(pickupOhm, trackOhm, fraction)), 'out', ground);
    return [compare(reference, 'readsOhm', solved ?? Number.NaN)];
  }),
  ...referenceCases('meter', 'M-JACKINV').map((reference) => {
    const read = numberAt(reference.inputs, 'readsOhm');
    return compare(reference, 'pickupOhm', besideOhm(read, numberAt(reference.inputs, 'volumePotOhm')) ?? Number.NaN);
  }),
]);

testAgainstReference('resonance of an inductance with its capacitance alone', () =>
  referenceCases('meter', 'M-RES').map((reference) => {
    const [henry, farad] = [numberAt(reference.inputs, 'henry'), numberAt(reference.inputs, 'picofarad') * 1e-12];
    const pickup = coil({ name: 'pickup', start: ground, finish: 'hot', ohm: 1, henry, farad });
    const figures = responseFigures(networkOf(circuit([pickup])), 'hot', { pickup: 1 });
    const peakHz = typeof figures === 'string' ? null : figures.peakHz;
    const relative = Math.max(1e-7, uncertaintyOf(reference, 'resonanceHz'));
    return { ...compare(reference, 'resonanceHz', peakHz ?? Number.NaN), tolerance: { relative } };
  }),
);

testAgainstReference('meter: copper at another temperature (IEC 60028)', () =>
  referenceCases('meter', 'M-TEMP').map((reference) => {
    const factor = copperTemperatureFactor(numberAt(reference.inputs, 'temperatureC'));
    return compare(reference, 'readsOhm', factor * numberAt(reference.inputs, 'ohmAt20C'));
  }),
);

describe('meter', () => {
  it('has no answer for a reading that the parallel resistance alone would undercut', () => {
    assert.equal(besideOhm(250e3, 250e3), null);
    assert.equal(besideOhm(260e3, 250e3), null);
  });

  it('reads what is left when one side is open or shorted', () => {
    assert.equal(parallelOhm(8000, Number.POSITIVE_INFINITY), 8000);
    assert.equal(parallelOhm(8000, 0), 0);
  });
});

/** A pickup behind its volume pot, with a tone control that is open at 0 Hz. */
function atJack(pickupOhm: number, trackOhm: number, fraction: number) {
  const volume = { name: 'volume', high: 'hot', wiper: 'out', low: ground, trackOhm, taper: 'linear' as const };
  return circuit([
    wire({ name: 'shield', from: 'braid', to: ground }),
    coil({ name: 'pickup', start: 'braid', finish: 'hot', ohm: pickupOhm, henry: 4, farad: 1e-10 }),
    potentiometer({ ...volume, rotation: 10 * fraction }),
    rheostat({ name: 'tone', from: 'hot', to: 'lug', trackOhm: 500e3, taper: 'linear', rotation: 0 }),
    capacitor({ name: 'tone capacitor', from: 'lug', to: ground, farad: 22e-9 }),
    resistor({ name: 'nothing plugged in', from: 'out', to: ground, ohm: Number.POSITIVE_INFINITY }),
  ]);
}

function meterOf({ inputs }: ReferenceCase): Meter {
  return {
    accuracyPercent: numberAt(inputs, 'accuracyPercent'),
    digits: numberAt(inputs, 'digits'),
    resolutionOhm: numberAt(inputs, 'resolutionOhm'),
  };
}

function compare(reference: ReferenceCase, quantity: string, ours: number): Comparison {
  return {
    id: reference.id,
    quantity,
    reference: numberAt(reference.expected, quantity),
    ours,
    tolerance: { relative: Math.max(uncertaintyOf(reference, quantity), 1e-9) },
  };
}
