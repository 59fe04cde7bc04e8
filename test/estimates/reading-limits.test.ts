/**
 * What a resistance reads elsewhere on the thermometer, and how far a reading may lie from what is expected. Copper: 0.393 % of its value
 * at 20 °C a kelvin (IEC 60028). A limit is the meter's, with three standard deviations of what is expected and the contacts of two probes.
 */
import assert from 'node:assert/strict';
import { PROBES_OHM } from '../../server/src/estimates/common-practice.ts';
import { atTemperature, toleranceOhm } from '../../server/src/estimates/reading-limits.ts';
import { estimateOf } from '../../server/src/quantities/estimate.ts';

const METER = { accuracyPercent: 1, digits: 2, resolutionOhm: 10 };
const at = (celsius: number, sdK: number) => ({ celsius, sdK, words: '', assumed: false });
const near = (a: number, b: number): void => assert.ok(Math.abs(a - b) < 0.01, `${a} for ${b}`);
const read = (si: number, sd?: number) =>
  ({ dimension: 'resistance', si, written: `${si}`, ...(sd === undefined ? {} : { sd }) }) as const;

describe('a resistance at another temperature', () => {
  const at20C = estimateOf(8000, { sd: 40, basis: 'computed' });

  it('has 0.393 % more or less a kelvin, with its error', () => {
    const warm = atTemperature(at20C, at(30, 0));
    near(warm.value, 8000 * (1 + 0.00393 * 10));
    near(warm.sd, 40 * (1 + 0.00393 * 10));
    near(atTemperature(at20C, at(10, 0)).value, 8000 * (1 - 0.00393 * 10));
    near(atTemperature(at20C, at(20, 0)).value, 8000);
  });

  it('is less certain by what the thermometer is not: 31 ohm a kelvin, beside its own error', () => {
    near(atTemperature(at20C, at(20, 2)).sd, Math.hypot(40, 2 * 8000 * 0.00393));
  });
});

describe('how far a reading may lie from what is expected', () => {
  it('is the meter’s limit, three standard deviations, and the probes', () => {
    const expected = estimateOf(8000, { sd: 50, basis: 'computed' });
    near(toleranceOhm(read(8000), expected, METER), 80 + 20 + 150 + PROBES_OHM);
    near(toleranceOhm(read(4000), expected, METER), 40 + 20 + 150 + PROBES_OHM);
  });

  it('is what the reading itself states as its error, in place of the meter’s', () => {
    const expected = estimateOf(8000, { sd: 50, basis: 'computed' });
    near(toleranceOhm(read(8000, 10), expected, METER), 30 + 150 + PROBES_OHM);
    // What is expected by the same meter is not the same error then.
    const same = estimateOf(8000, { sd: 50, basis: 'reading', source: 'the meter' });
    near(toleranceOhm(read(8000, 10), same, METER), 30 + 150 + PROBES_OHM);
  });

  it('is less between two readings of one meter: its scale is wrong in both alike', () => {
    // All of the expected error is the meter's: a limit of 1 % is a standard deviation of 1 % / √3.
    const sd = 80 / Math.sqrt(3);
    const same = estimateOf(8000, { sd, basis: 'reading', source: 'the meter' });
    near(toleranceOhm(read(8000), same, METER), 20 + PROBES_OHM);
    // No more than the scale's share of the reading is left out.
    const more = estimateOf(8000, { sd: 2 * sd, basis: 'reading', source: 'the meter' });
    near(toleranceOhm(read(8000), more, METER), 20 + PROBES_OHM);
    const own = { ...same, sd: Math.hypot(sd, 30) };
    near(toleranceOhm(read(8000), own, METER), 20 + 90 + PROBES_OHM);
  });
});
