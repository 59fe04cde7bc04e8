/**
 * Shapes: what may stand on a fact's line. A shape is data; from it come matching, validation, completion, signature help,
 * the reference page, the names that a line holds, what it means apart from how it is written, and its reading into the model.
 * `Captured<S>` is the type of what matching a shape yields.
 */
import type { WrittenQuantity } from '../../values/quantity.ts';
import type { Dimension } from '../../values/unit-table.ts';
import type { Span } from '../span.ts';

/** Kinds of things that have names. */
export type NameKind =
  | 'wire'
  | 'spool'
  | 'bobbin'
  | 'magnet'
  | 'pickup'
  | 'instrument'
  | 'coil'
  | 'lead'
  | 'metal part'
  | 'slot'
  | 'switch'
  | 'lug'
  | 'detent'
  | 'terminal';

/** A captured value and where it stands. */
export interface At<T> {
  readonly value: T;
  readonly span: Span;
}

/** A lead, a coil's end, a metal part, a slot or a terminal as written: `violet`, `slug.start`, `baseplate`, `bridge.slug`, `lever.a1`. */
export interface WrittenPath {
  readonly parts: readonly At<string>[];
  readonly text: string;
}

export type Shape =
  | { readonly kind: 'word'; readonly words: readonly string[] }
  | { readonly kind: 'keyword'; readonly word: string }
  | {
      readonly kind: 'quantity';
      readonly dimension: Dimension;
      readonly min?: number;
      readonly max?: number;
      readonly exclusiveMin?: boolean;
      /** The unit that is likely left out, where it is not that of pickups in general. */
      readonly likely?: string;
    }
  | {
      readonly kind: 'count';
      readonly min?: number;
      readonly max?: number;
      readonly unit?: 'turns';
      readonly key?: true;
    }
  | {
      readonly kind: 'number';
      readonly min?: number;
      readonly max?: number;
      readonly exclusiveMin?: boolean;
      readonly exclusiveMax?: boolean;
    }
  | { readonly kind: 'percent' }
  | { readonly kind: 'size'; readonly dimension: Dimension; readonly parts: readonly string[] }
  | { readonly kind: 'date' }
  /** `file`: the path of a file, from the file that it is written in. */
  | { readonly kind: 'string'; readonly file?: true }
  /** Free text in one item: a word, a number, a date or a string. */
  | { readonly kind: 'label'; readonly suggestions?: readonly string[] }
  | { readonly kind: 'code' }
  | {
      readonly kind: 'name';
      readonly of: NameKind;
      readonly declares?: boolean;
      readonly own?: 'brought out' | 'inside';
    }
  | { readonly kind: 'path'; readonly of: NameKind }
  | { readonly kind: 'selection' }
  | { readonly kind: 'comma' }
  | { readonly kind: 'sequence'; readonly fields: Readonly<Record<string, Shape>> }
  | { readonly kind: 'optional'; readonly shape: Shape }
  | { readonly kind: 'many'; readonly shape: Shape; readonly atLeast: number; readonly unordered?: true }
  /** `empties`: the option that takes away what `like` would bring, and says nothing else. */
  | { readonly kind: 'one-of'; readonly options: Readonly<Record<string, Shape>>; readonly empties?: string }
  /** Another way to say one of a fact's words; `of` has the words by what stands for them. */
  | { readonly kind: 'alias'; readonly shape: Shape; readonly of: Readonly<Record<string, string>> };

/** How a selector position, or any other joining of parts, is written. */
export type SelectionNode =
  | {
      readonly kind: 'part';
      readonly path: WrittenPath;
      readonly through: At<WrittenQuantity> | undefined;
      readonly span: Span;
    }
  | { readonly kind: 'reversed'; readonly of: SelectionNode; readonly span: Span }
  | { readonly kind: 'series'; readonly of: readonly SelectionNode[]; readonly span: Span }
  | { readonly kind: 'parallel'; readonly of: readonly SelectionNode[]; readonly span: Span };

/** What a shape yields when a line matches it. */
export type Captured<S extends Shape> = S extends { kind: 'word'; words: infer W extends readonly string[] }
  ? At<W[number]>
  : S extends { kind: 'keyword' | 'comma' }
    ? At<true>
    : S extends { kind: 'quantity' | 'count' | 'number' | 'percent' }
      ? At<WrittenQuantity>
      : S extends { kind: 'size'; parts: infer P extends readonly string[] }
        ? { readonly [K in P[number]]: At<WrittenQuantity> }
        : S extends { kind: 'date' }
          ? At<string>
          : S extends { kind: 'string' }
            ? At<string>
            : S extends { kind: 'code' | 'name' | 'label' }
              ? At<string>
              : S extends { kind: 'path' }
                ? At<WrittenPath>
                : S extends { kind: 'selection' }
                  ? At<SelectionNode>
                  : S extends { kind: 'sequence'; fields: infer F extends Readonly<Record<string, Shape>> }
                    ? { readonly [K in keyof F]: Captured<F[K]> }
                    : S extends { kind: 'optional'; shape: infer I extends Shape }
                      ? Captured<I> | undefined
                      : S extends { kind: 'alias'; shape: infer I extends Shape }
                        ? Captured<I>
                        : S extends { kind: 'many'; shape: infer I extends Shape }
                          ? readonly Captured<I>[]
                          : S extends { kind: 'one-of'; options: infer O extends Readonly<Record<string, Shape>> }
                            ? { [K in keyof O]: { readonly option: K; readonly value: Captured<O[K]> } }[keyof O]
                            : never;

export const word = <const W extends readonly string[]>(...words: W) => ({ kind: 'word', words }) as const;
/** A word that stands as written; `tied to` is two words in a row. */
export const keyword = <const T extends string>(text: T) => ({ kind: 'keyword', word: text }) as const;
export const quantity = (
  dimension: Dimension,
  limits: { min?: number; max?: number; exclusiveMin?: boolean; likely?: string } = {},
) => ({ kind: 'quantity', dimension, ...limits }) as const;
/** `key`: the number is what the line is known by. */
export const count = <const L extends { min?: number; max?: number; unit?: 'turns'; key?: true }>(limits: L) =>
  ({ kind: 'count', ...limits }) as const;
export const number = (limits: { min?: number; max?: number; exclusiveMin?: boolean; exclusiveMax?: boolean } = {}) =>
  ({ kind: 'number', ...limits }) as const;
export const percent = { kind: 'percent' } as const;
export const size = <const P extends readonly string[]>(dimension: Dimension, ...parts: P) =>
  ({ kind: 'size', dimension, parts }) as const;
export const date = { kind: 'date' } as const;
export const text = { kind: 'string' } as const;
export const filePath = { kind: 'string', file: true } as const;
export const label = (...suggestions: readonly string[]) => ({ kind: 'label', suggestions }) as const;
export const findingCode = { kind: 'code' } as const;
export const name = <const K extends NameKind>(of: K) => ({ kind: 'name', of }) as const;
export const declares = <const K extends NameKind>(of: K) => ({ kind: 'name', of, declares: true }) as const;
/** A lead of a coil's own, any colour: known to the whole pickup where it is brought out, to the coil alone where it is soldered inside. */
export const ownLead = (own: 'brought out' | 'inside') => ({ kind: 'name', of: 'lead', own }) as const;
export const path = (of: NameKind) => ({ kind: 'path', of }) as const;
export const selection = { kind: 'selection' } as const;
export const comma = { kind: 'comma' } as const;
export const sequence = <const F extends Readonly<Record<string, Shape>>>(fields: F) =>
  ({ kind: 'sequence', fields }) as const;
export const optional = <const S extends Shape>(shape: S) => ({ kind: 'optional', shape }) as const;
export const many = <const S extends Shape>(shape: S, atLeast = 1) => ({ kind: 'many', shape, atLeast }) as const;
/** A list whose order says nothing. */
export const unordered = <const S extends Shape>(shape: S, atLeast = 1) =>
  ({ kind: 'many', shape, atLeast, unordered: true }) as const;
export const oneOf = <const O extends Readonly<Record<string, Shape>>>(options: O, empties?: keyof O & string) =>
  (empties === undefined ? { kind: 'one-of', options } : { kind: 'one-of', options, empties }) as {
    readonly kind: 'one-of';
    readonly options: O;
    readonly empties?: string;
  };
export const alias = <const S extends Shape, const A extends Readonly<Record<string, string>>>(shape: S, of: A) =>
  ({ kind: 'alias', shape, of }) as const;
