import { newestSwept } from '../estimates/sweep-diagnosis.ts';
import { printQuantity } from '../quantities/print.ts';
import { filesWords } from '../words/sweep-words.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

/** No control and no input is larger: so little is what a coil of many layers differs from its formula by. */
const MOST_OHM = 5e6;

export const sweepLoaded = definePickupCheck({
  code: 'sweep/loaded',
  severity: 'warning',
  late: true,
  yieldsTo: ['sweep/set-up', 'sweep/open', 'sweep/circuit-differs'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      if (swept.kind !== 'coil' || swept.verdict === 'does not hold' || !swept.acrossOhm) return [];
      if (swept.acrossOhm.value > MOST_OHM) return [];
      const about = printQuantity({ value: swept.acrossOhm.value, dimension: 'resistance', digits: 2 });
      return [
        {
          what: say`${filesWords(swept)}: about ${about} lie across the pickup; they are taken out of its numbers.`,
          hint: say`A control was left on, or another input lay beside it.`,
          action: say`Take the pickup off its controls and sweep again.`,
          place: sweepPlace(swept),
        },
      ];
    }),
});
