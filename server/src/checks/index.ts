/**
 * Every check, in the order in which causes are told before what follows from them. A check that yields to one further down does not
 * compile, nor does a code that nothing raises.
 */

import type { Check } from './check.ts';
import { circuitCoilShorted } from './circuit-coil-shorted.ts';
import { circuitOpen } from './circuit-open.ts';
import { circuitOpenPosition } from './circuit-open-position.ts';
import { circuitOpenTap } from './circuit-open-tap.ts';
import { circuitOutputShorted } from './circuit-output-shorted.ts';
import { circuitOutputShortedPosition } from './circuit-output-shorted-position.ts';
import { controlsPotTooSmall } from './controls-pot-too-small.ts';
import { fitPoleSpread } from './fit-pole-spread.ts';
import { fitStrings } from './fit-strings.ts';
import { groundMetalFloating } from './ground-metal-floating.ts';
import { groundMetalFloatingWired } from './ground-metal-floating-wired.ts';
import { groundMetalHot } from './ground-metal-hot.ts';
import { groundMetalHotPosition } from './ground-metal-hot-position.ts';
import { humNotCancelled } from './hum-not-cancelled.ts';
import { humPartlyCancelled } from './hum-partly-cancelled.ts';
import { humPartlyCancelledPosition } from './hum-partly-cancelled-position.ts';
import { humPositionHums } from './hum-position-hums.ts';
import { leadFloating } from './lead-floating.ts';
import { leadFloatingControl } from './lead-floating-control.ts';
import { leadFloatingWired } from './lead-floating-wired.ts';
import { leadReused } from './lead-reused.ts';
import { leadUndeclared } from './lead-undeclared.ts';
import { nameDuplicatePosition } from './name-duplicate-position.ts';
import { nameUnknownPosition } from './name-unknown-position.ts';
import { outputLevelJump } from './output-level-jump.ts';
import type { Code } from './pages.ts';
import { phaseCoilsCancel } from './phase-coils-cancel.ts';
import { phasePositionCancels } from './phase-position-cancels.ts';
import { phaseUnproven } from './phase-unproven.ts';
import { phaseUnprovenPosition } from './phase-unproven-position.ts';
import { pottingParts } from './potting-parts.ts';
import { pottingTooCold } from './potting-too-cold.ts';
import { pottingTooHot } from './potting-too-hot.ts';
import { readingContradicts } from './reading-contradicts.ts';
import { readingContradictsSweep } from './reading-contradicts-sweep.ts';
import { readingSum } from './reading-sum.ts';
import { readingUnlikely, readingUnlikelyMagnetic } from './reading-unlikely.ts';
import { readingUnlikelyPosition } from './reading-unlikely-position.ts';
import { readingWhoseCoil } from './reading-whose-coil.ts';
import { selectorPositionMissing } from './selector-position-missing.ts';
import { sweepCircuitDiffers } from './sweep-circuit-differs.ts';
import { sweepLoaded } from './sweep-loaded.ts';
import { sweepLosses } from './sweep-losses.ts';
import { sweepNotPassive } from './sweep-not-passive.ts';
import { sweepOpen } from './sweep-open.ts';
import { sweepPhaseTurned } from './sweep-phase-turned.ts';
import { sweepPolarity } from './sweep-polarity.ts';
import { sweepSetUp } from './sweep-set-up.ts';
import { sweepShortedTurns } from './sweep-shorted-turns.ts';
import { sweepTooWeak } from './sweep-too-weak.ts';
import { switchCannot } from './switch-cannot.ts';
import { switchCoilOnHot } from './switch-coil-on-hot.ts';
import { switchHotShorted } from './switch-hot-shorted.ts';
import { switchHotShortedLate } from './switch-hot-shorted-late.ts';
import { switchLugServesTwo } from './switch-lug-serves-two.ts';
import { switchLugUnused } from './switch-lug-unused.ts';
import { switchOpensHot } from './switch-opens-hot.ts';
import { switchPositionDiffers } from './switch-position-differs.ts';
import { switchPositionDiffersLate } from './switch-position-differs-late.ts';
import { switchPositionsSame } from './switch-positions-same.ts';
import { switchSilent } from './switch-silent.ts';
import { switchSilentLate } from './switch-silent-late.ts';
import { switchSilentUnnamed } from './switch-silent-unnamed.ts';
import { switchUpsideDown } from './switch-upside-down.ts';
import { targetMissed, targetSoundMissed } from './target-missed.ts';
import { targetSoundUndecided, targetUndecided } from './target-undecided.ts';
import type { TextCode } from './text-code.ts';
import { windingDoesNotFit } from './winding-does-not-fit.ts';
import { windingSpoolTooShort } from './winding-spool-too-short.ts';
import { windingTurnsUnknown } from './winding-turns-unknown.ts';

export const pickupChecks = inOrder([
  leadUndeclared,
  circuitOutputShorted,
  leadReused,
  circuitOpen,
  circuitCoilShorted,
  leadFloating,
  groundMetalHot,
  groundMetalFloating,
  phaseCoilsCancel,
  humNotCancelled,
  phaseUnproven,
  humPartlyCancelled,
  readingContradicts,
  readingContradictsSweep,
  readingWhoseCoil,
  readingUnlikely,
  readingUnlikelyMagnetic,
  readingSum,
  sweepNotPassive,
  sweepPhaseTurned,
  sweepPolarity,
  sweepSetUp,
  sweepOpen,
  sweepCircuitDiffers,
  sweepShortedTurns,
  sweepLoaded,
  sweepLosses,
  sweepTooWeak,
  windingDoesNotFit,
  windingSpoolTooShort,
  windingTurnsUnknown,
  pottingParts,
  pottingTooHot,
  pottingTooCold,
  targetMissed,
  targetSoundMissed,
  targetUndecided,
  targetSoundUndecided,
]);

export const instrumentChecks = inOrder([
  nameDuplicatePosition,
  selectorPositionMissing,
  nameUnknownPosition,
  switchLugServesTwo,
  switchPositionDiffers,
  switchHotShorted,
  switchSilent,
  switchPositionDiffersLate,
  switchHotShortedLate,
  switchSilentLate,
  switchCoilOnHot,
  switchPositionsSame,
  switchUpsideDown,
  switchOpensHot,
  switchCannot,
  switchLugUnused,
  leadFloatingWired,
  leadFloatingControl,
  groundMetalFloatingWired,
  circuitOutputShortedPosition,
  circuitOpenTap,
  circuitOpenPosition,
  phasePositionCancels,
  groundMetalHotPosition,
  humPositionHums,
  phaseUnprovenPosition,
  readingUnlikelyPosition,
  outputLevelJump,
  controlsPotTooSmall,
  fitPoleSpread,
  fitStrings,
  humPartlyCancelledPosition,
  // Behind all that yield to a silent position, which this is none of.
  switchSilentUnnamed,
]);

/** Codes of what is found of a build, and not of how it is written. */
export const buildCodes: ReadonlySet<string> = new Set([
  ...[...pickupChecks, ...instrumentChecks].map(({ code }): Code => code),
  'fit/former-state',
]);

/** Codes that may be found only once the inductances are known. */
export const lateCodes: ReadonlySet<string> = new Set(
  [...pickupChecks, ...instrumentChecks].flatMap(({ code, late }: Check<never>) => (late ? [code] : [])),
);

type Raised = (typeof pickupChecks)[number] | (typeof instrumentChecks)[number];

/** A code in the compiler's words here has a page, and nothing that raises it. */
({}) satisfies Readonly<Record<Exclude<Code, Raised['code'] | TextCode>, never>>;

/** The list, where each check yields only to what is found before it. */
function inOrder<const L extends readonly AnyCheck[]>(checks: L & Ordered<L>): L {
  return checks;
}

type AnyCheck = Pick<Check<never>, 'code' | 'yieldsTo'>;

type Ordered<L, Before = never> = L extends readonly [infer First extends AnyCheck, ...infer Rest]
  ? First['yieldsTo'][number] extends Before
    ? Ordered<Rest, Before | First['code']>
    : readonly { readonly code: `${First['code']} yields to a check that is not above it` }[]
  : unknown;
