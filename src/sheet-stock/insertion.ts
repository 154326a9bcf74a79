/**
 * Blanks put one after the other into the rests of boards, each rest parted by a cut right through: fast, for any number
 * of boards. What is searched is the order, and the rules by which a rest is chosen and parted.
 */
import { randomSource } from '../numerics/random.ts'
import type { Item } from './whole-units.ts'

/** kerf included [unit] */
export interface Size {
  readonly length: number
  readonly width: number
}

/** One blank in its place, and the rest of a board that it was put into [unit]. */
export interface Placed {
  readonly item: number
  readonly turned: boolean
  readonly board: number
  /** the rest that was parted; the blank lies in its corner */
  readonly rest: {
    readonly along: number
    readonly across: number
    readonly length: number
    readonly width: number
  }
  readonly length: number
  readonly width: number
  /** the cut that goes right through the rest: a crosscut beside the blank, or a rip above it */
  readonly through: 'crosscut' | 'rip'
}

export interface Insertion {
  readonly placed: readonly Placed[]
  /** area of what found no place [unit2] */
  readonly missed: number
  /** less where rests are few and large and saw cuts are few [–] */
  readonly untidiness: number
  /** end of the blank that lies furthest along the first board [unit] */
  readonly reach: number
}

const CHOICES = 3
const PARTINGS = 6

/** An order of blanks with the rules by which they are put down. */
interface Plan {
  readonly order: Int32Array
  choice: number
  parting: number
}

/** What a layout is judged by, the first difference counts: smaller is better. */
interface Score {
  readonly missed: number
  readonly second: number
}

/** Chances of a step that takes a blank elsewhere in the order, and of one that changes a rule; the rest swaps two blanks. */
const MOVES = 0.5
const RULES = 0.05
/** a step may be as bad as what stood this many steps ago */
const MEMORY = 60
/** beginnings that are searched on from */
const BEGINNINGS = 8
const SEED = 8
/** of the squares of all boards; a saw cut less is worth as much of them being left in one piece (common practice) */
const CUT_COSTS = 0.03

/**
 * Looks for a layout on given boards.
 *
 * Formula: beginnings by area, longest side, width and length under every rule; the best are searched on by swaps, moves and
 * changes of rule, and a step counts as good that is no worse than the one sixty steps before. Validity: the same for any
 * order of the input.
 * @param items kerf included [unit]
 * @param boards each to be used once; kerf included [unit]
 * @param looks how often a blank may be held against a rest; one layout at least is tried
 * @param aim 'all': ends as soon as nothing is missing; 'whole': goes on for large rests and few cuts; 'short': for the least reach
 * @returns best layout
 * @source burke-kendall-whitwell, burke-bykov
 */
export function insertBlanks(
  items: readonly Item[],
  boards: readonly Size[],
  looks: number,
  aim: 'all' | 'whole' | 'short',
): Insertion {
  const board = new Inserter(items, boards)
  const random = randomSource(SEED)
  const scoreOf = (): Score => ({
    missed: board.missed,
    second: aim === 'whole' ? board.untidiness : aim === 'short' ? board.reach : 0,
  })
  const better = (a: Score, b: Score): boolean =>
    a.missed < b.missed || (a.missed === b.missed && a.second < b.second)
  const done = (score: Score): boolean => aim === 'all' && score.missed === 0
  let best: { plan: Plan; score: Score } | undefined
  const keep = (plan: Plan, score: Score): void => {
    if (best && !better(score, best.score)) return
    best = { plan: { ...plan, order: plan.order.slice() }, score }
  }
  const layoutOf = (): Insertion => {
    if (best) board.insert(best.plan)
    return board.layout()
  }

  const beginnings: { plan: Plan; score: Score }[] = []
  for (const order of board.orders())
    for (let choice = 0; choice < CHOICES; choice += 1)
      for (let parting = 0; parting < PARTINGS; parting += 1) {
        const plan: Plan = { order: order.slice(), choice, parting }
        board.insert(plan)
        const score = scoreOf()
        keep(plan, score)
        if (done(score) || board.looks > looks) return layoutOf()
        beginnings.push({ plan, score })
      }
  beginnings.sort((a, b) => (better(a.score, b.score) ? -1 : better(b.score, a.score) ? 1 : 0))
  const chosen = beginnings.slice(0, BEGINNINGS)
  const each = (looks - board.looks) / chosen.length
  for (const { plan, score } of chosen) {
    const end = board.looks + each
    const { order } = plan
    const blanks = order.length
    if (blanks < 2) break
    const before = new Int32Array(blanks)
    const memory: Score[] = Array.from({ length: MEMORY }, () => score)
    let now = score
    for (let step = 0; board.looks < end; step += 1) {
      const [from, to] = [Math.floor(random() * blanks), Math.floor(random() * blanks)]
      const kind = random()
      const { choice, parting } = plan
      before.set(order)
      const moved = order[from] as number
      if (kind < MOVES) {
        order[from] = order[to] as number
      } else if (from < to) {
        order.copyWithin(from, from + 1, to + 1)
      } else {
        order.copyWithin(to + 1, to, from)
      }
      order[to] = moved
      if (kind > 1 - RULES) {
        if (random() < 0.5) plan.choice = Math.floor(random() * CHOICES)
        else plan.parting = Math.floor(random() * PARTINGS)
      }
      board.insert(plan)
      const next = scoreOf()
      const then = memory[step % MEMORY] as Score
      if (!better(now, next) || !better(then, next)) {
        now = next
        keep(plan, next)
        if (done(next)) return layoutOf()
      } else {
        order.set(before)
        plan.choice = choice
        plan.parting = parting
      }
      memory[step % MEMORY] = now
    }
  }
  return layoutOf()
}

/** Puts blanks down by a plan; flat arrays, since it does so tens of thousands of times. */
class Inserter {
  missed = 0
  untidiness = 0
  reach = 0
  looks = 0
  /** rests that nothing lies in */
  private rests = 0
  private readonly rest: Float64Array
  private readonly restBoard: Int32Array
  /** of the single blanks */
  private readonly item: Int32Array
  private readonly length: Float64Array
  private readonly width: Float64Array
  private readonly turns: Uint8Array
  private readonly boards: readonly Size[]
  /** squares of the whole boards [unit4] */
  private readonly most: number
  /** what was put down, in its order: blank, turned, board, through; along, across, length, width of the rest */
  private placedCount = 0
  private readonly placedWhat: Int32Array
  private readonly placedRest: Float64Array

  constructor(items: readonly Item[], boards: readonly Size[]) {
    const single = items.flatMap((item, index) => Array.from({ length: item.count }, () => ({ item, index })))
    this.boards = boards
    this.most = boards.reduce((sum, { length, width }) => sum + (length * width) ** 2, 0)
    this.item = Int32Array.from(single, ({ index }) => index)
    this.length = Float64Array.from(single, ({ item }) => item.length)
    this.width = Float64Array.from(single, ({ item }) => item.width)
    this.turns = Uint8Array.from(single, ({ item }) => (item.turns && item.length !== item.width ? 1 : 0))
    const most = single.length + boards.length + 1
    this.rest = new Float64Array(most * 4)
    this.restBoard = new Int32Array(most)
    this.placedWhat = new Int32Array(single.length * 4)
    this.placedRest = new Float64Array(single.length * 4)
  }

  orders(): readonly Int32Array[] {
    const { length, width } = this
    const by = (size: (blank: number) => number): Int32Array =>
      Int32Array.from([...this.item.keys()].sort((a, b) => size(b) - size(a) || a - b))
    const of = (sizes: Float64Array, blank: number): number => sizes[blank] as number
    return [
      by((blank) => of(length, blank) * of(width, blank)),
      by((blank) => Math.max(of(length, blank), of(width, blank))),
      by((blank) => of(width, blank)),
      by((blank) => of(length, blank)),
    ]
  }

  insert({ order, choice, parting }: Plan): void {
    const { rest, restBoard, length, width, turns } = this
    this.missed = 0
    this.reach = 0
    let cuts = 0
    this.placedCount = 0
    this.rests = 0
    for (const [board, size] of this.boards.entries()) this.open(board, 0, 0, size.length, size.width)
    for (const blank of order) {
      let [least, then, chosen, turned] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, -1, 0]
      for (let turn = 0; turn <= (turns[blank] as number); turn += 1) {
        const long = (turn === 0 ? length[blank] : width[blank]) as number
        const wide = (turn === 0 ? width[blank] : length[blank]) as number
        this.looks += this.rests + 1
        for (let at = 0; at < this.rests; at += 1) {
          const beside = (rest[at * 4 + 2] as number) - long
          const above = (rest[at * 4 + 3] as number) - wide
          if (beside < 0 || above < 0) continue
          const tight = Math.min(beside, above)
          let first = tight
          let second = Math.max(beside, above)
          if (choice === 1) {
            first = (rest[at * 4 + 2] as number) * (rest[at * 4 + 3] as number)
            second = tight
          } else if (choice === 2) {
            first = rest[at * 4] as number
            second = tight
          }
          if (first > least || (first === least && second >= then)) continue
          ;[least, then, chosen, turned] = [first, second, at, turn]
        }
      }
      if (chosen < 0) {
        this.missed += (length[blank] as number) * (width[blank] as number)
        continue
      }
      const long = (turned === 0 ? length[blank] : width[blank]) as number
      const wide = (turned === 0 ? width[blank] : length[blank]) as number
      const along = rest[chosen * 4] as number
      const across = rest[chosen * 4 + 1] as number
      const restLength = rest[chosen * 4 + 2] as number
      const restWidth = rest[chosen * 4 + 3] as number
      const board = restBoard[chosen] as number
      const crosscut = partsByCrosscut(parting, restLength, restWidth, long, wide)
      this.note(blank, turned, board, crosscut, chosen)
      if (along + long > this.reach) this.reach = along + long
      this.rests -= 1
      rest.copyWithin(chosen * 4, this.rests * 4, this.rests * 4 + 4)
      restBoard[chosen] = restBoard[this.rests] as number
      const [beside, above] = [restLength - long, restWidth - wide]
      cuts += (beside > 0 ? 1 : 0) + (above > 0 ? 1 : 0)
      if (beside > 0) this.open(board, along + long, across, beside, crosscut ? restWidth : wide)
      if (above > 0) this.open(board, along, across + wide, crosscut ? long : restLength, above)
    }
    let whole = 0
    for (let at = 0; at < this.rests; at += 1)
      whole += ((rest[at * 4 + 2] as number) * (rest[at * 4 + 3] as number)) ** 2
    this.untidiness = CUT_COSTS * cuts - whole / this.most
  }

  layout(): Insertion {
    const placed = Array.from({ length: this.placedCount }, (_, at): Placed => {
      const [blank, turned, board, crosscut] = this.placedWhat.subarray(
        at * 4,
        at * 4 + 4,
      ) as unknown as number[]
      const [along, across, length, width] = this.placedRest.subarray(
        at * 4,
        at * 4 + 4,
      ) as unknown as number[]
      const [long, wide] = [this.length[blank as number] as number, this.width[blank as number] as number]
      return {
        item: this.item[blank as number] as number,
        turned: turned === 1,
        board: board as number,
        rest: {
          along: along as number,
          across: across as number,
          length: length as number,
          width: width as number,
        },
        length: turned === 1 ? wide : long,
        width: turned === 1 ? long : wide,
        through: crosscut === 1 ? 'crosscut' : 'rip',
      }
    })
    return { placed, missed: this.missed, untidiness: this.untidiness, reach: this.reach }
  }

  private open(board: number, along: number, across: number, length: number, width: number): void {
    const at = this.rests * 4
    this.rest[at] = along
    this.rest[at + 1] = across
    this.rest[at + 2] = length
    this.rest[at + 3] = width
    this.restBoard[this.rests] = board
    this.rests += 1
  }

  private note(blank: number, turned: number, board: number, crosscut: boolean, rest: number): void {
    const at = this.placedCount * 4
    this.placedWhat[at] = blank
    this.placedWhat[at + 1] = turned
    this.placedWhat[at + 2] = board
    this.placedWhat[at + 3] = crosscut ? 1 : 0
    for (let part = 0; part < 4; part += 1) this.placedRest[at + part] = this.rest[rest * 4 + part] as number
    this.placedCount += 1
  }
}

/** Which way a rest is parted beside its blank. */
function partsByCrosscut(
  parting: number,
  length: number,
  width: number,
  long: number,
  wide: number,
): boolean {
  const [beside, above] = [length - long, width - wide]
  switch (parting) {
    case 0:
      return beside > above
    case 1:
      return beside <= above
    case 2:
      return beside * width > above * length
    case 3:
      return true
    case 4:
      return false
    default:
      return long * above < beside * wide
  }
}
