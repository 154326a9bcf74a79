/** Rails that the wires are strung between: they bow inwards, and every wire that is tuned slackens its neighbours. */
import type { Finding } from '../findings.ts'
import { solveLinear } from '../numerics/linear.ts'
import type { Rail, RailSection } from './rail-section.ts'

/** How the joints hold a rail: real ones lie between the two. */
export type RailEnds = 'pinned' | 'fixed'

/**
 * How much a rail gives at each wire for a newton at each: row i, column j is the bow at i by a pull at j.
 *
 *     beam elements between wires and changes of section, exact for pulls at their ends:
 *     k = E I / (l³ (1 + φ)) · [12, 6 l, (4 + φ) l², (2 − φ) l²],   φ = 12 E I / (G A_s l²)
 *
 * @param rail   length [m], E I [N m2] and G A_s [N] of its sections, all > 0
 * @param places of the wires from one joint [m], rising, inside of the rail
 * @param ends   how the joints hold it
 * @returns give [m/N], symmetric
 * @throws RangeError when a place is outside of the rail or two are the same, or a part of the rail has no section
 * @source przemieniecki
 */
export function railGive(rail: Rail, places: readonly number[], ends: RailEnds): number[][] {
  for (const [index, place] of [...places, rail.length].entries())
    if (!(place > (places[index - 1] ?? 0))) throw new RangeError('wires not in order along the rail')
  const changes = rail.sections.map(({ to }) => to).filter((to) => to > 0 && to < rail.length)
  const nodes = [...new Set([0, ...places, ...changes, rail.length])].sort((a, b) => a - b)
  const nodeOf = places.map((place) => nodes.indexOf(place))
  const size = 2 * nodes.length
  const stiffness = Array.from({ length: size }, () => new Array<number>(size).fill(0))
  for (let index = 0; index + 1 < nodes.length; index += 1) {
    const l = nodes[index + 1]! - nodes[index]!
    const { bending, shear } = sectionAt(rail, nodes[index]! + l / 2)
    const phi = (12 * bending) / (shear * l ** 2)
    const unit = bending / (l ** 3 * (1 + phi))
    const near = (4 + phi) * l ** 2
    const far = (2 - phi) * l ** 2
    const element = [
      [12, 6 * l, -12, 6 * l],
      [6 * l, near, -6 * l, far],
      [-12, -6 * l, 12, -6 * l],
      [6 * l, far, -6 * l, near],
    ]
    for (const [i, row] of element.entries())
      for (const [j, value] of row.entries()) stiffness[2 * index + i]![2 * index + j]! += unit * value
  }
  const held = ends === 'fixed' ? [0, 1, size - 2, size - 1] : [0, size - 2]
  const free = Array.from({ length: size }, (_, index) => index).filter((index) => !held.includes(index))
  const reduced = free.map((i) => free.map((j) => stiffness[i]![j]!))
  const columns = nodeOf.map((wire) => {
    const moved = solveLinear(
      reduced,
      free.map((index) => (index === 2 * wire ? 1 : 0)),
    )
    return nodeOf.map((at) => moved[free.indexOf(2 * at)]!)
  })
  return places.map((_, i) => columns.map((column) => column[i]!))
}

const sectionAt = ({ sections }: Rail, place: number): RailSection => {
  const found = sections.find(({ to }) => place < to)
  if (!found) throw new RangeError('a part of the rail has no section')
  return found
}

/** A set of wires between two like rails. */
export interface WireSet {
  readonly rail: Rail
  /** along the rail from one joint [m] */
  readonly places: readonly number[]
  /** of each wire from pin to pin [m], E A [N], tuned [N] */
  readonly length: number
  readonly axialStiffness: number
  readonly tension: number
}

export interface RailBow {
  /** of one rail at each wire when all are tuned [m] */
  readonly bow: readonly number[]
  /** of one rail at its worst wire [m] */
  readonly most: number
  /** stretch of a wire by its tension [m], and how much of it both rails together take, at worst [–] */
  readonly stretch: number
  readonly share: number
}

/** Share of a wire's stretch that the rails may take: worth a word, and too much (common practice). */
const BOW_SHARE = { said: 0.1, most: 0.15 } as const

/**
 * Bow of the rails under all wires, with joints that hold them and with joints that let them turn.
 *
 *     bow_i = Σ give_ij T;   stretch = T L/EA;   share = 2 bow/stretch
 *
 * Too limber is a rail that even held at its joints takes more than 15 % of a wire's stretch: then tuning goes round and
 * round, and each wire that is loaded slackens the rest.
 *
 * @param set rail, places [m], length [m], E A [N], tension [N]
 * @returns both bounds, and what there is to say of them
 * @throws RangeError as `railGive`
 * @source przemieniecki, common practice
 */
export function railBow(set: WireSet): {
  readonly pinned: RailBow
  readonly fixed: RailBow
  readonly findings: readonly Finding[]
} {
  const stretch = (set.tension * set.length) / set.axialStiffness
  const bowOf = (ends: RailEnds): RailBow => {
    const bow = railGive(set.rail, set.places, ends).map((row) =>
      row.reduce((sum, give) => sum + give * set.tension, 0),
    )
    const most = Math.max(0, ...bow)
    return { bow, most, stretch, share: (2 * most) / stretch }
  }
  const pinned = bowOf('pinned')
  const fixed = bowOf('fixed')
  const findings: Finding[] = []
  if (fixed.share > BOW_SHARE.most)
    findings.push({
      code: 'rail-too-limber',
      severity: 'stop',
      values: { bowShare: fixed.share, bowAllowed: BOW_SHARE.most, bow: fixed.most, stretch },
    })
  else if (pinned.share > BOW_SHARE.said)
    findings.push({
      code: 'rail-bow-slackens-wires',
      severity: 'warn',
      values: { bowShare: fixed.share, bowPinned: pinned.share, bow: pinned.most, stretch },
    })
  return { pinned, fixed, findings }
}

/**
 * How much the pins of a wire come together for each newton more in all wires of the rail: what `loadWire` asks for, since
 * all of them lie in soap at once.
 *
 *     give = 2 · largest Σ give_ij
 *
 * @param set  rail and places [m]
 * @param ends how the joints hold the rails
 * @returns give of both rails [m/N], of the wire that feels it most
 * @throws RangeError as `railGive`
 * @source przemieniecki
 */
export const pinGive = (set: Pick<WireSet, 'rail' | 'places'>, ends: RailEnds): number =>
  2 *
  Math.max(0, ...railGive(set.rail, set.places, ends).map((row) => row.reduce((sum, give) => sum + give, 0)))

export interface TuningPass {
  /** of every wire after the pass [N] */
  readonly tensions: readonly number[]
  /** farthest from the target [share of it] */
  readonly worst: number
}

export interface Tuning {
  readonly passes: readonly TuningPass[]
  /** after how many passes all are within the wanted share; undefined when none of them did */
  readonly needed: number | undefined
}

/** How close wires are brought to their target [share] (common practice). */
const TUNED = 0.03
/** Passes that are simulated before it is given up. */
const MOST_PASSES = 20

/**
 * Tunes wires one after the other to one tension, again and again, on rails that give.
 *
 *     stretch: u_i = T_i L/EA + Σ 2 give_ij T_j, u what the peg has taken up, T_i = 0 where that leaves it slack
 *     to tune wire k: u_k so that T_k is the target, all other u as they are
 *
 * @param set    rail, places [m], length [m], E A [N], tension wanted [N]
 * @param ends   how the joints hold the rails
 * @param order  of the wires, each once
 * @param within share of the target that all shall be in
 * @returns tensions after each pass, as far as the one that suffices
 * @throws RangeError as `railGive`
 * @source przemieniecki, common practice
 */
export function tuneInPasses(
  set: WireSet,
  ends: RailEnds,
  order: readonly number[],
  within: number = TUNED,
): Tuning {
  const give = railGive(set.rail, set.places, ends).map((row) => row.map((value) => 2 * value))
  const own = set.length / set.axialStiffness
  const count = set.places.length
  const takenUp = new Array<number>(count).fill(0)
  const tensions = new Array<number>(count).fill(0)
  const passes: TuningPass[] = []
  for (let pass = 0; pass < MOST_PASSES; pass += 1) {
    for (const wire of order) {
      settle(tensions, takenUp, give, own, { wire, tension: set.tension })
      takenUp[wire] =
        own * set.tension + tensions.reduce((sum, tension, j) => sum + give[wire]![j]! * tension, 0)
    }
    const worst = Math.max(...tensions.map((tension) => Math.abs(tension / set.tension - 1)))
    passes.push({ tensions: [...tensions], worst })
    if (worst <= within) return { passes, needed: passes.length }
  }
  return { passes, needed: undefined }
}

/** Brings all wires but the one in hand into balance with the rails, in place; a wire cannot push. */
function settle(
  tensions: number[],
  takenUp: readonly number[],
  give: readonly (readonly number[])[],
  own: number,
  inHand: { readonly wire: number; readonly tension: number },
): void {
  tensions[inHand.wire] = inHand.tension
  const enough = inHand.tension * 1e-12
  // the matrix is symmetric and positive: going round settles it, slack wires or not
  for (let round = 0; round < 10000; round += 1) {
    let moved = 0
    for (let i = 0; i < tensions.length; i += 1) {
      if (i === inHand.wire) continue
      let others = 0
      for (let j = 0; j < tensions.length; j += 1) if (j !== i) others += give[i]![j]! * tensions[j]!
      const next = Math.max(0, (takenUp[i]! - others) / (own + give[i]![i]!))
      moved = Math.max(moved, Math.abs(next - tensions[i]!))
      tensions[i] = next
    }
    if (moved <= enough) return
  }
}

/** Orders in which wires are tuned. */
export type TuningOrder = 'along' | 'middle-out' | 'ends-in'

/**
 * The wires in the order in which they are tuned.
 *
 *     along: 0 1 2 3;   middle-out: 1 2 0 3;   ends-in: 0 3 1 2
 *
 * @param order how
 * @param count of wires
 * @returns indices along the rail, each once
 * @source common practice
 */
export function tuningOrder(order: TuningOrder, count: number): number[] {
  const along = Array.from({ length: count }, (_, index) => index)
  if (order === 'along') return along
  const middle = (count - 1) / 2
  const inward = along.sort((a, b) => Math.abs(b - middle) - Math.abs(a - middle) || a - b)
  if (order === 'ends-in') return inward
  return inward.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle) || a - b)
}

/**
 * The order that needs the fewest passes; of like ones that which comes nearest in its first.
 *
 * @param set  as in `tuneInPasses`
 * @param ends how the joints hold the rails
 * @returns order and its passes
 * @throws RangeError as `railGive`
 * @source common practice
 */
export function bestTuning(
  set: WireSet,
  ends: RailEnds,
): { readonly order: TuningOrder; readonly wires: readonly number[] } & Tuning {
  const tried = (['along', 'middle-out', 'ends-in'] as const).map((order) => {
    const wires = tuningOrder(order, set.places.length)
    return { order, wires, ...tuneInPasses(set, ends, wires) }
  })
  const passes = (tuning: Tuning): number => tuning.needed ?? Infinity
  const first = (tuning: Tuning): number => tuning.passes[0]?.worst ?? 0
  return tried.reduce((best, one) => {
    if (passes(one) !== passes(best)) return passes(one) < passes(best) ? one : best
    return first(one) < first(best) - 1e-12 ? one : best
  })
}
