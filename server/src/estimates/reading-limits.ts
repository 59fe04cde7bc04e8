/** What a resistance may read at another temperature, and how far a reading may lie from what is expected. */
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { MeterAccuracy } from '../model/bench.ts';
import { readingLimitOhm } from '../physics/meter.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, scale } from '../quantities/estimate.ts';
import type { ReadingTemperature } from './coil-reading.ts';
import { PROBES_OHM, READING_SPREAD_SD } from './common-practice.ts';

export function atTemperature(at20C: Estimate, { celsius, sdK }: ReadingTemperature): Estimate {
  const there = scale(at20C, copperTemperatureFactor(celsius));
  const perKelvin = at20C.value * (copperTemperatureFactor(21) - 1);
  return { ...there, sd: Math.hypot(there.sd, perKelvin * sdK) };
}

/** The meter's limit and three standard deviations of what is expected. */
export function toleranceOhm(read: Quantity, expected: Estimate, meter: MeterAccuracy): number {
  const ownOhm = read.sd === undefined ? readingLimitOhm(meter, read.si) : READING_SPREAD_SD * read.sd;
  // Readings by one meter share its scale: that part of the error is the same on both sides.
  const common = read.sd === undefined ? (expected.sources?.['the meter'] ?? 0) : 0;
  const scaleOhm = Math.min((meter.accuracyPercent / 100) * read.si, Math.sqrt(3) * Math.abs(common));
  const spread = Math.sqrt(Math.max(0, expected.sd ** 2 - common ** 2));
  return (common === 0 ? ownOhm : ownOhm - scaleOhm) + READING_SPREAD_SD * spread + PROBES_OHM;
}
