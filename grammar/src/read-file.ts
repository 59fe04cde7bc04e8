/** Text in, tree out; typing in one block reads that block only. */
import { finished } from '../values/finished.ts';
import { buildingChunk } from './build-tree.ts';
import { cut, cutting } from './cut.ts';
import { tookPlaceOf } from './same-but-for-spaces.ts';
import type { Span } from './span.ts';
import type { Chunk, FileTree, PlacedChunk } from './syntax-tree.ts';

/**
 * Reads a file. Never throws; linear in the text's length. Chunks of `previous` whose text stands in the new text again are
 * taken over as the same objects, each at most once and in order. What lies before and behind the pieces that an edit touches is
 * compared, not scanned.
 */
export const readFileTree = (text: string, previous?: FileTree): FileTree => finished(readingFileTree(text, previous));

/**
 * The same in steps, since a text may be long, and a piece of it too. Where nothing stands as it was behind what is read, as in a text
 * that is new, some of the steps have the tree of all before: read on from there, its chunks stay the same objects.
 */
export function* readingFileTree(text: string, previous?: FileTree): Generator<FileTree | undefined, FileTree> {
  if (previous?.text === text) return previous;
  const old = previous?.chunks ?? [];
  const kept = unchanged(text, previous);
  const before = old.slice(0, kept.before);
  const from = kept.before > 0 ? endOf(before.at(-1)) : firstOffset(text);
  const behind = new Set(old.slice(old.length - kept.behind).map(({ offset }) => offset + kept.shift));
  const isNewToItsEnd = behind.size === 0;
  const starts = isNewToItsEnd ? undefined : cut(text, from, (start) => behind.has(start));
  // The last start is either the first piece behind that stands as it was, or the last piece of the text.
  const resumed = old.findIndex(
    ({ offset }, index) => index >= old.length - kept.behind && offset + kept.shift === starts?.at(-1),
  );
  const replaced = old.slice(kept.before, resumed < 0 ? old.length : resumed);
  const known = chunksByText(replaced);
  const anew: PlacedChunk[] = [];
  let told = from;
  for (const { start, end } of between(starts ?? cutting(text, from), resumed < 0 ? text.length : undefined)) {
    const piece = text.slice(start, end);
    anew.push({ offset: start, chunk: known.get(piece)?.pop() ?? (yield* buildingChunk(piece)) });
    const isPart = isNewToItsEnd && end < text.length && end - told >= (told === from ? FIRST_PART : PART);
    if (isPart) told = end;
    yield isPart ? { text: text.slice(0, end), chunks: [...before, ...anew] } : undefined;
  }
  for (const [index, { chunk }] of anew.entries()) {
    const former = anew.length === replaced.length ? replaced[index]?.chunk : undefined;
    if (former && former !== chunk) tookPlaceOf(chunk, former);
  }
  const rest =
    resumed < 0 ? [] : old.slice(resumed).map(({ offset, chunk }) => ({ offset: offset + kept.shift, chunk }));
  return { text, chunks: [...before, ...anew, ...rest] };
}

/** Characters. The first part is soon read: whoever opens a text sees its beginning. */
const FIRST_PART = 2048;
const PART = 16_384;

/** Spans from each to the next, and from the last to `end` where it is given. */
function* between(starts: Iterable<number>, end: number | undefined): Generator<Span> {
  let before: number | undefined;
  for (const start of starts) {
    if (before !== undefined) yield { start: before, end: start };
    before = start;
  }
  if (before !== undefined && end !== undefined) yield { start: before, end };
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
    if (!placed || !stands(placed.chunk, text, placed.offset + shift)) break;
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
