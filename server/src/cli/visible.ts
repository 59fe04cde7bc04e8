import { HARMFUL } from '../words/harmful.ts';

/**
 * Text from a spec as a terminal may show it: what would steer the terminal (control characters, escape sequences) or reorder
 * the line (bidirectional marks) or hide in it is replaced by something that can be seen and does nothing.
 */
export const visible = (text: string): string => text.replace(HIDDEN, visibleCharacter);

/** One code point that may not be shown. */
function visibleCharacter(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x20) return String.fromCodePoint(0x2400 + code);
  if (code === 0x7f) return '\u2421';
  if (code >= 0xd800 && code <= 0xdfff) return '\uFFFD';
  return `<U+${code.toString(16).toUpperCase().padStart(4, '0')}>`;
}

/** Text that may run over several lines: line feeds stay, all else as above. */
export function visibleLines(text: string): string {
  return text
    .split(/\r\n|\r|\n/)
    .map(visible)
    .join('\n');
}

/** JSON for people and pipes: indented, what is `undefined` left out, and everything that could steer a terminal written as an escape. */
export function jsonText(value: unknown): string {
  const escaped = JSON.stringify(value, null, 2).replace(HIDDEN_EXCEPT_LAYOUT, (character) =>
    // JSON escapes are UTF-16 units.
    Array.from({ length: character.length }, (_, index) => {
      return `\\u${character.charCodeAt(index).toString(16).padStart(4, '0')}`;
    }).join(''),
  );
  return `${escaped}\n`;
}

/** Cells that a piece of text takes in a terminal. */
export function displayWidth(text: string): number {
  if (isPlain(text)) return text.length;
  let width = 0;
  for (const { segment } of GRAPHEMES.segment(text)) width += graphemeWidth(segment);
  return width;
}

/** Nothing but characters that stand for themselves, each in a cell of its own. */
export const isPlain = (text: string): boolean => /^[ -~]*$/.test(text);

const GRAPHEMES = new Intl.Segmenter('en', { granularity: 'grapheme' });

export const graphemesOf = (text: string) => GRAPHEMES.segment(text);

/** Two for emoji and for the wide East Asian ranges (Unicode Standard Annex 11), none for marks that stand on another character. */
export function graphemeWidth(grapheme: string): number {
  if (/\p{Emoji_Presentation}|\uFE0F/u.test(grapheme)) return 2;
  const first = grapheme.codePointAt(0) ?? 0;
  if (/^[\p{Mn}\p{Me}\u200B-\u200D]/u.test(grapheme)) return 0;
  return WIDE.some(([from, to]) => first >= from && first <= to) ? 2 : 1;
}

const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0x9fff],
  [0xa000, 0xa4cf],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x20000, 0x3fffd],
];

const HIDDEN = new RegExp(HARMFUL, 'gu');
const HIDDEN_EXCEPT_LAYOUT = new RegExp(`(?!\\n)${HARMFUL}`, 'gu');
