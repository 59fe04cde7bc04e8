/** How the leads of one net meet: neighbours turn into each other at a rounded corner, others end on a rail of their own. */
import type { NetPicture } from './picture.ts';
import type { Layout, Row } from './rows.ts';
import type { Metrics } from './sheet.ts';

export interface Rail {
  readonly net: NetPicture;
  /** Where the leads of the net end. */
  readonly column: number;
  /** From top to bottom. */
  readonly rows: readonly Row[];
  readonly form: 'end' | 'corner' | 'rail';
  /** The row that goes on to the terminal, for hot and ground. */
  readonly terminal: Row | undefined;
}

const CLEARANCE = 12;

export function planRails(nets: readonly NetPicture[], layout: Layout, metrics: Metrics): ReadonlyMap<string, Rail> {
  const taken = new Map<number, (readonly [number, number])[]>();
  const rails = new Map<string, Rail>();
  const rowsOf = (id: string) => layout.rows.filter((row) => row.net === id);
  const inPlanningOrder = [...nets].sort(
    (a, b) => planningRank(a, rowsOf(a.id), layout) - planningRank(b, rowsOf(b.id), layout),
  );
  for (const net of inPlanningOrder) {
    const rows = rowsOf(net.id);
    const inside = rows.length > 0 && net.kind !== 'ground' && rows.every(staysInside);
    const base = inside ? metrics.inside : metrics.terminals;
    const first = rows.at(0);
    const last = rows.at(-1);
    if (first === undefined || last === undefined) continue;
    const terminal = net.kind === 'hot' ? first : net.kind === 'ground' ? last : undefined;
    if (rows.length === 1) {
      const ends = net.kind === 'free' || net.kind === 'open' ? base - metrics.railStep : base;
      rails.set(net.id, { net, column: ends, rows, form: 'end', terminal });
      continue;
    }
    const column = freeColumn({ net, first, last, base, layout, metrics, taken });
    const spans = taken.get(column) ?? [];
    taken.set(column, [...spans, [first.y, last.y]]);
    const corner = rows.length === 2 && isAdjacent(rows, layout) && terminal === undefined;
    rails.set(net.id, { net, column, rows, form: corner ? 'corner' : 'rail', terminal });
  }
  return rails;
}

/** A coil's end that is joined inside the pickup. */
export function staysInside(row: Row): boolean {
  return row.kind === 'end' && !row.end.leaves;
}

function isAdjacent(rows: readonly Row[], layout: Layout): boolean {
  const places = rows.map((row) => layout.rows.indexOf(row));
  return Math.max(...places) - Math.min(...places) === rows.length - 1;
}

/** Hot takes the column of the terminals first, then neighbours that simply turn into each other. */
function planningRank(net: NetPicture, rows: readonly Row[], layout: Layout): number {
  if (net.kind === 'hot') return 0;
  if (net.kind === 'ground') return 3;
  return isAdjacent(rows, layout) ? 1 : 2;
}

function freeColumn({
  net,
  first,
  last,
  base,
  layout,
  metrics,
  taken,
}: {
  readonly net: NetPicture;
  readonly first: Row;
  readonly last: Row;
  readonly base: number;
  readonly layout: Layout;
  readonly metrics: Metrics;
  readonly taken: ReadonlyMap<number, readonly (readonly [number, number])[]>;
}): number {
  const foreign = layout.rows.some(
    (row) => row.net !== net.id && row.y > first.y && row.y < last.y && !staysInside(row),
  );
  for (let step = 0; step < 5; step += 1) {
    const column = base - step * metrics.railStep;
    // At the terminals themselves a rail may not cross the end of another net's lead; hot may, its neighbours stop short.
    if (step === 0 && foreign && net.kind !== 'hot') continue;
    const spans = taken.get(column) ?? [];
    if (spans.every(([top, bottom]) => last.y + CLEARANCE < top || first.y - CLEARANCE > bottom)) return column;
  }
  return base - 5 * metrics.railStep;
}
