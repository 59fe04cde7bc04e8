import type { BlockNode, Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Bench } from '../model/bench.ts';
import type { Bobbin } from '../model/bobbin.ts';
import type { Magnet } from '../model/magnet.ts';
import type { Place } from '../model/place.ts';
import type { Spool, Wire } from '../model/wire.ts';
import type { Analysis } from './analysis-types.ts';

/** What a shop keeps: the bench and what lies on the shelf. */
export type ShopThing =
  | { readonly kind: 'bench'; readonly thing: Bench }
  | { readonly kind: 'wire'; readonly thing: Wire }
  | { readonly kind: 'spool'; readonly thing: Spool }
  | { readonly kind: 'bobbin'; readonly thing: Bobbin }
  | { readonly kind: 'magnet'; readonly thing: Magnet };

/** One of them as this file itself writes it. */
export interface OwnPart {
  readonly of: ShopThing;
  readonly name: string;
  readonly place: Place;
  /** Its lines as written, what it is like first. */
  readonly lines: readonly string[];
}

/** In the order of the text. */
export function ownParts({ tree, model }: Analysis): readonly OwnPart[] {
  const things: readonly ShopThing[] = [
    ...model.benches.map((thing) => ({ kind: 'bench', thing }) as const),
    ...model.wires.map((thing) => ({ kind: 'wire', thing }) as const),
    ...model.spools.map((thing) => ({ kind: 'spool', thing }) as const),
    ...model.bobbins.map((thing) => ({ kind: 'bobbin', thing }) as const),
    ...model.magnets.map((thing) => ({ kind: 'magnet', thing }) as const),
  ];
  return tree.chunks.flatMap(({ chunk }): readonly OwnPart[] => {
    const of = things.find(({ thing }) => thing.place.chunk === chunk);
    if (of === undefined || chunk.content?.kind !== 'block') return [];
    const name = of.kind === 'bench' ? 'bench' : of.thing.name;
    return [{ of, name, place: of.thing.place, lines: linesOf(chunk, chunk.content) }];
  });
}

const linesOf = ({ text }: Chunk, { like, body }: BlockNode): readonly string[] =>
  [...(like ? [like] : []), ...body].map(({ span }) => text.slice(span.start, span.end).replace(/\s+/g, ' '));
