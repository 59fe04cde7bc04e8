import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { hazardsOf } from '../checks/explanation.ts';
import type { Finding, Remedy } from '../checks/finding.ts';
import { cautionsOf } from '../words/cautions.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { findingSpan } from './diagnostics.ts';
import { locateEdits, overlap, type TextEdit } from './text-edits.ts';

export interface QuickFix {
  readonly title: string;
  readonly preferred: boolean;
  /** What the work that it stands for can do to a person. */
  readonly cautions: readonly string[];
  readonly edits: readonly TextEdit[];
  /** The finding that it settles. */
  readonly finding: Finding;
}

/** Verified remedies of the findings that touch the span. */
export function quickFixes(analysis: Analysis, span: Span, t = ENGLISH): readonly QuickFix[] {
  return analysis.findings.flatMap((finding) => {
    const at = findingSpan(analysis, finding);
    if (at === undefined || at.start > span.end || at.end < span.start) return [];
    return analysis.verifiedFixes(finding).flatMap((remedy) => {
      const edits = locateEdits(analysis, remedy.edits);
      const cautions = remedy.kind === 'build' ? cautionsOf(...hazardsOf(finding.code)).map((each) => t(each)) : [];
      return edits
        ? [{ title: remedy.words?.(t) ?? remedy.title, preferred: remedy.preferred === true, cautions, edits, finding }]
        : [];
    });
  });
}

/**
 * Every correction of the writing (a unit, a spelling) that is plainly the right one. Never a change of the build: that
 * is for a person to decide, one at a time.
 */
export function fixAll(analysis: Analysis): readonly TextEdit[] {
  const chosen: TextEdit[] = [];
  for (const finding of analysis.findings) {
    // Only verified where there is something to verify: asking costs a fresh analysis.
    if (!finding.remedies().some((remedy) => remedy.kind === 'text')) continue;
    const remedy = plainlyRight(analysis.verifiedFixes(finding).filter(({ kind }) => kind === 'text'));
    const edits = remedy && locateEdits(analysis, remedy.edits);
    if (!edits || edits.some((edit) => edit.at.uri !== analysis.uri)) continue;
    if (edits.some((edit) => chosen.some((other) => overlap(edit, other)))) continue;
    chosen.push(...edits);
  }
  return chosen;
}

/** The preferred one, or the only one; where several would do, none. */
function plainlyRight(remedies: readonly Remedy[]): Remedy | undefined {
  const preferred = remedies.filter((remedy) => remedy.preferred === true);
  if (preferred.length > 0) return preferred.length === 1 ? preferred[0] : undefined;
  return remedies.length === 1 ? remedies[0] : undefined;
}
