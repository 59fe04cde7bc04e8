import { CommandError } from './command.ts';
import { didYouMean } from './meant.ts';

/** The one that is called so. Else a `CommandError` of one line, with the nearest name or those there are. */
export function choose<T>(
  parts: readonly T[],
  nameOf: (part: T) => string,
  wanted: { readonly what: string; readonly name: string; readonly shown: string },
): T {
  const { what, name, shown } = wanted;
  const found = parts.find((part) => nameOf(part) === name);
  if (found !== undefined) return found;
  const names = parts.map(nameOf);
  if (names.length === 0) throw new CommandError(`${shown} has no ${what} ${name}, nor any other`);
  const hint = didYouMean(name, names, `only ${names.slice(0, 20).join(', ')}`);
  throw new CommandError(`${shown} has no ${what} ${name}${hint.startsWith('only ') ? ', ' : ': '}${hint}`);
}

/** The one that is named; without a name all of them. */
export const chooseOrAll = <T>(
  parts: readonly T[],
  nameOf: (part: T) => string,
  { what, name, shown }: { readonly what: string; readonly name: string | undefined; readonly shown: string },
): readonly T[] => (name === undefined ? parts : [choose(parts, nameOf, { what, name, shown })]);

/**
 * The one that is named, or the only one among `newest`; without a name, several of them are a `CommandError` that tells how
 * one is named. `use` is what it is wanted for, such as ` to draw`.
 */
export function chooseOnly<T>(
  parts: readonly T[],
  nameOf: (part: T) => string,
  wanted: { what: string; name: string | undefined; shown: string; use?: string; option?: string },
  newest: readonly T[] = parts,
): T {
  const { what, name, shown, use = '', option = `--${what} NAME` } = wanted;
  const [only, another] = newest;
  if (only === undefined) throw new CommandError(`${shown} holds no ${what}${use}`);
  if (name !== undefined) return choose(parts, nameOf, { what, name, shown });
  if (another === undefined) return only;
  const names = newest.slice(0, 20).map(nameOf).join(', ');
  throw new CommandError(`${shown} holds several ${what}s; ${option} says which: ${names}`);
}
