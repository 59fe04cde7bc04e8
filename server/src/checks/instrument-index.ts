/** Every check of an instrument, in the order in which causes are told before what follows from them. */
import { controlsPotTooSmall } from './controls-pot-too-small.ts';
import { fitPoleSpread } from './fit-pole-spread.ts';
import { fitStrings } from './fit-strings.ts';
import type { InstrumentCheck } from './instrument-check.ts';
import { outputLevelJump } from './output-level-jump.ts';
import { positionCancels } from './position-cancels.ts';
import { positionDoubled } from './position-doubled.ts';
import { positionHums } from './position-hums.ts';
import { positionMetalHot } from './position-metal-hot.ts';
import { positionPartlyCancelled } from './position-partly-cancelled.ts';
import { positionReadingUnlikely } from './position-reading-unlikely.ts';
import { positionShorted } from './position-shorted.ts';
import { positionSilent } from './position-silent.ts';
import { positionTapLoose } from './position-tap-loose.ts';
import { positionUnknown } from './position-unknown.ts';
import { positionUnproven } from './position-unproven.ts';
import { selectorPositionMissing } from './selector-position-missing.ts';

/** Solved at 0 Hz: ready with the other findings. */
export const instrumentChecks: readonly InstrumentCheck[] = [
  positionDoubled,
  selectorPositionMissing,
  positionUnknown,
  positionShorted,
  positionTapLoose,
  positionSilent,
  positionCancels,
  positionMetalHot,
  positionHums,
  positionUnproven,
  positionReadingUnlikely,
  outputLevelJump,
  controlsPotTooSmall,
  fitPoleSpread,
  fitStrings,
];

/** These need inductances, so they follow. */
export const heavyInstrumentChecks: readonly InstrumentCheck[] = [positionPartlyCancelled];
