/** One board: the most that it can be sawn into, and the shortest piece of it that everything comes out of. */
import { insertBlanks } from './insertion.ts'
import { joinBlocks } from './joined-blocks.ts'
import { BlankKeys, regionOfBlock, regionOfInsertion, shortened } from './regions.ts'
import type { Region } from './types.ts'
import { type BoardBounds, boardBounds } from './unlimited-cutting.ts'
import { type Item, mostByArea, type ValuedBlank, wholeUnits } from './whole-units.ts'

/** How much is tried before what was found so far is taken; the same everywhere, for time is not looked at. */
export interface Effort {
  /** of blanks that are held against a rest, in layouts by insertion */
  readonly looks: number
  /** joins of blocks */
  readonly joins: number
  /** steps of the tables of bounds */
  readonly steps: number
}

/** A second or two. */
export const THOROUGH: Effort = { looks: 1.2e7, joins: 2e7, steps: 2e8 }

export interface FilledBoard {
  readonly region: Region
  /** of the blanks that are sawn from it, as their values were given; their area [m2] where none was */
  readonly value: number
  /** no layout with cuts right through is worth more */
  readonly bound: number
}

/**
 * The most value that can be sawn from one board, with cuts that go right through.
 *
 * Formula: blanks inserted in many orders, then blocks joined best bound first until nothing better can be. Validity: exact
 * where value and bound are equal; else between them.
 * @param blanks with what each is worth; as many as may be sawn, not as many as must be [m]
 * @param board as it lies on the saw, edges trimmed [m]
 * @param kerf [m, 0 or more]
 * @param effort how much is tried
 * @returns the board as it is sawn [m] and its worth
 * @source wang, viswanathan-bagchi, hifi, burke-kendall-whitwell
 */
export function mostValue(
  blanks: readonly ValuedBlank[],
  board: { readonly length: number; readonly width: number },
  kerf: number,
  effort: Effort = THOROUGH,
): FilledBoard {
  const units = wholeUnits(
    blanks.map((blank) => ({ ...blank, value: blank.value ?? blank.length * blank.width })),
    [board],
    kerf,
  )
  const [size] = units.boards
  if (!size) throw new Error('No board.')
  const items = units.items.map((item) => ({ ...item, count: usable(item, size) }))
  const bounds = boardBounds(items, size, effort.steps)
  const measure = { units, keys: new BlankKeys(units) }
  const inserted = insertBlanks(items, [size], effort.looks / 20, 'all')
  const worth = inserted.placed.reduce((sum, { item }) => sum + (items[item]?.value ?? 0), 0)
  const { block, value, bound } = joinBlocks(items, size, bounds, worth, effort.joins)
  const region = block
    ? regionOfBlock(measure, block, size)
    : regionOfInsertion(measure, inserted.placed, size)
  return { region, value, bound }
}

/** No more of an item than fit on the board by area and by rows. */
const usable = (item: Item, board: { length: number; width: number }): number => {
  const rows = Math.floor(board.length / item.length) * Math.floor(board.width / item.width)
  const area = mostByArea(item, board)
  return item.turns ? area : Math.max(1, Math.min(area, rows))
}

export interface ShortestPiece {
  readonly region: Region
  /** of the board that is used [m] */
  readonly length: number
  /** no layout with cuts right through needs less [m] */
  readonly bound: number
}

/**
 * The shortest piece of a long board from which all blanks can be sawn, with cuts that go right through.
 *
 * Formula: the least length that bounds allow is tried first; then what insertion finds is halved towards it. Validity:
 * exact where length and bound are equal. Every blank must fit across the board.
 * @param blanks all of them are sawn [m]
 * @param width of the board, edges trimmed [m]
 * @param kerf [m, 0 or more]
 * @param effort how much is tried
 * @returns the piece as it is sawn [m]
 * @throws Error when a blank is wider than the board
 * @source burke-kendall-whitwell, wang, viswanathan-bagchi
 */
export function shortestPiece(
  blanks: readonly ValuedBlank[],
  width: number,
  kerf: number,
  effort: Effort = THOROUGH,
): ShortestPiece {
  const long = blanks.reduce(
    (sum, blank) => sum + blank.count * (Math.max(blank.length, blank.width) + kerf),
    // The last kerf lies outside of the board.
    -kerf,
  )
  const units = wholeUnits(
    blanks.map(({ value: _, ...blank }) => blank),
    [{ length: long, width }],
    kerf,
  )
  const [whole] = units.boards
  if (!whole) throw new Error('No board.')
  const items = units.items.map((item) => ({ ...item, value: item.length * item.width }))
  if (items.some((item) => (item.turns ? Math.min(item.length, item.width) : item.width) > whole.width))
    throw new Error('A blank is wider than the board.')
  const total = items.reduce((sum, { value, count }) => sum + value * count, 0)
  const regionFor = (length: number, found: Found): Region => {
    const measure = { units, keys: new BlankKeys(units) }
    const on = { length: found.on, width: whole.width }
    const region =
      'placed' in found
        ? regionOfInsertion(measure, found.placed, on)
        : regionOfBlock(measure, found.block, on)
    const short = shortened(region, length * units.unit - kerf)
    if (!short) throw new Error('A board without any size.')
    return short
  }
  const within = (
    length: number,
    looks: number,
    joins: number,
  ): { length: number; found: Found } | undefined => {
    const size = { length, width: whole.width }
    const inserted = insertBlanks(items, [size], looks, 'all')
    if (inserted.missed === 0)
      return { length: inserted.reach, found: { placed: inserted.placed, on: length } }
    const bounds: BoardBounds = boardBounds(items, size, effort.steps / 20)
    if (bounds.whole < total) return undefined
    const { block, value } = joinBlocks(items, size, bounds, 0, joins, total)
    return block && value >= total ? { length: block.length, found: { block, on: length } } : undefined
  }
  const least = leastLength(items, whole.width, total)
  const first = insertBlanks(items, [whole], 0, 'short')
  let best: { length: number; found: Found } = {
    length: first.reach,
    found: { placed: first.placed, on: whole.length },
  }
  let low = least - 1
  const exact = best.length > least ? within(least, effort.looks / 10, effort.joins / 4) : best
  if (exact) best = exact
  else low = least
  const step = Math.max(1, Math.floor(best.length / 1000))
  while (best.length - low > step) {
    const middle = Math.floor((best.length + low) / 2)
    const shorter = within(middle, effort.looks / 5, effort.joins / 40)
    if (shorter) best = shorter
    else low = middle
  }
  const last = best.length > least ? within(best.length - 1, effort.looks, effort.joins / 20) : undefined
  if (last) best = last
  return {
    region: regionFor(best.length, best.found),
    length: best.length * units.unit - kerf,
    bound: least * units.unit - kerf,
  }
}

/** Of a layout, on a board that may be longer than what is used of it [unit]. */
type Found = { readonly on: number } & (
  | { readonly placed: Parameters<typeof regionOfInsertion>[1] }
  | { readonly block: Parameters<typeof regionOfBlock>[1] }
)

/** No piece is shorter than its area asks for, than its longest blank, or than blanks that cannot lie side by side. */
function leastLength(items: readonly Item[], width: number, total: number): number {
  const longest = Math.max(
    ...items.map((item) =>
      item.turns && item.length <= width ? Math.min(item.length, item.width) : item.length,
    ),
  )
  const wide = items
    .filter((item) => (item.turns ? Math.min(item.length, item.width) : item.width) * 2 > width)
    .reduce(
      (sum, item) => sum + item.count * (item.turns ? Math.min(item.length, item.width) : item.length),
      0,
    )
  return Math.max(Math.ceil(total / width), longest, wide)
}
