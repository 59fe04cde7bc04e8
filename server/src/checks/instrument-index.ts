/** Every check of an instrument, in the order in which causes are told before what follows from them. */

import { positionSilent } from './circuit-open-position.ts';
import { positionTapLoose } from './circuit-open-tap.ts';
import { positionShorted } from './circuit-output-shorted-position.ts';
import { controlsPotTooSmall } from './controls-pot-too-small.ts';
import { fitPoleSpread } from './fit-pole-spread.ts';
import { fitStrings } from './fit-strings.ts';
import { positionMetalHot } from './ground-metal-hot-position.ts';
import { positionPartlyCancelled } from './hum-partly-cancelled-position.ts';
import { positionHums } from './hum-position-hums.ts';
import type { InstrumentCheck } from './instrument-check.ts';
import { positionDoubled } from './name-duplicate-position.ts';
import { positionUnknown } from './name-unknown-position.ts';
import { outputLevelJump } from './output-level-jump.ts';
import { positionCancels } from './phase-position-cancels.ts';
import { positionUnproven } from './phase-unproven-position.ts';
import { positionReadingUnlikely } from './reading-unlikely-position.ts';
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
