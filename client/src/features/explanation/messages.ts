import type { ExplanationPage } from '../../../../server/src/lsp/protocol.ts';

/** What the page of a finding is shown. */
export interface ToExplanation {
  readonly page: ExplanationPage;
  /** The finding itself, where it was asked for at its place. */
  readonly here: FindingHere | undefined;
}

export interface FindingHere {
  readonly file: string;
  readonly line: number;
  readonly message: string;
  /** Titles of the fixes that apply to it as the text stands. */
  readonly fixes: readonly string[];
}

export type FromExplanation =
  | { readonly type: 'ready' }
  /** Another finding's page. */
  | { readonly type: 'explain'; readonly code: string }
  | { readonly type: 'fix'; readonly title: string }
  | { readonly type: 'reveal' };

/** A message as the page may send it; `undefined` for anything else. */
export function fromExplanation(message: unknown): FromExplanation | undefined {
  const { type, code, title }: { type?: unknown; code?: unknown; title?: unknown } = Object(message ?? {});
  switch (type) {
    case 'ready':
    case 'reveal':
      return { type };
    case 'explain':
      return typeof code === 'string' ? { type, code } : undefined;
    case 'fix':
      return typeof title === 'string' ? { type, title } : undefined;
    default:
      return undefined;
  }
}
