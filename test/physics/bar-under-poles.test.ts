import assert from 'node:assert/strict';
import { type BarMagnet, barUnderPoles } from '../../server/src/physics/bar-under-poles.ts';
import { type DemagnetisationCurve, workingPoint } from '../../server/src/physics/demagnetisation-curve.ts';
import { blockDemagnetisingFactor } from '../../server/src/physics/demagnetising-factor.ts';
import { magnetChange } from '../../server/src/physics/magnet-change.ts';
import { rodFieldT } from '../../server/src/physics/magnet-field.ts';
import { MAGNET_GRADES } from '../../server/src/physics/magnet-grades.ts';
import { type PoleRod, poleCentresM } from '../../server/src/physics/pole-pieces.ts';
import { numberAt, recordAt, referenceCases } from '../support/reference-cases.ts';

const BAR: BarMagnet = { lengthM: 63.5e-3, widthM: 12.7e-3, thicknessM: 3.2e-3, centreAxialM: 0 };

describe('a bar magnet under steel poles', () => {
  it('has demagnetising factors that add up to one, a third each for a cube', () => {
    // Aharoni 1998; 0.209286 for 52 × 3 × 12.4 mm along 12.4 by numerical integration (scipy).
    const factor = (alongM: number, acrossM: number, otherM: number) =>
      blockDemagnetisingFactor({ alongM, acrossM, otherM });
    assert.ok(Math.abs(factor(1, 1, 1) - 1 / 3) < 1e-12);
    assert.ok(Math.abs(factor(12.4, 52, 3) - 0.209286) < 1e-6);
    assert.ok(Math.abs(factor(63.5, 12.7, 3.2) + factor(12.7, 3.2, 63.5) + factor(3.2, 63.5, 12.7) - 1) < 1e-9);
  });

  it('is the bare bar where the poles are not magnetic', () => {
    const bare = barUnderPoles({ bar: BAR, rods: rows(1), aboveTopM: 3e-3 });
    assert.ok(
      Math.abs(
        bare.demagnetisingFactor - blockDemagnetisingFactor({ alongM: 12.7e-3, acrossM: 63.5e-3, otherM: 3.2e-3 }),
      ) < 1e-12,
    );
    // Beside a bar the axial field is that of two charged rectangles; far off, that of two charges q = J·L·t: by hand for 0.5 m up.
    const far = 0.5;
    const [field] = barUnderPoles({
      bar: BAR,
      rods: [{ ...pole(0, 9e-3), topM: 0, relativePermeability: 1 }],
      aboveTopM: far,
    }).fieldOverPolarisation;
    const point = (away: number) => (BAR.lengthM * BAR.thicknessM * far) / (4 * Math.PI * Math.hypot(away, far) ** 3);
    const charges = point(9e-3 - 6.35e-3) - point(9e-3 + 6.35e-3);
    assert.ok(field !== undefined && Math.abs(field / charges - 1) < 0.02);
  });

  it('makes one row north and the other south, equally strong where the rows are alike', () => {
    const { fieldOverPolarisation } = barUnderPoles({ bar: BAR, rods: rows(200), aboveTopM: 3e-3 });
    const [north, south] = [fieldOverPolarisation[2] ?? 0, fieldOverPolarisation[8] ?? 0];
    assert.ok(north > 0 && Math.abs(north + south) < 1e-9 * north);
  });

  it('is strengthened by its poles, which ease the bar and carry its field to the strings', () => {
    const [steel, air] = [200, 1].map((mu) => barUnderPoles({ bar: BAR, rods: rows(mu), aboveTopM: 3e-3 }));
    assert.ok(steel !== undefined && air !== undefined);
    assert.ok(steel.demagnetisingFactor < air.demagnetisingFactor);
    assert.ok((steel.fieldOverPolarisation[2] ?? 0) > 2 * (air.fieldOverPolarisation[2] ?? 0));
  });

  it('weakens with height over the poles', () => {
    const at = (aboveTopM: number) =>
      barUnderPoles({ bar: BAR, rods: rows(200), aboveTopM }).fieldOverPolarisation[2] ?? 0;
    assert.ok(at(2e-3) > at(3e-3) && at(3e-3) > at(4e-3));
  });
});

describe('changing the magnet', () => {
  it('says what alnico 2 does in the place of alnico 5 rods, within its uncertainty of a finite-volume solution', () => {
    const fieldOfRod = (curve: DemagnetisationCurve) => rodFieldT({ diameterM: 4.8e-3, lengthM: 17e-3, curve }, 3e-3);
    const { fieldRatio, outputDb, pullRatio } = magnetChange(
      MAGNET_GRADES['alnico-5'],
      MAGNET_GRADES['alnico-2'],
      fieldOfRod,
    );
    const [two, five] = ['MG-ROD-2-D4.8-L17', 'MG-ROD-5-D4.8-L17'].map((id) => {
      const [reference] = referenceCases('magnets', id);
      assert.ok(reference !== undefined);
      return numberAt(recordAt(reference.expected, 'fluxDensityMilliTAtMm'), '3');
    });
    assert.ok(two !== undefined && five !== undefined);
    assert.ok(Math.abs(fieldRatio.value - two / five) < fieldRatio.sd);
    assert.ok(Math.abs(outputDb.value - 20 * Math.log10(fieldRatio.value)) < 1e-9);
    assert.ok(Math.abs(pullRatio.value - fieldRatio.value ** 2) < 1e-9);
    assert.ok(outputDb.sd > 0.4, 'half a decibel at least is not known');
  });

  it('leaves everything as it is between two magnets of one grade, but for their spread', () => {
    const fieldOfBar = (curve: DemagnetisationCurve) => workingPoint(curve, 0.2).polarisationT;
    const { fieldRatio } = magnetChange(MAGNET_GRADES['alnico-5'], MAGNET_GRADES['alnico-5'], fieldOfBar);
    assert.equal(fieldRatio.value, 1);
    assert.ok(fieldRatio.sd > 0.07 && fieldRatio.sd < 0.15);
  });
});

function pole(alongM: number, acrossM: number): PoleRod {
  return { alongM, acrossM, bottomM: -1.6e-3, topM: 10.9e-3, diameterM: 4.8e-3, relativePermeability: 200 };
}

function rows(relativePermeability: number): PoleRod[] {
  return [9.25e-3, -9.25e-3].flatMap((acrossM) =>
    poleCentresM(6, 49.5e-3).map((alongM) => ({ ...pole(alongM, acrossM), relativePermeability })),
  );
}
