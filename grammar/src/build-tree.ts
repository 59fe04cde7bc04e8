/** Statements become a chunk's tree: always both a tree and the problems, never an exception. */
import type { IToken } from 'chevrotain';
import { finished } from '../values/finished.ts';
import { buildItem } from './build-item.ts';
import { isSupplied, layOut, unnamedBlock } from './layout.ts';
import { nearest } from './nearest.ts';
import { parse, type Statement } from './parser.ts';
import { mayHold } from './schema/containment.ts';
import { schemas } from './schema/index.ts';
import { type Span, spanOf } from './span.ts';
import { fixTo, problemAt, replaceFix, type SyntaxProblem } from './syntax-problem.ts';
import {
  type BlockNode,
  type Chunk,
  type CommentNode,
  type FactNode,
  type Item,
  type LikeNode,
  MADE_FROM,
  type UseNode,
  type WordItem,
} from './syntax-tree.ts';
import { tokenize, tokenSpan } from './tokens.ts';

export const buildChunk = (text: string): Chunk => finished(buildingChunk(text));

/** The same in steps: a piece may hold a thousand blocks. */
export function* buildingChunk(text: string): Generator<undefined, Chunk> {
  const { statements, comments, problems } = yield* readingStatements(text);
  const content = buildContent(statements, problems);
  return { text, content, comments, problems: problems.sort(byPlace) };
}

interface Statements {
  readonly statements: readonly (FactNode | BlockNode)[];
  readonly comments: readonly CommentNode[];
  /** In no order. */
  readonly problems: SyntaxProblem[];
}

/** Lines and blocks, whatever they may be in. */
export function* readingStatements(text: string): Generator<undefined, Statements> {
  const { tokens, comments } = tokenize(text);
  yield;
  const layout = layOut(text, tokens);
  yield;
  const { statements, rejected } = parse(layout.tokens);
  yield;
  const problems = [
    ...layout.problems,
    ...rejected.filter((token) => !isSupplied(token)).map(misplaced),
    ...comments.filter(({ image }) => !image.startsWith('#')).map(foreignComment),
  ];
  return {
    statements: statements.map((statement) => buildStatement(text, statement, problems)),
    comments: comments.map((token) => ({ kind: 'comment', span: tokenSpan(token), text: token.image })),
    problems,
  };
}

/** From the first to the last, of two at one place the shorter before. */
export const byPlace = (a: SyntaxProblem, b: SyntaxProblem): number =>
  a.span.start - b.span.start || a.span.end - b.span.end;

function buildContent(
  [first, ...rest]: readonly (FactNode | BlockNode)[],
  problems: SyntaxProblem[],
): UseNode | BlockNode | undefined {
  if (!first) return undefined;
  const extra = rest[0];
  if (first.kind === 'block') {
    const block = tellUnheld(undefined, first, problems);
    if (extra) problems.push(outsideOfBlocks(extra));
    return block;
  }
  if (first.items[0]?.kind === 'word' && first.items[0].text === 'use') {
    if (extra) problems.push(outsideOfBlocks(extra));
    return buildUse(first, problems);
  }
  problems.push(outsideOfBlocks(first));
  return undefined;
}

function buildStatement(text: string, statement: Statement, problems: SyntaxProblem[]): FactNode | BlockNode {
  const items = statement.items.map((token, index) => buildItem(token, statement.items[index - 1], problems));
  const { body } = statement;
  const start = items[0]?.span.start ?? body?.open.startOffset ?? 0;
  const lastItemEnd = items.at(-1)?.span.end ?? start;
  if (!body) {
    const span = spanOf(start, lastItemEnd);
    return { kind: 'fact', span, removal: removalOf(text, span), items };
  }
  const children = body.statements.map((child) => buildStatement(text, child, problems));
  const close = body.close && !isSupplied(body.close) ? tokenSpan(body.close) : undefined;
  const open = isSupplied(body.open) ? undefined : tokenSpan(body.open);
  const end = close?.end ?? children.at(-1)?.span.end ?? open?.end ?? lastItemEnd;
  const keyword = keywordOf(items, start, problems);
  const { head, like } = splitHead(items.slice(1), problems);
  const block: BlockNode = {
    kind: 'block',
    span: spanOf(start, end),
    keyword,
    head,
    like,
    open,
    close,
    body: children.map((child) => (child.kind === 'block' ? tellUnheld(keyword.text, child, problems) : child)),
  };
  const schema = schemas.get(keyword.text);
  if (like && schema && schema[like.word] !== true) {
    const message =
      like.word === 'reworks'
        ? 'Only a `pickup` reworks another.'
        : `A \`${keyword.text}\` block is not made from another.`;
    problems.push(problemAt('syntax/unexpected', like.span, message));
  }
  return block;
}

function keywordOf(items: readonly Item[], start: number, problems: SyntaxProblem[]): WordItem {
  const first = items[0];
  if (first?.kind === 'word') return first;
  if (first) problems.push(unnamedBlock(first.span));
  return { kind: 'word', span: first?.span ?? spanOf(start, start), text: '' };
}

/** `like NAME` or `reworks NAME` ends a block's head. */
function splitHead(
  items: readonly Item[],
  problems: SyntaxProblem[],
): { head: readonly Item[]; like: LikeNode | undefined } {
  const madeFrom = (item: Item | undefined) => MADE_FROM.find((each) => item?.kind === 'word' && item.text === each);
  // A block may be called by such a word itself.
  const isName =
    madeFrom(items[0]) !== undefined &&
    (items.length === 1 || items[1]?.kind !== 'word' || madeFrom(items[1]) !== undefined);
  const at = items.findIndex((item, index) => madeFrom(item) !== undefined && !(isName && index === 0));
  const item = items[at];
  const word = madeFrom(item);
  if (!item || !word) return { head: items, like: undefined };
  const next = items[at + 1];
  const name = next?.kind === 'word' ? next : undefined;
  const extra = items[at + (name ? 2 : 1)];
  if (extra)
    problems.push(problemAt('syntax/unexpected', extra.span, `Nothing more belongs behind \`${word}\` and a name.`));
  else if (!name) {
    const message = `\`${word}\` needs the name of the block that this one is made from.`;
    problems.push(problemAt('syntax/incomplete', item.span, message));
  }
  return { head: items.slice(0, at), like: { word, span: spanOf(item.span.start, (name ?? item).span.end), name } };
}

function buildUse(fact: FactNode, problems: SyntaxProblem[]): UseNode {
  const [, path, extra] = fact.items;
  if (path?.kind !== 'string') {
    problems.push(
      path
        ? problemAt(
            'syntax/unexpected',
            path.span,
            "A file's path is written in quotes.",
            fixTo(path.span, path.kind === 'punctuation' ? undefined : `"${path.text}"`),
          )
        : problemAt('syntax/incomplete', fact.span, '`use` needs the path of a file, in quotes.'),
    );
    return { kind: 'use', span: fact.span, path: undefined };
  }
  if (extra) problems.push(problemAt('syntax/unexpected', extra.span, 'Nothing more belongs behind the path.'));
  return { kind: 'use', span: fact.span, path };
}

/** Tells of a block that may not stand where it does, or that the language does not have; gives it as it is meant. */
function tellUnheld(outer: string | undefined, block: BlockNode, problems: SyntaxProblem[]): BlockNode {
  const word = block.keyword.text;
  if (word === '' || (outer !== undefined && !schemas.has(outer))) return block;
  const holds = outer === undefined ? schemas.get(word)?.topLevel === true : mayHold(outer, word);
  if (holds) return block;
  const candidates = [...schemas.values()]
    .filter((schema) => (outer === undefined ? schema.topLevel : mayHold(outer, schema.keyword)))
    .map((schema) => schema.keyword);
  const place = outer === undefined ? 'at the top of a file' : `in a \`${outer}\``;
  if (schemas.has(word)) {
    const holders = [...schemas.values()]
      .filter((schema) => schema.blocks.includes(word))
      .map((schema) => `\`${schema.keyword}\``);
    const belongs = holders.length > 0 ? `it belongs in ${holders.join(' or ')}` : 'it belongs at the top of a file';
    const message = `A \`${word}\` block cannot be ${place}: ${belongs}.`;
    problems.push(problemAt('syntax/unexpected', block.keyword.span, message));
    return block;
  }
  const meant = nearest(word, candidates);
  const message = meant
    ? `There is no block \`${word}\` ${place}; \`${meant}\` is near.`
    : `There is no block \`${word}\` ${place}${candidates.length > 0 ? `: ${candidates.map((candidate) => `\`${candidate}\``).join(', ')} do` : ''}.`;
  problems.push(problemAt('syntax/unknown-word', block.keyword.span, message, fixTo(block.keyword.span, meant)));
  // A plain slip is read as it is meant, so that nothing is said to be missing with it.
  return meant === undefined ? block : { ...block, keyword: { ...block.keyword, text: meant } };
}

function outsideOfBlocks(node: FactNode | BlockNode): SyntaxProblem {
  const first = node.kind === 'fact' ? node.items[0] : node.keyword;
  return problemAt('syntax/unexpected', first?.span ?? node.span, 'This is outside of any block.');
}

function foreignComment({ startOffset }: IToken): SyntaxProblem {
  const span = spanOf(startOffset, startOffset + 2);
  return problemAt('syntax/unexpected', span, 'A comment begins with `#`.', replaceFix(span, '#'));
}

function misplaced(token: IToken): SyntaxProblem {
  return problemAt('syntax/unexpected', tokenSpan(token), 'This does not belong here.');
}

/** The whole line with its break where the fact is alone on it, else the fact. */
function removalOf(text: string, span: Span): Span {
  let start = span.start;
  while (text[start - 1] === ' ' || text[start - 1] === '\t') start--;
  let end = span.end;
  while (text[end] === ' ' || text[end] === '\t') end++;
  const startsLine = start === 0 || text[start - 1] === '\n' || text[start - 1] === '\r';
  if (!startsLine) return span;
  if (text[end] === '\r' && text[end + 1] === '\n') return spanOf(start, end + 2);
  return text[end] === '\n' || text[end] === '\r' ? spanOf(start, end + 1) : span;
}
