import { type Complex, divide, multiply, subtract } from '../complex.ts';
import type { EddyNetwork } from './eddy-network.ts';
import { FIT_FREQUENCIES_HZ, fitErrorOf, fitLoops, type LossPoint, reweighted } from './loop-fit.ts';

/**
 * A shorted turn beside all coils of a pickup. With its own inductance chosen as 1 H, its mutual inductance with coil i is
 * `couplings[i]` √Lᵢ, and an e.m.f. e that a string makes in coil i makes `drives[i]` e/√Lᵢ in the turn: so metal that takes part of
 * the string's field takes it from the coils.
 */
export interface SharedLoop {
  readonly cornerHz: number;
  readonly couplings: readonly number[];
  readonly drives: readonly number[];
}

/** Factors on the inductance and on the string's field, both over what they are at 0 Hz, of metal that is known by table. */
export interface TabulatedMetal {
  inductance(frequencyHz: number): Complex;
  string(frequencyHz: number): Complex;
}

/** How far the string's field may be off before one more loop is taken. */
const STRING_ERROR = 0.02;
/** Where the coils' losses are told apart. */
const MODES_HZ = 3000;

/**
 * The whole of a pickup's metal as a few shorted turns that its coils share. The coils' currents are taken in the combinations that lose
 * apart from each other (of two equal coils: with each other and against each other), found from the losses at 3 kHz; each
 * combination's curve from 300 Hz to 20 kHz becomes one to three turns, and what the same metal leaves of the string's field becomes
 * the e.m.f. in them. Below and above that range the turns go on as turns do. What passes from one combination to another at other
 * frequencies is left out. `heard` tells the coils that have a string over them.
 */
export function sharedLoops(
  network: EddyNetwork,
  heard: readonly boolean[],
  tabulated?: TabulatedMetal,
): readonly SharedLoop[] {
  const still = realParts(network.inductanceH(0));
  const losses = network.inductanceH(MODES_HZ).map((row) => row.map(({ im }) => -im));
  return combinations(still, losses).flatMap((currents) => {
    const inductance = (hz: number) => quadratic(network.inductanceH(hz), currents);
    const onHeard = currents.map((current, index) => (heard[index] ? current : 0));
    const string = (hz: number) => quadratic(network.gradient(hz), onHeard);
    const curve = relativeLoss(inductance, tabulated?.inductance);
    const screened = relativeLoss(string, tabulated?.string);
    const loops = fitLoops(curve, (each) => fitErrorOf(reweighted(each, screened), screened) <= STRING_ERROR);
    const screening = reweighted(loops, screened);
    return loops.map(({ squaredCoupling, cornerHz }, index): SharedLoop => {
      const coupling = Math.sqrt(squaredCoupling);
      const drive = (screening[index]?.squaredCoupling ?? 0) / coupling;
      return {
        cornerHz,
        couplings: still.map((row, i) => (coupling * dot(row, currents)) / Math.sqrt(row[i] ?? 1)),
        drives: still.map((row, i) => drive * (currents[i] ?? 0) * Math.sqrt(row[i] ?? 0)),
      };
    });
  });
}

/** 1 − g(f)/g(0), nothing where there is none to lose, times what a table says. */
function relativeLoss(of: (hz: number) => Complex, table?: (hz: number) => Complex): readonly LossPoint[] {
  const still = of(0);
  return FIT_FREQUENCIES_HZ.map((frequencyHz) => {
    const left = Math.abs(still.re) > 0 ? divide(of(frequencyHz), still) : ONE;
    const factor = table?.(frequencyHz) ?? ONE;
    return { frequencyHz, lost: subtract(ONE, multiply(left, factor)) };
  });
}

const ONE: Complex = { re: 1, im: 0 };

const realParts = (matrix: readonly (readonly Complex[])[]): number[][] => matrix.map((row) => row.map(({ re }) => re));

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, index) => sum + value * (b[index] ?? 0), 0);

function quadratic(matrix: readonly (readonly Complex[])[], vector: readonly number[]): Complex {
  let [re, im] = [0, 0];
  matrix.forEach((row, i) => {
    row.forEach((value, j) => {
      const weight = (vector[i] ?? 0) * (vector[j] ?? 0);
      re += weight * value.re;
      im += weight * value.im;
    });
  });
  return { re, im };
}

/**
 * Vectors w with wᵀ A w = 1 that make both A and B diagonal, A positive definite: the eigenvectors of B on the triangular factor of A
 * (Cholesky), by Jacobi's rotations. As many as there are coils.
 */
function combinations(a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] {
  const size = a.length;
  const factor = choleskyOf(a);
  const half = b.map((row) => forward(factor, row));
  const columns = half.map((_, j) => half.map((row) => row[j] ?? 0));
  const symmetric = columns.map((column) => forward(factor, column));
  const vectors = eigenvectors(symmetric);
  return Array.from({ length: size }, (_, k) =>
    backward(
      factor,
      vectors.map((row) => row[k] ?? 0),
    ),
  );
}

function choleskyOf(a: readonly (readonly number[])[]): number[][] {
  const lower = a.map((row) => row.map(() => 0));
  a.forEach((row, i) => {
    for (let j = 0; j <= i; j++) {
      const [first, second] = [lower[i] ?? [], lower[j] ?? []];
      const rest = (row[j] ?? 0) - dot(first.slice(0, j), second.slice(0, j));
      first[j] = i === j ? Math.sqrt(rest) : rest / (second[j] ?? 1);
    }
  });
  return lower;
}

/** L⁻¹ x. */
function forward(lower: readonly (readonly number[])[], x: readonly number[]): number[] {
  const solution: number[] = [];
  lower.forEach((row, i) => {
    solution.push(((x[i] ?? 0) - dot(solution, row.slice(0, i))) / (row[i] ?? 1));
  });
  return solution;
}

/** L⁻ᵀ x. */
function backward(lower: readonly (readonly number[])[], x: readonly number[]): number[] {
  const solution = [...x];
  for (let i = lower.length - 1; i >= 0; i--) {
    let value = x[i] ?? 0;
    for (let k = i + 1; k < lower.length; k++) value -= (lower[k]?.[i] ?? 0) * (solution[k] ?? 0);
    solution[i] = value / (lower[i]?.[i] ?? 1);
  }
  return solution;
}

/** Columns: the eigenvectors of a symmetric matrix, by Jacobi's cyclic rotations. */
function eigenvectors(symmetric: readonly (readonly number[])[]): number[][] {
  const matrix = symmetric.map((row) => [...row]);
  const vectors = symmetric.map((row, i) => row.map((_, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < 12; sweep++)
    for (let p = 0; p < matrix.length; p++)
      for (let q = p + 1; q < matrix.length; q++) {
        const off = matrix[p]?.[q] ?? 0;
        if (off === 0) continue;
        const angle = Math.atan2(2 * off, (matrix[q]?.[q] ?? 0) - (matrix[p]?.[p] ?? 0)) / 2;
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        for (const rows of [matrix, vectors])
          for (const row of rows) {
            const [x, y] = [row[p] ?? 0, row[q] ?? 0];
            row[p] = cos * x - sin * y;
            row[q] = sin * x + cos * y;
          }
        const [first, second] = [matrix[p] ?? [], matrix[q] ?? []];
        for (let k = 0; k < matrix.length; k++) {
          const [x, y] = [first[k] ?? 0, second[k] ?? 0];
          first[k] = cos * x - sin * y;
          second[k] = sin * x + cos * y;
        }
      }
  return vectors;
}
