/**
 * What a board could be worth at most if each blank might be sawn any number of times: a bound for every real layout, and
 * for what can still be laid beside a block that is there already.
 */
import type { Item } from './whole-units.ts'

/** Looked up for a block in the corner or a rest of the board; sizes that lie between two patterns count as the smaller. */
export interface BoardBounds {
  /** of a whole board [value] */
  readonly whole: number
  /** of what lies beside and above a block of this size in the corner [value] */
  readonly beside: (length: number, width: number) => number
}

/** lengths of a table that are looked at one by one */
const MOST_SIZES = 20_000
const MOST_AREAS = 2e5

/**
 * Sizes that blanks side by side can add up to.
 *
 * Formula: sums of sizes, each as often as there are blanks. Validity: whole numbers.
 * @param sizes with the number of blanks [unit, 1 or more]
 * @param most the board's [unit]
 * @returns sums from 0 to the board's size, ascending [unit]
 * @source christofides-whitlock
 */
export function normalPatterns(
  sizes: readonly { readonly size: number; readonly count: number }[],
  most: number,
): readonly number[] {
  const reached = new Uint8Array(most + 1)
  reached[0] = 1
  const used = new Int32Array(most + 1)
  for (const { size, count } of sizes) {
    if (size > most) continue
    // How many of this size it takes at least to get here; the others are free.
    used.fill(-1)
    for (let sum = 0; sum <= most; sum += 1) {
      if (reached[sum]) used[sum] = 0
      else if (sum >= size) {
        const before = used[sum - size] ?? -1
        if (before >= 0 && before < count) used[sum] = before + 1
      }
    }
    for (let sum = 0; sum <= most; sum += 1) if ((used[sum] ?? -1) >= 0) reached[sum] = 1
  }
  return [...reached.keys()].filter((sum) => reached[sum])
}

/** One direction of the board: its patterns, and the last pattern that fits a size. */
interface Axis {
  readonly patterns: readonly number[]
  readonly fitting: Int32Array
}

const axisOf = (sizes: readonly { size: number; count: number }[], most: number): Axis => {
  const patterns = normalPatterns(sizes, most)
  const fitting = new Int32Array(most + 1)
  for (let size = 0, at = 0; size <= most; size += 1) {
    if ((patterns[at + 1] ?? Number.POSITIVE_INFINITY) <= size) at += 1
    fitting[size] = at
  }
  return { patterns, fitting }
}

/** An item as it may lie. */
interface Lying {
  readonly length: number
  readonly width: number
  readonly value: number
  readonly count: number
}

/**
 * Bounds for a board by dynamic programming.
 *
 * Formula: F(x, y) = the most of one blank, F(u, y) + F(x - u, y) and F(x, v) + F(x, y - v) over all normal patterns u, v,
 * and no more than the knapsack of areas holds; U(x, y), beside a block of x by y in the corner, = the most of
 * F(u, y) + U(x + u, y) and F(x, v) + U(x, y + v). Validity: where the tables would grow too large, sizes are divided and
 * rounded down, board and blanks alike: whatever fitted still fits, so a bound stays one. Beyond that, areas alone.
 * @param items kerf included [unit]
 * @param board kerf included [unit]
 * @param steps that the tables may take; with more the sizes are coarsened, which keeps bounds true and makes them weaker
 * @returns bounds [value]
 * @throws never
 * @source gilmore-gomory, viswanathan-bagchi
 */
export function boardBounds(
  items: readonly Item[],
  board: { readonly length: number; readonly width: number },
  steps: number,
): BoardBounds {
  const lying = items
    .flatMap(({ length, width, value, count, turns }): Lying[] => [
      { length, width, value, count },
      ...(turns && length !== width ? [{ length: width, width: length, value, count }] : []),
    ])
    .filter(({ length, width }) => length <= board.length && width <= board.width)
  const fine = Math.max(board.length, board.width) <= MOST_SIZES ? axesOf(lying, board) : undefined
  if (fine && stepsOf(fine) <= steps) return tables(lying, items, board, fine, 1)
  const smallest = Math.min(...lying.flatMap(({ length, width }) => [length, width]))
  // The finest grid whose tables are small enough: coarser than that bounds only become weaker.
  const most = Math.cbrt(steps / 2)
  const grid = Math.max(2, Math.ceil(Math.sqrt(board.length * board.width) / most))
  if (grid <= smallest) {
    const axes = [
      everySize(Math.floor(board.length / grid)),
      everySize(Math.floor(board.width / grid)),
    ] as const
    if (stepsOf(axes) <= 2 * steps) return tables(lying, items, board, axes, grid)
  }
  return areasAlone(items, board)
}

type Axes = readonly [Axis, Axis]

const stepsOf = ([along, across]: Axes): number =>
  along.patterns.length * across.patterns.length * (along.patterns.length + across.patterns.length)

const axesOf = (
  lying: readonly Lying[],
  board: { readonly length: number; readonly width: number },
): Axes => [
  axisOf(
    lying.map(({ length, count }) => ({ size: length, count })),
    board.length,
  ),
  axisOf(
    lying.map(({ width, count }) => ({ size: width, count })),
    board.width,
  ),
]

/** On a coarse grid a block may end anywhere: what was rounded down need not be a sum of what was rounded down. */
const everySize = (most: number): Axis => {
  const patterns = Array.from({ length: most + 1 }, (_, size) => size)
  return { patterns, fitting: Int32Array.from(patterns) }
}

/** Where even a coarse table would be too large, beside blanks that are next to nothing. */
function areasAlone(
  items: readonly Item[],
  board: { readonly length: number; readonly width: number },
): BoardBounds {
  const held = areaKnapsack(items, 1, board.length * board.width)
  return {
    whole: held(board.length * board.width),
    beside: (length, width) => held(board.length * board.width - length * width),
  }
}

function tables(
  lying: readonly Lying[],
  items: readonly Item[],
  board: { readonly length: number; readonly width: number },
  [along, across]: Axes,
  grid: number,
): BoardBounds {
  const xs = Int32Array.from(along.patterns)
  const ys = Int32Array.from(across.patterns)
  const [columns, rows] = [xs.length, ys.length]
  const [length, width] = [along.fitting.length - 1, across.fitting.length - 1]
  const shapes = lying.map((shape) => ({
    length: Math.floor(shape.length / grid),
    width: Math.floor(shape.width / grid),
    value: shape.value,
  }))
  const held = areaKnapsack(items, grid, length * width)
  const most = new Float64Array(columns * rows)
  const at = (i: number, j: number): number => most[i * rows + j] as number
  for (let i = 0; i < columns; i += 1)
    for (let j = 0; j < rows; j += 1) {
      const [x, y] = [xs[i] as number, ys[j] as number]
      let best = 0
      for (const shape of shapes)
        if (shape.value > best && shape.length <= x && shape.width <= y) best = shape.value
      for (let k = 1; k < columns && 2 * (xs[k] as number) <= x; k += 1) {
        const value = at(k, j) + at(along.fitting[x - (xs[k] as number)] as number, j)
        if (value > best) best = value
      }
      for (let k = 1; k < rows && 2 * (ys[k] as number) <= y; k += 1) {
        const value = at(i, k) + at(i, across.fitting[y - (ys[k] as number)] as number)
        if (value > best) best = value
      }
      most[i * rows + j] = Math.min(best, held(x * y))
    }
  const rest = new Float64Array(columns * rows)
  for (let i = columns - 1; i >= 0; i -= 1)
    for (let j = rows - 1; j >= 0; j -= 1) {
      const [x, y] = [xs[i] as number, ys[j] as number]
      let best = Math.max(
        at(along.fitting[length - x] as number, j),
        at(i, across.fitting[width - y] as number),
      )
      for (let k = i + 1; k < columns; k += 1) {
        const value = (rest[k * rows + j] as number) + at(along.fitting[(xs[k] as number) - x] as number, j)
        if (value > best) best = value
      }
      for (let k = j + 1; k < rows; k += 1) {
        const value = (rest[i * rows + k] as number) + at(i, across.fitting[(ys[k] as number) - y] as number)
        if (value > best) best = value
      }
      rest[i * rows + j] = best
    }
  const column = (size: number): number => along.fitting[Math.min(length, Math.floor(size / grid))] as number
  const row = (size: number): number => across.fitting[Math.min(width, Math.floor(size / grid))] as number
  const whole = at(column(board.length), row(board.width))
  const area = board.length * board.width
  return {
    // On the finest grid no entry is above what the areas hold; a coarse one has lost some of them.
    whole: grid === 1 ? whole : Math.min(whole, areaKnapsack(items, 1, area)(area)),
    beside: (long, wide) => rest[column(long) * rows + row(wide)] as number,
  }
}

/**
 * The most value of blanks whose areas together fit an area, each no more often than there is.
 *
 * Formula: a knapsack of areas, doubling numbers of each blank. Validity: areas are rounded down where there are too many.
 */
function areaKnapsack(items: readonly Item[], grid: number, most: number): (area: number) => number {
  const step = Math.max(1, Math.ceil(most / MOST_AREAS))
  const best = new Float64Array(Math.floor(most / step) + 1)
  for (const { length, width, value, count } of items) {
    const one = Math.floor(length / grid) * Math.floor(width / grid)
    // as many as the area could ever hold: their number is no limit, and one pass upwards does
    const own = Math.floor(one / step)
    if (count >= Math.floor(most / one)) {
      for (let room = own; room < best.length; room += 1) {
        const with_ = (best[room - own] as number) + value
        if (with_ > (best[room] as number)) best[room] = with_
      }
      continue
    }
    for (let left = count, take = 1; left > 0; take *= 2) {
      const number = Math.min(take, left)
      left -= number
      const area = Math.floor((number * one) / step)
      const worth = number * value
      for (let room = best.length - 1; room >= area; room -= 1) {
        const with_ = (best[room - area] as number) + worth
        if (with_ > (best[room] as number)) best[room] = with_
      }
    }
  }
  return (area) => best[Math.floor(area / step)] as number
}
