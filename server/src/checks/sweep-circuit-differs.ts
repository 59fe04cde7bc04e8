import { newestSwept, otherSetUpsOfWinding } from '../estimates/sweep-diagnosis.ts';
import { filesWords, nextWords, verdictWords } from '../words/sweep-words.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { fitsWhere, setUpRemedies } from './sweep-other-set-up.ts';
import { sweepPlace } from './sweep-place.ts';

export const sweepCircuitDiffers = definePickupCheck({
  code: 'sweep/circuit-differs',
  severity: 'information',
  late: true,
  yieldsTo: ['sweep/not-passive', 'sweep/set-up', 'sweep/open'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      const isUnlike = swept.kind === 'no coil' || (swept.kind === 'coil' && swept.verdict === 'does not hold');
      if (!isUnlike) return [];
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
            : say`Something else lay on the leads, or it was measured through something else than stated.`,
          action: isOther
            ? say`Look at the resistor and at which side of it the pickup was, and correct the line.`
            : say`${nextWords(swept, quick.netlist) ?? ''}`,
          place: sweepPlace(swept),
          remedies: () => (isOther ? setUpRemedies(swept.group.sweeps, curve, others) : []),
        },
      ];
    }),
});
