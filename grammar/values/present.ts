/** One thing, several or none: whoever takes them leaves out what is missing. */
export type Some<T> = T | undefined | readonly (T | undefined)[];

/** Those that are there. */
export const present = <T>(items: readonly (T | undefined)[]): readonly T[] =>
  items.filter((item): item is T => item !== undefined);
