import { gaussLegendre } from './gauss-legendre.ts';
import type { CoilSection } from './inductance.ts';
import type { Racetrack } from './racetrack.ts';

/** A stretch parallel to the coil's axis, seen from the coil's centre, metres. */
export interface AxialStretch {
  alongM: number;
  acrossM: number;
  bottomM: number;
  topM: number;
}

/**
 * Mean axial field, A/m per ampere-turn, that a coil makes over a stretch parallel to its axis; current spread evenly over the
 * section of the winding.
 *
 * Biot-Savart, with both axial integrals (over the height of the winding and over the stretch) in closed form: what is left of a
 * turn is ∮ K(ρ) dφ / 4π over the angle φ at which its outline is seen from the stretch, ρ the distance to it in the plane, with
 * K = √(ρ²+(t+h/2)²) − √(ρ²+(t−h/2)²) − √(ρ²+(b+h/2)²) + √(ρ²+(b−h/2)²). Straights are integrated over their angle, arcs over their own;
 * the turns over the build by Gauss-Legendre. Valid inside the hole of the coil and outside the winding: 1e-5 one tenth of the
 * build away from it. No restriction on the stretch's length.
 */
export function meanAxialFieldPerAmpereTurn({ core, buildM, heightM }: CoilSection, stretch: AxialStretch): number {
  const { nodes, weights } = gaussLegendre(RADIAL_POINTS);
  const kernel = axialKernel(heightM, stretch.bottomM, stretch.topM);
  let sum = 0;
  for (let index = 0; index < nodes.length; index++) {
    const turn = { ...core, innerRadiusM: core.innerRadiusM + buildM * (nodes[index] ?? 0) };
    sum += (weights[index] ?? 0) * angleIntegral(turn, stretch.alongM, stretch.acrossM, kernel);
  }
  return sum / (4 * Math.PI * heightM * (stretch.topM - stretch.bottomM));
}

const RADIAL_POINTS = 4;
const RULE = gaussLegendre(8);

type Kernel = (rho2: number) => number;

function axialKernel(heightM: number, bottomM: number, topM: number): Kernel {
  const a = (topM + heightM / 2) ** 2;
  const b = (topM - heightM / 2) ** 2;
  const c = (bottomM + heightM / 2) ** 2;
  const d = (bottomM - heightM / 2) ** 2;
  return (rho2) => Math.sqrt(rho2 + a) - Math.sqrt(rho2 + b) - Math.sqrt(rho2 + c) + Math.sqrt(rho2 + d);
}

/** ∮ K(ρ) dφ around the outline, counterclockwise, φ the angle seen from (x, y). */
function angleIntegral({ straightM, straightAcrossM, innerRadiusM }: Racetrack, x: number, y: number, kernel: Kernel): number {
  const [halfS, halfT] = [straightM / 2, straightAcrossM / 2];
  let sum = 0;
  for (const side of [1, -1]) {
    // Seen along each side's outward normal, the side runs from its right to its left end.
    if (halfS > 0) sum += straightAngle(halfT + innerRadiusM - side * y, halfS - side * x, halfS + side * x, kernel);
    if (halfT > 0) sum += straightAngle(halfS + innerRadiusM - side * x, halfT - side * y, halfT + side * y, kernel);
    for (const other of [1, -1]) {
      sum += arcAngle(side * halfS - x, other * halfT - y, innerRadiusM, side, other, kernel);
    }
  }
  return sum;
}

/** A straight `away` from the point (negative: the point lies outside), reaching `before` and `after` the foot of its normal. */
function straightAngle(away: number, before: number, after: number, kernel: Kernel): number {
  const distance = Math.max(Math.abs(away), 1e-9);
  const from = -Math.atan(before / distance);
  const span = Math.atan(after / distance) - from;
  let sum = 0;
  for (let index = 0; index < RULE.nodes.length; index++) {
    const rho = distance / Math.cos(from + span * (RULE.nodes[index] ?? 0));
    sum += (RULE.weights[index] ?? 0) * kernel(rho * rho);
  }
  return Math.sign(away) * span * sum;
}

/** The quarter arc round (cx, cy), as seen from the point, that bulges toward the signs given. */
function arcAngle(cx: number, cy: number, radius: number, signX: number, signY: number, kernel: Kernel): number {
  let sum = 0;
  for (let index = 0; index < RULE.nodes.length; index++) {
    const angle = (Math.PI / 2) * (RULE.nodes[index] ?? 0);
    const cos = signX * Math.cos(angle);
    const sin = signY * Math.sin(angle);
    const dx = cx + radius * cos;
    const dy = cy + radius * sin;
    const rho2 = Math.max(dx * dx + dy * dy, 1e-18);
    sum += ((RULE.weights[index] ?? 0) * (dx * cos + dy * sin) * kernel(rho2)) / rho2;
  }
  return radius * (Math.PI / 2) * sum;
}
