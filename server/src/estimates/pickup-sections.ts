/** A pickup's coils as sections between the points of its own nets, and what its bare name stands for: all of it, as its hookup joins it. */
import { onceFor } from '../../../grammar/values/remember.ts';
import { looseNetlist } from '../model/netlist.ts';
import type { Joint, Pickup } from '../model/pickup.ts';
import type { Folded } from '../physics/switching/folded.ts';
import { meaningIn, numberedRig } from '../physics/switching/meaning.ts';
import { GROUND, HOT, type Nets, type RigElement } from '../physics/switching/rig.ts';
import { segmentsOf } from './pickup-circuit.ts';

export interface PickupSections {
  /** Coils, and the parts of tapped ones, between points; the end first that the hookup has toward hot. */
  readonly sections: readonly (RigElement & { readonly coil: string })[];
  /** `undefined` where the hookup gives no sound, or none that is series and parallel. */
  readonly whole: Folded | undefined;
  /** What is heard where the pickup is taken at a lead instead of hot. */
  takenAt(lead: string): Folded | undefined;
}

/** A net of the loose pickup. */
export const pointName = (net: number): string => `/${net}`;

export const pickupSections = onceFor((pickup: Pickup): PickupSections => {
  const netlist = looseNetlist(pickup);
  const found = segmentsOf(netlist, pointName).map(
    ({ source, coil, start, finish }) =>
      ({ name: source, coil: coil.name, isCoil: true, ends: [finish, start] as const }) as const,
  );
  const points = (joint: Joint) =>
    joint.leads.flatMap((path) => {
      const net = netlist.netAt(path);
      return net === undefined ? [] : [pointName(net)];
    });
  const joints = pickup.hookup?.joints ?? [];
  const nets = (at: readonly string[] | undefined): Nets =>
    joints.flatMap((joint): Nets => {
      const leads = points(joint);
      if (joint.kind === 'hot') return at ? [leads] : [[HOT, ...leads]];
      if (joint.kind === 'ground') return [[GROUND, ...leads]];
      return joint.kind === 'link' ? [leads] : [];
    });
  const heard = (elements: readonly RigElement[], at?: readonly string[]): Folded | undefined => {
    const links = at ? [[HOT, ...at], ...nets(at)] : nets(undefined);
    return meaningIn(numberedRig({ switches: [], elements, fixed: [], links }), []).network;
  };
  const turnedNames = new Set(turnedIn(heard(found)));
  const sections = found.map((each) => {
    const [high, low] = each.ends;
    return turnedNames.has(each.name) ? { ...each, ends: [low, high] as const } : each;
  });
  return {
    sections,
    whole: heard(sections),
    takenAt: (lead) => {
      const net = netlist.netOf(netlist.leads.get(lead)?.node ?? '');
      return net === undefined ? undefined : heard(sections, [pointName(net)]);
    },
  };
});

const turnedIn = (folded: Folded | undefined): readonly string[] => {
  if (!folded) return [];
  if (folded.kind === 'element') return folded.turned ? [folded.name] : [];
  return folded.of.flatMap(turnedIn);
};
