/** Every check of an instrument, in the order in which causes are told before what follows from them. */
import type { InstrumentCheck } from './instrument-check.ts';
import { positionCancels } from './position-cancels.ts';
import { positionHums } from './position-hums.ts';
import { positionMetalHot } from './position-metal-hot.ts';
import { positionPartlyCancelled } from './position-partly-cancelled.ts';
import { positionSilent } from './position-silent.ts';

/** Solved at 0 Hz: ready with the other findings. */
export const instrumentChecks: readonly InstrumentCheck[] = [
  positionSilent,
  positionCancels,
  positionMetalHot,
  positionHums,
];

/** These need inductances, so they follow. */
export const heavyInstrumentChecks: readonly InstrumentCheck[] = [positionPartlyCancelled];
