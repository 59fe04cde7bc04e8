/**
 * Inductances, couplings, capacitance and eddy losses of the coils of one pickup, from its bobbins, poles and metalwork. Heavy,
 * so made on demand; every integral behind it remembers its geometry.
 */
import type { Bobbin } from '../model/bobbin.ts';
import { type Coil, servesDifferentStrings } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { EFFECTIVE_PERMITTIVITY, leadCapacitanceF, windingCapacitance } from '../physics/capacitance.ts';
import { METALS, type MetalName } from '../physics/constants.ts';
import { combinedEddyBranch, type EddyBranch, eddyBranchOfPoles, eddyBranchOfSheet } from '../physics/eddy-currents.ts';
import type { Offset } from '../physics/filaments.ts';
import type { CoilSection } from '../physics/inductance.ts';
import { MAGNET_GRADES, type MagnetGradeName } from '../physics/magnet-grades.ts';
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
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import type { WindingEstimates } from './coil-winding.ts';
import type { QuickEstimates } from './quick.ts';

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
  /** Mutual inductance of two coils, H, both counted the same way round. */
  mutualSameSenseH(a: Coil, b: Coil): number;
}

const known = new WeakMap<QuickEstimates, PickupMagnetics>();

export function pickupMagnetics(quick: QuickEstimates): PickupMagnetics {
  const before = known.get(quick);
  if (before) return before;
  const made = magneticsOf(quick);
  known.set(quick, made);
  return made;
}

function magneticsOf({ netlist, windings }: QuickEstimates): PickupMagnetics {
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
  const coils = new Map<Coil, CoilMagnetics>();
  wound.forEach(({ coil, winding, section }, index) => {
    const turns = winding.turns?.value ?? 0;
    const air = (matrix.air[index]?.[index] ?? 0) * turns ** 2;
    const total = (matrix.total[index]?.[index] ?? 0) * turns ** 2;
    coils.set(coil, {
      coil,
      airH: inductanceEstimate(air, winding, coil, undefined),
      totalH: inductanceEstimate(total, winding, coil, pickup),
      capacitanceF: capacitanceOf(coil, winding, pickup),
      eddies: eddiesOf(section, coil, pickup, total > 0 ? 1 - air / total : 0),
      turnAreaOverAir: matrix.turnAreaOverAir[index] ?? 1,
    });
  });
  const order = wound.map(({ coil }) => coil);
  return {
    coils,
    mutualSameSenseH: (a, b) => {
      const turns = (coil: Coil) => windings.get(coil)?.turns?.value ?? 0;
      return (matrix.total[order.indexOf(a)]?.[order.indexOf(b)] ?? 0) * turns(a) * turns(b);
    },
  };
}

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
  if (!pole || pole === 'none' || !poles || !pole.length || !pole.diameter) return [];
  const topM = centre.axialM + height(bobbin) / 2 + FLANGE_M;
  const across = { acrossM: centre.acrossM, topM, bottomM: topM - pole.length.si };
  const relativePermeability = permeabilityOf(pole.material);
  const spread = poles.spread?.si ?? 0;
  if (pole.form === 'blade')
    return bladeAsRods({
      alongM: centre.alongM,
      ...across,
      lengthM: spread || (bobbin?.core?.value.length.si ?? 0),
      thicknessM: pole.diameter.si,
      relativePermeability,
    });
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
 * One standard deviation, relative. Geometry of a wound coil; poles by the model; the bar magnet, keeper and steel baseplate
 * beneath, which the model leaves out. Common practice, no published source.
 */
const GEOMETRY_INDUCTANCE_RELATIVE_SD = 0.01;
const BENEATH_RELATIVE_SD = 0.06;

function inductanceEstimate(
  henry: number,
  winding: WindingEstimates,
  coil: Coil,
  pickup: Pickup | undefined,
): Estimate {
  const turns = winding.turns;
  const turnsShare = turns && turns.value > 0 ? (2 * turns.sd) / turns.value : 0;
  const beneath = pickup?.barMagnet ? BENEATH_RELATIVE_SD : 0;
  const model = pickup ? Math.hypot(POLE_MODEL_RELATIVE_SD, beneath) : 0;
  const shared = model * henry;
  const own = Math.hypot(GEOMETRY_INDUCTANCE_RELATIVE_SD, turnsShare) * henry;
  const pole = coil.bobbin?.pole?.value;
  return {
    value: henry,
    sd: Math.hypot(shared, own),
    basis: 'computed',
    restsOn: [
      ...(turns?.restsOn ?? []),
      ...(winding.packing?.restsOn ?? []),
      ...(pickup && pole && pole !== 'none' ? [`poles of ${pole.material}, flush with the upper flange, assumed`] : []),
      ...(pickup && !pickup.coilsApart && pickup.coils.length > 1
        ? [`coils ${DEFAULT_COILS_APART_M * 1000} mm apart, assumed`]
        : []),
      ...(pickup?.barMagnet ? ['bar and keeper beneath left out'] : []),
    ],
    sources: { ...(shared ? { [`poles and magnet of ${pickup?.name ?? ''}`]: shared } : {}) },
  };
}

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
    source: `capacitance of scatter windings`,
  });
}

/** Capacitance of the pickup's own cable, where it has one: across the output. */
export function ownCableF(pickup: Pickup): number {
  const cable = pickup.cable?.value;
  if (!cable) return 0;
  return leadCapacitanceF(cable.length.si, cable.capacitancePerLength?.si);
}

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
      eddyBranchOfSheet(section, {
        kind: 'plate',
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

/** Sheet of covers and baseplates; a baseplate lies below magnet and keeper. Common practice, no published source. */
const SHEET_M = 0.0005;
const BASEPLATE_DROP_M = 0.0035;
