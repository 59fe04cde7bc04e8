/** Every check of a pickup, in the order in which causes are told before what follows from them. */

import type { PickupCheck } from './check.ts';
import { circuitCoilShorted } from './circuit-coil-shorted.ts';
import { circuitOpen } from './circuit-open.ts';
import { circuitOutputShorted } from './circuit-output-shorted.ts';
import { groundMetalFloating } from './ground-metal-floating.ts';
import { groundMetalHot } from './ground-metal-hot.ts';
import { humNotCancelled } from './hum-not-cancelled.ts';
import { humPartlyCancelled } from './hum-partly-cancelled.ts';
import { leadFloating } from './lead-floating.ts';
import { leadReused } from './lead-reused.ts';
import { leadUndeclared } from './lead-undeclared.ts';
import { coilsCancel } from './phase-coils-cancel.ts';
import { phaseUnproven } from './phase-unproven.ts';
import { pottingParts } from './potting-parts.ts';
import { pottingTooCold } from './potting-too-cold.ts';
import { pottingTooHot } from './potting-too-hot.ts';
import { readingContradicts } from './reading-contradicts.ts';
import { readingSum } from './reading-sum.ts';
import { readingUnlikely } from './reading-unlikely.ts';
import { targetResistanceMissed, targetSoundMissed } from './target-missed.ts';
import { windingDoesNotFit } from './winding-does-not-fit.ts';
import { windingSpoolShort } from './winding-spool-too-short.ts';
import { windingTurnsUnknown } from './winding-turns-unknown.ts';

export const pickupChecks: readonly PickupCheck[] = [
  leadUndeclared,
  circuitOutputShorted,
  leadReused,
  circuitOpen,
  circuitCoilShorted,
  leadFloating,
  groundMetalHot,
  groundMetalFloating,
  coilsCancel,
  humNotCancelled,
  phaseUnproven,
  humPartlyCancelled,
  readingContradicts,
  readingUnlikely,
  readingSum,
  windingDoesNotFit,
  windingSpoolShort,
  windingTurnsUnknown,
  pottingParts,
  pottingTooHot,
  pottingTooCold,
  targetResistanceMissed,
];

/** These need inductances, so they follow. */
export const heavyPickupChecks: readonly PickupCheck[] = [targetSoundMissed];
