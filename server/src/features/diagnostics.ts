import type { Span } from '../../../grammar/src/span.ts';
import { given } from '../../../grammar/values/present.ts';
import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import type { Finding, Severity } from '../checks/finding.ts';
import type { Code } from '../checks/pages.ts';
import { tellIn } from '../checks/telling.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';

/** A finding as an editor shows it. */
export interface Diagnostic {
  readonly code: Code;
  readonly severity: Severity;
  readonly message: string;
  /** Set where it is told in English to a reader of another language. */
  readonly foreign?: 'en';
  readonly span: Span;
  readonly related: readonly { readonly message: string; readonly at: FileSpan }[];
  /** What it marks has no effect and may go. */
  readonly unnecessary: boolean;
}

type Found = Pick<Analysis, 'uri' | 'findings' | 'locate'>;

/** More than this helps nobody and only burdens the editor; the last one says how many are not shown. */
export const MOST_DIAGNOSTICS = 1000;

export function diagnostics(analysis: Found, t = ENGLISH): readonly Diagnostic[] {
  return shownOf(analysis.findings, (finding) => toDiagnostic(analysis, finding, t), t);
}

/** As many as are shown, each as `toShown` makes it; `undefined` for one that has no place in the file. */
export function shownOf<T extends { readonly message: string }>(
  findings: readonly Finding[],
  toShown: (finding: Finding) => T | undefined,
  t: Language,
): T[] {
  const told = findings.slice(0, MOST_DIAGNOSTICS).map(toShown);
  const shown = told.filter((each): each is T => each !== undefined);
  const rest = findings.length - MOST_DIAGNOSTICS;
  const last = shown.at(-1);
  if (rest <= 0 || last === undefined) return shown;
  const message = `${last.message} (${t('{0} more findings follow', String(rest))})`;
  return [...shown.slice(0, -1), { ...last, message }];
}

/** Where a finding lies in this file. */
export function findingSpan(analysis: Found, finding: Finding): Span | undefined {
  const at = analysis.locate(finding.place);
  return at?.uri === analysis.uri ? { start: at.start, end: at.end } : undefined;
}

export function toDiagnostic(analysis: Found, finding: Finding, t: Language): Diagnostic | undefined {
  const span = findingSpan(analysis, finding);
  if (span === undefined) return undefined;
  const { code, severity } = finding;
  const { message, foreign } = tellIn(finding, t);
  return {
    code,
    severity,
    message,
    ...given({ foreign }),
    span,
    related: finding.related.flatMap(({ message, words, place }) => {
      const at = analysis.locate(place);
      return at ? [{ message: words?.(t) ?? message, at }] : [];
    }),
    unnecessary: code === 'accept/unused',
  };
}
