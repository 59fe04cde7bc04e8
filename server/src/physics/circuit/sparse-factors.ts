import { type EliminationPlan, rememberedPlan } from './elimination-plan.ts';
import type { LinearSystem } from './linear-system.ts';

/** How many frequencies are eliminated side by side; their numbers then fit a processor's first cache. */
export const blockLength = 16;

/**
 * Largest multiplier that the fixed order may meet. Partial pivoting keeps multipliers below 1; each digit above costs
 * at most a digit of sixteen, so this leaves some ten. Beyond it the order is not trusted at that frequency.
 */
const largestMultiplier = 1e5;

/**
 * Factors of a block of frequencies. Number k of frequency f stands at k · blockLength + f in every array. They hold until others are
 * made: all lie in the same room, since hundreds of circuits are kept and one is solved at a time.
 */
export interface BlockFactors {
  /** Factors at `count` frequencies from `first`; `trusted[f]` is 1 where the order of elimination served. */
  factor(omegas: Float64Array, first: number, count: number, trusted: Uint8Array): void;
  /** Fills `re` and `im` for a real right-hand side: all unknowns, or as few as give the one that is wanted. */
  solve(right: Float64Array, count: number, re: Float64Array, im: Float64Array, wanted?: number): void;
  /** The same with the transposed matrix. */
  solveTransposed(right: Float64Array, count: number, re: Float64Array, im: Float64Array): void;
}

/**
 * Elimination over the entries that are not zero, in one fixed order, written out as a list of steps: a frequency
 * then costs a few hundred multiplications. `null` where the system is singular at the frequency of ordering.
 */
export function sparseFactors(system: LinearSystem, orderingOmega: number): BlockFactors | null {
  const plan = rememberedPlan(system, orderingOmega);
  if (plan === null) return null;
  const numbers = (): Numbers => ({ system, plan, ...roomFor(plan.slotCount, system.size) });
  return {
    factor: (omegas, first, count, trusted) => factor(numbers(), omegas, first, count, trusted),
    solve: (right, count, re, im, wanted) => solve(numbers(), right, count, re, im, wanted),
    solveTransposed: (right, count, re, im) => solveTransposed(numbers(), right, count, re, im),
  };
}

/** At least as long as what they are for. */
function roomFor(slots: number, size: number): Room {
  if (room.re.length < slots * blockLength) {
    room.re = new Float64Array(slots * blockLength);
    room.im = new Float64Array(slots * blockLength);
  }
  if (room.touched.length < size) {
    room.workRe = new Float64Array(size * blockLength);
    room.workIm = new Float64Array(size * blockLength);
    room.touched = new Uint8Array(size);
  }
  return room;
}

interface Room {
  re: Float64Array;
  im: Float64Array;
  workRe: Float64Array;
  workIm: Float64Array;
  /** 1 for equations whose right-hand side is not zero: few have a source, and the others need no forward step. */
  touched: Uint8Array;
}

const room: Room = {
  re: new Float64Array(),
  im: new Float64Array(),
  workRe: new Float64Array(),
  workIm: new Float64Array(),
  touched: new Uint8Array(),
};

interface Numbers extends Readonly<Room> {
  readonly system: LinearSystem;
  readonly plan: EliminationPlan;
}

function factor(numbers: Numbers, omegas: Float64Array, first: number, count: number, trusted: Uint8Array): void {
  const { re, im, plan } = numbers;
  const { pivotSlots, lowerStart, upperStart, lowerSlots, upperSlots, targetSlots } = plan;
  load(numbers, omegas, first, count);
  trusted.fill(1);
  let target = 0;
  for (let k = 0; k < pivotSlots.length; k++) {
    const pivot = (pivotSlots[k] ?? 0) * blockLength;
    invert(re, im, pivot, count, trusted);
    const lowerEnd = lowerStart[k + 1] ?? 0;
    const upperFrom = upperStart[k] ?? 0;
    const upperEnd = upperStart[k + 1] ?? 0;
    for (let l = lowerStart[k] ?? 0; l < lowerEnd; l++) {
      const lower = (lowerSlots[l] ?? 0) * blockLength;
      setProduct(re, im, lower, re, im, lower, re, im, pivot, count);
      distrust(re, im, lower, count, trusted);
      for (let u = upperFrom; u < upperEnd; u++) {
        const slot = (targetSlots[target++] ?? 0) * blockLength;
        subtractProduct(re, im, slot, re, im, lower, re, im, (upperSlots[u] ?? 0) * blockLength, count);
      }
    }
  }
}

function load({ system: { g, b }, plan, re, im }: Numbers, omegas: Float64Array, first: number, count: number): void {
  for (let k = 0; k < g.length; k++) {
    const at = k * blockLength;
    const real = g[k] ?? 0;
    const imaginary = b[k] ?? 0;
    for (let f = 0; f < count; f++) {
      re[at + f] = real;
      im[at + f] = (omegas[first + f] ?? 0) * imaginary;
    }
  }
  re.fill(0, g.length * blockLength, plan.slotCount * blockLength);
  im.fill(0, g.length * blockLength, plan.slotCount * blockLength);
}

function solve(
  numbers: Numbers,
  right: Float64Array,
  count: number,
  xRe: Float64Array,
  xIm: Float64Array,
  wanted: number | undefined,
): void {
  const { re, im, workRe, workIm, touched, plan } = numbers;
  const { pivotSlots, pivotRows, pivotColumns, lowerStart, lowerSlots, lowerRows } = plan;
  const { upperStart, upperSlots, upperColumns } = plan;
  const size = pivotSlots.length;
  const lastStep = wanted === undefined ? 0 : pivotColumns.indexOf(wanted);
  loadWork(numbers, right, count);
  for (let k = 0; k < size; k++) {
    if (touched[pivotRows[k] ?? 0] === 0) continue;
    const row = (pivotRows[k] ?? 0) * blockLength;
    const end = lowerStart[k + 1] ?? 0;
    for (let l = lowerStart[k] ?? 0; l < end; l++) {
      const into = (lowerRows[l] ?? 0) * blockLength;
      touched[lowerRows[l] ?? 0] = 1;
      subtractProduct(workRe, workIm, into, re, im, (lowerSlots[l] ?? 0) * blockLength, workRe, workIm, row, count);
    }
  }
  for (let k = size - 1; k >= lastStep; k--) {
    const row = (pivotRows[k] ?? 0) * blockLength;
    const end = upperStart[k + 1] ?? 0;
    for (let u = upperStart[k] ?? 0; u < end; u++) {
      const from = (upperColumns[u] ?? 0) * blockLength;
      subtractProduct(workRe, workIm, row, re, im, (upperSlots[u] ?? 0) * blockLength, xRe, xIm, from, count);
    }
    const column = (pivotColumns[k] ?? 0) * blockLength;
    setProduct(xRe, xIm, column, re, im, (pivotSlots[k] ?? 0) * blockLength, workRe, workIm, row, count);
  }
}

function solveTransposed(
  numbers: Numbers,
  right: Float64Array,
  count: number,
  xRe: Float64Array,
  xIm: Float64Array,
): void {
  const { re, im, workRe, workIm, plan } = numbers;
  const { pivotSlots, pivotRows, pivotColumns, lowerStart, lowerSlots, lowerRows } = plan;
  const { upperStart, upperSlots, upperColumns } = plan;
  const size = pivotSlots.length;
  loadWork(numbers, right, count);
  for (let k = 0; k < size; k++) {
    const row = (pivotRows[k] ?? 0) * blockLength;
    const column = (pivotColumns[k] ?? 0) * blockLength;
    setProduct(xRe, xIm, row, re, im, (pivotSlots[k] ?? 0) * blockLength, workRe, workIm, column, count);
    const end = upperStart[k + 1] ?? 0;
    for (let u = upperStart[k] ?? 0; u < end; u++) {
      const into = (upperColumns[u] ?? 0) * blockLength;
      subtractProduct(workRe, workIm, into, re, im, (upperSlots[u] ?? 0) * blockLength, xRe, xIm, row, count);
    }
  }
  for (let k = size - 1; k >= 0; k--) {
    const row = (pivotRows[k] ?? 0) * blockLength;
    const end = lowerStart[k + 1] ?? 0;
    for (let l = lowerStart[k] ?? 0; l < end; l++) {
      const from = (lowerRows[l] ?? 0) * blockLength;
      subtractProduct(xRe, xIm, row, re, im, (lowerSlots[l] ?? 0) * blockLength, xRe, xIm, from, count);
    }
  }
}

function loadWork({ workRe, workIm, touched }: Numbers, right: Float64Array, count: number): void {
  for (let i = 0; i < right.length; i++) {
    const value = right[i] ?? 0;
    touched[i] = value === 0 ? 0 : 1;
    for (let at = i * blockLength, end = at + count; at < end; at++) {
      workRe[at] = value;
      workIm[at] = 0;
    }
  }
}

/** Replaces a pivot by its inverse. */
function invert(re: Float64Array, im: Float64Array, pivot: number, count: number, trusted: Uint8Array): void {
  for (let f = 0; f < count; f++) {
    const pRe = re[pivot + f] ?? 0;
    const pIm = im[pivot + f] ?? 0;
    const scale = pRe * pRe + pIm * pIm;
    if (!(scale > 0 && scale < Number.POSITIVE_INFINITY)) trusted[f] = 0;
    re[pivot + f] = pRe / scale;
    im[pivot + f] = -pIm / scale;
  }
}

/** Takes back the trust in frequencies at which this multiplier is too large. */
function distrust(re: Float64Array, im: Float64Array, lower: number, count: number, trusted: Uint8Array): void {
  for (let f = 0; f < count; f++) {
    if (!(Math.abs(re[lower + f] ?? 0) + Math.abs(im[lower + f] ?? 0) < largestMultiplier)) trusted[f] = 0;
  }
}

/** target -= a · b, for each frequency of the block */
function subtractProduct(
  targetRe: Float64Array,
  targetIm: Float64Array,
  target: number,
  aRe: Float64Array,
  aIm: Float64Array,
  a: number,
  bRe: Float64Array,
  bIm: Float64Array,
  b: number,
  count: number,
): void {
  for (let f = 0; f < count; f++) {
    const xRe = aRe[a + f] ?? 0;
    const xIm = aIm[a + f] ?? 0;
    const yRe = bRe[b + f] ?? 0;
    const yIm = bIm[b + f] ?? 0;
    targetRe[target + f] = (targetRe[target + f] ?? 0) - (xRe * yRe - xIm * yIm);
    targetIm[target + f] = (targetIm[target + f] ?? 0) - (xRe * yIm + xIm * yRe);
  }
}

/** target = a · b, for each frequency of the block; the target may be one of the factors. */
function setProduct(
  targetRe: Float64Array,
  targetIm: Float64Array,
  target: number,
  aRe: Float64Array,
  aIm: Float64Array,
  a: number,
  bRe: Float64Array,
  bIm: Float64Array,
  b: number,
  count: number,
): void {
  for (let f = 0; f < count; f++) {
    const xRe = aRe[a + f] ?? 0;
    const xIm = aIm[a + f] ?? 0;
    const yRe = bRe[b + f] ?? 0;
    const yIm = bIm[b + f] ?? 0;
    targetRe[target + f] = xRe * yRe - xIm * yIm;
    targetIm[target + f] = xRe * yIm + xIm * yRe;
  }
}
