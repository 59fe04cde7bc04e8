import assert from 'node:assert/strict';
import {
  COPPER_DENSITY_KG_PER_M3,
  COPPER_RESISTIVITY_OHM_M,
  COPPER_TEMPERATURE_COEFFICIENT_PER_K,
} from '../../server/src/physics/constants.ts';
import {
  awgBareDiameterM,
  bareDiameterOfResistance,
  bareDiameterRelativeSd,
  copperTemperatureFactor,
  type EnamelBuild,
  resistanceOhmPerM,
  temperatureOfResistance,
  wireDiameters,
  wireMass,
} from '../../server/src/physics/wire.ts';
import {
  type Comparison,
  numberAt,
  referenceCases,
  testAgainstReference,
  uncertaintyOf,
} from '../support/reference-cases.ts';

const CLOSED_FORM = 1e-9;

testAgainstReference('wire: copper and AWG by formula (IEC 60028; ASTM B258, recalled)', () => {
  const [copper] = referenceCases('wire', 'W-CU');
  assert.ok(copper !== undefined);
  const rows: Comparison[] = [
    exact(
      'W-CU',
      'resistivityOhmMm2PerM',
      numberAt(copper.expected, 'resistivityOhmMm2PerM'),
      COPPER_RESISTIVITY_OHM_M * 1e6,
    ),
    exact(
      'W-CU',
      'temperatureCoefficientPerK',
      numberAt(copper.expected, 'temperatureCoefficientPerK'),
      COPPER_TEMPERATURE_COEFFICIENT_PER_K,
    ),
    exact('W-CU', 'densityGPerCm3', numberAt(copper.expected, 'densityGPerCm3'), COPPER_DENSITY_KG_PER_M3 / 1000),
  ];
  for (const { id, inputs, expected } of referenceCases('wire', 'W-AWG-')) {
    const bareM = awgBareDiameterM(numberAt(inputs, 'awg'));
    const ohmPerM = resistanceOhmPerM(bareM);
    rows.push(
      exact(id, 'bareDiameterMm', numberAt(expected, 'bareDiameterMm'), bareM * 1e3),
      exact(id, 'ohmPerM', numberAt(expected, 'ohmPerM'), ohmPerM),
      exact(id, 'ohmPer1000Ft', numberAt(expected, 'ohmPer1000Ft'), ohmPerM * 304.8),
      exact(id, 'gramPerM', numberAt(expected, 'gramPerM'), wireMass(bareM).totalKgPerM * 1e3),
      exact(id, 'metresPerKilohm', numberAt(expected, 'metresPerKilohm'), 1e3 / ohmPerM),
    );
  }
  return rows;
});

testAgainstReference(
  'wire: resistance at the diameter a wire table lists (tenths of a mil; handbook 100, recalled)',
  () => {
    const rows: Comparison[] = [];
    for (const { id, inputs, expected } of referenceCases('wire', 'W-AWGMIL-')) {
      const ohmPerM = resistanceOhmPerM(numberAt(inputs, 'tableDiameterMil') * 25.4e-6);
      rows.push(
        exact(id, 'ohmPerM', numberAt(expected, 'ohmPerM'), ohmPerM),
        exact(
          id,
          'ratioToFormula',
          numberAt(expected, 'ratioToFormula'),
          ohmPerM / resistanceOhmPerM(awgBareDiameterM(numberAt(inputs, 'awg'))),
        ),
      );
    }
    // The two figures, printed to four digits, belong to 2.5 mil for AWG 42 (rounded) and 3.145 mil for AWG 40 (not rounded to 3.1).
    for (const reference of referenceCases('wire', 'W-NBS100-')) {
      const mil = { 42: 2.5, 40: 3.145 }[numberAt(reference.inputs, 'awg')] ?? Number.NaN;
      rows.push({
        id: reference.id,
        quantity: 'ohmPer1000Ft',
        reference: numberAt(reference.expected, 'ohmPer1000Ft'),
        ours: resistanceOhmPerM(mil * 25.4e-6) * 304.8,
        tolerance: { relative: uncertaintyOf(reference, 'ohmPer1000Ft') },
      });
    }
    return rows;
  },
);

testAgainstReference('wire: temperature of a copper resistance (IEC 60028)', () => [
  ...referenceCases('wire', 'W-TEMP-').flatMap(({ id, inputs, expected }) => [
    exact(
      id,
      'ohm',
      numberAt(expected, 'ohm'),
      numberAt(inputs, 'ohmAt20C') * copperTemperatureFactor(numberAt(inputs, 'temperatureC')),
    ),
    exact(id, 'factor', numberAt(expected, 'factor'), copperTemperatureFactor(numberAt(inputs, 'temperatureC'))),
  ]),
  ...referenceCases('wire', 'W-TO20-').map(({ id, inputs, expected }) =>
    exact(
      id,
      'ohmAt20C',
      numberAt(expected, 'ohmAt20C'),
      numberAt(inputs, 'ohmMeasured') / copperTemperatureFactor(numberAt(inputs, 'temperatureC')),
    ),
  ),
]);

testAgainstReference('wire: limits of the standards (IEC 60317-0-1, NEMA MW 1000, each in a transcription)', () => {
  const rows: Comparison[] = [];
  for (const { id, inputs, expected } of referenceCases('wire', 'W-IEC-', 'W-NEMA-')) {
    const build: EnamelBuild = inputs.grade === 1 || inputs.build === 'single' ? 'single' : 'double';
    const size =
      'awg' in inputs
        ? { awg: numberAt(inputs, 'awg') }
        : { bareDiameterM: numberAt(inputs, 'nominalDiameterMm') * 1e-3 };
    const wire = wireDiameters(size, build);
    const ours: Record<string, number> = {
      bareMinimumMm: wire.bareMinimumM * 1e3,
      bareMaximumMm: wire.bareMaximumM * 1e3,
      overallMinimumMm: wire.overallMinimumM * 1e3,
      overallNominalMm: wire.overallM * 1e3,
      overallMaximumMm: wire.overallMaximumM * 1e3,
    };
    for (const [key, value] of Object.entries(ours)) {
      if (key in expected) rows.push(exact(id, key, numberAt(expected, key), value));
    }
  }
  return rows;
});

testAgainstReference('wire: what the permitted bare diameter does to resistance', () =>
  referenceCases('wire', 'W-TOL-').flatMap((reference) => {
    const { id, inputs, expected } = reference;
    const wire = wireDiameters({ awg: numberAt(inputs, 'awg') }, 'single');
    const limit = { relative: uncertaintyOf(reference, 'ohmPerMMaximum') };
    return [
      {
        id,
        quantity: 'ohmPerMMaximum',
        reference: numberAt(expected, 'ohmPerMMaximum'),
        ours: resistanceOhmPerM(wire.bareMinimumM),
        tolerance: limit,
      },
      {
        id,
        quantity: 'ohmPerMMinimum',
        reference: numberAt(expected, 'ohmPerMMinimum'),
        ours: resistanceOhmPerM(wire.bareMaximumM),
        tolerance: limit,
      },
    ];
  }),
);

describe('wire', () => {
  it('tells the overall diameter between two rows from the rows around it, within the limits of a row left out', () => {
    // Taking every second row of IEC 60317-0-1, grade 1, 0.056 mm lies where log-log interpolation of 0.05 and 0.063 puts it.
    const interpolated = Math.exp(
      Math.log(0.0575) + ((Math.log(0.0725) - Math.log(0.0575)) * Math.log(0.056 / 0.05)) / Math.log(0.063 / 0.05),
    );
    assert.ok(interpolated > 0.062 && interpolated < 0.067);
    const between = wireDiameters({ bareDiameterM: 0.06e-3 }, 'single');
    assert.equal(between.basis, 'interpolated');
    assert.ok(between.overallM > 0.0645e-3 && between.overallM < 0.0725e-3, 'lies between the rows 0.056 and 0.063');
    assert.ok(between.overallM > between.overallMinimumM && between.overallM < between.overallMaximumM);
  });

  it('says when a size lies beyond the table', () => {
    assert.equal(wireDiameters({ awg: 42 }, 'single').basis, 'table');
    assert.equal(wireDiameters({ awg: 42.5 }, 'single').basis, 'interpolated');
    assert.equal(wireDiameters({ awg: 46 }, 'single').basis, 'extrapolated');
    assert.equal(wireDiameters({ bareDiameterM: 0.04e-3 }, 'double').basis, 'extrapolated');
    assert.ok(wireDiameters({ awg: 46 }, 'double').overallM > awgBareDiameterM(46));
  });

  it('takes the band of the standard for two standard deviations either way: 4 % of resistance at AWG 42', () => {
    // 0.061 to 0.066 mm is -8 to +8 % of the resistance at equal length (0.0610² and 0.0660² against 0.0633²).
    const resistanceSd = 2 * bareDiameterRelativeSd(wireDiameters({ awg: 42 }, 'single'));
    assert.ok(Math.abs(resistanceSd - 0.04) < 0.002);
  });

  it('infers the diameter of a spool from its measured ohm per metre', () => {
    const bareM = bareDiameterOfResistance(resistanceOhmPerM(0.0631e-3, 26), 26);
    assert.ok(Math.abs(bareM - 0.0631e-3) < 1e-12);
  });

  it('infers how warm a coil is from its reading', () => {
    // 8.00 kohm at 20 degC reads 8.35 kohm at 31 degC: 8000 · (1 + 0.00393 · 11) = 8345.84.
    assert.ok(Math.abs(temperatureOfResistance(8345.84, 8000) - 31) < 1e-9);
  });

  it('states the share of the enamel in the mass', () => {
    const { copperKgPerM, enamelKgPerM, totalKgPerM, enamelShare } = wireMass(0.0633e-3, 0.0711e-3);
    assert.ok(Math.abs(copperKgPerM + enamelKgPerM - totalKgPerM) < 1e-15);
    // Ring area over copper area is (71.1² − 63.3²)/63.3² = 0.262, the density ratio 1300/8890.
    assert.ok(Math.abs(enamelShare - 0.0383 / 1.0383) < 1e-4);
  });
});

function exact(id: string, quantity: string, reference: number, ours: number): Comparison {
  return { id, quantity, reference, ours, tolerance: { relative: CLOSED_FORM } };
}
