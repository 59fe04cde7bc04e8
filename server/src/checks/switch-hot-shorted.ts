import { defineInstrumentCheck } from './instrument-check.ts';
import { faultCheck } from './switch-faults.ts';

/** As wired, hot lies on ground in some positions, and all that is wrong is that. */
export const switchHotShorted = defineInstrumentCheck({
  ...faultCheck('switch/hot-shorted'),
  severity: 'error',
  yieldsTo: ['switch/lug-serves-two', 'switch/position-differs'],
});
