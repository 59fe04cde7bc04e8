import { defineInstrumentCheck } from './instrument-check.ts';
import { faultCheck } from './switch-faults.ts';

/** As wired, a position sounds otherwise than it says; with one cause, told at the end to be moved. */
export const switchPositionDiffers = defineInstrumentCheck({
  ...faultCheck('switch/position-differs'),
  severity: 'error',
  yieldsTo: ['switch/lug-serves-two'],
});
