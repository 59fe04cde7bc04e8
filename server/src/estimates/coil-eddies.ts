/** Eddy currents in the metal about one coil. */
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import {
  combinedEddyBranch,
  type EddyBranch,
  eddyBranchOfPoles,
  eddyBranchOfSheet,
  type MetalSheet,
} from '../physics/eddy-currents.ts';
import type { CoilSection } from '../physics/inductance.ts';
import { memoByValue } from '../physics/memo.ts';
import { metalOf, ORIGIN, polesOf } from './coil-places.ts';
import { FLANGE_M } from './common-practice.ts';

/** Cover and baseplate of non-magnetic metal, and solid steel poles, as shorted loops beside the coil. */
export function eddiesOf(section: CoilSection, coil: Coil, pickup: Pickup, polesShare: number): readonly EddyBranch[] {
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
