/** A value as it is written, in the other units of its dimension. */
import type { At } from '../../../grammar/src/schema/shape.ts';
import type { Span } from '../../../grammar/src/span.ts';
import { type Part, partsOf } from '../../../grammar/src/walk-shape.ts';
import { quantityOf, type WrittenQuantity } from '../../../grammar/values/quantity.ts';
import { UNITS, unitOf } from '../../../grammar/values/unit-table.ts';
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
    const size = Math.abs((value - unit.offset) / unit.factor);
    if (dimension !== 'temperature' && (size < SMALLEST || size >= LARGEST)) return [];
    return [
      printQuantity({ value, dimension, unit: unit.symbol, digits: DIGITS, ...(sd === undefined ? {} : { sd }) }),
    ];
  });
}

/** Beyond these nobody would write the number so. */
const SMALLEST = 0.01;
const LARGEST = 1e6;
const DIGITS = 4;

/** The value that the item is part of, by the shape of its line. */
function valueAt({ placed, blocks, fact, item }: SyntaxAt): WrittenQuantity | undefined {
  const block = blocks.at(-1);
  if (!block || !fact || !item) return undefined;
  const { schema, facts } = blockOf(block, placed.chunk);
  for (const [field, lines] of Object.entries(facts)) {
    const line = lines.find(({ line: { span } }) => span.start === fact.span.start);
    const shape = schema.facts[field]?.shape;
    const quantities = line && shape ? quantitiesIn({ shape, captured: line.value }) : [];
    const here = quantities.find(({ span }) => holds(span, item.span));
    if (here) return here.value;
  }
  return undefined;
}

const holds = (a: Span, b: Span): boolean => a.start <= b.start && b.end <= a.end;

function quantitiesIn(part: Part): readonly At<WrittenQuantity>[] {
  const { shape, captured } = part;
  if (shape.kind === 'quantity') return [captured as At<WrittenQuantity>];
  if (shape.kind === 'size') return Object.values(captured as Readonly<Record<string, At<WrittenQuantity>>>);
  return partsOf(part).flatMap(quantitiesIn);
}
