/**
 * Inductances, couplings, capacitance and eddy losses of the coils of one pickup, computed from its bobbins, poles and metalwork. Heavy,
 * so made on demand; every integral behind it remembers its geometry.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Coil } from '../model/coil.ts';
import { type InductanceMatrix, inductanceWithPoles, type PlacedCoil } from '../physics/pole-pieces.ts';
import { product } from '../quantities/estimate.ts';
import { capacitancesOf, neighbours } from './coil-capacitance.ts';
import { airInductance, steelAround, steelBeneath, withPoles } from './coil-inductance.ts';
import type { CoilMagnetics, PickupEddies, PickupMagnetics } from './coil-magnetics.ts';
import { coilCentres, ORIGIN, polesOf, sectionOf } from './coil-places.ts';
import { ownCable } from './own-cable.ts';
import { pickupEddies } from './pickup-eddies.ts';
import type { QuickEstimates } from './quick.ts';
import { wholePickup } from './whole-pickup.ts';

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
