/** Text in, tree out; typing in one block reads that block only. */
import { buildChunk } from './build-tree.ts';
import { cut } from './cut.ts';
import type { Chunk, FileTree, PlacedChunk } from './syntax-tree.ts';

/**
 * Reads a file. Never throws; linear in the text's length. Chunks of `previous` whose text stands in the new text again are
 * taken over as the same objects, each at most once and in order.
 */
export function readFileTree(text: string, previous?: FileTree): FileTree {
  if (previous?.text === text) return previous;
  const known = chunksByText(previous);
  const starts = cut(text, text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0);
  const chunks = starts.map((offset, index): PlacedChunk => {
    const piece = text.slice(offset, starts[index + 1]);
    return { offset, chunk: known.get(piece)?.pop() ?? buildChunk(piece) };
  });
  return { text, chunks };
}

const BYTE_ORDER_MARK = 0xfeff;

function chunksByText(tree: FileTree | undefined): Map<string, Chunk[]> {
  const known = new Map<string, Chunk[]>();
  // From the last to the first, so that `pop` hands them out in order.
  for (const { chunk } of [...(tree?.chunks ?? [])].reverse()) {
    const same = known.get(chunk.text);
    if (same) same.push(chunk);
    else known.set(chunk.text, [chunk]);
  }
  return known;
}
