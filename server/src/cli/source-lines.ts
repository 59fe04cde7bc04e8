/** Source lines as a terminal shows them, with marks under a piece of them that stand where a reader sees the piece. */
import type { LineMap, Range } from './line-map.ts';
import { displayWidth, graphemesOf, graphemeWidth, isPlain, visible } from './visible.ts';

export interface MarkedLine {
  /** From one, as editors number them. */
  readonly number: number;
  readonly text: string;
  /** Blanks, then the marks; empty where nothing of the line is marked. */
  readonly marks: string;
}

/** The lines of a range, at most `most`: the rest of a long range adds nothing that its beginning does not say. */
export function markedLines(lines: LineMap, range: Range, mark: string, most = 3): readonly MarkedLine[] {
  const shown: MarkedLine[] = [];
  const last = Math.min(range.end.line, range.start.line + most - 1);
  for (let index = range.start.line; index <= last; index++) {
    const text = lines.line(index);
    const from = index === range.start.line ? range.start.character : indentOf(text);
    const to = index === range.end.line ? range.end.character : text.length;
    if (index > range.start.line && to <= from) continue;
    shown.push(markedLine(index, text, from, to, mark));
  }
  return shown;
}

const TAB = 4;
const LONGEST = 160;
const BEFORE_MARK = 40;

function markedLine(index: number, whole: string, from: number, to: number, mark: string): MarkedLine {
  const { text, cut } = window(whole, from);
  let shown = cut > 0 ? '… ' : '';
  let blank = displayWidth(shown);
  let marked = 0;
  if (isPlain(text)) {
    const begin = Math.min(Math.max(from - cut, 0), text.length);
    blank += begin;
    marked = Math.min(Math.max(to - cut, begin), text.length) - begin;
    shown += text;
  } else
    for (const { segment, index: offset } of graphemesOf(text)) {
      const at = offset + cut;
      const { cell, width } = cellOf(segment, shown);
      if (at + segment.length <= from) blank += width;
      else if (at < to) marked += width;
      shown += cell;
    }
  if (cut + text.length < whole.length) shown += ' …';
  return { number: index + 1, text: shown.trimEnd(), marks: ' '.repeat(blank) + mark.repeat(Math.max(1, marked)) };
}

/** Of a very long line, the piece around the mark. Cut at whole code points. */
function window(text: string, from: number): { readonly text: string; readonly cut: number } {
  if (text.length <= LONGEST) return { text, cut: 0 };
  let cut = from <= LONGEST - BEFORE_MARK ? 0 : from - BEFORE_MARK;
  if (isLowSurrogate(text, cut)) cut--;
  let end = Math.min(text.length, cut + LONGEST);
  if (isLowSurrogate(text, end)) end--;
  return { text: text.slice(cut, end), cut };
}

const isLowSurrogate = (text: string, at: number): boolean => /[\uDC00-\uDFFF]/.test(text.charAt(at));

function cellOf(segment: string, before: string): { readonly cell: string; readonly width: number } {
  if (segment === '\t') {
    const width = TAB - (displayWidth(before) % TAB);
    return { cell: ' '.repeat(width), width };
  }
  const cell = visible(segment);
  return { cell, width: cell === segment ? graphemeWidth(segment) : displayWidth(cell) };
}

const indentOf = (text: string): number => text.length - text.trimStart().length;
