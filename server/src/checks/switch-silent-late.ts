import { defineInstrumentCheck } from './instrument-check.ts';
import { lateFaultCheck } from './switch-faults.ts';

/** As wired, a position is silent, and that is no matter of one end among few. */
export const switchSilentLate = defineInstrumentCheck({
  ...lateFaultCheck('switch/silent'),
  severity: 'error',
  yieldsTo: ['switch/lug-serves-two', 'switch/position-differs', 'switch/hot-shorted'],
});
