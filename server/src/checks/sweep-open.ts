import { newestSwept } from '../estimates/sweep-diagnosis.ts';
import { printQuantity } from '../quantities/print.ts';
import { betweenWords, filesWords } from '../words/sweep-words.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

export const sweepOpen = definePickupCheck({
  code: 'sweep/open',
  severity: 'error',
  late: true,
  yieldsTo: ['sweep/not-passive', 'sweep/polarity'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      if (swept.kind !== 'open') return [];
      const only = printQuantity({ ...swept.capacitanceF, dimension: 'capacitance' });
      return [
        {
          what: say`${filesWords(swept)}: only ${only} lie ${betweenWords(swept)}, and no resistance.`,
          hint: say`A coil or a joint is broken: what is left is the capacitance of winding, lead and recorder.`,
          action: say`Read each coil by itself; where one is open, look at its ends before the winding is given up.`,
          place: sweepPlace(swept),
        },
      ];
    }),
});
