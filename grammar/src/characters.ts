/** Which characters names and lines are made of; shared by the scan that cuts a file and the lexer. */

const LETTER = /^\p{L}$/u;
const NAME_PART = /^[\p{L}\p{M}\p{N}]$/u;

export const isDigit = (code: number): boolean => code >= 48 && code <= 57;

const isAsciiLetter = (code: number): boolean => (code >= 97 && code <= 122) || (code >= 65 && code <= 90);

export const isLineBreak = (code: number): boolean => code === 10 || code === 13;

/** Length in UTF-16 units of the letter at `offset`; 0 where there is none. */
export function letterLength(text: string, offset: number): number {
  const code = text.codePointAt(offset);
  if (code === undefined) return 0;
  if (code < 128) return isAsciiLetter(code) ? 1 : 0;
  return LETTER.test(String.fromCodePoint(code)) ? (code > 0xffff ? 2 : 1) : 0;
}

/** Length of the character at `offset` that may stand inside a name; 0 where there is none. */
export function namePartLength(text: string, offset: number): number {
  const code = text.codePointAt(offset);
  if (code === undefined) return 0;
  if (code < 128) return isAsciiLetter(code) || isDigit(code) || code === 45 || code === 95 ? 1 : 0;
  return NAME_PART.test(String.fromCodePoint(code)) ? (code > 0xffff ? 2 : 1) : 0;
}

/** End of the run of name characters that begins at `offset`. */
export function nameEnd(text: string, offset: number): number {
  let end = offset;
  for (let length = namePartLength(text, end); length > 0; length = namePartLength(text, end)) end += length;
  return end;
}

/** `#`, or `//` as other languages have it, which is told. */
export function beginsComment(text: string, offset: number): boolean {
  const code = text.charCodeAt(offset);
  return code === 35 || (code === 47 && text.charCodeAt(offset + 1) === 47);
}

/** `"`, or the curly quotes that word processors put in its place, which are told; behind a figure it is the sign for inches. */
export function beginsText(text: string, offset: number): boolean {
  const code = text.charCodeAt(offset);
  return isCurlyQuote(code) || (code === 34 && !isInchSign(text, offset));
}

export const isInchSign = (text: string, offset: number): boolean =>
  text.charCodeAt(offset) === 34 &&
  isDigit(text.charCodeAt(offset - 1)) &&
  /^"(?:[\s;}),]|$|x[\s\d])/.test(text.slice(offset, offset + 3));

const isCurlyQuote = (code: number): boolean => code >= 0x201c && code <= 0x201f;

export function lineEnd(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && !isLineBreak(text.charCodeAt(end))) end++;
  return end;
}

/**
 * End of the string literal whose quote stands at `offset`: behind its closing quote; where that is missing, the line's end, or what
 * stands before the brace there.
 */
export function stringEnd(text: string, offset: number): number {
  const isCurly = isCurlyQuote(text.charCodeAt(offset));
  let end = offset + 1;
  while (end < text.length) {
    const code = text.charCodeAt(end);
    if (isLineBreak(code)) break;
    if (code === 34 || (isCurly && isCurlyQuote(code))) return end + 1;
    end += code === 92 && end + 1 < text.length && !isLineBreak(text.charCodeAt(end + 1)) ? 2 : 1;
  }
  return beforeBrace(text, offset, end);
}

function beforeBrace(text: string, from: number, lineEnd: number): number {
  const isBlank = (at: number) => at > from && (text[at] === ' ' || text[at] === '\t');
  let end = lineEnd;
  while (isBlank(end - 1)) end--;
  if (text[end - 1] !== '{' || !isBlank(end - 2)) return lineEnd;
  end--;
  while (isBlank(end - 1)) end--;
  return end;
}

/** True where the literal that `stringEnd` found has its closing quote. */
export function isClosedString(literal: string): boolean {
  const last = literal.charCodeAt(literal.length - 1);
  const closes = last === 34 || (isCurlyQuote(last) && isCurlyQuote(literal.charCodeAt(0)));
  if (literal.length < 2 || !closes) return false;
  let backslashes = 0;
  while (literal.charCodeAt(literal.length - 2 - backslashes) === 92) backslashes++;
  return backslashes % 2 === 0;
}
