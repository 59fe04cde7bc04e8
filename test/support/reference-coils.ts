import type { CoilSection } from '../../server/src/physics/inductance.ts';
import type { Racetrack } from '../../server/src/physics/racetrack.ts';
import { numberAt } from './reference-cases.ts';

/** The core of a reference case, millimetres to metres. */
export function coreOf(inputs: Record<string, unknown>): Racetrack {
  return {
    straightM: numberAt(inputs, 'straightMm') * 1e-3,
    straightAcrossM: numberAt(inputs, 'straightAcrossMm') * 1e-3,
    innerRadiusM: numberAt(inputs, 'innerRadiusMm') * 1e-3,
  };
}

/** The winding section of a reference case. */
export function sectionOf(inputs: Record<string, unknown>): CoilSection {
  return {
    core: coreOf(inputs),
    buildM: numberAt(inputs, 'buildMm') * 1e-3,
    heightM: numberAt(inputs, 'heightMm') * 1e-3,
  };
}
