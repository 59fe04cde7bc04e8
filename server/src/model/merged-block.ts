/**
 * A block with its facts matched and what `like` brings merged in. Every fact keeps the chunk it was written in, so a value
 * taken over from another block still points to its own line.
 */

import { matchBlock } from '../../../grammar/src/match.ts';
import {
  alternativesOf,
  type BlockSchema,
  type FactSchema,
  type History,
  perFact,
} from '../../../grammar/src/schema/block-schema.ts';
import { type language, schemas } from '../../../grammar/src/schema/index.ts';
import type { Captured, Shape } from '../../../grammar/src/schema/shape.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { SyntaxProblem } from '../../../grammar/src/syntax-problem.ts';
import type { BlockNode, Chunk, FactNode, MadeFrom } from '../../../grammar/src/syntax-tree.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Place, Stated } from './place.ts';
import { type FactsRead, readFacts } from './reading.ts';

export interface PlacedFact<T> {
  readonly value: T;
  readonly place: Place;
  readonly line: FactNode;
}

/** A block of any kind: its facts by field, their values unknown. */
export interface AnyBlock {
  readonly schema: BlockSchema;
  readonly keyword: string;
  readonly node: BlockNode;
  readonly name: string | undefined;
  readonly namePlace: Place;
  readonly title: string | undefined;
  readonly date: string | undefined;
  readonly words: readonly string[];
  /** The block's first line. */
  readonly place: Place;
  /** The whole block. */
  readonly extent: Place;
  readonly facts: LooseFacts;
  readonly blocks: readonly AnyBlock[];
  /** Fields whose line stands there and could not be read: what is missing because of them is no fault of its own. */
  readonly unread: readonly string[];
  /** Lines that could not be read, and blocks that cannot stand here. */
  readonly misfits: readonly (FactNode | BlockNode)[];
  readonly problems: readonly SyntaxProblem[];
}

/** A block of one kind, its facts typed by the schema. */
export type MergedBlock<B extends BlockSchema> = Omit<AnyBlock, 'facts'> & { readonly facts: PlacedFacts<B> };

type LooseFacts = Readonly<Record<string, readonly PlacedFact<unknown>[]>>;

export type PlacedFacts<B extends BlockSchema> = {
  readonly [K in keyof B['facts']]: readonly PlacedFact<Captured<B['facts'][K]['shape']>>[];
};

/** The block as written, nothing taken over yet; read once for the model and all who compare. A kind that nobody knows holds misfits. */
export const blockOf: (node: BlockNode, chunk: Chunk) => AnyBlock = onceFor((node: BlockNode, chunk: Chunk) =>
  readBlock(node, chunk, schemas.get(node.keyword.text) ?? unknownKind(node.keyword.text)),
);

const unknownKind = (keyword: string): BlockSchema => ({
  keyword,
  head: { kind: 'sequence', fields: {} },
  names: undefined,
  like: false,
  meaning: '',
  example: '',
  facts: {},
  blocks: [],
  topLevel: false,
});

function readBlock(node: BlockNode, chunk: Chunk, schema: BlockSchema): AnyBlock {
  const matched = matchAny(node, schema);
  const at = (span: Span): Place => ({ chunk, span });
  const facts = perFact<PlacedFact<unknown>>(schema.facts);
  const lines = new Map(node.body.flatMap((line) => (line.kind === 'fact' ? [[line.span, line] as const] : [])));
  for (const [field, matches] of Object.entries(matched.facts)) {
    if (matches.length === 0) continue;
    facts[field] = matches.flatMap(({ value, span }) => {
      const line = lines.get(span);
      lines.delete(span);
      return line ? [{ value, place: at(span), line }] : [];
    });
  }
  const named = node.head.find((item) => item.kind === 'word');
  const title = node.head.find((item) => item.kind === 'string');
  const date = node.head.find((item) => item.kind === 'date');
  const fitting = new Set(matched.blocks);
  const inner = matched.blocks.map((block) => blockOf(block, chunk));
  return {
    schema,
    keyword: schema.keyword,
    node,
    name: schema.names === undefined ? undefined : named?.text,
    namePlace: at(named?.span ?? node.keyword.span),
    title: title?.value,
    date: date?.text,
    words: node.head.flatMap((item) => (item.kind === 'word' ? [item.text] : [])),
    place: at({ start: node.span.start, end: firstLineEnd(node) }),
    extent: at(node.span),
    facts,
    blocks: inner,
    unread: matched.broken,
    misfits: node.body.filter((child) => (child.kind === 'fact' ? lines.has(child.span) : !fitting.has(child))),
    problems: matched.problems,
  };
}

/** Matching without the schema's own type: the captures of every schema at once are more than the compiler can spell out. */
function matchAny(node: BlockNode, schema: BlockSchema): LooseMatch {
  const match = matchBlock as (node: BlockNode, schema: BlockSchema) => unknown;
  return match(node, schema) as LooseMatch;
}

interface LooseMatch {
  readonly facts: Readonly<Record<string, readonly { readonly value: unknown; readonly span: Span }[]>>;
  readonly blocks: readonly BlockNode[];
  readonly broken: readonly string[];
  readonly problems: readonly SyntaxProblem[];
}

function firstLineEnd({ open, head, like, keyword }: BlockNode): number {
  return open?.end ?? like?.span.end ?? head.at(-1)?.span.end ?? keyword.span.end;
}

type Language = typeof language;

/** The blocks inside, by their keyword: every kind that the schema lets in. */
export type InnerBlocks<B extends BlockSchema> = {
  readonly [K in B['blocks'][number] & keyof Language]: readonly MergedBlock<Language[K]>[];
};

export function innerBlocks<B extends BlockSchema>({ schema, blocks }: MergedBlock<B>): InnerBlocks<B> {
  const byKeyword: Readonly<Record<string, AnyBlock[]>> = Object.fromEntries(
    schema.blocks.map((keyword) => [keyword, []]),
  );
  for (const inner of blocks) byKeyword[inner.keyword]?.push(inner);
  return byKeyword as unknown as InnerBlocks<B>;
}

/** The facts of a block, read. */
export const factsOf = <B extends BlockSchema>(block: MergedBlock<B>): FactsRead<B['facts']> =>
  readFacts(block) as FactsRead<B['facts']>;

/** The type of what a reader leaves of a block: nothing. Whatever else is left is an error that names it. */
export type Nothing = Readonly<Record<string, never>>;

/**
 * `child like parent`: the design of the parent, never its history. `child reworks parent`: the same piece at a later time, so its
 * history too, to which is added; a coil that is new takes over nothing. A fact stated in the child replaces all facts of that word or
 * of an alternative to it; an inner block of the same kind and name is merged by the same rule.
 */
export function mergeFrom(child: AnyBlock, parent: AnyBlock, how: MadeFrom): AnyBlock {
  const { schema } = child;
  const isLeft = (history: History | undefined) =>
    history !== undefined && (how === 'like' || history === 'of the state');
  const own = withoutEmptying(child);
  const stated = new Set(Object.entries(child.facts).flatMap(([field, lines]) => (lines.length ? [field] : [])));
  const replaced = new Set([...stated].flatMap((field) => [field, ...alternativesOf(schema.facts, field)]));
  const facts = perFact<PlacedFact<unknown>>(schema.facts);
  for (const [field, { history, repeats }] of Object.entries(schema.facts)) {
    const [before, here] = [parent.facts[field] ?? [], own[field] ?? []];
    if (isLeft(history)) facts[field] = here;
    else if (history && repeats) facts[field] = [...before, ...here];
    else facts[field] = replaced.has(field) ? here : how === 'reworks' ? notUndone(before, child) : before;
  }
  return {
    ...child,
    title: child.title ?? (how === 'like' && schema.names === 'pickup' ? undefined : parent.title),
    facts,
    blocks: mergeInner(child, parent, how, isLeft),
  };
}

/** The block with what the one that it is made from brings. */
export const mergedWith = (block: AnyBlock, parent: AnyBlock): AnyBlock =>
  mergeFrom(block, parent, block.node.like?.word ?? 'like');

/** Without the lines that only take away what would come: `tap none`. */
function withoutEmptying({ facts, schema }: AnyBlock): LooseFacts {
  const empties = ({ shape }: FactSchema, value: unknown) =>
    shape.kind === 'one-of' && shape.empties !== undefined && (value as Captured<OneOf>).option === shape.empties;
  const left = perFact<PlacedFact<unknown>>(schema.facts);
  for (const [field, fact] of Object.entries(schema.facts))
    left[field] = (facts[field] ?? []).filter(({ value }) => !empties(fact, value));
  return left;
}

type OneOf = Extract<Shape, { kind: 'one-of' }>;

const same = (a: AnyBlock, b: AnyBlock): boolean => a.keyword === b.keyword && a.name === b.name;

/** The block inside another that has the kind and name of a given one. */
export const sameBlock = ({ blocks }: AnyBlock, block: AnyBlock): AnyBlock | undefined =>
  blocks.find((each) => same(each, block));

function mergeInner(
  child: AnyBlock,
  parent: AnyBlock,
  how: MadeFrom,
  isLeft: (history: History | undefined) => boolean,
): readonly AnyBlock[] {
  const away = coilsTakenAway(child);
  const kept = parent.blocks
    .filter((block) => !isLeft(block.schema.history) && !(block.keyword === 'coil' && away.includes(block.name)))
    .map((block) => {
      const own = sameBlock(child, block);
      if (own) return isNew(own) ? own : mergeFrom(own, block, how);
      return withoutLeft(block, isLeft);
    });
  const added = child.blocks.filter((each) => isLeft(each.schema.history) || !sameBlock(parent, each));
  return [...kept, ...added];
}

const isNew = ({ facts }: AnyBlock): boolean =>
  (facts['isNew' satisfies keyof Language['coil']['facts']] ?? []).length > 0;

const coilsTakenAway = ({ facts }: AnyBlock): readonly (string | undefined)[] =>
  (facts['takenAway' satisfies keyof Language['pickup']['facts']] ?? []).flatMap(({ value }) =>
    (value as Captured<Language['pickup']['facts']['takenAway']['shape']>).map((name) => name.value),
  );

/** Joints taken over but for those of which a lead is joined anew here: it was unsoldered there. */
function notUndone(lines: readonly PlacedFact<unknown>[], { schema, facts }: AnyBlock): readonly PlacedFact<unknown>[] {
  if (schema.keyword !== 'hookup') return lines;
  const leadsIn = ({ line }: PlacedFact<unknown>) =>
    line.items.slice(1).flatMap((item) => (item.kind === 'word' || item.kind === 'path' ? [item.text] : []));
  const anew = new Set(Object.values(facts).flatMap((own) => own.flatMap(leadsIn)));
  return lines.filter((line) => !leadsIn(line).some((lead) => anew.has(lead)));
}

/** A block taken over whole, without the history that stays where it is. */
function withoutLeft(block: AnyBlock, isLeft: (history: History | undefined) => boolean): AnyBlock {
  const facts = perFact<PlacedFact<unknown>>(block.schema.facts);
  for (const [field, { history }] of Object.entries(block.schema.facts))
    if (!isLeft(history)) facts[field] = block.facts[field] ?? [];
  return { ...block, facts };
}

/** Coils that are `like` a coil of the same pickup. A name that leads nowhere or in a circle is told by `onFault`. */
export function mergeSiblings(
  block: AnyBlock,
  onFault: (fault: 'unknown' | 'cycle', inner: AnyBlock, name: Stated<string>) => void,
): AnyBlock {
  if (!block.blocks.some(({ node }) => node.like)) return block;
  const byName = new Map<string, AnyBlock>();
  for (const each of [...block.blocks].reverse()) byName.set(`${each.keyword} ${each.name}`, each);
  // What was taken over whole has been merged where it was written.
  const likeOf = ({ place, node }: AnyBlock) => (place.chunk === block.place.chunk ? node.like?.name : undefined);
  const modelOf = (inner: AnyBlock) => {
    const like = likeOf(inner);
    return like && byName.get(`${inner.keyword} ${like.text}`);
  };
  const done = new Map<AnyBlock, AnyBlock>();
  const merged = (inner: AnyBlock, isCircle: boolean): AnyBlock => {
    const like = likeOf(inner);
    if (!like) return inner;
    const name = { value: like.text, place: { chunk: inner.place.chunk, span: like.span } };
    const model = modelOf(inner);
    const read = model && done.get(model);
    if (read) return mergeFrom(inner, read, 'like');
    onFault(isCircle ? 'cycle' : 'unknown', inner, name);
    return inner;
  };
  // From the far end of each line, so that its length asks for no stack.
  for (const inner of block.blocks) {
    const line = new Set<AnyBlock>();
    let next: AnyBlock | undefined = inner;
    for (; next && !done.has(next) && !line.has(next); next = modelOf(next)) line.add(next);
    const isCircle = next !== undefined && line.has(next);
    for (const each of [...line].reverse()) done.set(each, merged(each, isCircle));
  }
  return { ...block, blocks: block.blocks.map((inner) => done.get(inner) ?? inner) };
}
