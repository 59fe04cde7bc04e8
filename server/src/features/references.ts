import type { FileSpan } from '../analysis/analysis-types.ts';
import type { FileMentions } from '../analysis/file-mentions.ts';
import { mentionsOf, type NamedThere } from './name-at.ts';

/** Every mention, in the files given, of what a name stands for. */
export function references(
  named: NamedThere,
  { among, declaration }: { readonly among: readonly FileMentions[]; readonly declaration: boolean },
): readonly FileSpan[] {
  return mentionsOf(named, among)
    .filter(({ declares }) => declaration || !declares)
    .map(({ at }) => at);
}
