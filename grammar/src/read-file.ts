/** Text in, tree out; typing in one block reads that block only. */
import { buildChunk } from './build-tree.ts';
import { cut } from './cut.ts';
import { tookPlaceOf } from './same-but-for-spaces.ts';
import type { Chunk, FileTree, PlacedChunk } from './syntax-tree.ts';

/**
 * Reads a file. Never throws; linear in the text's length. Chunks of `previous` whose text stands in the new text again are
 * taken over as the same objects, each at most once and in order. What lies before and behind the pieces that an edit touches is
 * compared, not scanned.
 */
export function readFileTree(text: string, previous?: FileTree): FileTree {
  if (previous?.text === text) return previous;
  const old = previous?.chunks ?? [];
  const kept = unchanged(text, previous);
  const from = kept.before > 0 ? endOf(old[kept.before - 1]) : firstOffset(text);
  const behind = new Set(old.slice(old.length - kept.behind).map(({ offset }) => offset + kept.shift));
  const starts = cut(text, from, (start) => behind.has(start));
  // The last start is either the first piece behind that stands as it was, or the last piece of the text.
  const resumed = old.findIndex(
    ({ offset }, index) => index >= old.length - kept.behind && offset + kept.shift === starts.at(-1),
  );
  const replaced = old.slice(kept.before, resumed < 0 ? old.length : resumed);
  const known = chunksByText(replaced);
  const read = resumed < 0 ? starts : starts.slice(0, -1);
  const anew = read.map((offset, index): PlacedChunk => {
    const piece = text.slice(offset, starts[index + 1]);
    return { offset, chunk: known.get(piece)?.pop() ?? buildChunk(piece) };
  });
  for (const [index, { chunk }] of anew.entries()) {
    const before = anew.length === replaced.length ? replaced[index]?.chunk : undefined;
    if (before && before !== chunk) tookPlaceOf(chunk, before);
  }
  const rest =
    resumed < 0 ? [] : old.slice(resumed).map(({ offset, chunk }) => ({ offset: offset + kept.shift, chunk }));
  return { text, chunks: [...old.slice(0, kept.before), ...anew, ...rest] };
}

/**
 * How many pieces at both ends of a text stand as they were, and how far those behind have moved. The piece before a change is read
 * again too: where it ends rests on the line behind it.
 */
function unchanged(text: string, previous: FileTree | undefined): { before: number; behind: number; shift: number } {
  const none = { before: 0, behind: 0, shift: 0 };
  if (!previous || firstOffset(text) !== firstOffset(previous.text)) return none;
  const { chunks } = previous;
  const shift = text.length - previous.text.length;
  let before = 0;
  for (; before < chunks.length; before++) {
    const placed = chunks[before];
    if (!placed || !stands(placed.chunk, text, placed.offset)) break;
  }
  let behind = 0;
  for (; behind < chunks.length - before; behind++) {
    const placed = chunks[chunks.length - 1 - behind];
    const floor = before > 0 ? endOf(chunks[before - 1]) : firstOffset(text);
    if (!placed || placed.offset + shift < floor || !stands(placed.chunk, text, placed.offset + shift)) break;
  }
  return { before: Math.max(0, before - 1), behind, shift };
}

/** Two texts are compared as a whole, which the engine does many times faster than `startsWith`, sign by sign. */
const stands = (chunk: Chunk, text: string, at: number): boolean =>
  text.slice(at, at + chunk.text.length) === chunk.text;

const endOf = (placed: PlacedChunk | undefined): number => (placed ? placed.offset + placed.chunk.text.length : 0);

const firstOffset = (text: string): number => (text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0);

const BYTE_ORDER_MARK = 0xfeff;

function chunksByText(chunks: readonly PlacedChunk[]): Map<string, Chunk[]> {
  const known = new Map<string, Chunk[]>();
  // From the last to the first, so that `pop` hands them out in order.
  for (const { chunk } of [...chunks].reverse()) {
    const same = known.get(chunk.text);
    if (same) same.push(chunk);
    else known.set(chunk.text, [chunk]);
  }
  return known;
}
