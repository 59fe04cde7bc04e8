/** Pieces of text that differ in spaces, line breaks between lines and comments only: they say the same, in other places. */
import { attached } from '../values/attached.ts';
import { onceFor } from '../values/remember.ts';
import type { Span } from './span.ts';
import type { Chunk } from './syntax-tree.ts';
import { Newline, tokenize } from './tokens.ts';

/** The piece of which this one is a later form, where both say the same; else itself. */
export const firstForm = (chunk: Chunk): Chunk => firstForms.get(chunk) ?? chunk;

const firstForms = attached<Chunk, Chunk>();

/** Notes that `now` stands where `before` stood. */
export function tookPlaceOf(now: Chunk, before: Chunk): void {
  if (bare(now) === bare(before) && isSame(now, before)) firstForms.set(now, firstForm(before));
}

/** Where what stood at `span` of one form stands in the other; `undefined` where it begins or ends in spaces that are others now. */
export function spanIn({ start, end }: Span, from: Chunk, to: Chunk): Span | undefined {
  if (from === to) return { start, end };
  const [first, last] = [start, end].map((offset) => offsetIn(offset, from, to));
  return first === undefined || last === undefined ? undefined : { start: first, end: last };
}

interface Word extends Span {
  readonly text: string;
  /** What stands between it and the word before: some things are one where nothing does. */
  readonly behind: 'a line' | 'space' | 'nothing';
}

const wordsOf = onceFor(({ text }: Chunk): readonly Word[] => {
  let startsLine = true;
  let last = 0;
  return tokenize(text).tokens.flatMap(({ image, startOffset: start, tokenType }): readonly Word[] => {
    if (tokenType === Newline) {
      startsLine = true;
      return [];
    }
    const behind = startsLine ? 'a line' : start > last ? 'space' : 'nothing';
    startsLine = false;
    last = start + image.length;
    return [{ text: image, start, end: last, behind }];
  });
});

function isSame(one: Chunk, other: Chunk): boolean {
  const [words, others] = [wordsOf(one), wordsOf(other)];
  return (
    words.length === others.length &&
    words.every(({ text, behind }, index) => text === others[index]?.text && behind === others[index]?.behind)
  );
}

/** Without comments and spaces, which is soon compared: asked for with every keystroke. */
function bare({ text, comments }: Chunk): string {
  let [left, at] = ['', 0];
  for (const { span } of comments) {
    left += text.slice(at, span.start);
    at = span.end;
  }
  return (left + text.slice(at)).replace(/\s+/g, '');
}

function offsetIn(offset: number, from: Chunk, to: Chunk): number | undefined {
  const [words, others] = [wordsOf(from), wordsOf(to)];
  const index = words.findLastIndex(({ start }) => start <= offset);
  const [word, there] = [words[index], others[index]];
  if (word && there && offset <= word.end) return there.start + offset - word.start;
  const [behind, behindThere] = [word?.end ?? 0, there?.end ?? 0];
  const gap = from.text.slice(behind, words[index + 1]?.start);
  return gap === to.text.slice(behindThere, others[index + 1]?.start) ? behindThere + offset - behind : undefined;
}
