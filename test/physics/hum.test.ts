import assert from 'node:assert/strict';
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
});
