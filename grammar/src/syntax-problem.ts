import { present } from '../values/present.ts';
import type { Span } from './span.ts';

/** Codes that the language layer itself raises, before any name is resolved or anything is computed. */
export type SyntaxCode =
  | 'syntax/unexpected'
  | 'syntax/unclosed'
  | 'syntax/number'
  | 'syntax/unknown-word'
  | 'syntax/incomplete'
  | 'analysis/incomplete'
  | 'unit/missing'
  | 'unit/wrong'
  | 'value/range'
  | 'name/duplicate';

/** A fault of the text as a value, with its place (`At`: how places are given) and, where one exists, its remedy. */
export type Problem<C extends string, At> = At & {
  readonly code: C;
  /** An error where not stated. */
  readonly severity?: 'warning';
  readonly message: string;
  /** What to do about it, as an order. */
  readonly action?: string;
  /** A gauge where the name of a wire belongs: whoever knows the wires can name one. */
  readonly gaugeAwg?: number;
  readonly related?: readonly (At & { readonly message: string })[];
  readonly fixes?: readonly Fix<At>[];
};

interface Fix<At> {
  readonly title: string;
  readonly edits: readonly (At & { readonly newText: string })[];
  /** Another value or another thing may be meant: it is offered, never applied unasked. */
  readonly unsure?: true;
}

/** A problem of one piece of text, in its offsets. */
export type SyntaxProblem = Problem<SyntaxCode, { readonly span: Span }>;

type SyntaxFix = Fix<{ readonly span: Span }>;

export function problemAt(
  code: SyntaxCode,
  span: Span,
  message: string,
  ...offered: readonly (SyntaxFix | undefined)[]
): SyntaxProblem {
  const fixes = present(offered);
  return { code, span, message, ...(fixes.length > 0 && { fixes }) };
}

export const fixAt = (title: string, span: Span, newText: string): SyntaxFix => ({ title, edits: [{ span, newText }] });

export const replaceFix = (span: Span, newText: string): SyntaxFix => fixAt(`Write \`${newText}\``, span, newText);

export const removeFix = (span: Span): SyntaxFix => fixAt('Remove it', span, '');

/** The fix where it is known what was meant. */
export const fixTo = (span: Span, meant: string | undefined): SyntaxFix | undefined =>
  meant === undefined ? undefined : replaceFix(span, meant);
