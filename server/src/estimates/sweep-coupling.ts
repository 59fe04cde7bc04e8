/** Two coils swept each by itself and together: what each gives to the other, and whether the stated winding directions make as much. */
import type { Coil } from '../model/coil.ts';
import { type Estimate, linear } from '../quantities/estimate.ts';
import { READING_SPREAD_SD } from './common-practice.ts';
import { computedMagnetics } from './magnetics.ts';
import { ownCable } from './own-cable.ts';
import type { QuickEstimates } from './quick.ts';
import type { SweptCoil } from './sweeps-measured.ts';
import { holdingSweep } from './sweeps-used.ts';
import { wholePickup } from './whole-pickup.ts';

export interface SweptCoupling {
  readonly coils: readonly [Coil, Coil];
  readonly alone: readonly [SweptCoil, SweptCoil];
  readonly together: SweptCoil;
  /** Of both together less each alone: twice the mutual inductance, above 0 where they add. H. */
  readonly measured: Estimate;
  /** The same as turns, bobbins and stated directions compute it. */
  readonly expectedH: number;
}

/**
 * `undefined` where not all three were swept, or not in series. Sweeps through one resistor share its error, which a difference of them
 * takes out as far as it is of one sign. The sign of the mutual inductance is that of the current's turning, direction · wind, as hum's.
 */
export function sweptCoupling(quick: QuickEstimates): SweptCoupling | undefined {
  const { coils } = quick.netlist.pickup;
  const [a, b, more] = coils;
  if (!a || !b || more) return undefined;
  const together = holdingSweep(quick, 'whole');
  const [first, second] = [holdingSweep(quick, a), holdingSweep(quick, b)];
  if (!together || !first || !second) return undefined;
  const computed = computedMagnetics(quick);
  const { mutualH, slopes } = wholePickup(quick, computed, ownCable(quick.netlist.pickup));
  if (slopes.size < 2 || mutualH === 0) return undefined;
  const sum = first.inductanceH.value + second.inductanceH.value;
  // In parallel much less of both is left.
  if (together.inductanceH.value < sum / 2) return undefined;
  const measured = linear([together.inductanceH, first.inductanceH, second.inductanceH], [1, -1, -1]);
  return { coils: [a, b], alone: [first, second], together, measured, expectedH: mutualH };
}

/** True where the sign is known, and is not the one that is stated. */
export const isOtherWay = ({ measured, expectedH }: SweptCoupling): boolean =>
  Math.abs(measured.value) > READING_SPREAD_SD * measured.sd && measured.value * expectedH < 0;
