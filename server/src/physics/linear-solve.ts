/**
 * Solves a dense real system for several right-hand sides by Gaussian elimination with partial pivoting. Matrix (row-major, n × n)
 * and right-hand sides are overwritten; the latter hold the solutions. A singular matrix gives non-finite numbers, never a throw.
 */
export function solveInPlace(matrix: Float64Array, right: readonly Float64Array[]): void {
  const size = Math.round(Math.sqrt(matrix.length));
  for (let column = 0; column < size; column++) {
    const pivot = pivotRow(matrix, size, column);
    if (pivot !== column) for (const values of [matrix, ...right]) swapRows(values, size, column, pivot);
    const top = matrix.subarray(column * size, (column + 1) * size);
    for (let row = column + 1; row < size; row++) {
      const line = matrix.subarray(row * size, (row + 1) * size);
      const factor = (line[column] ?? 0) / (top[column] ?? 0);
      if (factor === 0) continue;
      subtractMultiple(line, factor, top, column);
      for (const side of right) side[row] = (side[row] ?? 0) - factor * (side[column] ?? 0);
    }
  }
  for (const side of right) {
    for (let row = size - 1; row >= 0; row--) {
      let value = side[row] ?? 0;
      for (let k = row + 1; k < size; k++) value -= (matrix[row * size + k] ?? 0) * (side[k] ?? 0);
      side[row] = value / (matrix[row * size + row] ?? 0);
    }
  }
}

/** line −= factor · top from `start` on: the innermost loop, kept apart so that it is compiled by itself. Both have one length. */
function subtractMultiple(line: Float64Array, factor: number, top: Float64Array, start: number): void {
  for (let k = start; k < line.length; k++) line[k] = (line[k] as number) - factor * (top[k] as number);
}

function pivotRow(matrix: Float64Array, size: number, column: number): number {
  let best = column;
  for (let row = column + 1; row < size; row++) {
    if (Math.abs(matrix[row * size + column] ?? 0) > Math.abs(matrix[best * size + column] ?? 0)) best = row;
  }
  return best;
}

/** Of a matrix of `rows` rows, however wide. */
function swapRows(values: Float64Array, rows: number, a: number, b: number): void {
  const width = values.length / rows;
  const kept = values.slice(a * width, (a + 1) * width);
  values.copyWithin(a * width, b * width, (b + 1) * width);
  values.set(kept, b * width);
}
