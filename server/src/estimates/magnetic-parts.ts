/** Parts of a pickup that act on a coil by their permeability: known by table only. */
import type { Pickup } from '../model/pickup.ts';
import type { Metal } from '../physics/constants.ts';
import type { MagneticPart } from '../physics/eddies/magnetic-parts.ts';
import { gradeOf, metalOf } from './coil-places.ts';

/** A metal that acts on a field by its currents alone; stainless steel of covers among them. */
export const isMagnetic = ({ relativePermeability }: Metal) => relativePermeability > 1.5;

export function magneticParts(pickup: Pickup): readonly MagneticPart[] {
  const poleMaterials = pickup.coils.flatMap(({ bobbin }) => {
    const pole = bobbin?.pole?.value;
    return pole && pole !== 'none' ? [pole.material] : [];
  });
  const steelPoles = poleMaterials.some((material) => isSteel(material));
  const alnicoPoles = poleMaterials.some((material) => gradeOf(material)?.cast);
  const parts = pickup.metal
    .filter(({ material }) => isSteel(material))
    .map(({ part }): MagneticPart => {
      if (part === 'cover') return steelPoles ? 'steel-cover-over-steel' : 'steel-cover';
      if (pickup.barMagnet) return 'steel-plate';
      return steelPoles ? 'steel-under-steel' : alnicoPoles ? 'steel-plate-under-alnico' : 'steel-plate';
    });
  const bar = pickup.barMagnet?.value.magnet?.material?.value;
  const alnicoBar = bar !== undefined && gradeOf(bar)?.cast === true;
  return alnicoBar && steelPoles ? [...parts, 'alnico-under-steel'] : parts;
}

export const isSteel = (material: string): boolean => {
  const metal = metalOf(material);
  return metal !== undefined && isMagnetic(metal);
};
