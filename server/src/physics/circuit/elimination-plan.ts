import { vanishingPivot } from './dense-factors.ts';
import type { LinearSystem } from './network.ts';

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
  const slots = new Int32Array(n * n).fill(-1);
  const re = new Float64Array(n * n);
  const im = new Float64Array(n * n);
  const largest = new Float64Array(n);
  const size = (at: number) => Math.abs(re[at] ?? 0) + Math.abs(im[at] ?? 0);
  const has = (at: number) => (slots[at] ?? -1) >= 0;
  system.rows.forEach((row, k) => {
    const column = system.columns[k] ?? 0;
    const at = row * n + column;
    slots[at] = k;
    re[at] = system.g[k] ?? 0;
    im[at] = omega * (system.b[k] ?? 0);
    largest[column] = Math.max(largest[column] ?? 0, size(at));
  });

  let slotCount = system.rows.length;
  const rows = new Set(Array.from({ length: n }, (_, i) => i));
  const columns = new Set(rows);
  const lists = {
    pivotSlots: [] as number[],
    pivotRows: [] as number[],
    pivotColumns: [] as number[],
    lowerStart: [0],
    lowerSlots: [] as number[],
    lowerRows: [] as number[],
    upperStart: [0],
    upperSlots: [] as number[],
    upperColumns: [] as number[],
    targetSlots: [] as number[],
  };

  const choosePivot = (): { row: number; column: number } | null => {
    const rowCount = new Int32Array(n);
    const columnCount = new Int32Array(n);
    const columnMax = new Float64Array(n);
    for (const i of rows)
      for (const j of columns) {
        if (!has(i * n + j)) continue;
        rowCount[i] = (rowCount[i] ?? 0) + 1;
        columnCount[j] = (columnCount[j] ?? 0) + 1;
        columnMax[j] = Math.max(columnMax[j] ?? 0, size(i * n + j));
      }
    let best: { row: number; column: number } | null = null;
    let bestCost = Number.POSITIVE_INFINITY;
    let bestShare = 0;
    for (const j of columns) {
      const columnLargest = columnMax[j] ?? 0;
      if (!(columnLargest > vanishingPivot * (largest[j] ?? 0))) return null;
      for (const i of rows) {
        if (!has(i * n + j)) continue;
        const share = size(i * n + j) / columnLargest;
        if (share < pivotThreshold) continue;
        const cost = ((rowCount[i] ?? 0) - 1) * ((columnCount[j] ?? 0) - 1);
        if (cost < bestCost || (cost === bestCost && share > bestShare)) {
          best = { row: i, column: j };
          bestCost = cost;
          bestShare = share;
        }
      }
    }
    return best;
  };

  for (let k = 0; k < n; k++) {
    const pivot = choosePivot();
    if (pivot === null) return null;
    const { row, column } = pivot;
    const at = row * n + column;
    rows.delete(row);
    columns.delete(column);
    lists.pivotSlots.push(slots[at] ?? 0);
    lists.pivotRows.push(row);
    lists.pivotColumns.push(column);
    const uppers = [...columns].filter((j) => has(row * n + j));
    for (const j of uppers) {
      lists.upperSlots.push(slots[row * n + j] ?? 0);
      lists.upperColumns.push(j);
    }
    const scale = (re[at] ?? 0) ** 2 + (im[at] ?? 0) ** 2;
    for (const i of rows) {
      const below = i * n + column;
      if (!has(below)) continue;
      lists.lowerSlots.push(slots[below] ?? 0);
      lists.lowerRows.push(i);
      const fRe = ((re[below] ?? 0) * (re[at] ?? 0) + (im[below] ?? 0) * (im[at] ?? 0)) / scale;
      const fIm = ((im[below] ?? 0) * (re[at] ?? 0) - (re[below] ?? 0) * (im[at] ?? 0)) / scale;
      for (const j of uppers) {
        const target = i * n + j;
        const upper = row * n + j;
        if (!has(target)) slots[target] = slotCount++;
        lists.targetSlots.push(slots[target] ?? 0);
        re[target] = (re[target] ?? 0) - (fRe * (re[upper] ?? 0) - fIm * (im[upper] ?? 0));
        im[target] = (im[target] ?? 0) - (fRe * (im[upper] ?? 0) + fIm * (re[upper] ?? 0));
      }
    }
    lists.lowerStart.push(lists.lowerSlots.length);
    lists.upperStart.push(lists.upperSlots.length);
  }
  return {
    slotCount,
    pivotSlots: Int32Array.from(lists.pivotSlots),
    pivotRows: Int32Array.from(lists.pivotRows),
    pivotColumns: Int32Array.from(lists.pivotColumns),
    lowerStart: Int32Array.from(lists.lowerStart),
    lowerSlots: Int32Array.from(lists.lowerSlots),
    lowerRows: Int32Array.from(lists.lowerRows),
    upperStart: Int32Array.from(lists.upperStart),
    upperSlots: Int32Array.from(lists.upperSlots),
    upperColumns: Int32Array.from(lists.upperColumns),
    targetSlots: Int32Array.from(lists.targetSlots),
  };
}
