/** The form of the schema: what a block kind is called, what its head looks like, which facts and blocks it holds. */
import type { Captured, NameKind, Shape } from './shape.ts';

export interface FactSchema<S extends Shape = Shape, R extends boolean = boolean> {
  /** The fact's first word; `undefined` where the line starts with something else (a reading's lead, a selector's number). */
  readonly word: string | undefined;
  /** What follows the word. */
  readonly shape: S;
  /** How often it may stand in one block. */
  readonly repeats: R;
  /** A word of facts that this one stands instead of: stating one replaces the other in `like`, and both together are one too many. */
  readonly insteadOf?: readonly string[];
  /** History belongs to one piece and is not taken over by `like`. */
  readonly history?: boolean;
  /** What holds when the fact is left out, in words; `undefined` where nothing is assumed. */
  readonly assumed?: string;
  /** One line: what it means. */
  readonly meaning: string;
  /** A line as it may stand in a file. */
  readonly example: string;
}

export interface BlockSchema<
  F extends Readonly<Record<string, FactSchema>> = Readonly<Record<string, FactSchema>>,
  H extends Shape = Shape,
  K extends readonly string[] = readonly string[],
  T extends boolean = boolean,
> {
  readonly keyword: string;
  readonly head: H;
  /** The kind of name that this block's head declares. */
  readonly names: NameKind | undefined;
  readonly like: boolean;
  readonly history?: boolean;
  readonly meaning: string;
  readonly example: string;
  /** Facts by the field that they fill. */
  readonly facts: F;
  /** Keywords of the blocks that may stand inside. */
  readonly blocks: K;
  readonly topLevel: T;
}

export const fact = <const S extends Shape, const R extends boolean>(schema: FactSchema<S, R>): FactSchema<S, R> =>
  schema;

export const block = <
  const F extends Readonly<Record<string, FactSchema>>,
  const H extends Shape,
  const K extends readonly string[],
  const T extends boolean,
>(
  schema: BlockSchema<F, H, K, T>,
): BlockSchema<F, H, K, T> => schema;

/** A fact that matched: its captures and the line that it stands on. */
export interface MatchedFact<T> {
  readonly value: T;
  readonly span: import('../span.ts').Span;
  readonly wordSpan: import('../span.ts').Span;
}

/** The facts of a block, by field: every matched line in order. A line that did not match is absent (its problem is told). */
export type FactsOf<B extends BlockSchema> = {
  readonly [K in keyof B['facts']]: readonly MatchedFact<Captured<B['facts'][K]['shape']>>[];
};
