/** The words that a shape may begin with, and whether it may be nothing: where a name and a word would both fit, the word wins. */
import type { Shape } from './shape.ts';

export interface First {
  readonly words: ReadonlySet<string>;
  readonly mayBeEmpty: boolean;
}

const known = new WeakMap<Shape, First>();

export function firstOf(shape: Shape): First {
  const found = known.get(shape);
  if (found) return found;
  const first = compute(shape);
  known.set(shape, first);
  return first;
}

function compute(shape: Shape): First {
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
}

export function firstOfSequence(shapes: readonly Shape[]): First {
  const words = new Set<string>();
  for (const shape of shapes) {
    const first = firstOf(shape);
    for (const word of first.words) words.add(word);
    if (!first.mayBeEmpty) return { words, mayBeEmpty: false };
  }
  return { words, mayBeEmpty: true };
}
