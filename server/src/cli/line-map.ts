/** Offsets to lines and back, as editors count them: a line ends at LF, CRLF or a CR alone; characters are UTF-16 units. */
export interface Position {
  /** From zero. */
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export interface LineMap {
  readonly lineCount: number;
  position(offset: number): Position;
  range(start: number, end: number): Range;
  /** The text of a line without its end; empty beyond the last. */
  line(index: number): string;
  /** Where a line starts in the text. */
  start(index: number): number;
}

export function lineMap(text: string): LineMap {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\r|\n/g)) starts.push(match.index + match[0].length);
  const start = (index: number): number => starts[index] ?? text.length;
  const position = (offset: number): Position => {
    const inside = Math.max(0, Math.min(offset, text.length));
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (start(middle) <= inside) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: inside - start(low) };
  };
  return {
    lineCount: starts.length,
    position,
    range: (from, to) => ({ start: position(from), end: position(to) }),
    line: (index) => text.slice(start(index), start(index + 1)).replace(/[\r\n]+$/, ''),
    start,
  };
}
