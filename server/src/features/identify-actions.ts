import type { Span } from '../../../grammar/src/span.ts';
import { given } from '../../../grammar/values/present.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { identifiedLeads } from '../repair/identified-leads.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { ownPickups } from './own-blocks.ts';
import { inFile, isOnHead } from './syntax-at.ts';
import { locateEdits, type TextEdit } from './text-edits.ts';

export interface IdentifyAction {
  readonly title: string;
  /** False: a choice that no reading decides. */
  readonly proven: boolean;
  /** What of it is a choice, or still open. */
  readonly hint?: string;
  readonly edits: readonly TextEdit[];
}

/** The same for the list at one place: the line that names the pickup, or its conductors. */
export function identifyOffers(analysis: Analysis, span: Span, t = ENGLISH): readonly IdentifyAction[] {
  const isThere = ownPickups(analysis).some(({ placed, block }) => {
    const conductors = block.body.find((each) => each.kind === 'fact' && each.items[0]?.text === 'conductors');
    const at = conductors && inFile(placed, conductors.span);
    return isOnHead(placed, block, span) || (at && at.start <= span.start && span.end <= at.end);
  });
  return isThere ? identifyActions(analysis, span, t) : [];
}

/** In a pickup with untraced leads: the facts that its readings prove, and the choices that they leave. */
export function identifyActions(analysis: Analysis, span: Span, t = ENGLISH): readonly IdentifyAction[] {
  return ownPickups(analysis).flatMap(({ analysed: { pickup }, placed, block }) => {
    const at = inFile(placed, block.span);
    if (span.end < at.start || span.start > at.end) return [];
    if (pickup.hookup && pickup.coils.every(({ start, finish }) => start && finish)) return [];
    return identifiedLeads(analysis, pickup, t).facts.flatMap(({ title, proven, hint, edits }) => {
      const located = locateEdits(analysis, edits);
      return located ? [{ title, proven, ...given({ hint }), edits: located }] : [];
    });
  });
}
