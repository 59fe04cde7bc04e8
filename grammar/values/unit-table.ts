/** Every unit a quantity may be written in: one row a unit, from which conversion, completion and printing are derived. */

export type Dimension =
  | 'resistance'
  | 'resistance per length'
  | 'inductance'
  | 'capacitance'
  | 'capacitance per length'
  | 'length'
  | 'gauge'
  | 'turns'
  | 'temperature'
  | 'frequency'
  | 'flux density'
  | 'field strength'
  | 'mass'
  | 'time'
  | 'percentage'
  | 'rotation speed'
  | 'level';

export interface Unit {
  /** How the formatter, completion and plain-ASCII output write it. */
  readonly symbol: string;
  /** How drawings and Unicode text write it. */
  readonly printed: string;
  /** Every accepted spelling, `symbol` and `printed` included. */
  readonly spellings: readonly string[];
  readonly dimension: Dimension;
  /** SI value = written value × factor + offset. */
  readonly factor: number;
  readonly offset: number;
}

/** Both code points that fonts show as an ohm sign: Greek capital omega and the ohm sign proper. */
const OHM_SIGNS = ['\u03A9', '\u2126'] as const;
/** Both code points that fonts show as micro: the micro sign and Greek small mu. */
const MICRO_SIGNS = ['\u00B5', '\u03BC'] as const;

/**
 * The table. Within a dimension the order is that of completion: the most usual at the bench first.
 *
 * SI here means: ohm, ohm/m, henry, farad, farad/m, metre, kelvin, hertz, tesla, A/m, kilogram, second, a ratio of 1 for `%`,
 * revolutions per second for rpm, decibel for dB, and the number itself for turns and for AWG: a gauge is a place
 * in a table, and turning it into a diameter is the wire's business.
 */
export const UNITS: readonly Unit[] = [
  unit('kohm', 'k\u03A9', 'resistance', 1e3, { ohm: 'k' }),
  unit('ohm', '\u03A9', 'resistance', 1, { ohm: '' }),
  unit('Mohm', 'M\u03A9', 'resistance', 1e6, { ohm: 'M' }),
  unit('ohm/m', '\u03A9/m', 'resistance per length', 1, { more: OHM_SIGNS.map((sign) => `${sign}/m`) }),
  unit('H', 'H', 'inductance', 1),
  unit('mH', 'mH', 'inductance', 1e-3),
  unit('nF', 'nF', 'capacitance', 1e-9),
  unit('pF', 'pF', 'capacitance', 1e-12),
  unit('uF', '\u00B5F', 'capacitance', 1e-6, { more: MICRO_SIGNS.map((sign) => `${sign}F`) }),
  unit('F', 'F', 'capacitance', 1),
  unit('pF/m', 'pF/m', 'capacitance per length', 1e-12),
  unit('mm', 'mm', 'length', 1e-3),
  unit('um', '\u00B5m', 'length', 1e-6, { more: MICRO_SIGNS.map((sign) => `${sign}m`) }),
  unit('cm', 'cm', 'length', 1e-2),
  unit('m', 'm', 'length', 1),
  unit('in', 'in', 'length', 0.0254),
  unit('thou', 'thou', 'length', 25.4e-6),
  unit('AWG', 'AWG', 'gauge', 1),
  unit('turns', 'turns', 'turns', 1, { more: ['turn'] }),
  unit('degC', '\u00B0C', 'temperature', 1, { offset: 273.15, more: ['\u00B0C'] }),
  unit('degF', '\u00B0F', 'temperature', 5 / 9, { offset: 273.15 - (32 * 5) / 9, more: ['\u00B0F'] }),
  unit('K', 'K', 'temperature', 1),
  unit('kHz', 'kHz', 'frequency', 1e3),
  unit('Hz', 'Hz', 'frequency', 1),
  unit('T', 'T', 'flux density', 1),
  unit('mT', 'mT', 'flux density', 1e-3),
  unit('G', 'G', 'flux density', 1e-4),
  unit('kA/m', 'kA/m', 'field strength', 1e3),
  unit('Oe', 'Oe', 'field strength', 1000 / (4 * Math.PI)),
  unit('A/m', 'A/m', 'field strength', 1),
  unit('g', 'g', 'mass', 1e-3),
  unit('kg', 'kg', 'mass', 1),
  unit('min', 'min', 'time', 60),
  unit('s', 's', 'time', 1),
  unit('h', 'h', 'time', 3600),
  unit('%', '%', 'percentage', 1e-2),
  unit('rpm', 'rpm', 'rotation speed', 1 / 60),
  unit('dB', 'dB', 'level', 1),
];

const BY_SPELLING: ReadonlyMap<string, Unit> = new Map(
  UNITS.flatMap((row) => row.spellings.map((text) => [text, row])),
);

/** The unit of this spelling. Letter case counts: `mH` is not `MH`, `G` is gauss and never giga. */
export function unitOf(symbol: string): Unit | undefined {
  return BY_SPELLING.get(symbol);
}

export function dimensionOf(symbol: string): Dimension | undefined {
  return unitOf(symbol)?.dimension;
}

/** The symbols of a dimension as the formatter writes them, the most usual first. */
export function symbolsOf(dimension: Dimension): readonly string[] {
  return UNITS.filter((row) => row.dimension === dimension).map((row) => row.symbol);
}

/** A written value in SI; `undefined` where the symbol is unknown or belongs to another dimension. */
export function toSi(value: number, symbol: string, dimension: Dimension): number | undefined {
  const row = unitOf(symbol);
  return row?.dimension === dimension ? value * row.factor + row.offset : undefined;
}

/**
 * The unit a winder most likely left out, from the size of the bare number: 7.3 of resistance is kilohm, 7300 is ohm.
 * The bounds lie between the sizes that occur in pickups, controls and cables (common practice, no published source).
 */
export function likelyUnit(dimension: Dimension, value: number): string {
  const size = Math.abs(value);
  switch (dimension) {
    case 'resistance':
      return size < 1000 ? 'kohm' : 'ohm';
    case 'inductance':
      return size < 50 ? 'H' : 'mH';
    case 'capacitance':
      return size < 1 ? 'uF' : size < 50 ? 'nF' : 'pF';
    case 'frequency':
      return size < 20 ? 'kHz' : 'Hz';
    case 'temperature':
      return size < 100 ? 'degC' : 'degF';
    case 'flux density':
      return size < 3 ? 'T' : size < 1500 ? 'mT' : 'G';
    case 'field strength':
      return size < 300 ? 'kA/m' : size < 10_000 ? 'Oe' : 'A/m';
    case 'resistance per length':
      return 'ohm/m';
    case 'capacitance per length':
      return 'pF/m';
    case 'length':
      return 'mm';
    case 'gauge':
      return 'AWG';
    case 'turns':
      return 'turns';
    case 'mass':
      return 'g';
    case 'time':
      return 'min';
    case 'percentage':
      return '%';
    case 'rotation speed':
      return 'rpm';
    case 'level':
      return 'dB';
  }
}

const RESISTANCE_CODE: Readonly<Record<string, number>> = { L: 1e-3, R: 1, K: 1e3, k: 1e3, M: 1e6, G: 1e9, T: 1e12 };
const CAPACITANCE_CODE: Readonly<Record<string, number>> = { p: 1e-12, n: 1e-9, u: 1e-6, m: 1e-3, F: 1 };

/**
 * The multiplier that a letter stands for inside an IEC 60062 code (`4k7`, `22n`) of this dimension, in ohm or farad.
 * The standard writes K; the trade writes k as often, so both are read. `u` is read for µ.
 */
export function codeMultiplier(letter: string, dimension: Dimension): number | undefined {
  const key = MICRO_SIGNS.some((sign) => sign === letter) ? 'u' : letter;
  const scale = dimension === 'resistance' ? RESISTANCE_CODE : dimension === 'capacitance' ? CAPACITANCE_CODE : {};
  return Object.hasOwn(scale, key) ? scale[key] : undefined;
}

function unit(
  symbol: string,
  printed: string,
  dimension: Dimension,
  factor: number,
  { offset = 0, more = [], ohm }: { offset?: number; more?: readonly string[]; ohm?: string } = {},
): Unit {
  const ohms = ohm === undefined ? [] : OHM_SIGNS.map((sign) => ohm + sign);
  return { symbol, printed, spellings: [...new Set([symbol, printed, ...more, ...ohms])], dimension, factor, offset };
}
