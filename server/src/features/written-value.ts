/** A value as it is written, in the other units of its dimension. */
import type { At } from '../../../grammar/src/schema/shape.ts';
import { joinSpans, type Span } from '../../../grammar/src/span.ts';
import { type Part, partsOf } from '../../../grammar/src/walk-shape.ts';
import { quantityOf, type WrittenQuantity } from '../../../grammar/values/quantity.ts';
import { UNITS, type Unit, unitOf } from '../../../grammar/values/unit-table.ts';
import { blockOf } from '../model/merged-block.ts';
import { awgBareDiameterM } from '../physics/wire.ts';
import { printQuantity } from '../quantities/print.ts';
import type { RichText } from './rich-text.ts';
import type { SyntaxAt } from './syntax-at.ts';

/** Nothing where no value with a unit stands there, or none that has another unit. */
export function writtenValue(at: SyntaxAt): RichText {
  const written = valueAt(at);
  if (written === undefined) return [];
  const others = otherWays(written);
  return others.length === 0 ? [] : [{ kind: 'paragraph', text: [written.text, ...others].join(' = ') }];
}

function otherWays(written: WrittenQuantity): readonly string[] {
  const read = quantityOf(written);
  if (!read.ok) return [];
  const { si: value, sd, dimension } = read.quantity;
  if (dimension === 'gauge')
    return [
      `${printQuantity({ value: awgBareDiameterM(value), dimension: 'length', digits: 3 })} bare, nominal (ASTM B258)`,
    ];
  const own = written.unit === undefined || written.code ? undefined : unitOf(written.unit);
  return UNITS.flatMap((unit) => {
    if (unit.dimension !== dimension || unit === own) return [];
    if (!isUsual(value, unit)) return [];
    return [
      printQuantity({ value, dimension, unit: unit.symbol, digits: DIGITS, ...(sd === undefined ? {} : { sd }) }),
    ];
  });
}

/** Whether anybody would write the value, in SI, in this unit. */
export function isUsual(value: number, { dimension, factor, offset }: Unit): boolean {
  const size = Math.abs((value - offset) / factor);
  return dimension === 'temperature' || (size >= SMALLEST && size < LARGEST);
}

const SMALLEST = 0.01;
const LARGEST = 1e4;
const DIGITS = 4;

/** The value that the item is part of. */
function valueAt(at: SyntaxAt): WrittenQuantity | undefined {
  const { item } = at;
  return item && quantitiesAt(at).find(({ span }) => holds(span, item.span))?.value;
}

/** The value that the item is part of, by the shape of its line; of a size, all that is multiplied there. */
export function quantitiesAt({ placed, blocks, fact, item }: SyntaxAt): readonly At<WrittenQuantity>[] {
  const block = blocks.at(-1);
  if (!block || !fact || !item) return [];
  const { schema, facts } = blockOf(block, placed.chunk);
  for (const [field, lines] of Object.entries(facts)) {
    const line = lines.find(({ line: { span } }) => span.start === fact.span.start);
    const shape = schema.facts[field]?.shape;
    const values = line && shape ? valuesIn({ shape, captured: line.value }) : [];
    const here = values.find((parts) => {
      const whole = spanOfAll(parts);
      return whole && holds(whole, item.span);
    });
    if (here) return here;
  }
  return [];
}

/** From the first of them to the last. */
export const spanOfAll = (parts: readonly At<WrittenQuantity>[]): Span | undefined =>
  parts.map(({ span }) => span).reduce<Span | undefined>((all, span) => (all ? joinSpans(all, span) : span), undefined);

const holds = (a: Span, b: Span): boolean => a.start <= b.start && b.end <= a.end;

function valuesIn(part: Part): readonly (readonly At<WrittenQuantity>[])[] {
  const { shape, captured } = part;
  if (shape.kind === 'quantity') return [[captured as At<WrittenQuantity>]];
  if (shape.kind === 'size') return [Object.values(captured as Readonly<Record<string, At<WrittenQuantity>>>)];
  return partsOf(part).flatMap(valuesIn);
}
