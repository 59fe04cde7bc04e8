import assert from 'node:assert/strict';
import { METALS, type MetalName } from '../../server/src/physics/constants.ts';
import {
  combinedEddyBranch,
  eddyBranchOfPoles,
  eddyBranchOfSheet,
  impedanceWithEddy,
  skinDepthM,
} from '../../server/src/physics/eddy-currents.ts';
import { coaxialCirclesMutualH } from '../../server/src/physics/filaments.ts';
import {
  type Comparison,
  numberAt,
  referenceCases,
  testAgainstReference,
  uncertaintyOf,
} from '../support/reference-cases.ts';

testAgainstReference('metals: skin depth', () =>
  referenceCases('pole-pieces', 'SK').map(({ id, inputs, expected }): Comparison => {
    const ours = skinDepthM({
      resistivityOhmM: numberAt(inputs, 'resistivityOhmM'),
      relativePermeability: numberAt(inputs, 'relativePermeability'),
      frequencyHz: numberAt(inputs, 'frequencyHz'),
    });
    return {
      id,
      quantity: 'skinDepthMm',
      reference: numberAt(expected, 'skinDepthMm'),
      ours: ours * 1e3,
      tolerance: { relative: 1e-9 },
    };
  }),
);

testAgainstReference('metals: resistivity and permeability (data sheets and handbooks, each named in the case)', () => {
  const ours: Record<string, MetalName> = {
    'PM-BRASS': 'brass',
    'PM-BRASS-CZ131': 'brass',
    'PM-ALNICO-RHO': 'alnico',
    'PM-NS': 'nickel-silver',
    'PM-NS-770': 'nickel-silver',
    'PM-NS-745': 'nickel-silver',
    'PM-1010': 'steel',
    'PM-1018': 'steel',
  };
  // 100 % IACS is 1/58 ohm mm²/m.
  const ofIacs = (percent: number) => 100 / percent / 58e6;
  return referenceCases('pole-pieces', 'PM').map((reference): Comparison => {
    const { id, expected } = reference;
    const metal = METALS[ours[id] ?? 'copper'];
    const value =
      'resistivityOhmM' in expected
        ? numberAt(expected, 'resistivityOhmM')
        : ofIacs(numberAt(expected, 'conductivityPercentIACS'));
    // The spread is ours, of the alloys sold under one name; the case adds its own uncertainty.
    const absolute =
      metal.resistivityRelativeSpread * metal.resistivityOhmM + uncertaintyOf(reference, 'resistivityOhmM') * value;
    return { id, quantity: 'resistivityOhmM', reference: value, ours: metal.resistivityOhmM, tolerance: { absolute } };
  });
});

describe('eddy currents', () => {
  const coil = {
    core: { straightM: 54e-3, straightAcrossM: 0, innerRadiusM: 2.8e-3 },
    buildM: 4.5e-3,
    heightM: 7.2e-3,
  };
  const cover = (resistivityOhmM: number) =>
    eddyBranchOfSheet(coil, {
      kind: 'plate',
      lengthM: 68e-3,
      widthM: 19e-3,
      thicknessM: 0.5e-3,
      fromCoilCentreM: 5e-3,
      resistivityOhmM,
    });

  it('makes a brass cover slower than a nickel-silver one by the ratio of their resistivities, equally coupled', () => {
    const [brass, nickelSilver] = [cover(METALS.brass.resistivityOhmM), cover(METALS['nickel-silver'].resistivityOhmM)];
    assert.ok(Math.abs(brass.coupling - nickelSilver.coupling) < 1e-12);
    assert.ok(Math.abs(brass.timeConstantS / nickelSilver.timeConstantS - 2.87 / 0.616) < 1e-9);
  });

  it('sees a thin ring around a round coil as the ring that Maxwell computes', () => {
    // Ring of radius 20 mm, section 0.2 × 0.2 mm, round a coil of section 0.2 × 0.2 mm and mean radius 10 mm, all coaxial and
    // in one plane: M by the elliptic-integral formula; L = μ0 r (ln(8r/(0.2235 (w + h))) − 2), R = ρ 2πr/A (Grover 1946).
    const round = { core: { straightM: 0, straightAcrossM: 0, innerRadiusM: 9.9e-3 }, buildM: 0.2e-3, heightM: 0.2e-3 };
    const ring = {
      kind: 'band',
      lengthM: 40.2e-3,
      widthM: 40.2e-3,
      thicknessM: 0.2e-3,
      heightM: 0.2e-3,
      fromCoilCentreM: 0,
    } as const;
    const { coupling, timeConstantS } = eddyBranchOfSheet(round, { ...ring, resistivityOhmM: 6.16e-8 });
    const thin = (radiusM: number) => 4e-7 * Math.PI * radiusM * (Math.log((8 * radiusM) / (0.2235 * 0.4e-3)) - 2);
    const mutualH = coaxialCirclesMutualH(10e-3, 20e-3, 0);
    const resistanceOhm = (6.16e-8 * 2 * Math.PI * 20e-3) / 0.2e-3 ** 2;
    assert.ok(Math.abs(coupling / (mutualH / Math.sqrt(thin(10e-3) * thin(20e-3))) - 1) < 2e-3);
    assert.ok(Math.abs(timeConstantS / (thin(20e-3) / resistanceOhm) - 1) < 2e-3);
  });

  it('couples less the farther the plate is', () => {
    const at = (fromCoilCentreM: number) =>
      eddyBranchOfSheet(coil, {
        kind: 'plate',
        lengthM: 68e-3,
        widthM: 19e-3,
        thicknessM: 0.5e-3,
        fromCoilCentreM,
        resistivityOhmM: 6.16e-8,
      }).coupling;
    assert.ok(at(5e-3) > at(8e-3) && at(8e-3) > at(15e-3));
  });

  it('agrees with the cylinder in an alternating axial field at low frequency', () => {
    // Long rod (N → 0): L_poles(ω) = μrF − 1 with F ≈ 1 − jωμσa²/8, so the series resistance is ω² · share · L · μr/(μr − 1) · μσa²/8.
    const rod = { alongM: 0, acrossM: 0, bottomM: 0, topM: 2, diameterM: 4e-3, relativePermeability: 10 };
    const branch = eddyBranchOfPoles({ polesShare: 0.4, rod, resistivityOhmM: 1.59e-7 });
    const { resistanceOhm } = impedanceWithEddy(2, branch, 1);
    const omega = 2 * Math.PI;
    const expected = omega ** 2 * 0.4 * 2 * (10 / 9) * ((4e-7 * Math.PI * 10 * 2e-3 ** 2) / (8 * 1.59e-7));
    assert.ok(Math.abs(resistanceOhm / expected - 1) < 0.01);
  });

  it('adds up loops without ever taking all of the inductance', () => {
    const loops = [0.75, 0.67, 0.5].map((coupling) => ({ coupling, timeConstantS: 1e-5 }));
    const { coupling, timeConstantS } = combinedEddyBranch(loops);
    assert.ok(coupling < 1);
    const losses = (coupling ** 2 * timeConstantS) / (1e-5 * (0.75 ** 2 + 0.67 ** 2 + 0.5 ** 2));
    assert.ok(Math.abs(losses - 1) < 1e-12);
    assert.deepEqual(combinedEddyBranch([]), { coupling: 0, timeConstantS: 0 });
  });
});
