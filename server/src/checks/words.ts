/** How findings name things. */
import type { Coil, CoilEnd } from '../model/coil.ts';
import type { OutgoingLead, PickupNetlist } from '../model/netlist.ts';

export const list = (words: readonly string[], joiner = 'and'): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${joiner} ${words.at(-1)}`;

export const coilWords = (coil: Coil): string => `the ${coil.name} coil`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The lead that a coil's end leaves by, as the hookup names it: a conductor, its own lead, or the end itself. */
export function endLead(netlist: PickupNetlist, coil: Coil, end: CoilEnd): string {
  const outgoing = [...netlist.leads.values()].find((lead) =>
    lead.ends.some((each) => each.coil === coil && each.end === end),
  );
  if (outgoing) return outgoing.name;
  const winding = netlist.windings.find((each) => each.coil === coil);
  const net = winding?.ends === 'from a kick' ? winding[end] : undefined;
  const lead = net === undefined ? undefined : netlist.nets[net]?.nodes.find((node) => node.startsWith('lead:'));
  return lead ? lead.slice('lead:'.length) : `${coil.name}.${end}`;
}

/** `start turquoise, finish orange`. */
export const endsWords = (netlist: PickupNetlist, coil: Coil): string =>
  `start ${endLead(netlist, coil, 'start')}, finish ${endLead(netlist, coil, 'finish')}`;

export const leadWords = (leads: readonly OutgoingLead[]): string => list(leads.map(({ name }) => name));
