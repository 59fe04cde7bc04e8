import assert from 'node:assert/strict';
import { ellipticOfComplement } from '../../server/src/physics/elliptic-integrals.ts';
import {
  coaxialCirclesMutualH,
  NEUMANN,
  parallelStraights,
  racetracksMutualH,
} from '../../server/src/physics/filaments.ts';
import {
  inductancePerTurnSquaredH,
  logGeometricMeanDistance,
  selfInductance,
} from '../../server/src/physics/inductance.ts';
import { mutualInductance, mutualInductancePerTurnsProductH } from '../../server/src/physics/mutual-inductance.ts';
import { meanTurnAreaM2, turnLengthM } from '../../server/src/physics/racetrack.ts';
import {
  type Comparison,
  numberAt,
  recordAt,
  referenceCases,
  testAgainstReference,
  uncertaintyOf,
} from '../support/reference-cases.ts';
import { coreOf, sectionOf } from '../support/reference-coils.ts';

/** What the quadrature promises of itself, relative; the references are good to 1e-5. */
const SELF_TOLERANCE = 1e-4;

testAgainstReference('inductance: racetrack coils of rectangular section', () =>
  referenceCases('racetrack-self', 'RT').flatMap((reference): Comparison[] => {
    const { id, inputs, expected } = reference;
    const turns = numberAt(inputs, 'turns');
    const section = sectionOf(inputs);
    const perTurn = inductancePerTurnSquaredH(section);
    const row = (quantity: string, ours: number, relative: number) => ({
      id,
      quantity,
      reference: numberAt(expected, quantity),
      ours,
      tolerance: { relative },
    });
    return [
      row('inductanceAirH', perTurn * turns ** 2, SELF_TOLERANCE),
      row('inductancePerTurnSquaredH', perTurn, SELF_TOLERANCE),
      row('meanTurnMm', turnLengthM(section.core, section.buildM / 2) * 1e3, 1e-9),
      row('wireLengthM', turns * turnLengthM(section.core, section.buildM / 2), 1e-9),
      row('turnAreaM2', turns * meanTurnAreaM2(section.core, section.buildM), 1e-9),
    ];
  }),
);

testAgainstReference('inductance: circular coils, the limit of the racetrack', () =>
  referenceCases('racetrack-self', 'CC').flatMap((reference): Comparison[] => {
    const { id, inputs, expected } = reference;
    if (id === 'CC-BROOKS') {
      // Grover 1946 (recalled): inner radius = side, mean radius 3/2 sides.
      const side = numberAt(inputs, 'sectionSideM');
      const core = { straightM: 0, straightAcrossM: 0, innerRadiusM: numberAt(inputs, 'meanRadiusM') - side / 2 };
      return [
        {
          id,
          quantity: 'inductancePerMetreMeanRadiusH',
          reference: numberAt(expected, 'inductancePerMetreMeanRadiusH'),
          ours: inductancePerTurnSquaredH({ core, buildM: side, heightM: side }),
          tolerance: { relative: uncertaintyOf(reference, 'inductancePerMetreMeanRadiusH') },
        },
      ];
    }
    return [
      {
        id,
        quantity: 'inductancePerTurnSquaredH',
        reference: numberAt(expected, 'inductancePerTurnSquaredH'),
        ours: inductancePerTurnSquaredH(sectionOf(inputs)),
        tolerance: { relative: SELF_TOLERANCE },
      },
    ];
  }),
);

testAgainstReference('mutual inductance: two coils side by side and stacked', () =>
  referenceCases('racetrack-mutual', 'PR').flatMap(({ id, inputs, expected }): Comparison[] => {
    const [one, two] = [recordAt(inputs, 'coil1'), recordAt(inputs, 'coil2')];
    const pair = {
      first: sectionOf(one),
      second: sectionOf(two),
      offset: {
        alongM: numberAt(inputs, 'offsetAlongMm') * 1e-3,
        acrossM: numberAt(inputs, 'offsetAcrossMm') * 1e-3,
        axialM: numberAt(inputs, 'offsetAxialMm') * 1e-3,
      },
    };
    const [n1, n2] = [numberAt(one, 'turns'), numberAt(two, 'turns')];
    const mutual = mutualInductancePerTurnsProductH(pair) * n1 * n2;
    const [l1, l2] = [
      inductancePerTurnSquaredH(pair.first) * n1 ** 2,
      inductancePerTurnSquaredH(pair.second) * n2 ** 2,
    ];
    const relative = (quantity: string, ours: number, relativeTolerance: number) => ({
      id,
      quantity,
      reference: numberAt(expected, quantity),
      ours,
      tolerance: { relative: relativeTolerance },
    });
    return [
      relative('mutualSameSenseH', mutual, 1e-3),
      relative('mutualPerTurnsProductH', mutual / (n1 * n2), 1e-3),
      {
        id,
        quantity: 'couplingSameSense',
        reference: numberAt(expected, 'couplingSameSense'),
        ours: mutual / Math.sqrt(l1 * l2),
        tolerance: { absolute: 2e-4 },
      },
      relative('inductance1H', l1, SELF_TOLERANCE),
      relative('inductance2H', l2, SELF_TOLERANCE),
      relative('inductanceSeriesHumCancellingH', l1 + l2 - 2 * mutual, 2e-4),
      relative('inductanceSeriesSameSenseH', l1 + l2 + 2 * mutual, 2e-4),
      relative('inductanceParallelHumCancellingH', (l1 * l2 - mutual ** 2) / (l1 + l2 + 2 * mutual), 2e-4),
    ];
  }),
);

testAgainstReference('mutual inductance: filaments', () =>
  referenceCases('racetrack-mutual', 'MC', 'MR', 'MS').map((reference): Comparison => {
    const { id, inputs, expected } = reference;
    const metres = (key: string) => numberAt(inputs, key) * 1e-3;
    const rectangle = () => ({ straightM: metres('lengthMm'), straightAcrossM: metres('widthMm'), innerRadiusM: 0 });
    const ours = id.startsWith('MC')
      ? coaxialCirclesMutualH(metres('radius1Mm'), metres('radius2Mm'), metres('axialDistanceMm'))
      : id.startsWith('MR')
        ? racetracksMutualH(rectangle(), rectangle(), { alongM: 0, acrossM: 0, axialM: metres('axialDistanceMm') })
        : NEUMANN * parallelStraights(0, metres('lengthMm'), 0, metres('lengthMm'), metres('distanceMm'));
    const tolerance = { relative: Math.max(1e-8, uncertaintyOf(reference, 'mutualH')) };
    return { id, quantity: 'mutualH', reference: numberAt(expected, 'mutualH'), ours, tolerance };
  }),
);

describe('inductance', () => {
  const slim = { core: { straightM: 54e-3, straightAcrossM: 0, innerRadiusM: 2.6e-3 }, buildM: 4e-3, heightM: 6.5e-3 };

  it('has complete elliptic integrals as the tables print them', () => {
    // Abramowitz & Stegun table 17.1 at m = 1/2 (its own complement), and the limits K(0) = E(0) = π/2.
    const { K, E } = ellipticOfComplement(Math.SQRT1_2);
    assert.ok(Math.abs(K - 1.854074677301372) < 1e-14);
    assert.ok(Math.abs(E - 1.350643881047676) < 1e-14);
    assert.ok(Math.abs(ellipticOfComplement(1).E - Math.PI / 2) < 1e-15);
  });

  it('has the geometric mean distance of a square as the literature prints it: 0.44705 of its side', () => {
    // Rosa & Grover 1912 (recalled): R = 0.44705 a; for a thin strip 0.22313 a = exp(-3/2) a.
    assert.ok(Math.abs(Math.exp(logGeometricMeanDistance(1, 1)) - 0.44705) < 1e-5);
    assert.ok(Math.abs(Math.exp(logGeometricMeanDistance(1, 1e-6)) - Math.exp(-1.5)) < 1e-5);
  });

  it('is converged: four times the points move it by less than 1e-5', () => {
    for (const { inputs } of referenceCases('racetrack-self', 'RT')) {
      const section = sectionOf(inputs);
      const fine = selfInductance(section, { radialPoints: 10, axialPoints: 10 });
      assert.ok(Math.abs(inductancePerTurnSquaredH(section) / fine - 1) < 1e-5);
    }
  });

  it('does not care which way round the core is measured', () => {
    const upright = { ...slim, core: { straightM: 0, straightAcrossM: 54e-3, innerRadiusM: 2.6e-3 } };
    assert.equal(inductancePerTurnSquaredH(upright), inductancePerTurnSquaredH(slim));
  });

  it('passes smoothly from a narrow rounded rectangle to a stadium', () => {
    const nearly = { ...slim, core: { ...slim.core, straightAcrossM: 1e-6 } };
    assert.ok(Math.abs(inductancePerTurnSquaredH(nearly) / inductancePerTurnSquaredH(slim) - 1) < 2e-4);
  });

  it('gives two halves of one coil the inductance of the whole', () => {
    // L of the whole section = mean of the halves' self and mutual inductances: (2 L_half + 2 M) / 4.
    const half = { ...slim, heightM: slim.heightM / 2 };
    const between = mutualInductance(
      { first: half, second: half, offset: { alongM: 0, acrossM: 0, axialM: half.heightM } },
      { radialPoints: 12, axialPoints: 12 },
    );
    const whole = (inductancePerTurnSquaredH(half) + between) / 2;
    assert.ok(Math.abs(whole / inductancePerTurnSquaredH(slim) - 1) < 1e-4);
  });

  it('is the same from either coil of a pair', () => {
    const wide = {
      core: coreOf({ straightMm: 48, straightAcrossMm: 2, innerRadiusMm: 3 }),
      buildM: 3e-3,
      heightM: 5e-3,
    };
    const offset = { alongM: 1e-3, acrossM: 19e-3, axialM: 2e-3 };
    const back = { alongM: -1e-3, acrossM: -19e-3, axialM: -2e-3 };
    const there = mutualInductancePerTurnsProductH({ first: slim, second: wide, offset });
    assert.ok(
      Math.abs(there / mutualInductancePerTurnsProductH({ first: wide, second: slim, offset: back }) - 1) < 1e-6,
    );
  });

  it('falls off as a dipole far away: M = μ0 A₁A₂ / (−4π r³) in the plane of the coils', () => {
    const first = {
      core: coreOf({ straightMm: 0, straightAcrossMm: 0, innerRadiusMm: 2 }),
      buildM: 1e-3,
      heightM: 1e-3,
    };
    const offset = { alongM: 0, acrossM: 0.4, axialM: 0 };
    const area = meanTurnAreaM2(first.core, first.buildM);
    const dipole = (-1e-7 * area ** 2) / 0.4 ** 3;
    assert.ok(Math.abs(mutualInductancePerTurnsProductH({ first, second: first, offset }) / dipole - 1) < 1e-3);
  });

  it('returns what it remembered for the same numbers', () => {
    assert.equal(inductancePerTurnSquaredH({ ...slim, core: { ...slim.core } }), inductancePerTurnSquaredH(slim));
  });
});
