import type { Span } from '../../grammar/src/span.ts';

export interface Edit {
  readonly at: Span;
  readonly newText: string;
}

/** The text after edits of it that do not overlap, as an editor applies them. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  return [...edits]
    .sort((a, b) => b.at.start - a.at.start)
    .reduce((whole, { at, newText }) => whole.slice(0, at.start) + newText + whole.slice(at.end), text);
}
