import assert from 'node:assert/strict';
import {
  assumedEnergyProductJPerM3,
  demagnetisationCurve,
  demagnetisingFieldAPerM,
  polarisationT,
  workingPoint,
} from '../../server/src/physics/demagnetisation-curve.ts';
import { demagnetisingFactorUniform } from '../../server/src/physics/demagnetising-factor.ts';
import {
  cylinderAxialFieldT,
  fieldOfDiscsT,
  neighbourDemagnetisingFactor,
  rodPolarisationsT,
} from '../../server/src/physics/magnet-field.ts';
import {
  A_PER_M_PER_OERSTED,
  J_PER_M3_PER_MGOE,
  MAGNET_GRADES,
  type MagnetGrade,
  TESLA_PER_GAUSS,
} from '../../server/src/physics/magnet-grades.ts';
import {
  type Comparison,
  numberAt,
  numbersAt,
  type ReferenceCase,
  recordAt,
  referenceCases,
  testAgainstReference,
} from '../support/reference-cases.ts';

testAgainstReference('magnets: on the axis of uniformly magnetised cylinders', () => [
  ...referenceCases('magnets', 'MG-CYL').map((reference) =>
    compare(
      reference,
      'fluxDensityMilliT',
      1e-9,
      (metres, inputs) =>
        1e3 *
        cylinderAxialFieldT({
          polarisationT: numberAt(inputs, 'polarisationT'),
          diameterM: metres('diameterMm'),
          lengthM: metres('lengthMm'),
          distanceM: metres('distanceFromFaceMm'),
        }),
    ),
  ),
]);

testAgainstReference('magnets: alnico rods that demagnetise themselves (finite volumes; uniform discs)', () =>
  referenceCases('magnets', 'MG-ROD').flatMap((reference): Comparison[] => {
    const { id, inputs, expected } = reference;
    const rod = rodOf(reference);
    const factor = demagnetisingFactorUniform(rod);
    const loadLine = workingPoint(rod.curve, factor);
    const polarisations = rodPolarisationsT(rod);
    const row = (quantity: string, ours: number, relative: number): Comparison => ({
      id,
      quantity,
      reference: numberAt(expected, quantity),
      ours,
      tolerance: { relative },
    });
    const atDistances = numbersAt(inputs, 'distancesMm').flatMap((distance): Comparison[] => {
      const ours = fieldOfDiscsT(rod, polarisations, distance * 1e-3) * 1e3;
      const uniform = (polarisation: number) =>
        1e3 * cylinderAxialFieldT({ ...rod, polarisationT: polarisation, distanceM: distance * 1e-3 });
      const at = (key: string) => numberAt(recordAt(expected, key), String(distance));
      // A rod's rim demagnetises itself more than its middle, which uniform discs leave out: up to 15 % close by.
      return [
        {
          id,
          quantity: `fluxDensity at ${distance} mm`,
          reference: at('fluxDensityMilliTAtMm'),
          ours,
          tolerance: { relative: distance === 2 ? 0.2 : 0.15 },
        },
        {
          id,
          quantity: `discModel at ${distance} mm`,
          reference: at('discModelFluxDensityMilliTAtMm'),
          ours,
          tolerance: { relative: 0.005 },
        },
        {
          id,
          quantity: `uniformLoadLine at ${distance} mm`,
          reference: at('uniformLoadLineFluxDensityMilliTAtMm'),
          ours: uniform(loadLine.polarisationT),
          tolerance: { relative: 1e-6 },
        },
        {
          id,
          quantity: `uniformRemanence at ${distance} mm`,
          reference: at('uniformRemanenceFluxDensityMilliTAtMm'),
          ours: uniform(rod.curve.remanenceT),
          tolerance: { relative: 1e-9 },
        },
      ];
    });
    return [
      row('curveParameterA', rod.curve.shape, 1e-6),
      row('demagnetisingFactorUniform', factor, 1e-8),
      row('loadLinePolarisationT', loadLine.polarisationT, 1e-6),
      row('loadLineFieldKAPerM', loadLine.demagnetisingAPerM / 1e3, 1e-6),
      row('meanPolarisationT', polarisations.reduce((sum, value) => sum + value, 0) / polarisations.length, 0.1),
      ...atDistances,
    ];
  }),
);

testAgainstReference('magnets: ratio of the fields of two grades at 3 mm above one rod (finite volumes)', () =>
  ['D4.8-L17', 'D5-L10'].flatMap((size) => {
    const fieldOf = (grade: number) => {
      const [reference] = referenceCases('magnets', `MG-ROD-${grade}-${size}`);
      assert.ok(reference !== undefined);
      const rod = rodOf(reference);
      return {
        reference: numberAt(recordAt(reference.expected, 'fluxDensityMilliTAtMm'), '3'),
        ours: fieldOfDiscsT(rod, rodPolarisationsT(rod), 3e-3) * 1e3,
      };
    };
    const five = fieldOf(5);
    return [2, 3, 4, 8].map((grade): Comparison => {
      const other = fieldOf(grade);
      return {
        id: size,
        quantity: `alnico ${grade} over alnico 5`,
        reference: other.reference / five.reference,
        ours: other.ours / five.ours,
        tolerance: { relative: 0.05 },
      };
    });
  }),
);

testAgainstReference('magnets: nominal grades (MMPA 0100-00, recalled)', () =>
  [...referenceCases('magnets', 'MG-MMPA')].flatMap(({ id, inputs, expected }): Comparison[] => {
    const grade = gradeOf(inputs);
    const row = (quantity: string, ours: number): Comparison => ({
      id,
      quantity,
      reference: numberAt(expected, quantity),
      ours,
      tolerance: { relative: 1e-9 },
    });
    return [
      row('remanenceT', grade.remanenceT),
      row('coercivityKAPerM', grade.coercivityAPerM / 1e3),
      row('energyProductKJPerM3', grade.energyProductJPerM3 / 1e3),
    ];
  }),
);

testAgainstReference("magnets: makers' tables lie within two of our standard deviations", () => [
  ...referenceCases('magnets', 'MG-LD').flatMap(({ id, inputs, expected }): Comparison[] => {
    const grade = gradeOf(inputs);
    const ofOurs = (value: number) => ({ absolute: 2 * grade.relativeSpread * value });
    return [
      {
        id,
        quantity: 'remanenceT',
        reference: numberAt(expected, 'remanenceT'),
        ours: grade.remanenceT,
        tolerance: ofOurs(grade.remanenceT),
      },
      {
        id,
        quantity: 'coercivityKAPerM',
        reference: numberAt(expected, 'coercivityKAPerM'),
        ours: grade.coercivityAPerM / 1e3,
        tolerance: ofOurs(grade.coercivityAPerM / 1e3),
      },
    ];
  }),
  ...referenceCases('magnets', 'MG-TMC').flatMap(({ id, inputs, expected }): Comparison[] => {
    const grade = gradeOf(inputs);
    const band = (quantity: string, low: string, high: string, ours: number): Comparison => {
      const [minimum, maximum] = [numberAt(expected, low), numberAt(expected, high)];
      const middle = (minimum + maximum) / 2;
      return {
        id,
        quantity,
        reference: middle,
        ours,
        tolerance: { absolute: (maximum - minimum) / 2 + 2 * grade.relativeSpread * middle },
      };
    };
    return [
      band('remanenceT', 'remanenceMinimumT', 'remanenceMaximumT', grade.remanenceT),
      band('coercivityKAPerM', 'coercivityMinimumKAPerM', 'coercivityMaximumKAPerM', grade.coercivityAPerM / 1e3),
    ];
  }),
  ...referenceCases('magnets', 'MG-C5', 'MG-C8').flatMap(({ id, inputs, expected }): Comparison[] => {
    const grade = gradeOf(inputs);
    const row = (quantity: string, ours: number): Comparison => ({
      id,
      quantity,
      reference: numberAt(expected, quantity),
      ours,
      tolerance: { relative: 0.01 },
    });
    return [
      row('remanenceMinimumT', grade.remanenceT),
      row('coercivityMinimumKAPerM', grade.coercivityAPerM / 1e3),
      row('intrinsicCoercivityMinimumKAPerM', (grade.intrinsicCoercivityAPerM ?? 0) / 1e3),
      row('energyProductMinimumMGOe', grade.energyProductJPerM3 / J_PER_M3_PER_MGOE),
    ];
  }),
]);

testAgainstReference('magnets: units', () => {
  const ours: Record<string, [string, number]> = {
    'MG-U-G': ['tesla', TESLA_PER_GAUSS],
    'MG-U-OE': ['amperePerMetre', A_PER_M_PER_OERSTED],
    'MG-U-MGOE': ['kilojoulePerCubicMetre', J_PER_M3_PER_MGOE / 1e3],
  };
  return referenceCases('magnets', 'MG-U').map(({ id, expected }): Comparison => {
    const [quantity, value] = ours[id] ?? ['', Number.NaN];
    return { id, quantity, reference: numberAt(expected, quantity), ours: value, tolerance: { relative: 1e-12 } };
  });
});

describe('magnets', () => {
  const alnico5 = demagnetisationCurve(MAGNET_GRADES['alnico-5']);

  it('runs the demagnetisation curve from remanence to intrinsic coercivity and back', () => {
    assert.equal(polarisationT(alnico5, 0), 1.28);
    assert.equal(polarisationT(alnico5, alnico5.intrinsicCoercivityAPerM), 0);
    for (const polarisation of [0.1, 0.6, 1.2]) {
      assert.ok(
        Math.abs(polarisationT(alnico5, demagnetisingFieldAPerM(alnico5, polarisation)) - polarisation) < 1e-12,
      );
    }
  });

  it('derives a curve from remanence and coercivity alone, as a hand-written magnet states them', () => {
    const material = { remanenceT: 0.72, coercivityAPerM: 45e3 };
    const curve = demagnetisationCurve({
      ...material,
      energyProductJPerM3: assumedEnergyProductJPerM3(material.remanenceT, material.coercivityAPerM),
    });
    const fluxDensity = polarisationT(curve, 45e3) - 4e-7 * Math.PI * 45e3;
    assert.ok(Math.abs(fluxDensity) < 1e-6, 'B is zero at the coercivity');
  });

  it('finds no field in a closed circuit and none left at a factor that no magnet can bear', () => {
    assert.ok(Math.abs(workingPoint(alnico5, 0).polarisationT - 1.28) < 1e-9);
    assert.ok(workingPoint(alnico5, 1).polarisationT < 0.1);
  });

  it('demagnetises a rod in a row of like poles by a sixth more than alone', () => {
    // Six rods 4.8 × 17 mm at 10 mm: own factor 0.110; point charges on the faces of the neighbours, by hand for one neighbour:
    // (2.4²/(4·17)) · 2 · (1/10 − 1/√(10² + 17²)) = 0.00835.
    const one = neighbourDemagnetisingFactor({ diameterM: 4.8e-3, lengthM: 17e-3, pitchM: 10e-3, count: 2 });
    assert.ok(Math.abs(one - 0.00835) < 5e-6);
    const six = neighbourDemagnetisingFactor({ diameterM: 4.8e-3, lengthM: 17e-3, pitchM: 10e-3, count: 6 });
    assert.ok(six > 2 * one && six < 2.5 * one);
  });
});

function rodOf({ inputs }: ReferenceCase) {
  return {
    diameterM: numberAt(inputs, 'diameterMm') * 1e-3,
    lengthM: numberAt(inputs, 'lengthMm') * 1e-3,
    curve: demagnetisationCurve({
      remanenceT: numberAt(inputs, 'remanenceT'),
      coercivityAPerM: numberAt(inputs, 'intrinsicCoercivityAPerM'),
      intrinsicCoercivityAPerM: numberAt(inputs, 'intrinsicCoercivityAPerM'),
      energyProductJPerM3: numberAt(inputs, 'energyProductJPerM3'),
    }),
  };
}

function gradeOf({ grade }: Record<string, unknown>): MagnetGrade {
  const name = String(grade).toLowerCase().split(' ').slice(0, 2).join('-');
  const found = Object.entries(MAGNET_GRADES).find(([key]) => key === name)?.[1];
  assert.ok(found !== undefined, `no grade ${name}`);
  return found;
}

function compare(
  { id, inputs, expected }: ReferenceCase,
  quantity: string,
  relative: number,
  ours: (metres: (key: string) => number, inputs: Record<string, unknown>) => number,
): Comparison {
  const metres = (key: string) => numberAt(inputs, key) * 1e-3;
  return { id, quantity, reference: numberAt(expected, quantity), ours: ours(metres, inputs), tolerance: { relative } };
}
