import { concentricTurnsMutualH, type Offset, racetracksMutualH } from './filaments.ts';
import { gaussLegendre } from './gauss-legendre.ts';
import type { CoilSection } from './inductance.ts';
import { memoByValue } from './memo.ts';
import type { Racetrack } from './racetrack.ts';

/** Two coils with parallel axes; `offset` leads from the first's centre to the second's. */
export interface CoilPair {
  first: CoilSection;
  second: CoilSection;
  offset: Offset;
}

/**
 * Mutual inductance of two air-core coils divided by the product of their turns, H, both counted the same way round: multiply
 * by N₁N₂. Side by side it is negative, stacked on one axis positive. In a netlist whose currents run from ground to hot, a
 * hum-cancelling pair has the coupling with the opposite sign, since its currents run in opposite rotations.
 *
 * Mean over both sections of the mutual inductance of two turns (Neumann); the two axial integrals become one over their
 * difference. Valid for sections that do not overlap. Error below 1e-3 of the mutual inductance, below 2e-4 of the
 * coupling, for coils a millimetre or more apart. Remembers its results by value.
 */
export const mutualInductancePerTurnsProductH: (pair: CoilPair) => number = memoByValue((pair: CoilPair) =>
  mutualInductance(pair, { radialPoints: 3, axialPoints: 4 }),
);

/** The same integral at any number of quadrature points, not remembered: what convergence is judged by. */
export function mutualInductance(
  { first, second, offset }: CoilPair,
  { radialPoints, axialPoints }: { radialPoints: number; axialPoints: number },
): number {
  const radial = gaussLegendre(radialPoints);
  const differences = axialDifferences(first.heightM, second.heightM, axialPoints);
  // Side by side, a difference and its opposite count alike: half of them do, twice.
  const axial =
    offset.axialM === 0
      ? differences
          .filter(({ difference }) => difference >= 0)
          .map(({ difference, share }) => ({ difference, share: difference === 0 ? share : 2 * share }))
      : differences;
  const oneCore = offset.alongM === 0 && offset.acrossM === 0 && sameCore(first.core, second.core);
  let sum = 0;
  for (const inFirst of radial) {
    const x1 = first.buildM * inFirst.node;
    for (const inSecond of radial) {
      const x2 = second.buildM * inSecond.node;
      const weight = inFirst.weight * inSecond.weight;
      for (const { difference, share } of axial) {
        const axialM = offset.axialM + difference;
        const turns = oneCore
          ? concentricTurnsMutualH(first.core, x1, x2, axialM)
          : racetracksMutualH(outset(first.core, x1), outset(second.core, x2), { ...offset, axialM });
        sum += weight * share * turns;
      }
    }
  }
  return sum;
}

/**
 * Quadrature over the difference z₂ − z₁ of two points spread evenly over two heights: its density is a trapezoid, so each
 * straight piece of it gets its own Gauss-Legendre points.
 */
function axialDifferences(height1: number, height2: number, points: number): { difference: number; share: number }[] {
  const outer = (height1 + height2) / 2;
  const inner = Math.abs(height1 - height2) / 2;
  const density = (u: number) => Math.min(Math.min(height1, height2), outer - Math.abs(u)) / (height1 * height2);
  const pieces = [
    [-outer, -inner],
    [-inner, inner],
    [inner, outer],
  ] as const;
  return pieces.flatMap(([from, to]) => {
    if (to <= from) return [];
    return gaussLegendre(points).map(({ node, weight }) => {
      const difference = from + (to - from) * node;
      return { difference, share: (to - from) * weight * density(difference) };
    });
  });
}

function outset(core: Racetrack, offsetM: number): Racetrack {
  return { ...core, innerRadiusM: core.innerRadiusM + offsetM };
}

function sameCore(a: Racetrack, b: Racetrack): boolean {
  return a.straightM === b.straightM && a.straightAcrossM === b.straightAcrossM && a.innerRadiusM === b.innerRadiusM;
}
