import { MU0 } from './constants.ts';
import { ellipticOfComplement } from './elliptic-integrals.ts';
import { gaussLegendre, gradedGaussLegendre, type Quadrature } from './gauss-legendre.ts';
import type { Racetrack } from './racetrack.ts';

/** Neumann's factor μ0/4π, H/m. */
export const NEUMANN = MU0 / (4 * Math.PI);

/**
 * Mutual inductance of two coaxial circular filaments, H: μ0 √(r₁r₂) [(2/k − k) K − (2/k) E], k² = 4 r₁r₂/((r₁+r₂)² + z²).
 * Exact; the filaments must not coincide. Maxwell, Treatise §701; NIST DLMF 19.34.
 */
export function coaxialCirclesMutualH(radius1M: number, radius2M: number, axialM: number): number {
  const product = 4 * radius1M * radius2M;
  if (product === 0) return 0;
  const farthest2 = (radius1M + radius2M) ** 2 + axialM ** 2;
  const k = Math.sqrt(product / farthest2);
  const complement = Math.sqrt(((radius1M - radius2M) ** 2 + axialM ** 2) / farthest2);
  const { K, E } = ellipticOfComplement(complement);
  return MU0 * Math.sqrt(radius1M * radius2M) * ((2 / k - k) * K - (2 / k) * E);
}

/**
 * Neumann's double integral over two parallel straight filaments that run the same way, metres (times μ0/4π it is an
 * inductance): one from `from1` to `to1`, the other from `from2` to `to2` along the same direction, `distance` apart.
 * Closed form; for collinear filaments that do not overlap a distance of 1e-12 m stands for none.
 */
export function parallelStraights(from1: number, to1: number, from2: number, to2: number, distance: number): number {
  const d = Math.max(distance, 1e-12);
  return (
    straightPrimitive(to1 - from2, d) -
    straightPrimitive(to1 - to2, d) -
    straightPrimitive(from1 - from2, d) +
    straightPrimitive(from1 - to2, d)
  );
}

/**
 * Mutual inductance, H, of two turns of one coil: racetracks around one core, `offset1M` and `offset2M` outside it and
 * `axialM` apart, counted the same way round. Straights with straights in closed form; straights with arcs by quadrature
 * over the arc; arcs of one corner by a single integral whose near-singular part is taken out in closed form; arcs of
 * different corners by a double quadrature. About 1e-6; the turns must not coincide.
 */
export function concentricTurnsMutualH(core: Racetrack, offset1M: number, offset2M: number, axialM: number): number {
  const s = Math.max(core.straightM, core.straightAcrossM);
  const t = Math.min(core.straightM, core.straightAcrossM);
  const r1 = core.innerRadiusM + offset1M;
  const r2 = core.innerRadiusM + offset2M;
  if (s <= 0) return coaxialCirclesMutualH(r1, r2, axialM);
  const near = Math.hypot(r1 - r2, axialM);
  const along = alignedStraights(s, near) - alignedStraights(s, Math.hypot(t + r1 + r2, axialM));
  const across = t > 0 ? alignedStraights(t, near) - alignedStraights(t, Math.hypot(s + r1 + r2, axialM)) : 0;
  const straightArc = arcWithStraights(s, t, r1, r2, axialM) + arcWithStraights(s, t, r2, r1, axialM);
  const arcs = t > 0 ? arcsOfRectangle(s, t, r1, r2, axialM) : arcsOfStadium(s, r1, r2, axialM);
  return NEUMANN * (2 * along + 2 * across + 4 * straightArc + arcs);
}

/** Position of one racetrack's centre relative to another's, metres: along the length, across it, along the axis. */
export interface Offset {
  alongM: number;
  acrossM: number;
  axialM: number;
}

/** The way from one centre to another. */
export const offsetBetween = (from: Offset, to: Offset): Offset => ({
  alongM: to.alongM - from.alongM,
  acrossM: to.acrossM - from.acrossM,
  axialM: to.axialM - from.axialM,
});

/**
 * Mutual inductance, H, of two racetrack turns anywhere with parallel axes and parallel lengths, counted the same way round:
 * the second's centre lies at `offset` from the first's. The outline of each turn is its racetrack as given (`innerRadiusM`
 * is the radius of its own corners). Parallel straights in closed form, the rest by quadrature over the arcs: about 1e-6
 * where the turns keep a distance of a tenth of the corner radius.
 */
export function racetracksMutualH(first: Racetrack, second: Racetrack, offset: Offset): number {
  const coaxial = offset.alongM === 0 && offset.acrossM === 0;
  const circles = first.straightM + first.straightAcrossM + second.straightM + second.straightAcrossM <= 0;
  if (coaxial && circles) return coaxialCirclesMutualH(first.innerRadiusM, second.innerRadiusM, offset.axialM);
  return (
    NEUMANN *
    (straightsOfPair(first, second, offset) +
      arcsWithStraightsOfPair(first, second, offset) +
      arcsOfPair(first, second, offset))
  );
}

const ARC = gradedGaussLegendre(10);
const ARC_FAR = gaussLegendre(6);
const ARC_SAME = gaussLegendre(10);

function straightPrimitive(x: number, d: number): number {
  return x * Math.asinh(x / d) - Math.sqrt(x * x + d * d);
}

function alignedStraights(length: number, distance: number): number {
  return 2 * (length * Math.asinh(length / distance) - Math.sqrt(length * length + distance * distance) + distance);
}

/** Potential of a straight from −half to half at a point `along` it and `distance` beside it (1e-12 m stands for none). */
function straightPotential(half: number, along: number, distance: number): number {
  const d = Math.max(distance, 1e-12);
  return Math.asinh((along + half) / d) - Math.asinh((along - half) / d);
}

/** The corner arc (+, +) of the turn with radius `ra` against the four straights of the turn with radius `rs`. */
function arcWithStraights(s: number, t: number, ra: number, rs: number, u: number): number {
  if (ra <= 0) return 0;
  let sum = 0;
  for (const { node, weight } of ARC) {
    const angle = (Math.PI / 2) * node;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const x = s / 2 + ra * cos;
    const y = t / 2 + ra * sin;
    const top = straightPotential(s / 2, x, Math.hypot(y - t / 2 - rs, u));
    const bottom = straightPotential(s / 2, x, Math.hypot(y + t / 2 + rs, u));
    let dot = sin * (top - bottom);
    if (t > 0) {
      const right = straightPotential(t / 2, y, Math.hypot(x - s / 2 - rs, u));
      const left = straightPotential(t / 2, y, Math.hypot(x + s / 2 + rs, u));
      dot += cos * (right - left);
    }
    sum += (Math.PI / 2) * weight * dot;
  }
  return ra * sum;
}

/**
 * Two concentric arcs that span the same angle Θ: r₁r₂ · 2 ∫₀^Θ (Θ − φ) cos φ / √(d² + 4 r₁r₂ sin²(φ/2)) dφ, with
 * 1/√(d² + r₁r₂φ²) taken out in closed form, because it peaks at φ = 0 as narrowly as the turns are close.
 */
function concentricArcs(span: number, r1: number, r2: number, u: number): number {
  const q2 = r1 * r2;
  if (q2 <= 0) return 0;
  const q = Math.sqrt(q2);
  const d = Math.hypot(r1 - r2, u);
  const d2 = d * d;
  const peak = (span * Math.asinh((span * q) / d)) / q - (Math.sqrt(d2 + q2 * span * span) - d) / q2;
  let rest = 0;
  for (const { node, weight } of ARC_SAME) {
    const phi = span * node;
    const half = Math.sin(phi / 2);
    const whole = Math.cos(phi) / Math.sqrt(d2 + 4 * q2 * half * half);
    rest += weight * (span - phi) * (whole - 1 / Math.sqrt(d2 + q2 * phi * phi));
  }
  return 2 * q2 * (peak + span * rest);
}

function arcsOfStadium(s: number, r1: number, r2: number, u: number): number {
  const opposite = arcPair(
    { x: s, y: 0, z: u },
    [r1, -Math.PI / 2, Math.PI],
    [r2, Math.PI / 2, Math.PI],
    gaussLegendre(8),
  );
  return 2 * concentricArcs(Math.PI, r1, r2, u) + 2 * opposite;
}

function arcsOfRectangle(s: number, t: number, r1: number, r2: number, u: number): number {
  const quarter = Math.PI / 2;
  const corner = [r1, 0, quarter] as const;
  const alongLength = arcPair({ x: s, y: 0, z: u }, corner, [r2, quarter, quarter], ARC_FAR);
  const diagonal = arcPair({ x: s, y: t, z: u }, corner, [r2, 2 * quarter, quarter], ARC_FAR);
  // Two corners across a narrow core may all but touch, where the integrand peaks at the ends of both arcs.
  const acrossWidth = arcPair({ x: 0, y: t, z: u }, corner, [r2, 3 * quarter, quarter], ARC);
  return 4 * (concentricArcs(quarter, r1, r2, u) + alongLength + diagonal + acrossWidth);
}

type Arc = readonly [radius: number, start: number, span: number];

/** Two arcs in parallel planes; `between` leads from the second's centre to the first's. */
function arcPair(between: { x: number; y: number; z: number }, first: Arc, second: Arc, rule: Quadrature): number {
  const [r1, start1, span1] = first;
  const [r2, start2, span2] = second;
  if (r1 <= 0 || r2 <= 0) return 0;
  const points = rule.map(({ node, weight }) => {
    const angle = start2 + span2 * node;
    return { cos: Math.cos(angle), sin: Math.sin(angle), weight };
  });
  let sum = 0;
  for (const { node, weight } of rule) {
    const angle = start1 + span1 * node;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const x = between.x + r1 * cos;
    const y = between.y + r1 * sin;
    let inner = 0;
    for (const point of points) {
      const dx = x - r2 * point.cos;
      const dy = y - r2 * point.sin;
      inner +=
        (point.weight * (cos * point.cos + sin * point.sin)) / Math.sqrt(dx * dx + dy * dy + between.z * between.z);
    }
    sum += weight * inner;
  }
  return r1 * r2 * span1 * span2 * sum;
}

function straightsOfPair(first: Racetrack, second: Racetrack, { alongM, acrossM, axialM }: Offset): number {
  let sum = 0;
  for (const side1 of [1, -1]) {
    for (const side2 of [1, -1]) {
      const y = acrossM + side2 * halfWidth(second) - side1 * halfWidth(first);
      sum += side1 * side2 * centredStraights(first.straightM, second.straightM, alongM, Math.hypot(y, axialM));
      const x = alongM + side2 * halfLength(second) - side1 * halfLength(first);
      sum +=
        side1 * side2 * centredStraights(first.straightAcrossM, second.straightAcrossM, acrossM, Math.hypot(x, axialM));
    }
  }
  return sum;
}

function centredStraights(length1: number, length2: number, shift: number, distance: number): number {
  if (length1 <= 0 || length2 <= 0) return 0;
  return parallelStraights(-length1 / 2, length1 / 2, shift - length2 / 2, shift + length2 / 2, distance);
}

function arcsWithStraightsOfPair(first: Racetrack, second: Racetrack, offset: Offset): number {
  const back = { alongM: -offset.alongM, acrossM: -offset.acrossM, axialM: offset.axialM };
  return cornersWithStraights(first, second, back) + cornersWithStraights(second, first, offset);
}

/** All corners of `cornered`, whose centre lies at `offset` from that of `straight`, against the straights of `straight`. */
function cornersWithStraights(straight: Racetrack, cornered: Racetrack, offset: Offset): number {
  const radius = cornered.innerRadiusM;
  if (radius <= 0) return 0;
  let sum = 0;
  for (const corner of CORNERS) {
    for (const { node, weight } of ARC) {
      const angle = corner.start + (Math.PI / 2) * node;
      const cos = Math.cos(angle);
      const sin = Math.sin(angle);
      const x = offset.alongM + (corner.x * cornered.straightM) / 2 + radius * cos;
      const y = offset.acrossM + (corner.y * cornered.straightAcrossM) / 2 + radius * sin;
      let dot = 0;
      if (straight.straightM > 0) {
        const half = straight.straightM / 2;
        const top = straightPotential(half, x, Math.hypot(y - halfWidth(straight), offset.axialM));
        const bottom = straightPotential(half, x, Math.hypot(y + halfWidth(straight), offset.axialM));
        dot += sin * (top - bottom);
      }
      if (straight.straightAcrossM > 0) {
        const half = straight.straightAcrossM / 2;
        const right = straightPotential(half, y, Math.hypot(x - halfLength(straight), offset.axialM));
        const left = straightPotential(half, y, Math.hypot(x + halfLength(straight), offset.axialM));
        dot += cos * (right - left);
      }
      sum += weight * dot;
    }
  }
  return radius * (Math.PI / 2) * sum;
}

function arcsOfPair(first: Racetrack, second: Racetrack, offset: Offset): number {
  let sum = 0;
  for (const corner1 of CORNERS) {
    for (const corner2 of CORNERS) {
      const between = {
        x: (corner1.x * first.straightM - corner2.x * second.straightM) / 2 - offset.alongM,
        y: (corner1.y * first.straightAcrossM - corner2.y * second.straightAcrossM) / 2 - offset.acrossM,
        z: offset.axialM,
      };
      const far = Math.hypot(between.x, between.y, between.z) > 2 * (first.innerRadiusM + second.innerRadiusM);
      const arc1 = [first.innerRadiusM, corner1.start, Math.PI / 2] as const;
      const arc2 = [second.innerRadiusM, corner2.start, Math.PI / 2] as const;
      sum += arcPair(between, arc1, arc2, far ? ARC_FAR : ARC);
    }
  }
  return sum;
}

const CORNERS = [
  { x: 1, y: 1, start: 0 },
  { x: -1, y: 1, start: Math.PI / 2 },
  { x: -1, y: -1, start: Math.PI },
  { x: 1, y: -1, start: (3 * Math.PI) / 2 },
] as const;

function halfWidth({ straightAcrossM, innerRadiusM }: Racetrack): number {
  return straightAcrossM / 2 + innerRadiusM;
}

function halfLength({ straightM, innerRadiusM }: Racetrack): number {
  return straightM / 2 + innerRadiusM;
}
