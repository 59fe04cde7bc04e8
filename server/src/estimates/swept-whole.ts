/** A pickup whose coils nobody knows, closed as it came: what its sweep tells of it between its two leads, and of no coil by itself. */

import { restingOn } from '../quantities/estimate.ts';
import type { PickupEstimates } from './estimates.ts';
import { pickupMagnetics } from './magnetics.ts';
import { areCoilsKnown, type Load } from './pickup-estimates.ts';
import type { QuickEstimates } from './quick.ts';
import type { SweptCoil } from './sweeps-measured.ts';
import { holdingSweep } from './sweeps-used.ts';
import { peakUnderLoad } from './swept-levels.ts';

/** The sweep between hot and ground that stands for coils of which inductance or resistance is not known. */
export function sweptWhole(quick: QuickEstimates): SweptCoil | undefined {
  const swept = holdingSweep(quick, 'whole');
  const isTold = swept && !swept.tooWeak.includes('inductance') && !swept.tooWeak.includes('capacitance');
  return isTold && !areCoilsKnown(quick, pickupMagnetics(quick)) ? swept : undefined;
}

/** Its numbers under a load where the coils tell none. What turns give and what a position joins otherwise stays unknown. */
export function withSweptWhole(estimates: PickupEstimates, quick: QuickEstimates, load: Load): PickupEstimates {
  const swept = sweptWhole(quick);
  if (!swept) return estimates;
  const { inductanceH, capacitanceF, resistance20COhm } = swept;
  const peak = peakUnderLoad(swept, load);
  return {
    ...estimates,
    resistance20COhm: estimates.resistance20COhm ?? resistance20COhm,
    inductanceH,
    capacitanceF,
    resonanceHz: peak ? restingOn(peak.hz, load.words) : null,
    peakDb: peak && restingOn(peak.db, load.words),
  };
}
