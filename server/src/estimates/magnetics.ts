/**
 * Inductances, couplings, capacitance and eddy losses of the coils of one pickup, from its bobbins, poles and metalwork. Heavy,
 * so made on demand; every integral behind it remembers its geometry.
 */
import type { Bobbin } from '../model/bobbin.ts';
import { type Coil, servesDifferentStrings } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { EFFECTIVE_PERMITTIVITY, leadCapacitanceF, windingCapacitance } from '../physics/capacitance.ts';
import { METALS, type MetalName } from '../physics/constants.ts';
import { demagnetisingFactor } from '../physics/demagnetising-factor.ts';
import {
  combinedEddyBranch,
  type EddyBranch,
  eddyBranchOfPoles,
  eddyBranchOfSheet,
  type MetalSheet,
} from '../physics/eddy-currents.ts';
import type { Offset } from '../physics/filaments.ts';
import { type CoilSection, inductancePerTurnSquaredH } from '../physics/inductance.ts';
import { MAGNET_GRADES, type MagnetGradeName } from '../physics/magnet-grades.ts';
import { memoByValue } from '../physics/memo.ts';
import {
  bladeAsRods,
  type InductanceMatrix,
  inductanceWithPoles,
  type PlacedCoil,
  POLE_MODEL_RELATIVE_SD,
  type PoleRod,
  poleCentresM,
} from '../physics/pole-pieces.ts';
import { racetrackOfCore } from '../physics/racetrack.ts';
import { type Estimate, estimateOf, functionOf, linear, product } from '../quantities/estimate.ts';
import { causes } from './causes.ts';
import type { WindingEstimates } from './coil-winding.ts';
import { measuredCapacitance, measuredInductance } from './measured-magnetics.ts';
import { dcTransfers } from './pickup-circuit.ts';
import { type QuickEstimates, segmentOhm, turnsShareOf } from './quick.ts';

export interface CoilMagnetics {
  readonly coil: Coil;
  readonly airH: Estimate;
  readonly totalH: Estimate;
  readonly capacitanceF: Estimate;
  readonly eddies: readonly EddyBranch[];
  /** Turn-area that a uniform field sees, over that of the coil in air. */
  readonly turnAreaOverAir: number;
}

export interface PickupMagnetics {
  readonly coils: ReadonlyMap<Coil, CoilMagnetics>;
  /** Between hot and ground; a reading of it stands in its place, and then scales the coils' too. */
  readonly inductanceH: Estimate | undefined;
  /** Seen between hot and ground, the pickup's own cable included. */
  readonly capacitanceF: Estimate | undefined;
  /** The pickup's own cable, across the output. */
  readonly leadF: number;
  /** Mutual inductance of two coils, H, both counted the same way round. */
  mutualSameSenseH(a: Coil, b: Coil): number;
}

const known = new WeakMap<QuickEstimates, PickupMagnetics>();

export function pickupMagnetics(quick: QuickEstimates): PickupMagnetics {
  const before = known.get(quick);
  if (before) return before;
  const made = calibrated(computedMagnetics(quick), quick);
  known.set(quick, made);
  return made;
}

function computedMagnetics(quick: QuickEstimates): PickupMagnetics {
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
  const beneath = steelBeneath(pickup);
  const coils = new Map<Coil, CoilMagnetics>();
  wound.forEach(({ coil, winding, section }, index) => {
    const air = matrix.air[index]?.[index] ?? 0;
    const total = matrix.total[index]?.[index] ?? 0;
    const polesShare = total > 0 ? 1 - air / total : 0;
    const airH = airInductance(air, section, coil, winding, pickup);
    coils.set(coil, {
      coil,
      airH,
      totalH: withPoles(airH, air > 0 ? total / air : 1, coil, pickup, beneath),
      capacitanceF: capacitanceOf(coil, winding, pickup),
      eddies: eddiesOf(section, coil, pickup, polesShare),
      turnAreaOverAir: matrix.turnAreaOverAir[index] ?? 1,
    });
  });
  const order = wound.map(({ coil }) => coil);
  const mutualSameSenseH: PickupMagnetics['mutualSameSenseH'] = (a, b) => {
    const turns = (coil: Coil) => windings.get(coil)?.turns?.value ?? 0;
    const perTurns = matrix.total[order.indexOf(a)]?.[order.indexOf(b)] ?? 0;
    return perTurns * turns(a) * turns(b) * beneath.value;
  };
  const lead = ownCable(pickup);
  const whole = wholePickup(quick, coils, mutualSameSenseH, lead);
  return { coils, mutualSameSenseH, leadF: lead.value, ...whole };
}

/** Readings of the whole pickup scale what was computed of its parts: their ratios are known better than their size. */
function calibrated(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const { inductanceH, capacitanceF } = computed;
  const measuredF = measuredCapacitance(quick.netlist);
  const measuredH =
    inductanceH &&
    measuredInductance(
      quick.netlist,
      { ohm: quick.resistance20COhm?.value ?? 0, farad: measuredF?.value ?? capacitanceF?.value ?? 0 },
      computed.coils,
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
        capacitanceF: farads ? rescaled(each.capacitanceF, farads, measuredF) : each.capacitanceF,
      },
    ]),
  );
  return {
    coils,
    inductanceH: measuredH ?? inductanceH,
    capacitanceF: measuredF ?? capacitanceF,
    leadF: computed.leadF * (farads ?? 1),
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

const ORIGIN: Offset = { alongM: 0, acrossM: 0, axialM: 0 };

function sectionOf({ bobbin }: Coil, winding: WindingEstimates): CoilSection | undefined {
  const core = bobbin?.core?.value;
  const build = winding.buildM?.value;
  const height = bobbin?.window?.value.height.si;
  if (!core || !build || !height || !(build > 0) || !(height > 0)) return undefined;
  return {
    core: racetrackOfCore({
      lengthM: core.length.si,
      widthM: core.width.si,
      ...(core.corner ? { cornerRadiusM: core.corner.si } : {}),
    }),
    buildM: build,
    heightM: height,
  };
}

/** Distance between the centre lines of two coils side by side, where it is not stated. Common practice, no published source. */
export const DEFAULT_COILS_APART_M = 0.018;
/** Thickness of a bobbin's flange. Common practice, no published source. */
const FLANGE_M = 0.0015;

/** Coils side by side, one below the other, or in line under different strings, about the first. */
function coilCentres(pickup: Pickup): ReadonlyMap<Coil, Offset> {
  const apart = pickup.coilsApart?.value.distance.si ?? DEFAULT_COILS_APART_M;
  const centres = new Map<Coil, Offset>();
  let across = 0;
  let along = 0;
  pickup.coils.forEach((coil, index) => {
    const above = pickup.coils.find(({ name }) => name === coil.below?.value);
    const aboveCentre = above && centres.get(above);
    const previous = pickup.coils[index - 1];
    if (above && aboveCentre) {
      const drop = (height(above.bobbin) + height(coil.bobbin)) / 2 + 2 * FLANGE_M;
      centres.set(coil, { ...aboveCentre, axialM: aboveCentre.axialM - drop });
    } else if (previous && servesDifferentStrings(previous, coil)) {
      along += (length(previous.bobbin) + length(coil.bobbin)) / 2;
      centres.set(coil, { alongM: along, acrossM: across, axialM: 0 });
    } else {
      if (index > 0) across += apart;
      centres.set(coil, { alongM: along, acrossM: across, axialM: 0 });
    }
  });
  return centres;
}

const height = (bobbin: Bobbin | undefined) => bobbin?.window?.value.height.si ?? 0;
/** Over the winding: what two halves in line must clear. */
const length = (bobbin: Bobbin | undefined) =>
  (bobbin?.core?.value.length.si ?? 0) + 2 * (bobbin?.window?.value.depth.si ?? 0);

/** Every pole of a pickup with the coil it stands in. */
export function poleArrangement(pickup: Pickup): readonly { readonly coil: Coil; readonly rod: PoleRod }[] {
  const centres = coilCentres(pickup);
  return pickup.coils.flatMap((coil) => polesOf(coil, centres.get(coil) ?? ORIGIN).map((rod) => ({ coil, rod })));
}

/** Poles with their tops flush with the upper flange, which is where slugs and rods stand. */
function polesOf(coil: Coil, centre: Offset): readonly PoleRod[] {
  const { bobbin } = coil;
  const pole = bobbin?.pole?.value;
  const poles = bobbin?.poles?.value;
  if (!pole || pole === 'none' || !pole.length || !pole.diameter) return [];
  const topM = centre.axialM + height(bobbin) / 2 + FLANGE_M;
  const across = { acrossM: centre.acrossM, topM, bottomM: topM - pole.length.si };
  const relativePermeability = permeabilityOf(pole.material);
  const spread = poles?.spread?.si ?? 0;
  if (pole.form === 'blade')
    return bladeAsRods({
      alongM: centre.alongM,
      ...across,
      lengthM: spread || (bobbin?.core?.value.length.si ?? 0),
      thicknessM: pole.diameter.si,
      relativePermeability,
    });
  if (!poles) return [];
  const diameterM = pole.diameter.si;
  return poleCentresM(poles.count, spread).map((alongM) => ({
    alongM: centre.alongM + alongM,
    ...across,
    diameterM,
    relativePermeability,
  }));
}

function permeabilityOf(material: string): number {
  const grade = gradeOf(material);
  if (grade) return grade.recoilRelativePermeability;
  return metalOf(material)?.relativePermeability ?? 1;
}

export const gradeOf = (material: string) =>
  Object.hasOwn(MAGNET_GRADES, material) ? MAGNET_GRADES[material as MagnetGradeName] : undefined;

export const metalOf = (material: string) =>
  Object.hasOwn(METALS, material) ? METALS[material as MetalName] : undefined;

/**
 * One standard deviation, relative, of the inductance of a coil of known turns and build: what a wound coil's outline differs by.
 * Common practice, no published source.
 */
const GEOMETRY_INDUCTANCE_RELATIVE_SD = 0.01;

/** What a blade adds, by the row of rods that stands for it (see bladeAsRods). */
const BLADE_RELATIVE_SD = 0.1;

/**
 * What lies beneath the poles and is left out of the integrals: a bar magnet (recoil permeability 2 to 5), its keeper, a steel
 * baseplate. It closes the poles' circuit, so it can only add, to L and M alike: between nothing and a quarter, taken as even
 * between these limits (JCGM 100:2008, 4.3.7), so 1.125 with a standard deviation of 0.25/√12. The limits are common practice, no
 * published source: two-coil pickups of 5,000 turns of 42 AWG measure some 4.4 H.
 */
const BENEATH = { least: 1, most: 1.25 } as const;

function steelBeneath(pickup: Pickup): Estimate {
  const steel = pickup.metal.some(
    ({ part, material }) => part === 'baseplate' && (metalOf(material)?.relativePermeability ?? 1) > 10,
  );
  if (!pickup.barMagnet && !steel) return estimateOf(1, { basis: 'computed' });
  return estimateOf((BENEATH.least + BENEATH.most) / 2, {
    sd: (BENEATH.most - BENEATH.least) / Math.sqrt(12),
    basis: 'assumed',
    restsOn: [
      `${pickup.barMagnet ? 'bar magnet and keeper' : 'steel baseplate'} beneath the poles add 0 to 25 %, assumed`,
    ],
    source: causes.beneath(pickup.name),
  });
}

/**
 * N² · ℓ(build), ℓ the inductance per turn squared of the section (see physics/inductance.ts). Turns act twice, directly and through the
 * build; packing and wire through the build alone, with the slope d ln ℓ / d ln build taken from a section a twentieth deeper.
 */
function airInductance(
  perTurnSquaredH: number,
  section: CoilSection,
  coil: Coil,
  { turns, buildM }: WindingEstimates,
  pickup: Pickup,
): Estimate {
  if (!turns || !buildM) return estimateOf(0, { basis: 'assumed' });
  const deeper = inductancePerTurnSquaredH({ ...section, buildM: section.buildM * DEEPER });
  const slope = Math.log(deeper / perTurnSquaredH) / Math.log(DEEPER);
  const outline = estimateOf(1, {
    sd: GEOMETRY_INDUCTANCE_RELATIVE_SD,
    basis: 'assumed',
    source: causes.bobbin(`${pickup.name}.${coil.name}`),
  });
  return functionOf(
    [turns, buildM, outline],
    ([count = 0, build = 0, factor = 1]) =>
      perTurnSquaredH * count ** 2 * Math.max(0, build / buildM.value) ** slope * factor,
  );
}

const DEEPER = 1.05;

/** With its poles, as a factor of the coil in air, and with what lies beneath them. */
function withPoles(airH: Estimate, factor: number, coil: Coil, pickup: Pickup, beneath: Estimate): Estimate {
  const pole = coil.bobbin?.pole?.value;
  const blade = pole !== undefined && pole !== 'none' && pole.form === 'blade';
  const added = 1 - 1 / factor;
  const model = estimateOf(factor, {
    sd:
      factor *
      Math.hypot(POLE_MODEL_RELATIVE_SD, blade ? BLADE_RELATIVE_SD * added : 0, permeabilityRelativeSd(coil) * added),
    basis: 'computed',
    restsOn: [
      ...(pole && pole !== 'none' ? [`poles of ${pole.material}, flush with the upper flange, assumed`] : []),
      ...(!pickup.coilsApart && pickup.coils.length > 1 && !coil.below
        ? [`coils ${DEFAULT_COILS_APART_M * 1000} mm apart, assumed`]
        : []),
    ],
    source: causes.poles(pickup.name),
  });
  return product(product(airH, model), beneath);
}

/**
 * Relative standard deviation of what poles add, for what is not known of their permeability: χ/(1 + Nχ) moves by 1/(1 + Nχ) of
 * what χ moves, so slender steel hardly minds, magnets of low recoil permeability do.
 */
function permeabilityRelativeSd(coil: Coil): number {
  const pole = coil.bobbin?.pole?.value;
  const rod = polesOf(coil, ORIGIN)[0];
  if (!rod || !pole || pole === 'none' || !(rod.relativePermeability > 1)) return 0;
  const grade = gradeOf(pole.material);
  const spread = grade
    ? grade.cast
      ? METALS.alnico.permeabilitySpreadFactor
      : SINTERED_SPREAD_FACTOR
    : (metalOf(pole.material)?.permeabilitySpreadFactor ?? 1);
  const shape = { lengthM: rod.topM - rod.bottomM, diameterM: rod.diameterM };
  const susceptibility = rod.relativePermeability - 1;
  const factor = demagnetisingFactor(shape, rod.relativePermeability);
  return Math.log(spread) / (1 + factor * susceptibility);
}

/** Recoil permeability of ferrite and rare-earth magnets, 1.05 to 1.1. Common practice, no published source. */
const SINTERED_SPREAD_FACTOR = 1.03;

/** Distance of two coils: as stated, and as assumed; what that does to their coupling. Common practice, no published source. */
const COUPLING_RELATIVE_SD = { stated: 0.05, assumed: 0.15 } as const;

/**
 * Inductance and capacitance between hot and ground, well below resonance. With τ the share of a coil's e.m.f. that reaches the output
 * (by reciprocity the current through it for one ampere from ground to hot) and w its wind, L = Σᵢⱼ τᵢτⱼwᵢwⱼMᵢⱼ, the limit of low
 * frequency; a coil's capacitance counts by the square of its share of the output voltage, vᵢ = Σⱼ τⱼwᵢwⱼMᵢⱼ / L.
 */
function wholePickup(
  quick: QuickEstimates,
  coils: ReadonlyMap<Coil, CoilMagnetics>,
  mutualSameSenseH: PickupMagnetics['mutualSameSenseH'],
  lead: Estimate,
): Pick<PickupMagnetics, 'inductanceH' | 'capacitanceF'> {
  const { netlist, windings, signs } = quick;
  const nothing = { inductanceH: undefined, capacitanceF: undefined };
  const { hot, ground } = netlist;
  if (hot === undefined || ground === undefined) return nothing;
  const shares = dcTransfers(netlist, (segment) => segmentOhm(segment, windings) ?? NOMINAL_OHM, hot, ground);
  if (!shares) return nothing;
  const live = new Map<Coil, number>();
  for (const [segment, share] of shares)
    if (Math.abs(share) > NO_PATH)
      live.set(segment.coil, (live.get(segment.coil) ?? 0) + share * turnsShareOf(segment, windings.get(segment.coil)));
  const parts = [...live].map(([coil, share]) => ({
    coil,
    share,
    wind: signs.find((each) => each.coil === coil)?.wind?.sign ?? 1,
    magnetic: coils.get(coil),
  }));
  const own = parts.flatMap(({ magnetic }) => magnetic ?? []);
  if (own.length === 0 || own.length < parts.length) return nothing;
  const coupled = parts.map((a) =>
    parts
      .filter((b) => b !== a)
      .reduce((sum, b) => sum + b.share * a.wind * b.wind * mutualSameSenseH(a.coil, b.coil), 0),
  );
  const fluxes = parts.map(
    ({ share, magnetic }, index) => share * (magnetic?.totalH.value ?? 0) + (coupled[index] ?? 0),
  );
  const henry = parts.reduce((sum, { share }, index) => sum + share * (fluxes[index] ?? 0), 0);
  if (!(henry > 0)) return nothing;
  const mutualH = parts.reduce((sum, { share }, index) => sum + share * (coupled[index] ?? 0), 0);
  const pickup = netlist.pickup;
  const spacing = estimateOf(0, {
    sd: Math.abs(mutualH) * (pickup.coilsApart ? COUPLING_RELATIVE_SD.stated : COUPLING_RELATIVE_SD.assumed),
    basis: 'assumed',
    source: causes.coilsApart(pickup.name),
  });
  // M goes with √(LᵢLⱼ), so half of its error lies with each coil.
  const weights = parts.map(({ share, magnetic }, index) =>
    magnetic && magnetic.totalH.value > 0 ? (share * (fluxes[index] ?? 0)) / magnetic.totalH.value : 0,
  );
  return {
    inductanceH: linear([...own.map(({ totalH }) => totalH), spacing], [...weights, 1]),
    capacitanceF: linear(
      [...own.map(({ capacitanceF }) => capacitanceF), lead],
      [...fluxes.map((flux) => (flux / henry) ** 2), 1],
    ),
  };
}

/** A coil that carries a smaller share of the current is not in its path. */
const NO_PATH = 1e-6;
/** Stands for an unknown resistance where only the path counts. */
const NOMINAL_OHM = 4000;

function capacitanceOf(coil: Coil, winding: WindingEstimates, pickup: Pickup): Estimate {
  const { meanTurnM: meanTurn, buildM: build, bareDiameterM: bare, overallDiameterM: overall } = winding;
  if (!meanTurn || !build || !bare || !overall) return estimateOf(0, { basis: 'assumed' });
  const waxed = pickup.potting !== undefined;
  const { capacitanceF, factorSd } = windingCapacitance(
    {
      meanTurnM: meanTurn.value,
      heightM: height(coil.bobbin),
      buildM: build.value,
      bareDiameterM: bare.value,
      overallDiameterM: overall.value,
      scatter: true,
    },
    waxed ? EFFECTIVE_PERMITTIVITY.wax : EFFECTIVE_PERMITTIVITY.air,
  );
  return estimateOf(capacitanceF, {
    sd: capacitanceF * (factorSd - 1) * 0.75,
    basis: 'computed',
    restsOn: [
      'energy between layers of a scatter winding, known to a factor of two',
      waxed ? 'wax between turns' : 'air between turns',
    ],
    source: causes.windingCapacitance,
  });
}

/**
 * Capacitance of the pickup's own cable, across the output: as stated, else of a usual length where a shield or conductors say that
 * there is one. Length and spread are common practice, no published source.
 */
function ownCable({ name, cable, shield, conductors }: Pickup): Estimate {
  const source = causes.leadCapacitance(name);
  if (cable) {
    const { length: lengthM, capacitancePerLength } = cable.value;
    const value = leadCapacitanceF(lengthM.si, capacitancePerLength?.si);
    return estimateOf(value, {
      sd: value * (capacitancePerLength ? STATED_CABLE_RELATIVE_SD : CABLE_RELATIVE_SD),
      basis: 'declared',
      restsOn: [`its cable, ${lengthM.written}`],
      source,
    });
  }
  if (!shield && conductors.length === 0) return estimateOf(0, { basis: 'assumed' });
  const value = leadCapacitanceF(OWN_CABLE_M);
  return estimateOf(value, {
    sd: value * ASSUMED_CABLE_RELATIVE_SD,
    basis: 'assumed',
    restsOn: [`its own cable of ${OWN_CABLE_M} m at 120 pF/m, assumed`],
    source,
  });
}

export const OWN_CABLE_M = 0.35;
const STATED_CABLE_RELATIVE_SD = 0.1;
const CABLE_RELATIVE_SD = 0.25;
const ASSUMED_CABLE_RELATIVE_SD = 0.4;

/** Farad of the pickup's own cable, stated or assumed. */
export const ownCableF = (pickup: Pickup): number => ownCable(pickup).value;

/** Cover and baseplate of non-magnetic metal, and solid steel poles, as shorted loops beside the coil. */
function eddiesOf(section: CoilSection, coil: Coil, pickup: Pickup, polesShare: number): readonly EddyBranch[] {
  const branches: EddyBranch[] = [];
  const halfHeight = section.heightM / 2;
  for (const fitting of pickup.metal) {
    const metal = metalOf(fitting.material);
    if (metal?.relativePermeability !== 1) continue;
    const lengthM = (coil.bobbin?.core?.value.length.si ?? 0) + 2 * section.buildM;
    const widthM = (coil.bobbin?.core?.value.width.si ?? 0) + 2 * section.buildM;
    if (!(lengthM > 0) || !(widthM > 0)) continue;
    const above = fitting.part === 'cover';
    branches.push(
      eddyOfSheet({
        section,
        lengthM,
        widthM,
        thicknessM: SHEET_M,
        fromCoilCentreM: above ? halfHeight + FLANGE_M + SHEET_M : -(halfHeight + FLANGE_M + BASEPLATE_DROP_M),
        resistivityOhmM: metal.resistivityOhmM,
      }),
    );
  }
  const pole = coil.bobbin?.pole?.value;
  const metal = pole && pole !== 'none' ? metalOf(pole.material) : undefined;
  const rod = metal ? polesOf(coil, ORIGIN)[0] : undefined;
  if (metal && rod && polesShare > 0)
    branches.push(eddyBranchOfPoles({ polesShare, rod, resistivityOhmM: metal.resistivityOhmM }));
  // One loop for all: losses beside each other may not take more than the whole flux.
  const together = combinedEddyBranch(branches);
  return together.coupling > 0 && together.timeConstantS > 0 ? [together] : [];
}

/** A plate's strips and their integrals, remembered by its geometry and the coil's. */
const eddyOfSheet = memoByValue(
  ({ section: { core, buildM, heightM }, ...sheet }: PlateBesideCoil) => [
    core.straightM,
    core.straightAcrossM,
    core.innerRadiusM,
    buildM,
    heightM,
    sheet.lengthM,
    sheet.widthM,
    sheet.thicknessM,
    sheet.fromCoilCentreM,
    sheet.resistivityOhmM,
  ],
  ({ section, ...sheet }: PlateBesideCoil) => eddyBranchOfSheet(section, { kind: 'plate', ...sheet }),
);

type PlateBesideCoil = { readonly section: CoilSection } & Omit<Extract<MetalSheet, { kind: 'plate' }>, 'kind'>;

/** Sheet of covers and baseplates; a baseplate lies below magnet and keeper. Common practice, no published source. */
const SHEET_M = 0.0005;
const BASEPLATE_DROP_M = 0.0035;
