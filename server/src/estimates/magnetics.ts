/** Inductances, couplings, capacitance and eddy losses of the coils of one pickup: as read and swept, else as computed. */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Coil } from '../model/coil.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { CoilCapacitances } from './coil-capacitance.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import { withInductancesRead } from './inductances-read.ts';
import { capacitanceRead, newestMagnetic } from './measured-magnetics.ts';
import { ownCable } from './own-cable.ts';
import type { QuickEstimates } from './quick.ts';
import { sweptNumbers, withSweptCoils, withSweptLosses } from './sweeps-used.ts';
import { wholePickup } from './whole-pickup.ts';

export const pickupMagnetics = onceFor(
  (quick: QuickEstimates): PickupMagnetics =>
    withCapacitanceRead(
      withInductancesRead(
        withCoilCapacitances(withSweptLosses(withSweptCoils(computedMagnetics(quick), quick), quick), quick),
        quick,
      ),
      quick,
    ),
);

/** Of every coil inductance and resistance, so that it can be put into a circuit. */
export function areCoilsKnown(quick: QuickEstimates): boolean {
  const { netlist, windings } = quick;
  const { coils } = pickupMagnetics(quick);
  return (
    netlist.pickup.coils.length > 0 &&
    netlist.pickup.coils.every((coil) => coils.has(coil) && windings.get(coil)?.resistance20COhm)
  );
}

/** A capacitance that was read across one coil is its winding's. */
function withCoilCapacitances(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const read = new Map(
    [...computed.coils.keys()].flatMap((coil) => {
      const farad = capacitanceOf(quick, coil);
      return farad ? [[coil, farad] as const] : [];
    }),
  );
  if (read.size === 0) return computed;
  const coils = new Map(
    [...computed.coils].map(([coil, each]) => {
      const windingF = read.get(coil) ?? each.capacitances.windingF;
      return [coil, { ...each, capacitances: { ...each.capacitances, windingF } }];
    }),
  );
  const { capacitanceF } = wholePickup(quick, { ...computed, coils }, ownCable(quick.netlist.pickup));
  return { ...computed, coils, capacitanceF };
}

/** By a sweep, else by a line. */
function capacitanceOf(quick: QuickEstimates, of: 'whole' | Coil): Estimate | undefined {
  const line = newestMagnetic(quick.netlist, 'capacitance', of);
  return sweptNumbers(quick, of).capacitanceF ?? (line && capacitanceRead(line));
}

/**
 * A reading of the whole capacitance scales what was computed of its parts: their ratios are known better than their size. Where each coil
 * was measured by itself, what is left is its cable's.
 */
function withCapacitanceRead(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const measured = capacitanceOf(quick, 'whole');
  const ratio = computed.capacitanceF && measured ? measured.value / computed.capacitanceF.value : undefined;
  if (!ratio || !(ratio > 0) || !measured) return computed;
  const leadF = computed.leadF + measured.value - (computed.capacitanceF?.value ?? 0);
  const isEachMeasured = [...computed.coils.values()].every(
    ({ capacitances }) => capacitances.windingF.basis === 'reading',
  );
  if (isEachMeasured && leadF >= 0) return { ...computed, capacitanceF: measured, leadF };
  return {
    ...computed,
    coils: new Map(
      [...computed.coils].map(([coil, each]) => [
        coil,
        { ...each, capacitances: rescaledAll(each.capacitances, ratio, measured) },
      ]),
    ),
    capacitanceF: measured,
    leadF: computed.leadF * ratio,
    between: computed.between.map(({ farad, ...pair }) => ({ ...pair, farad: rescaled(farad, ratio, measured) })),
  };
}

/** Its share of the whole is as well known as what is computed of it, and the better the more of the whole it is. */
const rescaled = (computed: Estimate, ratio: number, measured: Estimate): Estimate => ({
  value: computed.value * ratio,
  sd:
    ratio *
    Math.hypot(
      computed.value * (measured.sd / measured.value),
      computed.sd * Math.max(0, 1 - (computed.value * ratio) / measured.value),
    ),
  basis: 'computed',
  restsOn: [...new Set([...measured.restsOn, ...computed.restsOn])],
});

const rescaledAll = (
  { windingF, startF, finishF, facesF }: CoilCapacitances,
  ratio: number,
  measured: Estimate,
): CoilCapacitances => ({
  windingF: rescaled(windingF, ratio, measured),
  startF: rescaled(startF, ratio, measured),
  finishF: rescaled(finishF, ratio, measured),
  facesF: rescaled(facesF, ratio, measured),
});
