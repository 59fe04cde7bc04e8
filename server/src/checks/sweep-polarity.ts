import { phaseFault } from '../estimates/sweep-faults.ts';
import { sweepsOf } from '../model/sweeps.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';

export const sweepPolarity = definePickupCheck({
  code: 'sweep/polarity',
  severity: 'warning',
  yieldsTo: ['sweep/not-passive'],
  run: ({ pickup }) =>
    sweepsOf(pickup).flatMap(({ sweep }) => {
      if (phaseFault(sweep) !== 'inverted') return [];
      return [
        {
          what: say`${sweep.file.value}: phase begins near 180°, so one of the two inputs is inverted. It is read turned over.`,
          hint: say`A plug, a cable or a switch of the interface turns one channel over.`,
          action: say`Record both channels alike, or take 180° from the column.`,
          place: sweep.file.place,
        },
      ];
    }),
});
