/** The joints of a wiring one by one, in the order in which one solders them. */
import type { Instrument } from '../model/instrument.ts';
import { GROUND, HOT, type Rig } from '../physics/switching/rig.ts';

interface SolderedJoint {
  readonly from: string;
  readonly to: string;
}

export const lugOf =
  ({ switches }: Instrument) =>
  (terminal: string): boolean =>
    switches.some(({ name }) => terminal.startsWith(`${name}.`));

/** Jumpers first, then what is common, leads, and grounds last: each joint in one line. */
export function solderingOrder({ links }: Rig, instrument: Instrument): readonly SolderedJoint[] {
  const isLug = lugOf(instrument);
  const joints = links.flatMap((net) => {
    const lugs = net.filter(isLug);
    const [first] = lugs.length > 0 ? lugs : net;
    const isGround = net.includes(GROUND);
    const jumpers = lugs.slice(1).map((lug, index) => ({ rank: 0, from: lugs[index] ?? '', to: lug }));
    const ends = net.filter((end) => !isLug(end) && end !== first);
    const others = ends.map((end) => ({
      rank: end === HOT ? 1 : isGround ? 3 : 2,
      from: end,
      to: isGround && end !== GROUND ? GROUND : (first ?? ''),
    }));
    return [...jumpers, ...others];
  });
  return [...joints].sort((a, b) => a.rank - b.rank);
}
