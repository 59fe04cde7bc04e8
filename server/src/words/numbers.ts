/**
 * What each computed number is called, its dimension, and how fine it is ever told: one row a number, in the order in which people
 * read them. A number that the estimates hold and that has no row here does not compile.
 */
import type { CoilEstimates, PickupEstimates, PositionEstimates } from '../estimates/estimates.ts';
import type { MismatchKey } from '../estimates/mismatch.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { PrintedDimension } from '../quantities/print.ts';
import type { PlainText } from './languages/language.ts';

/** Called by a text of every language, or, where it is told in English only, by any words. */
export interface NumberName<W extends string = PlainText> {
  readonly what: W;
  readonly dimension: PrintedDimension;
  /** Decimals that are shown at most, however well it is known. */
  readonly decimals?: number;
  /** Said where there is none. */
  readonly none?: PlainText;
}

/** The fields of a type that hold a computed number. */
type NumbersOf<T> = {
  [K in keyof T]: NonNullable<T[K]> extends Estimate ? K : never;
}[keyof T] &
  string;

export type CoilKey = NumbersOf<CoilEstimates>;
export type PickupKey = NumbersOf<PickupEstimates>;
export type PositionKey = NumbersOf<PositionEstimates>;

/** What a level is called that nothing but strays and rounding carries. */
export const SILENT = 'silent';

const INDUCTANCE: NumberName = { what: 'inductance', dimension: 'inductance' };
const CAPACITANCE: NumberName = { what: 'capacitance', dimension: 'capacitance' };
const RESONANCE: NumberName = { what: 'resonance', dimension: 'frequency', none: 'no peak' };
const DOWN_3_DB: NumberName = { what: '\u22123\u202FdB at', dimension: 'frequency' };
// Nobody reads a level closer than a tenth of a decibel, nor hears it against another one closer than a whole.
const PEAK: NumberName = { what: 'resonance peak', dimension: 'level', decimals: 1 };
const LEVEL: NumberName = { what: 'level at 100\u202FHz', dimension: 'level', decimals: 1, none: SILENT };
const SIGNAL: NumberName = { what: 'string signal against one coil', dimension: 'level', decimals: 0 };
const HUM: NumberName = { what: 'hum against one coil', dimension: 'level', decimals: 0 };

export const COIL_NUMBERS: Readonly<Record<CoilKey, NumberName>> = {
  turns: { what: 'turns', dimension: 'turns' },
  resistance20COhm: { what: 'resistance at 20\u202F°C', dimension: 'resistance' },
  ohmPerM20C: { what: 'resistance of the wire at 20\u202F°C', dimension: 'resistance per length' },
  wireLengthM: { what: 'wire length', dimension: 'length' },
  wireMassKg: { what: 'wire mass', dimension: 'mass' },
  meanTurnM: { what: 'mean turn', dimension: 'length' },
  turnAreaM2: { what: 'turn-area', dimension: 'area' },
  layers: { what: 'layers', dimension: 'ratio' },
  buildM: { what: 'build', dimension: 'length' },
  windowFilled: { what: 'window filled', dimension: 'percentage' },
  packing: { what: 'packing', dimension: 'ratio' },
  inductanceAirH: { what: 'inductance without poles', dimension: 'inductance' },
  inductanceH: INDUCTANCE,
  capacitanceF: CAPACITANCE,
};

export const PICKUP_NUMBERS: Readonly<Record<PickupKey, NumberName>> = {
  resistance20COhm: {
    what: 'resistance hot to ground at 20\u202F°C',
    dimension: 'resistance',
    none: 'open',
  },
  inductanceH: INDUCTANCE,
  capacitanceF: CAPACITANCE,
  resonanceHz: RESONANCE,
  peakDb: PEAK,
  minus3DbHz: DOWN_3_DB,
  signalDb: SIGNAL,
  humDb: HUM,
};

export const POSITION_NUMBERS: Readonly<Record<PositionKey, NumberName>> = {
  resistanceOhm: { what: 'resistance at the jack', dimension: 'resistance', none: 'open' },
  resonanceHz: RESONANCE,
  peakDb: PEAK,
  minus3DbHz: DOWN_3_DB,
  levelDb: LEVEL,
  signalDb: SIGNAL,
  humDb: HUM,
};

/** Told of a pickup with unequal coils, as it is built and as it would be with matched ones. */
export const MISMATCH_NUMBERS: Readonly<Record<MismatchKey, NumberName>> = {
  humDb: HUM,
  humOnItsOwnDb: { ...HUM, what: 'hum against one coil on its own' },
  resonanceHz: RESONANCE,
  peakDb: PEAK,
  levelDb: LEVEL,
};

export const FIELD_AT_STRING: NumberName = { what: 'field at the string', dimension: 'flux density' };

/** Another magnet against the pickup's own. */
export const OUTPUT_CHANGE: NumberName = { what: 'output', dimension: 'level', decimals: 1 };
export const PULL_RATIO: NumberName = { what: 'pull on the string', dimension: 'ratio' };
export const FIELD_RATIO: NumberName = { what: 'field', dimension: 'ratio' };

/** What a table names, in its order. */
export const keysOf = <K extends string>(names: Readonly<Record<K, NumberName<string>>>): readonly K[] =>
  Object.keys(names) as K[];
