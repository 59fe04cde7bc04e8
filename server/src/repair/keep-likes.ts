/**
 * `like` hands lines on. Where a pickup is changed that another one is like, the other pickup was not worked on: what it would take
 * over with the change is stated in its own block as it was.
 */
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Edit } from '../checks/finding.ts';
import { leavesRecord } from '../checks/later-state.ts';
import { changedFacts, editedChunk, pickupBlock, stateAnew } from '../checks/own-edits.ts';
import { type AnyBlock, sameBlock } from '../model/merged-block.ts';
import type { Pickup } from '../model/pickup.ts';

/** A pickup and what the plan writes for it; nothing where nothing is done to it. */
export interface Worked {
  readonly pickup: Pickup;
  readonly edits: readonly Edit[];
}

/** `undefined` where it cannot be written beside what the plan writes into the other pickup's own block. */
export function keepLikes(changed: Worked, other: Worked): readonly Edit[] | undefined {
  const lender = changed.pickup.place.chunk;
  const own = other.pickup.place.chunk;
  const here = pickupBlock(own);
  const worked = pickupBlock(editedChunk(own, other.edits));
  if (lender === own || !here || !worked || !isFrom(other.pickup.written, lender)) return [];
  // What is like a pickup that stands as a record already stays like the record.
  if (leavesRecord(changed.pickup, changed.edits)) return [];
  const within = (outer: AnyBlock, at: AnyBlock) => (at.keyword === outer.keyword ? outer : sameBlock(outer, at));
  const taken = (changedFacts(lender, changed.edits) ?? []).filter(({ at, field, before }) => {
    const lines = within(other.pickup.written, at)?.facts[field] ?? [];
    const stated = (within(worked, at)?.facts[field] ?? []).length > 0;
    return !stated && (before.length > 0 ? lines.some(({ place }) => place.chunk === lender) : lines.length === 0);
  });
  // A kind of line that came new would be taken over, and nothing takes it away again.
  if (taken.some(({ before }) => before.length === 0)) return undefined;
  // The plan makes the same block for the other pickup, and two of a name are one too many.
  if (taken.some(({ at }) => within(worked, at) && !within(here, at))) return undefined;
  return stateAnew(
    here,
    taken.map(({ at, before }) => ({ at, lines: before })),
  );
}

/** True of a block that took over lines, or whole blocks, from a piece of text. */
const isFrom = ({ facts, blocks, place }: AnyBlock, chunk: Chunk): boolean =>
  place.chunk === chunk ||
  blocks.some((inner) => isFrom(inner, chunk)) ||
  Object.values(facts).some((lines) => lines.some((line) => line.place.chunk === chunk));
