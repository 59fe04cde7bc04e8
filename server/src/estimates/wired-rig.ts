/** An instrument's switches and wiring as a rig of terminals: what the physics of switching reads. */
import type { Instrument, Slot } from '../model/instrument.ts';
import { looseNetlist, nodeName, type PickupNetlist } from '../model/netlist.ts';
import type { Joint, Pickup } from '../model/pickup.ts';
import { solderedNets } from '../model/soldered.ts';
import { HOT_TERMINAL, JACK_TERMINAL, type Wiring } from '../model/wiring.ts';
import { lugTerminal, type Nets, type Rig, type RigElement } from '../physics/switching/rig.ts';
import { pickupSections } from './pickup-sections.ts';

/** Whose contact tables and pickups are all known; `undefined` otherwise, and where no wiring is written. */
export function wiredRig(instrument: Instrument): Rig | undefined {
  const { wiring, switches, slots, controls } = instrument;
  if (!wiring || wiring.isUnread || slots.some(({ pickup }) => pickup === undefined)) return undefined;
  const fitted = switches.flatMap(({ name, part }) => (part ? [{ slot: name, contacts: part }] : []));
  if (fitted.length < switches.length || fitted.some(({ contacts }) => contacts.detents.length === 0)) return undefined;
  const throughControls = controls.flatMap(({ kind, name }) =>
    kind === 'volume' && name !== undefined ? [[`${name}.input`, `${name}.wiper`]] : [],
  );
  return {
    switches: fitted,
    elements: [...slots.flatMap(coilsOf), ...partsOf(wiring)],
    fixed: [[HOT_TERMINAL, JACK_TERMINAL], ...insideOf(instrument), ...throughControls],
    links: solderedNets(wiring),
  };
}

/** What is one inside the pickups. */
export const insideOf = ({ slots, wiring }: Instrument): Nets =>
  slots.flatMap(({ name, pickup }) => (pickup && wiring ? jointsInside(name, pickup, wiring) : []));

const pointOf = (slot: string, point: string): string => `${slot}${point}`;

/** Its coils between the points of its own nets. */
export const coilsOf = ({ name: slot, pickup }: Slot): readonly RigElement[] =>
  pickup
    ? pickupSections(pickup).sections.map(({ name, isCoil, ends: [high, low] }) => ({
        name: lugTerminal(slot, name),
        isCoil,
        ends: [pointOf(slot, high), pointOf(slot, low)],
      }))
    : [];

const partsOf = ({ parts }: Wiring): readonly RigElement[] =>
  parts.map(({ kind, value, ends: [from, onto] }, index) => ({
    name: partElement(index),
    isCoil: false,
    ends: [from.name, onto.name],
    alike: partAlike(kind, value.si),
  }));

/** The element of the n-th resistor or capacitor of a wiring. */
export const partElement = (index: number): string => `part ${index + 1}`;

/** What a resistor or capacitor is compared by. */
export const partAlike = (kind: 'resistor' | 'capacitor', si: number): string => `${kind} ${si}`;

/**
 * What is one inside a pickup: what stands on a point, and the links of its hookup, but for those of which the wiring names two leads in
 * different lines: these the switch makes.
 */
function jointsInside(slot: string, pickup: Pickup, wiring: Wiring): Nets {
  const netlist = looseNetlist(pickup);
  const onPoints = netlist.nets.map(({ index, nodes }) => [
    pointOf(slot, `/${index}`),
    ...nodes.map((node) => lugTerminal(slot, nodeName(node))),
  ]);
  const links = (pickup.hookup?.joints ?? []).filter(
    (joint) => joint.kind === 'link' && !isSwitched(joint, slot, netlist, wiring),
  );
  return [...onPoints, ...links.map((joint) => netsIn(joint, netlist).map((net) => pointOf(slot, `/${net}`)))];
}

const netsIn = ({ leads }: Joint, { netAt }: PickupNetlist): readonly number[] =>
  leads.flatMap((path) => netAt(path) ?? []);

/** True where the switch makes the joint, so that it is not soldered inside the pickup. */
export function isSwitched(joint: Joint, slot: string, netlist: PickupNetlist, { lines }: Wiring): boolean {
  const named = new Set(
    netsIn(joint, netlist).flatMap((net) => {
      const nodes = netlist.nets[net]?.nodes ?? [];
      const line = lines.findIndex(({ terminals }) =>
        nodes.some((node) => terminals.some(({ name }) => name === lugTerminal(slot, nodeName(node)))),
      );
      return line < 0 ? [] : [line];
    }),
  );
  return named.size > 1;
}
