/** What may stand at a place: for completion, signature help and the explanation of a half-typed line. */

import type { Dimension } from '../values/unit-table.ts';
import { isLineBreak, namePartLength } from './characters.ts';
import { describePattern, type Pattern } from './describe-shape.ts';
import { type Attempt, attemptOf, fail, wordOf } from './match-attempt.ts';
import { matchShape } from './match-shape.ts';
import type { BlockSchema, FactSchema } from './schema/block-schema.ts';
import { schemas } from './schema/index.ts';
import type { NameKind, Shape } from './schema/shape.ts';
import { type Span, spanOf } from './span.ts';
import { type BlockNode, type Chunk, type FactNode, type Item, MADE_FROM } from './syntax-tree.ts';

export interface Expectation {
  /**
   * `top`: outside of any block; `head`: between a block's word and its brace; `body`: where a line begins; `fact`: further
   * on in a line; `use`: in the path of a `use` line; `none`: in a comment or a text.
   */
  readonly place: 'top' | 'head' | 'body' | 'fact' | 'use' | 'none';
  /** What is being typed, to be replaced; empty where nothing is. */
  readonly replace: Span;
  /** Name before the point, where a path is being typed: `slug` in `slug.st`. */
  readonly qualifier: string | undefined;
  /** Blocks that hold the place, outermost first; in a head, the block itself is the last. */
  readonly blocks: readonly BlockNode[];
  /** The line that the place belongs to. */
  readonly fact: ExpectedFact | undefined;
  /** Facts that may begin here; `stated` where another would be one too many. */
  readonly facts: readonly (ExpectedFact & { readonly stated: boolean })[];
  /** Blocks that may begin here. */
  readonly blockKinds: readonly BlockSchema[];
  /** Words that may come next. */
  readonly words: readonly string[];
  /** Kinds of names that may come next, and whether a new name is given here. */
  readonly names: readonly { readonly of: NameKind; readonly declares: boolean; readonly path: boolean }[];
  /** Dimensions whose units may come next. */
  readonly units: readonly Dimension[];
  /** Shapes that may come next, the first expected one first. */
  readonly shapes: readonly Shape[];
  /** The line's pattern, and which of its parts is next. */
  readonly pattern: (Pattern & { readonly active: number | undefined }) | undefined;
}

export interface ExpectedFact {
  readonly field: string;
  readonly schema: FactSchema;
}

export function expectedAt(chunk: Chunk, offset: number): Expectation {
  const replace = typedAt(chunk.text, offset);
  const nothing: Expectation = {
    place: 'none',
    replace: replace.span,
    qualifier: replace.qualifier,
    blocks: [],
    fact: undefined,
    facts: [],
    blockKinds: [],
    words: [],
    names: [],
    units: [],
    shapes: [],
    pattern: undefined,
  };
  if (chunk.comments.some(({ span }) => span.start < offset && offset <= span.end)) return nothing;
  const { content } = chunk;
  if (content?.kind === 'use' && lineOf(chunk.text, offset) === lineOf(chunk.text, content.span.start)) {
    const isPath = offset > content.span.start + 'use'.length;
    return { ...nothing, place: isPath ? 'use' : 'top', ...(isPath ? {} : topLevel) };
  }
  if (isInText(chunk, offset)) return nothing;
  if (content?.kind !== 'block' || isOutside(content, offset)) return { ...nothing, place: 'top', ...topLevel };
  return expectedInBlock({ chunk, offset, nothing }, [content]);
}

const topLevel = { words: ['use'], blockKinds: [...schemas.values()].filter((schema) => schema.topLevel) };

interface Cursor {
  readonly chunk: Chunk;
  readonly offset: number;
  readonly nothing: Expectation;
}

function expectedInBlock(cursor: Cursor, blocks: readonly BlockNode[]): Expectation {
  const { chunk, offset, nothing } = cursor;
  const block = blocks.at(-1);
  const schema = block && schemas.get(block.keyword.text);
  if (!block) return nothing;
  const isInHead = block.open
    ? offset <= block.open.start
    : lineOf(chunk.text, offset) === lineOf(chunk.text, block.span.start);
  if (isInHead) {
    if (offset <= block.keyword.span.end) return expectedLineStart(cursor, blocks.slice(0, -1));
    return { ...nothing, blocks, ...(schema ? expectedInHead(cursor, block, schema) : {}) };
  }
  const inner = block.body.find((child): child is BlockNode => child.kind === 'block' && !isOutside(child, offset));
  if (inner) return expectedInBlock(cursor, [...blocks, inner]);
  const fact = block.body.find(
    (child): child is FactNode => child.kind === 'fact' && belongsTo(chunk.text, child, offset),
  );
  const first = fact?.items[0];
  if (!schema) return { ...nothing, place: 'body', blocks };
  if (!fact || !first || offset <= first.span.end) return expectedLineStart(cursor, blocks);
  return { ...nothing, blocks, ...expectedInFact(cursor, fact, schema) };
}

function expectedLineStart(cursor: Cursor, blocks: readonly BlockNode[]): Expectation {
  const { nothing, offset } = cursor;
  const block = blocks.at(-1);
  if (!block) return { ...nothing, place: 'top', ...topLevel };
  const schema = schemas.get(block.keyword.text);
  if (!schema) return { ...nothing, place: 'body', blocks };
  const isStated = (word: string | undefined) =>
    block.body.some(
      (line) =>
        line.kind === 'fact' &&
        wordOf(line.items[0]) === word &&
        !(line.span.start <= offset && offset <= line.span.end),
    );
  const facts = Object.entries(schema.facts).map(([field, fact]) => ({
    field,
    schema: fact,
    stated:
      !fact.repeats && [fact.word, ...(fact.insteadOf ?? [])].some((word) => word !== undefined && isStated(word)),
  }));
  const attempt = attemptOf([]);
  for (const { schema: fact } of facts) if (fact.word === undefined) matchShape(attempt, 0, fact.shape);
  return {
    ...nothing,
    place: 'body',
    blocks,
    facts,
    blockKinds: schema.blocks.flatMap((kind) => schemas.get(kind) ?? []),
    ...wantedOf(attempt),
  };
}

function expectedInHead({ offset }: Cursor, block: BlockNode, schema: BlockSchema): Partial<Expectation> {
  const pattern = describePattern(schema.head, schema.keyword);
  if (block.like && offset > block.like.span.start + block.like.word.length) {
    const names = schema.names === undefined ? [] : [{ of: schema.names, declares: false, path: false }];
    return { place: 'head', names, pattern: { ...pattern, active: undefined } };
  }
  const attempt = attemptOf(itemsBefore([block.keyword, ...block.head], offset));
  const match = matchShape(attempt, 1, schema.head);
  for (const word of MADE_FROM) if (match && schema[word]) fail(attempt, match.next, { label: word, words: [word] });
  const wanted = wantedOf(attempt);
  return { place: 'head', ...wanted, pattern: { ...pattern, active: activePart(pattern, wanted.shapes) } };
}

function expectedInFact({ offset }: Cursor, fact: FactNode, schema: BlockSchema): Partial<Expectation> {
  const entries = Object.entries(schema.facts);
  const word = wordOf(fact.items[0]);
  const found =
    (word === undefined ? undefined : entries.find(([, candidate]) => candidate.word === word)) ??
    entries.find(([, candidate]) => candidate.word === undefined);
  if (!found) return { place: 'fact' };
  const [field, factSchema] = found;
  const attempt = attemptOf(itemsBefore(fact.items, offset));
  matchShape(attempt, factSchema.word === undefined ? 0 : 1, factSchema.shape);
  const wanted = wantedOf(attempt);
  const pattern = describePattern(factSchema.shape, factSchema.word);
  return {
    place: 'fact',
    fact: { field, schema: factSchema },
    ...wanted,
    pattern: { ...pattern, active: activePart(pattern, wanted.shapes) },
  };
}

type WantedThings = Pick<Expectation, 'words' | 'names' | 'units' | 'shapes'>;

/** What would have fitted behind the last item, if the items read well up to there. */
function wantedOf(attempt: Attempt): WantedThings {
  const { index, wanted } = attempt.furthest;
  if (index < attempt.items.length) return { words: [], names: [], units: [], shapes: [] };
  const shapes = [...new Set(wanted.flatMap(({ shape }) => shape ?? []))];
  const isPartWanted = wanted.some(({ shape, words }) => shape?.kind === 'selection' && words === undefined);
  return {
    words: [
      ...new Set([
        ...wanted.flatMap(({ words }) => words ?? []),
        ...shapes.flatMap((shape) => (shape.kind === 'label' ? (shape.suggestions ?? []) : [])),
        ...(isPartWanted ? ['reversed'] : []),
      ]),
    ],
    names: shapes.flatMap((shape): Expectation['names'] => {
      if (shape.kind === 'name') return [{ of: shape.of, declares: shape.declares === true, path: false }];
      if (shape.kind === 'path') return [{ of: shape.of, declares: false, path: true }];
      return shape.kind === 'selection' && isPartWanted ? [{ of: 'slot', declares: false, path: true }] : [];
    }),
    units: [...new Set(wanted.flatMap(({ unitOf }) => unitOf ?? []))],
    shapes,
  };
}

function activePart({ parts }: Pattern, shapes: readonly Shape[]): number | undefined {
  const at = parts.findIndex(({ shape }) => shapes.includes(shape));
  return at < 0 ? undefined : at;
}

/** Items that are complete before the cursor: the one that it touches is still being typed. */
function itemsBefore(items: readonly Item[], offset: number): readonly Item[] {
  return items.filter(
    ({ kind, span }) => span.end < offset || (span.end === offset && (kind === 'number' || kind === 'punctuation')),
  );
}

/** Word or number being typed at the offset; behind a point only the part after it. */
function typedAt(text: string, offset: number): { span: Span; qualifier: string | undefined } {
  let start = offset;
  while (start > 0 && (namePartLength(text, start - 1) > 0 || text[start - 1] === '/')) start--;
  // A unit may be glued to its number, which is not replaced with it.
  const number = /^[\d_]+(?:\.\d+)?/.exec(text.slice(start, offset));
  if (number) start += number[0].length;
  let qualifier: string | undefined;
  if (text[start - 1] === '.' && namePartLength(text, start - 2) > 0) {
    let from = start - 1;
    while (from > 0 && namePartLength(text, from - 1) > 0) from--;
    qualifier = /^\d/.test(text.slice(from)) ? undefined : text.slice(from, start - 1);
  }
  let end = offset;
  while (namePartLength(text, end) > 0) end += namePartLength(text, end);
  return { span: spanOf(start, end), qualifier };
}

function isInText(chunk: Chunk, offset: number): boolean {
  const start = lineStart(chunk.text, offset);
  let isText = false;
  for (let at = start; at < offset; at++) {
    if (isText && chunk.text[at] === '\\') at++;
    else if (chunk.text[at] === '"') isText = !isText;
  }
  return isText;
}

function isOutside(block: BlockNode, offset: number): boolean {
  return offset < block.span.start || (block.close !== undefined && offset >= block.close.end);
}

/** The fact whose line the offset is on, also behind its last item, also where the line is bound to go on. */
function belongsTo(text: string, fact: FactNode, offset: number): boolean {
  if (offset < fact.span.start) return false;
  if (offset <= fact.span.end) return true;
  const last = fact.items.at(-1);
  const between = text.slice(fact.span.end, Math.min(offset, fact.span.end + 500));
  if (/[;{}#]/.test(between)) return false;
  const goesOn = last?.text === ',' || ['series', 'parallel', 'reversed'].includes(last?.text ?? '');
  return goesOn ? between.trim() === '' : !/[\r\n]/.test(between);
}

function lineStart(text: string, offset: number): number {
  let start = Math.min(offset, text.length);
  while (start > 0 && !isLineBreak(text.charCodeAt(start - 1))) start--;
  return start;
}

const lineOf = lineStart;
