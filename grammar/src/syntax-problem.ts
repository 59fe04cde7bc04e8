import type { Span } from './span.ts';

/** Codes that the language layer itself raises, before any name is resolved or anything is computed. */
export type SyntaxCode =
  | 'syntax/unexpected'
  | 'syntax/unclosed'
  | 'syntax/number'
  | 'syntax/unknown-word'
  | 'syntax/incomplete'
  | 'unit/missing'
  | 'unit/wrong'
  | 'value/range'
  | 'name/duplicate';

/** An error of the text as a value, with its place (in the chunk's offsets) and, where one exists, its remedy. */
export interface SyntaxProblem {
  readonly code: SyntaxCode;
  readonly span: Span;
  readonly message: string;
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
  readonly fixes?: readonly SyntaxFix[];
}

export interface SyntaxFix {
  readonly title: string;
  readonly edits: readonly { readonly span: Span; readonly newText: string }[];
}
