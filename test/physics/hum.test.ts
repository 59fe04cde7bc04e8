import assert from 'node:assert/strict';
import { leadCapacitanceF, windingCapacitance } from '../../server/src/physics/capacitance.ts';
import { coilEmfV, seriesHumResidueDb } from '../../server/src/physics/hum.ts';
import { capacitanceOfResonanceF, inductanceOfResonanceH, resonanceHz } from '../../server/src/physics/resonance.ts';
import { type Comparison, numberAt, referenceCases, testAgainstReference } from '../support/reference-cases.ts';

testAgainstReference('hum: e.m.f. of a coil in a uniform field (Faraday)', () =>
  referenceCases('hum', 'H-EMF').map(({ id, inputs, expected }): Comparison => {
    const ours = coilEmfV({
      turnAreaM2: numberAt(inputs, 'turns') * numberAt(inputs, 'meanTurnAreaMm2') * 1e-6,
      fluxDensityRmsT: numberAt(inputs, 'fluxDensityRmsT'),
      frequencyHz: numberAt(inputs, 'frequencyHz'),
    });
    return {
      id,
      quantity: 'emfRmsMilliV',
      reference: numberAt(expected, 'emfRmsMilliV'),
      ours: ours * 1e3,
      tolerance: { relative: 1e-9 },
    };
  }),
);

testAgainstReference('hum: what unequal coils leave in series', () => {
  const row = (id: string, reference: number, ours: number): Comparison => ({
    id,
    quantity: 'residueRelativeToLargerCoilDb',
    reference,
    ours,
    tolerance: { absolute: 1e-6 },
  });
  return [
    ...referenceCases('hum', 'H-SER').map(({ id, inputs, expected }) =>
      row(
        id,
        numberAt(expected, 'residueRelativeToLargerCoilDb'),
        seriesHumResidueDb(numberAt(inputs, 'turns1'), numberAt(inputs, 'turns2')),
      ),
    ),
    ...referenceCases('hum', 'H-AREA').map(({ id, inputs, expected }) => {
      const area = (coil: 1 | 2) => numberAt(inputs, `turns${coil}`) * numberAt(inputs, `meanTurnArea${coil}Mm2`);
      return row(id, numberAt(expected, 'residueRelativeToLargerCoilDb'), seriesHumResidueDb(area(1), area(2)));
    }),
    ...referenceCases('hum', 'H-STEEL').map(({ id, inputs, expected }) =>
      row(
        id,
        numberAt(expected, 'residueRelativeToLargerCoilDb'),
        seriesHumResidueDb(1, numberAt(inputs, 'effectiveAreaRatio')),
      ),
    ),
  ];
});

describe('resonance and capacitance', () => {
  it('puts 4.4 H with 120 pF at 6.93 kHz, and back', () => {
    // By hand: 1/(2π √(4.4 · 120e-12)) = 6926 Hz.
    const frequencyHz = resonanceHz(4.4, 120e-12);
    assert.ok(Math.abs(frequencyHz - 6926) < 1);
    assert.ok(Math.abs(capacitanceOfResonanceF(4.4, frequencyHz) - 120e-12) < 1e-21);
    assert.ok(Math.abs(inductanceOfResonanceH(120e-12, frequencyHz) - 4.4) < 1e-9);
  });

  it('estimates a winding in tens of picofarads, more for a wider coil, less for a scattered one, known to a factor of two', () => {
    const layered = {
      meanTurnM: 0.14,
      heightM: 10e-3,
      buildM: 4.1e-3,
      bareDiameterM: 0.0635e-3,
      overallDiameterM: 0.0711e-3,
      scatter: false,
    };
    // By hand, Zuhrt's distance 1.26 · 71.1 − 1.15 · 63.5 = 16.6 µm; C₁ = ε0 · 2.5 · 0.14 · 0.01/16.6e-6 = 1.87 nF; 57.7 layers:
    // (4/3) · 1.87 nF · 56.7/57.7² = 42.5 pF.
    const { capacitanceF } = windingCapacitance(layered);
    assert.ok(Math.abs(capacitanceF - 42.5e-12) < 0.5e-12);
    const scattered = windingCapacitance({ ...layered, scatter: true });
    assert.ok(scattered.capacitanceF < capacitanceF && scattered.factorSd === 2);
    assert.ok(windingCapacitance({ ...layered, heightM: 12e-3 }).capacitanceF > capacitanceF);
    assert.ok(Math.abs(leadCapacitanceF(0.3, 110e-12) - 33e-12) < 1e-20);
  });
});
