/**
 * Inductances, couplings, capacitance and eddy losses of the coils of one pickup, from its bobbins, poles and metalwork. Heavy,
 * so made on demand; every integral behind it remembers its geometry.
 */
import type { Coil } from '../model/coil.ts';
import { type InductanceMatrix, inductanceWithPoles, type PlacedCoil } from '../physics/pole-pieces.ts';
import { type Estimate, product } from '../quantities/estimate.ts';
import { type CoilCapacitances, capacitancesOf, neighbours } from './coil-capacitance.ts';
import { airInductance, steelAround, steelBeneath, withPoles } from './coil-inductance.ts';
import type { CoilMagnetics, PickupEddies, PickupMagnetics } from './coil-magnetics.ts';
import { coilCentres, ORIGIN, polesOf, sectionOf } from './coil-places.ts';
import { capacitanceRead, inductanceAtLowFrequency, newestMagnetic } from './measured-magnetics.ts';
import { ownCable } from './own-cable.ts';
import { pickupEddies } from './pickup-eddies.ts';
import type { QuickEstimates } from './quick.ts';
import { wholePickup } from './whole-pickup.ts';

const known = new WeakMap<QuickEstimates, PickupMagnetics>();

export function pickupMagnetics(quick: QuickEstimates): PickupMagnetics {
  const before = known.get(quick);
  if (before) return before;
  const made = calibrated(withCoilReadings(computedMagnetics(quick), quick), quick);
  known.set(quick, made);
  return made;
}

const knownComputed = new WeakMap<QuickEstimates, PickupMagnetics>();

/** What turns, bobbins and metal compute to, no reading of inductance or capacitance in its place. */
export function computedMagnetics(quick: QuickEstimates): PickupMagnetics {
  const before = knownComputed.get(quick);
  if (before) return before;
  const made = compute(quick);
  knownComputed.set(quick, made);
  return made;
}

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

/** A reading of one coil's inductance replaces what was computed of it, and goes into the whole. */
function withCoilReadings(all: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const { netlist, windings } = quick;
  const read = new Map(
    [...all.coils].flatMap(([coil, { totalH, capacitances }]) => {
      const line = newestMagnetic(netlist, 'inductance', coil);
      const ohm = windings.get(coil)?.resistance20COhm?.value ?? 0;
      return line && totalH.value > 0
        ? [[coil, inductanceAtLowFrequency(line, { ohm, farad: capacitances.windingF.value }, all.lostShare)] as const]
        : [];
    }),
  );
  if (read.size === 0) return all;
  const coils = new Map(
    [...all.coils].map(([coil, each]) => [coil, { ...each, totalH: read.get(coil) ?? each.totalH }]),
  );
  const stretch = (coil: Coil) => Math.sqrt(ratioOf(read.get(coil), all.coils.get(coil)?.totalH) ?? 1);
  const mutualSameSenseH: PickupMagnetics['mutualSameSenseH'] = (a, b) =>
    all.mutualSameSenseH(a, b) * stretch(a) * stretch(b);
  return {
    ...all,
    coils,
    mutualSameSenseH,
    ...wholePickup(quick, { ...all, coils, mutualSameSenseH }, ownCable(netlist.pickup)),
  };
}

/** Readings of the whole pickup scale what was computed of its parts: their ratios are known better than their size. */
function calibrated(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const { inductanceH, capacitanceF } = computed;
  const [readF, readH] = [
    newestMagnetic(quick.netlist, 'capacitance', 'whole'),
    newestMagnetic(quick.netlist, 'inductance', 'whole'),
  ];
  const measuredF = readF && capacitanceRead(readF);
  const measuredH =
    inductanceH &&
    readH &&
    inductanceAtLowFrequency(
      readH,
      { ohm: quick.resistance20COhm?.value ?? 0, farad: measuredF?.value ?? capacitanceF?.value ?? 0 },
      computed.lostShare,
    );
  const henries = ratioOf(measuredH, inductanceH);
  const farads = ratioOf(measuredF, capacitanceF);
  if (!henries && !farads) return computed;
  const coils = new Map(
    [...computed.coils].map(([coil, each]) => [
      coil,
      {
        ...each,
        totalH: henries ? rescaled(each.totalH, henries, measuredH) : each.totalH,
        capacitances: farads ? rescaledAll(each.capacitances, farads, measuredF) : each.capacitances,
      },
    ]),
  );
  return {
    ...computed,
    coils,
    inductanceH: measuredH ?? inductanceH,
    capacitanceF: measuredF ?? capacitanceF,
    leadF: computed.leadF * (farads ?? 1),
    between: farads
      ? computed.between.map(({ farad, ...pair }) => ({ ...pair, farad: rescaled(farad, farads, measuredF) }))
      : computed.between,
    mutualSameSenseH: (a, b) => computed.mutualSameSenseH(a, b) * (henries ?? 1),
  };
}

const ratioOf = (measured: Estimate | undefined, computed: Estimate | undefined): number | undefined =>
  measured && computed && computed.value > 0 ? measured.value / computed.value : undefined;

const rescaled = (computed: Estimate, ratio: number, measured: Estimate | undefined): Estimate => ({
  value: computed.value * ratio,
  sd: computed.value * ratio * (measured ? measured.sd / measured.value : 0),
  basis: 'computed',
  restsOn: [...new Set([...(measured?.restsOn ?? []), ...computed.restsOn])],
});

const rescaledAll = (
  { windingF, startF, finishF, facesF }: CoilCapacitances,
  ratio: number,
  measured: Estimate | undefined,
): CoilCapacitances => ({
  windingF: rescaled(windingF, ratio, measured),
  startF: rescaled(startF, ratio, measured),
  finishF: rescaled(finishF, ratio, measured),
  facesF: rescaled(facesF, ratio, measured),
});
