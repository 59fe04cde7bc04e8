/** Leads that change places in a pickup's hookup, where the wiring of an instrument names them: what is soldered there follows. */
import { replaceAt } from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import type { Instrument } from '../model/instrument.ts';
import type { LeadPath } from '../model/lead.ts';
import { looseNetlist, nodeName } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { lugTerminal } from '../physics/switching/rig.ts';

/** `undefined` where it cannot be said in the instrument's own text by other names alone. */
export function wiredLeadEdits(
  { wiring, slots, place }: Instrument,
  before: Pickup,
  after: Pickup,
): readonly Edit[] | undefined {
  const moved = wiring && before !== after ? movedLeads(before, after) : [];
  if (!wiring || !moved) return moved && [];
  const { netAt, nets } = looseNetlist(before);
  const onto = new Map(moved.map(({ from, to }) => [netAt(from), to.text]));
  const written = [...wiring.lines.flatMap(({ terminals }) => terminals), ...wiring.parts.flatMap(({ ends }) => ends)];
  const edits = slots
    .filter(({ pickup }) => pickup === before)
    .flatMap(({ name: slot }) =>
      written.flatMap(({ name, path }) => {
        const net = nets.find(({ nodes }) => nodes.some((node) => lugTerminal(slot, nodeName(node)) === name));
        const lead = net && onto.get(net.index);
        return lead === undefined ? [] : [replaceAt(path.place, lugTerminal(slot, lead))];
      }),
    );
  return edits.every((edit) => edit.place.chunk === place.chunk) ? edits : undefined;
}

interface MovedLead {
  readonly from: LeadPath;
  readonly to: LeadPath;
}

/** In whose place which lead comes, joint by joint; `undefined` where one loses more than it gets. */
function movedLeads(before: Pickup, after: Pickup): readonly MovedLead[] | undefined {
  const moved: MovedLead[] = [];
  for (const [index, { leads }] of (before.hookup?.joints ?? []).entries()) {
    const now = after.hookup?.joints[index]?.leads ?? [];
    const gone = without(leads, now);
    const come = without(now, leads);
    if (gone.length !== come.length) return undefined;
    moved.push(...gone.flatMap((from, at) => (come[at] ? [{ from, to: come[at] }] : [])));
  }
  return moved;
}

const without = (leads: readonly LeadPath[], others: readonly LeadPath[]): readonly LeadPath[] =>
  leads.filter(({ text }) => !others.some((each) => each.text === text));
