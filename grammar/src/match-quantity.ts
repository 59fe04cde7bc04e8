/** Numbers with their units: quantities, counts, percentages and sizes. */

import { quantityOf, type WrittenQuantity, type WrittenUncertainty } from '../values/quantity.ts';
import { type Dimension, dimensionOf, likelyUnit, symbolsOf } from '../values/unit-table.ts';
import { capital } from './capital.ts';
import { type Attempt, fail, isPunctuation, type Match, replaceFix, wordOf } from './match-attempt.ts';
import { nearest } from './nearest.ts';
import type { Shape } from './schema/shape.ts';
import { joinSpans, type Span, spanOf } from './span.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import type { Item, NumberItem } from './syntax-tree.ts';

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
    } else next = tellUnit(attempt, item, number, dimension);
  }
  tellRange(attempt, item, shape, unit);
  const value = written({ ...number, unit, uncertainty, next }, dimension, attempt, index);
  tellWithoutValue(attempt, value);
  return { value, next };
}

export function matchCount(attempt: Attempt, index: number, shape: ShapeOf<'count'>): Match | undefined {
  const item = numberAt(attempt.items[index]);
  if (!item) return fail(attempt, index, { label: shape.unit ? 'a number of turns' : 'a count', shape });
  const number = readNumber(attempt, index, item, 'turns', shape.unit === undefined);
  if (item.code !== undefined) {
    const full = item.code.toLowerCase() === 'k' ? Math.round(item.value * 1000) : undefined;
    attempt.problems.push({
      code: 'syntax/number',
      span: item.span,
      message: 'A count is written out, as in `5_000`.',
      ...(full !== undefined ? { fixes: [replaceFix(item.span, grouped(full))] } : {}),
    });
  } else if (!Number.isInteger(item.value)) {
    attempt.problems.push({
      code: 'value/range',
      span: item.span,
      message: 'A count is a whole number.',
      action: 'Write it without a fraction.',
    });
  } else tellRange(attempt, item, shape, undefined);
  return { value: written(number, 'turns', attempt, index), next: number.next };
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
  const next = number.unit === undefined ? tellUnit(attempt, item, number, 'percentage') : number.next;
  tellRange(attempt, item, { min: 0, max: 100 }, '%');
  return { value: written({ ...number, next }, 'percentage', attempt, index), next };
}

/** `58.0 x 5.2 mm`: a unit at the end serves every part that has none. */
export function matchSize(attempt: Attempt, index: number, shape: ShapeOf<'size'>): Match | undefined {
  const { dimension, parts } = shape;
  const label = `a size: ${parts.join(' x ')}`;
  const read: { item: NumberItem; number: ReadNumber; index: number }[] = [];
  let at = index;
  for (const part of parts) {
    if (read.length > 0) {
      if (!isPunctuation(attempt.items[at], 'x'))
        return fail(attempt, at, { label: `\`x\` and the ${part} (${label})`, shape });
      at++;
    }
    const item = numberAt(attempt.items[at]);
    if (!item) return fail(attempt, at, { label: read.length > 0 ? `the ${part} (${label})` : label, shape });
    const number = readNumber(attempt, at, item, dimension);
    read.push({ item, number, index: at });
    at = number.next;
  }
  const last = read.at(-1);
  if (last && last.number.unit === undefined) {
    if (isPunctuation(attempt.items[at], 'x')) return fail(attempt, at, { label: `the end of ${label}` });
    at = tellUnit(attempt, last.item, last.number, dimension);
  }
  const unit = last?.number.unit;
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
  if (item.broken) attempt.broken = true;
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
  if (item.broken) attempt.broken = true;
  if (item.value < 0) {
    attempt.problems.push({
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
    broken: false,
  };
}

function unitAt(attempt: Attempt, index: number, dimension: Dimension): string | undefined {
  const text = wordOf(attempt.items[index]);
  return text !== undefined && dimensionOf(text) === dimension ? text : undefined;
}

/** Tells that the unit is missing or wrong; the index behind a wrong one, so that reading goes on. */
function tellUnit(attempt: Attempt, item: NumberItem, number: ReadNumber, dimension: Dimension): number {
  const { next } = number;
  const follower = attempt.items[next];
  const symbols = symbolsOf(dimension);
  const only = symbols.length === 1 ? symbols[0] : undefined;
  const usual = only === undefined ? `a unit of ${dimension}, such as \`${symbols[0] ?? ''}\`` : `\`${only}\``;
  if (item.code !== undefined) {
    attempt.problems.push(wrongUnit(item.span, `\`${item.text}\` is no ${dimension}: it takes ${usual}.`, undefined));
    return next;
  }
  const written = follower?.kind === 'word' || follower?.kind === 'code' ? follower : undefined;
  if (written) {
    const meant = nearestUnit(written.text, symbols);
    const isGlued = written.span.start === item.span.end;
    const known = dimensionOf(written.text);
    if (meant !== undefined || isGlued || known !== undefined) {
      const of = known === undefined ? 'is no unit' : `is a unit of ${known}`;
      const fix = only ?? meant;
      const message = `\`${written.text}\` ${of}: ${dimensionName(dimension)} takes ${usual}.`;
      attempt.problems.push(wrongUnit(written.span, message, fix === undefined ? undefined : { fix, isGlued }));
      return next + 1;
    }
  }
  const likely = likelyUnit(dimension, item.value);
  attempt.problems.push({
    code: 'unit/missing',
    span: item.span,
    message: `${capital(dimensionName(dimension))} needs its unit: \`${item.text} ${likely}\` is the likely one.`,
    fixes: [
      {
        title: `Write \`${item.text} ${likely}\``,
        edits: [{ span: spanOf(item.span.end, item.span.end), newText: ` ${likely}` }],
      },
    ],
  });
  return next;
}

function wrongUnit(span: Span, message: string, fix: { fix: string; isGlued: boolean } | undefined): SyntaxProblem {
  return {
    code: 'unit/wrong',
    span,
    message,
    ...(fix
      ? {
          fixes: [{ title: `Write \`${fix.fix}\``, edits: [{ span, newText: fix.isGlued ? ` ${fix.fix}` : fix.fix }] }],
        }
      : {}),
  };
}

function nearestUnit(text: string, symbols: readonly string[]): string | undefined {
  const same = symbols.find((symbol) => symbol.toLowerCase() === text.toLowerCase());
  if (same !== undefined) return same;
  const spelled: Readonly<Record<string, string>> = {
    k: 'kohm',
    kilohm: 'kohm',
    ohms: 'ohm',
    kohms: 'kohm',
    millimetre: 'mm',
    millimetres: 'mm',
    inch: 'in',
    inches: 'in',
    minutes: 'min',
    grams: 'g',
    C: 'degC',
    F: 'degF',
    percent: '%',
    meg: 'Mohm',
    M: 'Mohm',
    awg: 'AWG',
  };
  const key = Object.hasOwn(spelled, text) ? text : text.toLowerCase();
  const long = Object.hasOwn(spelled, key) ? spelled[key] : undefined;
  if (long !== undefined && symbols.includes(long)) return long;
  return text.length > 2
    ? nearest(
        text,
        symbols.filter((symbol) => symbol.length > 2),
      )
    : undefined;
}

function tellRange(attempt: Attempt, item: NumberItem, limits: Limits, unit: string | undefined): void {
  if (item.broken || isWithin(item.value, limits)) return;
  const { min, max } = limits;
  const low = min === undefined ? undefined : `${limits.exclusiveMin ? 'above' : 'not below'} ${min}`;
  const high = max === undefined ? undefined : `${limits.exclusiveMax ? 'below' : 'not above'} ${max}`;
  const shifted = [10, 100]
    .map((by) => Number((item.value / by).toPrecision(12)))
    .find((value) => isWithin(value, limits));
  const guess = unit === undefined && max !== undefined && item.value > max ? shifted : undefined;
  attempt.problems.push({
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
  if (told) attempt.problems.push({ code: 'value/range', span, ...told });
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

const grouped = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, '_');

export const dimensionName = (dimension: Dimension): string =>
  `${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension}`;

function dimensionLabel(dimension: Dimension): string {
  const symbol = symbolsOf(dimension)[0];
  return symbol === undefined ? dimensionName(dimension) : `${dimensionName(dimension)} in \`${symbol}\` or the like`;
}
