/**
 * A curve over frequency as a file holds it: rows of a ratio of two voltages or of an impedance, each column named with its unit; or
 * a one-port in Touchstone form. Text in, curve or complaint out, remembered by the text.
 */
import { recent } from '../../../grammar/values/remember.ts';
import { type Complaint, type Curve, type CurveFile, type CurvePoint, complaint, type RowsRead } from './curve.ts';
import { readTouchstone } from './touchstone.ts';

const MOST_CURVE_BYTES = 5 * 1024 * 1024;
const MOST_ROWS = 20_000;
/** Fewer say nothing of a coil, its capacitance and its losses together. */
const LEAST_ROWS = 8;

const kept = recent<string, CurveFile>(64);

/** Files that may hold a curve, by their names. */
export const isCurveName = (name: string): boolean =>
  CURVE_ENDINGS.some((ending) => name.toLowerCase().endsWith(`.${ending}`));

export const CURVE_ENDINGS = ['csv', 'z1p', 's1p'] as const;

export const curveFile = (text: string): CurveFile => kept(text, () => read(text));

function read(text: string): CurveFile {
  if (text.length > MOST_CURVE_BYTES)
    return complaint(
      undefined,
      `it has ${(text.length / 1024 / 1024).toFixed(1)} MB, more than the ${MOST_CURVE_BYTES / 1024 / 1024} MB that a curve may have.`,
    );
  if (text.trim() === '') return complaint(undefined, 'the file is empty.');
  if (text.includes('\0')) return complaint(undefined, 'it is not text.');
  const rows = text.split(/\r\n|\n|\r/);
  const rowsRead = readTouchstone(rows) ?? readColumns(rows);
  if ('kind' in rowsRead) return rowsRead;
  const { points } = rowsRead;
  if (points.length < LEAST_ROWS)
    return complaint(undefined, `${points.length} rows of numbers; a fit asks for at least ${LEAST_ROWS}.`);
  if (points.length > MOST_ROWS)
    return complaint(undefined, `${points.length} rows, more than the ${MOST_ROWS} that a curve may have.`);
  const faulty = points.findIndex((point, index) => faultOf(point, points[index - 1]) !== undefined);
  const fault = points[faulty] && faultOf(points[faulty], points[faulty - 1]);
  if (fault !== undefined) return complaint(points[faulty]?.row, fault);
  const phases = points.flatMap(({ phase }) => phase ?? []);
  const deviations = points.flatMap(({ relativeSd }) => relativeSd ?? []);
  return {
    kind: 'curve',
    quantity: rowsRead.quantity,
    rows: points.map(({ row }) => row),
    hz: points.map(({ hz }) => hz),
    magnitude: points.map(({ magnitude }) => magnitude),
    phase: phases.length === points.length ? phases : undefined,
    relativeSd: deviations.length === points.length ? deviations : undefined,
  };
}

function faultOf({ hz, magnitude, relativeSd }: CurvePoint, before: CurvePoint | undefined): string | undefined {
  if (!(hz > 0)) return 'a frequency is above 0 Hz.';
  if (before && !(hz > before.hz))
    return `the frequency ${hz} Hz is not above that of the row before (${before.hz} Hz); frequencies rise from row to row.`;
  if (!(magnitude > 0 && Number.isFinite(magnitude))) return 'nothing at all was measured here; leave the row out.';
  if (relativeSd !== undefined && !(relativeSd >= 0)) return 'a deviation is not below 0.';
  return undefined;
}

/** Columns by what they hold, with the units each may have and what these are in SI; radians and factors for phase and level. */
const COLUMNS = {
  frequency: { Hz: 1, kHz: 1e3 },
  level: { dB: Math.LN10 / 20 },
  'level sd': { dB: Math.LN10 / 20 },
  phase: { deg: Math.PI / 180, rad: 1 },
  impedance: { ohm: 1, kohm: 1e3, Mohm: 1e6 },
  resistance: { ohm: 1, kohm: 1e3, Mohm: 1e6 },
  reactance: { ohm: 1, kohm: 1e3, Mohm: 1e6 },
  inductance: { H: 1, mH: 1e-3 },
  ratio: {},
  real: {},
  imaginary: {},
  quality: {},
} as const satisfies Readonly<Record<string, Readonly<Record<string, number>>>>;

type ColumnName = keyof typeof COLUMNS;

interface Column {
  readonly name: ColumnName;
  readonly title: string;
  readonly index: number;
  readonly factor: number;
}

function readColumns(lines: readonly string[]): RowsRead | Complaint {
  const rows = lines.flatMap((text, index) =>
    text.trim() === '' || text.trimStart().startsWith('#') ? [] : [{ text, row: index + 1 }],
  );
  const [header, ...rest] = rows;
  if (!header) return complaint(undefined, 'there are no rows but comments.');
  const between = header.text.includes('\t') ? '\t' : header.text.includes(';') ? ';' : ',';
  const titles = cellsOf(header.text, between);
  if (titles.every((title) => numberIn(title, between) !== undefined))
    return complaint(
      header.row,
      'there is no header; the first row names the columns, as in frequency Hz, level dB, phase deg.',
    );
  const columns = titles.map(columnOf);
  const wrong = columns.find((column) => typeof column === 'string');
  if (typeof wrong === 'string') return complaint(header.row, wrong);
  const known = columns.flatMap((column) => (column === undefined || typeof column === 'string' ? [] : [column]));
  const meaning = meaningOf(known);
  if (typeof meaning === 'string') return complaint(header.row, meaning);
  const points: CurvePoint[] = [];
  for (const { text, row } of rest) {
    const cells = cellsOf(text, between);
    if (cells.length !== titles.length)
      return complaint(row, `${counted(cells.length)} where the header names ${titles.length}.`);
    const values = new Map<ColumnName, number>();
    for (const { name, title, index, factor } of known) {
      const value = numberIn(cells[index] ?? '', between);
      if (value === undefined)
        return complaint(row, `\`${shortened(cells[index] ?? '')}\` in the column ${title} is no number.`);
      values.set(name, value * factor);
    }
    points.push({ row, ...meaning.read((name) => values.get(name) ?? Number.NaN) });
  }
  return { quantity: meaning.quantity, points };
}

const counted = (columns: number): string => `${columns} ${columns === 1 ? 'column' : 'columns'}`;
const shortened = (cell: string): string => (cell.length > 20 ? `${cell.slice(0, 20)}…` : cell);

const cellsOf = (text: string, between: string): readonly string[] =>
  text.split(between).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));

/** A comma stands for the point where no comma parts the columns. */
function numberIn(cell: string, between: string): number | undefined {
  const text = between === ',' ? cell : cell.replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : undefined;
}

/** `undefined`: a column that nobody asks for; a text: what is wrong with it. */
function columnOf(title: string, index: number): Column | string | undefined {
  const [, written = '', unit = ''] = /^(.*?)[\s_]*[([]?([\p{L}\u2126]*)[)\]]?$/u.exec(title) ?? [];
  const spaced = (text: string) => text.replaceAll('_', ' ').trim().toLowerCase();
  const name = names.find((each) => each === spaced(written)) ?? names.find((each) => each === spaced(title));
  if (name === undefined) return undefined;
  const units: Readonly<Record<string, number>> = COLUMNS[name];
  const spellings = Object.keys(units);
  const isBare = name === spaced(title);
  if (spellings.length === 0) return isBare ? { name, title, index, factor: 1 } : undefined;
  const choices = spellings.map((each) => `${name} ${each}`).join(' or ');
  if (isBare) return `the column ${name} has no unit. Write ${choices}.`;
  const plain = unit.replace(/[\u03A9\u2126]/u, 'ohm');
  // Upper and lower case part mH from MH only.
  const right =
    spellings.find((each) => each === plain) ?? spellings.find((each) => each.toLowerCase() === plain.toLowerCase());
  if (right === undefined) return `the column ${name} is in ${unit}. Write ${choices}.`;
  return { name, title, index, factor: units[right] ?? 1 };
}

const names = Object.keys(COLUMNS) as readonly ColumnName[];

interface Meaning {
  readonly quantity: Curve['quantity'];
  readonly read: (value: (name: ColumnName) => number) => Omit<CurvePoint, 'row'>;
}

/** What the columns say together; a text: what is missing. */
function meaningOf(columns: readonly Column[]): Meaning | string {
  const has = (name: ColumnName) => columns.some((column) => column.name === name);
  const twice = columns.find((column, index) => columns.findIndex(({ name }) => name === column.name) !== index);
  if (twice) return `there are two columns ${twice.name}.`;
  if (!has('frequency')) return 'there is no column of frequencies. Write frequency Hz or frequency kHz.';
  type Value = Parameters<Meaning['read']>[0];
  const polar = (magnitude: (value: Value) => number) => (value: Value) => ({
    hz: value('frequency'),
    magnitude: magnitude(value),
    phase: has('phase') ? value('phase') : undefined,
    relativeSd: has('level sd') ? value('level sd') : undefined,
  });
  const cartesian = (parts: (value: Value) => readonly [number, number]) => (value: Value) => {
    const [real, imaginary] = parts(value);
    return {
      hz: value('frequency'),
      magnitude: Math.hypot(real, imaginary),
      phase: Math.atan2(imaginary, real),
      relativeSd: has('level sd') ? value('level sd') : undefined,
    };
  };
  if (has('level')) return { quantity: 'ratio', read: polar((value) => Math.exp(value('level'))) };
  if (has('ratio')) return { quantity: 'ratio', read: polar((value) => value('ratio')) };
  if (has('real') && has('imaginary'))
    return { quantity: 'ratio', read: cartesian((value) => [value('real'), value('imaginary')]) };
  if (has('impedance')) return { quantity: 'impedance', read: polar((value) => value('impedance')) };
  if (has('resistance') && has('reactance'))
    return { quantity: 'impedance', read: cartesian((value) => [value('resistance'), value('reactance')]) };
  if (has('inductance') && (has('resistance') || has('quality')))
    return {
      quantity: 'impedance',
      read: cartesian((value) => {
        const reactance = 2 * Math.PI * value('frequency') * value('inductance');
        return [has('resistance') ? value('resistance') : reactance / value('quality'), reactance];
      }),
    };
  return 'no column says what was measured: level dB or ratio, real and imaginary, impedance ohm, or resistance ohm and reactance ohm.';
}
