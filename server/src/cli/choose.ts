import { CommandError } from './command.ts';
import { meant } from './meant.ts';

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
  const likely = meant(name, names);
  const hint = likely === undefined ? `, only ${names.slice(0, 20).join(', ')}` : `: did you mean ${likely}?`;
  throw new CommandError(`${shown} has no ${what} ${name}${hint}`);
}
