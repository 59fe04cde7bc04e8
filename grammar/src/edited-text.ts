import type { Span } from './span.ts';

export interface SpanEdit extends Span {
  readonly newText: string;
}

/** A text with all edits made; of two at one place the one named first stands first. `undefined` where two overlap. */
export function editedText(text: string, edits: readonly SpanEdit[]): string | undefined {
  const backwards = edits
    .map((edit, order) => ({ ...edit, order }))
    .sort((a, b) => b.start - a.start || b.order - a.order);
  let edited = text;
  let limit = Number.POSITIVE_INFINITY;
  for (const { start, end, newText } of backwards) {
    if (end > limit) return undefined;
    edited = edited.slice(0, start) + newText + edited.slice(end);
    limit = start;
  }
  return edited;
}
