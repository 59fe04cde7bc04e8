import { phaseFault } from '../estimates/sweep-faults.ts';
import { sweepsOf } from '../model/sweeps.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';

export const sweepPhaseTurned = definePickupCheck({
  code: 'sweep/phase-turned',
  severity: 'warning',
  yieldsTo: ['sweep/not-passive'],
  run: ({ pickup }) =>
    sweepsOf(pickup).flatMap(({ sweep }) => {
      if (phaseFault(sweep) !== 'turned') return [];
      const isLess = sweep.setUp.kind === 'over';
      return [
        {
          what: say`${sweep.file.value}: phase ${isLess ? 'leads where the current of a coil lags' : 'lags where a coil leads'}. It is read with the other sign.`,
          hint: say`The program that saved it counts phase the other way round.`,
          action: say`Turn the sign of the column, so that phase is positive where the pickup leads its reference.`,
          place: sweep.file.place,
        },
      ];
    }),
});
