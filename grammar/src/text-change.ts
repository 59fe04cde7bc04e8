/** What has become of a text that another one took the place of: one stretch of it, as short as can be, is now another. */
import { type Span, shiftSpan } from './span.ts';

/** The stretch as it lay in the text before. */
export interface TextChange extends Span {
  /** Characters by which what lies behind it has moved. */
  readonly shift: number;
}

export function changeBetween(before: string, now: string): TextChange {
  const most = Math.min(before.length, now.length);
  const start = alike(most, (from, to) => before.slice(from, to) === now.slice(from, to));
  const behind = alike(
    most - start,
    (from, to) =>
      before.slice(before.length - to, before.length - from) === now.slice(now.length - to, now.length - from),
  );
  return { start, end: before.length - behind, shift: now.length - before.length };
}

/** How many characters are alike, of `most` at most: stretches are compared as a whole, which the engine does many times faster than sign by sign. */
function alike(most: number, isSame: (from: number, to: number) => boolean): number {
  let [known, step] = [0, most];
  while (step > 0) {
    if (known + step <= most && isSame(known, known + step)) known += step;
    else step >>= 1;
  }
  return known;
}

/** Where a span lies now; `undefined` where the change cuts through it. */
export function movedSpan(span: Span, { start, end, shift }: TextChange): Span | undefined {
  if (span.end <= start) return span;
  if (span.start >= end) return shiftSpan(span, shift);
  return span.start <= start && span.end >= end ? { start: span.start, end: span.end + shift } : undefined;
}
