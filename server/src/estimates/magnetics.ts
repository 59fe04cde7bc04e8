/**
 * Inductances, couplings, capacitance and eddy losses of the coils of one pickup, from its bobbins, poles and metalwork. Heavy,
 * so made on demand; every integral behind it remembers its geometry.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Coil } from '../model/coil.ts';
import { type InductanceMatrix, inductanceWithPoles, type PlacedCoil } from '../physics/pole-pieces.ts';
import { type Estimate, product } from '../quantities/estimate.ts';
import { type CoilCapacitances, capacitancesOf, neighbours } from './coil-capacitance.ts';
import { airInductance, steelAround, steelBeneath, withPoles } from './coil-inductance.ts';
import type { CoilMagnetics, PickupEddies, PickupMagnetics } from './coil-magnetics.ts';
import { coilCentres, ORIGIN, polesOf, sectionOf } from './coil-places.ts';
import { withInductancesRead } from './inductances-read.ts';
import { capacitanceRead, newestMagnetic } from './measured-magnetics.ts';
import { ownCable } from './own-cable.ts';
import { pickupEddies } from './pickup-eddies.ts';
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

/** What turns, bobbins and metal compute to, no reading of inductance or capacitance in its place. */
export const computedMagnetics = onceFor(compute);

function compute(quick: QuickEstimates): PickupMagnetics {
  const { netlist, windings } = quick;
  const { pickup } = netlist;
  const wound = pickup.coils.flatMap((coil) => {
    const winding = windings.get(coil);
    const section = winding && sectionOf(coil, winding);
    return winding && section ? [{ coil, winding, section }] : [];
  });
  const centres = coilCentres(pickup);
  const placed = wound.map(({ coil, section }): PlacedCoil => ({ section, centre: centres.get(coil) ?? ORIGIN }));
  const rods = pickup.coils.flatMap((coil) => polesOf(coil, centres.get(coil) ?? ORIGIN));
  const matrix: InductanceMatrix =
    placed.length === 0 ? { air: [], total: [], turnAreaOverAir: [] } : inductanceWithPoles({ coils: placed, rods });
  const beneath = product(steelBeneath(pickup), steelAround(pickup));
  const coils = new Map<Coil, CoilMagnetics>();
  wound.forEach(({ coil, winding, section }, index) => {
    const air = matrix.air[index]?.[index] ?? 0;
    const total = matrix.total[index]?.[index] ?? 0;
    const airH = airInductance(air, section, coil, winding, pickup);
    coils.set(coil, {
      coil,
      airH,
      totalH: withPoles(airH, air > 0 ? total / air : 1, coil, pickup, beneath),
      capacitances: capacitancesOf(coil, winding, netlist),
      turnAreaOverAir: matrix.turnAreaOverAir[index] ?? 1,
    });
  });
  const order = wound.map(({ coil }) => coil);
  const mutualSameSenseH: PickupMagnetics['mutualSameSenseH'] = (a, b) => {
    const turns = (coil: Coil) => windings.get(coil)?.turns?.value ?? 0;
    const perTurns = matrix.total[order.indexOf(a)]?.[order.indexOf(b)] ?? 0;
    return perTurns * turns(a) * turns(b) * beneath.value;
  };
  let made: PickupEddies | undefined;
  const eddies = () => {
    made ??= pickupEddies(
      pickup,
      wound.flatMap(({ coil }, index) => {
        const each = placed[index];
        const addedH = (matrix.total[index]?.[index] ?? 0) - (matrix.air[index]?.[index] ?? 0);
        return each ? [{ coil, placed: each, addedH }] : [];
      }),
    );
    return made;
  };
  const lead = ownCable(pickup);
  const between = neighbours(pickup);
  const whole = wholePickup(quick, { coils, mutualSameSenseH, between, eddies }, lead);
  return { coils, mutualSameSenseH, eddies, leadF: lead.value, between, ...whole };
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

/** A reading of the whole capacitance scales what was computed of its parts: their ratios are known better than their size. */
function withCapacitanceRead(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const measured = capacitanceOf(quick, 'whole');
  const ratio = computed.capacitanceF && measured ? measured.value / computed.capacitanceF.value : undefined;
  if (!ratio || !(ratio > 0) || !measured) return computed;
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

const rescaled = (computed: Estimate, ratio: number, measured: Estimate): Estimate => ({
  value: computed.value * ratio,
  sd: computed.value * ratio * (measured.sd / measured.value),
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
