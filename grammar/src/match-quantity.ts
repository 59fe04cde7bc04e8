/** Numbers with their units: quantities, counts, percentages and sizes. */

import { grouped, quantityOf, type WrittenQuantity, type WrittenUncertainty } from '../values/quantity.ts';
import { type Dimension, dimensionOf, likelyUnit, symbolsOf } from '../values/unit-table.ts';
import { capital } from './capital.ts';
import { type Attempt, fail, isPunctuation, type Match, tell, wordOf } from './match-attempt.ts';
import { nearest } from './nearest.ts';
import type { Shape } from './schema/shape.ts';
import { joinSpans, type Span, spanOf } from './span.ts';
import { fixAt, problemAt, replaceFix, type SyntaxProblem } from './syntax-problem.ts';
import type { Item, NumberItem, WrittenFault } from './syntax-tree.ts';

type ShapeOf<K extends Shape['kind']> = Extract<Shape, { kind: K }>;

export interface Limits {
  readonly min?: number;
  readonly max?: number;
  readonly exclusiveMin?: boolean;
  readonly exclusiveMax?: boolean;
}

export function matchQuantity(attempt: Attempt, index: number, shape: ShapeOf<'quantity'>): Match | undefined {
  const { dimension } = shape;
  const item = numberAt(attempt.items[index]);
  if (!item) return fail(attempt, index, { label: dimensionLabel(dimension), shape });
  const number = readNumber(attempt, index, item, dimension);
  let { unit, uncertainty, next } = number;
  if (unit === undefined) {
    // `7.8 ± 0.05 kohm`: one unit serves both.
    if (uncertainty?.unit !== undefined && uncertainty.unit !== '%') {
      unit = uncertainty.unit;
      uncertainty = { value: uncertainty.value, unit: undefined };
    } else ({ next, unit, uncertainty } = tellUnit(attempt, item, number, dimension, shape.likely));
  }
  tellRange(attempt, item, shape, unit);
  const value = written({ ...number, unit, uncertainty, next }, dimension, attempt, index);
  tellWithoutValue(attempt, value);
  return { value, next };
}

export function matchCount(attempt: Attempt, index: number, shape: ShapeOf<'count'>): Match | undefined {
  const item = numberAt(attempt.items[index]);
  if (!item) return fail(attempt, index, { label: shape.unit ? 'a number of turns' : 'a count', shape });
  const fault = countFault(item);
  const [reading] = fault?.readings ?? [];
  const meant =
    fault?.readings.length === 1 && reading !== undefined
      ? { ...item, value: Number(reading.replaceAll('_', '')), decimals: 0, code: undefined, fault: undefined }
      : { ...item, code: undefined, fault: undefined };
  const number = readNumber(attempt, index, meant, 'turns', shape.unit === undefined);
  if (fault) tellFault(attempt, item.span, fault);
  else if (!Number.isInteger(item.value)) {
    tell(attempt, {
      code: 'value/range',
      span: item.span,
      message: 'A count is a whole number.',
      action: 'Write it without a fraction.',
    });
  } else tellRange(attempt, item, shape, undefined);
  return { value: written(number, 'turns', attempt, index), next: number.next };
}

/** A count has no decimals: a point or comma in it parts thousands, or stands before nothing. */
function countFault({ text, code, value, fault }: NumberItem): WrittenFault | undefined {
  const thousands = /^[1-9]\d{0,2}(?:[.,]\d{3})+$/.test(text) ? [text.replace(/[.,]/g, '_')] : [];
  const whole = /^(\d+(?:_\d{3})*)[.,]0+$/.exec(text)?.[1];
  const readings = [...thousands, ...(whole === undefined ? [] : [whole])];
  if (readings.length > 0)
    return { message: 'A count has no decimals, and its groups of digits are parted by `_`.', readings };
  if (code === undefined) return fault;
  const full = Math.round(value * 1000);
  const isThousands = code.toLowerCase() === 'k' && Math.abs(full - value * 1000) < 1e-6;
  return { message: 'A count is written out, as in `5_000`.', readings: isThousands ? [grouped(full)] : [] };
}

/** Tells how the item is wrongly written; where it may mean more than one thing, its value stays open. */
export function tellFault(attempt: Attempt, span: Span, { message, readings }: WrittenFault): void {
  const fixes = readings.map((reading) => replaceFix(span, reading));
  tell(
    attempt,
    { code: 'syntax/number', span, message, ...(fixes.length > 0 ? { fixes } : { action: 'Write the number anew.' }) },
    readings.length === 1,
  );
}

/** A bare number between limits. */
export function matchNumber(attempt: Attempt, index: number, shape: ShapeOf<'number'>): Match | undefined {
  const item = numberAt(attempt.items[index]);
  if (!item || item.code !== undefined) return fail(attempt, index, { label: 'a number', shape });
  const number = readNumber(attempt, index, item, 'percentage', true);
  tellRange(attempt, item, shape, undefined);
  return { value: written(number, 'percentage', attempt, index), next: number.next };
}

export function matchPercent(attempt: Attempt, index: number, shape: Shape): Match | undefined {
  const item = numberAt(attempt.items[index]);
  if (!item) return fail(attempt, index, { label: 'a percentage such as `80 %`', shape });
  const number = readNumber(attempt, index, item, 'percentage');
  const { next, uncertainty } = number.unit === undefined ? tellUnit(attempt, item, number, 'percentage') : number;
  tellRange(attempt, item, { min: 0, max: 100 }, '%');
  return { value: written({ ...number, uncertainty, next }, 'percentage', attempt, index), next };
}

/** `58.0 x 5.2 mm`: a unit at the end serves every part that has none. */
export function matchSize(attempt: Attempt, index: number, shape: ShapeOf<'size'>): Match | undefined {
  const { dimension, parts } = shape;
  const label = `a size: ${parts.join(' x ')}`;
  const read: { readonly item: NumberItem; number: ReadNumber; readonly index: number }[] = [];
  let at = index;
  for (const part of parts) {
    if (read.length > 0) {
      if (wordOf(attempt.items[at]) !== 'x')
        return fail(attempt, at, { label: `\`x\` and the ${part} (${label})`, words: ['x'], shape });
      at++;
    }
    const item = numberAt(attempt.items[at]);
    if (!item) return fail(attempt, at, { label: read.length > 0 ? `the ${part} (${label})` : label, shape });
    const number = readNumber(attempt, at, item, dimension);
    read.push({ item, number, index: at });
    at = number.next;
  }
  const last = read.at(-1);
  let unit = last?.number.unit;
  if (last && unit === undefined) {
    if (wordOf(attempt.items[at]) === 'x') return fail(attempt, at, { label: `the end of ${label}` });
    const told = tellUnit(attempt, last.item, last.number, dimension);
    ({ next: at, unit } = told);
    last.number = { ...last.number, uncertainty: told.uncertainty };
  }
  const value: Record<string, unknown> = {};
  for (const [position, { item, number, index: itemIndex }] of read.entries()) {
    tellRange(attempt, item, { min: 0, exclusiveMin: true }, unit);
    const own = number.unit ?? unit;
    const captured = written({ ...number, unit: own }, dimension, attempt, itemIndex);
    const text = number.unit === undefined && own !== undefined ? `${captured.value.text} ${own}` : captured.value.text;
    value[parts[position] ?? ''] = { ...captured, value: { ...captured.value, text } };
  }
  return { value, next: at };
}

interface ReadNumber {
  readonly item: NumberItem;
  /** Symbol, or the letter of a code. */
  readonly unit: string | undefined;
  readonly code: boolean;
  readonly uncertainty: WrittenUncertainty | undefined;
  readonly next: number;
}

/** Number, unit of the dimension, uncertainty: whatever of them stands there. */
function readNumber(attempt: Attempt, index: number, item: NumberItem, dimension: Dimension, bare = false): ReadNumber {
  if (item.fault) tellFault(attempt, item.span, item.fault);
  let next = index + 1;
  let unit: string | undefined;
  let code = false;
  if (item.code !== undefined) {
    const ofCode = CODE_LETTERS[dimension];
    if (item.text.endsWith(item.code) && dimensionOf(item.code) === dimension) unit = item.code;
    else if (ofCode?.includes(item.code)) {
      unit = item.code;
      code = true;
    }
  } else if (!bare) {
    unit = unitAt(attempt, next, dimension);
    if (unit !== undefined) next++;
    else fail(attempt, next, { label: `a unit of ${dimension}`, unitOf: dimension });
  }
  const uncertainty = readUncertainty(attempt, next, dimension, bare);
  return { item, unit, code, uncertainty: uncertainty?.value, next: uncertainty?.next ?? next };
}

function readUncertainty(
  attempt: Attempt,
  index: number,
  dimension: Dimension,
  bare: boolean,
): { value: WrittenUncertainty; next: number } | undefined {
  if (!isPunctuation(attempt.items[index], '±')) return undefined;
  const item = numberAt(attempt.items[index + 1]);
  if (!item) {
    fail(attempt, index + 1, { label: 'how large the uncertainty is' });
    return undefined;
  }
  if (item.fault) tellFault(attempt, item.span, item.fault);
  if (item.value < 0) {
    tell(attempt, {
      code: 'value/range',
      span: item.span,
      message: 'An uncertainty is not below 0.',
      action: 'Write it without a sign.',
    });
  }
  const next = index + 2;
  if (item.code !== undefined) return { value: { value: item.value, unit: item.code }, next };
  const percent = wordOf(attempt.items[next]) === '%' ? '%' : undefined;
  const unit = percent ?? (bare ? undefined : unitAt(attempt, next, dimension));
  return { value: { value: item.value, unit }, next: unit === undefined ? next : next + 1 };
}

const CODE_LETTERS: Readonly<Partial<Record<Dimension, string>>> = { resistance: 'RkKM', capacitance: 'pnum' };

/** The number at an item; `p82` is a code whose letter stands first. */
function numberAt(item: Item | undefined): NumberItem | undefined {
  if (item?.kind === 'number') return item;
  if (item?.kind !== 'word') return undefined;
  const code = /^([RpnuµμkKM])(\d+)$/.exec(item.text);
  const [, letter, digits] = code ?? [];
  if (letter === undefined || digits === undefined || digits.length > 15) return undefined;
  return {
    kind: 'number',
    span: item.span,
    text: item.text,
    value: Number(`0.${digits}`),
    decimals: digits.length,
    code: letter === 'µ' || letter === 'μ' ? 'u' : letter,
    fault: undefined,
  };
}

function unitAt(attempt: Attempt, index: number, dimension: Dimension): string | undefined {
  const text = wordOf(attempt.items[index]);
  return text !== undefined && dimensionOf(text) === dimension ? text : undefined;
}

/**
 * Tells that the unit is missing or wrong: the unit that is plainly meant by a wrong one, and the uncertainty and the index behind it,
 * so that reading goes on.
 */
function tellUnit(
  attempt: Attempt,
  item: NumberItem,
  number: ReadNumber,
  dimension: Dimension,
  likely = likelyUnit(dimension, item.value),
): Pick<ReadNumber, 'unit' | 'uncertainty' | 'next'> {
  const { next, uncertainty } = number;
  const follower = attempt.items[next];
  const symbols = symbolsOf(dimension);
  const only = symbols.length === 1 ? symbols[0] : undefined;
  const usual = only === undefined ? `a unit of ${dimension}, such as \`${symbols[0] ?? ''}\`` : `\`${only}\``;
  if (item.code !== undefined) {
    const message = `\`${item.text}\` is no ${dimension}: it takes ${usual}.`;
    tell(attempt, { code: 'unit/wrong', span: item.span, message, action: 'State the value with such a unit.' });
    return { next, unit: undefined, uncertainty };
  }
  const written = follower?.kind === 'word' || follower?.kind === 'code' ? follower : undefined;
  if (written) {
    const meant = nearestUnits(written.text, symbols, dimension, item.value);
    const isGlued = written.span.start === item.span.end;
    const known = dimensionOf(written.text);
    if (meant.length > 0 || isGlued || known !== undefined) {
      const of = known === undefined ? 'is no unit' : `is a unit of ${known}`;
      const units = meant.length === 0 && only !== undefined ? [only] : meant;
      const message = `\`${written.text}\` ${of}: ${dimensionName(dimension)} takes ${usual}.`;
      const isPlain = meant.length === 1 && meant[0] !== undefined && isSameUnit(written.text, meant[0]);
      tell(attempt, wrongUnit(written.span, message, units, { isGlued, isPlain }), isPlain);
      const unit = isPlain ? meant[0] : undefined;
      // A number may have been meant with an exponent: what follows belongs to nobody knows what.
      const mayBeExponent = isGlued && /^e$/i.test(written.text);
      const behind =
        uncertainty === undefined && !mayBeExponent ? readUncertainty(attempt, next + 1, dimension, false) : undefined;
      return { next: behind?.next ?? next + 1, unit, uncertainty: behind?.value ?? uncertainty };
    }
  }
  const { end } = item.span;
  const message = `${capital(dimensionName(dimension))} needs its unit: \`${item.text} ${likely}\` is the likely one.`;
  const fix = fixAt(`Write \`${item.text} ${likely}\``, spanOf(end, end), ` ${likely}`);
  tell(attempt, problemAt('unit/missing', item.span, message, fix));
  return { next, unit: undefined, uncertainty };
}

function wrongUnit(
  span: Span,
  message: string,
  units: readonly string[],
  { isGlued, isPlain }: { readonly isGlued: boolean; readonly isPlain: boolean },
): SyntaxProblem {
  const fixes = units.map((unit) => ({
    ...fixAt(`Write \`${unit}\``, span, isGlued ? ` ${unit}` : unit),
    ...(isPlain ? {} : ({ unsure: true } as const)),
  }));
  return {
    code: 'unit/wrong',
    span,
    message,
    ...(fixes.length > 0 ? { fixes } : { action: 'State the value with such a unit.' }),
  };
}

/** Other ways to write a unit. */
const SPELLED: Readonly<Record<string, string>> = {
  k: 'kohm',
  r: 'ohm',
  kilohm: 'kohm',
  kilohms: 'kohm',
  kiloohm: 'kohm',
  ohms: 'ohm',
  kohms: 'kohm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  inch: 'in',
  inches: 'in',
  minute: 'min',
  minutes: 'min',
  mins: 'min',
  seconds: 's',
  sec: 's',
  hours: 'h',
  gram: 'g',
  grams: 'g',
  gr: 'g',
  henry: 'H',
  henries: 'H',
  gauss: 'G',
  tesla: 'T',
  c: 'degC',
  '"': 'in',
  '″': 'in',
  f: 'degF',
  degc: 'degC',
  degf: 'degF',
  celsius: 'degC',
  fahrenheit: 'degF',
  ºc: 'degC',
  ºf: 'degF',
  percent: '%',
  meg: 'Mohm',
  megohm: 'Mohm',
  M: 'Mohm',
  awg: 'AWG',
};

/** Degrees of either scale. */
const DEGREES: ReadonlySet<string> = new Set(['°', 'º', 'deg', 'degree', 'degrees', 'grad']);

/** Units that may be meant by a word, the likeliest first. */
function nearestUnits(
  text: string,
  symbols: readonly string[],
  dimension: Dimension,
  value: number,
): readonly string[] {
  const lower = text.toLowerCase();
  if (dimension === 'temperature' && DEGREES.has(lower)) {
    const likely = likelyUnit(dimension, value);
    return [likely, likely === 'degC' ? 'degF' : 'degC'];
  }
  const same = symbols.find((symbol) => symbol.toLowerCase() === lower);
  if (same !== undefined) return [same];
  const key = Object.hasOwn(SPELLED, text) ? text : lower;
  const long = Object.hasOwn(SPELLED, key) ? SPELLED[key] : undefined;
  if (long !== undefined && symbols.includes(long)) return [long];
  const near =
    text.length > 2
      ? nearest(
          text,
          symbols.filter((symbol) => symbol.length > 2),
        )
      : undefined;
  return near === undefined ? [] : [near];
}

/** Only spelled otherwise: a small m for a large one would be another size. */
const isSameUnit = (text: string, symbol: string): boolean =>
  SPELLED[text] === symbol ||
  SPELLED[text.toLowerCase()] === symbol ||
  (text.toLowerCase() === symbol.toLowerCase() && (text.startsWith('m') || text.startsWith('M')) === false) ||
  (text.toLowerCase() === symbol.toLowerCase() && text.charAt(0) === symbol.charAt(0));

function tellRange(attempt: Attempt, item: NumberItem, limits: Limits, unit: string | undefined): void {
  if (item.fault || isWithin(item.value, limits)) return;
  const { min, max } = limits;
  const low = min === undefined ? undefined : `${limits.exclusiveMin ? 'above' : 'not below'} ${min}`;
  const high = max === undefined ? undefined : `${limits.exclusiveMax ? 'below' : 'not above'} ${max}`;
  const shifted = [10, 100]
    .map((by) => Number((item.value / by).toPrecision(12)))
    .find((value) => isWithin(value, limits));
  const guess = unit === undefined && max !== undefined && item.value > max ? shifted : undefined;
  tell(attempt, {
    code: 'value/range',
    span: item.span,
    message: `${item.text} cannot be: the value lies ${[low, high].filter((limit) => limit !== undefined).join(' and ')}.`,
    action: guess === undefined ? 'State a value within these limits.' : `Look whether ${guess} was meant.`,
  });
}

/** What reads well and still has no value in SI. */
function tellWithoutValue(attempt: Attempt, { value, span }: { value: WrittenQuantity; span: Span }): void {
  const result = quantityOf(value);
  if (result.ok) return;
  const told =
    result.problem === 'below-absolute-zero'
      ? { message: 'Nothing is colder than -273.15 degC.', action: 'Look whether the sign or the unit is meant.' }
      : result.problem === 'uncertainty-unit-wrong'
        ? { message: `The uncertainty takes a unit of ${value.dimension}, or \`%\`.`, action: 'Write one of them.' }
        : undefined;
  if (told) tell(attempt, { code: 'value/range', span, ...told });
}

function isWithin(value: number, { min, max, exclusiveMin, exclusiveMax }: Limits): boolean {
  if (min !== undefined && (exclusiveMin ? value <= min : value < min)) return false;
  return max === undefined || (exclusiveMax ? value < max : value <= max);
}

function written(
  number: ReadNumber,
  dimension: Dimension,
  attempt: Attempt,
  index: number,
): { value: WrittenQuantity; span: Span } {
  const { item, unit, code, uncertainty, next } = number;
  const items = attempt.items.slice(index, next);
  const last = items.at(-1) ?? item;
  return {
    value: { dimension, value: item.value, unit, code, uncertainty, text: textOf(items), decimals: item.decimals },
    span: joinSpans(item.span, last.span),
  };
}

/** As written, one space where there was any. */
export function textOf(items: readonly Item[]): string {
  let text = '';
  let end: number | undefined;
  for (const item of items) {
    text += (end !== undefined && item.span.start > end ? ' ' : '') + item.text;
    end = item.span.end;
  }
  return text;
}

export const dimensionName = (dimension: Dimension): string =>
  `${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension}`;

function dimensionLabel(dimension: Dimension): string {
  const symbol = symbolsOf(dimension)[0];
  return symbol === undefined ? dimensionName(dimension) : `${dimensionName(dimension)} in \`${symbol}\` or the like`;
}
