/** A token becomes an item of the tree; what is malformed in it is told. */
import type { IToken } from 'chevrotain';
import { isClosedString } from './characters.ts';
import { type Span, spanOf } from './span.ts';
import { fixAt, problemAt, replaceFix, type SyntaxProblem } from './syntax-problem.ts';
import type { DateItem, Item, NumberItem, WordItem, WrittenFault } from './syntax-tree.ts';
import { DateToken, NumberToken, Text, Times, tokenSpan, Unknown, Word } from './tokens.ts';

export function buildItem(token: IToken, before: IToken | undefined, problems: SyntaxProblem[]): Item {
  const span = tokenSpan(token);
  switch (token.tokenType) {
    case Times:
      // Between numbers the sign of a size, elsewhere a name like any other.
      return { kind: 'word', span, text: 'x' };
    case Word:
      return buildWord(token.image, span, before);
    case NumberToken:
      return buildNumber(token.image, span);
    case DateToken:
      return buildDate(token.image, span);
    case Unknown:
      return { kind: 'stray', span, text: token.image };
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
/** One sign between groups of three digits: the thousands of some countries, the decimals of others. */
const GROUPED = /^[+\-−]?[1-9]\d{0,2}(?:,\d{3}|\.\d{3})$/;

const isWellFormed = (text: string): boolean => WELL_FORMED.test(text) || WELL_FORMED_CODE.test(text);

function buildNumber(written: string, span: Span): NumberItem {
  const fault = isWellFormed(written) ? undefined : faultOf(written);
  // Where only one thing can be meant, that is what is read.
  const text = fault?.readings.length === 1 ? (fault.readings[0] ?? written) : written;
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
  return {
    kind: 'number',
    span,
    text: written,
    value: inRange ? value + 0 : 0,
    decimals: plain.includes('.') ? plain.length - plain.indexOf('.') - 1 : 0,
    code: letter === undefined ? undefined : codeLetter(letter),
    fault: inRange ? fault : { message: 'This number is too large to mean anything.', readings: [] },
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

function faultOf(text: string): WrittenFault {
  const readings = readingsOf(text).filter(isWellFormed);
  return { message: faultMessage(text, readings), readings };
}

/** Ways to write what a malformed number may mean. */
function readingsOf(text: string): readonly string[] {
  const asDecimal = text.replace(',', '.');
  if (GROUPED.test(text)) return [text.replace(',', '_'), asDecimal];
  if (/^[+\-−]?[1-9]\d{0,2}(?:(?:,\d{3}){2,}|(?:\.\d{3}){2,})$/.test(text)) return [text.replace(/[.,]/g, '_')];
  // Both signs, each its own purpose: the last one is the decimal sign.
  if (/^[+\-−]?[1-9]\d{0,2}(?:(?:\.\d{3})+,|(?:,\d{3})+\.)\d+$/.test(text)) {
    const at = Math.max(text.lastIndexOf(','), text.lastIndexOf('.'));
    return [`${text.slice(0, at).replace(/[.,]/g, '_')}.${text.slice(at + 1)}`];
  }
  if (/^[^.,]*,[^.,]*$/.test(text)) return [asDecimal];
  if (/^[+\-−]?\.\d/.test(text)) return [text.replace('.', '0.')];
  if (/\.$/.test(text)) return [text.slice(0, -1)];
  return [text.replace(/_+(?=\.|$)/g, '').replace(/_+/g, '_')];
}

function faultMessage(text: string, readings: readonly string[]): string {
  if (readings.length > 1)
    return 'There is a comma between digits; a decimal point or `_` between groups of digits is meant.';
  if (readings.length === 0) return 'This is not how a number is written: `7.8`, `5_000` or `4k7`.';
  if (text.includes(',') || /\..*\./.test(text))
    return readings[0]?.includes('_') === true
      ? 'Groups of digits are parted by `_`, decimals by a point.'
      : 'There is a comma between digits; a decimal point is meant.';
  if (/^[+\-−]?\./.test(text)) return 'A digit goes before the point.';
  return text.endsWith('.') ? 'A digit goes behind the point.' : '`_` goes between digits.';
}

function buildDate(text: string, span: Span): DateItem {
  const parts = text.split(/[-./]/);
  const isYearFirst = parts[0]?.length === 4;
  const [year = '', month = '', day = ''] = isYearFirst ? parts : [parts[2], parts[1], parts[0]];
  const written = (m: string, d: string) => `${year}-${m.padStart(2, '0')}-${d.padStart(2, '0')}`;
  // 02/11/2026 is the second of November here and the eleventh of February there.
  const other = !isYearFirst && text.includes('/') && day !== month ? [written(day, month)] : [];
  const isDate = (each: string) => Number(each.slice(5, 7)) <= 12;
  const readings = [written(month, day), ...other].filter(isDate);
  const [only = written(month, day)] = readings;
  return {
    kind: 'date',
    span,
    text,
    year: Number(year),
    month: Number(only.slice(5, 7)),
    day: Number(only.slice(8)),
    fault:
      text === written(month, day)
        ? undefined
        : { message: 'A date is written year-month-day with two digits each for month and day.', readings },
  };
}

function buildString(text: string, span: Span, problems: SyntaxProblem[]): Item {
  const isClosed = isClosedString(text);
  const straight = `"${text.slice(1, isClosed ? -1 : undefined)}"`;
  if (!isClosed) {
    const whole = text.trimEnd();
    const newText = `"${whole.slice(1).replace(/["\u201c-\u201f]$/, '')}"`;
    const fix = fixAt('Insert `"`', span, newText);
    problems.push(problemAt('syntax/unclosed', span, 'The closing quote of this text is missing.', fix));
  } else if (straight !== text) {
    const message = 'A text stands between straight quotes.';
    problems.push(problemAt('syntax/unexpected', span, message, replaceFix(span, straight)));
  }
  const inner = text.slice(1, isClosed ? -1 : undefined);
  return { kind: 'string', span, text, value: inner.replace(/\\(["\\])/g, '$1') };
}

function punctuation(text: string): ',' | '(' | ')' | '±' {
  switch (text) {
    case ',':
    case '(':
    case ')':
      return text;
    default:
      return '±';
  }
}
