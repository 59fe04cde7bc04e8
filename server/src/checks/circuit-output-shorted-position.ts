import { SHORT_OHM } from '../estimates/common-practice.ts';
import { AT_THE_METER, positionNetwork } from '../estimates/position-network.ts';
import type { Selection } from '../model/instrument.ts';
import { partsOf } from '../model/selection.ts';
import { ground } from '../physics/circuit/circuit.ts';
import { resistanceBetween } from '../physics/circuit/dc.ts';
import { positionWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { definePositionCheck, type InstrumentContext } from './instrument-check.ts';

/** A pickup that shorts itself is told at the pickup. */
export const circuitOutputShortedPosition = definePositionCheck({
  code: 'circuit/output-shorted',
  severity: 'error',
  yieldsTo: [],
  at: ({ position, selection, network, coils }, context) => {
    if (coils.length > 0 || !isShort(resistanceBetween(network.network, network.output, ground))) return undefined;
    const parts = partsOf(selection);
    if (parts.some(({ slot: { pickup } }) => pickup && shortsItself(context.quickOf(pickup).netlist))) return undefined;
    const culprit = parts.find((part) => isShort(ohmOf(part, context)));
    return {
      what: (t) => {
        const where = capital(positionWords(position, t));
        return culprit
          ? t(
              '{0} is silent: hot and ground are joined because {1} is taken at a lead that lies on its ground.',
              where,
              culprit.path.text,
            )
          : t('{0} is silent: hot and ground are joined as it joins its parts.', where);
      },
      action: (t) =>
        t(culprit ? 'Take it at a lead between its coils.' : 'Leave out the part that joins hot to ground.'),
      subject: { nodes: ['hot', 'ground'] },
    };
  },
});

const isShort = (ohm: number | null): boolean => ohm !== null && ohm < SHORT_OHM;

function ohmOf(part: Selection, { instrument, quickOf }: InstrumentContext): number | null {
  const { network, output } = positionNetwork(instrument, part, quickOf, AT_THE_METER);
  return resistanceBetween(network, output, ground);
}

const shortsItself = ({
  hot,
  ground: low,
  chassis,
}: {
  hot?: number | undefined;
  ground?: number | undefined;
  chassis?: number | undefined;
}) => hot !== undefined && (hot === low || hot === chassis);
