/** A pickup whose coils nobody knows, closed as it came: what its sweep tells of it between its two leads, and of no coil by itself. */

import { onceFor } from '../../../grammar/values/remember.ts';
import type { Coil } from '../model/coil.ts';
import type { Selection } from '../model/instrument.ts';
import { partsOf } from '../model/selection.ts';
import { restingOn } from '../quantities/estimate.ts';
import { coilPath } from './causes.ts';
import { estimateWinding } from './coil-winding.ts';
import type { PickupEstimates } from './estimates.ts';
import { pickupMagnetics } from './magnetics.ts';
import { areCoilsKnown, type Load } from './pickup-estimates.ts';
import type { QuickOf } from './position-network.ts';
import type { QuickEstimates } from './quick.ts';
import { type SweptCoil, sweepWords } from './sweeps-measured.ts';
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
    isSweptWhole: true,
    resistance20COhm: estimates.resistance20COhm ?? resistance20COhm,
    inductanceH,
    capacitanceF,
    resonanceHz: peak ? restingOn(peak.hz, load.words) : null,
    peakDb: peak && restingOn(peak.db, load.words),
  };
}

/**
 * In a position, pickups that sound joined as they were swept are what was measured between their leads: one coil with its losses. Of what
 * sounds otherwise, a coil by itself say, such a sweep tells nothing.
 */
export function quickAsSwept(selection: Selection, quickOf: QuickOf): QuickOf {
  const parts = partsOf(selection);
  const isWhole = (pickup: Parameters<QuickOf>[0]) =>
    parts.every((part) => part.slot.pickup !== pickup || part.kind === 'pickup');
  return (pickup) => {
    const quick = quickOf(pickup);
    return isWhole(pickup) ? (asOneCoil(quick) ?? quick) : quick;
  };
}

const asOneCoil = onceFor((quick: QuickEstimates): QuickEstimates | undefined => {
  const swept = sweptWhole(quick);
  const { netlist } = quick;
  const { hot, ground, pickup } = netlist;
  const [first] = pickup.coils;
  if (!swept || !first || hot === undefined || ground === undefined) return undefined;
  const coil: Coil = { ...first, ...NO_COIL_IN_IT, name: pickup.name };
  const at20COhm = quick.resistance20COhm ?? swept.resistance20COhm;
  const reading = { at20COhm, words: sweepWords(swept.group) };
  return {
    ...quick,
    isSweptWhole: true,
    netlist: {
      ...netlist,
      pickup: { ...pickup, coils: [coil] },
      windings: [{ coil, start: ground, finish: hot, taps: [], ends: 'stated', unseen: false }],
    },
    windings: new Map([[coil, estimateWinding(coil, reading, coilPath(pickup, coil))]]),
    readings: new Map([[coil, reading]]),
    signs: [],
    resistance20COhm: at20COhm,
  };
});

/** What is known of one of the coils is not of all of them. */
const NO_COIL_IN_IT = {
  bobbin: undefined,
  wire: undefined,
  spool: undefined,
  turns: undefined,
  counted: undefined,
  wound: undefined,
  polarity: undefined,
  taps: [],
  serves: undefined,
  below: undefined,
  foil: undefined,
} satisfies Partial<Coil>;
