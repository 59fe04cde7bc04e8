import assert from 'node:assert/strict';
import { type Winding, windCoil } from '../../server/src/physics/coil-geometry.ts';
import { propagate } from '../../server/src/physics/uncertainty.ts';
import { resistanceOhmPerM } from '../../server/src/physics/wire.ts';
import { monteCarlo } from '../support/monte-carlo.ts';

/** Resistance of a scatter-wound coil from what a winder knows of it. */
const SOURCES = [
  { name: 'bareDiameterM', value: 0.0633e-3, sd: 0.0633e-3 * 0.02 },
  { name: 'packing', value: 0.64, sd: 0.04 },
  { name: 'turns', value: 5000, sd: 10 },
  { name: 'coreLengthM', value: 63e-3, sd: 0.2e-3 },
] as const;

type Known = Record<(typeof SOURCES)[number]['name'], number>;

describe('uncertainty', () => {
  it('adds independent causes as squares: 3 and 4 make 5', () => {
    const sum = propagate(
      ({ a, b }: Record<'a' | 'b', number>) => a + b,
      [
        { name: 'a', value: 10, sd: 3 },
        { name: 'b', value: 20, sd: 4 },
      ],
    );
    assert.equal(sum.value, 30);
    assert.ok(Math.abs(sum.sd - 5) < 1e-12);
  });

  it('follows the worked example of the GUM: volume of a sphere, three times the relative uncertainty of its diameter', () => {
    const volume = propagate(
      ({ d }: Record<'d', number>) => (Math.PI / 6) * d ** 3,
      [{ name: 'd', value: 10, sd: 0.1 }],
    );
    assert.ok(Math.abs(volume.sd / volume.value - 0.03) < 1e-4);
  });

  it('agrees with 200 000 Monte Carlo draws on the resistance of a coil, within 2 % of the standard deviation', () => {
    const linear = propagate(resistanceOf, SOURCES);
    const drawn = monteCarlo(resistanceOf, SOURCES, { samples: 200_000, seed: 7 });
    assert.ok(Math.abs(linear.sd / drawn.sd - 1) < 0.02, `${linear.sd} against ${drawn.sd}`);
    assert.ok(Math.abs(linear.value / drawn.mean - 1) < 0.003);
  });

  it('draws a normal distribution: mean, spread and the 95 % interval', () => {
    const { mean, sd, interval95 } = monteCarlo(({ x }: Record<'x', number>) => x, [{ name: 'x', value: 5, sd: 2 }], {
      samples: 200_000,
      seed: 1,
    });
    // Standard error of the mean 2/√200000 = 0.0045, of the sd 0.0032, of a 2.5 % quantile about 0.012.
    assert.ok(Math.abs(mean - 5) < 0.02);
    assert.ok(Math.abs(sd - 2) < 0.015);
    assert.ok(Math.abs(interval95[0] - (5 - 1.96 * 2)) < 0.05 && Math.abs(interval95[1] - (5 + 1.96 * 2)) < 0.05);
  });

  it('gives the same draws for the same seed, others for another', () => {
    const run = (seed: number) => monteCarlo(resistanceOf, SOURCES, { samples: 100, seed }).mean;
    assert.equal(run(3), run(3));
    assert.notEqual(run(3), run(4));
  });

  it('takes a source of no spread for a constant', () => {
    const { sd } = propagate(({ a }: Record<'a', number>) => a, [{ name: 'a', value: 1, sd: 0 }]);
    assert.equal(sd, 0);
  });
});

function resistanceOf({ bareDiameterM, packing, turns, coreLengthM }: Known): number {
  const winding: Winding = {
    core: { straightM: coreLengthM - 5.6e-3, straightAcrossM: 0, innerRadiusM: 2.8e-3 },
    heightM: 7.2e-3,
    overallDiameterM: 0.0711e-3,
    laying: { kind: 'scatter', packing },
  };
  return windCoil(winding, turns).wireLengthM * resistanceOhmPerM(bareDiameterM);
}
