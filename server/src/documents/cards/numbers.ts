/** Numbers as cards print them. Limits are worked from unrounded values; the unit stands once, in the head of a column. */

import type { Quantity } from '../../../../grammar/values/quantity.ts';
import { type Bench, benchMeter } from '../../model/bench.ts';
import { readingLimitOhm } from '../../physics/meter.ts';
import { copperTemperatureFactor } from '../../physics/wire.ts';
import { type Estimate, scale } from '../../quantities/estimate.ts';
import { printNumber, printQuantity, printValue } from '../../quantities/print.ts';

/** Decimals of kΩ that the bench's meter shows. */
function kiloohmDecimals(bench: Bench | undefined): number {
  const { resolutionOhm } = benchMeter(bench);
  return Math.min(4, Math.max(1, Math.ceil(-Math.log10(resolutionOhm / 1000) - 1e-9)));
}

export const kiloohm = (ohm: number, bench: Bench | undefined): string =>
  printNumber(ohm / 1000, kiloohmDecimals(bench));

/** What passes: the meter's limit and two standard deviations of what is computed, together. */
export const passOhm = ({ value, sd }: Estimate, bench: Bench | undefined): number =>
  Math.hypot(readingLimitOhm(benchMeter(bench), value), 2 * sd);

/** `4.02 to 4.19`, kΩ. */
export function passText(ohm: Estimate, bench: Bench | undefined): string {
  const passes = passOhm(ohm, bench);
  return `${kiloohm(Math.max(0, ohm.value - passes), bench)} to ${kiloohm(ohm.value + passes, bench)}`;
}

/** Ohm at 20 °C as it reads in the room. */
export const inRoom = (at20C: Estimate, roomC: number): Estimate => scale(at20C, copperTemperatureFactor(roomC));

export const written = (quantity: Quantity | undefined, digits = 4): string | undefined =>
  quantity && printQuantity({ value: quantity.si, sd: quantity.sd ?? 0, dimension: quantity.dimension, digits });

/** Hot to ground, at 20 °C. */
export const ohmText = (ohm: Estimate | null | undefined, unknown: string): string =>
  ohm ? ofDimension(ohm, 'resistance') : ohm === null ? 'open' : unknown;

export const millimetres = (metres: number, decimals = 1): string => printNumber(metres * 1000, decimals);

export const ofDimension = (
  estimate: Estimate,
  dimension: 'resistance' | 'length' | 'mass' | 'inductance' | 'frequency',
): string => printValue({ value: estimate.value, sd: estimate.sd, dimension });
