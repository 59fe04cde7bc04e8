/** A value under the cursor written in another unit of its dimension: as many digits as were typed, its ± with it. */
import type { At } from '../../../grammar/src/schema/shape.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Item, NumberItem } from '../../../grammar/src/syntax-tree.ts';
import { quantityOf, type WrittenQuantity } from '../../../grammar/values/quantity.ts';
import {
  codeMultiplier,
  type Dimension,
  dimensionOf,
  UNITS,
  type Unit,
  unitOf,
} from '../../../grammar/values/unit-table.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Edit } from '../checks/finding.ts';
import { isSameMeaning } from './same-meaning.ts';
import { syntaxAt } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';
import { isUsual, quantitiesAt, spanOfAll } from './written-value.ts';

/** One for each unit that the value is usual in. Offered only where nothing that was told of the file is told otherwise. */
export function unitConversions(analysis: Analysis, { start, end }: Span): readonly Refactoring[] {
  const at = syntaxAt(analysis.tree, start);
  if (!at?.fact || end > at.placed.offset + at.fact.span.end) return [];
  const { chunk } = at.placed;
  const quantities = quantitiesAt(at);
  const span = spanOfAll(quantities);
  const read = quantities.map(({ value }) => quantityOf(value));
  const values = read.flatMap((each) => (each.ok ? [each.quantity] : []));
  const [first] = values;
  if (span === undefined || first === undefined || values.length < read.length) return [];
  const { dimension } = first;
  const written = chunk.text.slice(span.start, span.end);
  return UNITS.flatMap((unit) => {
    if (unit.dimension !== dimension || !values.every(({ si }) => isUsual(si, unit))) return [];
    const newText = rewritten({ items: at.fact?.items ?? [], text: chunk.text, span, quantities }, unit);
    if (newText === undefined || newText === written) return [];
    const edit: Edit = { place: { chunk, span }, newText };
    const edits = locateEdits(analysis, [edit]);
    if (edits === undefined || !isSameMeaning(analysis, analysis.edited([edit]))) return [];
    return [{ title: `Write ${written} as ${newText}`, edits }];
  });
}

interface WrittenLine {
  readonly items: readonly Item[];
  readonly text: string;
  /** Of the quantities together. */
  readonly span: Span;
  readonly quantities: readonly At<WrittenQuantity>[];
}

/** `undefined` where one of its numbers cannot be written so, or where it all stands in this unit already. */
function rewritten({ items, text, span, quantities }: WrittenLine, to: Unit): string | undefined {
  const within = items.filter((item) => span.start <= item.span.start && item.span.end <= span.end);
  let [result, at, isOther] = ['', span.start, false];
  for (const item of within) {
    result += text.slice(at, item.span.start);
    at = item.span.end;
    if (item.kind === 'number') {
      const quantity = quantities.find(({ span: own }) => own.start <= item.span.start && item.span.end <= own.end);
      const number = quantity && numberIn(item, quantity, to);
      if (number === undefined) return undefined;
      isOther ||= number.isOther;
      result += number.text;
    } else if (item.kind === 'word' && dimensionOf(item.text) === to.dimension) result += to.symbol;
    else result += item.text;
  }
  return isOther ? result : undefined;
}

function numberIn(
  item: NumberItem,
  { value: quantity, span }: At<WrittenQuantity>,
  to: Unit,
): { readonly text: string; readonly isOther: boolean } | undefined {
  const isUncertainty = item.span.start !== span.start;
  const { uncertainty, dimension } = quantity;
  if (isUncertainty && uncertainty?.unit === '%')
    // A percentage of a temperature is one of the number as written.
    return dimension === 'temperature' ? undefined : { text: item.text, isOther: false };
  const symbol = (isUncertainty ? uncertainty?.unit : undefined) ?? quantity.unit;
  const from = symbol === undefined ? undefined : scaleOf(symbol, dimension);
  if (from === undefined) return undefined;
  const isOther = from.symbol !== to.symbol;
  const typed = item.code === undefined ? item.text : item.value.toFixed(item.decimals);
  const scale = isUncertainty ? { from: { ...from, offset: 0 }, to: { ...to, offset: 0 } } : { from, to };
  const text = isOther ? convertedNumber(typed, scale.from, scale.to) : typed;
  return { text: item.code === undefined ? text : `${text} ${to.symbol}`, isOther: isOther || item.code !== undefined };
}

type Scale = Pick<Unit, 'factor' | 'offset'>;

/** Of a unit, or of the letter of an IEC 60062 code. */
function scaleOf(symbol: string, dimension: Dimension): (Scale & { readonly symbol: string }) | undefined {
  const unit = unitOf(symbol);
  if (unit?.dimension === dimension) return unit;
  const factor = codeMultiplier(symbol, dimension);
  return factor === undefined ? undefined : { symbol: `code ${symbol}`, factor, offset: 0 };
}

/**
 * A decimal number as typed (`0.250`, `5_860`), from one scale in another: with as many significant digits as it was typed with,
 * and more only where it would not be the typed number when it is converted back. On a scale with another zero (degC, degF) the
 * decimals count instead.
 */
export function convertedNumber(typed: string, from: Scale, to: Scale): string {
  const plain = typed.replaceAll('_', '');
  const value = Number(plain);
  const typedDecimals = plain.split('.')[1]?.length ?? 0;
  const exact = moved(value, from, to);
  let decimals = from.offset === to.offset ? decimalsFor(exact, significantDigits(plain)) : typedDecimals;
  while (decimals < MOST_DECIMALS && rounded(moved(rounded(exact, decimals), to, from), typedDecimals) !== value)
    decimals += 1;
  return withGroups(rounded(exact, decimals).toFixed(decimals), typed.includes('_'));
}

/** What the arithmetic of the machine adds to a decimal number is taken off again. */
const moved = (value: number, from: Scale, to: Scale): number =>
  cleaned((value * from.factor + from.offset - to.offset) / to.factor);

const cleaned = (value: number): number => Number(value.toPrecision(EXACT_DIGITS));

const rounded = (value: number, decimals: number): number =>
  (Math.sign(value) * Math.round(cleaned(Math.abs(value) * 10 ** decimals))) / 10 ** decimals;

const significantDigits = (plain: string): number =>
  Math.max(1, plain.replace(/^-/, '').replace('.', '').replace(/^0+/, '').length);

/** Places behind the point; none is taken away before it. */
function decimalsFor(value: number, digits: number): number {
  if (value === 0) return 0;
  const exponent = Number(value.toExponential(Math.min(digits, EXACT_DIGITS) - 1).split('e')[1]);
  return Math.min(MOST_DECIMALS, Math.max(0, digits - 1 - exponent));
}

function withGroups(text: string, isGrouped: boolean): string {
  const [whole = '', fraction] = text.split('.');
  const grouped = isGrouped || whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '_') : whole;
  return fraction === undefined ? grouped : `${grouped}.${fraction}`;
}

/** A double holds 15; one conversion there and one back cost less than the rest. */
const EXACT_DIGITS = 13;
const MOST_DECIMALS = 12;
