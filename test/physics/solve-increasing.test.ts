import assert from 'node:assert/strict';
import { type Winding, windCoil } from '../../server/src/physics/coil-geometry.ts';
import { inductancePerTurnSquaredH } from '../../server/src/physics/inductance.ts';
import { solveIncreasing } from '../../server/src/physics/solve-increasing.ts';

describe('solving for a target', () => {
  it('finds the root of an increasing function', () => {
    const root = solveIncreasing((x) => x ** 3, { target: 2, low: 0, high: 10, tolerance: 1e-12 });
    assert.ok(root !== undefined && Math.abs(root - Math.cbrt(2)) < 1e-10);
  });

  it('says nothing where the target lies beyond the ends, or the function has no value', () => {
    assert.equal(
      solveIncreasing((x) => x, { target: 11, low: 0, high: 10 }),
      undefined,
    );
    assert.equal(
      solveIncreasing((x) => x, { target: -1, low: 0, high: 10 }),
      undefined,
    );
    assert.equal(
      solveIncreasing(() => Number.NaN, { target: 1, low: 0, high: 10 }),
      undefined,
    );
  });

  it('finds the turns that reach an inductance, the build growing with them', () => {
    const winding: Winding = {
      core: { straightM: 57.4e-3, straightAcrossM: 0, innerRadiusM: 2.8e-3 },
      heightM: 7.2e-3,
      overallDiameterM: 0.0711e-3,
      laying: { kind: 'scatter', packing: 0.64 },
    };
    const inductance = (turns: number) =>
      turns ** 2 *
      inductancePerTurnSquaredH({
        core: winding.core,
        buildM: windCoil(winding, turns).buildM,
        heightM: winding.heightM,
      });
    const turns = solveIncreasing(inductance, { target: 1, low: 100, high: 20_000 });
    assert.ok(turns !== undefined && turns > 4000 && turns < 6000);
    assert.ok(Math.abs(inductance(turns) - 1) < 1e-5);
  });
});
