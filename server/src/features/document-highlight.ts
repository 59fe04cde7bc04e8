import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { mentionsOf, nameAt } from './name-at.ts';

export interface Highlight {
  readonly span: Span;
  /** The declaration is written, every other mention reads it. */
  readonly kind: 'declares' | 'names';
}

/** All mentions in this file of what the name under the cursor stands for. */
export function documentHighlights(analysis: Analysis, offset: number): readonly Highlight[] {
  const name = nameAt(analysis, offset);
  if (name?.target === undefined) return [];
  return mentionsOf(name.target, name.reference.kind, [analysis]).map(({ at, reference }) => ({
    span: { start: at.start, end: at.end },
    kind: reference.declares ? 'declares' : 'names',
  }));
}
