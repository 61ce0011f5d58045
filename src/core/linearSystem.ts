/**
 * Solves `matrix · x = right` by elimination with row pivoting; both arguments are used up.
 * @throws {RangeError} if the matrix is singular.
 */
export function solveLinear(matrix: readonly Float64Array[], right: Float64Array): Float64Array {
  const size = right.length;
  const rows = [...matrix];
  for (let column = 0; column < size; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < size; row += 1) {
      if (Math.abs(at(rows, row, column)) > Math.abs(at(rows, pivot, column))) pivot = row;
    }
    const top = rows[pivot];
    const head = at(rows, pivot, column);
    if (top === undefined || head === 0 || Number.isNaN(head))
      throw new RangeError('solveLinear: matrix is singular');
    rows[pivot] = rows[column] ?? top;
    rows[column] = top;
    [right[column], right[pivot]] = [right[pivot] ?? 0, right[column] ?? 0];
    for (let row = column + 1; row < size; row += 1) {
      const current = rows[row];
      const factor = at(rows, row, column) / head;
      if (current === undefined || factor === 0) continue;
      for (let k = column; k < size; k += 1) current[k] = (current[k] ?? 0) - factor * (top[k] ?? 0);
      right[row] = (right[row] ?? 0) - factor * (right[column] ?? 0);
    }
  }
  for (let row = size - 1; row >= 0; row -= 1) {
    let sum = right[row] ?? 0;
    for (let k = row + 1; k < size; k += 1) sum -= at(rows, row, k) * (right[k] ?? 0);
    right[row] = sum / at(rows, row, row);
  }
  return right;
}

function at(rows: readonly Float64Array[], row: number, column: number): number {
  return rows[row]?.[column] ?? Number.NaN;
}
