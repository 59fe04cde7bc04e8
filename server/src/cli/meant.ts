import { nearest } from '../../../grammar/src/nearest.ts';
import { CommandError } from './command.ts';

/** The name that the writer most likely meant: the nearest by spelling, or the only one that goes on as it was begun. */
export function meant(written: string, names: readonly string[]): string | undefined {
  // A single letter or digit is as near to any other.
  if (written.length < 2) return undefined;
  const begun = names.filter((name) => name.startsWith(written.toLowerCase()));
  return begun.length === 1 ? begun[0] : nearest(written, names);
}

/** `did you mean check?`, else what is told instead; `before` stands before the name, as dashes before an option. */
export function didYouMean(written: string, names: readonly string[], otherwise: string, before = ''): string {
  const likely = meant(written, names);
  return likely === undefined ? otherwise : `did you mean ${before}${likely}?`;
}

/** The one of the choices of an option that is written; else a `CommandError` of one line. */
export function chosenOf<T extends string>(option: string, written: string, choices: readonly T[]): T {
  const found = choices.find((each) => each === written);
  if (found !== undefined) return found;
  throw new CommandError(`${option} ${written}: ${didYouMean(written, choices, `one of ${choices.join(', ')}`)}`);
}
