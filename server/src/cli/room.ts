import { readQuantity } from '../../../grammar/src/read-quantity.ts';
import { CommandError } from './command.ts';

/** A temperature as an option states it: `23`, `23degC`, `"73 degF"`; a bare number is degrees Celsius. */
export function roomCelsius(written: string): number {
  const isBare = /^\s*[+-]?[\d_]+(?:\.\d+)?\s*$/.test(written);
  const temperature = readQuantity(isBare ? `${written} degC` : written, 'temperature');
  if (temperature) {
    const rounded = Math.round((temperature.si - 273.15) * 10) / 10;
    if (rounded >= COLDEST_C && rounded <= WARMEST_C) return rounded;
  }
  throw new CommandError(
    `--room ${written.slice(0, 40)}: a temperature from ${COLDEST_C} to ${WARMEST_C} °C is needed, as 23degC`,
  );
}

/** Beyond these nobody reads a meter at a bench. */
const COLDEST_C = -20;
const WARMEST_C = 60;
