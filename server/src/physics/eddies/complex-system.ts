/**
 * Solves (R + jωL) X = B for a real B of several columns, R and L real and symmetric, R positive definite, and gives CᵀX for each
 * pair of a row vector of C and a column of B. Gaussian elimination without pivoting, which such a matrix allows. `left` and `right`
 * are lists of vectors.
 */
export function quadraticForms(
  resistance: Float64Array,
  inductance: Float64Array,
  omega: number,
  left: readonly Float64Array[],
  right: readonly Float64Array[],
): { readonly re: readonly Float64Array[]; readonly im: readonly Float64Array[] } {
  const size = Math.round(Math.sqrt(resistance.length));
  const re = Float64Array.from(resistance);
  const im = Float64Array.from(inductance, (henry) => omega * henry);
  const columns = right.map((column) => ({ re: Float64Array.from(column), im: new Float64Array(size) }));
  for (let pivot = 0; pivot < size; pivot++) eliminate(re, im, size, pivot, columns);
  for (const column of columns) substituteBack(re, im, size, column);
  const forms = (part: 're' | 'im') =>
    left.map((row) => Float64Array.from(columns, (column) => dot(row, column[part])));
  return { re: forms('re'), im: forms('im') };
}

interface ComplexColumn {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Indices below are in range by construction: the innermost loops do without a check. */
function eliminate(
  re: Float64Array,
  im: Float64Array,
  size: number,
  pivot: number,
  columns: readonly ComplexColumn[],
): void {
  const top = pivot * size;
  const [pivotRe, pivotIm] = [re[top + pivot] as number, im[top + pivot] as number];
  const square = pivotRe * pivotRe + pivotIm * pivotIm;
  for (let row = pivot + 1; row < size; row++) {
    const start = row * size;
    const [a, b] = [re[start + pivot] as number, im[start + pivot] as number];
    const factorRe = (a * pivotRe + b * pivotIm) / square;
    const factorIm = (b * pivotRe - a * pivotIm) / square;
    for (let k = pivot + 1; k < size; k++) {
      const [x, y] = [re[top + k] as number, im[top + k] as number];
      re[start + k] = (re[start + k] as number) - factorRe * x + factorIm * y;
      im[start + k] = (im[start + k] as number) - factorRe * y - factorIm * x;
    }
    for (const column of columns) {
      const [x, y] = [column.re[pivot] as number, column.im[pivot] as number];
      column.re[row] = (column.re[row] as number) - factorRe * x + factorIm * y;
      column.im[row] = (column.im[row] as number) - factorRe * y - factorIm * x;
    }
  }
}

function substituteBack(re: Float64Array, im: Float64Array, size: number, column: ComplexColumn): void {
  for (let row = size - 1; row >= 0; row--) {
    let [x, y] = [column.re[row] as number, column.im[row] as number];
    for (let k = row + 1; k < size; k++) {
      const [a, b] = [re[row * size + k] as number, im[row * size + k] as number];
      const [u, v] = [column.re[k] as number, column.im[k] as number];
      x -= a * u - b * v;
      y -= a * v + b * u;
    }
    const [a, b] = [re[row * size + row] as number, im[row * size + row] as number];
    const square = a * a + b * b;
    column.re[row] = (x * a + y * b) / square;
    column.im[row] = (y * a - x * b) / square;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k] as number) * (b[k] as number);
  return sum;
}
