/** One thing, several or none: whoever takes them leaves out what is missing. */
export type Some<T> = T | undefined | readonly (T | undefined)[];

/** Those that are there. */
export const present = <T>(items: readonly (T | undefined)[]): readonly T[] =>
  items.filter((item): item is T => item !== undefined);

/** The fields that are there: what is left out of a thing is not the same as what is `undefined` in it. */
export function given<T extends object>(fields: T): { readonly [K in keyof T]?: Exclude<T[K], undefined> } {
  const there: { [K in keyof T]?: T[K] } = {};
  for (const key in fields) if (fields[key] !== undefined) there[key] = fields[key];
  return there as { readonly [K in keyof T]?: Exclude<T[K], undefined> };
}
