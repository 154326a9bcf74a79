/**
 * Places part balloons around a drawing: where each leader ends on its part, and where its number stands.
 */
import { pointsBox } from '../mark-bounds.ts'
import type { Mark, Point, Rect } from '../types.ts'
import { type BoundedPiece, bounded, cross, type Piece, pieceDistance, pointDistance } from './pieces.ts'

/** A thing to be numbered, and where its leader may end on paper, best first [mm]. */
export interface BalloonTarget {
  readonly key: string
  readonly number: number
  readonly dots: readonly Point[]
}

/** On paper [mm]. */
export interface Balloon {
  readonly key: string
  readonly number: number
  readonly dot: Point
  readonly centre: Point
}

export const balloonRadius = 4 // mm: about twice the lettering, as ISO 6433 has it (from memory)

export const dotRadius = 0.5 // mm

const clearOfLines = 4 // mm between a balloon and the drawing
const pitch = balloonRadius * 2 + 3 // mm between the middles of neighbouring balloons
const step = pitch / 2 // mm between places that are tried

/**
 * Chooses places left and right of the drawing.
 *
 * Formula: starts with the nearest places and changes one balloon or swaps two as long as that lowers the sum of
 * leader lengths, lines that leaders cross, and heavy fines for what must not be. Validity: as many balloons as find
 * room beside the drawing; leaders that cross are uncrossed because crossing ones are longer together.
 * @param targets what is numbered, with possible ends of its leader [mm]
 * @param lines all of the drawing [mm]
 * @returns a balloon for each target, in the same order [mm]
 * @source common practice
 */
export function placeBalloons(
  targets: readonly BalloonTarget[],
  lines: readonly Piece[],
): readonly Balloon[] {
  const places = placesAround(lines)
  const known = lines.map(bounded)
  const choices = targets.map((target) =>
    target.dots
      .flatMap((dot, rank) =>
        places.map((place): Choice => {
          const leader = { a: dot, b: leaderEnd({ dot, centre: place.centre }) }
          const cost = freeCost(leader, place) + rank * rankCost
          return { place, leader, cost, ...reachOf(leader, place) }
        }),
      )
      // Crossed lines only add to the cost and take time to count: what is dear without them is not looked at.
      .sort((p, q) => p.cost - q.cost)
      .slice(0, tried)
      .map((choice) => ({ ...choice, cost: choice.cost + crossedBy(choice.leader, known) * lineCost }))
      .sort((p, q) => p.cost - q.cost),
  )
  // One search may end in a corner, so several start with different balloons first; the best result counts.
  const results = choices.map((_, first) => settled(choices, first))
  const chosen = results.reduce<readonly Choice[]>(
    (a, b) => (totalCost(b) < totalCost(a) ? b : a),
    results[0] ?? [],
  )
  return targets.map(({ key, number }, index) => ({
    key,
    number,
    dot: chosen[index]!.leader.a,
    centre: chosen[index]!.place.centre,
  }))
}

/** Sets one balloon after the other, from `first` on, then changes one or swaps two as long as that helps. */
function settled(choices: readonly (readonly Choice[])[], first: number): readonly Choice[] {
  const chosen: Choice[] = []
  const count = choices.length
  const set: Choice[] = []
  for (let turn = 0; turn < count; turn++) {
    const index = (first + turn) % count
    const best = cheapest(choices[index]!, set)
    chosen[index] = best
    set.push(best)
  }
  // Each round lowers the cost, so it ends; the count only guards against differences in the last digit.
  for (let round = 0; round < 50; round++) {
    let better = false
    for (let index = 0; index < count; index++) {
      const rest = chosen.filter((_, other) => other !== index)
      const best = cheapest(choices[index]!, rest)
      if (costBeside(best, rest) < costBeside(chosen[index]!, rest) - 1e-9) {
        chosen[index] = best
        better = true
      }
    }
    for (let one = 0; one < count; one++)
      for (let two = one + 1; two < count; two++) {
        const [p, q] = [chosen[one]!, chosen[two]!]
        const swapP = at(choices[one]!, q.place)
        const swapQ = at(choices[two]!, p.place)
        if (!swapP || !swapQ) continue
        const rest = chosen.filter((_, index) => index !== one && index !== two)
        const now = costBeside(p, rest) + costBeside(q, [...rest, p])
        if (costBeside(swapP, rest) + costBeside(swapQ, [...rest, swapP]) < now - 1e-9) {
          chosen[one] = swapP
          chosen[two] = swapQ
          better = true
        }
      }
    if (!better) break
  }
  return chosen
}

function costBeside(choice: Choice, rest: readonly Choice[]): number {
  let sum = choice.cost
  for (const other of rest) sum += fine(choice, other)
  return sum
}

const totalCost = (chosen: readonly Choice[]): number =>
  chosen.reduce((sum, choice, index) => sum + costBeside(choice, chosen.slice(0, index)), 0)

/** The end of a leader at its balloon's circle [mm]. */
export function leaderEnd({ dot, centre }: Pick<Balloon, 'dot' | 'centre'>): Point {
  const length = Math.hypot(dot.x - centre.x, dot.y - centre.y)
  const share = balloonRadius / length
  return { x: centre.x + (dot.x - centre.x) * share, y: centre.y + (dot.y - centre.y) * share }
}

interface Place {
  readonly centre: Point
  /** beyond the drawing's own rectangle, where a balloon makes the drawing wider [mm] */
  readonly outside: number
}

interface Choice {
  readonly place: Place
  /** from its dot to the circle [mm] */
  readonly leader: Piece
  readonly cost: number
  /** of leader and centre [mm] */
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

const reachOf = (leader: Piece, { centre }: Place): Omit<BoundedPiece, 'a' | 'b'> => {
  const { left, right, low, high } = bounded(leader)
  return {
    left: Math.min(left, centre.x),
    right: Math.max(right, centre.x),
    low: Math.min(low, centre.y),
    high: Math.max(high, centre.y),
  }
}

const tried = 90 // places for each balloon, the best by themselves

const rankCost = 0.5 // mm of leader that a better end is worth
const lineCost = 2.5 // mm of leader that one crossed line is worth
const widthCost = 3 // mm of leader that a millimetre of width is worth
const forbidden = 1e4 // mm, more than any leader

/** Along both sides, as near to the drawing as its lines at that height allow. */
function placesAround(lines: readonly Piece[]): readonly Place[] {
  const all = around(lines)
  const reach = balloonRadius + clearOfLines
  const count = Math.floor((all.height - 2 * balloonRadius) / step)
  const low = all.y + all.height / 2 - (count * step) / 2
  return Array.from({ length: count + 1 }, (_, index) => low + index * step).flatMap((y): Place[] => {
    const band = lines.flatMap((line) => withinBand(line, y - reach, y + reach))
    if (band.length === 0) return []
    const { x, width } = around(band)
    const left = x - reach
    const right = x + width + reach
    return [
      { centre: { x: left, y }, outside: Math.max(0, all.x - left + balloonRadius) },
      { centre: { x: right, y }, outside: Math.max(0, right + balloonRadius - all.x - all.width) },
    ]
  })
}

const around = (lines: readonly Piece[]): Rect => pointsBox(lines.flatMap(({ a, b }) => [a, b]))

function withinBand({ a, b }: Piece, low: number, high: number): readonly Piece[] {
  const [p, q] = a.y < b.y ? [a, b] : [b, a]
  if (q.y < low || p.y > high) return []
  const at = (y: number): Point =>
    q.y - p.y < 1e-9 ? p : { x: p.x + ((q.x - p.x) * (y - p.y)) / (q.y - p.y), y }
  return [{ a: p.y < low ? at(low) : p, b: q.y > high ? at(high) : q }]
}

function crossedBy(leader: Piece, lines: readonly BoundedPiece[]): number {
  const { left, right, low, high } = bounded(leader)
  let crossed = 0
  for (const line of lines)
    if (
      line.right >= left &&
      line.left <= right &&
      line.high >= low &&
      line.low <= high &&
      cross(leader, line)
    )
      crossed += 1
  return crossed
}

/** What a leader costs by itself, crossed lines left out: its length, and a way that looks like one of the lines. */
function freeCost(leader: Piece, place: Place): number {
  const run = Math.abs(leader.b.x - leader.a.x)
  const rise = leader.b.y - leader.a.y
  const angle = (Math.atan2(Math.abs(rise), run) * 180) / Math.PI
  const alike = Math.min(Math.abs(angle - 30), Math.abs(angle - 90)) < 6 ? 6 : 0
  // Leaders that run straight down along the drawing read badly.
  const steep = angle > 65 ? 8 : 0
  const length = Math.hypot(run, rise)
  const short = length < 4 ? 10 : 0
  return length + alike + steep + short + place.outside * widthCost
}

/** What two balloons cost each other. */
function fine(one: Choice, two: Choice): number {
  // most are too far from each other to be in each other's way at all
  if (Math.max(one.left - two.right, two.left - one.right, one.low - two.high, two.low - one.high) >= pitch)
    return 0
  const [p, q] = [one.place.centre, two.place.centre]
  const crowded = Math.hypot(p.x - q.x, p.y - q.y) < pitch - 1e-6
  const near = pieceDistance(one.leader, two.leader)
  const covers =
    pointDistance(p, two.leader) < balloonRadius + 1 || pointDistance(q, one.leader) < balloonRadius + 1
  return (crowded ? forbidden : 0) + (covers ? forbidden : 0) + (near < 1.5 ? forbidden : near < 3 ? 3 : 0)
}

/** The list has the choices that cost least by themselves first, so it need not be read to its end. */
function cheapest(list: readonly Choice[], rest: readonly Choice[]): Choice {
  let best = list[0]!
  let least = Number.POSITIVE_INFINITY
  for (const choice of list) {
    if (choice.cost >= least) break
    const now = costBeside(choice, rest)
    if (now < least) [best, least] = [choice, now]
  }
  return best
}

/** The best end of a leader for a place, if it is among those that are tried; the list has the best first. */
const at = (list: readonly Choice[], place: Place): Choice | undefined =>
  list.find((choice) => choice.place === place)

/**
 * Lines of a balloon.
 *
 * Formula: circle, leader up to the circle, filled dot at its end. Validity: any place.
 * @param balloon where it stands [mm]
 * @returns marks without the number [mm]
 * @source common practice
 */
export function balloonMarks(balloon: Balloon): readonly Mark[] {
  const { dot, centre } = balloon
  const corners = Array.from({ length: 16 }, (_, index) => (index * Math.PI) / 8)
  return [
    { kind: 'circle', class: 'dimension', centre, radius: balloonRadius },
    { kind: 'line', class: 'dimension', a: dot, b: leaderEnd(balloon) },
    {
      kind: 'arrow',
      points: corners.map((angle) => ({
        x: dot.x + dotRadius * Math.cos(angle),
        y: dot.y + dotRadius * Math.sin(angle),
      })),
    },
  ]
}
