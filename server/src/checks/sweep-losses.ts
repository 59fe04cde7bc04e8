import { newestSwept, otherLosses } from '../estimates/sweep-diagnosis.ts';
import { printNumber, printQuantity } from '../quantities/print.ts';
import { filesWords, lossWords } from '../words/sweep-words.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

export const sweepLosses = definePickupCheck({
  code: 'sweep/losses',
  severity: 'warning',
  late: true,
  yieldsTo: ['sweep/set-up', 'sweep/open', 'sweep/circuit-differs', 'sweep/shorted-turns'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      const other = swept.kind === 'coil' ? otherLosses(swept, quick) : undefined;
      if (!other || swept.kind !== 'coil') return [];
      const { computed, times } = other;
      const before =
        computed.share > 0
          ? say`${printNumber(100 * computed.share, 0)}\u202F% from ${printQuantity({ value: computed.cornerHz, dimension: 'frequency', digits: 2 })}`
          : 'nothing';
      return [
        {
          what: say`${filesWords(swept)}: ${lossWords(swept) ?? ''} With the metal stated, ${before} is computed.`,
          hint:
            times > 1
              ? say`There is more metal near the coil than stated, or it conducts better; steel on the bench does it, too.`
              : say`There is less metal near the coil than stated, or it conducts worse.`,
          action: say`Look at cover, baseplate and poles, and state the metal that is there. What was measured is used.`,
          place: sweepPlace(swept),
          subject: { coils: [other.coil.name] },
        },
      ];
    }),
});
