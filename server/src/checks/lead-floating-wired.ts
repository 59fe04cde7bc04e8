import { looseNetlist } from '../model/netlist.ts';
import { namedTerminals } from '../model/soldered.ts';
import { lugTerminal } from '../physics/switching/rig.ts';
import { list } from '../words/text.ts';
import { insertLineAfter } from './edits.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';
import { WRONG_WIRING } from './switch-faults.ts';

/** Leads with a coil on them that no line of the wiring names, and that nothing inside the pickup joins: once for each pickup. */
export const leadFloatingWired = defineInstrumentCheck({
  code: 'lead/floating',
  severity: 'warning',
  yieldsTo: WRONG_WIRING,
  run: ({ switching, written: { slots, wiring } }) => {
    if (!switching || !wiring) return [];
    const { rig } = switching.numbered;
    const named = namedTerminals(wiring);
    const last = wiring.lines.at(-1)?.place;
    return slots.map(({ name: slot, pickup }) => {
      if (!pickup) return undefined;
      const leads = [...looseNetlist(pickup).leads.values()].filter(
        ({ what, ends }) => what === 'tap' || ends.length > 0,
      );
      const loose = leads
        .map(({ name }) => lugTerminal(slot, name))
        .filter((lead) => {
          const own = rig.fixed.find((net) => net.includes(lead)) ?? [];
          // A link inside the pickup stands beside the point of the lead in a net of its own.
          const isLinked = rig.fixed.some((net) => net !== own && net.some((each) => own.includes(each)));
          return !isLinked && !own.some((each) => named.has(each));
        });
      return loose.length === 0
        ? undefined
        : {
            what: say`${list(loose)} ${loose.length === 1 ? 'is' : 'are'} soldered to nothing, and no line of the wiring says so; an open end picks up noise.`,
            action: say`Name it in a line, or tape it off (\`free ${loose.join(' ')}\`).`,
            place: wiring.place,
            related: { message: say`the pickup`, place: pickup.place },
            remedies: () =>
              remedy(
                say`Tape it off: \`free ${loose.join(' ')}\``,
                last && insertLineAfter(last, `free ${loose.join(' ')}`),
                true,
              ),
            subject: { nodes: loose },
          };
    });
  },
});
