import type { LinearSystem } from './linear-system.ts';

/** A pivot this far below the largest entry its column began with is rounding, not a value. */
export const vanishingPivot = 16 * Number.EPSILON;

/** A pivot must reach this share of its column's largest entry, so that few entries do not buy large rounding. */
const pivotThreshold = 0.01;

/** The steps of an elimination. Step k's lower and upper entries lie between its start and the next step's. */
export interface EliminationPlan {
  readonly slotCount: number;
  readonly pivotSlots: Int32Array;
  readonly pivotRows: Int32Array;
  readonly pivotColumns: Int32Array;
  readonly lowerStart: Int32Array;
  readonly lowerSlots: Int32Array;
  readonly lowerRows: Int32Array;
  readonly upperStart: Int32Array;
  readonly upperSlots: Int32Array;
  readonly upperColumns: Int32Array;
  /** Where each product of a lower and an upper entry is subtracted, in the order they are met. */
  readonly targetSlots: Int32Array;
}

/**
 * The order is Markowitz's ("The elimination form of the inverse and its application to linear programming", Management
 * Science 3, 1957): always the pivot that can make the fewest new entries, among those large enough in their column.
 * `null` where the system is singular at the given angular frequency.
 */
export function planElimination(system: LinearSystem, omega: number): EliminationPlan | null {
  const n = system.size;
  const work = loadMatrix(system, omega);
  const rows = new Int32Array(n);
  for (let i = 0; i < n; i++) rows[i] = i;
  const columns = rows.slice();
  const lists = emptyLists();
  for (let step = 0; step < n; step++) {
    if (!choosePivot(work, rows, columns, step)) return null;
    eliminate(work, rows, columns, step, lists);
  }
  return {
    slotCount: work.slotCount,
    pivotSlots: new Int32Array(lists.pivotSlots),
    pivotRows: rows,
    pivotColumns: columns,
    lowerStart: new Int32Array(lists.lowerStart),
    lowerSlots: new Int32Array(lists.lowerSlots),
    lowerRows: new Int32Array(lists.lowerRows),
    upperStart: new Int32Array(lists.upperStart),
    upperSlots: new Int32Array(lists.upperSlots),
    upperColumns: new Int32Array(lists.upperColumns),
    targetSlots: new Int32Array(lists.targetSlots),
  };
}

/** The matrix in full, with the slot of every entry (-1 where there is none) and its size as |re| + |im|. */
interface Work {
  readonly n: number;
  readonly slots: Int32Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** The largest entry that each column began with. */
  readonly largest: Float64Array;
  readonly rowCount: Int32Array;
  readonly columnCount: Int32Array;
  readonly columnMax: Float64Array;
  slotCount: number;
}

function loadMatrix({ size: n, rows, columns, g, b }: LinearSystem, omega: number): Work {
  const slots = new Int32Array(n * n).fill(-1);
  const re = new Float64Array(n * n);
  const im = new Float64Array(n * n);
  const largest = new Float64Array(n);
  for (let k = 0; k < rows.length; k++) {
    const column = columns[k] ?? 0;
    const at = (rows[k] ?? 0) * n + column;
    slots[at] = k;
    re[at] = g[k] ?? 0;
    im[at] = omega * (b[k] ?? 0);
    largest[column] = Math.max(largest[column] ?? 0, sizeAt(re, im, at));
  }
  return {
    n,
    slots,
    re,
    im,
    largest,
    rowCount: new Int32Array(n),
    columnCount: new Int32Array(n),
    columnMax: new Float64Array(n),
    slotCount: rows.length,
  };
}

/** Swaps the best pivot's row and column to place `step` of the lists; false where the system is singular. */
function choosePivot(work: Work, rows: Int32Array, columns: Int32Array, step: number): boolean {
  const { n, slots, re, im, largest, rowCount, columnCount, columnMax } = work;
  countEntries(work, rows, columns, step);
  let bestRow = -1;
  let bestColumn = -1;
  let bestCost = Number.POSITIVE_INFINITY;
  let bestShare = 0;
  for (let c = step; c < n; c++) {
    const j = columns[c] ?? 0;
    const columnLargest = columnMax[j] ?? 0;
    if (!(columnLargest > vanishingPivot * (largest[j] ?? 0))) return false;
    const others = (columnCount[j] ?? 0) - 1;
    for (let r = step; r < n; r++) {
      const i = rows[r] ?? 0;
      const at = i * n + j;
      if ((slots[at] ?? -1) < 0) continue;
      const cost = ((rowCount[i] ?? 0) - 1) * others;
      if (cost > bestCost) continue;
      const share = sizeAt(re, im, at) / columnLargest;
      if (share < pivotThreshold || (cost === bestCost && share <= bestShare)) continue;
      bestRow = r;
      bestColumn = c;
      bestCost = cost;
      bestShare = share;
    }
  }
  if (bestRow < 0) return false;
  swap(rows, step, bestRow);
  swap(columns, step, bestColumn);
  return true;
}

function countEntries(work: Work, rows: Int32Array, columns: Int32Array, step: number): void {
  const { n, slots, re, im, rowCount, columnCount, columnMax } = work;
  rowCount.fill(0);
  columnCount.fill(0);
  columnMax.fill(0);
  for (let r = step; r < n; r++) {
    const i = rows[r] ?? 0;
    for (let c = step; c < n; c++) {
      const j = columns[c] ?? 0;
      const at = i * n + j;
      if ((slots[at] ?? -1) < 0) continue;
      rowCount[i] = (rowCount[i] ?? 0) + 1;
      columnCount[j] = (columnCount[j] ?? 0) + 1;
      const size = sizeAt(re, im, at);
      if (!(size <= (columnMax[j] ?? 0))) columnMax[j] = size;
    }
  }
}

function emptyLists() {
  return {
    pivotSlots: [] as number[],
    lowerStart: [0],
    lowerSlots: [] as number[],
    lowerRows: [] as number[],
    upperStart: [0],
    upperSlots: [] as number[],
    upperColumns: [] as number[],
    targetSlots: [] as number[],
  };
}

/** Eliminates below the pivot that stands at place `step` of the lists, and writes the step down. */
function eliminate(
  work: Work,
  rows: Int32Array,
  columns: Int32Array,
  step: number,
  lists: ReturnType<typeof emptyLists>,
): void {
  const { n, slots, re, im } = work;
  const row = (rows[step] ?? 0) * n;
  const pivot = row + (columns[step] ?? 0);
  lists.pivotSlots.push(slots[pivot] ?? 0);
  const firstUpper = lists.upperColumns.length;
  for (let c = step + 1; c < n; c++) {
    const j = columns[c] ?? 0;
    const slot = slots[row + j] ?? -1;
    if (slot < 0) continue;
    lists.upperSlots.push(slot);
    lists.upperColumns.push(j);
  }
  const pRe = re[pivot] ?? 0;
  const pIm = im[pivot] ?? 0;
  const scale = pRe * pRe + pIm * pIm;
  for (let r = step + 1; r < n; r++) {
    const i = rows[r] ?? 0;
    const below = i * n + (columns[step] ?? 0);
    const lowerSlot = slots[below] ?? -1;
    if (lowerSlot < 0) continue;
    lists.lowerSlots.push(lowerSlot);
    lists.lowerRows.push(i);
    const lRe = re[below] ?? 0;
    const lIm = im[below] ?? 0;
    const fRe = (lRe * pRe + lIm * pIm) / scale;
    const fIm = (lIm * pRe - lRe * pIm) / scale;
    for (let u = firstUpper; u < lists.upperColumns.length; u++) {
      const j = lists.upperColumns[u] ?? 0;
      const target = i * n + j;
      if ((slots[target] ?? -1) < 0) slots[target] = work.slotCount++;
      lists.targetSlots.push(slots[target] ?? 0);
      const uRe = re[row + j] ?? 0;
      const uIm = im[row + j] ?? 0;
      re[target] = (re[target] ?? 0) - (fRe * uRe - fIm * uIm);
      im[target] = (im[target] ?? 0) - (fRe * uIm + fIm * uRe);
    }
  }
  lists.lowerStart.push(lists.lowerSlots.length);
  lists.upperStart.push(lists.upperSlots.length);
}

function sizeAt(re: Float64Array, im: Float64Array, at: number): number {
  return Math.abs(re[at] ?? 0) + Math.abs(im[at] ?? 0);
}

function swap(list: Int32Array, a: number, b: number): void {
  const kept = list[a] ?? 0;
  list[a] = list[b] ?? 0;
  list[b] = kept;
}
