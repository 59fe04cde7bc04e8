/** The lexer. It knows how things look, not what they mean: any text becomes tokens, what fits nothing becomes `Unknown`. */

import { type CustomPatternMatcherReturn, createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { unitOf } from '../values/unit-table.ts';
import {
  beginsComment,
  beginsText,
  isDigit,
  isInchSign,
  letterLength,
  lineEnd,
  nameEnd,
  namePartLength,
  stringEnd,
} from './characters.ts';
import { type Span, spanOf } from './span.ts';

/** Whatever may stand on a fact's line. */
export const ItemToken = createToken({ name: 'Item', pattern: Lexer.NA });
/** What ends a fact. */
export const LineEnd = createToken({ name: 'LineEnd', pattern: Lexer.NA });

type Scan = (text: string, offset: number, before: readonly IToken[]) => number;

export const Newline = createToken({
  name: 'Newline',
  pattern: /\r\n|\r|\n/,
  line_breaks: true,
  categories: [LineEnd],
});
export const Semicolon = createToken({ name: 'Semicolon', pattern: /;/, categories: [LineEnd] });
export const Comment = scanned('Comment', commentEnd, { group: 'comments' });
export const Text = scanned('Text', textEnd, { categories: [ItemToken] });
export const PlusMinus = createToken({ name: 'PlusMinus', pattern: /±|\+\/?-/, categories: [ItemToken] });
export const DateToken = createToken({
  name: 'Date',
  pattern: /(?:\d{4}([-./])\d{1,2}\1\d{1,2}|\d{1,2}([./])\d{1,2}\2\d{4})(?![\w.,/-]*\w)/,
  categories: [ItemToken],
});
export const NumberToken = scanned('Number', numberEnd, { categories: [ItemToken] });
export const Times = scanned('Times', timesEnd, { categories: [ItemToken] });
export const Word = scanned('Word', wordEnd, { categories: [ItemToken] });
export const OpenParenthesis = createToken({ name: 'OpenParenthesis', pattern: /\(/, categories: [ItemToken] });
export const CloseParenthesis = createToken({ name: 'CloseParenthesis', pattern: /\)/, categories: [ItemToken] });
export const Comma = createToken({ name: 'Comma', pattern: /,/, categories: [ItemToken] });
export const OpenBrace = createToken({ name: 'OpenBrace', pattern: /\{/ });
export const CloseBrace = createToken({ name: 'CloseBrace', pattern: /\}/ });
const Space = createToken({ name: 'Space', pattern: /[^\S\r\n]+/, line_breaks: false, group: Lexer.SKIPPED });
export const Unknown = createToken({ name: 'Unknown', pattern: /[\s\S]/, line_breaks: false, categories: [ItemToken] });

export const allTokens: TokenType[] = [
  Space,
  Newline,
  Comment,
  Text,
  PlusMinus,
  DateToken,
  NumberToken,
  Times,
  Word,
  OpenParenthesis,
  CloseParenthesis,
  Comma,
  OpenBrace,
  CloseBrace,
  Semicolon,
  Unknown,
  ItemToken,
  LineEnd,
];

const lexer = new Lexer(allTokens, { positionTracking: 'onlyOffset', skipValidations: true });

export interface Tokens {
  readonly tokens: readonly IToken[];
  readonly comments: readonly IToken[];
}

/** Never fails; offsets count from the text's start. */
export function tokenize(text: string): Tokens {
  const result = lexer.tokenize(text);
  return { tokens: result.tokens, comments: result.groups.comments ?? [] };
}

/** Multiplier letters of IEC 60062 that occur in this trade; both micro signs stand for `u`, and `K` for `k`. */
const CODE_LETTERS = 'RKkMpnuµμm';

function commentEnd(text: string, offset: number): number {
  return beginsComment(text, offset) ? lineEnd(text, offset) : offset;
}

function textEnd(text: string, offset: number): number {
  return beginsText(text, offset) ? stringEnd(text, offset) : offset;
}

/** Takes in malformed numbers whole (`60,0`, `1.2.3`), so that one finding can name them. */
function numberEnd(text: string, offset: number): number {
  let end = offset;
  if ('+-−'.includes(text[end] ?? ' ')) end++;
  const isPoint = (at: number) => (text[at] === '.' || text[at] === ',') && isDigit(text.charCodeAt(at + 1));
  if (!isDigit(text.charCodeAt(end)) && !(text[end] === '.' && isPoint(end))) return offset;
  while (isDigit(text.charCodeAt(end)) || text[end] === '_' || isPoint(end)) end++;
  if (text[end] === '.' && letterLength(text, end + 1) === 0) end++;
  if (CODE_LETTERS.includes(text[end] ?? ' ')) {
    let behind = end + 1;
    while (isDigit(text.charCodeAt(behind))) behind++;
    if (namePartLength(text, behind) === 0 && text[behind] !== '/') return behind;
  }
  return end;
}

/** `x` between the parts of a size: alone, or glued to a number on its left as in `3.4x16`. */
function timesEnd(text: string, offset: number, before: readonly IToken[]): number {
  const character = text[offset];
  if (character === '×') return offset + 1;
  if (character !== 'x') return offset;
  const next = offset + 1;
  if (text[next] === '.' && letterLength(text, next + 1) > 0) return offset;
  if (namePartLength(text, next) === 0) return next;
  const last = before.at(-1);
  if (last?.tokenType !== NumberToken || !(isDigit(text.charCodeAt(next)) || text[next] === '.')) return offset;
  return last.startOffset + last.image.length === offset || goesOnAsSize(text, next) ? next : offset;
}

/** What tells `60 x12 mm` from a lead called `x12`: a unit or another `x` follows. */
function goesOnAsSize(text: string, offset: number): boolean {
  const [, follower = ''] = /^[\d.,_]+[ \t]*([^\s\d;}#]*)/.exec(text.slice(offset, offset + 60)) ?? [];
  return /^[x×]/.test(follower) || unitOf(follower)?.dimension === 'length';
}

/** A name, a word, a path (`slug.start`), a finding's code (`potting/too-hot`) or a unit (`kohm`, `ohm/m`, `°C`, `%`). */
function wordEnd(text: string, offset: number): number {
  if (text[offset] === '%' || isInchSign(text, offset)) return offset + 1;
  let end = text[offset] === '°' ? offset + 1 : offset;
  if (end > offset && letterLength(text, end) === 0) return end;
  // A name that begins with `_` is refused where a name is wanted, whole.
  if (letterLength(text, end) === 0 && text[end] !== '_') return offset;
  end = nameEnd(text, end);
  if (text[end] === '/' && letterLength(text, end + 1) > 0) {
    while (text[end] === '/' && letterLength(text, end + 1) > 0) end = nameEnd(text, end + 1);
    return end;
  }
  while (text[end] === '.' && letterLength(text, end + 1) > 0) end = nameEnd(text, end + 1);
  return text[end] === '.' ? end + 1 : end;
}

export const endOf = (token: IToken): number => token.startOffset + token.image.length;

export const tokenSpan = (token: IToken): Span => spanOf(token.startOffset, endOf(token));

function scanned(name: string, end: Scan, options: { categories?: TokenType[]; group?: string }): TokenType {
  const exec = (text: string, offset: number, before: IToken[]): CustomPatternMatcherReturn | null => {
    const at = end(text, offset, before);
    return at > offset ? [text.slice(offset, at)] : null;
  };
  return createToken({ name, pattern: exec, line_breaks: false, ...options });
}
