/** Two lists laid beside each other: what both have in the same order, and between it what stands at the same place. */

/** One line of the two lists side by side; a side without a place has nothing there. */
export interface Beside {
  readonly before?: number
  readonly now?: number
  /** equal on both sides */
  readonly isSame: boolean
}

/**
 * Lays two lists beside each other.
 *
 *     a longest common subsequence; what is left between two of its items is paired in order
 *
 * Equal ends are found without a table.
 *
 * @param before what an item is, as text
 * @param now    the same of the other list
 * @param most   cells of the table; where there would be more, all between the equal ends is paired in order
 * @returns every item of both lists once, by its place from 0
 * @source common practice
 */
export const besideEachOther = (
  before: readonly string[],
  now: readonly string[],
  most: number,
): readonly Beside[] => {
  const all: Beside[] = []
  let [at, to] = [0, 0]
  const between = (nextBefore: number, nextNow: number): void => {
    while (at < nextBefore || to < nextNow)
      all.push({
        ...(at < nextBefore ? { before: at++ } : {}),
        ...(to < nextNow ? { now: to++ } : {}),
        isSame: false,
      })
  }
  for (const [inBefore, inNow] of common(before, now, most)) {
    between(inBefore, inNow)
    all.push({ before: at++, now: to++, isSame: true })
  }
  between(before.length, now.length)
  return all
}

/** Places of a longest common subsequence, in both lists. */
const common = (a: readonly string[], b: readonly string[], most: number): [number, number][] => {
  let head = 0
  while (head < a.length && head < b.length && a[head] === b[head]) head += 1
  let tail = 0
  while (
    tail < a.length - head &&
    tail < b.length - head &&
    a[a.length - 1 - tail] === b[b.length - 1 - tail]
  )
    tail += 1
  const places: [number, number][] = Array.from({ length: head }, (_, index) => [index, index])
  const [rows, columns] = [a.length - head - tail, b.length - head - tail]
  if (rows * columns <= most) {
    const width = columns + 1
    const lengths = new Uint32Array((rows + 1) * width)
    const length = (i: number, j: number): number => lengths[i * width + j] ?? 0
    for (let i = rows - 1; i >= 0; i -= 1)
      for (let j = columns - 1; j >= 0; j -= 1)
        lengths[i * width + j] =
          a[head + i] === b[head + j]
            ? length(i + 1, j + 1) + 1
            : Math.max(length(i + 1, j), length(i, j + 1))
    for (let i = 0, j = 0; i < rows && j < columns; ) {
      if (a[head + i] === b[head + j]) places.push([head + i++, head + j++])
      else if (length(i + 1, j) >= length(i, j + 1)) i += 1
      else j += 1
    }
  }
  for (let index = tail; index > 0; index -= 1) places.push([a.length - index, b.length - index])
  return places
}
