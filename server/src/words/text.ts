/** How words are put together. */
import type { Language } from './languages/language.ts';

export { capital } from '../../../grammar/src/capital.ts';

/** `slug`, `slug and screw`, `neck, middle and bridge`. */
export const list = (words: readonly string[], joiner = 'and'): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${joiner} ${words.at(-1)}`;

/** The same in a language. */
export const listIn = (t: Language, words: readonly string[]): string => list(words, t('and'));
