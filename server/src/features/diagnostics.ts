import type { Span } from '../../../grammar/src/span.ts';
import { attached } from '../../../grammar/values/attached.ts';
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
  const { findings } = analysis;
  const shown = findings.slice(0, MOST_DIAGNOSTICS).flatMap((finding) => toDiagnostic(analysis, finding, t));
  const rest = findings.length - MOST_DIAGNOSTICS;
  const last = shown.at(-1);
  if (rest <= 0 || last === undefined) return shown;
  return [
    ...shown.slice(0, -1),
    { ...last, message: `${last.message} (${t('{0} more findings follow', String(rest))})` },
  ];
}

/** Where a finding lies in this file. */
export function findingSpan(analysis: Found, finding: Finding): Span | undefined {
  const at = analysis.locate(finding.place);
  return at?.uri === analysis.uri ? { start: at.start, end: at.end } : undefined;
}

const shownBefore = attached<Finding, Diagnostic>();

/** The same object as before where it tells of the same places. */
function toDiagnostic(analysis: Found, finding: Finding, t: Language): readonly Diagnostic[] {
  const span = findingSpan(analysis, finding);
  if (span === undefined) return [];
  const related = finding.related.flatMap(({ message, words, place }) => {
    const at = analysis.locate(place);
    return at ? [{ message: words?.(t) ?? message, at }] : [];
  });
  const { message, foreign } = tellIn(finding, t);
  const before = shownBefore.get(finding);
  const isSame =
    before?.message === message &&
    before.foreign === foreign &&
    before.related.length === related.length &&
    isSameSpan(before.span, span) &&
    before.related.every(({ at }, index) => at.uri === related[index]?.at.uri && isSameSpan(at, related[index].at));
  if (isSame) return [before];
  const { code, severity } = finding;
  const shown: Diagnostic = {
    code,
    severity,
    message,
    ...given({ foreign }),
    span,
    related,
    unnecessary: code === 'accept/unused',
  };
  shownBefore.set(finding, shown);
  return [shown];
}

const isSameSpan = (one: Span, other: Span): boolean => one.start === other.start && one.end === other.end;
