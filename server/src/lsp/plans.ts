import type { WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../analysis/analysis-types.ts';
import { identifyActions } from '../features/identify-actions.ts';
import { ownSubjects } from '../features/own-subjects.ts';
import { proposalsAround } from '../features/proposal-actions.ts';
import { repairPlans } from '../features/repair-actions.ts';
import { cautionsOf } from '../words/cautions.ts';
import type { Language } from '../words/languages/language.ts';
import type { Plan, PlansParams } from './bench-view-protocol.ts';
import { offsetFrom } from './from-protocol.ts';
import { type TextOf, toWorkspaceEdit } from './to-protocol.ts';

/** Repairs of what is wrong with the pickup or instrument at a position, what its readings prove of its leads, or builds for its target. */
export function plansAt(
  {
    document,
    analysis,
    textOf,
  }: { readonly document: TextDocument; readonly analysis: Analysis; readonly textOf: TextOf },
  { what, cursor }: PlansParams,
  t: Language,
): readonly Plan[] {
  const offset = offsetFrom(document, cursor);
  const own = ownSubjects(analysis);
  const around = own.find(({ around: at }) => at.start <= offset && offset < at.end) ?? own[0];
  if (around === undefined) return [];
  if (what === 'identify') {
    return identifyActions(analysis, around.span, t).flatMap(({ title, proven, hint, edits }) => {
      const steps = [
        ...(proven ? [] : [t('No reading decides this: it is a choice.')]),
        ...(hint === undefined ? [] : [hint]),
      ];
      return planOf(
        { title, steps, leaves: [], cautions: hint === undefined ? [] : cautionsOf('solder').map((each) => t(each)) },
        toWorkspaceEdit(textOf, edits),
      );
    });
  }
  if (what === 'propose')
    return proposalsAround(analysis, around.span, t).flatMap(({ title, facts, givesUp, cautions, edits }) =>
      planOf({ title, steps: facts, leaves: givesUp, cautions }, toWorkspaceEdit(textOf, edits)),
    );
  return repairPlans(analysis, around.around, t).flatMap(({ title, minutes, steps, leaves, cautions, edits }) =>
    planOf({ title, minutes, steps, leaves: leaves(), cautions }, toWorkspaceEdit(textOf, edits)),
  );
}

const planOf = (plan: Omit<Plan, 'edit'>, edit: WorkspaceEdit | undefined): readonly Plan[] =>
  edit === undefined ? [] : [{ ...plan, edit }];
