import { newestSwept } from '../estimates/sweep-diagnosis.ts';
import { filesWords, nextWords, verdictWords } from '../words/sweep-words.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
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
      return [
        {
          what: say`${filesWords(swept)}: ${what}`,
          hint: say`Something else lay on the leads, or it was measured through something else than stated.`,
          action: say`${nextWords(swept, quick.netlist) ?? ''}`,
          place: sweepPlace(swept),
        },
      ];
    }),
});
