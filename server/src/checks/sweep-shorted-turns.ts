import { newestSwept, shortedTurns } from '../estimates/sweep-diagnosis.ts';
import { printCount, printNumber, printQuantity } from '../quantities/print.ts';
import { coilWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

export const sweepShortedTurns = definePickupCheck({
  code: 'sweep/shorted-turns',
  severity: 'warning',
  late: true,
  yieldsTo: ['sweep/set-up', 'sweep/open', 'sweep/circuit-differs'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      const shorted = swept.kind === 'coil' ? shortedTurns(swept, quick) : undefined;
      if (!shorted) return [];
      const { coil, share, cornerHz, quality } = shorted;
      const turns = quick.windings.get(coil)?.turns;
      const some = turns
        ? say` (some ${printCount(Number((share * turns.value).toPrecision(2)))} of ${printCount(turns.value)})`
        : '';
      const above = printQuantity({ value: cornerHz, dimension: 'frequency', digits: 2 });
      const ohms = ({ value, sd }: { readonly value: number; readonly sd: number }) =>
        printQuantity({ value, sd, dimension: 'resistance' });
      const stated = coil.counted ?? coil.turns;
      return [
        {
          what: say`${capital(coilWords(coil))} has shorted turns, about ${printNumber(100 * share, share < 0.02 ? 1 : 0)}\u202F%${some}: above ${above} most of its inductance is gone, and ${ohms(quality.resistance)} instead of ${ohms(quality.computed)} fits it.`,
          hint: say`A cover would leave the resistance alone.`,
          action: say`Unwind from the finish and sweep every 200 turns: the share falls to nothing where the short was. Else rewind the coil.`,
          place: sweepPlace(swept),
          related: stated ? { message: say`the turns`, place: stated.place } : undefined,
          subject: { coils: [coil.name] },
        },
      ];
    }),
});
