/** How words are put together. */

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `slug`, `slug and screw`, `neck, middle and bridge`. */
export const list = (words: readonly string[], joiner = 'and'): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${joiner} ${words.at(-1)}`;
