/**
 * Which readings are of a pickup's coils as they are now. A coil that was kept is the one that was found, and all that was read of it
 * then holds; what was read of one that came out is its own. Where nobody says which, and turns are stated, the reading as found
 * decides: if it agrees with them it counts, if not it is in doubt, and nothing is computed from it.
 */

import { type Bench, benchMeter } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { blocksOfLife, type DatedBlock, keptOrNew, statesOf } from '../model/life.ts';
import { joinedNetlist, looseNetlist, type PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Readings } from '../model/readings.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { coilPath } from './causes.ts';
import {
  coilOfReading,
  isResistance,
  type ResistanceLine,
  readingTemperature,
  resistanceAt20C,
} from './coil-reading.ts';
import { type CoilReading, estimateWinding } from './coil-winding.ts';
import { atTemperature, toleranceOhm } from './reading-limits.ts';
import { because } from './reasons.ts';

/** A line that reads one coil by itself. */
export interface CoilRead {
  readonly dated: DatedBlock;
  readonly line: ResistanceLine;
}

/** A reading as found that the stated turns are not known to give, of a coil of which nobody says whether it was kept. */
export interface WhoseCoil {
  readonly coil: Coil;
  readonly read: CoilRead;
  /** What the turns compute to, at the temperature of the reading; `undefined` where wire or bobbin are not known. */
  readonly expected: Estimate | undefined;
}

export interface PickupLife {
  /** Oldest first. */
  readonly blocks: readonly DatedBlock[];
  /** Where the block stands among them; before all of them where it does not. */
  orderOf(block: Readings): number;
  /** The pickup and what it reworks, the newest first. */
  readonly states: readonly PickupNetlist[];
  /** Readings of each coil as it is now, oldest first. */
  readonly reads: ReadonlyMap<Coil, readonly CoilRead[]>;
  readonly doubts: readonly WhoseCoil[];
  /** True where a coil of that name, of so many works ago, outlasted the work that came then. */
  outlasted(name: string, worksAgo: number): boolean;
}

export function pickupLife(netlist: PickupNetlist, bench: Bench | undefined): PickupLife {
  const { pickup } = netlist;
  const blocks = blocksOfLife(pickup);
  const orders = new Map(blocks.map(({ block }, index) => [block, index]));
  const states = statesOf(pickup).map((state) => (state === pickup ? netlist : joinedNetlist(state)));
  const netlistOf = new Map(states.map((each) => [each.pickup, each]));
  const all = blocks.flatMap((dated) => readsIn(dated, netlistOf.get(dated.state) ?? netlist));
  const oldest = blocks[0]?.worksAgo ?? 0;
  const doubts: WhoseCoil[] = [];
  const kept = new Set<string>();
  for (const [worksAgo, state] of states.entries())
    for (const coil of state.pickup.coils) {
      const last = all.findLast(({ name, read }) => name === coil.name && read.dated.worksAgo === worksAgo + 1)?.read;
      const verdict = wasKept(coil, state.pickup, last, bench);
      if (verdict === true) kept.add(keyOf(coil.name, worksAgo + 1));
      else if (verdict && worksAgo === 0) doubts.push(verdict);
    }
  const outlasted = (name: string, worksAgo: number) => kept.has(keyOf(name, worksAgo));
  const isNow = (name: string, worksAgo: number) => {
    for (let ago = worksAgo; ago > 0; ago--) if (!outlasted(name, ago)) return false;
    return worksAgo <= oldest;
  };
  return {
    blocks,
    orderOf: (block) => orders.get(block) ?? -1,
    states,
    doubts,
    outlasted,
    reads: new Map(
      pickup.coils.map((coil) => [
        coil,
        all.flatMap(({ name, read }) => (name === coil.name && isNow(name, read.dated.worksAgo) ? [read] : [])),
      ]),
    ),
  };
}

const keyOf = (name: string, worksAgo: number) => `${worksAgo} ${name}`;

/** True where the readings of that block are of the coil as it is now. */
export function countsNow(life: PickupLife, name: string, { worksAgo }: DatedBlock): boolean {
  for (let ago = worksAgo; ago > 0; ago--) if (!life.outlasted(name, ago)) return false;
  return true;
}

function readsIn(
  dated: DatedBlock,
  netlist: PickupNetlist,
): readonly { readonly name: string; readonly read: CoilRead }[] {
  const { block, state } = dated;
  return block.lines.flatMap((line) => {
    if (!isResistance(line) || line.value === 'open' || !(line.value.si > 0)) return [];
    const coil = coilOfReading(line, block, netlist, looseNetlist(state));
    return coil ? [{ name: coil.name, read: { dated, line } }] : [];
  });
}

/** Whether the coil outlasted the work on this state; where that is in doubt, the reading that is. */
function wasKept(
  coil: Coil,
  pickup: Pickup,
  read: CoilRead | undefined,
  bench: Bench | undefined,
): boolean | WhoseCoil {
  const said = keptOrNew(coil);
  if (said !== 'not said') return said === 'kept';
  if (!read || read.line.value === 'open') return false;
  const computed = estimateWinding(coil, undefined, coilPath(pickup, coil)).computed20COhm;
  if (!computed) return { coil, read, expected: undefined };
  const { line, dated } = read;
  const expected = atTemperature(computed, readingTemperature(line.atC, dated.block, bench));
  const agrees =
    Math.abs(read.line.value.si - expected.value) <= toleranceOhm(read.line.value, expected, benchMeter(bench));
  return agrees ? true : { coil, read, expected };
}

/** The newest reading of the coil up to that block; up to now where no block is named. */
export function newestUpTo(life: PickupLife, coil: Coil, block: Readings | undefined): CoilRead | undefined {
  const at = block ? life.orderOf(block) : life.blocks.length;
  return life.reads.get(coil)?.findLast(({ dated }) => life.orderOf(dated.block) <= at);
}

/** The coil as it was known when that block was read: by its newest reading up to then, never by a later one. */
export function readingUpTo(
  life: PickupLife,
  coil: Coil,
  block: Readings | undefined,
  bench: Bench | undefined,
): CoilReading | undefined {
  const newest = newestUpTo(life, coil, block);
  if (!newest || newest.line.value === 'open') return undefined;
  const { line, dated } = newest;
  return {
    at20COhm: resistanceAt20C(newest.line.value, readingTemperature(line.atC, dated.block, bench), benchMeter(bench)),
    words: because('its reading of {0}', newest.line.value.written),
  };
}
