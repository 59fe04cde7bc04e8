import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Span } from '../../../grammar/src/span.ts';

/** Positions as clients send them: perhaps missing, negative, or far behind the end. */
type SentPosition = { readonly line?: unknown; readonly character?: unknown } | null | undefined;
type SentRange = { readonly start?: SentPosition; readonly end?: SentPosition } | null | undefined;

/** The offset of a position, moved into the text where it lies outside. */
export function offsetFrom(document: TextDocument, position: SentPosition): number {
  return document.offsetAt({ line: whole(position?.line), character: whole(position?.character) });
}

/** The span of a range; reversed ends are put right. */
export function spanFrom(document: TextDocument, range: SentRange): Span {
  const start = offsetFrom(document, range?.start);
  const end = offsetFrom(document, range?.end ?? range?.start);
  return start <= end ? { start, end } : { start: end, end: start };
}

function whole(value: unknown): number {
  if (typeof value !== 'number' || Number.isNaN(value)) return 0;
  return Math.min(Math.max(Math.trunc(value), 0), 0x7fffffff);
}
