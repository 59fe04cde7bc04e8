import { ellipticOfComplement } from './elliptic-integrals.ts';
import { gaussLegendre } from './gauss-legendre.ts';
import { solveInPlace } from './linear-solve.ts';
import { memoByValue } from './memo.ts';

/** A cylinder magnetised along its axis. */
export interface Cylinder {
  lengthM: number;
  diameterM: number;
}

/**
 * Magnetometric demagnetising factor N of a cylinder in a uniform axial field: mean H inside = H applied − N · mean M, for a
 * linear material of relative permeability μr. Definition of Chen, Brug & Goldfarb, IEEE Trans. Magn. 27 (1991) 3601.
 *
 * Surface charge in rings of constant density on side and ends, graded toward the rim where the charge is infinite; the
 * normal field of each ring by elliptic integrals, collocated, mirror symmetry used. Valid for L/D from 0.3 to 20 and μr ≥ 1.
 * Error below 0.5 %. Remembers its results by value; L and D matter only as their ratio.
 */
export function demagnetisingFactor({ lengthM, diameterM }: Cylinder, relativePermeability: number): number {
  return solvedFactor({ ratio: lengthM / diameterM, relativePermeability });
}

/**
 * The limit of small susceptibility, where the magnetisation is uniform: N = 1 − k_L, k_L the field coefficient of the
 * solenoid of the same shape (Lorenz, Nagaoka). Exact, also the factor of a rod magnetised uniformly.
 */
export function demagnetisingFactorUniform({ lengthM, diameterM }: Cylinder): number {
  return 1 - nagaokaCoefficient(diameterM / lengthM);
}

/**
 * Magnetometric demagnetising factor of a uniformly magnetised block, for the axis of its edge `alongM`. Exact; the three factors
 * of a block add up to 1. A. Aharoni, J. Appl. Phys. 83 (1998) 3432 (recalled; checked against a numerical integral).
 */
export function blockDemagnetisingFactor({
  alongM,
  acrossM,
  otherM,
}: {
  alongM: number;
  acrossM: number;
  otherM: number;
}): number {
  const [a, b, c] = [acrossM / 2, otherM / 2, alongM / 2];
  const [ab, bc, ac, r] = [Math.hypot(a, b), Math.hypot(b, c), Math.hypot(a, c), Math.hypot(a, b, c)];
  const terms = [
    ((b * b - c * c) / (2 * b * c)) * Math.log((r - a) / (r + a)),
    ((a * a - c * c) / (2 * a * c)) * Math.log((r - b) / (r + b)),
    (b / (2 * c)) * Math.log((ab + a) / (ab - a)),
    (a / (2 * c)) * Math.log((ab + b) / (ab - b)),
    (c / (2 * a)) * Math.log((bc - b) / (bc + b)),
    (c / (2 * b)) * Math.log((ac - a) / (ac + a)),
    2 * Math.atan((a * b) / (c * r)),
    (a ** 3 + b ** 3 - 2 * c ** 3) / (3 * a * b * c),
    ((a * a + b * b - 2 * c * c) / (3 * a * b * c)) * r,
    (c / (a * b)) * (ac + bc),
    -(ab ** 3 + bc ** 3 + ac ** 3) / (3 * a * b * c),
  ];
  return terms.reduce((sum, term) => sum + term, 0) / Math.PI;
}

/**
 * Demagnetising factors between equal coaxial cylinders stacked without gaps, uniformly magnetised: entry m is the mean of −H over one
 * for unit magnetisation of the one m places away. As current sheets: a second difference of the self-inductance of solenoids of
 * growing length, exact. Entry 0 is the cylinder's own factor; the others are negative, since stacked poles help each other.
 */
export function sliceDemagnetisingFactors({ lengthM, diameterM }: Cylinder, count: number): number[] {
  const inductance = (places: number) => (places > 0 ? places * nagaokaCoefficient(diameterM / (places * lengthM)) : 0);
  return Array.from({ length: count }, (_, m) =>
    m === 0 ? 1 - inductance(1) : inductance(m) - (inductance(m + 1) + inductance(m - 1)) / 2,
  );
}

/** Nagaoka's coefficient of a current sheet of diameter/length `ratio`: its inductance over μ0 π r² / length. Exact (Lorenz 1879). */
export function nagaokaCoefficient(ratio: number): number {
  const complement = 1 / Math.sqrt(1 + ratio * ratio);
  const k = ratio * complement;
  const { K, E } = ellipticOfComplement(complement);
  const k2 = k * k;
  return (4 / (3 * Math.PI * complement)) * ((complement ** 2 / k2) * (K - E) + E - k);
}

const solvedFactor = memoByValue(({ ratio, relativePermeability }: { ratio: number; relativePermeability: number }) => {
  const chi = relativePermeability - 1;
  const uniform = demagnetisingFactorUniform({ lengthM: ratio, diameterM: 1 });
  // Below this the mean field differs from the applied one by so little that rounding would show in 1/χ.
  if (!(chi > 1e-3)) return uniform;
  return 1 / meanMagnetisation(ratio, chi) - 1 / chi;
});

/** A ring of surface charge: from radius to radius on the end, or from height to height on the side. */
interface Ring {
  from: number;
  to: number;
  onEnd: boolean;
}

/** Mean axial magnetisation per applied field of a cylinder of radius 1 and length/diameter `ratio`. */
function meanMagnetisation(ratio: number, chi: number): number {
  const rings = ringsOf(ratio);
  const size = rings.length;
  const matrix = new Float64Array(size * size);
  const charge = Float64Array.from(rings, ({ onEnd }) => (onEnd ? 1 : 0));
  rings.forEach((source, j) => {
    // A closed surface catches half the flux of a charge on it (Gauss), which fixes the field of the ring on itself far better
    // than its singular integral does.
    let caught = 0;
    let ownMirror = 0;
    rings.forEach((ring, i) => {
      const direct = i === j ? 0 : normalField(ring, source, ratio, 1);
      const mirrored = normalField(ring, source, ratio, -1);
      caught += area(ring) * (direct + mirrored);
      if (i === j) ownMirror = mirrored;
      else matrix[i * size + j] = mirrored - direct;
    });
    const own = (area(source) / 2 - caught) / area(source);
    // Charge σ jumps the normal field by σ: just inside it is the principal value less σ/2, and σ = χ H inside.
    matrix[j * size + j] = 1 / chi + 0.5 - own + ownMirror;
  });
  solveInPlace(matrix, [charge]);
  // Inside there is no volume charge, so the mean of M is the first moment of the surface charge over the volume.
  const moment = rings.reduce((sum, ring, index) => sum + (charge[index] ?? 0) * firstMoment(ring, ratio), 0);
  return moment / (Math.PI * ratio);
}

function ringsOf(ratio: number): Ring[] {
  const rings: Ring[] = [];
  const ends = 10;
  for (let index = 0; index < ends; index++) {
    rings.push({ from: graded(index / ends), to: graded((index + 1) / ends), onEnd: true });
  }
  const sides = 18;
  for (let index = 0; index < sides; index++) {
    rings.push({ from: ratio * graded(index / sides), to: ratio * graded((index + 1) / sides), onEnd: false });
  }
  return rings;
}

/** Maps 0..1 on itself with steps that shrink toward 1, the rim. */
function graded(t: number): number {
  return 1 - (1 - t) ** 2;
}

function firstMoment({ from, to, onEnd }: Ring, ratio: number): number {
  return onEnd ? Math.PI * (to * to - from * from) * ratio : Math.PI * (to * to - from * from);
}

/**
 * Outward normal field at the middle of `ring` of unit charge density on `source` (side 1), or on its image below the middle plane
 * (side −1). Two points over the source do: its own field is fixed by Gauss.
 */
function normalField(ring: Ring, source: Ring, halfLength: number, side: 1 | -1): number {
  const at = (ring.from + ring.to) / 2;
  const pointRadius = ring.onEnd ? at : 1;
  const pointHeight = ring.onEnd ? halfLength : at;
  const length = source.to - source.from;
  let sum = 0;
  for (const { node, weight } of gaussLegendre(2)) {
    const t = source.from + length * node;
    const height = side * (source.onEnd ? halfLength : t);
    sum += weight * ringField(ring.onEnd, pointRadius, pointHeight - height, source.onEnd ? t : 1);
  }
  return length * sum;
}

function area({ from, to, onEnd }: Ring): number {
  return onEnd ? Math.PI * (to * to - from * from) : 2 * Math.PI * (to - from);
}

/** Axial or radial field ∮ R/(4πR³) dl of a ring of unit line charge, radius a, at (r, z) from its centre. */
function ringField(axial: boolean, r: number, z: number, a: number): number {
  const near2 = (a - r) ** 2 + z * z;
  const far2 = (a + r) ** 2 + z * z;
  if (near2 <= 0 || a <= 0) return 0;
  const far = Math.sqrt(far2);
  const { K, E } = ellipticOfComplement(Math.sqrt(near2 / far2));
  if (axial) return (a * z * E) / (Math.PI * near2 * far);
  if (r <= 0) return 0;
  return (a / (2 * Math.PI * r * far)) * (K + ((r * r - a * a - z * z) / near2) * E);
}
