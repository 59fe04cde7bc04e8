/**
 * Reads lines that matched into what the model holds: quantities in SI, words, counts, names and paths with their places. The types
 * follow from the schema, so a new fact is in the model with its entry; what the trade makes of it stands in the readers of blocks.
 */

import { lineMeaning } from '../../../grammar/src/line-meaning.ts';
import { type FactSchema, perFact } from '../../../grammar/src/schema/block-schema.ts';
import type { At, SelectionNode, Shape, WrittenPath } from '../../../grammar/src/schema/shape.ts';
import { joinSpans, type Span } from '../../../grammar/src/span.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { type Part, partsOf } from '../../../grammar/src/walk-shape.ts';
import { type Quantity, quantityOf, type WrittenQuantity } from '../../../grammar/values/quantity.ts';
import type { LeadPath } from './lead.ts';
import type { Place, Stated } from './place.ts';

/**
 * What a shape reads into. A keyword or a comma beside other things says nothing more; a sequence that holds one thing besides
 * them is that thing; of several options it is what the one written reads into; what stands in a list in several parts has its place.
 */
export type Read<S extends Shape> = S extends { kind: 'word'; words: infer W extends readonly string[] }
  ? W[number]
  : S extends { kind: 'alias'; of: infer A extends Readonly<Record<string, string>> }
    ? A[keyof A]
    : S extends { kind: 'keyword'; word: infer T }
      ? T
      : S extends { kind: 'quantity' | 'number' | 'percent' } | { kind: 'count'; unit: 'turns' }
        ? Quantity
        : S extends { kind: 'code' | 'name' } | { kind: 'count'; key: true } | { kind: 'string'; file: true }
          ? Stated<string>
          : S extends { kind: 'count' }
            ? number
            : S extends { kind: 'size'; parts: infer P extends readonly string[] }
              ? { readonly [K in P[number]]: Quantity }
              : S extends { kind: 'date' | 'string' | 'label' }
                ? string
                : S extends { kind: 'path' }
                  ? LeadPath
                  : S extends { kind: 'selection' }
                    ? SelectionNode
                    : S extends { kind: 'sequence'; fields: infer F extends Readonly<Record<string, Shape>> }
                      ? OneOrAll<{ readonly [K in keyof F as F[K] extends Joining ? never : K]: Read<F[K]> }>
                      : S extends { kind: 'optional'; shape: infer I extends Shape }
                        ? Read<I> | undefined
                        : S extends { kind: 'many'; shape: infer I extends Shape }
                          ? readonly (I extends { kind: 'sequence' } ? Stated<Read<I>> : Read<I>)[]
                          : S extends { kind: 'one-of'; options: infer O extends Readonly<Record<string, Shape>> }
                            ? { [K in keyof O]: Read<O[K]> }[keyof O]
                            : never;

type Joining = { kind: 'keyword' | 'comma' } | { kind: 'optional'; shape: { kind: 'comma' } };
type OneOrAll<T> = IsUnion<keyof T> extends true ? T : T[keyof T];
type IsUnion<K, A = K> = K extends unknown ? ([A] extends [K] ? false : true) : never;

type Facts = Readonly<Record<string, FactSchema>>;

/** The facts of a block as the model holds them, each at its line; a fact that may stand once is `undefined` where it does not. */
export type FactsRead<F extends Facts> = { readonly [K in keyof F]: FactRead<F[K]> };

export type FactRead<F extends FactSchema> =
  F extends FactSchema<infer S, infer R>
    ? R extends true
      ? readonly Stated<Read<S>>[]
      : Stated<Read<S>> | undefined
    : never;

/** The facts that the model holds as they read; of those in `Taken` the trade makes something else. */
export type Plain<B extends { readonly facts: Facts }, Taken extends keyof B['facts'] = never> = Omit<
  FactsRead<B['facts']>,
  Taken | 'accept'
>;

/** Any facts whose values nobody has typed yet, by field. */
interface Lines {
  readonly schema: { readonly facts: Facts };
  readonly facts: Readonly<Record<string, readonly { readonly value: unknown; readonly place: Place }[]>>;
}

export function readFacts(block: Lines): Readonly<Record<string, unknown>> {
  const read: Record<string, unknown> = perFact(block.schema.facts);
  for (const field in block.schema.facts) {
    const stated = readFact(block, field);
    read[field] = block.schema.facts[field]?.repeats ? stated : stated.at(-1);
  }
  return read;
}

/** The lines of one fact. */
export const readFact = ({ facts, schema }: Lines, field: string): readonly Stated<unknown>[] =>
  !facts[field]?.length
    ? NOTHING
    : facts[field].flatMap(({ value, place }) => {
        const shape = schema.facts[field]?.shape;
        const read = shape && readLine(shape, value, place.chunk);
        return read ? [{ value: read.value, place }] : [];
      });

const NOTHING: readonly never[] = [];

/** What one line reads into; `undefined` where a number in it has no value in SI (the matcher has told why). */
export function readLine(shape: Shape, captured: unknown, chunk: Chunk): { readonly value: unknown } | undefined {
  let isWhole = true;
  const si = ({ value }: At<WrittenQuantity>): Quantity | undefined => {
    const result = quantityOf(value);
    if (!result.ok) isWhole = false;
    return result.ok ? result.quantity : undefined;
  };
  const placed = <T>({ value, span }: At<T>): Stated<T> => ({ value, place: { chunk, span } });
  const read = (part: Part): unknown => {
    switch (part.shape.kind) {
      case 'keyword':
        return part.shape.word;
      case 'alias':
        return lineMeaning(part.shape, part.captured)[0];
      case 'quantity':
      case 'percent':
        return si(part.captured as At<WrittenQuantity>);
      case 'number':
        return bareNumber((part.captured as At<WrittenQuantity>).value);
      case 'count': {
        const count = part.captured as At<WrittenQuantity>;
        if (part.shape.key) return placed({ value: String(count.value.value), span: count.span });
        return part.shape.unit === undefined ? count.value.value : si(count);
      }
      case 'size': {
        const sides = part.captured as Readonly<Record<string, At<WrittenQuantity>>>;
        return Object.fromEntries(Object.entries(sides).map(([side, written]) => [side, si(written)]));
      }
      case 'string': {
        const text = part.captured as At<string>;
        return part.shape.file ? placed(text) : text.value;
      }
      case 'code':
      case 'name':
        return placed(part.captured as At<string>);
      case 'path':
        return pathOf(part.captured as At<WrittenPath>, chunk);
      case 'optional':
      case 'one-of':
        return partsOf(part).map(read)[0];
      case 'many':
        return partsOf(part).map((each) =>
          each.shape.kind === 'sequence' ? placed({ value: read(each), span: spanOfPart(each) }) : read(each),
        );
      case 'sequence': {
        const said = partsOf(part).filter((each) => !isJoining(each.shape));
        const [only] = said;
        if (said.length === 1 && only) return read(only);
        return Object.fromEntries(said.map((each) => [each.field, read(each)]));
      }
      default:
        return (part.captured as At<unknown>).value;
    }
  };
  const value = read({ shape, captured });
  return isWhole ? { value } : undefined;
}

/** From the first to the last of what its parts took. */
function spanOfPart(part: Part): Span {
  const spans = spansIn(part);
  return joinSpans(spans[0] ?? NOWHERE, spans.at(-1) ?? NOWHERE);
}

const NOWHERE: Span = { start: 0, end: 0 };

function spansIn(part: Part): readonly Span[] {
  const { shape, captured } = part;
  if (shape.kind === 'size')
    return Object.values(captured as Readonly<Record<string, At<unknown>>>).map(({ span }) => span);
  const inner = partsOf(part);
  if (inner.length > 0) return inner.flatMap(spansIn);
  return shape.kind === 'optional' ? [] : [(captured as At<unknown>).span];
}

const isJoining = (shape: Shape): boolean =>
  shape.kind === 'keyword' || shape.kind === 'comma' || (shape.kind === 'optional' && shape.shape.kind === 'comma');

/** A number without a unit, such as a packing: its value as it stands. */
const bareNumber = ({ value, text, uncertainty }: WrittenQuantity): Quantity => ({
  dimension: 'percentage',
  si: value,
  written: text,
  ...(uncertainty && uncertainty.unit === undefined ? { sd: uncertainty.value } : {}),
});

export const pathOf = ({ value, span }: At<WrittenPath>, chunk: Chunk): LeadPath => ({
  parts: value.parts.map((part) => part.value),
  text: value.text,
  place: { chunk, span },
});
