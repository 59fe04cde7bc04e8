/** Changes that change nothing: each with the reason, so that nobody looks for a test that cannot be. */
import type { Mutant } from './mutants.ts';

interface Equivalent extends Pick<Mutant, 'file' | 'before' | 'after'> {
  readonly because: string;
}

const EQUIVALENT: readonly Equivalent[] = [];

export const equivalenceOf = ({ file, before, after }: Mutant): string | undefined =>
  EQUIVALENT.find((each) => each.file === file && each.before === before && each.after === after)?.because;
