/** What a build costs: boards, hardware, hours; what has no price is named and left to be written in. */
import { COATS, waitingDays } from '../fixtures/finish.ts'
import { type Offer, type Pieces, packsFor } from '../quote/packs.ts'
import { type QuoteLine, type QuoteTotal, totalOf } from '../quote/total.ts'
import {
  costOf,
  halfHours,
  type Span,
  timeOf,
  USUAL_TIMES,
  type Work,
  type WorkKind,
  type WorkTimes,
} from '../quote/work.ts'
import type { Content } from '../schema/content.ts'
import type { HardwareKind } from '../schema/materials.ts'
import type { BuildMaterial, UsedBoard } from './bind-build.ts'
import type { BuildItem, HardwareNeed } from './build-items.ts'
import type { Sawing } from './plan-sawing.ts'

/** Boards of one size and material. */
export interface BoardLine extends UsedBoard {
  readonly key: string
  readonly material: string
  readonly name: string
  /** sawn from them */
  readonly parts: number
  /** of all of them, in the smallest coin; nothing where it is not known */
  readonly cost: number | undefined
}

/** Hardware of one kind. */
export interface HardwareLine {
  readonly kind: HardwareKind
  /** as the shop that sells it calls it */
  readonly name: string | undefined
  /** pieces, with the spare ones */
  readonly count: number
  /** lengths that are cut, in all [m]; weight [kg]: of what is measured so */
  readonly length: number | undefined
  readonly mass: number | undefined
  /** pieces in a pack, packs to buy, price of one in the smallest coin; nothing where it has no price */
  readonly offer: { readonly pack: number; readonly packs: number; readonly price: number } | undefined
  readonly cost: number | undefined
}

/** Work on one thing, as often as it is made. */
export interface WorkLine {
  readonly item: BuildItem
  readonly work: Work
  /** [s] */
  readonly time: Span
  /** [0.5 h] */
  readonly halves: Span
  /** in the smallest coin, where there is a rate */
  readonly cost: Span | undefined
}

export interface BoundQuote {
  /** three letters; nothing where the shop has said none */
  readonly currency: string | undefined
  readonly boards: readonly BoardLine[]
  readonly hardware: readonly HardwareLine[]
  readonly work: readonly WorkLine[]
  /** for an hour, in the smallest coin */
  readonly rate: number | undefined
  /** [0.5 h] */
  readonly halves: Span
  readonly total: QuoteTotal
  /** in which glue and finish harden [days] */
  readonly waiting: number
  /** of finish, that epoxy is reckoned for */
  readonly coats: number
  /** kinds of work whose minutes are the shop's own */
  readonly timed: readonly WorkKind[]
}

/**
 * The quote of a build.
 *
 * @param content   for prices, rates and minutes
 * @param items     what is made
 * @param materials what is sawn for it
 */
export function bindQuote(
  content: Content,
  items: readonly BuildItem[],
  materials: readonly BuildMaterial[],
  sawing: Sawing | undefined,
): BoundQuote {
  const { friend = {}, currency } = content.shop.value
  const rate = friend['hourly-rate']?.minor
  const boards = materials.flatMap((material) => boardLines(material, sawing))
  const hardware = hardwareLines(content, items)
  const own = friend.minutes ?? {}
  const times: WorkTimes = {
    ...USUAL_TIMES,
    ...Object.fromEntries(
      Object.entries(own).flatMap(([kind, time]) =>
        time === undefined ? [] : [[kind, { low: time, high: time }]],
      ),
    ),
  }
  const cuts = cutsByItem(items, materials, sawing)
  const work = items.map((item, index): WorkLine => {
    const all = timesMade(item, cuts[index] ?? 0)
    const time = timeOf(all, times)
    const halves = halfHours(time)
    return { item, work: all, time, halves, cost: rate === undefined ? undefined : costOf(halves, rate) }
  })
  const single = (cost: number | undefined): Span | undefined =>
    cost === undefined ? undefined : { low: cost, high: cost }
  const lines: readonly QuoteLine[] = [
    ...boards.map(({ key, cost }) => ({ key, cost: single(cost) })),
    ...hardware.map(({ kind, cost }) => ({ key: kind, cost: single(cost) })),
    ...work.map(({ item, cost }) => ({ key: `${item.fixture}/${item.piece}`, cost })),
  ]
  return {
    currency,
    boards,
    hardware,
    work,
    rate,
    halves: {
      low: work.reduce((sum, { halves }) => sum + halves.low, 0),
      high: work.reduce((sum, { halves }) => sum + halves.high, 0),
    },
    total: totalOf(lines),
    waiting: waitingDays(),
    coats: COATS,
    timed: (Object.keys(own) as WorkKind[]).filter((kind) => own[kind] !== undefined),
  }
}

const boardLines = ({ material, name, used }: BuildMaterial, sawing: Sawing | undefined): BoardLine[] =>
  used.map(({ board, count }) => ({
    key: `${material}/${board.key}`,
    material,
    name,
    board,
    count,
    parts: (sawing?.materials.find(({ panel }) => panel.material === material)?.boards ?? [])
      .filter(({ stock }) => stock.key === board.key)
      .reduce(
        (sum, { numbers, plan }) =>
          sum + numbers.length * plan.pieces.filter(({ kind }) => kind === 'blank').length,
        0,
      ),
    cost: board.from === 'shop' ? 0 : board.price === undefined ? undefined : board.price * count,
  }))

/** Cuts of a board are shared among its blanks: each piece of one is freed by as many as another. */
const cutsByItem = (
  items: readonly BuildItem[],
  materials: readonly BuildMaterial[],
  sawing: Sawing | undefined,
): readonly number[] =>
  items.map(({ fixture, piece }) =>
    materials.reduce((sum, { material, blanks }) => {
      const sawn = sawing?.materials.find(({ panel }) => panel.material === material)
      const cuts = (sawn?.boards ?? []).reduce(
        (total, { plan, numbers }) => total + plan.cuts.length * numbers.length,
        0,
      )
      const all = blanks.reduce((total, { count }) => total + count, 0)
      const own = blanks
        .filter((blank) => blank.fixture === fixture && blank.piece === piece)
        .reduce((total, { count }) => total + count, 0)
      return sum + (all > 0 ? (cuts * own) / all : 0)
    }, 0),
  )

/** Of several like things the saw and the jigs are set once. */
const timesMade = ({ work, count }: BuildItem, cuts: number): Work => {
  const all = Object.fromEntries(
    Object.entries(work).map(([kind, often]) => [kind, kind === 'set-up' ? often : often * count]),
  ) as Record<WorkKind, number>
  return { ...all, 'saw-cut': all['saw-cut'] + cuts }
}

/** Things of which one is enough, whatever is made. */
const ONE_IS_ENOUGH: ReadonlySet<HardwareKind> = new Set(['wood-glue', 'clamp'])

const hardwareLines = (content: Content, items: readonly BuildItem[]): HardwareLine[] => {
  const needs = items.flatMap(({ hardware, count }) =>
    hardware.map((need) => ({
      ...need,
      count: need.count * count,
      ...(need.mass === undefined ? {} : { mass: need.mass * count }),
    })),
  )
  const kinds = [...new Set(needs.map(({ kind }) => kind))]
  return kinds.map((kind) => {
    const own = needs.filter((need) => need.kind === kind)
    const entry = content.hardware.get(kind)?.value
    const count = own.reduce((sum, one) => sum + one.count, 0)
    const mass = own.some((one) => one.mass !== undefined)
      ? own.reduce((sum, one) => sum + (one.mass ?? 0), 0)
      : undefined
    const cut = own.filter(({ length }) => length !== undefined)
    const length =
      kind === 'rod-stock' || cut.length === 0
        ? undefined
        : cut.reduce((sum, one) => sum + one.count * (one.length ?? 0), 0)
    const enough = ONE_IS_ENOUGH.has(kind) ? Math.max(...own.map((one) => one.count)) : count
    const packs = entry && packsOf(own, kind, enough, mass, entry)
    const offer =
      entry && packs !== undefined ? { pack: entry.pack ?? 1, packs, price: entry.price.minor } : undefined
    return {
      kind,
      name: entry?.name,
      count: enough,
      length,
      mass,
      offer,
      cost: offer && offer.packs * offer.price,
    }
  })
}

/** Pieces of two sizes do not come out of one box, and thin wire not off a coil of thick. */
const packsOf = (
  needs: readonly HardwareNeed[],
  kind: HardwareKind,
  enough: number,
  mass: number | undefined,
  offer: Offer,
): number | undefined => {
  if (mass !== undefined) return packsFor([], mass, offer)
  if (ONE_IS_ENOUGH.has(kind)) return packsFor([{ count: enough }], undefined, offer)
  const sizes = new Map<string, Pieces[]>()
  for (const { size, count, length } of needs) {
    const same = sizes.get(size) ?? []
    // what is counted comes out of one box, whatever it is for
    const before = same.find((one) => one.length === length)
    const rest = same.filter((one) => one !== before)
    sizes.set(size, [
      ...rest,
      { count: count + (before?.count ?? 0), ...(length === undefined ? {} : { length }) },
    ])
  }
  let sum = 0
  for (const pieces of sizes.values()) {
    const packs = packsFor(pieces, undefined, offer)
    if (packs === undefined) return undefined
    sum += packs
  }
  return sum
}
