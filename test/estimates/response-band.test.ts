import assert from 'node:assert/strict';
import type { Scaling } from '../../server/src/estimates/electric.ts';
import { bandOf } from '../../server/src/estimates/response-band.ts';
import { estimateOf } from '../../server/src/quantities/estimate.ts';

const FREQUENCIES = [100, 1000, 2000, 3000, 3400, 3800, 5000, 10_000];
const known = (sd: number) => estimateOf(1, { sd, basis: 'computed' });

/** A series L and R into C and a load: the textbook second-order low pass, written out here by hand. */
const lowPass = ({ resistance, inductance, capacitance }: Scaling) => ({
  frequencyHz: FREQUENCIES,
  levelDb: FREQUENCIES.map((hz) => level(hz, 8000 * resistance, 4 * inductance, 500e-12 * capacitance, 200e3)),
});

function level(hz: number, ohm: number, henry: number, farad: number, loadOhm: number): number {
  const w = 2 * Math.PI * hz;
  const re = 1 - w ** 2 * henry * farad + ohm / loadOhm;
  const im = w * (ohm * farad + henry / loadOhm);
  return -10 * Math.log10(re ** 2 + im ** 2);
}

describe('band of a response', () => {
  it('has no width where everything is known', () => {
    const band = bandOf([known(0), known(0), known(0)], lowPass);
    assert.deepEqual(
      band?.levelSdDb,
      FREQUENCIES.map(() => 0),
    );
    assert.deepEqual(band?.lowDb, band?.levelDb);
  });

  it('runs between the responses one deviation away, where these are the extremes', () => {
    const band = bandOf([known(0), known(0.05), known(0)], lowPass);
    // At 10 kHz, far above the resonance near 3.56 kHz, the level falls steadily as the inductance grows.
    const [more, less] = [1.05, 0.95].map((factor) => level(10_000, 8000, 4 * factor, 500e-12, 200e3));
    assert.ok(Math.abs((band?.lowDb.at(-1) ?? 0) - (more ?? 0)) < 1e-9);
    assert.ok(Math.abs((band?.highDb.at(-1) ?? 0) - (less ?? 0)) < 1e-9);
  });

  it('combines independent causes as roots of sums of squares', () => {
    const width = (sds: readonly [number, number, number]) => {
      const band = bandOf(sds.map(known), lowPass);
      return (band?.highDb.at(-1) ?? 0) - (band?.levelDb.at(-1) ?? 0);
    };
    const [one, other, both] = [width([0, 0.05, 0]), width([0, 0, 0.1]), width([0, 0.05, 0.1])];
    assert.ok(Math.abs(both - Math.hypot(one, other)) < 1e-9);
  });

  it('does not close on top of a resonance that may lie elsewhere', () => {
    const band = bandOf([known(0), known(0.05), known(0)], lowPass);
    const index = FREQUENCIES.indexOf(3400);
    assert.ok((band?.levelDb[index] ?? 0) - (band?.lowDb[index] ?? 0) > 0.1);
  });

  it('is not known where the circuit cannot be solved', () => {
    assert.equal(
      bandOf([known(0.1), known(0.1), known(0.1)], () => undefined),
      undefined,
    );
  });
});
