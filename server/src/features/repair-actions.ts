import type { Span } from '../../../grammar/src/span.ts';
import { onceFor, onceForEach } from '../../../grammar/values/remember.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Finding } from '../checks/finding.ts';
import { tellIn } from '../checks/telling.ts';
import { planRepairs, type RepairOutcome, type RepairPlan, type RepairSubject } from '../repair/plan-repairs.ts';
import { heardWords, noLongerWords } from '../words/heard.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { findingSpan } from './diagnostics.ts';
import { locateEdits, type TextEdit } from './text-edits.ts';

export interface RepairAction {
  readonly title: string;
  readonly minutes: number;
  /** What is done, in order. */
  readonly steps: readonly string[];
  /** What the work can do to a person. */
  readonly cautions: readonly string[];
  readonly edits: readonly TextEdit[];
  /** The findings that it settles. */
  readonly findings: readonly Finding[];
  /** What is heard afterwards, and readings that then no longer agree; worked out when asked for. */
  leaves(): readonly string[];
}

/** The best plan of each pickup or instrument whose fault lies in the span: all its faults at once. */
export const repairActions = (analysis: Analysis, span: Span, t = ENGLISH): readonly RepairAction[] =>
  plansIn(analysis, span, t).flatMap((plans) => plans.slice(0, 1));

/** All plans, the best first; those of one pickup or instrument together. */
export const repairPlans = (analysis: Analysis, span: Span, t = ENGLISH): readonly RepairAction[] =>
  plansIn(analysis, span, t).flat();

function plansIn(analysis: Analysis, span: Span, t: Language): readonly (readonly RepairAction[])[] {
  const touched = analysis.findings.filter((finding) => {
    const at = findingSpan(analysis, finding);
    return at !== undefined && at.start <= span.end && at.end >= span.start;
  });
  const subjects = new Map<string, RepairSubject>();
  for (const finding of touched)
    for (const subject of subjectsOf(analysis, finding)) subjects.set(JSON.stringify(subject), subject);
  return [...subjects.values()].map((subject): readonly RepairAction[] => {
    const { faults, plans, questions } = plansFor(analysis)(subject);
    if (!faults.some((fault) => touched.includes(fault))) return [];
    return plans.flatMap((plan) => actionOf({ analysis, t }, subject, { faults, questions }, plan));
  });
}

function actionOf(
  { analysis, t }: { readonly analysis: Analysis; readonly t: Language },
  subject: RepairSubject,
  { faults: findings, questions }: Pick<RepairOutcome, 'faults' | 'questions'>,
  { steps: all, minutes, cautions, outlook, against }: RepairPlan,
): readonly RepairAction[] {
  const edits = locateEdits(
    analysis,
    all.flatMap((step) => step.edits),
  );
  const steps = all.map(({ words }) => words(t));
  const what =
    subject.instrument === undefined ? (subject.pickup ?? '') : t('the whole instrument {0}', subject.instrument);
  const title = t('Repair {0}, about {1} min: {2}', what, String(minutes), steps.join('; '));
  const leaves = () => [
    ...outlook().map((each) => heardWords(each, t)),
    ...against.map((each) => noLongerWords(tellIn(each, t).what, t)),
    ...questions(t),
  ];
  return edits ? [{ title, minutes, steps, cautions: cautions.map((each) => t(each)), edits, findings, leaves }] : [];
}

/** A pickup's fault is one of the pickup and of every instrument that it is fitted in. */
function subjectsOf({ instruments }: Analysis, { subject }: Finding): readonly RepairSubject[] {
  if (subject.instrument !== undefined) return [{ instrument: subject.instrument }];
  if (subject.pickup === undefined) return [];
  const homes = instruments.filter(({ instrument }) =>
    instrument.slots.some(({ pickup }) => pickup?.name === subject.pickup),
  );
  return [{ pickup: subject.pickup }, ...homes.map(({ instrument }) => ({ instrument: instrument.name }))];
}

/** An editor asks at every move of the cursor. */
const plansFor = onceFor((analysis: Analysis) =>
  onceForEach((subject: RepairSubject): RepairOutcome => planRepairs(analysis, subject)),
);
