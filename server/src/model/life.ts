/** The states of one pickup, the newest first, and what is said of how each came from the one before it. */
import type { Coil, MagnetWork } from './coil.ts';
import type { Pickup } from './pickup.ts';
import type { Readings } from './readings.ts';

/** Readings of one time, and how many works lie between then and now: none for those of the pickup as it is. */
export interface DatedBlock {
  readonly block: Readings;
  /** The pickup in whose text they stand; `hot` and `ground` mean its hookup. */
  readonly state: Pickup;
  readonly worksAgo: number;
}

/** The pickup and what it reworks, the newest first. */
export function statesOf(pickup: Pickup): readonly Pickup[] {
  const states: Pickup[] = [];
  for (let state: Pickup | undefined = pickup; state; state = state.reworks) states.push(state);
  return states;
}

/**
 * Everything that was ever read of the pickup, the oldest first: those as found are of the state before. Within one state the date
 * decides; a block without one belongs to the day of the block above it.
 */
export function blocksOfLife(pickup: Pickup): readonly DatedBlock[] {
  return statesOf(pickup)
    .flatMap((state, index) => {
      const days = daysOf(state.readings);
      return state.readings.map((block) => ({
        block,
        state,
        worksAgo: index + (block.found ? 1 : 0),
        day: days.get(block) ?? '',
      }));
    })
    .sort((a, b) => b.worksAgo - a.worksAgo || Number(a.block.found) - Number(b.block.found) || byDay(a, b));
}

const byDay = (a: { readonly day: string }, b: { readonly day: string }) =>
  a.day < b.day ? -1 : a.day > b.day ? 1 : 0;

function daysOf(blocks: readonly Readings[]): ReadonlyMap<Readings, string> {
  let day = '';
  return new Map(
    blocks.map((block) => {
      day = block.date ?? day;
      return [block, day];
    }),
  );
}

/** Whether the coil is the one that was found, as far as words tell; a coil of which nobody says how it was wound was not wound here. */
export function keptOrNew({ work, turns, counted, spool }: Coil): 'kept' | 'new' | 'not said' {
  if (work) return work.value;
  return turns || counted || spool ? 'not said' : 'kept';
}

/**
 * What the work did to the magnet that gives a coil its poles; `undefined`: not said. A pickup that reworks another and says nothing of
 * any magnet has taken over that one, whatever it is.
 */
export function magnetWorkAt(coil: Coil, { coils, barMagnet, reworks }: Pickup): MagnetWork | undefined {
  const carrier = (coil.below && coils.find(({ name }) => name === coil.below?.value)) ?? coil;
  if (carrier.polarity) return carrier.rods;
  if (barMagnet) return barMagnet.value.work;
  return reworks && 'kept';
}
