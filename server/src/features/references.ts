import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import { mentionsOf, nameAt } from './name-at.ts';

/** Every mention, in the files given, of what the name under the cursor stands for. */
export function references(
  analysis: Analysis,
  offset: number,
  { among, declaration }: { readonly among: readonly Analysis[]; readonly declaration: boolean },
): readonly FileSpan[] {
  const name = nameAt(analysis, offset);
  if (name?.target === undefined) return [];
  return mentionsOf(name.target, name.reference.kind, withSelf(analysis, among))
    .filter(({ reference }) => declaration || !reference.declares)
    .map(({ at }) => at);
}

/** The file at hand first, and only once. */
export const withSelf = (analysis: Analysis, others: readonly Analysis[]): readonly Analysis[] => [
  analysis,
  ...others.filter((other) => other.uri !== analysis.uri),
];
