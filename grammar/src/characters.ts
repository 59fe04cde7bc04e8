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

export function lineEnd(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && !isLineBreak(text.charCodeAt(end))) end++;
  return end;
}

/** End of the string literal whose quote stands at `offset`: behind its closing quote, or the line's end where that is missing. */
export function stringEnd(text: string, offset: number): number {
  let end = offset + 1;
  while (end < text.length) {
    const code = text.charCodeAt(end);
    if (isLineBreak(code)) return end;
    if (code === 34) return end + 1;
    end += code === 92 && end + 1 < text.length && !isLineBreak(text.charCodeAt(end + 1)) ? 2 : 1;
  }
  return end;
}

/** True where the literal that `stringEnd` found has its closing quote. */
export function isClosedString(literal: string): boolean {
  if (literal.length < 2 || !literal.endsWith('"')) return false;
  let backslashes = 0;
  while (literal.charCodeAt(literal.length - 2 - backslashes) === 92) backslashes++;
  return backslashes % 2 === 0;
}
