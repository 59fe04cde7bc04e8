import type { OutgoingLead, PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Language } from '../words/languages/language.ts';
import { insertLineAfter } from './edits.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const leadFloating = definePickupCheck({
  code: 'lead/floating',
  severity: 'error',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/open', 'circuit/output-shorted'],
  run: ({ netlist, pickup }) => {
    const { hookup } = pickup;
    if (!hookup || unreadWiring(pickup)) return [];
    const lastJoint = hookup.joints.at(-1);
    return floatingLeads(netlist).map((lead) => ({
      what: (t: Language) =>
        t(
          lead.ends.length === 0 && lead.what === 'conductor'
            ? '{0} is joined to nothing: no coil is soldered to it and the hookup does not name it; an open end picks up noise.'
            : '{0} is joined to nothing: the hookup does not name it; an open end picks up noise.',
          lead.name,
        ),
      action: (t: Language) =>
        t('Name it in a joint, or tape it off or take it to the switch (`{0}`).', `free ${lead.name}`),
      place: lead.place,
      remedies: () =>
        remedy(
          (t) => t('Tape it off: `{0}`', `free ${lead.name}`),
          lastJoint && insertLineAfter(lastJoint.place, `free ${lead.name}`),
          true,
        ),
      subject: { nodes: [lead.node] },
    }));
  },
});

/** True where a line of the wiring stands there and could not be read: what seems to be missing may stand on it. */
export const unreadWiring = ({ hookup, coils, unread }: Pickup): boolean =>
  (hookup?.unread.length ?? 0) > 0 ||
  unread.some((field) => field === 'conductors' || field === 'shield') ||
  coils.some((coil) => coil.unread.some((field) => field === 'start' || field === 'finish'));

/** Leads that nothing joins. A conductor that nobody has traced yet is unproven, not floating. */
export function floatingLeads(netlist: PickupNetlist): readonly OutgoingLead[] {
  const named = new Set(
    (netlist.pickup.hookup?.joints ?? []).flatMap(({ leads }) => leads.flatMap((path) => netlist.resolve(path) ?? [])),
  );
  const untraced = netlist.windings.some(({ ends }) => ends === 'unknown');
  return [...netlist.leads.values()].filter((lead) => {
    if (lead.what === 'shield' || named.has(lead.node)) return false;
    const net = netlist.netOf(lead.node);
    // An end soldered to two conductors, one of them joined, hangs on no open end.
    const joined = net !== undefined && (netlist.nets[net]?.joints.length ?? 0) > 0;
    return !joined && !(untraced && lead.what === 'conductor' && lead.ends.length === 0);
  });
}
