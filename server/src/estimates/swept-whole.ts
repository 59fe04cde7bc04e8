/** A pickup whose coils nobody knows, closed as it came: what its sweep tells of it between its two leads, and of no coil by itself. */

import { onceFor } from '../../../grammar/values/remember.ts';
import type { Coil } from '../model/coil.ts';
import type { Selection } from '../model/instrument.ts';
import { partsOf } from '../model/selection.ts';
import { coilPath } from './causes.ts';
import { estimateWinding } from './coil-winding.ts';
import { areCoilsKnown } from './magnetics.ts';
import type { QuickOf } from './position-network.ts';
import type { QuickEstimates } from './quick.ts';
import { type SweptCoil, sweepWords } from './sweeps-measured.ts';
import { holdingSweep } from './sweeps-used.ts';

/** The sweep between hot and ground that stands for coils of which inductance or resistance is not known. */
export function sweptWhole(quick: QuickEstimates): SweptCoil | undefined {
  const swept = holdingSweep(quick, 'whole');
  const isTold = swept && !swept.tooWeak.includes('inductance') && !swept.tooWeak.includes('capacitance');
  return isTold && !areCoilsKnown(quick) ? swept : undefined;
}

/**
 * What such a pickup is between its leads: one coil with its losses, from the sweep alone. What turns give, and what metal takes of the
 * strings' field, stays unknown. Any other pickup as it is.
 */
export const asSwept = (quick: QuickEstimates): QuickEstimates => asOneCoil(quick) ?? quick;

/** In a position, those that sound joined as they were swept. Of what sounds otherwise, a coil by itself say, such a sweep tells nothing. */
export function quickAsSwept(selection: Selection, quickOf: QuickOf): QuickOf {
  const parts = partsOf(selection);
  const isWhole = (pickup: Parameters<QuickOf>[0]) =>
    parts.every((part) => part.slot.pickup !== pickup || part.kind === 'pickup');
  return (pickup) => {
    const quick = quickOf(pickup);
    return isWhole(pickup) ? asSwept(quick) : quick;
  };
}

const asOneCoil = onceFor((quick: QuickEstimates): QuickEstimates | undefined => {
  const swept = sweptWhole(quick);
  const { netlist, signs } = quick;
  const { hot, ground, pickup } = netlist;
  const [first] = pickup.coils;
  if (!swept || !first || hot === undefined || ground === undefined) return undefined;
  const coil: Coil = { ...first, ...NO_COIL_IN_IT, name: pickup.name };
  // From ground to hot the one coil is passed from its start: what strings do in it goes the way that they do in the pickup.
  const heard = signs.find(({ string }) => string);
  const at20COhm = quick.resistance20COhm ?? swept.resistance20COhm;
  const reading = { at20COhm, words: sweepWords(swept.group) };
  return {
    ...quick,
    coilsSweptWhole: pickup.coils.length,
    netlist: {
      ...netlist,
      pickup: { ...pickup, coils: [coil] },
      windings: [{ coil, start: ground, finish: hot, taps: [], ends: 'stated', unseen: false }],
    },
    windings: new Map([[coil, estimateWinding(coil, reading, coilPath(pickup, coil))]]),
    readings: new Map([[coil, reading]]),
    signs: signs.flatMap((each) =>
      each === heard && each.windPole && each.string
        ? [{ ...each, coil, windPole: { ...each.windPole, sign: each.string } }]
        : [],
    ),
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
