/**
 * Cuts a file into its top-level pieces by a scan that knows only braces, strings, comments and line starts. A block word
 * at a line start which the open block cannot hold begins a new block, so that a forgotten brace hurts its own block only.
 */
import { beginsComment, beginsText, isLineBreak, lineEnd, nameEnd, stringEnd } from './characters.ts';
import { lacksBrace } from './missing-brace.ts';
import { isBlockWord, isTopLevelWord, keptOpen, mayHold } from './schema/containment.ts';

/** Where each piece begins, ascending, the first at `from` (also where nothing stands); together they cover the text from there. */
export const cut = (...parameters: Parameters<typeof cutting>): readonly number[] => [...cutting(...parameters)];

/**
 * The same, each begin as soon as it is found. Time is linear in the text's length. A piece's begin is known from the text behind it alone,
 * so a scan may start at any of them; where `isKnown` says that one was found before, the scan stops with it.
 */
export function* cutting(text: string, from = 0, isKnown: (start: number) => boolean = () => false): Generator<number> {
  yield from;
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
    if (isLineBreak(text.charCodeAt(at)) || beginsComment(text, at)) {
      at = nextLine(text, at);
      continue;
    }
    const word = text.slice(at, nameEnd(text, at));
    const opensBlock = firstMark(text, at) === OPEN;
    if (word !== '') lineWord = word;

    if (begun && beginsPiece({ lineStart, at, word, opensBlock, open, complete })) {
      yield contentEnd;
      if (isKnown(contentEnd)) return;
      lineWord = word;
      open = [];
      complete = false;
    } else if (opensBlock && open.length > 0) {
      open.length = keptOpen(open, word);
    }
    begun = true;
    complete ||= word === 'use' && open.length === 0;

    if (open.length > 0 && isBlockWord(word) && mayHold(open.at(-1) ?? '', word) && lacksBrace(text, at))
      open.push(word);
    const end = followLine(text, at, open, lineWord);
    complete ||= end.closed;
    at = end.closed && !isRestBlank(text, end.at) ? end.at : nextLine(text, end.at);
    contentEnd = at;
  }
  if (complete && contentEnd < text.length) yield contentEnd;
}

interface LineStart {
  readonly lineStart: number;
  readonly at: number;
  readonly word: string;
  readonly opensBlock: boolean;
  readonly open: readonly string[];
  readonly complete: boolean;
}

function beginsPiece({ lineStart, at, word, opensBlock, open, complete }: LineStart): boolean {
  if (complete) return true;
  const atMargin = lineStart === at;
  if (open.length === 0) return isTopLevelWord(word) && (opensBlock || atMargin);
  if (word === 'use') return atMargin;
  return opensBlock && keptOpen(open, word) === 0;
}

const OPEN = 123;
const CLOSE = 125;
const SEMICOLON = 59;

/** The first brace or semicolon on the rest of the line. */
function firstMark(text: string, from: number): number | undefined {
  for (let at = from; at < text.length; ) {
    const code = text.charCodeAt(at);
    if (isLineBreak(code) || beginsComment(text, at)) return undefined;
    if (code === OPEN || code === CLOSE || code === SEMICOLON) return code;
    at = beginsText(text, at) ? stringEnd(text, at) : at + 1;
  }
  return undefined;
}

/**
 * Opens and closes blocks along the line, up to the brace that closes the outermost one (and those that then close nothing)
 * or the line's end.
 */
function followLine(text: string, from: number, open: string[], lineWord: string): { at: number; closed: boolean } {
  let word: string | undefined;
  let at = from;
  let closed = false;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (isLineBreak(code) || beginsComment(text, at)) break;
    if (closed && code !== CLOSE) {
      if (skipSpace(text, at) === at) break;
      at = skipSpace(text, at);
    } else if (beginsText(text, at)) at = stringEnd(text, at);
    else if (code === OPEN || code === CLOSE || code === SEMICOLON) {
      if (code === OPEN) open.push(word ?? lineWord);
      if (code === CLOSE) open.pop();
      closed = code === CLOSE && open.length === 0;
      word = undefined;
      at++;
    } else {
      const end = nameEnd(text, at);
      if (end > at) word ??= text.slice(at, end);
      at = Math.max(end, at + 1);
    }
  }
  return { at, closed };
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
  return at >= text.length || isLineBreak(code) || beginsComment(text, at);
}
