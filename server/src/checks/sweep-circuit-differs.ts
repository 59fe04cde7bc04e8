import { nextMeasurement } from '../estimates/sweep-advice.ts';
import { newestSwept, otherSetUpsOfWinding } from '../estimates/sweep-diagnosis.ts';
import { isCoil } from '../estimates/sweep-set-up.ts';
import type { Swept } from '../estimates/sweeps-measured.ts';
import { isPartOfCoil } from '../estimates/swept-circuit.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import { filesWords, nextWords, verdictWords } from '../words/sweep-words.ts';
import { replaceWord } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { fitsWhere, setUpRemedies } from './sweep-other-set-up.ts';
import { sweepPlace } from './sweep-place.ts';

/** Of one coil of several, swept while they were joined, as its readings say. */
const isOfLinkedCoil = ({ group: { subject, block } }: Swept, { pickup }: PickupNetlist): boolean =>
  isCoil(subject) && !block.apart && pickup.coils.length > 1;

/** A coil that hangs on by one end rings along; one that lies loose beside it does, too, but otherwise. */
function unlinkedRemedies(swept: Swept, netlist: PickupNetlist): readonly Remedy[] {
  if (!isOfLinkedCoil(swept, netlist)) return [];
  const { place, found } = swept.group.block;
  const head = found ? 'found' : 'readings';
  const edit = replaceWord(place, head, `${head} apart`);
  return edit ? [{ title: say`The coils were not yet joined: \`readings apart\``, edits: [edit], kind: 'build' }] : [];
}

export const sweepCircuitDiffers = definePickupCheck({
  code: 'sweep/circuit-differs',
  severity: 'information',
  late: true,
  yieldsTo: ['sweep/not-passive', 'sweep/set-up', 'sweep/open'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      const isUnlike = swept.kind === 'no coil' || (swept.kind === 'coil' && swept.verdict === 'does not hold');
      if (!isUnlike || isPartOfCoil(swept.group, quick.netlist)) return [];
      const what =
        swept.kind === 'coil'
          ? verdictWords(swept)
          : 'Nothing in it rises with frequency as a coil does. It is not used.';
      const { curve, others = [] } = otherSetUpsOfWinding(swept, quick) ?? {};
      const isOther = curve !== undefined && others.length > 0;
      return [
        {
          what: say`${filesWords(swept)}: ${what}`,
          hint: isOther
            ? fitsWhere(curve, others)
            : isOfLinkedCoil(swept, quick.netlist)
              ? say`Something else lay on the leads; or the other coil was not linked to it then, and its readings are \`apart\`.`
              : nextMeasurement(swept, quick.netlist) === 'all at once'
                ? say`The other coil rang along by its own capacitance; or something else lay on the leads.`
                : say`Something else lay on the leads, or it was measured through something else than stated.`,
          action: isOther
            ? say`Look at the resistor and at which side of it the pickup was, and correct the line.`
            : say`${nextWords(swept, quick.netlist) ?? ''}`,
          place: sweepPlace(swept),
          remedies: () =>
            isOther ? setUpRemedies(swept.group.sweeps, curve, others) : unlinkedRemedies(swept, quick.netlist),
        },
      ];
    }),
});
