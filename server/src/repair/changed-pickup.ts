/** A pickup with changes made to it: a changed copy of the model, solved as any other pickup is. */

import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { pathsOfNet } from '../checks/edits.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import {
  COIL_ENDS,
  type Coil,
  type CoilEnd,
  type CoilLead,
  opposite,
  oppositeSign,
  poleOf,
  rotationOf,
  type Sign,
} from '../model/coil.ts';
import type { LeadPath } from '../model/lead.ts';
import { holdsCoilEnd, looseNetlist, type PickupNetlist, pickupNetlist } from '../model/netlist.ts';
import type { Joint, Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import { hasUnseenPoles } from '../words/pole-turning.ts';

/** What is done to one pickup, coils by name. */
export interface PickupChange {
  readonly leadsSwapped: readonly string[];
  readonly rewound: readonly string[];
  readonly rodsTurned: readonly string[];
  readonly barTurned: boolean;
  readonly shieldByItself: boolean;
  /** The coil end that the shield carries and that gets a lead of its own. */
  readonly offShield: { readonly coil: string; readonly end: CoilEnd } | undefined;
  readonly hotAndGroundSwapped: boolean;
}

export const NO_CHANGE: PickupChange = {
  leadsSwapped: [],
  rewound: [],
  rodsTurned: [],
  barTurned: false,
  shieldByItself: false,
  offShield: undefined,
  hotAndGroundSwapped: false,
};

/** The changed copy; `undefined` where the spec does not hold what the change needs. Signs are those before the change. */
export function changedPickup(pickup: Pickup, signs: readonly CoilSigns[], change: PickupChange): Pickup | undefined {
  const loose = looseNetlist(pickup);
  let changed: Pickup | undefined = withCoils(pickup, signs, change);
  for (const name of change.leadsSwapped) changed = changed && withLeadsSwapped(changed, pickup, name, loose);
  if (change.offShield) changed = changed && withoutShield(changed, change.offShield, loose);
  if (change.shieldByItself) changed = changed && withShieldByItself(changed);
  if (change.hotAndGroundSwapped) changed = changed && withHotAndGroundSwapped(changed, pickup, loose);
  return changed;
}

function withCoils(
  pickup: Pickup,
  signs: readonly CoilSigns[],
  { rewound, rodsTurned, barTurned }: PickupChange,
): Pickup | undefined {
  const turned = turnedCoils(pickup, rodsTurned, barTurned);
  const coils = pickup.coils.map((coil): Coil | undefined => {
    const known = signs.find((each) => each.coil === coil);
    const rewinds = rewound.includes(coil.name);
    const turns = turned.includes(coil.name);
    if (!rewinds && !turns) return coil;
    if (!rewinds && hasUnseenPoles(pickup)) return coil.below ? coil : withSeenPoles(coil, known?.pole?.sign);
    // A kick taken before holds no longer once poles or wind have changed: what it proved is stated.
    const wind = known?.wind && rotationOf(known.wind.sign);
    if (!wind) return undefined;
    const wound = rewinds ? opposite(wind) : wind;
    return {
      ...coil,
      ...((coil.wound ? rewinds : !coil.spindle)
        ? { wound: { value: wound, place: coil.wound?.place ?? coil.place } }
        : {}),
      ...(coil.spindle && rewinds
        ? {
            spindle: {
              ...coil.spindle,
              value: { ...coil.spindle.value, rotation: opposite(coil.spindle.value.rotation) },
            },
          }
        : {}),
      ...(turns && coil.polarity ? { polarity: { ...coil.polarity, value: opposite(coil.polarity.value) } } : {}),
    };
  });
  if (coils.some((coil) => coil === undefined)) return undefined;
  const bar = pickup.barMagnet;
  if (barTurned && !bar && !hasUnseenPoles(pickup)) return undefined;
  return {
    ...pickup,
    coils: coils.flatMap((coil) => coil ?? []),
    barMagnet: bar && barTurned ? { ...bar, value: { ...bar.value, pole: opposite(bar.value.pole) } } : bar,
  };
}

/** Of poles that only readings tell of, the turned ones are stated. */
const withSeenPoles = (coil: Coil, pole: Sign | undefined): Coil | undefined =>
  pole && { ...coil, polarity: { value: poleOf(oppositeSign(pole)), place: coil.place }, rods: 'turned' };

/** Coils whose poles come to lie the other way up: all over a bar, and the lower coil of a stack with the rods it shares. */
export function turnedCoils(pickup: Pickup, rodsTurned: readonly string[], barTurned: boolean): readonly string[] {
  const names = pickup.coils.filter(({ name, below }) => {
    const carrier = below && pickup.coils.some((each) => each.name === below.value) ? below.value : name;
    return rodsTurned.includes(carrier) !== barTurned;
  });
  return names.map(({ name }) => name);
}

/** How the two leads of a coil can change places. */
export type LeadSwap =
  | { readonly where: 'outside' | 'inner joint'; readonly start: LeadPath; readonly finish: LeadPath }
  | { readonly where: 'inside'; readonly start: LeadPath; readonly finish: LeadPath };

/** In the hookup, where it names both ends and nothing else hangs on them; else where they are soldered inside the pickup. */
export function leadSwap(pickup: Pickup, name: string, loose: PickupNetlist): LeadSwap | undefined {
  const winding = loose.windings.find(({ coil }) => coil.name === name);
  if (!winding) return undefined;
  const paths = [winding.start, winding.finish].map((net) => soleJointPath(pickup, loose, net));
  const [start, finish] = paths;
  if (start && finish)
    return { where: start.parts.length === 1 && finish.parts.length === 1 ? 'outside' : 'inner joint', start, finish };
  const [startTo, finishTo] = [winding.coil.start?.value.to?.value, winding.coil.finish?.value.to?.value];
  return startTo && finishTo && startTo.text !== finishTo.text
    ? { where: 'inside', start: startTo, finish: finishTo }
    : undefined;
}

/** The one place in the hookup that names a net with this coil's end alone, and no metal, on it. */
function soleJointPath(pickup: Pickup, loose: PickupNetlist, net: number | undefined): LeadPath | undefined {
  const nodes = net === undefined ? [] : (loose.nets[net]?.nodes ?? []);
  if (nodes.filter((node) => node.startsWith('coil:')).length !== 1) return undefined;
  if (nodes.some((node) => node.startsWith('part:'))) return undefined;
  const paths = pathsOfNet(pickup, loose, net);
  return paths.length === 1 ? paths[0] : undefined;
}

function withLeadsSwapped(changed: Pickup, original: Pickup, name: string, loose: PickupNetlist): Pickup | undefined {
  const swap = leadSwap(original, name, loose);
  if (!swap) return undefined;
  const { start, finish } = swap;
  if (swap.where !== 'inside')
    return withJoints(changed, (joint) => ({
      ...joint,
      leads: joint.leads.map((path) => (path.text === start.text ? finish : path.text === finish.text ? start : path)),
    }));
  return {
    ...changed,
    coils: changed.coils.map((coil) =>
      coil.name === name ? { ...coil, start: ledTo(coil.start, finish), finish: ledTo(coil.finish, start) } : coil,
    ),
  };
}

function ledTo(lead: Coil['start'], path: LeadPath): Coil['start'] {
  return lead?.value.to && { ...lead, value: { ...lead.value, to: { ...lead.value.to, value: path } } };
}

function withJoints(pickup: Pickup, change: (joint: Joint) => Joint): Pickup {
  const { hookup } = pickup;
  return hookup ? { ...pickup, hookup: { ...hookup, joints: hookup.joints.map(change) } } : pickup;
}

const isShield = ({ shield }: Pickup) => {
  const name = shield && canonicalLeadName(shield.value);
  return (path: LeadPath) => name !== undefined && canonicalLeadName(path.text) === name;
};

/** The shield leaves the joint that it shares with other leads. */
function withShieldByItself(pickup: Pickup): Pickup | undefined {
  const { hookup, shield } = pickup;
  const joint = sharedShieldJoint(pickup);
  if (!hookup || !shield || !joint) return undefined;
  const onShield = isShield(pickup);
  const shieldPath = joint.leads.find(onShield);
  const apart = withJoints(pickup, (each) =>
    each === joint ? { ...each, leads: each.leads.filter((path) => !onShield(path)) } : each,
  );
  return withShieldLine(apart, shieldPath ? [shieldPath] : []);
}

export function sharedShieldJoint(pickup: Pickup): Joint | undefined {
  const joints = pickup.hookup?.joints ?? [];
  if (joints.some(({ kind }) => kind === 'shield')) return undefined;
  return joints.find(({ kind, leads }) => kind !== 'free' && leads.length > 1 && leads.some(isShield(pickup)));
}

function withShieldLine(pickup: Pickup, leads: readonly LeadPath[]): Pickup {
  const { hookup } = pickup;
  if (!hookup) return pickup;
  const line: Joint = { kind: 'shield', leads, place: hookup.place };
  return { ...pickup, hookup: { ...hookup, joints: [...hookup.joints, line] } };
}

/** The one coil end that the shield carries. */
export function endOnShield(pickup: Pickup): PickupChange['offShield'] {
  const onShield = isShield(pickup);
  const ends = pickup.coils.flatMap((coil) =>
    COIL_ENDS.flatMap((end) => {
      const to = coil[end]?.value.to;
      return to && onShield(to.value) ? [{ coil: coil.name, end }] : [];
    }),
  );
  return ends.length === 1 ? ends[0] : undefined;
}

/** The name that the freed end's own lead leaves by. */
export function freedLeadName(pickup: Pickup, { coil: name, end }: NonNullable<PickupChange['offShield']>): string {
  const coil = pickup.coils.find((each) => each.name === name);
  const own = coil?.[end]?.value.own?.value;
  const taken = new Set(pickupNetlist(pickup).leads.keys());
  return own && !taken.has(canonicalLeadName(own)) ? own : `${name}-${end}`;
}

function withoutShield(
  pickup: Pickup,
  off: NonNullable<PickupChange['offShield']>,
  loose: PickupNetlist,
): Pickup | undefined {
  const { hookup } = pickup;
  const onShield = isShield(pickup);
  const shieldPath = hookup?.joints.flatMap(({ leads }) => leads).find(onShield);
  if (!hookup || !shieldPath || hookup.joints.some(({ kind }) => kind === 'shield')) return undefined;
  const name = freedLeadName(loose.pickup, off);
  const place: Place = shieldPath.place;
  const path: LeadPath = { parts: [name], text: name, place };
  const lead = (stated: Coil['start']): Coil['start'] => {
    const own: CoilLead['own'] = { value: name, place: stated?.place ?? place };
    return { value: { own, to: undefined }, place: stated?.place ?? place };
  };
  const freed: Pickup = {
    ...pickup,
    coils: pickup.coils.map((coil) => (coil.name === off.coil ? { ...coil, [off.end]: lead(coil[off.end]) } : coil)),
  };
  const rejoined = withJoints(freed, (joint) => ({
    ...joint,
    leads: joint.leads.map((each) => (onShield(each) ? path : each)),
  }));
  return withShieldLine(rejoined, [shieldPath]);
}

/** A shield that only shares the ground line stays on ground; one that carries a coil's end moves with it. */
function withHotAndGroundSwapped(pickup: Pickup, original: Pickup, loose: PickupNetlist): Pickup | undefined {
  const joints = pickup.hookup?.joints ?? [];
  const [hot, ground] = (['hot', 'ground'] as const).map((kind) => joints.filter((joint) => joint.kind === kind));
  if (hot?.length !== 1 || ground?.length !== 1) return undefined;
  const [high, low] = [hot[0], ground[0]];
  if (!high || !low) return undefined;
  const onShield = isShield(original);
  const stays = (path: LeadPath) => onShield(path) && !carriesCoil(path, loose);
  const kept = low.leads.filter(stays);
  const moving = low.leads.filter((path) => !stays(path));
  if (moving.length === 0) return undefined;
  return withJoints(pickup, (joint) =>
    joint === high
      ? { ...joint, leads: moving }
      : joint === low
        ? { ...joint, leads: [...high.leads, ...kept] }
        : joint,
  );
}

function carriesCoil(path: LeadPath, loose: PickupNetlist): boolean {
  const net = loose.netAt(path);
  return net !== undefined && holdsCoilEnd(loose.nets[net]);
}
