/** How words are put together. */

export { capital } from '../../../grammar/src/capital.ts';

/** `slug`, `slug and screw`, `neck, middle and bridge`. */
export const list = (words: readonly string[], joiner = 'and'): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${joiner} ${words.at(-1)}`;
