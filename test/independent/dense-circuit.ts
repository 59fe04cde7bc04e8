/** A small circuit solved by Gaussian elimination of its nodal equations with branch currents, all dense and complex. */

export interface Branch {
  readonly from: string;
  readonly to: string;
  readonly ohm?: number;
  readonly henry?: number;
  readonly farad?: number;
  /** Makes it a source: a volt that raises `to` above `from`. */
  readonly source?: string;
  /** Mutual inductances with other sources, henry, from start to finish of both. */
  readonly mutual?: ReadonlyMap<string, number>;
}

export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const sizeOf = ({ re, im }: Complex): number => Math.hypot(re, im);

export const GROUND = 'earth';

/** A node that nothing ties to ground stands at the end of 100 Gohm. */
const LEAK_SIEMENS = 1e-11;

/**
 * Voltage of `output` over ground for one volt in each source by itself. Capacitors are admittances; every other branch has its own
 * current, so that its resistance may be anything.
 */
export function transfers(branches: readonly Branch[], output: string, hz: number): ReadonlyMap<string, Complex> {
  const nodes = [...new Set(branches.flatMap(({ from, to }) => [from, to]))].filter((node) => node !== GROUND);
  const row = new Map(nodes.map((node, index) => [node, index]));
  const currents = branches.filter(({ farad }) => farad === undefined);
  const sources = currents.flatMap(({ source }) => source ?? []);
  const size = nodes.length + currents.length;
  const omega = 2 * Math.PI * hz;
  const [re, im] = [table(size, size + sources.length), table(size, size + sources.length)];
  for (const index of nodes.keys()) add(re, index, index, LEAK_SIEMENS);
  for (const { from, to, farad } of branches) {
    if (farad === undefined) continue;
    const [a, b] = [row.get(from), row.get(to)];
    add(im, a, a, omega * farad);
    add(im, b, b, omega * farad);
    add(im, a, b, -omega * farad);
    add(im, b, a, -omega * farad);
  }
  currents.forEach(({ from, to, ohm = 0, henry = 0, source, mutual }, index) => {
    const own = nodes.length + index;
    const [a, b] = [row.get(from), row.get(to)];
    // The current runs from `from` to `to` inside the branch: V(to) − V(from) + Z·I = e.
    add(re, a, own, 1);
    add(re, b, own, -1);
    add(re, own, b, 1);
    add(re, own, a, -1);
    add(re, own, own, ohm);
    add(im, own, own, omega * henry);
    if (source !== undefined) add(re, own, size + sources.indexOf(source), 1);
    currents.forEach((other, at) => {
      add(im, own, nodes.length + at, omega * (mutual?.get(other.source ?? '') ?? 0));
    });
  });
  eliminate(re, im, size);
  const at = row.get(output) ?? -1;
  return new Map(
    sources.map((source, index) => [source, { re: re[at]?.[size + index] ?? 0, im: im[at]?.[size + index] ?? 0 }]),
  );
}

const table = (rows: number, columns: number) => Array.from({ length: rows }, () => new Float64Array(columns));

function add(to: readonly Float64Array[], r: number | undefined, c: number | undefined, value: number): void {
  const line = r === undefined ? undefined : to[r];
  if (line && c !== undefined) line[c] = (line[c] ?? 0) + value;
}

/** Gauss-Jordan with partial pivoting; the columns behind the square end as the solutions. */
function eliminate(re: Float64Array[], im: Float64Array[], size: number): void {
  const columns = re[0]?.length ?? 0;
  for (let column = 0; column < size; column++) {
    let best = column;
    for (let r = column + 1; r < size; r++) if (squareAt(re, im, r, column) > squareAt(re, im, best, column)) best = r;
    swap(re, best, column);
    swap(im, best, column);
    const [pr, pi] = [re[column], im[column]];
    if (!pr || !pi) continue;
    const [a, b] = [pr[column] ?? 0, pi[column] ?? 0];
    const square = a * a + b * b;
    if (square < 1e-60) continue;
    for (let c = column; c < columns; c++) {
      const [x, y] = [pr[c] ?? 0, pi[c] ?? 0];
      pr[c] = (x * a + y * b) / square;
      pi[c] = (y * a - x * b) / square;
    }
    for (let r = 0; r < size; r++) {
      const [lr, li] = [re[r], im[r]];
      if (r === column || !lr || !li) continue;
      const [x, y] = [lr[column] ?? 0, li[column] ?? 0];
      if (x === 0 && y === 0) continue;
      for (let c = column; c < columns; c++) {
        const [u, v] = [pr[c] ?? 0, pi[c] ?? 0];
        lr[c] = (lr[c] ?? 0) - (x * u - y * v);
        li[c] = (li[c] ?? 0) - (x * v + y * u);
      }
    }
  }
}

const squareAt = (re: readonly Float64Array[], im: readonly Float64Array[], r: number, c: number): number =>
  (re[r]?.[c] ?? 0) ** 2 + (im[r]?.[c] ?? 0) ** 2;

function swap(rows: Float64Array[], a: number, b: number): void {
  const [one, other] = [rows[a], rows[b]];
  if (one && other) [rows[a], rows[b]] = [other, one];
}
