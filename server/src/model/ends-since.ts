import type { Sign } from './coil.ts';
import { isLeadNode, looseNetlist, type PickupNetlist } from './netlist.ts';

/**
 * Whether start and finish of a coil meant the same ends in a state of before as in a later one that it outlasted to: +1, or -1 where they
 * meant each other's. Ends that nobody had traced then are called by the probes of a kick, and by what is stated once they are known.
 * `undefined` where the coil has other leads since.
 */
export function endsSince(name: string, then: PickupNetlist, now: PickupNetlist): Sign | undefined {
  const [before, after] = [then, now].map((each) => leadsOf(name, each));
  if (!before || !after || then === now || endsOf(name, then) === 'stated' || endsOf(name, now) !== 'stated') return 1;
  const share = (some: readonly string[], others: readonly string[]) => some.some((lead) => others.includes(lead));
  if (share(before.start, after.start) || share(before.finish, after.finish)) return 1;
  return share(before.start, after.finish) || share(before.finish, after.start) ? -1 : undefined;
}

const endsOf = (name: string, { windings }: PickupNetlist) => windings.find(({ coil }) => coil.name === name)?.ends;

/** Leads at each end before any joint is made. */
function leadsOf(name: string, { pickup }: PickupNetlist) {
  const { windings, nets } = looseNetlist(pickup);
  const winding = windings.find(({ coil }) => coil.name === name);
  const at = (net: number | undefined) => (net === undefined ? [] : (nets[net]?.nodes ?? []).filter(isLeadNode));
  return winding && { start: at(winding.start), finish: at(winding.finish) };
}
