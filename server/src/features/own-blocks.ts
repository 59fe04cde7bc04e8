import type { BlockNode, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import type { Coil } from '../model/coil.ts';
import { blocksOf, nameItem } from './syntax-at.ts';

/** A pickup with the block of this file that writes it. */
export interface OwnPickup {
  readonly analysed: PickupAnalysis;
  readonly placed: PlacedChunk;
  readonly block: BlockNode;
  /** Coils that this block itself writes; those taken over by `like` alone have their block elsewhere. */
  readonly coils: readonly { readonly coil: Coil; readonly block: BlockNode }[];
}

/** The pickups that this file itself writes: asked for several times in a hover. */
export const ownPickups = onceFor((analysis: Analysis): readonly OwnPickup[] => {
  const placedOf = new Map(analysis.tree.chunks.map((placed) => [placed.chunk, placed]));
  return analysis.pickups.flatMap((analysed): readonly OwnPickup[] => {
    const placed = placedOf.get(analysed.pickup.place.chunk);
    const block = placed?.chunk.content;
    if (placed === undefined || block?.kind !== 'block') return [];
    const coils = blocksOf(placed.chunk).flatMap(({ block: inner, parents }) => {
      if (inner.keyword.text !== 'coil' || parents.length !== 1) return [];
      const name = nameItem(inner).text;
      const coil = analysed.pickup.coils.find((candidate) => candidate.name === name);
      return coil ? [{ coil, block: inner }] : [];
    });
    return [{ analysed, placed, block, coils }];
  });
});
