import type { Position } from 'vscode';
import type { DrawnPart, Range, Subject } from '../../../../server/src/lsp/protocol.ts';

/** Where what is drawn stands in the text. */

export const sameSubject = (a: Subject | undefined, b: Subject | undefined): boolean =>
  a?.kind === b?.kind && a?.name === b?.name;

/** The smallest part around a position. */
export function partAt(parts: readonly DrawnPart[], at: Position): string | undefined {
  const around = parts.filter(({ range }) => holds(range, at));
  return around.sort((a, b) => sizeOf(a.range) - sizeOf(b.range))[0]?.id;
}

const sizeOf = ({ start, end }: Range): number => (end.line - start.line) * 10_000 + end.character - start.character;

export function holds({ start, end }: Range, { line, character }: Position): boolean {
  if (line < start.line || line > end.line) return false;
  return (line > start.line || character >= start.character) && (line < end.line || character <= end.character);
}
