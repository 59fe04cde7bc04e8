import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, Chunk, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { newestOf } from '../analysis/newest.ts';
import { inFile, nameItem } from './syntax-at.ts';

export interface DocumentSymbol {
  /** The block's keyword: what kind of thing it is. */
  readonly kind: string;
  readonly name: string;
  /** Title and the like. */
  readonly detail: string;
  readonly span: Span;
  readonly nameSpan: Span;
  readonly children: readonly DocumentSymbol[];
}

/** The blocks of a file as an outline; a pickup that another one reworks is a record of it. */
export function documentSymbols(analysis: Analysis): readonly DocumentSymbol[] {
  const newest = new Set(newestOf(analysis.pickups).map(({ pickup }) => pickup.place.chunk));
  const isRecord = (chunk: Chunk): boolean =>
    !newest.has(chunk) && analysis.pickups.some(({ pickup }) => pickup.place.chunk === chunk);
  return analysis.tree.chunks.flatMap((placed) =>
    placed.chunk.content?.kind === 'block' ? [symbolOf(placed, placed.chunk.content, 0, isRecord(placed.chunk))] : [],
  );
}

const DEEPEST = 32;

function symbolOf(placed: PlacedChunk, block: BlockNode, depth: number, isRecord = false): DocumentSymbol {
  const named = nameItem(block);
  const isNamed = named !== block.keyword;
  const title = block.head.find((item) => item.kind === 'string');
  const like = block.like?.name ? `${block.like.word} ${block.like.name.text}` : '';
  const detail = [
    isNamed ? block.keyword.text : '',
    title?.kind === 'string' ? title.value : '',
    like,
    isRecord ? 'record' : '',
  ];
  return {
    kind: block.keyword.text,
    name: named.text,
    detail: detail.filter((part) => part !== '').join(' · '),
    span: inFile(placed, block.span),
    nameSpan: inFile(placed, named.span),
    children:
      depth >= DEEPEST
        ? []
        : block.body.flatMap((inner) => (inner.kind === 'block' ? [symbolOf(placed, inner, depth + 1)] : [])),
  };
}
