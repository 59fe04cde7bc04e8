import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { language } from '../../../grammar/src/schema/index.ts';
import { given } from '../../../grammar/values/present.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Finding } from '../checks/finding.ts';
import { tellIn } from '../checks/telling.ts';
import type { FactChange, WrittenFact } from '../comparison/compare-facts.ts';
import { compareFindings } from '../comparison/compare-findings.ts';
import { diagnostics } from '../features/diagnostics.ts';
import type { Language } from '../words/languages/language.ts';
import { isAbout } from './about-subject.ts';
import type { ComparisonView, FactRow, SectionAsked } from './bench-view-protocol.ts';
import { changedOnDrawing } from './changed-on-drawing.ts';
import { type Before, type ComparedStates, nameBefore } from './compared-states.ts';
import { heardAt, potsFrom } from './heard.ts';
import { subjectDrawing } from './subject-drawing.ts';
import { toRange } from './to-protocol.ts';

/** What was changed, which findings that settled or brought, and the drawing of before with the changed parts of both. */
export function comparisonView(
  { document, now, t }: ComparedStates,
  before: Before,
  params: SectionAsked,
): ComparisonView {
  const { facts, analysis } = before;
  const { kind } = params.subject;
  const name = nameBefore(before, params.subject);
  // Drawn in the position that is heard now, so that nothing differs but what was changed.
  const live = heardAt(now, params)?.position.key.value;
  const past = subjectDrawing(
    analysis,
    { kind, name },
    { t, width: params.width, played: potsFrom(params.pots), ...given({ live }) },
  );
  // All of both: one that needs inductances would else seem new on the side where they are worked out already.
  const findings = compareFindings(analysis.allFindings(), before.after.allFindings(), facts.renamed);
  const told = (finding: Finding) => {
    const { code, severity } = finding;
    const { message, foreign } = tellIn(finding, t);
    return { code, severity, message, ...given({ foreign }) };
  };
  return {
    uses: before.uses,
    facts: facts.changes.flatMap((change) => factRows(change, now, document, t)),
    settled: findings.gone.filter((finding) => isAbout(finding, { kind, name })).map(told),
    come: diagnostics({ ...now, findings: findings.come }, t).map(({ code, severity, message, foreign, span }) => ({
      code,
      severity,
      message,
      ...given({ foreign }),
      range: toRange(document, span),
    })),
    ...given({ svg: past?.svg }),
    changedNow: changedOnDrawing('after', facts.changes, params.subject, now, t),
    changedBefore: changedOnDrawing('before', facts.changes, params.subject, analysis, t),
  };
}

const IS_NEW = 'isNew' satisfies keyof (typeof language)['coil']['facts'];

function factRows(change: FactChange, now: Analysis, document: TextDocument, t: Language): readonly FactRow[] {
  const where = change.path.join(', ');
  const at = (fact: WrittenFact) => (fact.uri === now.uri ? { range: toRange(document, fact.span) } : {});
  switch (change.kind) {
    case 'fact added':
      if (change.after.field === IS_NEW)
        return [{ where, was: t('the coil that came out'), is: t('wound anew'), ...at(change.after) }];
      return [{ where, is: change.after.text, ...at(change.after) }];
    case 'fact removed':
      return [{ where, was: change.before.text }];
    case 'fact changed':
      return [{ where, was: change.before.text, is: change.after.text, ...at(change.after) }];
    case 'renamed':
      return [{ where, was: change.from, is: change.to }];
    case 'block added':
      return [{ where, is: textOf(change.facts, t), ...(change.facts[0] ? at(change.facts[0]) : {}) }];
    case 'block removed':
      return [{ where, was: textOf(change.facts, t) }];
  }
}

const MOST_FACTS = 6;
const textOf = (facts: readonly WrittenFact[], t: Language): string => {
  const shown = facts.slice(0, MOST_FACTS).map(({ text }) => text);
  const more = facts.length - shown.length;
  return [...shown, ...(more > 0 ? [t('and {0} more', String(more))] : [])].join('; ') || t('the whole block');
};
