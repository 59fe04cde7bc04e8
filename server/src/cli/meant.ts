import { nearest } from '../../../grammar/src/nearest.ts';

/** The name that the writer most likely meant: the nearest by spelling, or the only one that goes on as it was begun. */
export function meant(written: string, names: readonly string[]): string | undefined {
  // A single letter or digit is as near to any other.
  if (written.length < 2) return undefined;
  const begun = names.filter((name) => name.startsWith(written.toLowerCase()));
  return begun.length === 1 ? begun[0] : nearest(written, names);
}
