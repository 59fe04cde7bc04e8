import { defineInstrumentCheck } from './instrument-check.ts';
import { faultCheck } from './switch-faults.ts';

/** As wired, nothing drives hot in some positions, and all that is wrong is that. */
export const switchSilent = defineInstrumentCheck({
  ...faultCheck('switch/silent'),
  severity: 'error',
  yieldsTo: ['switch/lug-serves-two', 'switch/position-differs', 'switch/hot-shorted'],
});
