/** Two coils swept by themselves and together: what each gives to the other, and whether the stated winding directions make as much. */
import type { Coil } from '../model/coil.ts';
import { type Estimate, scale } from '../quantities/estimate.ts';
import { READING_SPREAD_SD } from './common-practice.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import { ownCable } from './own-cable.ts';
import type { QuickEstimates } from './quick.ts';
import type { SweptCoil } from './sweeps-measured.ts';
import { sweptTogether } from './sweeps-together.ts';
import { holdingSweep } from './sweeps-used.ts';
import { wholePickup } from './whole-pickup.ts';

export interface SweptCoupling {
  readonly coils: readonly [Coil, Coil];
  readonly alone: readonly [SweptCoil, SweptCoil];
  readonly together: SweptCoil;
  readonly isSeries: boolean;
  /** What each coil gives to the other as they are joined, below 0 where it takes: their mutual inductance, counted along the current. H. */
  readonly measured: Estimate;
  /** The same as turns, bobbins and stated directions compute it. */
  readonly expectedH: number;
}

/**
 * `undefined` where not all three were swept. The sign of the mutual inductance is that of the current's turning, direction · wind, as
 * hum's.
 */
export function sweptCoupling(quick: QuickEstimates): SweptCoupling | undefined {
  const [pair, more] = sweptTogether(quick.netlist, quick.bench).coupled;
  if (!pair || more) return undefined;
  const [a, b] = pair.coils;
  const together = holdingSweep(quick, 'whole');
  const [first, second] = [holdingSweep(quick, a), holdingSweep(quick, b)];
  if (!together || !first || !second) return undefined;
  const { mutualH, shares } = wholePickup(quick, computedMagnetics(quick), ownCable(quick.netlist.pickup));
  // Of directions that nobody stated nothing can be said to be otherwise.
  const isStated = pair.coils.every((coil) => quick.signs.find((each) => each.coil === coil)?.wind !== undefined);
  const along = (shares.get(a) ?? 0) * (shares.get(b) ?? 0);
  if (!isStated || along === 0 || mutualH === 0) return undefined;
  return {
    coils: pair.coils,
    alone: [first, second],
    together,
    isSeries: Math.abs(along) > 0.9,
    measured: scale(pair.mutualH, Math.sign(along)),
    expectedH: mutualH / (2 * Math.abs(along)),
  };
}

/** True where the sign is known, and is not the one that is stated. */
export const isOtherWay = ({ measured, expectedH }: SweptCoupling): boolean =>
  Math.abs(measured.value) > READING_SPREAD_SD * measured.sd && measured.value * expectedH < 0;
