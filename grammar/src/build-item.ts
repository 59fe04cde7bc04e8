/** A token becomes an item of the tree; what is malformed in it is told. */
import type { IToken } from 'chevrotain';
import { isClosedString } from './characters.ts';
import { endOf } from './layout.ts';
import { type Span, spanOf } from './span.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import type { Item, NumberItem, WordItem } from './syntax-tree.ts';
import { DateToken, NumberToken, Text, Word } from './tokens.ts';

export function buildItem(token: IToken, before: IToken | undefined, problems: SyntaxProblem[]): Item {
  const span = spanOf(token.startOffset, endOf(token));
  switch (token.tokenType) {
    case Word:
      return buildWord(token.image, span, before);
    case NumberToken:
      return buildNumber(token.image, span, problems);
    case DateToken:
      return buildDate(token.image, span, problems);
    case Text:
      return buildString(token.image, span, problems);
    default:
      return { kind: 'punctuation', span, text: punctuation(token.image) };
  }
}

function buildWord(text: string, span: Span, before: IToken | undefined): Item {
  if (text.includes('.')) {
    const parts: WordItem[] = [];
    let start = span.start;
    for (const part of text.split('.')) {
      if (part !== '') parts.push({ kind: 'word', span: spanOf(start, start + part.length), text: part });
      start += part.length + 1;
    }
    return { kind: 'path', span, text, parts };
  }
  // Behind a number `ohm/m` is a unit, elsewhere `potting/too-hot` is a finding's code.
  const isUnit = before?.tokenType === NumberToken;
  return text.includes('/') && !isUnit ? { kind: 'code', span, text } : { kind: 'word', span, text };
}

const WELL_FORMED = /^[+\-−]?\d+(?:_\d+)*(?:\.\d+)?$/;
const WELL_FORMED_CODE = /^[+\-−]?(?:\d+(?:_\d+)*[A-Za-zµμ]\d*|\d+\.\d+[A-Za-zµμ])$/;
const GROUPED = /^[+\-−]?\d{1,3}(?:,\d{3})+$/;

function buildNumber(text: string, span: Span, problems: SyntaxProblem[]): NumberItem {
  const letterAt = text.search(/[A-Za-zµμ]/);
  const letter = letterAt < 0 ? undefined : text.charAt(letterAt);
  const ending = letter === undefined ? '' : text.slice(letterAt + 1);
  const digits =
    letter === undefined || ending === ''
      ? text.slice(0, letterAt < 0 ? undefined : letterAt)
      : text.replace(letter, '.');
  const plain = plainNumber(digits);
  const value = Number(plain);
  const inRange = Number.isFinite(value);
  const wellFormed = (letter === undefined ? WELL_FORMED : WELL_FORMED_CODE).test(text);
  if (!wellFormed || !inRange) problems.push(malformed(text, span, inRange));
  return {
    kind: 'number',
    span,
    text,
    value: inRange ? value + 0 : 0,
    decimals: plain.includes('.') ? plain.length - plain.indexOf('.') - 1 : 0,
    code: letter === undefined ? undefined : codeLetter(letter),
    broken: !wellFormed || !inRange,
  };
}

/** Sign, digits and one point: what `Number` reads, from however it was written. */
function plainNumber(text: string): string {
  const sign = text.startsWith('-') || text.startsWith('−') ? '-' : '';
  const unsigned = text
    .replace(/^[+\-−]/, '')
    .replaceAll('_', '')
    .replaceAll(',', '.');
  const [whole = '', ...decimals] = unsigned.split('.');
  const decimal = decimals.join('');
  return `${sign}${whole === '' ? '0' : whole}${decimal === '' ? '' : `.${decimal}`}`;
}

function codeLetter(letter: string): string {
  return letter === 'µ' || letter === 'μ' ? 'u' : letter;
}

function malformed(text: string, span: Span, inRange: boolean): SyntaxProblem {
  const fix = (newText: string) => ({ title: `Write \`${newText}\``, edits: [{ span, newText }] });
  const problem = (message: string, ...newTexts: string[]): SyntaxProblem => ({
    code: 'syntax/number',
    span,
    message,
    ...(newTexts.length > 0 ? { fixes: newTexts.map(fix) } : {}),
  });
  if (!inRange) return problem('This number is too large to mean anything.');
  if (/^[+\-−]?\d+,\d+$/.test(text) || GROUPED.test(text)) {
    const asDecimal = text.replace(',', '.');
    const asGroups = text.replaceAll(',', '_');
    if (!GROUPED.test(text)) return problem('There is a comma between digits; a decimal point is meant.', asDecimal);
    const message = 'There is a comma between digits; a decimal point or `_` between groups of digits is meant.';
    return text.indexOf(',') === text.lastIndexOf(',')
      ? problem(message, asGroups, asDecimal)
      : problem(message, asGroups);
  }
  if (/^[+\-−]?\.\d+$/.test(text)) return problem('A digit goes before the point.', text.replace('.', '0.'));
  if (/\.$/.test(text) && WELL_FORMED.test(text.slice(0, -1))) {
    return problem('A digit goes behind the point.', text.slice(0, -1));
  }
  if (/__|_$|_\./.test(text) && !/[.,].*[.,]/.test(text)) {
    return problem('`_` goes between digits.', text.replace(/_+(?=\.|$)/g, '').replace(/_+/g, '_'));
  }
  return problem('This is not how a number is written: `7.8`, `5_000` or `4k7`.');
}

function buildDate(text: string, span: Span, problems: SyntaxProblem[]): Item {
  const [year = '', month = '', day = ''] = text.split('-');
  if (text.length !== 10) {
    const newText = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
    problems.push({
      code: 'syntax/number',
      span,
      message: 'A date is written year-month-day with two digits each for month and day.',
      fixes: [{ title: `Write \`${newText}\``, edits: [{ span, newText }] }],
    });
  }
  return { kind: 'date', span, text, year: Number(year), month: Number(month), day: Number(day) };
}

function buildString(text: string, span: Span, problems: SyntaxProblem[]): Item {
  const isClosed = isClosedString(text);
  if (!isClosed) {
    const end = span.start + text.trimEnd().length;
    problems.push({
      code: 'syntax/unclosed',
      span,
      message: 'The closing quote of this text is missing.',
      fixes: [{ title: 'Insert `"`', edits: [{ span: spanOf(end, span.end), newText: '"' }] }],
    });
  }
  const inner = text.slice(1, isClosed ? -1 : undefined);
  return { kind: 'string', span, text, value: inner.replace(/\\(["\\])/g, '$1') };
}

function punctuation(text: string): ',' | 'x' | '(' | ')' | '±' {
  switch (text) {
    case ',':
    case '(':
    case ')':
      return text;
    case 'x':
    case '×':
      return 'x';
    default:
      return '±';
  }
}
