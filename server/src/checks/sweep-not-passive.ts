import { moreThanGiven } from '../estimates/sweep-faults.ts';
import { sweepsOf } from '../model/sweeps.ts';
import { printQuantity } from '../quantities/print.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';

export const sweepNotPassive = definePickupCheck({
  code: 'sweep/not-passive',
  severity: 'error',
  yieldsTo: [],
  run: ({ pickup }) =>
    sweepsOf(pickup).flatMap(({ sweep }) => {
      const more = moreThanGiven(sweep);
      if (!more) return [];
      const at = printQuantity({ value: more.hz, sd: 0, dimension: 'frequency' });
      return [
        {
          what: say`${sweep.file.value}, row ${more.row}: ${more.times.toFixed(2)} times its reference at ${at}, and a pickup with a resistor never gives more than it gets.`,
          hint: say`The channels are exchanged, or their gains differ.`,
          action: say`Exchange the two inputs, bring their gains together with both on one node, and sweep again.`,
          place: sweep.file.place,
        },
      ];
    }),
});
