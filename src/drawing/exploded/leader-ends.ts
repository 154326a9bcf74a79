/**
 * Where on its part a leader may end: places that the viewer sees, away from lines.
 */
import type { Vec3 } from '../../geometry/placement.ts'
import { pointsBox } from '../mark-bounds.ts'
import type { Scene } from '../scene.ts'
import type { Point } from '../types.ts'
import { type BoundedPiece, bounded, type Piece, pointDistance } from './pieces.ts'
import { acrossAxis, isometric, isSeen, type Shadow } from './shadows.ts'

/** A visible place on a part, and on paper. */
export interface LeaderEnd {
  /** in the assembly frame [m] */
  readonly point: Vec3
  /** [mm] */
  readonly paper: Point
}

export interface LeaderEndRequest {
  /** visible places on the part [m] */
  readonly seen: readonly Vec3[]
  readonly toPaper: (point: Point) => Point
  /** of the drawing [mm] */
  readonly lines: readonly Piece[]
}

const enough = 2.5 // mm from the next line: more is not clearer
const most = 8 // places to choose from

/**
 * Places for the end of a leader.
 *
 * Formula: those farthest from lines first. Validity: none when the part is hidden as a whole.
 * @param request visible places and lines of the drawing
 * @returns eight places at most, best first
 * @source common practice
 */
export function leaderEnds({ seen, toPaper, lines }: LeaderEndRequest): readonly LeaderEnd[] {
  const ends = seen.map((point) => ({ point, paper: toPaper(isometric(point)) }))
  const near = linesNear(
    ends.map(({ paper }) => paper),
    lines,
  )
  const ranked = ends
    .map((end) => ({ ...end, room: roomAt(end.paper, near) }))
    .sort((p, q) => q.room - p.room)
  const good = ranked.filter(({ room }) => room >= Math.min(enough, ranked[0]!.room) * 0.8)
  const stride = Math.max(1, good.length / most)
  return Array.from({ length: Math.min(most, good.length) }, (_, index) => good[Math.floor(index * stride)]!)
}

/**
 * Visible places on a part.
 *
 * Formula: a grid on every face that looks at the viewer, without what is hidden. Validity: the largest boxes of a part.
 * @param scene that the part is in [m]
 * @param shadows of all that may hide it
 * @param key of the part
 * @returns places in the assembly frame [m]
 * @source common practice
 */
export const seenPlaces = (scene: Scene, shadows: readonly Shadow[], key: string): readonly Vec3[] =>
  surfacePoints(scene, key).filter((point) => isSeen(shadows, point))

/** Lines that may be near enough to one of these places to matter [mm]. */
function linesNear(papers: readonly Point[], lines: readonly Piece[]): readonly BoundedPiece[] {
  if (papers.length === 0) return []
  const { x, y, width, height } = pointsBox(papers)
  const far = enough + 1
  return lines
    .map(bounded)
    .filter(
      ({ left, right, low, high }) =>
        left <= x + width + far && right >= x - far && low <= y + height + far && high >= y - far,
    )
}

/** Distance to the nearest line, as far as it matters [mm]. */
function roomAt(paper: Point, lines: readonly BoundedPiece[]): number {
  let least = enough
  for (const line of lines) {
    if (
      line.left > paper.x + least ||
      line.right < paper.x - least ||
      line.low > paper.y + least ||
      line.high < paper.y - least
    )
      continue
    least = Math.min(least, pointDistance(paper, line))
  }
  return least
}

const shares = [1 / 12, 3 / 12, 5 / 12, 7 / 12, 9 / 12, 11 / 12]

/** A grooved part falls into dozens of boxes; a few of the largest have room enough for a dot. */
const boxesLooked = 4

const largest = (boxes: Scene['boxes']): Scene['boxes'] => {
  const size = ({ min, max }: Scene['boxes'][number]) =>
    (max.x - min.x) * (max.y - min.y) + (max.z - min.z) * (max.x - min.x + max.y - min.y)
  return [...boxes].sort((a, b) => size(b) - size(a)).slice(0, boxesLooked)
}

/** Points on the faces that look at the viewer: front, right and top. */
function surfacePoints(scene: Scene, key: string): readonly Vec3[] {
  const own = <T extends { readonly key: string }>(list: readonly T[]) =>
    list.filter((one) => one.key === key)
  return [
    ...largest(own(scene.boxes)).flatMap(({ min, max }) => {
      const along = (axis: keyof Vec3, share: number) => min[axis] + (max[axis] - min[axis]) * share
      return shares.flatMap((p) =>
        shares.flatMap((q): Vec3[] => [
          { x: along('x', p), y: min.y, z: along('z', q) },
          { x: max.x, y: along('y', p), z: along('z', q) },
          { x: along('x', p), y: along('y', q), z: max.z },
        ]),
      )
    }),
    ...own(scene.rounds).flatMap((round) => {
      // Rods along their upper line; what is short on the end that looks at the viewer, between its hole and its rim.
      const end = round.axis === 'y' ? round.from : round.to
      const [x, z] = round.centre
      const slender = round.to - round.from > 4 * round.diameter
      const hole = scene.bores.find((bore) => bore.key === key)?.diameter ?? 0
      const radius = (round.diameter + hole) / 4
      if (slender) return shares.map((share) => rodTop(round, share))
      return [0, 1, 2, 3].map((quarter) => {
        const angle = (quarter * Math.PI) / 2 + Math.PI / 4
        return acrossAxis(round, [x + radius * Math.cos(angle), z + radius * Math.sin(angle)], end)
      })
    }),
  ]
}

/** On the line of a rod that is nearest to the viewer, just above its polygon of 36 sides. */
function rodTop(round: Scene['rounds'][number], share: number): Vec3 {
  const half = (round.diameter / 2) * Math.SQRT1_2
  const [p, q] = round.centre
  return acrossAxis(round, [p + half, q + half], round.from + (round.to - round.from) * share)
}
