import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { nameAt, namesIn, sameSpan } from './name-at.ts';

export interface Highlight {
  readonly span: Span;
  /** The declaration is written, every other mention reads it. */
  readonly kind: 'declares' | 'names';
}

/** All mentions in this file of what the name under the cursor stands for. */
export function documentHighlights(analysis: Analysis, offset: number): readonly Highlight[] {
  const name = nameAt(analysis, offset);
  if (name?.target === undefined) return [];
  const same = namesIn(analysis).filter(
    ({ reference, target }) => reference.kind === name.reference.kind && sameSpan(target, name.target),
  );
  // A line that two blocks share is one line.
  const byStart = new Map(same.map((each) => [each.at.start, each]));
  return [...byStart.values()].map(({ at, reference }) => ({
    span: { start: at.start, end: at.end },
    kind: reference.declares ? 'declares' : 'names',
  }));
}
