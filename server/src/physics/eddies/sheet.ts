import type { Offset } from '../filaments.ts';
import type { Racetrack } from '../racetrack.ts';

/** A piece of non-magnetic sheet metal: a plate across the coils' axes, a wall round them, or both joined, a cover. Metres. */
export interface Sheet {
  /** Edge of the plate; of a wall the middle of its thickness. Its length lies along the coils'. */
  readonly outline: Racetrack;
  readonly centre: Pick<Offset, 'alongM' | 'acrossM'>;
  readonly thicknessM: number;
  readonly resistivityOhmM: number;
  /** Height of the middle of its thickness; from its edge to a hole that follows the edge, where it has one. */
  readonly plate?: { readonly heightM: number; readonly rimM?: number };
  readonly wall?: { readonly bottomM: number; readonly topM: number };
}

/** Half of the narrower dimension. */
export const halfWidthM = ({ straightM, straightAcrossM, innerRadiusM }: Racetrack): number =>
  Math.min(straightM, straightAcrossM) / 2 + innerRadiusM;

/** Outline drawn inwards by the same distance everywhere: first its corners become sharp, then its sides shorter. */
export function inset({ straightM, straightAcrossM, innerRadiusM }: Racetrack, byM: number): Racetrack {
  const beyond = Math.max(0, byM - innerRadiusM);
  return {
    straightM: Math.max(0, straightM - 2 * beyond),
    straightAcrossM: Math.max(0, straightAcrossM - 2 * beyond),
    innerRadiusM: Math.max(0, innerRadiusM - byM),
  };
}

/** A width cut into equal strips of about `stripM`: the middle of each, from the beginning on. */
export function strips(overM: number, stripM: number): { readonly middleM: number; readonly widthM: number }[] {
  if (!(overM > 0)) return [];
  const count = Math.max(1, Math.round(overM / stripM));
  const widthM = overM / count;
  return Array.from({ length: count }, (_, index) => ({ middleM: (index + 0.5) * widthM, widthM }));
}
