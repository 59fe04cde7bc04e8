import { newestSwept, otherSetUps } from '../estimates/sweep-diagnosis.ts';
import { printQuantity } from '../quantities/print.ts';
import { filesWords, sweptBetween } from '../words/sweep-words.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { fitsWhere, setUpRemedies } from './sweep-other-set-up.ts';
import { sweepPlace } from './sweep-place.ts';

export const sweepSetUp = definePickupCheck({
  code: 'sweep/set-up',
  severity: 'warning',
  late: true,
  yieldsTo: ['sweep/not-passive'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      if (swept.kind !== 'set-up') return [];
      const [seen, read] = [swept.seenOhm, swept.readOhm].map((value) =>
        printQuantity({ value: Math.max(0, value), dimension: 'resistance' }),
      );
      const others = otherSetUps(swept);
      return [
        {
          what: say`${filesWords(swept)}: as stated the sweep makes ${sweptBetween(swept)} ${seen ?? ''}, and a meter read ${read ?? ''}. It is not used.`,
          hint:
            others.length > 0
              ? fitsWhere(swept.curve, others)
              : say`The resistor was another one, or something else lay on the leads.`,
          action: say`Look at the resistor and at which side of it the pickup was, and correct the line.`,
          place: sweepPlace(swept),
          remedies: () => setUpRemedies(swept.group.sweeps, swept.curve, others),
        },
      ];
    }),
});
