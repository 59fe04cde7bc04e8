/** What the selector joins, as a drawing needs it: contacts where every position can be had by closing some, else one position's joints. */

import type { Instrument, Position, Selection } from '../../model/instrument.ts';
import type { JoinedNodes } from '../../model/joined-nodes.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import { type PlacedPart, partsBetween, type SelectionPart } from '../../model/selection.ts';

export interface Contact {
  readonly slot: string;
  readonly net: number;
  readonly to: 'bus' | 'earth';
  readonly throughOhm: number | undefined;
  /** Keys of the positions that close it. */
  readonly closedIn: readonly string[];
}

export type NetlistOf = (part: SelectionPart) => PickupNetlist | undefined;

/** Contacts of all positions; `undefined` where some position needs more than closing contacts to the output and to ground. */
export function contactsOf(instrument: Instrument, netlistOf: NetlistOf): readonly Contact[] | undefined {
  const contacts = new Map<string, { contact: Omit<Contact, 'closedIn'>; closedIn: string[] }>();
  for (const position of instrument.positions) {
    if (position.selection === undefined) continue;
    const joints = plainJoints(position.selection, instrument, netlistOf);
    if (joints === undefined) return undefined;
    for (const contact of joints) {
      const key = `${contact.slot} ${contact.net} ${contact.to} ${contact.throughOhm ?? ''}`;
      const known = contacts.get(key) ?? { contact, closedIn: [] };
      known.closedIn.push(position.key.value);
      contacts.set(key, known);
    }
  }
  return [...contacts.values()].map(({ contact, closedIn }) => ({ ...contact, closedIn }));
}

function plainJoints(
  selection: Selection,
  instrument: Instrument,
  netlistOf: NetlistOf,
): readonly Omit<Contact, 'closedIn'>[] | undefined {
  const parts = selection.kind === 'parallel' ? selection.of : [selection];
  const joints: Omit<Contact, 'closedIn'>[] = [];
  const used = new Set<string>();
  for (const part of parts) {
    if (part.kind === 'reversed' || part.kind === 'series' || part.kind === 'parallel' || part.kind === 'nets')
      return undefined;
    const slot = part.slot.name;
    if (used.has(slot)) return undefined;
    used.add(slot);
    const netlist = netlistOf(part);
    if (netlist === undefined) continue;
    const found = partJoints(part, netlist);
    const hasOwn = instrument.controls.some(({ forSlot }) => forSlot?.value === slot);
    if (found === undefined || (hasOwn && part.kind === 'coil' && found.filter(({ to }) => to === 'bus').length > 1))
      return undefined;
    joints.push(...found.map((joint) => ({ slot, ...joint })));
  }
  return joints;
}

type Joint = Pick<Contact, 'net' | 'to' | 'throughOhm'>;

function partJoints(part: SelectionPart, netlist: PickupNetlist): readonly Joint[] | undefined {
  const hot = part.kind === 'tap' ? netlist.netOf(netlist.leads.get(part.lead)?.node ?? '') : netlist.hot;
  const joints: Joint[] = hot === undefined ? [] : [{ net: hot, to: 'bus', throughOhm: undefined }];
  if (part.kind !== 'coil') return joints;
  const shorts = shortedCoils(part, netlist);
  if (shorts === undefined) return undefined;
  const throughOhm = part.throughOhm?.value.si;
  if (throughOhm !== undefined && shorts.length !== 1) return undefined;
  // A net that a shorted coil joins to ground or hot is itself joined to it, and so on along a chain of coils.
  const fate = new Map<number, 'bus' | 'earth'>();
  if (netlist.ground !== undefined) fate.set(netlist.ground, 'earth');
  if (netlist.hot !== undefined) fate.set(netlist.hot, 'bus');
  for (let round = 0; round < shorts.length; round++)
    for (const [a, b] of shorts) {
      const [one, other] = [fate.get(a), fate.get(b)];
      if (one !== undefined && other === undefined) fate.set(b, one);
      else if (other !== undefined && one === undefined) fate.set(a, other);
      else if (one !== undefined && other !== undefined && one !== other) return undefined;
    }
  if (shorts.some(([a, b]) => fate.get(a) === undefined || fate.get(b) === undefined)) return undefined;
  for (const [net, to] of fate) {
    if (net === netlist.ground || net === netlist.hot) continue;
    joints.push({ net, to, throughOhm });
  }
  return joints;
}

/** Ends of the coils that a split shorts; `undefined` where one lies across the output and has to be left off instead. */
export function shortedCoils(
  part: SelectionPart,
  netlist: PickupNetlist,
): readonly (readonly [number, number])[] | undefined {
  if (part.kind !== 'coil') return [];
  const shorts: (readonly [number, number])[] = [];
  for (const { coil, start, finish } of netlist.windings) {
    if (coil.name === part.coil || start === undefined || finish === undefined) continue;
    if (spansOutput(start, finish, netlist)) return undefined;
    shorts.push([start, finish]);
  }
  return shorts;
}

export const spansOutput = (a: number, b: number, { hot, ground }: PickupNetlist): boolean =>
  (a === hot && b === ground) || (a === ground && b === hot);

export const OUT = 'out';
export const EARTH = 'earth';

/** The parts of a position between their points; inner points of a series are named in order. */
export function placedParts({ selection }: Position): readonly PlacedPart<string>[] {
  let inner = 0;
  const joint = () => {
    inner += 1;
    return `joint ${inner}`;
  };
  return selection ? partsBetween(selection, OUT, EARTH, joint) : [];
}

/** Joins two points; a set goes by the name of OUT or EARTH where it holds them. */
export function joinPoints(points: JoinedNodes, a: string, b: string): void {
  const named = [OUT, EARTH].includes(points.root(a));
  points.unite(named ? a : b, named ? b : a);
}
