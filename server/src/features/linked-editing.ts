import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { documentHighlights } from './document-highlight.ts';
import { nameAt } from './name-at.ts';
import { isLocal } from './rename.ts';

/**
 * Places of a lead, a coil or a slot that are typed together. None where one of them is written another way (`VT` for `violet`), which
 * would be left behind; other names are known to other files, and renamed.
 */
export function linkedEditing(
  analysis: Analysis,
  offset: number,
): { readonly name: string; readonly spans: readonly Span[] } | undefined {
  const named = nameAt(analysis, offset);
  if (!named?.target || !isLocal(named.reference.kind)) return undefined;
  const spans = documentHighlights(analysis, offset).map(({ span }) => span);
  const written = new Set(spans.map(({ start, end }) => analysis.text.slice(start, end)));
  const [name] = written;
  return name !== undefined && written.size === 1 && spans.length > 1 ? { name, spans } : undefined;
}
