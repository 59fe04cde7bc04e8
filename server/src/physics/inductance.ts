import { MU0 } from './constants.ts';
import { concentricTurnsMutualH } from './filaments.ts';
import { gaussLegendre } from './gauss-legendre.ts';
import { memoByValue } from './memo.ts';
import { type Racetrack, turnLengthM } from './racetrack.ts';

/** A coil as inductance sees it: the section of its winding on its core, metres. */
export interface CoilSection {
  core: Racetrack;
  /** Radial. */
  buildM: number;
  /** Axial. */
  heightM: number;
}

/**
 * Self-inductance of an air-core coil divided by the square of its turns, H, at low frequency: multiply by N².
 * The current is spread evenly over a rectangular section on a racetrack, rounded-rectangle or round core.
 *
 * l = mean over the section, twice, of the mutual inductance of two turns (Neumann). Where the turns come close, the mutual
 * inductance goes like −(μ0/2π) P ln d (P the turn's length, d the distance): that part is taken out and put back in closed form
 * as the geometric mean distance of the rectangle from itself (Maxwell, Treatise §692); what is left is smooth and
 * integrated by Gauss-Legendre. The separate enamel and gaps of a real winding change l by less than 1e-4 at thousands of turns.
 * Valid for build, height and core larger than zero. Error below 1e-4 for build and height up to about three core radii,
 * checked against a converged integration. Remembers its results by value.
 */
export const inductancePerTurnSquaredH: (section: CoilSection) => number = memoByValue((section: CoilSection) =>
  selfInductance(section, { radialPoints: 5, axialPoints: 5 }),
);

/** The same integral at any number of quadrature points, not remembered: what convergence is judged by. */
export function selfInductance(
  { core, buildM, heightM }: CoilSection,
  { radialPoints, axialPoints }: { radialPoints: number; axialPoints: number },
): number {
  const radial = gaussLegendre(radialPoints);
  let smooth = 0;
  for (const [i, first] of radial.entries()) {
    const x1 = buildM * first.node;
    for (const second of radial.slice(i)) {
      const x2 = buildM * second.node;
      const pair = first.weight * second.weight * (first === second ? 1 : 2);
      const length = turnLengthM(core, (x1 + x2) / 2);
      for (const { node: v, weight: share } of gaussLegendre(axialPoints)) {
        // Two points of the height lie v·h apart with the density 2 (1 − v).
        const weight = pair * share * 2 * (1 - v);
        const u = v * heightM;
        const logarithm = (MU0 / (2 * Math.PI)) * length * Math.log(Math.hypot(x1 - x2, u));
        smooth += weight * (concentricTurnsMutualH(core, x1, x2, u) + logarithm);
      }
    }
  }
  return smooth - (MU0 / (2 * Math.PI)) * turnLengthM(core, buildM / 2) * logGeometricMeanDistance(buildM, heightM);
}

/** ln of the geometric mean distance of the points of a rectangle a × b from each other, metres (Maxwell, Treatise §692). Exact. */
export function logGeometricMeanDistance(a: number, b: number): number {
  const ratio = a / b;
  const r2 = ratio * ratio;
  return (
    Math.log(Math.hypot(a, b)) -
    (r2 * Math.log1p(1 / r2) + Math.log1p(r2) / r2) / 12 +
    (2 / 3) * (ratio * Math.atan(1 / ratio) + Math.atan(ratio) / ratio) -
    25 / 12
  );
}
