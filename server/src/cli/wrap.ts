import { displayWidth } from './visible.ts';

/** Narrower than this, breaking lines makes nothing easier to read. */
const LEAST = 40;
/** Wider lines are hard to follow, however wide the terminal is. */
const MOST = 100;

/**
 * A text as lines of a terminal of so many columns, all but the first indented as the first one's lead is wide. Without a width (a pipe,
 * a file) it stays one line, which tools can search.
 */
export function wrapped(lead: string, text: string, columns: number | undefined): readonly string[] {
  if (columns === undefined) return [`${lead}${text}`];
  const width = Math.min(MOST, Math.max(LEAST, columns)) - 1;
  const indent = ' '.repeat(displayWidth(lead));
  const lines: string[] = [];
  let line = lead;
  let empty = true;
  for (const word of text.split(' ')) {
    if (!empty && displayWidth(line) + 1 + displayWidth(word) > width) {
      lines.push(line);
      line = indent;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
}
