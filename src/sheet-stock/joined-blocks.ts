/**
 * The most that one board can be sawn into: blocks of blanks joined side by side or one above the other, best bound first.
 *
 * When it ends by itself, nothing better exists. On a board that everything fits without any waste it finds that, too, for
 * blocks without waste have the best bound and are few.
 */
import type { BoardBounds } from './unlimited-cutting.ts'
import type { Item } from './whole-units.ts'

/** Blanks joined to a block, as a tree. */
export type Block =
  | {
      readonly kind: 'item'
      readonly item: number
      readonly turned: boolean
      readonly length: number
      readonly width: number
    }
  | {
      readonly kind: 'joined'
      /** side by side along the length, or one above the other */
      readonly by: 'length' | 'width'
      readonly first: Block
      readonly second: Block
      readonly length: number
      readonly width: number
    }

export interface Joined {
  /** missing when nothing is worth more than what was asked for */
  readonly block?: Block
  /** of the block; what was asked for when there is none [value] */
  readonly value: number
  /** that no layout can pass [value] */
  readonly bound: number
}

/** Blocks that are kept at most: a hundred megabytes. */
const MOST_BLOCKS = 1_500_000

/**
 * Searches for a block worth more than what is known.
 *
 * Formula: best first by own worth + what may lie beside it, the latter bounded by tables, by all that is left and by a
 * fractional knapsack of areas. Validity: exact when it ends before the joins do; then value equals bound.
 * @param items kerf included [unit]
 * @param board kerf included [unit]
 * @param bounds of that board
 * @param known worth of a layout that is known already [value]
 * @param joins that may be tried, a dearer look at one counted as several
 * @param enough worth at which it may stop [value]
 * @returns best block and bound
 * @source wang, viswanathan-bagchi, hifi
 */
export function joinBlocks(
  items: readonly Item[],
  board: { readonly length: number; readonly width: number },
  bounds: BoardBounds,
  known: number,
  joins: number,
  enough = Number.POSITIVE_INFINITY,
): Joined {
  const total = items.reduce((sum, { value, count }) => sum + value * count, 0)
  // Worths are sums in another order each time: what differs by less than this is the same.
  const same = 1e-9 * Math.max(1, total)
  const counts = packedCounts(items)
  const { words } = counts
  const used = new Int32Array(words)
  const blocks = new Blocks(words)
  const seen = new Map<string | number, number[]>()
  const open = new BestFirst(blocks)
  let best = known
  let tried = 0
  let bestBlock = -1

  const dense = items
    .map(({ length, width, value, count }, item) => ({ item, value, count, area: length * width }))
    .sort((a, b) => b.value / b.area - a.value / a.area)
  /** of what is left, in the area that is left */
  const fractional = (area: number): number => {
    let room = area
    let worth = 0
    for (const { item, value, count, area: one } of dense) {
      const left = count - counts.of(used, item)
      if (left <= 0) continue
      if (left * one > room) return worth + (value * room) / one
      room -= left * one
      worth += left * value
    }
    return worth
  }
  const add = (
    length: number,
    width: number,
    worth: number,
    first: number,
    second: number,
    how: number,
  ): void => {
    const coarse = worth + Math.min(bounds.beside(length, width), total - worth)
    if (coarse <= best + same) return
    tried += items.length / DEARER
    const bound = Math.min(coarse, worth + fractional(board.length * board.width - length * width))
    if (bound <= best + same) return
    const key = counts.key(used)
    const alike = seen.get(key)
    if (alike?.some((other) => blocks.length(other) <= length && blocks.width(other) <= width)) return
    const block = blocks.add(length, width, worth, bound, first, second, how, used)
    if (alike) alike.push(block)
    else seen.set(key, [block])
    if (worth > best + same) {
      best = worth
      bestBlock = block
    }
    open.push(block)
  }

  items.forEach(({ length, width, value, turns }, item) => {
    used.fill(0)
    counts.one(used, item)
    if (length <= board.length && width <= board.width) add(length, width, value, item, -1, LYING)
    if (turns && length !== width && width <= board.length && length <= board.width)
      add(width, length, value, item, -1, TURNED)
  })
  const closed: number[] = []
  let bound = best
  for (;;) {
    const next = open.pop()
    if (next < 0 || blocks.bound(next) <= best + same) {
      bound = best
      break
    }
    bound = blocks.bound(next)
    if (best >= enough - same || tried > joins || blocks.size > MOST_BLOCKS) break
    closed.push(next)
    const [length, width, worth] = [blocks.length(next), blocks.width(next), blocks.worth(next)]
    for (const other of closed) {
      tried += 1
      if (!counts.together(blocks, next, other, used)) continue
      const [long, wide] = [blocks.length(other), blocks.width(other)]
      const both = worth + blocks.worth(other)
      if (length + long <= board.length) add(length + long, Math.max(width, wide), both, next, other, BESIDE)
      if (width + wide <= board.width) add(Math.max(length, long), width + wide, both, next, other, ABOVE)
    }
  }
  return {
    ...(bestBlock >= 0 ? { block: blocks.tree(bestBlock, items) } : {}),
    value: best,
    bound: Math.min(bound, bounds.whole, total),
  }
}

/** items of a fractional knapsack that cost as much as a join that is thrown away at once */
const DEARER = 2

const BESIDE = 0
const ABOVE = 1
const LYING = 2
const TURNED = 3

/** bits of a word that a product of two of them still has room for in a double */
const WORD = 26

/** How many of each item a block holds, several to a word, with a spare bit each that tells when there are too many. */
function packedCounts(items: readonly Item[]) {
  const place: { word: number; shift: number; bits: number }[] = []
  let word = 0
  let shift = 0
  for (const { count } of items) {
    const bits = Math.min(WORD, 33 - Math.clz32(count))
    if (shift + bits > WORD) {
      word += 1
      shift = 0
    }
    place.push({ word, shift, bits })
    shift += bits
  }
  const words = word + 1
  const spare = new Int32Array(words)
  const slack = new Int32Array(words)
  items.forEach(({ count }, item) => {
    const { word: own, shift: by, bits } = place[item] as (typeof place)[number]
    const top = 2 ** (bits - 1)
    spare[own] = (spare[own] as number) + top * 2 ** by
    slack[own] = (slack[own] as number) + (top - 1 - Math.min(count, top - 1)) * 2 ** by
  })
  return {
    words,
    one: (used: Int32Array, item: number): void => {
      const { word: own, shift: by } = place[item] as (typeof place)[number]
      used[own] = 2 ** by
    },
    of: (used: Int32Array, item: number): number => {
      const { word: own, shift: by, bits } = place[item] as (typeof place)[number]
      return ((used[own] as number) >> by) & (2 ** bits - 1)
    },
    key: (used: Int32Array): string | number =>
      words === 1
        ? (used[0] as number)
        : words === 2
          ? (used[0] as number) * 2 ** WORD + (used[1] as number)
          : used.join(),
    together: (blocks: Blocks, first: number, second: number, used: Int32Array): boolean => {
      let over = 0
      for (let at = 0; at < words; at += 1) {
        const sum = blocks.count(first, at) + blocks.count(second, at)
        used[at] = sum
        over |= (sum + (slack[at] as number)) & (spare[at] as number)
      }
      return over === 0
    },
  }
}

/** All blocks that were made, in flat arrays: there are hundreds of thousands. */
class Blocks {
  size = 0
  private room = 4096
  private numbers = new Float64Array(this.room * 4)
  private links = new Int32Array(this.room * 3)
  private counts: Int32Array
  private readonly words: number

  constructor(words: number) {
    this.words = words
    this.counts = new Int32Array(this.room * words)
  }

  length = (block: number): number => this.numbers[block * 4] as number
  width = (block: number): number => this.numbers[block * 4 + 1] as number
  worth = (block: number): number => this.numbers[block * 4 + 2] as number
  bound = (block: number): number => this.numbers[block * 4 + 3] as number
  count = (block: number, word: number): number => this.counts[block * this.words + word] as number

  add(
    length: number,
    width: number,
    worth: number,
    bound: number,
    first: number,
    second: number,
    how: number,
    used: Int32Array,
  ): number {
    if (this.size === this.room) this.grow()
    const block = this.size
    this.size += 1
    this.numbers.set([length, width, worth, bound], block * 4)
    this.links.set([first, second, how], block * 3)
    this.counts.set(used, block * this.words)
    return block
  }

  tree(block: number, items: readonly Item[]): Block {
    const [first, second, how] = this.links.subarray(block * 3, block * 3 + 3) as unknown as [
      number,
      number,
      number,
    ]
    const [length, width] = [this.length(block), this.width(block)]
    if (how === LYING || how === TURNED)
      return { kind: 'item', item: first, turned: how === TURNED, length, width }
    return {
      kind: 'joined',
      by: how === BESIDE ? 'length' : 'width',
      first: this.tree(first, items),
      second: this.tree(second, items),
      length,
      width,
    }
  }

  private grow(): void {
    this.room *= 2
    const larger = <T extends Float64Array | Int32Array>(old: T, made: T): T => {
      made.set(old)
      return made
    }
    this.numbers = larger(this.numbers, new Float64Array(this.room * 4))
    this.links = larger(this.links, new Int32Array(this.room * 3))
    this.counts = larger(this.counts, new Int32Array(this.room * this.words))
  }
}

/** Blocks by their bound, then by their worth: a heap. */
class BestFirst {
  private readonly heap: number[] = []
  private readonly blocks: Blocks

  constructor(blocks: Blocks) {
    this.blocks = blocks
  }

  private before(a: number, b: number): boolean {
    const difference = this.blocks.bound(a) - this.blocks.bound(b)
    return difference > 0 || (difference === 0 && this.blocks.worth(a) > this.blocks.worth(b))
  }

  push(block: number): void {
    const { heap } = this
    heap.push(block)
    for (let at = heap.length - 1; at > 0; ) {
      const above = (at - 1) >> 1
      if (!this.before(heap[at] as number, heap[above] as number)) return
      this.swap(at, above)
      at = above
    }
  }

  /** @returns -1 when there is none */
  pop(): number {
    const { heap } = this
    const [first] = heap
    const last = heap.pop()
    if (first === undefined || last === undefined) return -1
    if (heap.length === 0) return first
    heap[0] = last
    for (let at = 0; ; ) {
      let below = 2 * at + 1
      if (below >= heap.length) return first
      if (below + 1 < heap.length && this.before(heap[below + 1] as number, heap[below] as number)) below += 1
      if (!this.before(heap[below] as number, heap[at] as number)) return first
      this.swap(at, below)
      at = below
    }
  }

  private swap(a: number, b: number): void {
    const { heap } = this
    const kept = heap[a] as number
    heap[a] = heap[b] as number
    heap[b] = kept
  }
}
