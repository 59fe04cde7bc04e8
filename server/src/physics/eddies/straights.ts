import type { AxialLine } from '../coil-field.ts';
import { NEUMANN, parallelStraights } from '../filaments.ts';
import { gaussLegendre } from '../gauss-legendre.ts';
import type { PlacedCoil } from '../pole-pieces.ts';
import type { Sheet } from './sheet.ts';

/**
 * Straight piece of a path along one of the three directions, carrying `share` of the path's current toward higher coordinates:
 * along the pickup, across it, or upright.
 */
export interface Straight {
  readonly direction: 'along' | 'across' | 'upright';
  readonly share: number;
  readonly from: number;
  readonly to: number;
  /** Of the two other directions, in the order along, across, upright. */
  readonly at: readonly [number, number];
  /** 0.2235 (width + thickness): the distance at which it acts on itself. */
  readonly ownDistanceM: number;
}

/** Neumann's integral over all pairs of pieces, H; a piece at the place of another is taken as itself. */
export function pathsMutualH(first: readonly Straight[], second: readonly Straight[]): number {
  let sum = 0;
  for (const a of first)
    for (const b of second) {
      if (a.direction !== b.direction) continue;
      const distance = Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]);
      const apart = distance > 1e-9 ? distance : a.ownDistanceM;
      sum += a.share * b.share * parallelStraights(a.from, a.to, b.from, b.to, apart);
    }
  return NEUMANN * sum;
}

const RADIAL = gaussLegendre(3);
const AXIAL = gaussLegendre(4);

/** A coil's section as rectangular turns that share one ampere-turn, seen from the middle between the halves. */
export function turnsOf(
  { section: { core, buildM, heightM }, centre }: PlacedCoil,
  middle: Sheet['centre'],
): Straight[] {
  const acrossM = centre.acrossM - middle.acrossM;
  const alongM = centre.alongM - middle.alongM;
  return RADIAL.flatMap((radial) => {
    const radiusM = core.innerRadiusM + buildM * radial.node;
    const halfWidth = core.straightAcrossM / 2 + radiusM;
    // Four corners of a quarter circle take (4 − π) r² away, which shorter straights make up for.
    const halfLength = core.straightM / 2 + radiusM - ((4 - Math.PI) * radiusM ** 2) / (4 * halfWidth);
    return AXIAL.flatMap((axial) => {
      const height = centre.axialM + heightM * (axial.node - 0.5);
      const share = radial.weight * axial.weight;
      return [1, -1].flatMap((side): Straight[] => [
        {
          direction: 'along',
          share: side * share,
          from: alongM - halfLength,
          to: alongM + halfLength,
          at: [acrossM + side * halfWidth, height],
          ownDistanceM: 0,
        },
        {
          direction: 'across',
          share: -side * share,
          from: acrossM - halfWidth,
          to: acrossM + halfWidth,
          at: [alongM + side * halfLength, height],
          ownDistanceM: 0,
        },
      ]);
    });
  });
}

/** Biot and Savart for straight pieces, midway between each two heights; upright ones make no axial field. */
export function fieldOfPath(path: readonly Straight[], line: AxialLine, middle: Sheet['centre']): Float64Array {
  const along = line.alongM - middle.alongM;
  const across = line.acrossM - middle.acrossM;
  const fields = new Float64Array(line.heightsM.length - 1);
  for (const { direction, share, from, to, at } of path) {
    if (direction === 'upright') continue;
    const lengthwise = direction === 'along';
    const position = lengthwise ? along : across;
    const beside = (lengthwise ? across : along) - at[0];
    const strength = ((lengthwise ? -share : share) * beside) / (4 * Math.PI);
    for (let k = 0; k < fields.length; k++) {
      const up = ((line.heightsM[k] ?? 0) + (line.heightsM[k + 1] ?? 0)) / 2 - at[1];
      const square = beside * beside + up * up;
      const [start, end] = [from - position, to - position];
      const seen = end / Math.sqrt(end * end + square) - start / Math.sqrt(start * start + square);
      fields[k] = (fields[k] ?? 0) + (strength * seen) / square;
    }
  }
  return fields;
}
