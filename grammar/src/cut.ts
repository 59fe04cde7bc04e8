/**
 * Cuts a file into its top-level pieces by a scan that knows only braces, strings, comments and line starts. A block word
 * at a line start which the open block cannot hold begins a new block, so that a forgotten brace hurts its own block only.
 */
import { isLineBreak, lineEnd, nameEnd, stringEnd } from './characters.ts';
import { isTopLevelWord, keptOpen } from './schema/containment.ts';

/** Where each piece begins, ascending, the first at `from` (also where nothing stands); together they cover the text. Time is linear in its length. */
export function cut(text: string, from = 0): readonly number[] {
  const starts: number[] = [from];
  let open: string[] = [];
  let begun = false;
  let complete = false;
  /** End of the last line with content: comments behind it go with what follows them. */
  let contentEnd = from;
  let lineWord = '';

  for (let at = from; at < text.length; ) {
    const lineStart = at;
    at = skipSpace(text, at);
    if (at >= text.length) break;
    if (isLineBreak(text.charCodeAt(at)) || text.charCodeAt(at) === 35) {
      at = nextLine(text, at);
      continue;
    }
    const word = text.slice(at, nameEnd(text, at));
    const line = scanLine(text, at);
    if (word !== '') lineWord = word;

    if (begun && beginsPiece(text, { lineStart, at, word, opensBlock: line.opens, open, complete })) {
      starts.push(contentEnd);
      open = [];
      complete = false;
    } else if (line.opens && open.length > 0) {
      open.length = keptOpen(open, word);
    }
    begun = true;
    complete ||= word === 'use' && open.length === 0;

    let closedAt: number | undefined;
    for (const brace of line.braces) {
      if (brace.opens) open.push(brace.word === '' ? lineWord : brace.word);
      else open.pop();
      if (!brace.opens && open.length === 0) {
        complete = true;
        closedAt = brace.offset + 1;
        break;
      }
    }
    if (closedAt !== undefined && !isRestBlank(text, closedAt)) {
      at = closedAt;
      contentEnd = closedAt;
    } else {
      at = nextLine(text, line.end);
      contentEnd = at;
    }
  }
  if (complete && contentEnd < text.length) starts.push(contentEnd);
  return starts;
}

interface LineStart {
  readonly lineStart: number;
  readonly at: number;
  readonly word: string;
  readonly opensBlock: boolean;
  readonly open: readonly string[];
  readonly complete: boolean;
}

function beginsPiece(text: string, { lineStart, at, word, opensBlock, open, complete }: LineStart): boolean {
  if (complete) return true;
  const atMargin = lineStart === at && (at === 0 || isLineBreak(text.charCodeAt(at - 1)));
  if (open.length === 0) return isTopLevelWord(word) && (opensBlock || atMargin);
  if (word === 'use') return atMargin;
  return opensBlock && keptOpen(open, word) === 0;
}

interface Brace {
  readonly offset: number;
  readonly opens: boolean;
  /** The first word since the last brace or semicolon of the line. */
  readonly word: string;
}

/** The braces of one line, and whether its first statement opens a block. */
function scanLine(text: string, from: number): { end: number; braces: readonly Brace[]; opens: boolean } {
  const braces: Brace[] = [];
  let word: string | undefined;
  let opens: boolean | undefined;
  let at = from;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (isLineBreak(code) || code === 35) break;
    if (code === 34) at = stringEnd(text, at);
    else if (code === 123 || code === 125) {
      braces.push({ offset: at, opens: code === 123, word: word ?? '' });
      opens ??= code === 123;
      word = undefined;
      at++;
    } else if (code === 59) {
      opens ??= false;
      word = undefined;
      at++;
    } else {
      const end = nameEnd(text, at);
      if (end > at) word ??= text.slice(at, end);
      at = Math.max(end, at + 1);
    }
  }
  return { end: lineEnd(text, at), braces, opens: opens ?? false };
}

function skipSpace(text: string, from: number): number {
  let at = from;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code !== 32 && code !== 9 && code !== 11 && code !== 12 && !(code > 127 && /\s/.test(text.charAt(at)))) break;
  }
  return at;
}

function nextLine(text: string, from: number): number {
  const end = lineEnd(text, from);
  return text.charCodeAt(end) === 13 && text.charCodeAt(end + 1) === 10 ? end + 2 : Math.min(end + 1, text.length);
}

function isRestBlank(text: string, from: number): boolean {
  const at = skipSpace(text, from);
  const code = text.charCodeAt(at);
  return at >= text.length || isLineBreak(code) || code === 35;
}
