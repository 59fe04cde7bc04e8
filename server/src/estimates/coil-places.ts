/** Where the coils and poles of a pickup stand, and the section of each winding. */
import type { Bobbin } from '../model/bobbin.ts';
import { type Coil, servesDifferentStrings } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { METALS, type MetalName } from '../physics/constants.ts';
import type { Offset } from '../physics/filaments.ts';
import type { CoilSection } from '../physics/inductance.ts';
import { MAGNET_GRADES, type MagnetGradeName } from '../physics/magnet-grades.ts';
import { bladeAsRods, type PoleRod, poleCentresM } from '../physics/pole-pieces.ts';
import { racetrackOf, type WindingEstimates } from './coil-winding.ts';
import { DEFAULT_COILS_APART_M, FLANGE_M } from './common-practice.ts';

export const ORIGIN: Offset = { alongM: 0, acrossM: 0, axialM: 0 };

export function sectionOf({ bobbin }: Coil, winding: WindingEstimates): CoilSection | undefined {
  const core = bobbin?.core?.value;
  const build = winding.buildM?.value;
  const height = bobbin?.window?.value.height.si;
  if (!core || !build || !height || !(build > 0) || !(height > 0)) return undefined;
  return { core: racetrackOf(core), buildM: build, heightM: height };
}

/** Coils side by side, one below the other, or in line under different strings, about the first. */
export function coilCentres(pickup: Pickup): ReadonlyMap<Coil, Offset> {
  const apart = pickup.coilsApart?.value.distance.si ?? DEFAULT_COILS_APART_M;
  const centres = new Map<Coil, Offset>();
  let across = 0;
  let along = 0;
  pickup.coils.forEach((coil, index) => {
    const above = pickup.coils.find(({ name }) => name === coil.below?.value);
    const aboveCentre = above && centres.get(above);
    const previous = pickup.coils[index - 1];
    if (above && aboveCentre) {
      const drop =
        (windowHeightM(above.bobbin) + windowHeightM(coil.bobbin)) / 2 + (coil.gap?.value.si ?? 2 * FLANGE_M);
      centres.set(coil, { ...aboveCentre, axialM: aboveCentre.axialM - drop });
    } else if (previous && servesDifferentStrings(previous, coil)) {
      along += (woundLengthM(previous.bobbin) + woundLengthM(coil.bobbin)) / 2;
      centres.set(coil, { alongM: along, acrossM: across, axialM: 0 });
    } else {
      if (index > 0) across += apart;
      centres.set(coil, { alongM: along, acrossM: across, axialM: 0 });
    }
  });
  return centres;
}

/** Nobody stated how far apart coils lie that stand side by side; in a stack or in line it does not matter. */
export const isDistanceAssumed = ({ coils, coilsApart }: Pickup): boolean =>
  !coilsApart &&
  coils.some((coil, index) => {
    const previous = coils[index - 1];
    return previous && !coil.below && !servesDifferentStrings(previous, coil);
  });

export const windowHeightM = (bobbin: Bobbin | undefined) => bobbin?.window?.value.height.si ?? 0;
/** Over the winding: what two halves in line must clear. */
const woundLengthM = (bobbin: Bobbin | undefined) =>
  (bobbin?.core?.value.length.si ?? 0) + 2 * (bobbin?.window?.value.depth.si ?? 0);

/** Every pole of a pickup with the coil it stands in. */
export function poleArrangement(pickup: Pickup): readonly { readonly coil: Coil; readonly rod: PoleRod }[] {
  const centres = coilCentres(pickup);
  return pickup.coils.flatMap((coil) => polesOf(coil, centres.get(coil) ?? ORIGIN).map((rod) => ({ coil, rod })));
}

/** Poles with their tops flush with the upper flange, which is where slugs and rods stand. */
export function polesOf(coil: Coil, centre: Offset): readonly PoleRod[] {
  const { bobbin } = coil;
  const pole = bobbin?.pole?.value;
  const poles = bobbin?.poles?.value;
  if (!pole || pole === 'none' || !pole.length || !pole.diameter) return [];
  const topM = centre.axialM + windowHeightM(bobbin) / 2 + FLANGE_M;
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
