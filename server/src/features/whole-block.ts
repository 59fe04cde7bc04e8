import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, Chunk, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { lineEnd, ownComments } from './own-comments.ts';
import { inFile } from './syntax-at.ts';
import type { TextEdit } from './text-edits.ts';

/** A block at the top of a file with the comments above it; it shares no line with anything else. */
export interface WholeBlock {
  /** Its keyword. */
  readonly kind: string;
  readonly name: string | undefined;
  readonly chunk: Chunk;
  readonly block: BlockNode;
  /** In the file, its comments included. */
  readonly at: Span;
}

/** `undefined` where it does not read, or where it cannot be taken out by whole lines. */
export function wholeBlock({ text }: Analysis, placed: PlacedChunk): WholeBlock | undefined {
  const { chunk } = placed;
  const block = chunk.content;
  if (block?.kind !== 'block' || chunk.problems.length > 0) return undefined;
  const own = inFile(placed, block.span);
  const start = own.start - ownComments(text.slice(0, own.start)).length;
  const end = lineEnd(text, own.end);
  const isAlone =
    /(?:^\uFEFF?|[\r\n])$/.test(text.slice(0, start)) && /^[ \t]*(?:#.*)?$/.test(text.slice(own.end, end));
  const name = block.head.find((item) => item.kind === 'word')?.text;
  return isAlone ? { kind: block.keyword.text, name, chunk, block, at: { start, end } } : undefined;
}

/** With bare line ends, as edits are written. */
export const textOfBlock = ({ text }: Analysis, { at }: WholeBlock): string =>
  text.slice(at.start, at.end).replace(/\r\n?/g, '\n');

/** Takes it out; the empty lines behind it go too. */
export function removalOf({ uri, text }: Analysis, { at }: WholeBlock): TextEdit {
  const behind = /^(?:[ \t]*(?:\r\n|\r|\n))*/.exec(text.slice(at.end))?.[0].length ?? 0;
  return { at: { uri, start: at.start, end: at.end + behind }, newText: '' };
}
