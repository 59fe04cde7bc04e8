/** Numbers as cards print them. Limits are worked from unrounded values; the unit stands once, in the head of a column. */

import type { Quantity } from '../../../../grammar/values/quantity.ts';
import { type Bench, benchMeter } from '../../model/bench.ts';
import { readingLimitOhm } from '../../physics/meter.ts';
import { copperTemperatureFactor } from '../../physics/wire.ts';
import { type Estimate, scale } from '../../quantities/estimate.ts';
import { printNumber, printQuantity, printValue } from '../../quantities/print.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';

/** Decimals of kΩ that the bench's meter shows. */
function kiloohmDecimals(bench: Bench | undefined): number {
  const { resolutionOhm } = benchMeter(bench);
  return Math.min(4, Math.max(1, Math.ceil(-Math.log10(resolutionOhm / 1000) - 1e-9)));
}

export const kiloohm = (ohm: number, bench: Bench | undefined, t: Language): string =>
  printNumber(ohm / 1000, kiloohmDecimals(bench), t.numbers);

/** What passes: the meter's limit and two standard deviations of what is computed, together. */
export const passOhm = ({ value, sd }: Estimate, bench: Bench | undefined): number =>
  Math.hypot(readingLimitOhm(benchMeter(bench), value), 2 * sd);

/** `4.02 to 4.19`, kΩ. */
export function passText(ohm: Estimate, bench: Bench | undefined, t: Language): string {
  const passes = passOhm(ohm, bench);
  return t('{0} to {1}', kiloohm(Math.max(0, ohm.value - passes), bench, t), kiloohm(ohm.value + passes, bench, t));
}

/** Ohm at 20 °C as it reads in the room. */
export const inRoom = (at20C: Estimate, roomC: number): Estimate => scale(at20C, copperTemperatureFactor(roomC));

export const written = (quantity: Quantity | undefined, t: Language, digits = 4): string | undefined =>
  quantity &&
  printQuantity({
    value: quantity.si,
    sd: quantity.sd ?? 0,
    dimension: quantity.dimension,
    digits,
    style: t.numbers,
  });

/** Hot to ground, at 20 °C. */
export const ohmText = (ohm: Estimate | null | undefined, unknown: PlainText, t: Language): string =>
  ohm ? ofDimension(ohm, 'resistance', t) : t(ohm === null ? 'open' : unknown);

/** As it was stated, with as many digits. */
export const plainly = (value: number, t: Language): string =>
  typeof t.numbers === 'object' ? String(value).replace('.', t.numbers.decimalSign) : String(value);

export const millimetres = (metres: number, t: Language, decimals = 1): string =>
  printNumber(metres * 1000, decimals, t.numbers);

export const ofDimension = (
  estimate: Estimate,
  dimension: 'resistance' | 'length' | 'mass' | 'inductance' | 'frequency',
  t: Language,
): string => printValue({ value: estimate.value, sd: estimate.sd, dimension, style: t.numbers });
