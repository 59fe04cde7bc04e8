/** A piece of text by UTF-16 offsets, end excluded. Inside a chunk's tree, offsets count from the chunk's start. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export const spanOf = (start: number, end: number): Span => ({ start, end });

/** The smallest span that holds both. */
export const joinSpans = (a: Span, b: Span): Span => ({
  start: Math.min(a.start, b.start),
  end: Math.max(a.end, b.end),
});

export const shiftSpan = (span: Span, by: number): Span => ({ start: span.start + by, end: span.end + by });

/** True where `offset` lies in the span or touches either edge of it (a cursor's view). */
export const touches = (span: Span, offset: number): boolean => span.start <= offset && offset <= span.end;
