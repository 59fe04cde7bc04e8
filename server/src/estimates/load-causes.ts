/** What is known of what hangs on a pickup, each as a factor round 1: tolerances are limits, here the sd of an even distribution. */
import type { Instrument } from '../model/instrument.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { causes } from './causes.ts';
import { CABLE_RELATIVE_SD, CAPACITOR_TOLERANCE, POT_TOLERANCE } from './common-practice.ts';
import type { Played } from './position-network.ts';

/**
 * Tracks of so many pots across a circuit, as one factor. Each is off by itself, so that together they are off by the root of their number
 * less: exact where all load alike.
 */
export const tracksCause = (count: number): Estimate =>
  estimateOf(1, { sd: POT_TOLERANCE / Math.sqrt(3 * Math.max(1, count)), basis: 'assumed', source: causes.pots });

/** Controls that stand across a position: those of the instrument, and those of its pickups. */
export const controlsAcross = ({ controls }: Instrument, slots: readonly string[]): Instrument['controls'] =>
  controls.filter(({ forSlot }) => !forSlot || slots.includes(forSlot.value));

/** Capacitors of tone controls and bleeds, all alike. */
export const CAPACITORS_CAUSE: Estimate = estimateOf(1, {
  sd: CAPACITOR_TOLERANCE / Math.sqrt(3),
  basis: 'assumed',
  source: causes.capacitors,
});

/** A cable's capacitance as stated, as assumed where none is stated, and as chosen to look at. */
export function cableCause({ cable }: Instrument, { cableF }: Played): Estimate {
  const sd = cableF !== undefined ? 0 : CABLE_RELATIVE_SD[cable ? 'stated' : 'assumed'];
  return estimateOf(1, { sd, basis: cable ? 'stated' : 'assumed', source: causes.cable });
}
