import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, Chunk, FactNode, FileTree, Item, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';

/** What stands at an offset of a file. Spans inside are the chunk's own; `inFile` turns them into the file's. */
export interface SyntaxAt {
  readonly placed: PlacedChunk;
  /** The offset, counted from the chunk's start. */
  readonly at: number;
  /** Blocks around the offset, the outermost first. */
  readonly blocks: readonly BlockNode[];
  readonly fact: FactNode | undefined;
  readonly item: Item | undefined;
}

/** `undefined` only in a file without any chunk. */
export function syntaxAt(tree: FileTree, offset: number): SyntaxAt | undefined {
  const placed = chunkAt(tree, offset);
  return placed && syntaxIn(placed, offset - placed.offset);
}

/** The same within one chunk, `at` counted from its start. */
export function syntaxIn(placed: PlacedChunk, at: number): SyntaxAt {
  const blocks: BlockNode[] = [];
  let fact: FactNode | undefined;
  let node = placed.chunk.content;
  while (node?.kind === 'block') {
    if (!holds(node.span, at)) break;
    blocks.push(node);
    const inner: BlockNode | FactNode | undefined = closest(node.body, at);
    fact = inner?.kind === 'fact' ? inner : undefined;
    node = inner?.kind === 'block' ? inner : undefined;
  }
  const innermost = blocks.at(-1);
  const items = fact?.items ?? (innermost ? headItems(innermost) : []);
  return { placed, at, blocks, fact, item: closest(items, at) };
}

/** The chunk that holds the offset; at a border, the later one. */
export function chunkAt(tree: FileTree, offset: number): PlacedChunk | undefined {
  let low = 0;
  let high = tree.chunks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((tree.chunks[middle]?.offset ?? 0) <= offset) low = middle + 1;
    else high = middle;
  }
  return tree.chunks[Math.max(low - 1, 0)];
}

/** The chunks that the offset touches: two at a border. What stands at an offset stands in one of them. */
export function chunksAt(tree: FileTree, offset: number): ReadonlySet<Chunk> {
  const placed = chunkAt(tree, offset);
  const before = placed?.offset === offset ? chunkAt(tree, offset - 1) : undefined;
  return new Set([before, placed].flatMap((each) => each?.chunk ?? []));
}

/** Keyword, names and title of a block, and the name behind `like`. */
export function headItems(block: BlockNode): readonly Item[] {
  return [block.keyword, ...block.head, ...(block.like?.name ? [block.like.name] : [])];
}

/** The item that names a block, or its keyword where it has no name. */
export function nameItem(block: BlockNode): Item {
  return block.head.find((item) => item.kind === 'word') ?? block.keyword;
}

/** Every block of a chunk with its depth, outer before inner. Depth is bounded: nobody nests a build that far. */
export function blocksOf(
  chunk: Chunk,
): readonly { readonly block: BlockNode; readonly parents: readonly BlockNode[] }[] {
  const found: { block: BlockNode; parents: readonly BlockNode[] }[] = [];
  const visit = (block: BlockNode, parents: readonly BlockNode[]): void => {
    found.push({ block, parents });
    if (parents.length >= DEEPEST) return;
    for (const inner of block.body) if (inner.kind === 'block') visit(inner, [...parents, block]);
  };
  if (chunk.content?.kind === 'block') visit(chunk.content, []);
  return found;
}

export const inFile = (placed: PlacedChunk, span: Span): Span => ({
  start: span.start + placed.offset,
  end: span.end + placed.offset,
});

/** In the line that names a block. */
export function isOnHead(placed: PlacedChunk, block: BlockNode, span: Span): boolean {
  const head = inFile(placed, { start: block.span.start, end: block.open?.end ?? block.keyword.span.end });
  return head.start <= span.start && span.end <= head.end;
}

const DEEPEST = 64;

const holds = (span: Span, at: number): boolean => span.start <= at && at <= span.end;

/** Where two touch at the offset, the one that starts there: a cursor before a word means that word. */
function closest<T extends { readonly span: Span }>(nodes: readonly T[], at: number): T | undefined {
  let low = 0;
  let high = nodes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((nodes[middle]?.span.start ?? 0) <= at) low = middle + 1;
    else high = middle;
  }
  const node = nodes[low - 1];
  return node && holds(node.span, at) ? node : undefined;
}
