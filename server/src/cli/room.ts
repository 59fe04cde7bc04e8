import { type Dimension, unitOf } from '../../../grammar/values/unit-table.ts';
import { CommandError } from './command.ts';

/** A temperature as an option states it: `23`, `23degC`, `"73 degF"`; a bare number is degrees Celsius. */
export function roomCelsius(written: string): number {
  const [, number = '', unit = ''] = /^\s*([+-]?\d+(?:\.\d+)?)\s*(\S*)\s*$/.exec(written) ?? [];
  const row = unitOf(unit === '' ? 'degC' : unit);
  const temperature: Dimension = 'temperature';
  if (number !== '' && row?.dimension === temperature) {
    const celsius = Number(number) * row.factor + row.offset - 273.15;
    const rounded = Math.round(celsius * 10) / 10;
    if (rounded >= COLDEST_C && rounded <= WARMEST_C) return rounded;
  }
  throw new CommandError(
    `--room ${written.slice(0, 40)}: a temperature from ${COLDEST_C} to ${WARMEST_C} °C is needed, as 23degC`,
  );
}

/** Beyond these nobody reads a meter at a bench. */
const COLDEST_C = -20;
const WARMEST_C = 60;
