/** Which readings tell a coil's resistance, and how they are brought to 20 degC with the meter's and thermometer's error. */

import type { Quantity } from '../../../grammar/values/quantity.ts';
import { type Bench, benchRoomC, celsius, type MeterAccuracy } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { type PickupNetlist, probedNets } from '../model/netlist.ts';
import type { Reading, ReadingOf, Readings } from '../model/readings.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { printCelsius } from '../quantities/print.ts';
import { causes } from './causes.ts';
import { ROOM_TEMPERATURE_SD_K, STATED_TEMPERATURE_SD_K } from './common-practice.ts';
import { coilsBetween } from './pickup-circuit.ts';
import { because } from './reasons.ts';

export type ResistanceLine = ReadingOf<'coil resistance'> | ReadingOf<'resistance'>;

export const isResistance = (line: Reading): line is ResistanceLine =>
  line.kind === 'coil resistance' || line.kind === 'resistance';

/**
 * The one coil that a resistance line measures by itself, if it does. As it came in, a pickup may have been joined otherwise: then a line
 * between leads is of a coil by itself where there is no other, or where nothing was joined.
 */
export function coilOfReading(
  line: Reading,
  block: Readings,
  netlist: PickupNetlist,
  loose: PickupNetlist,
): Coil | undefined {
  const { coils } = netlist.pickup;
  if (line.kind === 'coil resistance') return coils.find(({ name }) => name === line.coil.text);
  if (line.kind !== 'resistance' || (block.found && !block.apart && coils.length > 1)) return undefined;
  const only = coils.length === 1 ? netlist.windings[0] : undefined;
  const joined = probedNets(line.probes, netlist);
  if (
    only &&
    joined &&
    only.start !== undefined &&
    only.finish !== undefined &&
    sameNets(joined, [only.start, only.finish])
  )
    return only.coil;
  const nets = probedNets(line.probes, loose);
  if (!joined) return undefined;
  // `hot` and `ground` are no leads before the hookup is made.
  if (!nets) return block.apart ? undefined : onlyCoilBetween(joined, netlist);
  const own = coilAcross(nets, loose);
  return block.apart || coilAcross(joined, netlist) ? own : undefined;
}

/** The coil whose ends these are, where they are those of one only. */
export function coilAcross(nets: readonly [number, number], { windings }: PickupNetlist): Coil | undefined {
  const [only, another] = windings.filter(
    ({ start, finish }) => start !== undefined && finish !== undefined && sameNets(nets, [start, finish]),
  );
  return another ? undefined : only?.coil;
}

/** A whole coil with nothing beside it. */
function onlyCoilBetween(nets: readonly [number, number], netlist: PickupNetlist): Coil | undefined {
  const [only, another] = coilsBetween(netlist, nets);
  const isWhole = netlist.windings.some(
    ({ coil, start, finish }) =>
      coil === only && start !== undefined && finish !== undefined && sameNets(nets, [start, finish]),
  );
  return isWhole && another === undefined ? only : undefined;
}

const sameNets = (a: readonly [number, number], b: readonly [number, number]) =>
  (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);

export interface ReadingTemperature {
  readonly celsius: number;
  readonly sdK: number;
  readonly words: string;
  /** The bench's room stands in for a temperature that was not noted. */
  readonly assumed: boolean;
}

/** Degrees Celsius of a reading: its own, else the block's room, else the bench's, less sure each time. */
export function readingTemperature(
  own: Quantity | undefined,
  block: Readings,
  bench: Bench | undefined,
): ReadingTemperature {
  const stated = own ?? block.room?.value;
  if (stated)
    return {
      celsius: celsius(stated),
      sdK: stated.sd ?? STATED_TEMPERATURE_SD_K,
      words: stated.written,
      assumed: false,
    };
  return {
    celsius: benchRoomC(bench),
    sdK: ROOM_TEMPERATURE_SD_K,
    words: because("the bench's {0}, assumed", printCelsius(benchRoomC(bench))),
    assumed: true,
  };
}

/**
 * A reading at 20 degC. A meter's accuracy is a limit: its standard deviation is the limit over the root of three (JCGM 100:2008,
 * 4.3.7). The meter's scale is common to all readings by it, the bench's room to all that take their temperature from it.
 */
export function resistanceAt20C(reading: Quantity, temperature: ReadingTemperature, meter: MeterAccuracy): Estimate {
  const factor = copperTemperatureFactor(temperature.celsius);
  const ohm = reading.si / factor;
  const scaleSd = reading.sd ?? ((meter.accuracyPercent / 100) * ohm) / Math.sqrt(3);
  const digitsSd = reading.sd === undefined ? (meter.digits * meter.resolutionOhm) / Math.sqrt(3) : 0;
  const temperatureSd = ((copperTemperatureFactor(21) - 1) / factor) * temperature.sdK * ohm;
  return {
    value: ohm,
    sd: Math.hypot(scaleSd, digitsSd, temperatureSd),
    basis: 'reading',
    restsOn: [because('reading {0} at {1}', reading.written, temperature.words)],
    sources: {
      ...(reading.sd === undefined ? { [causes.meter]: scaleSd } : {}),
      ...(temperature.assumed ? { [causes.roomTemperature]: -temperatureSd } : {}),
    },
  };
}
