import type { Span } from '../../../grammar/src/span.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { type AnyBlock, blockOf } from './merged-block.ts';

/** Where a piece of a file holds text that its schema could not read. Where the text itself is at fault, that is all of it. */
export function unreadSpans(chunk: Chunk): readonly Span[] {
  const { content, problems, text } = chunk;
  if (content?.kind === 'use') return [];
  if (content === undefined || problems.length > 0) return text.trim() === '' ? [] : [{ start: 0, end: text.length }];
  const block = blockOf(content, chunk);
  return block.schema.topLevel ? misfitsIn(block) : [content.span];
}

const misfitsIn = ({ misfits, blocks }: AnyBlock): readonly Span[] => [
  ...misfits.map(({ span }) => span),
  ...blocks.flatMap(misfitsIn),
];
