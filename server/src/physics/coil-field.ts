import type { Offset } from './filaments.ts';
import { gaussLegendre } from './gauss-legendre.ts';
import type { CoilSection } from './inductance.ts';
import type { Racetrack } from './racetrack.ts';

/** A line parallel to the coil's axis, seen from the coil's centre, cut at increasing heights, metres. */
export interface AxialLine {
  alongM: number;
  acrossM: number;
  /** At least two; field is averaged between each and the next. */
  heightsM: readonly number[];
}

/** A line as it lies from a coil's centre, both given from one origin. */
export const seenFrom = ({ alongM, acrossM, axialM }: Offset, line: AxialLine): AxialLine => ({
  alongM: line.alongM - alongM,
  acrossM: line.acrossM - acrossM,
  heightsM: line.heightsM.map((height) => height - axialM),
});

/**
 * Axial field, A/m per ampere-turn, that a coil makes along a line parallel to its axis, averaged between one height and the
 * next; current spread evenly over the section of the winding.
 *
 * Biot-Savart, with both axial integrals (over the height h of the winding and between the heights) in closed form: what is
 * left of a turn is ∮ K(ρ) dφ / 4π over the angle φ at which its outline is seen from the line, ρ the distance to it in the plane,
 * with K the difference between two heights z of √(ρ²+(z+h/2)²) − √(ρ²+(z−h/2)²). Straights are integrated over the angle, arcs over
 * their own; the turns over the build by Gauss-Legendre. Valid in the hole of the coil and outside the winding; 1e-3 at a tenth
 * of the build from it, 1e-5 at half of it.
 */
export function axialFieldPerAmpereTurn({ core, buildM, heightM }: CoilSection, line: AxialLine): number[] {
  const upper = line.heightsM.map((z) => (z + heightM / 2) ** 2);
  const lower = line.heightsM.map((z) => (z - heightM / 2) ** 2);
  const sums = new Float64Array(line.heightsM.length);
  for (const { node, weight: share } of RADIAL) {
    const turn = { ...core, innerRadiusM: core.innerRadiusM + buildM * node };
    forEachDirection(turn, line.alongM, line.acrossM, (rho2, angle) => {
      const weight = share * angle;
      for (let k = 0; k < sums.length; k++) {
        sums[k] = (sums[k] ?? 0) + weight * (Math.sqrt(rho2 + (upper[k] ?? 0)) - Math.sqrt(rho2 + (lower[k] ?? 0)));
      }
    });
  }
  return line.heightsM.slice(1).map((top, k) => {
    const lengthM = top - (line.heightsM[k] ?? 0);
    return ((sums[k + 1] ?? 0) - (sums[k] ?? 0)) / (4 * Math.PI * heightM * lengthM);
  });
}

const RADIAL = gaussLegendre(3);
const RULE = gaussLegendre(8);

/** Told the squared distance to a piece of the outline and the angle at which it is seen, counterclockwise positive. */
type Visit = (rho2: number, angle: number) => void;

/** Goes once round the outline, counterclockwise, as seen from (x, y): the sum of visit's angles is 2π inside and 0 outside. */
function forEachDirection(
  { straightM, straightAcrossM, innerRadiusM }: Racetrack,
  x: number,
  y: number,
  visit: Visit,
): void {
  const [halfS, halfT] = [straightM / 2, straightAcrossM / 2];
  for (const side of [1, -1]) {
    // Seen along each side's outward normal, the side runs from its right to its left end.
    if (halfS > 0) straight(halfT + innerRadiusM - side * y, halfS - side * x, halfS + side * x, visit);
    if (halfT > 0) straight(halfS + innerRadiusM - side * x, halfT - side * y, halfT + side * y, visit);
    for (const other of [1, -1]) arc(side * halfS - x, other * halfT - y, innerRadiusM, side, other, visit);
  }
}

/** A straight `away` from the point (negative: the point lies outside), reaching `before` and `after` the foot of its normal. */
function straight(away: number, before: number, after: number, visit: Visit): void {
  const distance = Math.max(Math.abs(away), 1e-9);
  const from = -Math.atan(before / distance);
  const span = Math.atan(after / distance) - from;
  for (const { node, weight } of RULE) {
    const rho = distance / Math.cos(from + span * node);
    visit(rho * rho, Math.sign(away) * span * weight);
  }
}

/** The quarter arc round (cx, cy), as seen from the point, that bulges toward the signs given. */
function arc(cx: number, cy: number, radius: number, signX: number, signY: number, visit: Visit): void {
  for (const { node, weight } of RULE) {
    const angle = (Math.PI / 2) * node;
    const cos = signX * Math.cos(angle);
    const sin = signY * Math.sin(angle);
    const dx = cx + radius * cos;
    const dy = cy + radius * sin;
    const rho2 = Math.max(dx * dx + dy * dy, 1e-18);
    visit(rho2, ((Math.PI / 2) * weight * radius * (dx * cos + dy * sin)) / rho2);
  }
}
