/** Which blocks may stand where; what the cutting of a file and the closing of forgotten braces go by. */
import { schemas } from './index.ts';

export const isBlockWord = (word: string): boolean => schemas.has(word);

export const isTopLevelWord = (word: string): boolean => word === 'use' || schemas.get(word)?.topLevel === true;

/** A block of an unknown kind holds whatever cannot stand at the top. */
export function mayHold(outer: string, inner: string): boolean {
  const schema = schemas.get(outer);
  return schema ? schema.blocks.includes(inner) : !isTopLevelWord(inner);
}

/** Deeper nesting than this is told as a finding and not read; the language itself nests two deep. */
export const DEEPEST_NESTING = 32;

/**
 * How many of the open blocks (outermost first) a line that begins the block `word` leaves open: those up to the innermost
 * that can hold it, none where it can only stand at the top, all where nothing is known to hold it.
 */
export function keptOpen(open: readonly string[], word: string): number {
  if (!isBlockWord(word) || open.length > DEEPEST_NESTING) return open.length;
  for (let depth = open.length; depth > 0; depth--) {
    if (mayHold(open[depth - 1] ?? '', word)) return depth;
  }
  return isTopLevelWord(word) ? 0 : open.length;
}
