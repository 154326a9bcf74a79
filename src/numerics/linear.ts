/** Few linear equations at once. */

/**
 * Solution of A x = b by elimination, the largest element of a column as pivot.
 *
 * @param matrix A, rows of n numbers; left as it is
 * @param right  b, n numbers
 * @returns x
 * @throws RangeError when the equations do not determine x
 * @source common practice
 */
export function solveLinear(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const n = right.length
  const rows = matrix.map((row, index) => [...row, right[index]!])
  const largest = Math.max(0, ...matrix.flat().map(Math.abs))
  for (let column = 0; column < n; column += 1) {
    let best = column
    for (let row = column + 1; row < n; row += 1)
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[best]![column]!)) best = row
    const pivot = rows[best]!
    rows[best] = rows[column]!
    rows[column] = pivot
    if (!(Math.abs(pivot[column]!) > largest * 1e-14)) throw new RangeError('equations without one solution')
    for (let row = column + 1; row < n; row += 1) {
      const factor = rows[row]![column]! / pivot[column]!
      if (factor !== 0)
        for (let k = column; k <= n; k += 1) rows[row]![k] = rows[row]![k]! - factor * pivot[k]!
    }
  }
  const x = new Array<number>(n).fill(0)
  for (let row = n - 1; row >= 0; row -= 1) {
    let sum = rows[row]![n]!
    for (let k = row + 1; k < n; k += 1) sum -= rows[row]![k]! * x[k]!
    x[row] = sum / rows[row]![row]!
  }
  return x
}
