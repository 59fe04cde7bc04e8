/** Finding the hookup line that a person would change. */
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Joint } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';

/** The joint where this coil meets the rest of the path: its link, else the hot line, else the hookup itself. */
export function jointOfCoil({ windings, nets, pickup }: PickupNetlist, coil: Coil): Joint | undefined {
  const winding = windings.find((each) => each.coil === coil);
  const joints = [winding?.start, winding?.finish].flatMap((net) =>
    net === undefined ? [] : (nets[net]?.joints ?? []),
  );
  const byKind = (kind: Joint['kind']) => joints.find((joint) => joint.kind === kind);
  return (
    byKind('link') ?? byKind('hot') ?? byKind('ground') ?? pickup.hookup?.joints.find(({ kind }) => kind === 'link')
  );
}

export const placeOfCoilInHookup = (netlist: PickupNetlist, coil: Coil): Place =>
  jointOfCoil(netlist, coil)?.place ?? netlist.pickup.hookup?.place ?? netlist.pickup.place;
