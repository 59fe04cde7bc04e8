/**
 * Makes the lines and braces of a piece's tokens sound before they are parsed: joins lines that go on, ends open
 * parentheses, supplies missing braces and drops those that close nothing. What it repairs it tells as a problem.
 */
import { createTokenInstance, type IToken, type TokenType } from 'chevrotain';
import { beginsComment, lineEnd } from './characters.ts';
import { lacksBody, lacksBrace } from './missing-brace.ts';
import { DEEPEST_NESTING, isBlockWord, isTopLevelWord, keptOpen, mayHold } from './schema/containment.ts';
import { type Span, spanOf } from './span.ts';
import { fixAt, problemAt, removeFix, type SyntaxProblem } from './syntax-problem.ts';
import {
  CloseBrace,
  CloseParenthesis,
  Comma,
  endOf,
  Newline,
  NumberToken,
  OpenBrace,
  OpenParenthesis,
  Semicolon,
  tokenSpan,
  Unknown,
  Word,
} from './tokens.ts';

export interface Layout {
  readonly tokens: readonly IToken[];
  readonly problems: readonly SyntaxProblem[];
}

interface OpenBlock {
  readonly word: string;
  /** From the block's word to its brace. */
  readonly head: Span;
  /** White space before its line. */
  readonly indentation: string;
  /** Its opening brace was missing, and that has been told. */
  readonly supplied: boolean;
}

/** A brace that the text lacks has an empty image. */
export const isSupplied = (token: IToken): boolean => token.image === '';

const CONTINUING_WORDS: ReadonlySet<string> = new Set(['series', 'parallel', 'reversed']);

export function layOut(text: string, raw: readonly IToken[]): Layout {
  const problems: SyntaxProblem[] = [];
  const tokens = withOpening(text, withUnknownJoined(raw, problems), problems);
  const out: IToken[] = [];
  const blocks: OpenBlock[] = [];
  const parentheses: IToken[] = [];
  /** Index in `out` where the running line begins. */
  let lineBegin = 0;
  let lineBefore = 0;
  let tooDeep = 0;
  let extraBrace: number | undefined;
  /** First word of a block's line that lacks its brace. */
  let header: IToken | undefined;

  const endLine = (token: IToken | undefined) => {
    const first = parentheses[0];
    if (first) problems.push(unclosedParenthesis(first, out.at(-1) ?? first, parentheses.length));
    parentheses.length = 0;
    if (token) out.push(token);
    lineBefore = lineBegin;
    lineBegin = out.length;
  };
  /** A block's line whose brace stands on the next one goes on with it. */
  const joinHeader = (brace: IToken): boolean => {
    const first = out[lineBefore];
    const last = out[lineBegin - 2];
    const outer = blocks.at(-1)?.word;
    const isHeader = first?.tokenType === Word && isBlockWord(first.image) && mayHold(outer ?? '', first.image);
    if (!last || !isHeader || outer === undefined || out[lineBegin - 1]?.tokenType !== Newline) return false;
    problems.push(braceBelow(text, last, brace));
    out.pop();
    lineBegin = lineBefore;
    return true;
  };
  const openBlock = (token: IToken) => {
    const first = out[lineBegin] ?? token;
    blocks.push({
      word: first.tokenType === Word ? first.image : '',
      head: spanOf(first.startOffset, endOf(token)),
      indentation: indentationAt(text, first.startOffset),
      supplied: isSupplied(token),
    });
    endLine(token);
  };
  const closeBlock = (token: IToken) => {
    endLine(undefined);
    blocks.pop();
    endLine(token);
  };
  const supplyClosing = (keep: number) => {
    const missing = blocks.slice(keep);
    const last = out.findLast(({ tokenType }) => tokenType !== Newline && tokenType !== Semicolon);
    if (missing.length === 0 || !last) return;
    const at = endOf(last);
    const told = missing.filter((block) => !block.supplied);
    if (told.length > 0) problems.push(unclosedBlock(told, endOfComment(text, at)));
    for (const _ of missing) closeBlock(supplied(CloseBrace, at));
  };

  for (const [index, token] of tokens.entries()) {
    const isFirst = out.length === lineBegin;
    if (tooDeep > 0) {
      if (token.tokenType === OpenBrace) tooDeep++;
      if (token.tokenType === CloseBrace) tooDeep--;
    } else if (token.tokenType === Newline && header) {
      problems.push(missingOpening(text, spanOf(header.startOffset, endOf(out.at(-1) ?? header))));
      openBlock(supplied(OpenBrace, endOf(out.at(-1) ?? header)));
      header = undefined;
    } else if (token.tokenType === Newline) {
      if (isFirst) continue;
      if (!goesOn({ out, tokens, index, inParentheses: parentheses.length > 0, block: blocks.at(-1)?.word }))
        endLine(token);
    } else if (token.tokenType === Semicolon) {
      if (!isFirst) endLine(token);
    } else if (token.tokenType === OpenBrace) {
      if (blocks.length >= DEEPEST_NESTING) {
        problems.push(nestedTooDeep(token));
        tooDeep = 1;
      } else {
        if (isFirst && !joinHeader(token)) problems.push(unnamedBlock(tokenSpan(token)));
        openBlock(token);
      }
    } else if (token.tokenType === CloseBrace) {
      if (blocks.length > 0) closeBlock(token);
      else {
        if (
          extraBrace === undefined ||
          tokens.slice(extraBrace + 1, index).some((between) => between.tokenType !== Newline)
        ) {
          const span = tokenSpan(token);
          problems.push(problemAt('syntax/unexpected', span, 'This `}` closes nothing.', removeFix(span)));
        }
        extraBrace = index;
      }
    } else {
      const isLineStart = isFirst && (tokens[index - 1]?.tokenType ?? Newline) === Newline;
      if (
        isLineStart &&
        token.tokenType === Word &&
        isBlockWord(token.image) &&
        braceOfLine(tokens, index) !== undefined
      ) {
        supplyClosing(
          keptOpen(
            blocks.map((open) => open.word),
            token.image,
          ),
        );
      }
      if (isLineStart && isInnerHeader(text, token, blocks.at(-1)?.word)) header = token;
      if (token.tokenType === OpenParenthesis) parentheses.push(token);
      if (token.tokenType === CloseParenthesis) parentheses.pop();
      out.push(token);
    }
  }
  endLine(undefined);
  supplyClosing(0);
  return { tokens: out, problems };
}

function isInnerHeader(text: string, token: IToken, outer: string | undefined): boolean {
  if (outer === undefined || token.tokenType !== Word || !isBlockWord(token.image)) return false;
  return mayHold(outer, token.image) && lacksBrace(text, token.startOffset);
}

/**
 * Neighbours that no token fits become one. At a line's start it is told and left out; further on the line's reader sees what may be
 * meant by it.
 */
function withUnknownJoined(tokens: readonly IToken[], problems: SyntaxProblem[]): readonly IToken[] {
  const kept: IToken[] = [];
  for (const token of tokens) {
    const last = kept.at(-1);
    if (token.tokenType === Unknown && last?.tokenType === Unknown && endOf(last) === token.startOffset)
      kept[kept.length - 1] = createTokenInstance(
        Unknown,
        last.image + token.image,
        last.startOffset,
        endOf(token) - 1,
        0,
        0,
        0,
        0,
      );
    else kept.push(token);
  }
  return kept.filter((token, index) => {
    const before = kept[index - 1]?.tokenType;
    const isFirst = before === undefined || [Newline, Semicolon, OpenBrace, CloseBrace].includes(before);
    if (token.tokenType !== Unknown || !isFirst) return true;
    const span = tokenSpan(token);
    problems.push(problemAt('syntax/unexpected', span, 'This character has no meaning here.', removeFix(span)));
    return false;
  });
}

/**
 * Sees to the brace of the piece's first line: `wire a` and then its facts lacks one, and one on the next line is told and
 * taken for that line's.
 */
function withOpening(text: string, tokens: readonly IToken[], problems: SyntaxProblem[]): readonly IToken[] {
  const begin = tokens.findIndex((token) => token.tokenType !== Newline);
  const first = tokens[begin];
  if (!first || first.tokenType !== Word || first.image === 'use' || !isTopLevelWord(first.image)) return tokens;
  if (braceOfLine(tokens, begin) !== undefined) return tokens;
  let end = begin;
  while (tokens[end] && ![Newline, CloseBrace, Semicolon].some((type) => tokens[end]?.tokenType === type)) end++;
  const last = tokens[end - 1] ?? first;
  let next = end;
  while (tokens[next]?.tokenType === Newline) next++;
  const brace = tokens[next];
  const line = spanOf(first.startOffset, endOf(last));
  if (brace?.tokenType === OpenBrace) {
    problems.push(braceBelow(text, last, brace));
    return [...tokens.slice(0, end), ...tokens.slice(next)];
  }
  problems.push(missingOpening(text, line, !tokens.some((token) => token.tokenType === CloseBrace)));
  return [...tokens.slice(0, end), supplied(OpenBrace, line.end), ...tokens.slice(end)];
}

function braceBelow(text: string, last: IToken, brace: IToken): SyntaxProblem {
  const between = spanOf(endOf(last), endOf(brace));
  const isBlank = /^\s*\{$/.test(text.slice(between.start, between.end));
  const fix = isBlank ? fixAt('Move it up', between, ' {') : undefined;
  return problemAt('syntax/unexpected', tokenSpan(brace), "The `{` belongs on its block's line.", fix);
}

function missingOpening(text: string, line: Span, lacksClosing = false): SyntaxProblem {
  const fix = fixAt('Insert `{`', spanOf(line.end, line.end), lacksClosing ? ' {\n}' : ' {');
  return problemAt('syntax/incomplete', line, lacksBody(text.slice(line.start, line.end)), fix);
}

/** The brace that opens a block on the line of the token at `index`. */
function braceOfLine(tokens: readonly IToken[], index: number): IToken | undefined {
  for (let at = index; ; at++) {
    const token = tokens[at];
    if (!token || token.tokenType === Newline || token.tokenType === Semicolon || token.tokenType === CloseBrace) {
      return undefined;
    }
    if (token.tokenType === OpenBrace) return token;
  }
}

interface LineBreak {
  readonly out: readonly IToken[];
  readonly tokens: readonly IToken[];
  readonly index: number;
  readonly inParentheses: boolean;
  readonly block: string | undefined;
}

/** Whether the line goes on behind this line break; never into a brace, a block's line or the next position of a selector. */
function goesOn({ out, tokens, index, inParentheses, block }: LineBreak): boolean {
  const last = out.at(-1);
  if (!last) return false;
  const isJoining = block === 'selector' && last.tokenType === Word && CONTINUING_WORDS.has(last.image);
  const isOpenEnded = last.tokenType === Comma || isJoining;
  if (!inParentheses && !isOpenEnded) return false;
  let at = index;
  while (tokens[at]?.tokenType === Newline) at++;
  const next = tokens[at];
  if (!next || next.tokenType === CloseBrace || next.tokenType === Semicolon || braceOfLine(tokens, at)) return false;
  return !(block === 'selector' && next.tokenType === NumberToken);
}

function unclosedBlock(missing: readonly OpenBlock[], at: number): SyntaxProblem {
  const outermost = missing[0];
  const newText = [...missing].reverse().map((block) => `\n${block.indentation}}`);
  const message =
    missing.length === 1 ? 'The `}` of this block is missing.' : 'This block and what is in it lack their `}`.';
  const fix = fixAt('Insert `}`', spanOf(at, at), newText.join(''));
  return problemAt('syntax/unclosed', outermost?.head ?? spanOf(at, at), message, fix);
}

function unclosedParenthesis(open: IToken, last: IToken, missing: number): SyntaxProblem {
  const end = endOf(last);
  const fix = fixAt('Insert `)`', spanOf(end, end), ')'.repeat(missing));
  return problemAt('syntax/unclosed', tokenSpan(open), 'The `)` of this parenthesis is missing.', fix);
}

function nestedTooDeep(token: IToken): SyntaxProblem {
  return {
    code: 'analysis/incomplete',
    span: tokenSpan(token),
    message: `Blocks are read ${DEEPEST_NESTING} deep; what is in this one is not analysed.`,
    action: 'Close blocks before this one.',
  };
}

export const unnamedBlock = (span: Span): SyntaxProblem =>
  problemAt('syntax/unexpected', span, 'A block begins with what it is, such as `coil slug {`.');

function supplied(type: TokenType, at: number): IToken {
  return createTokenInstance(type, '', at, at, 0, 0, 0, 0);
}

/** Behind the comment that follows on the line, where one does. */
function endOfComment(text: string, offset: number): number {
  let at = offset;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return beginsComment(text, at) ? lineEnd(text, at) : offset;
}

function indentationAt(text: string, offset: number): string {
  let start = offset;
  while (start > 0 && (text[start - 1] === ' ' || text[start - 1] === '\t')) start--;
  const before = text.charCodeAt(start - 1);
  return start === 0 || before === 10 || before === 13 ? text.slice(start, offset) : '';
}
