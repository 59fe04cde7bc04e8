import { defineInstrumentCheck } from './instrument-check.ts';
import { lateFaultCheck } from './switch-faults.ts';

/** As wired, hot lies on ground in a position, and that is no matter of one end among few. */
export const switchHotShortedLate = defineInstrumentCheck({
  ...lateFaultCheck('switch/hot-shorted'),
  severity: 'error',
  yieldsTo: ['switch/lug-serves-two', 'switch/position-differs'],
});
