import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../analysis-types.ts';
import type { FactChange, WrittenFact } from '../documents/comparison/compare-facts.ts';
import { compareFindings } from '../documents/comparison/compare-findings.ts';
import { diagnostics } from '../features/diagnostics.ts';
import type { BenchParams, ChangedPart, ComparisonView, FactRow } from './bench-protocol.ts';
import { type Before, type BenchStates, nameBefore } from './bench-states.ts';
import { type PlacedPart, subjectDrawing } from './subject-drawing.ts';
import { toRange } from './to-protocol.ts';

/** What was changed, which findings that settled or brought, and the drawing of before with the changed parts of both. */
export function comparisonView({ document, now }: BenchStates, before: Before, params: BenchParams): ComparisonView {
  const { facts, analysis } = before;
  const name = nameBefore(before, params.subject);
  const after = subjectDrawing(now, params.subject, params);
  const past = subjectDrawing(analysis, { ...params.subject, name }, params);
  const findings = compareFindings(analysis.findings, now.findings, facts.renamed);
  const told = ({ code, severity, message }: (typeof findings.gone)[number]) => ({ code, severity, message });
  return {
    uses: before.uses,
    facts: facts.changes.flatMap((change) => factRows(change, now, document)),
    settled: findings.gone.map(told),
    come: diagnostics({ ...now, findings: findings.come }).map(({ code, severity, message, span }) => ({
      code,
      severity,
      message,
      range: toRange(document, span),
    })),
    ...(past === undefined ? {} : { svg: past.svg }),
    changedNow: changedParts(after?.parts ?? [], params.subject.name, facts.changes, 'now'),
    changedBefore: changedParts(past?.parts ?? [], params.subject.name, facts.changes, 'before'),
  };
}

function factRows(change: FactChange, now: Analysis, document: TextDocument): readonly FactRow[] {
  const where = change.path.join(', ');
  const at = (fact: WrittenFact) => (fact.uri === now.uri ? { range: toRange(document, fact.span) } : {});
  switch (change.kind) {
    case 'fact added':
      return [{ where, is: change.after.text, ...at(change.after) }];
    case 'fact removed':
      return [{ where, was: change.before.text }];
    case 'fact changed':
      return [{ where, was: change.before.text, is: change.after.text, ...at(change.after) }];
    case 'renamed':
      return [{ where, was: change.from, is: change.to }];
    case 'block added':
      return [{ where, is: textOf(change.facts), ...(change.facts[0] ? at(change.facts[0]) : {}) }];
    case 'block removed':
      return [{ where, was: textOf(change.facts) }];
  }
}

const MOST_FACTS = 6;
const textOf = (facts: readonly WrittenFact[]): string => {
  const shown = facts.slice(0, MOST_FACTS).map(({ text }) => text);
  const more = facts.length - shown.length;
  return [...shown, ...(more > 0 ? [`and ${more} more`] : [])].join('; ') || 'the whole block';
};

/** Parts that a changed line writes, or whose block it stands in. The words tell the other state. */
function changedParts(
  parts: readonly PlacedPart[],
  subject: string,
  changes: readonly FactChange[],
  side: 'now' | 'before',
): readonly ChangedPart[] {
  const found = new Map<string, Set<string>>();
  for (const { fact, path, words } of changes.flatMap((change) => changedFacts(change, side))) {
    const around = parts.filter(
      ({ at }) => at.uri === fact.uri && at.start < fact.span.end && fact.span.start < at.end,
    );
    const smallest = around.sort((a, b) => a.at.end - a.at.start - (b.at.end - b.at.start))[0];
    // A line of a coil that writes no part of its own, such as its turns, is the coil's.
    const coil = path[0]?.endsWith(` ${subject}`)
      ? path.find((label) => label.startsWith('coil '))?.slice('coil '.length)
      : undefined;
    const part = smallest?.id ?? parts.find(({ id }) => id === `coil:${coil}`)?.id;
    if (part !== undefined) found.set(part, (found.get(part) ?? new Set()).add(words));
  }
  return [...found].map(([part, words]) => ({ part, words: [...words].join('; ') }));
}

interface ChangedFact {
  readonly fact: WrittenFact;
  readonly path: readonly string[];
  readonly words: string;
}

function changedFacts(change: FactChange, side: 'now' | 'before'): readonly ChangedFact[] {
  const { path } = change;
  switch (change.kind) {
    case 'fact changed':
      return side === 'now'
        ? [{ fact: change.after, path, words: `was ${change.before.text}` }]
        : [{ fact: change.before, path, words: `now ${change.after.text}` }];
    case 'fact added':
      return side === 'now' ? [{ fact: change.after, path, words: 'new' }] : [];
    case 'fact removed':
      return side === 'before' ? [{ fact: change.before, path, words: 'gone' }] : [];
    case 'block added':
      return side === 'now' ? change.facts.map((fact) => ({ fact, path, words: 'new' })) : [];
    case 'block removed':
      return side === 'before' ? change.facts.map((fact) => ({ fact, path, words: 'gone' })) : [];
    case 'renamed':
      return [];
  }
}
