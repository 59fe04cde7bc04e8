/** The words that a shape may begin with, and whether it may be nothing: where a name and a word would both fit, the word wins. */
import { onceFor } from '../../values/remember.ts';
import type { Shape } from './shape.ts';

export interface First {
  readonly words: ReadonlySet<string>;
  readonly mayBeEmpty: boolean;
}

export const firstOf: (shape: Shape) => First = onceFor((shape) => {
  switch (shape.kind) {
    case 'word':
      return { words: new Set(shape.words), mayBeEmpty: false };
    case 'keyword':
      return { words: new Set([shape.word.split(' ')[0] ?? '']), mayBeEmpty: false };
    case 'optional':
      return { words: firstOf(shape.shape).words, mayBeEmpty: true };
    case 'alias':
      return firstOf(shape.shape);
    case 'many': {
      const inner = firstOf(shape.shape);
      return { words: inner.words, mayBeEmpty: shape.atLeast === 0 || inner.mayBeEmpty };
    }
    case 'one-of': {
      const options = Object.values(shape.options).map(firstOf);
      return {
        words: new Set(options.flatMap((option) => [...option.words])),
        mayBeEmpty: options.some((option) => option.mayBeEmpty),
      };
    }
    case 'sequence':
      return firstOfSequence(Object.values(shape.fields));
    case 'selection':
      return { words: new Set(['reversed']), mayBeEmpty: false };
    default:
      return { words: new Set(), mayBeEmpty: false };
  }
});

export function firstOfSequence(shapes: readonly Shape[]): First {
  const words = new Set<string>();
  for (const shape of shapes) {
    const first = firstOf(shape);
    for (const word of first.words) words.add(word);
    if (!first.mayBeEmpty) return { words, mayBeEmpty: false };
  }
  return { words, mayBeEmpty: true };
}
