/** Findings that a block keeps as information. */
import type { accept } from '../../../grammar/src/schema/common.ts';
import type { AnyBlock } from './merged-block.ts';
import type { Place } from './place.ts';
import { type FactRead, readFact } from './reading.ts';

type Lines = FactRead<typeof accept>;

export type Acceptance = Lines[number]['value'] & {
  readonly place: Place;
  /** The block that it stands in: it covers that block and what is in it. */
  readonly scope: Place;
};

/** What a block accepts, and what the blocks in it accept. */
export function acceptancesIn(block: AnyBlock): readonly Acceptance[] {
  const lines = readFact(block, 'accept') as Lines;
  const own = lines
    .filter(({ place }) => !isOpen(place))
    .map(({ value, place }): Acceptance => ({ ...value, place, scope: block.extent }));
  return [...own, ...block.blocks.flatMap(acceptancesIn)];
}

/** The gap that stands for a reason (`…`, or a text of it) is still to be filled in: nothing is accepted before. */
const isOpen = ({ chunk, span }: Place): boolean => /…"?$/.test(chunk.text.slice(span.start, span.end));
