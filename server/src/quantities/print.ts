/**
 * Numbers as people read them. The uncertainty keeps one digit, two where it starts with 1 or 2, and the value stops at the same
 * place (the usual rule of measurement reports). `plain` is for terminals without Unicode and for files that machines read.
 */
import { type Dimension, type Unit, unitOf } from '../../../grammar/values/unit-table.ts';

export type Style = 'typographic' | 'plain' | LocalStyle;

/** As typographic, in the signs and words of another language than English. */
export interface LocalStyle {
  readonly decimalSign: string;
  /** Units that are words there, by their symbol. */
  readonly units: Readonly<Record<string, string>>;
  readonly unknown: string;
}

/** How a value that is not finite is told. */
const unknownIn = (style: Style | undefined): string => (typeof style === 'object' ? style.unknown : 'unknown');

const NARROW_SPACE = '\u202F';
const MINUS = '\u2212';

/** A deviation this small a part of its value is what the arithmetic left over, no uncertainty. */
const ROUNDING = 1e-9;

/** What is computed and never written in a spec has no unit of the language. */
export type PrintedDimension = Dimension | 'area' | 'ratio';

type PrintedUnit = Pick<Unit, 'symbol' | 'printed' | 'factor' | 'offset'>;

export interface PrintableQuantity {
  /** SI. */
  readonly value: number;
  /** One standard deviation in SI; left out or 0: nothing is known of it, and `digits` significant digits are printed. */
  readonly sd?: number;
  readonly dimension: PrintedDimension;
  /** Unit symbol; left out: the usual one for a value of this size. */
  readonly unit?: string;
  /** Significant digits where there is no uncertainty; 3 unless given. Trailing zeros are dropped. */
  readonly digits?: number;
  /** Decimals that are printed at most, however small the uncertainty; as many as it allows unless given. */
  readonly decimals?: number;
  readonly style?: Style;
}

/** The parts of a printed quantity, for tables and drawings that set the uncertainty or the unit apart. */
export interface PrintedParts {
  readonly value: string;
  /** Without the ±; left out where no uncertainty is known. */
  readonly uncertainty?: string;
  readonly unit: string;
}

/** `4.06 ± 0.03 kΩ`, `5 060 ± 220 turns`, `21 °C`; plain: `4.06 +- 0.03 kohm`. A value that is not finite is `unknown`. */
export function printQuantity(quantity: PrintableQuantity): string {
  const style = quantity.style ?? 'typographic';
  const { value, uncertainty, unit } = printParts(quantity);
  if (value === 'unknown') return unknownIn(style);
  const number = uncertainty === undefined ? value : `${value} ${style === 'plain' ? '+-' : '±'} ${uncertainty}`;
  return joinUnit(number, unit, style);
}

/** `4.06 kΩ`: the value to the place that its uncertainty allows, the uncertainty itself left out. */
export function printValue(quantity: PrintableQuantity): string {
  const { value, unit } = printParts(quantity);
  return value === 'unknown' ? unknownIn(quantity.style) : joinUnit(value, unit, quantity.style);
}

export function printParts({
  value,
  sd,
  dimension,
  unit,
  digits = 3,
  decimals = Number.POSITIVE_INFINITY,
  style = 'typographic',
}: PrintableQuantity): PrintedParts {
  const row = (unit === undefined ? undefined : printedUnit(unit)) ?? usualUnit(dimension, value, digits);
  const name =
    style === 'plain' ? row.symbol : ((typeof style === 'object' ? style.units[row.symbol] : undefined) ?? row.printed);
  if (!Number.isFinite(value)) return { value: 'unknown', unit: name };
  const written = (value - row.offset) / row.factor;
  const deviation = (sd ?? 0) / row.factor;
  if (!(deviation > Math.abs(written) * ROUNDING))
    return { value: exactly(written, digits, decimals, style), unit: name };
  if (!Number.isFinite(deviation)) return { value: 'unknown', unit: name };
  const { place, rounded } = roundUncertainty(deviation, decimals);
  return { value: printNumber(written, -place, style), uncertainty: printNumber(rounded, -place, style), unit: name };
}

/** A count: whole, in groups of three from 1 000. */
export function printCount(count: number, style: Style = 'typographic'): string {
  return Number.isFinite(count) ? printNumber(count, 0, style) : unknownIn(style);
}

/** `21 °C`, `21.5 °C`: nobody reads the copper of a coil closer than a tenth of a degree. */
export function printCelsius(celsius: number, style: Style = 'typographic'): string {
  const rounded = roundTo(celsius, 1);
  return joinUnit(printNumber(rounded, Number.isInteger(rounded) ? 0 : 1, style), '°C');
}

/** A level in whole decibels: `−27 dB`; with `signed`, `+6 dB`. */
export function printDb(
  level: number,
  { style = 'typographic', signed = false }: { style?: Style; signed?: boolean } = {},
): string {
  if (!Number.isFinite(level)) return unknownIn(style);
  const number = printNumber(level, 0, style);
  const plus = signed && Math.round(level) > 0 ? '+' : '';
  return joinUnit(`${plus}${number}`, 'dB', style);
}

/**
 * A level that cannot be bounded below: near a null it is known to so little, or lies so deep, that only its upper bound says
 * something.
 */
export const onlyBoundedAbove = ({ value, sd }: { readonly value: number; readonly sd: number }): boolean =>
  Number.isFinite(sd) && (sd > UNBOUNDED_SD_DB || value < NULL_DB);

/** Above this deviation a level near a null is only bounded from above, in dB. Common practice, no published source. */
const UNBOUNDED_SD_DB = 3;
/** A level below this is a null, not a number: a hundredth of what it is measured against. Common practice, no published source. */
export const NULL_DB = -40;

/** A number with this many decimals; negative decimals round to tens, hundreds … Groups of three from 1 000. */
export function printNumber(value: number, decimals: number, style: Style = 'typographic'): string {
  const rounded = roundTo(Math.abs(value), decimals);
  const text = rounded.toFixed(Math.min(Math.max(decimals, 0), 100));
  const negative = value < 0 && Number(text) !== 0;
  if (style === 'plain') return negative ? `-${text}` : text;
  const [whole = '', fraction] = text.split('.');
  const grouped = /^\d+$/.test(whole) ? whole.replace(/\B(?=(\d{3})+$)/g, NARROW_SPACE) : whole;
  return `${negative ? MINUS : ''}${grouped}${fraction === undefined ? '' : `${decimalSign(style)}${fraction}`}`;
}

const decimalSign = (style: Style): string => (typeof style === 'object' ? style.decimalSign : '.');

/**
 * An uncertainty rounded to one digit, to two where it starts with 1 or 2, and the power of ten of its last digit.
 * 0.0286 is 0.029 (place -3), 0.034 is 0.03 (place -2), 0.096 becomes 0.10 (place -2). With at most so many `decimals`, it is at
 * least one of the last.
 */
export function roundUncertainty(
  sd: number,
  decimals = Number.POSITIVE_INFINITY,
): { readonly rounded: number; readonly place: number } {
  const exponent = exponentOf(sd);
  const twoDigits = roundTo(sd, 1 - exponent);
  const startsLow = twoDigits < 2.95 * 10 ** exponent;
  const place = Math.max(startsLow ? exponent - 1 : exponent, -decimals);
  return { rounded: Math.max(roundTo(sd, -place), roundTo(10 ** place, -place)), place };
}

/** Half away from zero. Shifting the written exponent keeps 1.005 from turning into 1.00499…, as multiplying would. */
function roundTo(value: number, decimals: number): number {
  const [digits = '0', exponent = '0'] = String(value).split('e');
  const shifted = Number(`${digits}e${Number(exponent) + decimals}`);
  if (!Number.isFinite(shifted) || shifted > Number.MAX_SAFE_INTEGER) return value;
  return Number(`${Math.round(shifted)}e${-decimals}`);
}

function exponentOf(value: number): number {
  return Number(value.toExponential().split('e')[1]);
}

/** A number without a ±: so many digits, or whole decimals where those are limited. */
const exactly = (value: number, digits: number, decimals: number, style: Style): string =>
  Number.isFinite(decimals) ? printNumber(value, decimals, style) : printSignificant(value, digits, style);

function printSignificant(value: number, digits: number, style: Style): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(digits));
  const exponent = exponentOf(rounded);
  // Digits before the point are all shown: 7 310 turns stay 7 310, only decimals are cut.
  const decimals = Math.min(Math.max(digits - 1 - exponent, 0), 100);
  const text = printNumber(value, decimals, style);
  return text.includes(decimalSign(style)) ? text.replace(/[.,]?0+$/, '') : text;
}

/** Words and AWG keep an ordinary space; symbols stand behind a narrow one that does not break. */
export function joinUnit(number: string, unit: string, style: Style = 'typographic'): string {
  if (unit === '') return number;
  return `${number}${style === 'plain' || isWord(unit) ? ' ' : NARROW_SPACE}${unit}`;
}

const isWord = (unit: string): boolean => unit === 'AWG' || /^\p{L}{5,}$/u.test(unit);

/** Units that nobody writes in a spec. */
const OWN_UNITS: Readonly<Record<string, PrintedUnit>> = {
  m2: { symbol: 'm2', printed: 'm²', factor: 1, offset: 0 },
  mm2: { symbol: 'mm2', printed: 'mm²', factor: 1e-6, offset: 0 },
  '': { symbol: '', printed: '', factor: 1, offset: 0 },
};

/** A number in SI as it stands before a unit. */
export function inUnit(value: number, symbol: string): number {
  const unit = printedUnit(symbol);
  return unit ? (value - unit.offset) / unit.factor : value;
}

const printedUnit = (symbol: string): PrintedUnit | undefined => OWN_UNITS[symbol] ?? unitOf(symbol);

/** From this SI size on (as printed) the unit serves; the last of each list serves everything smaller. */
const USUAL: Readonly<Record<PrintedDimension, readonly (readonly [from: number, symbol: string])[]>> = {
  resistance: [
    [1e6, 'Mohm'],
    [1e3, 'kohm'],
    [0, 'ohm'],
  ],
  'resistance per length': [[0, 'ohm/m']],
  inductance: [
    [1, 'H'],
    [0, 'mH'],
  ],
  capacitance: [
    [1e-6, 'uF'],
    [1e-9, 'nF'],
    [0, 'pF'],
  ],
  'capacitance per length': [[0, 'pF/m']],
  length: [
    [1, 'm'],
    [0, 'mm'],
  ],
  gauge: [[0, 'AWG']],
  turns: [[0, 'turns']],
  temperature: [[0, 'degC']],
  frequency: [
    [1e3, 'kHz'],
    [0, 'Hz'],
  ],
  'flux density': [
    [1, 'T'],
    [0, 'mT'],
  ],
  'field strength': [
    [1e3, 'kA/m'],
    [0, 'A/m'],
  ],
  mass: [
    [1, 'kg'],
    [0, 'g'],
  ],
  time: [
    [3600, 'h'],
    [60, 'min'],
    [0, 's'],
  ],
  percentage: [[0, '%']],
  'rotation speed': [[0, 'rpm']],
  level: [[0, 'dB']],
  area: [
    [0.01, 'm2'],
    [0, 'mm2'],
  ],
  ratio: [[0, '']],
};

function usualUnit(dimension: PrintedDimension, value: number, digits: number): PrintedUnit {
  const size = Number.isFinite(value) ? Number(Math.abs(value).toPrecision(Math.max(digits, 1))) : 0;
  const symbol = USUAL[dimension].find(([from]) => size >= from)?.[1] ?? '';
  return printedUnit(symbol) ?? { symbol, printed: symbol, factor: 1, offset: 0 };
}
