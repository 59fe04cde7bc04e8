/**
 * Makes the lines and braces of a piece's tokens sound before they are parsed: joins lines that go on, ends open
 * parentheses, supplies missing braces and drops those that close nothing. What it repairs it tells as a problem.
 */
import { createTokenInstance, type IToken, type TokenType } from 'chevrotain';
import { lineEnd } from './characters.ts';
import { lacksBrace } from './missing-brace.ts';
import { DEEPEST_NESTING, isBlockWord, isTopLevelWord, keptOpen, mayHold } from './schema/containment.ts';
import { type Span, spanOf } from './span.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import {
  CloseBrace,
  CloseParenthesis,
  Comma,
  Newline,
  NumberToken,
  OpenBrace,
  OpenParenthesis,
  Semicolon,
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

export const endOf = (token: IToken): number => token.startOffset + token.image.length;

const CONTINUING_WORDS: ReadonlySet<string> = new Set(['series', 'parallel', 'reversed']);

export function layOut(text: string, raw: readonly IToken[]): Layout {
  const problems: SyntaxProblem[] = [];
  const tokens = withOpening(text, withoutUnknown(raw, problems), problems);
  const out: IToken[] = [];
  const blocks: OpenBlock[] = [];
  const parentheses: IToken[] = [];
  /** Index in `out` where the running line begins. */
  let lineBegin = 0;
  let tooDeep = 0;
  let extraBrace: number | undefined;
  /** First word of a block's line that lacks its brace. */
  let header: IToken | undefined;

  const endLine = (token: IToken | undefined) => {
    const first = parentheses[0];
    if (first) problems.push(unclosedParenthesis(first, out.at(-1) ?? first, parentheses.length));
    parentheses.length = 0;
    if (token) out.push(token);
    lineBegin = out.length;
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
        if (isFirst) problems.push(strayBrace(token));
        openBlock(token);
      }
    } else if (token.tokenType === CloseBrace) {
      if (blocks.length > 0) closeBlock(token);
      else {
        if (
          extraBrace === undefined ||
          tokens.slice(extraBrace + 1, index).some((between) => between.tokenType !== Newline)
        ) {
          problems.push(closesNothing(token));
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

/** Takes out what no token fits; neighbours make one finding. */
function withoutUnknown(tokens: readonly IToken[], problems: SyntaxProblem[]): readonly IToken[] {
  let run: { start: number; end: number } | undefined;
  const tell = () => {
    if (run) {
      problems.push({
        code: 'syntax/unexpected',
        span: spanOf(run.start, run.end),
        message: 'This character has no meaning here.',
        fixes: [{ title: 'Remove it', edits: [{ span: spanOf(run.start, run.end), newText: '' }] }],
      });
    }
    run = undefined;
  };
  const kept = tokens.filter((token) => {
    if (token.tokenType !== Unknown) return true;
    if (run?.end === token.startOffset) run.end = endOf(token);
    else {
      tell();
      run = { start: token.startOffset, end: endOf(token) };
    }
    return false;
  });
  tell();
  return kept;
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
    const between = spanOf(endOf(last), endOf(brace));
    const isBlank = /^\s*\{$/.test(text.slice(between.start, between.end));
    problems.push({
      code: 'syntax/unexpected',
      span: spanOf(brace.startOffset, endOf(brace)),
      message: "The `{` belongs on its block's line.",
      ...(isBlank ? { fixes: [{ title: 'Move it up', edits: [{ span: between, newText: ' {' }] }] } : {}),
    });
    return [...tokens.slice(0, end), ...tokens.slice(next)];
  }
  problems.push(missingOpening(text, line, !tokens.some((token) => token.tokenType === CloseBrace)));
  return [...tokens.slice(0, end), supplied(OpenBrace, line.end), ...tokens.slice(end)];
}

function missingOpening(text: string, line: Span, lacksClosing = false): SyntaxProblem {
  return {
    code: 'syntax/incomplete',
    span: line,
    message: `\`${text.slice(line.start, line.end)}\` stops short: a block's facts go between \`{\` and \`}\`.`,
    fixes: [
      { title: 'Insert `{`', edits: [{ span: spanOf(line.end, line.end), newText: lacksClosing ? ' {\n}' : ' {' }] },
    ],
  };
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
  const isOpenEnded = last.tokenType === Comma || (last.tokenType === Word && CONTINUING_WORDS.has(last.image));
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
  return {
    code: 'syntax/unclosed',
    span: outermost?.head ?? spanOf(at, at),
    message:
      missing.length === 1 ? 'The `}` of this block is missing.' : 'This block and what is in it lack their `}`.',
    fixes: [{ title: 'Insert `}`', edits: [{ span: spanOf(at, at), newText: newText.join('') }] }],
  };
}

function unclosedParenthesis(open: IToken, last: IToken, missing: number): SyntaxProblem {
  const end = endOf(last);
  return {
    code: 'syntax/unclosed',
    span: spanOf(open.startOffset, endOf(open)),
    message: 'The `)` of this parenthesis is missing.',
    fixes: [{ title: 'Insert `)`', edits: [{ span: spanOf(end, end), newText: ')'.repeat(missing) }] }],
  };
}

function nestedTooDeep(token: IToken): SyntaxProblem {
  return {
    code: 'syntax/unexpected',
    span: spanOf(token.startOffset, endOf(token)),
    message: `Blocks are nested more than ${DEEPEST_NESTING} deep here; what is in this one is not read.`,
  };
}

function strayBrace(token: IToken): SyntaxProblem {
  return {
    code: 'syntax/unexpected',
    span: spanOf(token.startOffset, endOf(token)),
    message: 'A block begins with what it is, such as `coil slug {`.',
  };
}

function closesNothing(token: IToken): SyntaxProblem {
  const span = spanOf(token.startOffset, endOf(token));
  return {
    code: 'syntax/unexpected',
    span,
    message: 'This `}` closes nothing.',
    fixes: [{ title: 'Remove it', edits: [{ span, newText: '' }] }],
  };
}

function supplied(type: TokenType, at: number): IToken {
  return createTokenInstance(type, '', at, at, 0, 0, 0, 0);
}

/** Behind the comment that follows on the line, where one does. */
function endOfComment(text: string, offset: number): number {
  let at = offset;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return text[at] === '#' ? lineEnd(text, at) : offset;
}

function indentationAt(text: string, offset: number): string {
  let start = offset;
  while (start > 0 && (text[start - 1] === ' ' || text[start - 1] === '\t')) start--;
  const before = text.charCodeAt(start - 1);
  return start === 0 || before === 10 || before === 13 ? text.slice(start, offset) : '';
}
