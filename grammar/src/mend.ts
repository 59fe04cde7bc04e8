/**
 * Slips of the pen whose meaning is plain: what may be written at the place where a line stops making sense. Nothing is offered that
 * was not read again with the change made, and nothing that makes another number or another part of what was typed.
 */
import { given } from '../values/present.ts';
import { type Dimension, dimensionOf, symbolsOf } from '../values/unit-table.ts';
import { buildItem } from './build-item.ts';
import { type Attempt, attemptOf, type Match, type Wanted } from './match-attempt.ts';
import { matchShape } from './match-shape.ts';
import { nearest } from './nearest.ts';
import { meantBy, sameLetters } from './other-words.ts';
import { schemas } from './schema/index.ts';
import type { Shape } from './schema/shape.ts';
import { joinSpans, type Span, spanOf } from './span.ts';
import { fixAt, type SyntaxProblem } from './syntax-problem.ts';
import type { Item } from './syntax-tree.ts';
import { tokenize } from './tokens.ts';

export interface Mend {
  readonly problem: SyntaxProblem;
  /** The line as it is meant, where that is plain. */
  readonly items: readonly Item[] | undefined;
}

/** Items from `start` to before `end`, and what may stand there instead. */
interface Change {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
  readonly message?: string;
}

/** What the line that failed most likely means; `undefined` where nothing that reads better is known. */
export function mendOf(attempt: Attempt, from: number, shape: Shape, misfit: SyntaxProblem): Mend | undefined {
  const { items, furthest } = attempt;
  const { index, wanted } = furthest;
  const item = items[index];
  if (!item || wanted.some(({ problem }) => problem)) return undefined;
  for (const changes of changesAt(items, index, item, wanted)) {
    const good = changes.filter((change) => readsOn(items, change, from, shape));
    const [first, second] = good;
    if (!first) continue;
    const span = spanOfChange(items, first);
    const isInserted = first.start === first.end;
    const problem: SyntaxProblem = {
      ...misfit,
      span: isInserted ? item.span : span,
      ...given({ message: first.message }),
      fixes: good.map((change) => fixOf(items, change)),
    };
    return { problem, items: second === undefined ? changed(items, first) : undefined };
  }
  return undefined;
}

/** Kinds of slips, the surest first; each with the ways to write it right. */
function* changesAt(
  items: readonly Item[],
  index: number,
  item: Item,
  wanted: readonly Wanted[],
): Generator<readonly Change[]> {
  const words = [
    ...new Set(wanted.flatMap(({ words: exact = [], unitOf }) => [...exact, ...(unitOf ? symbolsOf(unitOf) : [])])),
  ];
  yield numberChanges(items, index, item, words);
  if (item.kind === 'stray') {
    yield repeatedStray(items, index, item, words);
    yield strayChanges(items, index, item, words);
    return;
  }
  yield unitChanges(items, index, item, wanted);
  yield otherWords(items, index, words);
  if (item.kind === 'word') {
    const near = nearest(item.text, words);
    if (near !== undefined) yield [replaced(index, near)];
  }
  yield wanted.flatMap(({ shape, label, words: exact }): readonly Change[] => {
    const isJoining = shape?.kind === 'keyword' ? !VALUES.has(shape) : shape?.kind === 'selection';
    return exact?.length === 1 && isJoining ? [{ start: index, end: index, newText: label.replaceAll('`', '') }] : [];
  });
}

const replaced = (index: number, newText: string): Change => ({ start: index, end: index + 1, newText });

/** Digits in groups that a space or an apostrophe parts, and `1-3` for `1 to 3`. */
function numberChanges(items: readonly Item[], index: number, item: Item, words: readonly string[]): readonly Change[] {
  const before = items[index - 1];
  if (before?.kind !== 'number') return [];
  const isTick = item.kind === 'stray' && /^['’´`]$/.test(item.text);
  const begin = isTick ? index + 1 : index;
  let end = begin;
  while (items[end]?.kind === 'number' && /^\d{3}$/.test(items[end]?.text ?? '')) {
    end++;
    if (isTick && items[end]?.text === item.text) end++;
  }
  const groups = items.slice(begin, end).filter(({ kind }) => kind === 'number');
  if (groups.length > 0 && /^[+\-−]?[1-9]\d{0,2}$/.test(before.text)) {
    const message = 'Groups of digits are parted by `_`.';
    return [{ start: index - 1, end, newText: [before, ...groups].map(({ text }) => text).join('_'), message }];
  }
  const isRange = item.kind === 'number' && /^[-−]\d/.test(item.text) && words.includes('to');
  return isRange ? [replaced(index, `to ${item.text.slice(1)}`)] : [];
}

/** A sign for a word, or one too many. */
function strayChanges(items: readonly Item[], index: number, item: Item, words: readonly string[]): readonly Change[] {
  const meant = meantBy(item.text).filter((each) => words.includes(each));
  if (meant.length > 0) return meant.map((each) => replaced(index, each));
  // Without what parts them, two numbers would be another one.
  const isBetweenNumbers = items[index - 1]?.kind === 'number' && items[index + 1]?.kind === 'number';
  return isBetweenNumbers ? [] : [{ ...replaced(index, ''), message: `\`${item.text}\` has no meaning here.` }];
}

/** `60*12*3`: the same sign again between the numbers of one size is one slip. */
function repeatedStray(
  items: readonly Item[],
  index: number,
  { text }: Item,
  words: readonly string[],
): readonly Change[] {
  let end = index + 1;
  while (items[end]?.kind === 'number' && items[end + 1]?.text === text) end += 2;
  if (end === index + 1) return [];
  const between = items.slice(index, end);
  const meant = meantBy(text).filter((each) => words.includes(each));
  return meant.map((each) => ({
    start: index,
    end,
    newText: between.map((item) => (item.text === text ? each : item.text)).join(' '),
  }));
}

/** `AWG 43`, `AWG43`: the unit goes behind its number. */
function unitChanges(items: readonly Item[], index: number, item: Item, wanted: readonly Wanted[]): readonly Change[] {
  const dimensions = wanted.flatMap(({ shape }): readonly Dimension[] => {
    if (shape?.kind === 'percent') return ['percentage'];
    return shape?.kind === 'quantity' || shape?.kind === 'size' ? [shape.dimension] : [];
  });
  const isWanted = (text: string) => {
    const dimension = dimensionOf(text);
    return dimension !== undefined && dimensions.includes(dimension);
  };
  const unitOf = (text: string) =>
    isWanted(text) ? text : dimensions.flatMap(symbolsOf).find((symbol) => symbol.toLowerCase() === text.toLowerCase());
  if (item.kind !== 'word' && item.kind !== 'code') return [];
  const message = 'A unit goes behind its number.';
  const next = items[index + 1];
  const unit = unitOf(item.text);
  if (next?.kind === 'number' && unit !== undefined)
    return [{ start: index, end: index + 2, newText: `${next.text} ${unit}`, message }];
  const [, letters = '', digits = ''] = /^(\D+)(\d+)$/.exec(item.text) ?? [];
  const glued = letters === '' ? undefined : unitOf(letters);
  return glued === undefined ? [] : [{ start: index, end: index + 1, newText: `${digits} ${glued}`, message }];
}

/** Another word for it, other letter case, or written apart: `cw`, `North-Up`, `nickel silver`, `alnico 5`, `alnico V`. */
function otherWords(items: readonly Item[], index: number, words: readonly string[]): readonly Change[] {
  for (const length of [3, 2, 1]) {
    const run = items.slice(index, index + length);
    if (run.length < length || run.some(({ kind }) => kind === 'punctuation' || kind === 'string')) continue;
    const written = run.map(({ text }) => text).join('-');
    const meant = words.find((each) => sameLetters(written, each) || meantBy(written).includes(each));
    const shown = run.map(({ text }) => text).join(' ');
    if (meant === undefined || meant === shown) continue;
    const message = `\`${shown}\` is written \`${meant}\` here.`;
    return [{ start: index, end: index + length, newText: meant, message }];
  }
  return [];
}

/** Keywords that are what a line says, as `none` and `open` are: nobody's to put in. */
const VALUES: ReadonlySet<Shape> = new Set(
  [...schemas.values()].flatMap(({ facts }) => Object.values(facts).flatMap(({ shape }) => optionsIn(shape))),
);

function optionsIn(shape: Shape): readonly Shape[] {
  switch (shape.kind) {
    case 'one-of': {
      const options = Object.values(shape.options);
      return [...options, ...options.flatMap(optionsIn)];
    }
    case 'sequence':
      return Object.values(shape.fields).flatMap(optionsIn);
    case 'optional':
    case 'many':
    case 'alias':
      return optionsIn(shape.shape);
    default:
      return [];
  }
}

/** Whether the line, with the change made, reads to its end or at least past the change. */
function readsOn(items: readonly Item[], change: Change, from: number, shape: Shape): boolean {
  const again = changed(items, change);
  const attempt = attemptOf(again);
  const match: Match | undefined = matchShape(attempt, from, shape);
  if (match?.next === again.length) return true;
  const isInserted = change.start === change.end;
  const behind = again.length - (items.length - change.end);
  return !isInserted && Math.max(attempt.furthest.index, match?.next ?? 0) > Math.max(behind, change.start);
}

function changed(items: readonly Item[], change: Change): readonly Item[] {
  const span = spanOfChange(items, change);
  return [...items.slice(0, change.start), ...itemsOf(change.newText, span), ...items.slice(change.end)];
}

/** Items of a text that does not stand in the file: they lie where it would be put. */
function itemsOf(text: string, span: Span): readonly Item[] {
  const { tokens } = tokenize(text);
  return tokens.map((token, index): Item => ({ ...buildItem(token, tokens[index - 1], []), span }));
}

function spanOfChange(items: readonly Item[], { start, end }: Change): Span {
  const [first, last] = [items[start], items[end - 1]];
  const at = first?.span.start ?? items.at(-1)?.span.end ?? 0;
  return first && last && end > start ? joinSpans(first.span, last.span) : spanOf(at, at);
}

/** The change as an edit of the text, with a space wherever it would run into its neighbours. */
function fixOf(items: readonly Item[], change: Change) {
  const span = spanOfChange(items, change);
  const { newText, start, end } = change;
  const [before, behind] = [items[start - 1], items[end]];
  const touches = { before: before?.span.end === span.start, behind: behind?.span.start === span.end };
  if (newText === '') {
    // A sign between words goes with the space that it stood in.
    const isApart = before !== undefined && !touches.before;
    const edit = isApart ? spanOf(before.span.end, span.end) : span;
    const gap = touches.behind && before !== undefined ? ' ' : '';
    return fixAt('Remove it', edit, gap);
  }
  const isInserted = start === end;
  const text = `${touches.before ? ' ' : ''}${newText}${touches.behind || isInserted ? ' ' : ''}`;
  const verb = isInserted ? 'Insert' : 'Write';
  return fixAt(`${verb} \`${newText}\``, span, text);
}
