/** What a fact says, apart from how it is written: one text for `7.3 kohm` and `7_300 ohm`, for `VT` and `violet`. */
import type { FactNode, Item, NumberItem } from '../../../grammar/src/syntax-tree.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { codeMultiplier, type Dimension, toSi, unitOf } from '../../../grammar/values/unit-table.ts';

/** One text a piece of meaning; facts with equal pieces say the same. */
export function factMeaning(items: readonly Item[]): readonly string[] {
  const units = unitsOf(items);
  const pieces = items.flatMap((item, index) => {
    if (item.kind === 'number') return [numberMeaning(item, units.get(index))];
    // A unit has gone into its number, a comma only separates.
    if (isUnit(items, index) || (item.kind === 'punctuation' && item.text === ',')) return [];
    return [itemMeaning(item)];
  });
  const [word, ...rest] = withAliases(pieces);
  if (word === undefined) return [];
  return UNORDERED.has(word) ? [word, ...rest.sort()] : [word, ...rest];
}

/** The fact as a reader sees it, on one line, its comments left out. */
export function factText(fact: Pick<FactNode, 'items'>): string {
  return itemsText(fact.items);
}

export function itemsText(items: readonly Item[]): string {
  return items
    .map(({ text }) => text)
    .join(' ')
    .replace(/ ,/g, ',')
    .replace(/\( /g, '(')
    .replace(/ \)/g, ')');
}

/** Lines that join or list leads: the order of the leads says nothing. */
const UNORDERED: ReadonlySet<string> = new Set(['hot', 'link', 'ground', 'shield', 'free', 'conductors']);

function itemMeaning(item: Exclude<Item, NumberItem>): string {
  switch (item.kind) {
    case 'word':
      return canonicalLeadName(item.text);
    case 'path':
      return item.parts.map(({ text }) => canonicalLeadName(text)).join('.');
    case 'string':
      return JSON.stringify(item.value);
    default:
      return item.text;
  }
}

function numberMeaning(item: NumberItem, unit: string | undefined): string {
  const { si, dimension } = inSi(item, unit);
  // Twelve digits: 7.3 kohm and 7300 ohm differ in the last binary place only.
  return `${Number(si.toPrecision(12))}${dimension === undefined || dimension === 'turns' ? '' : ` [${dimension}]`}`;
}

function inSi({ value, code }: NumberItem, unit: string | undefined): { si: number; dimension: Dimension | undefined } {
  if (code !== undefined) {
    for (const dimension of ['resistance', 'capacitance'] as const) {
      const factor = codeMultiplier(code, dimension);
      if (factor !== undefined) return { si: value * factor, dimension };
    }
  }
  const dimension = unit === undefined ? undefined : unitOf(unit)?.dimension;
  if (unit === undefined || dimension === undefined) return { si: value, dimension: undefined };
  return { si: toSi(value, unit, dimension) ?? value, dimension };
}

/** The unit of each number, by index. In `52 x 6 mm` the last unit serves all; a `±` borrows the unit of what it belongs to. */
function unitsOf(items: readonly Item[]): ReadonlyMap<number, string> {
  const units = new Map<number, string>();
  for (let index = items.length - 1; index >= 0; index--) {
    if (items[index]?.kind !== 'number') continue;
    const next = items[index + 1];
    const own = isUnit(items, index + 1) ? next?.text : undefined;
    const ofNext = isSize(next) ? units.get(index + 2) : undefined;
    const unit = own ?? ofNext;
    if (unit !== undefined) units.set(index, unit);
  }
  items.forEach((item, index) => {
    if (item.kind !== 'punctuation' || item.text !== '±' || units.has(index + 1)) return;
    const before = isUnit(items, index - 1) ? index - 2 : index - 1;
    const unit = units.get(before);
    if (unit !== undefined) units.set(index + 1, unit);
  });
  return units;
}

const isSize = (item: Item | undefined): boolean => item?.kind === 'punctuation' && item.text === 'x';

function isUnit(items: readonly Item[], index: number): boolean {
  const item = items[index];
  return item?.kind === 'word' && items[index - 1]?.kind === 'number' && unitOf(item.text) !== undefined;
}

/** The standards' grade 1 and grade 2 are the trade's single and double build. */
function withAliases(pieces: readonly string[]): string[] {
  const [word, grade, number] = pieces;
  if (word === 'build' && grade === 'grade' && number === '1') return ['build', 'single'];
  if (word === 'build' && grade === 'grade' && number === '2') return ['build', 'double'];
  return [...pieces];
}
