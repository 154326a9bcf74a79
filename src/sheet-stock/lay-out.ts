/** Blanks onto boards at the least cost that can be found, every cut right through; then with few cuts and large offcuts. */
import { type Insertion, insertBlanks, type Size } from './insertion.ts'
import { type Block, joinBlocks } from './joined-blocks.ts'
import type { Effort } from './one-board.ts'
import { BlankKeys, regionOfBlock, regionOfInsertion } from './regions.ts'
import type { Board, LayoutBound, LayoutProblem, SawnBoard, SheetLayout } from './types.ts'
import { boardBounds } from './unlimited-cutting.ts'
import { type Item, mostByArea, wholeUnits } from './whole-units.ts'

/** A few tenths of a second for the parts of three fixtures. */
export const EVERYDAY: Effort = { looks: 2.5e6, joins: 3e5, steps: 5e5 }

/** Sets of boards that are looked at before only the number of the best kind is raised. */
const MOST_SETS = 400
/** of them, in which blanks are really laid out */
const MOST_TRIALS = 12
/** boards in all of these */
const MOST_FILLED = 150
/** boards of which all sets are looked at; of more, those that differ in the last ones alone */
const FEW_BOARDS = 8
const LAST_ONES = 2

/** One kind of board in whole units. */
interface Stock extends Size {
  readonly board: Board
  /** that blanks with their kerf can cover at most [unit2] */
  readonly holds: number
}

/** What lies on boards, each kept as it was found. */
type OnBoards =
  | { readonly kind: 'inserted'; readonly insertion: Insertion }
  | { readonly kind: 'blocks'; readonly blocks: readonly (Block | undefined)[] }

/**
 * Lays out all blanks.
 *
 * Formula: sets of boards by their cost, those that by their bounds cannot hold all blanks left out; the first on which all
 * find a place is taken, then searched for few cuts and large offcuts. Boards without cost are there in every set. Validity: blanks
 * that no board is large enough for, and those that are over when the boards are used up, are listed as left.
 * @param problem blanks, boards and kerf, all above 0, kerf 0 or more [m]
 * @param effort how much is tried
 * @returns boards with their cuts, what found no place, and how few boards could do [m]
 * @source burke-kendall-whitwell, wang, gilmore-gomory
 */
export function layOut({ blanks, boards, kerf }: LayoutProblem, effort: Effort = EVERYDAY): SheetLayout {
  const sawable = boards
    .map((board) => ({ board, length: board.length - 2 * board.trim, width: board.width - 2 * board.trim }))
    .filter(({ board, length, width }) => board.count > 0 && length > 0 && width > 0)
  const fits = ({ length, width, turns }: { length: number; width: number; turns: boolean }): boolean =>
    sawable.some(
      (board) =>
        (length <= board.length + ROUNDING && width <= board.width + ROUNDING) ||
        (turns && width <= board.length + ROUNDING && length <= board.width + ROUNDING),
    )
  const tooLarge = blanks.filter((blank) => !fits(blank)).map(({ key, count }) => ({ key, count }))
  const units = wholeUnits(
    blanks.filter((blank) => blank.count > 0 && fits(blank)).map((blank) => ({ ...blank, value: undefined })),
    sawable,
    kerf,
  )
  const items = units.items.map((item) => ({ ...item, value: item.length * item.width }))
  if (items.length === 0) return { boards: [], left: tooLarge, bound: { cost: 0, boards: 0 } }
  const stock = sawable.map(({ board }, index): Stock => {
    const size = units.boards[index] as Size
    return { board, ...size, holds: boardBounds(items, size, effort.steps).whole }
  })
  const { chosen, found, bound } = bestSet(items, stock, effort)
  const keys = new BlankKeys(units)
  const measure = { units, keys }
  const sawn = chosen.flatMap((one, index): SawnBoard[] => {
    if (found.kind === 'blocks') {
      const block = found.blocks[index]
      return block ? [{ board: one.board.key, region: regionOfBlock(measure, block, one) }] : []
    }
    const placed = found.insertion.placed.filter(({ board }) => board === index)
    return placed.length > 0
      ? [{ board: one.board.key, region: regionOfInsertion(measure, placed, one) }]
      : []
  })
  return { boards: sawn, left: [...tooLarge, ...keys.rest()], bound }
}

/** m; a blank may be as large as its board, whatever a sum of sizes has in its last digits */
const ROUNDING = 5e-10

interface BestSet {
  /** boards, each once */
  readonly chosen: readonly Stock[]
  readonly found: OnBoards
  readonly bound: LayoutBound
}

function bestSet(items: readonly Item[], stock: readonly Stock[], effort: Effort): BestSet {
  const total = items.reduce((sum, { value, count }) => sum + value * count, 0)
  const blanks = items.reduce((sum, { count }) => sum + count, 0)
  const most = (kind: Stock): number => Math.min(kind.board.count, blanks)
  const there = stock.filter(({ board }) => board.cost === 0)
  const bought = stock.filter(({ board }) => board.cost > 0)
  const free = there.flatMap((kind) => Array.from({ length: most(kind) }, () => kind))
  const held = free.reduce((sum, { holds }) => sum + holds, 0)
  const setOf = (counts: readonly number[]): readonly Stock[] => [
    ...free,
    ...bought.flatMap((kind, index) => Array.from({ length: counts[index] ?? 0 }, () => kind)),
  ]

  // Of hundreds of blanks most lie on boards of the kind that is cheapest for what it holds: sets differ in the last ones.
  const priceOf = ({ board, holds }: Stock): number => board.cost / holds
  const cheapest = bought
    .filter((kind) => kind.holds > 0)
    .reduce<Stock | undefined>(
      (best, kind) => (best && priceOf(best) <= priceOf(kind) ? best : kind),
      undefined,
    )
  const needed = cheapest ? Math.floor((total - held) / cheapest.holds) : 0
  const surely = needed > FEW_BOARDS ? needed - LAST_ONES : 0
  const from = bought.map((kind) => (kind === cheapest ? Math.min(most(kind), surely) : 0))
  const atLeast = cheapest && surely > 0 ? priceOf(cheapest) * (total - held) * (1 - 1e-9) : Infinity

  const known: FilledBefore = new Map()
  let bound: LayoutBound | undefined
  let last: { chosen: readonly Stock[]; found: OnBoards } | undefined
  let [trials, filled] = [0, 0]
  for (const { counts, cost } of byCost(bought, most, from)) {
    const room = counts.reduce((sum, count, index) => sum + count * (bought[index]?.holds ?? 0), held)
    const chosen = setOf(counts)
    if (room < total || !roomForLarge(items, chosen)) continue
    bound ??= { cost: Math.min(cost, atLeast), boards: fewest(items, bought, most, free, total - held) }
    trials += 1
    const found = onBoards(items, chosen, total, effort, known)
    last = { chosen, found: found.found }
    if (found.all) return { chosen, found: tidied(items, chosen, found.found, effort), bound }
    filled += chosen.length
    if (trials >= MOST_TRIALS || filled >= MOST_FILLED) break
  }
  // Boards are used up, or bounds are far from what can be found: as many of every kind as it takes.
  const counts = [...from]
  for (;;) {
    const next = bought.findIndex(
      (kind, index) => (counts[index] ?? 0) < most(kind) && holdsSome(items, kind),
    )
    const chosen = setOf(counts)
    const { all, found } = onBoards(items, chosen, total, { ...effort, looks: effort.looks / 10 }, known)
    last = { chosen, found }
    if (all || next < 0) break
    counts[next] = (counts[next] ?? 0) + 1
  }
  return { ...last, bound: bound ?? { cost: 0, boards: 0 } }
}

const holdsSome = (items: readonly Item[], board: Size): boolean =>
  items.some(
    ({ length, width, turns }) =>
      (length <= board.length && width <= board.width) ||
      (turns && width <= board.length && length <= board.width),
  )

/** Sets of boards by their cost, the number of boards deciding between equals; `from`: in every one of them. */
function* byCost(
  bought: readonly Stock[],
  most: (kind: Stock) => number,
  from: readonly number[],
): Generator<{ counts: readonly number[]; cost: number }> {
  const costOf = (counts: readonly number[]): number =>
    counts.reduce((sum, count, index) => sum + count * (bought[index]?.board.cost ?? 0), 0)
  const sizeOf = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0)
  const open = [{ counts: from, cost: costOf(from) }]
  const known = new Set([open[0]?.counts.join()])
  for (let looked = 0; looked < MOST_SETS; looked += 1) {
    open.sort((a, b) => a.cost - b.cost || sizeOf(a.counts) - sizeOf(b.counts))
    const next = open.shift()
    if (!next) return
    yield next
    bought.forEach((kind, index) => {
      const counts = next.counts.map((count, at) => (at === index ? count + 1 : count))
      if ((counts[index] ?? 0) > most(kind) || known.has(counts.join())) return
      known.add(counts.join())
      open.push({ counts, cost: costOf(counts) })
    })
  }
}

/** Of two blanks longer and wider than half of a board only one comes out of it. */
function roomForLarge(items: readonly Item[], boards: readonly Size[]): boolean {
  const length = Math.max(...boards.map((board) => board.length), 0)
  const width = Math.max(...boards.map((board) => board.width), 0)
  const large = items
    .filter((item) => !item.turns && item.length * 2 > length && item.width * 2 > width)
    .reduce((sum, { count }) => sum + count, 0)
  return large <= boards.length
}

/** How few boards must be bought at the very least. */
function fewest(
  items: readonly Item[],
  bought: readonly Stock[],
  most: (kind: Stock) => number,
  free: readonly Stock[],
  missing: number,
): number {
  const byRoom = [...bought].sort((a, b) => b.holds - a.holds)
  let left = missing
  let boards = 0
  const taken: Stock[] = [...free]
  for (const kind of byRoom)
    for (let count = 0; count < most(kind); count += 1) {
      if (left <= 0 && roomForLarge(items, taken)) return boards
      left -= kind.holds
      taken.push(kind)
      boards += 1
    }
  return boards
}

/**
 * Insertion on all boards at once; where that leaves something over, one board after the other as full as can be, first with
 * alike blanks shared out among the boards, then with whatever fills each best.
 */
function onBoards(
  items: readonly Item[],
  boards: readonly Stock[],
  total: number,
  effort: Effort,
  known: FilledBefore,
): { readonly all: boolean; readonly found: OnBoards } {
  const insertion = insertBlanks(items, boards, effort.looks / 2, 'all')
  if (insertion.missed === 0) return { all: true, found: { kind: 'inserted', insertion } }
  let most: { readonly laid: number; readonly found: OnBoards } = {
    laid: total - insertion.missed,
    found: { kind: 'inserted', insertion },
  }
  const shares = boards.length > 1 ? [true, false] : [false]
  for (const shared of shares) {
    const { laid, left, blocks } = oneByOne(items, boards, shared, effort, known)
    if (left === 0) return { all: true, found: { kind: 'blocks', blocks } }
    if (laid > most.laid) most = { laid, found: { kind: 'blocks', blocks } }
  }
  return { all: false, found: most.found }
}

/** Boards of one size with the same to choose from are filled alike: of many sets most boards are. By size and numbers. */
type FilledBefore = Map<string, ReturnType<typeof joinBlocks>>

function oneByOne(
  items: readonly Item[],
  boards: readonly Stock[],
  shared: boolean,
  effort: Effort,
  known: FilledBefore,
): { readonly laid: number; readonly left: number; readonly blocks: readonly (Block | undefined)[] } {
  const left = items.map(({ count }) => count)
  let laid = 0
  const blocks = boards.map((board, at) => {
    const among = shared ? boards.length - at : 1
    const still = items
      .map((item, index) => ({ item: { ...item, count: Math.ceil((left[index] ?? 0) / among) }, index }))
      .flatMap(({ item, index }) =>
        item.count > 0 ? [{ item: { ...item, count: mostByArea(item, board) }, index }] : [],
      )
    if (still.length === 0) return undefined
    const own = still.map(({ item }) => item)
    const key = [
      board.length,
      board.width,
      ...still.map(({ item, index }) => `${index}:${item.count}`),
    ].join()
    const filled =
      known.get(key) ?? joinBlocks(own, board, boardBounds(own, board, effort.steps), 0, effort.joins)
    known.set(key, filled)
    const { block, value } = filled
    if (!block) return undefined
    laid += value
    const named = renamed(
      block,
      still.map(({ index }) => index),
    )
    for (const item of itemsOf(named)) left[item] = (left[item] ?? 0) - 1
    return named
  })
  return { laid, left: left.reduce((sum, count) => sum + count, 0), blocks }
}

const renamed = (block: Block, names: readonly number[]): Block =>
  block.kind === 'item'
    ? { ...block, item: names[block.item] ?? block.item }
    : { ...block, first: renamed(block.first, names), second: renamed(block.second, names) }

const itemsOf = (block: Block): readonly number[] =>
  block.kind === 'item' ? [block.item] : [...itemsOf(block.first), ...itemsOf(block.second)]

/** The same boards with fewer cuts and larger offcuts: a board that nothing lies on is the largest of all. */
function tidied(items: readonly Item[], boards: readonly Stock[], found: OnBoards, effort: Effort): OnBoards {
  const insertion = insertBlanks(items, boards, effort.looks / 2, 'whole')
  if (insertion.missed > 0) return found
  if (found.kind === 'inserted' && found.insertion.untidiness <= insertion.untidiness) return found
  return { kind: 'inserted', insertion }
}
