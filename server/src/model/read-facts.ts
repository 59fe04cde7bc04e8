/** From captured facts to stated values: quantities in SI, names with their places. */
import type { At, WrittenPath } from '../../../grammar/src/schema/shape.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { type Quantity, quantityOf, type WrittenQuantity } from '../../../grammar/values/quantity.ts';
import type { LeadPath } from './lead.ts';
import type { PlacedFact } from './merged-block.ts';
import type { Place, Stated } from './place.ts';

/** The last stated line of a fact that stands once. */
export const only = <T>(lines: readonly PlacedFact<T>[]): PlacedFact<T> | undefined => lines.at(-1);

export const placeIn = (chunk: Chunk, { span }: { readonly span: Place['span'] }): Place => ({ chunk, span });

/** Its value in SI; `undefined` where the number has none (the matcher has told why). */
export function siOf(written: At<WrittenQuantity>): Quantity | undefined {
  const result = quantityOf(written.value);
  return result.ok ? result.quantity : undefined;
}

/** A fact that is one quantity. */
export function statedQuantity(line: PlacedFact<At<WrittenQuantity>> | undefined): Stated<Quantity> | undefined {
  const value = line && siOf(line.value);
  return line && value ? { value, place: line.place } : undefined;
}

/** A fact that is one word, name or text: its value, at its line. */
export function statedWord<T>(line: PlacedFact<At<T>> | undefined): Stated<T> | undefined {
  return line ? { value: line.value.value, place: line.place } : undefined;
}

/** The same, at the word itself. */
export function statedAtWord<T>(line: PlacedFact<At<T>> | undefined): Stated<T> | undefined {
  return line ? { value: line.value.value, place: placeIn(line.place.chunk, line.value) } : undefined;
}

export function pathOf(written: At<WrittenPath>, chunk: Chunk): LeadPath {
  return {
    parts: written.value.parts.map(({ value }) => value),
    text: written.value.text,
    place: { chunk, span: written.span },
  };
}
