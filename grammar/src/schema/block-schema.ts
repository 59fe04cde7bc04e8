/** The form of the schema: what a block kind is called, what its head looks like, which facts and blocks it holds. */
import { onceFor } from '../../values/remember.ts';
import type { Span } from '../span.ts';
import { type Captured, type NameKind, type Shape, sequence } from './shape.ts';

/** History of one piece is not taken over by `like`, only by `reworks`; that of one state of it, by neither. */
export type History = 'of the piece' | 'of the state';

export interface FactSchema<S extends Shape = Shape, R extends boolean = boolean> {
  /** The fact's first word; `undefined` where the line starts with something else (a reading's lead, a selector's number). */
  readonly word: string | undefined;
  /** What follows the word. */
  readonly shape: S;
  /** How often it may stand in one block. */
  readonly repeats: R;
  /** A word of facts that this one stands instead of: stating one replaces the other in `like`, and both together are one too many. */
  readonly insteadOf?: readonly string[];
  readonly history?: History;
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
  /** May be a later state of another: `reworks`. */
  readonly reworks?: true;
  readonly history?: History;
  readonly meaning: string;
  readonly example: string;
  /** Facts by the field that they fill. */
  readonly facts: F;
  /** Keywords of the blocks that may stand inside. */
  readonly blocks: K;
  readonly topLevel: T;
}

/** An entry of the schema: a fact is called by its field where it has no other word, and stands once where nothing else is said. */
type FactEntry<S extends Shape> = Omit<FactSchema<S>, 'word' | 'repeats'> & {
  readonly word?: string;
  readonly wordless?: true;
};

export function fact<const S extends Shape>(entry: FactEntry<S> & { readonly repeats: true }): FactSchema<S, true>;
export function fact<const S extends Shape>(entry: FactEntry<S> & { readonly repeats?: never }): FactSchema<S, false>;
export function fact({ wordless, repeats, ...entry }: FactEntry<Shape> & { readonly repeats?: true }): FactSchema {
  return { ...entry, word: wordless ? undefined : (entry.word ?? OF_FIELD), repeats: repeats ?? false };
}

const OF_FIELD = '';

type BlockEntry<F extends Facts, H extends Shape, K extends readonly string[], T extends boolean> = Omit<
  BlockSchema<F, H, K, T>,
  'head' | 'names' | 'like' | 'blocks' | 'topLevel'
> & {
  readonly head?: H;
  readonly names?: NameKind;
  readonly like?: boolean;
  readonly blocks?: K;
  readonly topLevel?: T;
};

export const block = <
  const F extends Facts,
  const H extends Shape = Extract<Shape, { kind: 'sequence' }>,
  const K extends readonly string[] = readonly [],
  const T extends boolean = false,
>(
  entry: BlockEntry<F, H, K, T>,
): BlockSchema<F, H, K, T> => ({
  names: undefined,
  like: false,
  ...entry,
  head: entry.head ?? (sequence({}) as Shape as H),
  blocks: entry.blocks ?? ([] as readonly string[] as K),
  topLevel: entry.topLevel ?? (false as T),
  facts: Object.fromEntries(
    Object.entries(entry.facts).map(([field, each]) => [
      field,
      each.word === OF_FIELD ? { ...each, word: field } : each,
    ]),
  ) as Facts as F,
});

type Facts = Readonly<Record<string, FactSchema>>;

/**
 * A record with a field for each fact of a schema, empty. The engine gives every object that grows field by field a description of its
 * own, which takes more time and memory than what stands in it; copies of one share it.
 */
export const perFact = <T>(facts: Facts): Record<string, readonly T[]> => ({ ...emptyOf(facts) });

const emptyOf = onceFor((facts: Facts) => ({
  ...Object.fromEntries(Object.keys(facts).map((field): [string, readonly never[]] => [field, []])),
}));

/** Fields of which a fact stands instead, or which stand instead of it: of these, one is stated. Asked for with every line. */
export const alternativesOf = (facts: Facts, field: string): readonly string[] => alternatives(facts).get(field) ?? [];

const alternatives = onceFor(
  (facts: Facts) => new Map(Object.keys(facts).map((each) => [each, alternativesTo(each, facts)])),
);

function alternativesTo(field: string, facts: Facts): readonly string[] {
  const fact = facts[field];
  return Object.entries(facts).flatMap(([name, other]) =>
    (other.word !== undefined && fact?.insteadOf?.includes(other.word)) ||
    (fact?.word !== undefined && other.insteadOf?.includes(fact.word))
      ? [name]
      : [],
  );
}

/** A fact that matched: its captures and the line that it stands on. */
export interface MatchedFact<T> {
  readonly value: T;
  readonly span: Span;
  readonly wordSpan: Span;
}

/** The facts of a block, by field: every matched line in order. A line that did not match is absent (its problem is told). */
export type FactsOf<B extends BlockSchema> = {
  readonly [K in keyof B['facts']]: readonly MatchedFact<Captured<B['facts'][K]['shape']>>[];
};
