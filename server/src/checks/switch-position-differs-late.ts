import { defineInstrumentCheck } from './instrument-check.ts';
import { lateFaultCheck } from './switch-faults.ts';

/** As wired, a position sounds otherwise than it says, and that is no matter of one end among few. */
export const switchPositionDiffersLate = defineInstrumentCheck({
  ...lateFaultCheck('switch/position-differs'),
  severity: 'error',
  yieldsTo: ['switch/lug-serves-two'],
});
