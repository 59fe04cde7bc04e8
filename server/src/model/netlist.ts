/**
 * What is joined to what inside one pickup: leads, coil ends and metal parts as nodes, solder joints as nets, coils as
 * windings between nets. Topology only; values and signs come later.
 */

import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import { COIL_ENDS, type Coil, type CoilEnd } from './coil.ts';
import { JoinedNodes } from './joined-nodes.ts';
import type { LeadPath, Probes } from './lead.ts';
import { blocksOfLife, keptOrNew, statesOf } from './life.ts';
import type { Joint, MetalFitting, Pickup } from './pickup.ts';
import type { Place } from './place.ts';
import type { ReadingOf } from './readings.ts';

/** `coil:slug.start`, `tap:slug.orange`, `lead:violet`, `part:baseplate`. */
export type Node = string;

export interface Net {
  readonly index: number;
  readonly nodes: readonly Node[];
  /** The hookup lines that join something of this net. */
  readonly joints: readonly Joint[];
}

/** A whole coil between its two ends; taps divide it. */
export interface Winding {
  readonly coil: Coil;
  readonly start: number | undefined;
  readonly finish: number | undefined;
  readonly taps: readonly { readonly lead: string; readonly turns: number; readonly net: number }[];
  /** How the ends are known: stated, or from a kick, in which case the lead of the black probe stands at `start`. */
  readonly ends: 'stated' | 'from a kick' | 'unknown';
  /** In a closed pickup: several coils kick on one pair of leads, and nobody saw how they lie between the two. */
  readonly unseen: boolean;
}

/** A lead that leaves the pickup. */
export interface OutgoingLead {
  readonly name: string;
  readonly place: Place;
  readonly what: 'conductor' | 'coil lead' | 'shield' | 'tap';
  /** The coil end soldered to it, where one is. */
  readonly ends: readonly { readonly coil: Coil; readonly end: CoilEnd }[];
  readonly node: Node;
}

export interface PickupNetlist {
  readonly pickup: Pickup;
  readonly nets: readonly Net[];
  readonly windings: readonly Winding[];
  readonly hot: number | undefined;
  readonly ground: number | undefined;
  /** What goes to the instrument's ground by itself (the `shield` line); equals `ground` where they are one net. */
  readonly chassis: number | undefined;
  readonly leads: ReadonlyMap<string, OutgoingLead>;
  readonly metal: readonly {
    readonly fitting: MetalFitting | 'shield';
    readonly name: string;
    readonly net: number;
    readonly place: Place;
  }[];
  /** Lines that name a lead which no part brings out. */
  readonly undeclared: readonly { readonly path: LeadPath; readonly where: Place }[];
  /** Leads brought out twice, or joined in two lines. */
  readonly reused: readonly {
    readonly name: string;
    readonly place: Place;
    readonly first: Place;
    readonly why: 'brought out twice' | 'in two joints';
  }[];
  readonly free: ReadonlySet<number>;
  netOf(node: Node): number | undefined;
  /** The node that a path names in a hookup or a reading; `hot` and `ground` included. */
  resolve(path: LeadPath): Node | undefined;
  /** The net of that node. */
  netAt(path: LeadPath): number | undefined;
}

/** The nets that two probes touch. */
export function probedNets({ red, black }: Probes, { netAt }: PickupNetlist): readonly [number, number] | undefined {
  const [a, b] = [netAt(red), netAt(black)];
  return a === undefined || b === undefined ? undefined : [a, b];
}

/** On the pickup's own ground, or on what goes to the instrument's ground by itself. */
export const isGrounded = ({ ground, chassis }: PickupNetlist, net: number | undefined): boolean =>
  net !== undefined && (net === ground || net === chassis);

export const holdsCoilEnd = (net: Net | undefined): boolean =>
  net?.nodes.some((node) => node.startsWith('coil:')) ?? false;

/** A joint or a coil's end lies on it. */
export const isWired = ({ nets }: PickupNetlist, net: number): boolean =>
  (nets[net]?.joints.some(({ kind }) => kind !== 'free') ?? false) || holdsCoilEnd(nets[net]);

export const HOT: Node = 'hot';
export const GROUND: Node = 'ground';
export const CHASSIS: Node = 'chassis';
export const endNode = (coil: string, end: CoilEnd): Node => `coil:${coil}.${end}`;
export const tapNode = (coil: string, lead: string): Node => `tap:${coil}.${lead}`;
export const leadNode = (lead: string): Node => `lead:${lead}`;
export const isLeadNode = (node: Node): boolean => node.startsWith('lead:');
export const foilNode = (coil: string): Node => `foil:${coil}`;

/** Foil about windings, and the nets that it is soldered to. */
export const foilsOf = ({ pickup, netOf }: PickupNetlist) =>
  pickup.coils.flatMap((coil) => {
    const net = coil.foil && coil.foil.value !== 'none' ? netOf(foilNode(coil.name)) : undefined;
    return coil.foil && net !== undefined ? [{ coil, net, place: coil.foil.place }] : [];
  });
/** As a person names it in the pickup: `lead:violet` is `violet`, `coil:slug.start` is `slug.start`. */
export const nodeName = (node: Node): string => node.slice(node.indexOf(':') + 1);
export const partNode = (part: string): Node => `part:${part}`;

/** The pickup with its leads joined as its hookup says; remembered. */
export const joinedNetlist = onceFor((pickup: Pickup) => pickupNetlist(pickup));

/** The pickup as it lies on the bench before its leads are joined; remembered. */
export const looseNetlist = onceFor((pickup: Pickup) => pickupNetlist(pickup, false));

export function pickupNetlist(pickup: Pickup, isJoined = true): PickupNetlist {
  const joints = pickup.hookup?.joints ?? [];
  const nodes = new JoinedNodes();
  const reused: PickupNetlist['reused'][number][] = [];
  const undeclared: PickupNetlist['undeclared'][number][] = [];
  const leads = outgoingLeads(pickup, joints, reused);
  const kicked = endsFromKicks(pickup, leads);

  const tie = (node: Node, path: LeadPath, where = path.place): void => {
    const target = resolveLead(path, pickup, leads);
    if (target) nodes.unite(node, target);
    else undeclared.push({ path, where });
  };

  for (const lead of leads.values()) nodes.add(lead.node);
  for (const coil of pickup.coils) {
    nodes.add(endNode(coil.name, 'start'));
    nodes.add(endNode(coil.name, 'finish'));
    for (const tap of coil.taps)
      nodes.unite(tapNode(coil.name, leadName(tap.value.lead.value)), leadNode(leadName(tap.value.lead.value)));
    for (const end of COIL_ENDS) {
      const lead = coil[end]?.value;
      if (lead?.to) tie(endNode(coil.name, end), lead.to.value, lead.to.place);
      else if (lead?.own && leads.get(leadName(lead.own.value))?.ends.some((e) => e.coil === coil && e.end === end)) {
        nodes.unite(endNode(coil.name, end), leadNode(leadName(lead.own.value)));
      }
    }
  }
  for (const [coil, pair] of kicked) {
    nodes.unite(endNode(coil, 'start'), pair.start);
    nodes.unite(endNode(coil, 'finish'), pair.finish);
  }
  if (pickup.shield) nodes.add(partNode('shield'));
  if (pickup.shield) nodes.unite(partNode('shield'), leadNode(leadName(pickup.shield.value)));
  for (const fitting of pickup.metal) {
    nodes.add(partNode(fitting.part));
    if (fitting.tiedTo) tie(partNode(fitting.part), fitting.tiedTo);
  }

  for (const coil of pickup.coils) {
    const lead = coil.foil?.value;
    if (!lead || lead === 'none') continue;
    nodes.add(foilNode(coil.name));
    tie(foilNode(coil.name), lead);
  }

  const jointsOfNode = new Map<Node, Joint[]>();
  const firstUse = new Map<Node, LeadPath>();
  const freeNodes: Node[] = [];
  for (const joint of joints) {
    const anchor =
      joint.kind === 'hot' ? HOT : joint.kind === 'ground' ? GROUND : joint.kind === 'shield' ? CHASSIS : undefined;
    let previous: Node | undefined = anchor;
    if (isJoined && anchor) nodes.add(anchor);
    for (const path of joint.leads) {
      const node = resolveLead(path, pickup, leads);
      if (!node) {
        undeclared.push({ path, where: path.place });
        continue;
      }
      const before = firstUse.get(node);
      if (before) reused.push({ name: path.text, place: path.place, first: before.place, why: 'in two joints' });
      else firstUse.set(node, path);
      jointsOfNode.set(node, [...(jointsOfNode.get(node) ?? []), joint]);
      if (joint.kind === 'free') freeNodes.push(node);
      else if (isJoined) {
        if (previous) nodes.unite(previous, node);
        previous = node;
      }
    }
  }
  if (isJoined && !nodes.has(CHASSIS) && nodes.has(GROUND)) nodes.unite(CHASSIS, GROUND);

  const { netOf, members } = nodes.number();
  const nets = members.map(
    (list, index): Net => ({
      index,
      nodes: list,
      joints: [...new Set(list.flatMap((node) => jointsOfNode.get(node) ?? []))],
    }),
  );
  const netOfNode = (node: Node) => netOf.get(node);
  const resolve = (path: LeadPath) =>
    path.text === HOT || path.text === GROUND ? path.text : resolveLead(path, pickup, leads);
  const windings = pickup.coils.map((coil): Winding => {
    const known = kicked.has(coil.name)
      ? 'from a kick'
      : coil.start || coil.finish || isNamedInHookup(coil, joints)
        ? 'stated'
        : 'unknown';
    return {
      coil,
      start: netOfNode(endNode(coil.name, 'start')),
      finish: netOfNode(endNode(coil.name, 'finish')),
      taps: coil.taps.flatMap(({ value }) => {
        const lead = leadName(value.lead.value);
        const net = netOfNode(tapNode(coil.name, lead));
        return net === undefined ? [] : [{ lead, turns: value.turns.si, net }];
      }),
      ends: known,
      unseen: isAmongOthers(coil.name, kicked),
    };
  });
  const metal = [
    ...(pickup.shield
      ? [
          {
            fitting: 'shield' as const,
            name: pickup.shield.value,
            net: netOfNode(partNode('shield')) ?? -1,
            place: pickup.shield.place,
          },
        ]
      : []),
    ...pickup.metal.map((fitting) => ({
      fitting,
      name: fitting.part,
      net: netOfNode(partNode(fitting.part)) ?? -1,
      place: fitting.place,
    })),
  ];
  return {
    pickup,
    nets,
    windings,
    hot: netOfNode(HOT),
    ground: netOfNode(GROUND),
    chassis: netOfNode(CHASSIS),
    leads,
    metal,
    undeclared,
    reused,
    free: new Set(freeNodes.flatMap((node) => netOfNode(node) ?? [])),
    netOf: netOfNode,
    resolve,
    netAt: (path) => netOf.get(resolve(path) ?? ''),
  };
}

const leadName = canonicalLeadName;

function isNamedInHookup(coil: Coil, joints: readonly Joint[]): boolean {
  return joints.some((joint) => joint.leads.some((path) => path.parts.length === 2 && path.parts[0] === coil.name));
}

type GrowingLead = OutgoingLead & { readonly ends: OutgoingLead['ends'][number][] };

/** Conductors, the shield, taps, and coil leads that leave the pickup by themselves. */
function outgoingLeads(
  pickup: Pickup,
  joints: readonly Joint[],
  reused: PickupNetlist['reused'][number][],
): ReadonlyMap<string, OutgoingLead> {
  const leads = new Map<string, GrowingLead>();
  const bringOut = (written: string, place: Place, what: OutgoingLead['what']): GrowingLead | undefined => {
    const name = leadName(written);
    const before = leads.get(name);
    if (before) {
      reused.push({ name: written, place, first: before.place, why: 'brought out twice' });
      return undefined;
    }
    const lead: GrowingLead = { name, place, what, ends: [], node: leadNode(name) };
    leads.set(name, lead);
    return lead;
  };
  for (const conductor of pickup.conductors) bringOut(conductor.value, conductor.place, 'conductor');
  if (pickup.shield) bringOut(pickup.shield.value, pickup.shield.place, 'shield');
  for (const coil of pickup.coils) {
    for (const end of COIL_ENDS) {
      const lead = coil[end];
      if (!lead?.value.own || lead.value.to) continue;
      const innerJoint = joints.some((joint) =>
        joint.leads.some(({ parts }) => parts[0] === coil.name && parts[1] === end),
      );
      if (!innerJoint) bringOut(lead.value.own.value, lead.place, 'coil lead')?.ends.push({ coil, end });
    }
    for (const tap of coil.taps) bringOut(tap.value.lead.value, tap.value.lead.place, 'tap');
  }
  for (const coil of pickup.coils)
    for (const end of COIL_ENDS) {
      const to = coil[end]?.value.to?.value;
      if (to?.parts.length === 1) leads.get(leadName(to.text))?.ends.push({ coil, end });
    }
  return leads;
}

function resolveLead(path: LeadPath, pickup: Pickup, leads: ReadonlyMap<string, OutgoingLead>): Node | undefined {
  const [first, second] = path.parts;
  if (first === undefined) return undefined;
  if (second === undefined) {
    const lead = leads.get(leadName(first));
    if (lead) return lead.node;
    return pickup.metal.some((fitting) => fitting.part === first) ? partNode(first) : undefined;
  }
  if (path.parts.length > 2) return undefined;
  const coil = pickup.coils.find((candidate) => candidate.name === first);
  if (!coil) return undefined;
  if (second === 'start' || second === 'finish') return endNode(coil.name, second);
  const tap = coil.taps.find(({ value }) => leadName(value.lead.value) === leadName(second));
  return tap ? tapNode(coil.name, leadName(second)) : undefined;
}

/**
 * Leads that nobody traced: the pair that kicks at a coil is that coil's. The node of the black probe is put at `start`; which end is
 * really the inner one stays open, and only products of signs are read from such a coil. Several coils that kick on one pair, as in a
 * closed pickup read from hot to ground, lie one behind the other between the two: for signs it is the same if they lie side by side.
 */
function endsFromKicks(
  pickup: Pickup,
  leads: ReadonlyMap<string, OutgoingLead>,
): ReadonlyMap<string, { readonly start: Node; readonly finish: Node }> {
  const joints = pickup.hookup?.joints ?? [];
  const outlet = (path: LeadPath, { hookup }: Pickup): Node | undefined => {
    const kind = path.parts.length === 1 ? path.text : '';
    if (kind !== 'hot' && kind !== 'ground') return resolveLead(path, pickup, leads);
    const first = hookup?.joints.find((joint) => joint.kind === kind)?.leads[0];
    return first && resolveLead(first, pickup, leads);
  };
  const isPlaced = (path: LeadPath) => {
    const lead = path.parts.length === 1 ? leads.get(leadName(path.text)) : undefined;
    return lead === undefined || lead.ends.length > 0 || lead.what === 'tap';
  };
  const untraced = pickup.coils.filter((coil) => !coil.start && !coil.finish && !isNamedInHookup(coil, joints));
  const outlets = ({ probes: { red, black } }: ReadingOf<'kick'>): boolean =>
    [red, black].every((path) => path.text === 'hot' || path.text === 'ground' || !isPlaced(path));
  const pairs = new Map<string, { readonly red: Node; readonly black: Node }>();
  for (const { kick, state } of kicksOfKeptCoils(pickup)) {
    const coil = kick.at
      ? untraced.find(({ name }) => name === kick.at?.text)
      : pickup.coils.length === 1
        ? untraced[0]
        : undefined;
    const [red, black] = [outlet(kick.probes.red, state), outlet(kick.probes.black, state)];
    if (coil && outlets(kick) && red && black && red !== black && !pairs.has(coil.name))
      pairs.set(coil.name, { red, black });
  }
  return chained(
    untraced.flatMap(({ name }) => (pairs.has(name) ? [name] : [])),
    pairs,
  );
}

function chained(
  coils: readonly string[],
  pairs: ReadonlyMap<string, { readonly red: Node; readonly black: Node }>,
): ReadonlyMap<string, { readonly start: Node; readonly finish: Node }> {
  const ends = new Map<string, { start: Node; finish: Node }>();
  for (const first of coils) {
    const pair = pairs.get(first);
    if (!pair || ends.has(first)) continue;
    const chain = coils.filter((each) => {
      const { red, black } = pairs.get(each) ?? pair;
      return (red === pair.red && black === pair.black) || (red === pair.black && black === pair.red);
    });
    for (const [index, coil] of chain.entries()) {
      const before = chain[index - 1];
      ends.set(coil, {
        start: before === undefined ? pair.black : endNode(before, 'finish'),
        finish: index === chain.length - 1 ? pair.red : endNode(coil, 'finish'),
      });
    }
  }
  return ends;
}

/** True where an end is no lead but the end of another coil. */
function isAmongOthers(coil: string, kicked: ReturnType<typeof endsFromKicks>): boolean {
  const { start, finish } = kicked.get(coil) ?? {};
  return [...kicked.keys()].map((name) => endNode(name, 'finish')).some((inner) => inner === start || inner === finish);
}

/**
 * The oldest first, so that start and finish mean the same ends in every state: a coil that was kept kept its leads too, whatever became
 * of the magnet. `state`: whose hookup `hot` and `ground` mean.
 */
function kicksOfKeptCoils(pickup: Pickup): readonly { readonly kick: ReadingOf<'kick'>; readonly state: Pickup }[] {
  const all = blocksOfLife(pickup).flatMap(({ block, state, worksAgo }) =>
    block.lines.flatMap((kick) => (kick.kind === 'kick' ? [{ kick, state, worksAgo }] : [])),
  );
  const states = statesOf(pickup);
  const isKept = (name: string | undefined, worksAgo: number) =>
    states.slice(0, worksAgo).every(({ coils }) => {
      const coil = name === undefined && coils.length === 1 ? coils[0] : coils.find((each) => each.name === name);
      return coil !== undefined && keptOrNew(coil) === 'kept';
    });
  return all.filter(({ kick, worksAgo }) => isKept(kick.at?.text, worksAgo));
}
