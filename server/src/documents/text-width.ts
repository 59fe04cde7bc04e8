/**
 * Widths of text without a browser, from a table of advance widths in thousandths of the type size. The table holds a common
 * metric of sans-serif faces, measured on an open one (Liberation Sans, regular and bold); the reserve covers faces that run wider.
 */

export interface TypeFace {
  readonly size: number;
  readonly bold?: boolean;
}

/** Widths of the code points 32 to 126. */
// biome-ignore format: a table reads better in rows
const REGULAR = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
  667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556,
  556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];
// biome-ignore format: a table reads better in rows
const BOLD = [
  278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
  667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611,
  611, 278, 278, 556, 278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
];

const BEYOND_ASCII: Readonly<Record<string, number>> = {
  '\u00A0': 278,
  '\u202F': 278,
  '\u2009': 200,
  '\u2212': 584,
  '\u2013': 556,
  '\u2014': 1000,
  '\u2018': 278,
  '\u2019': 278,
  '\u201C': 500,
  '\u201D': 500,
  '\u2026': 1000,
  '\u03A9': 802,
  '\u00B5': 576,
  '\u00B0': 400,
  '\u00B1': 549,
  '\u00B7': 278,
  '\u00D7': 584,
  '\u2264': 549,
  '\u2265': 549,
  '\u00DF': 611,
  '\u00E6': 889,
  '\u00C6': 1000,
  '\u00F8': 611,
  '\u00D8': 778,
  '\u0142': 278,
  '\u0131': 278,
  '\u0153': 944,
};

/** Other letters: about a capital of the table; writing that fills its square takes the whole of it. */
const OTHER = 720;
const SQUARE = /[\u1100-\u115F\u2E80-\uA4CF\uAC00-\uD7A3\uF900-\uFAFF\uFE30-\uFE6F\uFF00-\uFF60\u{1F000}-\u{3FFFF}]/u;

/** Faces of editors run up to a twentieth wider than the table. */
export const WIDTH_RESERVE = 1.05;

/** Width in px, the reserve included. */
export function textWidth(text: string, { size, bold = false }: TypeFace): number {
  let thousandths = 0;
  for (const character of text) thousandths += advance(character, bold);
  return (thousandths / 1000) * size * WIDTH_RESERVE;
}

/** The text itself, or as much of it as fits with an ellipsis behind. */
export function fitText(text: string, width: number, face: TypeFace): string {
  if (textWidth(text, face) <= width) return text;
  let kept = '';
  for (const character of text) {
    if (textWidth(`${kept}${character}\u2026`, face) > width) break;
    kept += character;
  }
  return `${kept.trimEnd()}\u2026`;
}

/** Lines no wider than `width`, broken at spaces; a word that is wider than a line is shortened. */
export function wrapText(text: string, width: number, face: TypeFace): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, face) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = fitText(word, width, face);
  }
  return line === '' ? lines : [...lines, line];
}

function advance(character: string, bold: boolean): number {
  const own = known(character, bold);
  if (own !== undefined) return own;
  const [base = '', ...marks] = character.normalize('NFD');
  if (/^\p{M}$/u.test(character)) return 0;
  if (marks.length > 0) return known(base, bold) ?? OTHER;
  return SQUARE.test(character) ? 1000 : OTHER;
}

function known(character: string, bold: boolean): number | undefined {
  const code = character.codePointAt(0) ?? 0;
  const row = bold ? BOLD : REGULAR;
  return code >= 32 && code < 127 ? row[code - 32] : BEYOND_ASCII[character];
}
