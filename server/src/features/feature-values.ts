/** The plain values that features answer with, in one place for whoever converts them. */
export type { Completion } from './completion.ts';
export type { Diagnostic } from './diagnostics.ts';
export type { Highlight } from './document-highlight.ts';
export type { DocumentSymbol } from './document-symbols.ts';
export type { FoldingRange } from './folding.ts';
export type { InlayHint } from './inlay-hints.ts';
export type { SemanticToken, TokenKind } from './semantic-tokens.ts';
export type { Signature } from './signature-help.ts';
export type { TextEdit } from './text-edits.ts';
