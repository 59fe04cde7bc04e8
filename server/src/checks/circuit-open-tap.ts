import type { PickupNetlist } from '../model/netlist.ts';
import { partsOf } from '../model/selection.ts';
import type { Language } from '../words/languages/language.ts';
import { positionWords } from '../words/parts.ts';
import { definePositionCheck } from './instrument-check.ts';

/** A position that takes a pickup at a lead, or a coil of it, that nothing is soldered to. */
export const circuitOpenTap = definePositionCheck({
  code: 'circuit/open',
  severity: 'error',
  yieldsTo: [],
  at: ({ position, selection }, { quickOf }) =>
    partsOf(selection).map((part) => {
      const { pickup } = part.slot;
      if (!pickup || part.kind === 'pickup') return undefined;
      const { netlist } = quickOf(pickup);
      if (part.kind === 'tap' ? leadsToCoil(netlist, part.lead) : hasBothEnds(netlist, part.coil)) return undefined;
      return {
        what:
          part.kind === 'tap'
            ? (t: Language) =>
                t(
                  'In {0} {1} gives nothing: no coil is soldered to {2} of {3}.',
                  positionWords(position, t),
                  part.path.text,
                  part.lead,
                  part.slot.name,
                )
            : (t: Language) =>
                t(
                  'In {0} {1} gives nothing: which leads are those of {2} is neither stated nor measured.',
                  positionWords(position, t),
                  part.path.text,
                  t('the {0} coil', part.coil),
                ),
        action:
          part.kind === 'tap'
            ? (t: Language) => t('Solder an end or a tap of a coil to it, or take another lead.')
            : (t: Language) => t('State the start and the finish of that coil, or find them by a kick.'),
        related: [{ message: (t: Language) => t('{0} is fitted here', part.slot.name), place: part.slot.place }],
      };
    }),
});

function leadsToCoil(netlist: PickupNetlist, lead: string): boolean {
  const net = netlist.netOf(netlist.leads.get(lead)?.node ?? '');
  return net !== undefined && (netlist.nets[net]?.nodes.some((node) => /^(coil|tap):/.test(node)) ?? false);
}

/** An end that is neither stated nor found by a kick stands in a net of its own. */
function hasBothEnds({ windings }: PickupNetlist, coil: string): boolean {
  return windings.some(({ coil: { name }, ends }) => name === coil && ends !== 'unknown');
}
