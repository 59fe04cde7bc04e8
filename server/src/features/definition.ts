import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import { nameAt } from './name-at.ts';

/** Where the name under the cursor is declared, and the name itself. */
export function definition(
  analysis: Analysis,
  offset: number,
): { readonly from: Span; readonly to: FileSpan } | undefined {
  const name = nameAt(analysis, offset);
  return name?.target && { from: { start: name.at.start, end: name.at.end }, to: name.target };
}
