/** The order in which the path from ground to hot runs through the coils, and where it enters each. */
import { type CoilSigns, sounds } from '../../estimates/signs.ts';
import type { Coil, CoilEnd } from '../../model/coil.ts';
import type { PickupNetlist } from '../../model/netlist.ts';

export interface CoilOnPath {
  readonly coil: Coil;
  /** `undefined`: the coil carries nothing, or nothing leads from ground to hot. */
  readonly entered: CoilEnd | undefined;
  /** Which end lies nearer to ground, whether or not a path runs through. */
  readonly nearGround: CoilEnd | undefined;
}

/** From ground to hot; coils side by side in the order they are declared, those that neither end reaches last. */
export function coilPath({ windings, hot, ground }: PickupNetlist, signs: readonly CoilSigns[]): readonly CoilOnPath[] {
  const fromGround = coilsAway(windings, ground);
  const fromHot = coilsAway(windings, hot);
  const order = (net: number | undefined): number => {
    if (net === undefined) return UNREACHED;
    const away = fromGround.get(net);
    if (away !== undefined) return away;
    const back = fromHot.get(net);
    return back === undefined ? UNREACHED : FROM_HOT - back;
  };
  const placed = windings.map(({ coil, start, finish }, index) => {
    const [startOrder, finishOrder] = [order(start), order(finish)];
    const own = signs.find((each) => each.coil === coil);
    const entered = own !== undefined && sounds(own) ? ((own.transfer ?? 0) > 0 ? 'start' : 'finish') : undefined;
    const nearGround = startOrder === finishOrder ? undefined : startOrder < finishOrder ? 'start' : 'finish';
    return { coil, entered, nearGround, key: Math.min(startOrder, finishOrder), index } as const;
  });
  return [...placed]
    .sort((a, b) => a.key - b.key || a.index - b.index)
    .map(({ coil, entered, nearGround }) => ({ coil, entered, nearGround }));
}

/** Nets that only hot reaches come after all that ground reaches; what neither reaches lies between. */
const UNREACHED = 1e6;
const FROM_HOT = 2e6;

/** How many coils lie between a net and each other net. */
function coilsAway(windings: PickupNetlist['windings'], from: number | undefined): ReadonlyMap<number, number> {
  const away = new Map<number, number>(from === undefined ? [] : [[from, 0]]);
  const queue = from === undefined ? [] : [from];
  for (let net = queue.shift(); net !== undefined; net = queue.shift()) {
    for (const { start, finish } of windings) {
      const next = start === net ? finish : finish === net ? start : undefined;
      if (next === undefined || away.has(next)) continue;
      away.set(next, (away.get(net) ?? 0) + 1);
      queue.push(next);
    }
  }
  return away;
}
