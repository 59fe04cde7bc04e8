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
 * Only entries that are not zero are looked at, and after a step only the columns that it changed, so that a chain of
 * thousands costs little more than its length. `null` where the system is singular at the given angular frequency.
 */
export function planElimination(system: LinearSystem, omega: number): EliminationPlan | null {
  const { size } = system;
  const work = loadEntries(system, omega);
  const candidates = candidateQueue();
  for (let column = 0; column < size; column++) {
    const best = bestOf(work, column);
    if (best === null) return null;
    candidates.put(best);
  }
  const rows = new Int32Array(size);
  const columns = new Int32Array(size);
  const lists = emptyLists();
  for (let step = 0; step < size; step++) {
    const pivot = nextPivot(work, candidates);
    if (pivot === undefined) return null;
    rows[step] = pivot.row;
    columns[step] = pivot.column;
    for (const column of eliminate(work, pivot, lists)) {
      const best = bestOf(work, column);
      if (best === null) return null;
      candidates.put(best);
    }
  }
  return {
    slotCount: work.re.length,
    pivotSlots: Int32Array.from(lists.pivotSlots),
    pivotRows: rows,
    pivotColumns: columns,
    lowerStart: Int32Array.from(lists.lowerStart),
    lowerSlots: Int32Array.from(lists.lowerSlots),
    lowerRows: Int32Array.from(lists.lowerRows),
    upperStart: Int32Array.from(lists.upperStart),
    upperSlots: Int32Array.from(lists.upperSlots),
    upperColumns: Int32Array.from(lists.upperColumns),
    targetSlots: Int32Array.from(lists.targetSlots),
  };
}

/**
 * The same, once for equations with the same numbers: a spec that was changed in one place asks for most of its circuits again, and
 * specs of one shop for each other's. Making the plan is most of solving at a single frequency.
 */
export function rememberedPlan(system: LinearSystem, omega: number): EliminationPlan | null {
  if (system.g.length > MOST_ENTRIES_REMEMBERED) return planElimination(system, omega);
  const key = numbersOf(system, omega);
  const known = plans.get(key);
  if (known !== undefined) return known;
  const plan = planElimination(system, omega);
  if (plans.size >= MOST_REMEMBERED) plans.clear();
  plans.set(key, plan);
  return plan;
}

const plans = new Map<string, EliminationPlan | null>();
const MOST_REMEMBERED = 256;
const MOST_ENTRIES_REMEMBERED = 256;

/** All that a plan depends on, bit for bit. */
function numbersOf({ size, rows, columns, g, b }: LinearSystem, omega: number): string {
  const bits = ({ buffer }: Int32Array | Float64Array): string => String.fromCharCode(...new Uint16Array(buffer));
  return bits(Float64Array.of(size, omega)) + bits(rows) + bits(columns) + bits(g) + bits(b);
}

/** Entries of one row or column that are left: where each stands in the other direction, and its slot. */
interface Line {
  readonly across: number[];
  readonly slots: number[];
}

/** The rows and columns that are not yet eliminated. A number belongs to a slot: an entry of the system, or a new one. */
interface Work {
  readonly rows: readonly Line[];
  readonly columns: readonly Line[];
  readonly re: number[];
  readonly im: number[];
  /** The largest entry that each column began with. */
  readonly largest: Float64Array;
  /** The slots of the row in hand by column, and which row that is. */
  readonly slotAt: Int32Array;
  readonly rowAt: Int32Array;
}

/** The best pivot of a column: how many new entries it can make, and its share of the column's largest entry. */
interface Pivot {
  readonly row: number;
  readonly column: number;
  readonly slot: number;
  readonly cost: number;
  readonly share: number;
}

function loadEntries({ size, rows, columns, g, b }: LinearSystem, omega: number): Work {
  const work: Work = {
    rows: emptyLines(size),
    columns: emptyLines(size),
    re: [],
    im: [],
    largest: new Float64Array(size),
    slotAt: new Int32Array(size),
    rowAt: new Int32Array(size).fill(-1),
  };
  for (let slot = 0; slot < rows.length; slot++) {
    const column = columns[slot] ?? 0;
    work.re.push(g[slot] ?? 0);
    work.im.push(omega * (b[slot] ?? 0));
    enter(work, rows[slot] ?? 0, column, slot);
    work.largest[column] = Math.max(work.largest[column] ?? 0, sizeAt(work, slot));
  }
  return work;
}

function emptyLines(size: number): readonly Line[] {
  const lines: Line[] = [];
  for (let line = 0; line < size; line++) lines.push({ across: [], slots: [] });
  return lines;
}

function enter({ rows, columns }: Work, row: number, column: number, slot: number): void {
  rows[row]?.across.push(column);
  rows[row]?.slots.push(slot);
  columns[column]?.across.push(row);
  columns[column]?.slots.push(slot);
}

/** `null` where nothing but rounding is left of the column. */
function bestOf(work: Work, column: number): Pivot | null {
  const { across, slots } = work.columns[column] ?? NO_LINE;
  let columnLargest = 0;
  for (const slot of slots) {
    const size = sizeAt(work, slot);
    if (!(size <= columnLargest)) columnLargest = size;
  }
  if (!(columnLargest > vanishingPivot * (work.largest[column] ?? 0))) return null;
  let best: Pivot | null = null;
  for (let k = 0; k < slots.length; k++) {
    const slot = slots[k] ?? 0;
    const share = sizeAt(work, slot) / columnLargest;
    if (share < pivotThreshold) continue;
    const row = across[k] ?? 0;
    const cost = ((work.rows[row]?.slots.length ?? 0) - 1) * (slots.length - 1);
    if (best === null || cost < best.cost || (cost === best.cost && share > best.share))
      best = { row, column, slot, cost, share };
  }
  return best;
}

/** The cheapest of the best pivots. What the queue holds may be out of date: rows grow without their columns being touched. */
function nextPivot(work: Work, candidates: CandidateQueue): Pivot | undefined {
  for (let next = candidates.take(); next !== undefined; next = candidates.take()) {
    const now = bestOf(work, next.column);
    if (now === null) return undefined;
    if (now.cost <= next.cost) return now;
    candidates.put(now);
  }
  return undefined;
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

/** Eliminates with the pivot and writes the step down. Returns the columns whose entries are others now. */
function eliminate(work: Work, pivot: Pivot, lists: ReturnType<typeof emptyLists>): readonly number[] {
  const upper = takeOut(work.rows, work.columns, pivot.row, pivot.column);
  const lower = takeOut(work.columns, work.rows, pivot.column, pivot.row);
  lists.pivotSlots.push(pivot.slot);
  for (const slot of upper.slots) lists.upperSlots.push(slot);
  for (const column of upper.across) lists.upperColumns.push(column);
  for (const slot of lower.slots) lists.lowerSlots.push(slot);
  for (const row of lower.across) lists.lowerRows.push(row);
  lists.lowerStart.push(lists.lowerSlots.length);
  lists.upperStart.push(lists.upperSlots.length);
  lower.across.forEach((row, k) => {
    subtractRow(work, pivot.slot, lower.slots[k] ?? 0, row, upper, lists.targetSlots);
  });
  return upper.across;
}

/** Takes a row (or a column) out; returns what it had beside the pivot. */
function takeOut(lines: readonly Line[], others: readonly Line[], line: number, pivotAcross: number): Line {
  const { across, slots } = lines[line] ?? NO_LINE;
  const left: Line = { across: [], slots: [] };
  for (let k = 0; k < slots.length; k++) {
    const other = across[k] ?? 0;
    const slot = slots[k] ?? 0;
    if (other !== pivotAcross) {
      left.across.push(other);
      left.slots.push(slot);
    }
    dropSlot(others[other] ?? NO_LINE, slot);
  }
  return left;
}

function dropSlot({ across, slots }: Line, slot: number): void {
  const at = slots.indexOf(slot);
  if (at < 0) return;
  const lastAcross = across.pop() ?? 0;
  const lastSlot = slots.pop() ?? 0;
  if (at === slots.length) return;
  across[at] = lastAcross;
  slots[at] = lastSlot;
}

/** row -= (its entry below the pivot / pivot) · the pivot's row */
function subtractRow(
  work: Work,
  pivotSlot: number,
  lowerSlot: number,
  row: number,
  upper: Line,
  targetSlots: number[],
): void {
  const { re, im, slotAt, rowAt } = work;
  const { across, slots } = work.rows[row] ?? NO_LINE;
  for (let k = 0; k < slots.length; k++) {
    const column = across[k] ?? 0;
    slotAt[column] = slots[k] ?? 0;
    rowAt[column] = row;
  }
  const pRe = re[pivotSlot] ?? 0;
  const pIm = im[pivotSlot] ?? 0;
  const lRe = re[lowerSlot] ?? 0;
  const lIm = im[lowerSlot] ?? 0;
  const scale = pRe * pRe + pIm * pIm;
  const fRe = (lRe * pRe + lIm * pIm) / scale;
  const fIm = (lIm * pRe - lRe * pIm) / scale;
  for (let u = 0; u < upper.slots.length; u++) {
    const column = upper.across[u] ?? 0;
    if (rowAt[column] !== row) {
      slotAt[column] = re.push(0) - 1;
      im.push(0);
      enter(work, row, column, slotAt[column] ?? 0);
    }
    const target = slotAt[column] ?? 0;
    targetSlots.push(target);
    const uRe = re[upper.slots[u] ?? 0] ?? 0;
    const uIm = im[upper.slots[u] ?? 0] ?? 0;
    re[target] = (re[target] ?? 0) - (fRe * uRe - fIm * uIm);
    im[target] = (im[target] ?? 0) - (fRe * uIm + fIm * uRe);
  }
  // Two steps may look at the same row, and between them its entries move.
  for (const column of across) rowAt[column] = -1;
}

const NO_LINE: Line = { across: [], slots: [] };

const sizeAt = ({ re, im }: Work, slot: number): number => Math.abs(re[slot] ?? 0) + Math.abs(im[slot] ?? 0);

interface CandidateQueue {
  /** One pivot for each column: the newest. */
  put(pivot: Pivot): void;
  take(): Pivot | undefined;
}

/** A binary heap. A pivot that was put in for a column before is left in it and passed over. */
function candidateQueue(): CandidateQueue {
  const heap: Pivot[] = [];
  const newest = new Map<number, Pivot>();
  const isBefore = (a: Pivot | undefined, b: Pivot | undefined): boolean =>
    a !== undefined && b !== undefined && (a.cost - b.cost || b.share - a.share || a.column - b.column) < 0;
  const sinks = (from: number): void => {
    let at = from;
    for (;;) {
      const left = 2 * at + 1;
      const child = isBefore(heap[left + 1], heap[left]) ? left + 1 : left;
      if (!isBefore(heap[child], heap[at])) return;
      exchange(heap, at, child);
      at = child;
    }
  };
  const rises = (from: number): void => {
    for (let at = from; at > 0 && isBefore(heap[at], heap[(at - 1) >> 1]); at = (at - 1) >> 1)
      exchange(heap, at, (at - 1) >> 1);
  };
  const takeFirst = (): Pivot | undefined => {
    const first = heap[0];
    const last = heap.pop();
    if (last !== undefined && heap.length > 0) {
      heap[0] = last;
      sinks(0);
    }
    return first;
  };
  return {
    put: (pivot) => {
      newest.set(pivot.column, pivot);
      rises(heap.push(pivot) - 1);
    },
    take: () => {
      for (let first = takeFirst(); first !== undefined; first = takeFirst())
        if (newest.get(first.column) === first) {
          newest.delete(first.column);
          return first;
        }
      return undefined;
    },
  };
}

function exchange(heap: Pivot[], a: number, b: number): void {
  const first = heap[a];
  const second = heap[b];
  if (first === undefined || second === undefined) return;
  heap[a] = second;
  heap[b] = first;
}
