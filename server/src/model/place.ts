import type { Span } from '../../../grammar/src/span.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';

/** Where something is written: a span inside one chunk of one file. Stays valid while text around the chunk moves. */
export interface Place {
  readonly chunk: Chunk;
  readonly span: Span;
}

/** A value as the writer stated it, with the line or item that states it. */
export interface Stated<T> {
  readonly value: T;
  readonly place: Place;
}

export const samePlace = (a: Place, b: Place): boolean =>
  a.chunk === b.chunk && a.span.start === b.span.start && a.span.end === b.span.end;
