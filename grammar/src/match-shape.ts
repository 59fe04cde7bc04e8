/**
 * Reads items by a shape, from left to right: alternatives in their order, the first that fits is kept, so that the work
 * is bounded by items times alternatives.
 */

import { onceFor } from '../values/remember.ts';
import { type Attempt, fail, isPunctuation, type Match, nameOf, tell, wordOf } from './match-attempt.ts';
import { matchPath } from './match-path.ts';
import {
  matchCount,
  matchNumber,
  matchPercent,
  matchQuantity,
  matchSize,
  tellFault,
  textOf,
} from './match-quantity.ts';
import { matchSelection } from './match-selection.ts';
import { firstOf, firstOfSequence } from './schema/first-words.ts';
import type { NameKind, Shape } from './schema/shape.ts';
import { joinSpans } from './span.ts';
import { fixTo, problemAt } from './syntax-problem.ts';
import type { Item } from './syntax-tree.ts';

const NOTHING: ReadonlySet<string> = new Set();

/** `follow`: words that may stand behind the shape; optional parts leave them alone. */
export function matchShape(
  attempt: Attempt,
  index: number,
  shape: Shape,
  follow: ReadonlySet<string> = NOTHING,
): Match | undefined {
  const item = attempt.items[index];
  switch (shape.kind) {
    case 'word':
      return matchWord(attempt, index, shape);
    case 'keyword':
      return matchKeyword(attempt, index, shape);
    case 'quantity':
      return matchQuantity(attempt, index, shape);
    case 'count':
      return matchCount(attempt, index, shape);
    case 'number':
      return matchNumber(attempt, index, shape);
    case 'percent':
      return matchPercent(attempt, index, shape);
    case 'size':
      return matchSize(attempt, index, shape);
    case 'date':
      return matchDate(attempt, index, shape);
    case 'string':
      return matchString(attempt, index, shape);
    case 'label':
      return matchLabel(attempt, index, shape);
    case 'code':
      return item?.kind === 'code'
        ? { value: { value: item.text, span: item.span }, next: index + 1 }
        : fail(attempt, index, { label: "a finding's code, such as `potting/too-hot`", shape });
    case 'name': {
      const name = nameOf(item);
      return item && name !== undefined
        ? { value: { value: name, span: item.span }, next: index + 1 }
        : fail(attempt, index, { label: nameLabel(shape.of, shape.declares === true), shape });
    }
    case 'path':
      return matchPath(attempt, index, nameLabel(shape.of, false), shape);
    case 'selection':
      return matchSelection(attempt, index);
    case 'comma':
      return item && isPunctuation(item, ',')
        ? { value: { value: true, span: item.span }, next: index + 1 }
        : fail(attempt, index, { label: '`,`', shape });
    case 'optional':
      return matchOptional(attempt, index, shape.shape, follow);
    case 'alias':
      return matchShape(attempt, index, shape.shape, follow);
    case 'sequence':
      return matchSequence(attempt, index, shape.fields, follow);
    case 'many':
      return matchMany(attempt, index, shape, follow);
    case 'one-of':
      return matchOneOf(attempt, index, shape.options, follow);
  }
}

function matchWord(attempt: Attempt, index: number, shape: Extract<Shape, { kind: 'word' }>): Match | undefined {
  const words: readonly string[] = shape.words;
  const item = attempt.items[index];
  const text = wordOf(item);
  if (item && text !== undefined && words.includes(text)) {
    return { value: { value: text, span: item.span }, next: index + 1 };
  }
  return fail(attempt, index, { label: words.map((word) => `\`${word}\``).join(' or '), words, shape });
}

function matchKeyword(attempt: Attempt, index: number, shape: Extract<Shape, { kind: 'keyword' }>): Match | undefined {
  const parts = shape.word.split(' ');
  for (const [offset, part] of parts.entries()) {
    if (wordOf(attempt.items[index + offset]) !== part) {
      const label = `\`${parts.slice(offset).join(' ')}\``;
      return fail(attempt, index + offset, { label, words: [part], shape });
    }
  }
  const [first, last] = [attempt.items[index], attempt.items[index + parts.length - 1]];
  return (
    first && last && { value: { value: true, span: joinSpans(first.span, last.span) }, next: index + parts.length }
  );
}

function matchDate(attempt: Attempt, index: number, shape: Shape): Match | undefined {
  const item = attempt.items[index];
  if (item?.kind !== 'date') return fail(attempt, index, { label: 'a date, such as `2026-10-02`', shape });
  const { year, month, day, fault } = item;
  const days = new Date(Date.UTC(2000 + (year % 400), month, 0)).getUTCDate();
  const message =
    month < 1 || month > 12
      ? `There is no month ${month}.`
      : day < 1 || day > days
        ? `${MONTHS[month - 1] ?? ''} ${year} has ${days} days.`
        : undefined;
  if (message !== undefined)
    tell(attempt, { code: 'value/range', span: item.span, message, action: 'Correct the date.' });
  else if (fault) tellFault(attempt, item.span, fault);
  const pad = (value: number, length: number) => String(value).padStart(length, '0');
  return { value: { value: `${pad(year, 4)}-${pad(month, 2)}-${pad(day, 2)}`, span: item.span }, next: index + 1 };
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

function matchString(attempt: Attempt, index: number, shape: Shape): Match | undefined {
  const item = attempt.items[index];
  if (item?.kind === 'string') return { value: { value: item.value, span: item.span }, next: index + 1 };
  if (item?.kind !== 'word') return fail(attempt, index, { label: 'a text in quotes', shape });
  // Words to the end of the line are the text.
  const words = attempt.items.slice(index);
  const text = words.every(({ kind }) => kind === 'word' || kind === 'number') ? textOf(words) : undefined;
  const span = joinSpans(item.span, (text === undefined ? item : (words.at(-1) ?? item)).span);
  const problem = problemAt(
    'syntax/unexpected',
    span,
    'A text is written in quotes.',
    fixTo(span, text && `"${text}"`),
  );
  return fail(attempt, index, { label: 'a text in quotes', problem, shape });
}

/** One word, number, date or text; what is written without a space counts as one. */
function matchLabel(attempt: Attempt, index: number, shape: Shape): Match | undefined {
  const first = attempt.items[index];
  if (first?.kind === 'string') return { value: { value: first.value, span: first.span }, next: index + 1 };
  if (!isLabelPart(first)) return fail(attempt, index, { label: 'a word or a number', shape });
  let text = first.text;
  let last: Item = first;
  let next = index + 1;
  for (
    let item = attempt.items[next];
    isLabelPart(item) && item.span.start === last.span.end;
    item = attempt.items[next]
  ) {
    text += item.text;
    last = item;
    next++;
  }
  return { value: { value: text, span: joinSpans(first.span, last.span) }, next };
}

function isLabelPart(item: Item | undefined): item is Item {
  return item !== undefined && !['string', 'punctuation', 'stray'].includes(item.kind);
}

function matchOptional(attempt: Attempt, index: number, shape: Shape, follow: ReadonlySet<string>): Match {
  const text = wordOf(attempt.items[index]);
  const isTaken = text !== undefined && follow.has(text) && !firstOf(shape).words.has(text);
  return (isTaken ? undefined : attemptShape(attempt, index, shape, follow)) ?? { value: undefined, next: index };
}

/** As `matchShape`, but leaves no trace of value problems where it does not match. */
function attemptShape(attempt: Attempt, index: number, shape: Shape, follow: ReadonlySet<string>): Match | undefined {
  const problems = attempt.problems.length;
  const { broken } = attempt;
  const match = matchShape(attempt, index, shape, follow);
  if (!match) {
    attempt.problems.length = problems;
    attempt.broken = broken;
  }
  return match;
}

function matchSequence(
  attempt: Attempt,
  index: number,
  fields: Readonly<Record<string, Shape>>,
  follow: ReadonlySet<string>,
): Match | undefined {
  const value: Record<string, unknown> = {};
  let next = index;
  for (const { field, shape, rest } of stepsOf(fields)) {
    const behind = rest.mayBeEmpty ? new Set([...rest.words, ...follow]) : rest.words;
    const match = matchShape(attempt, next, shape, behind);
    if (!match) return undefined;
    value[field] = match.value;
    next = match.next;
  }
  return { value, next };
}

/** The steps of a sequence, each with what may stand behind it. */
const stepsOf = onceFor((fields: Readonly<Record<string, Shape>>) => {
  const entries = Object.entries(fields);
  return entries.map(([field, shape], position) => ({
    field,
    shape,
    rest: firstOfSequence(entries.slice(position + 1).map(([, following]) => following)),
  }));
});

function matchMany(
  attempt: Attempt,
  index: number,
  { shape, atLeast }: Extract<Shape, { kind: 'many' }>,
  follow: ReadonlySet<string>,
): Match | undefined {
  const value: unknown[] = [];
  // Behind one of them may stand the next.
  const { words } = firstOf(shape);
  const behind = words.size === 0 ? follow : new Set([...follow, ...words]);
  let next = index;
  while (true) {
    let at = next;
    if (value.length > 0) {
      if (isPunctuation(attempt.items[at], ',')) at++;
    }
    const text = wordOf(attempt.items[at]);
    const isTaken = text !== undefined && follow.has(text) && !firstOf(shape).words.has(text);
    if (isTaken && value.length >= atLeast) break;
    const match = attemptShape(attempt, at, shape, behind);
    if (!match || match.next === at) break;
    value.push(match.value);
    next = match.next;
  }
  return value.length < atLeast ? undefined : { value, next };
}

function matchOneOf(
  attempt: Attempt,
  index: number,
  options: Readonly<Record<string, Shape>>,
  follow: ReadonlySet<string>,
): Match | undefined {
  const text = wordOf(attempt.items[index]);
  let isClaimed = false;
  for (const [option, shape] of Object.entries(options)) {
    // What an option before this one takes for a word of the language is no name for this one.
    const isOwnWord = text !== undefined && firstOf(shape).words.has(text);
    if (isClaimed && !isOwnWord) continue;
    isClaimed ||= isOwnWord;
    const match = attemptShape(attempt, index, shape, follow);
    if (match) return { value: { option, value: match.value }, next: match.next };
  }
  return undefined;
}

export function nameLabel(of: NameKind, declares: boolean): string {
  if (of === 'lead') return declares ? 'the name of a lead' : 'a lead';
  const article = /^[aeiou]/.test(of) ? 'an' : 'a';
  return declares ? `the name of this ${of}` : `the name of ${article} ${of}`;
}
