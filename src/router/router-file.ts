/**
 * What a router cuts of a part, as plain shapes on named layers: one file for each time that the part lies on the machine.
 *
 * Millimetres, seen from above as the part lies: x to the right, y away from the reader, its lower left corner at 0, 0.
 */
import { cellGrid, channelBox } from '../geometry/cells.ts'
import {
  type Face,
  type Feature,
  type Hole,
  isChannel,
  isFold,
  isHole,
  isNotch,
  isScribe,
  type Part,
} from '../geometry/part.ts'

/** mm */
export interface RouterPoint {
  readonly x: number
  readonly y: number
}

export type RouterShape =
  | { readonly kind: 'closed'; readonly points: readonly RouterPoint[] }
  | { readonly kind: 'circle'; readonly centre: RouterPoint; readonly radius: number }
  | { readonly kind: 'line'; readonly from: RouterPoint; readonly to: RouterPoint }

/** What is done on a layer; the last two only show where the part and its holes are when it lies there again. */
export type RouterWork =
  | 'hole'
  | 'recess'
  | 'dado'
  | 'groove'
  | 'rebate'
  | 'scribe'
  | 'fold'
  | 'outline'
  | 'done-outline'
  | 'done-hole'

export interface RouterLayer {
  /** says the work, the face it is done on, a diameter and the depth: `DADO_UPPER_6P35MM` */
  readonly name: string
  readonly work: RouterWork
  /** below the face that lies up; 0 where nothing is cut [mm] */
  readonly depth: number
  /** no thicker cutter goes in; nothing where all of it is open at a side [mm] */
  readonly opening: number | undefined
  /** of a step that is open at a side, the narrowest of them [mm] */
  readonly step?: number
  readonly shapes: readonly RouterShape[]
}

export interface RouterFile {
  /** of the file, without its ending: the part's name, and what tells a second set-up apart */
  readonly name: string
  /** of the part that lies up */
  readonly face: Face
  /** first or second time on the machine, of how many */
  readonly setUp: 1 | 2
  readonly setUps: 1 | 2
  /** as it lies [mm] */
  readonly length: number
  readonly width: number
  readonly thickness: number
  /** in the order in which they are cut */
  readonly layers: readonly RouterLayer[]
}

const MM = 1000
/** mm; far below any machine's step, far above what sums of metres leave over */
const STEP = 1e-6
/** m; what floating sums leave over */
const EPS = 1e-9
/** Digits of a depth or diameter in a layer's name: a micrometre. */
const NAMED = 3

/** What the name of a part's second file ends with. */
export const SECOND = '-turned'

/** A cut deeper than so many widths of its cutter bends or breaks it (common practice) */
export const MOST_SLENDER = 4

/** Common sizes between which a cutter has to be [mm]. */
export interface CutterRange {
  /** a thinner one is too slender for the depth; nothing where even the thickest is */
  readonly least: number | undefined
  /** a thicker one does not go in; nothing where even the thinnest does not */
  readonly most: number | undefined
}

/**
 * The common cutters that go into a layer and bear its depth.
 *
 * Formula: the thickest size that is no more than the opening, of all where it is open; the thinnest size of which the depth
 * is no more than MOST_SLENDER. None is right where the least is more than the most. Validity: sizes above 0; a cutter as
 * wide as a channel cuts it in one pass.
 * @param layer of a file [mm]
 * @param sizes that are sold [mm]
 * @returns both ends [mm]
 * @source common practice
 */
export function cuttersFor(
  { opening, depth }: Pick<RouterLayer, 'opening' | 'depth'>,
  sizes: readonly number[],
): CutterRange {
  const fitting = sizes.filter((size) => opening === undefined || size <= opening + STEP)
  const bearing = sizes.filter((size) => depth <= MOST_SLENDER * size + STEP)
  return {
    least: bearing.length === 0 ? undefined : Math.min(...bearing),
    most: fitting.length === 0 ? undefined : Math.max(...fitting),
  }
}

/**
 * The files of a part.
 *
 * Formula: shapes are those of the part's solid, seen from above on the face that lies up; turned over as a page is, x
 * becomes length - x. The outline is cut the first time the part lies there; work on one face only needs one file. Holes
 * come after channels, which would take their marks away; one on the wall of a channel, where a drill slips off, belongs to
 * the other face.
 * Validity: channels, holes, notches, folds and scribed lines; bevels are left out, since no straight cutter makes them.
 * @param part in part coordinates [m]
 * @param name of its files; its key where there are no others beside them
 * @returns one file, or two where both faces are worked [mm]
 * @source common practice
 */
export function routerFiles(part: Part, name = part.key): readonly RouterFile[] {
  const below = part.features.some((feature) => faceOf(feature) === 'lower')
  const above = part.features.some((feature) => faceOf(feature) === 'upper')
  if (!below) return [fileOf(part, { name, face: 'upper', setUp: 1, setUps: 1 })]
  if (!above) return [fileOf(part, { name, face: 'lower', setUp: 1, setUps: 1 })]
  return [
    fileOf(part, { name, face: 'upper', setUp: 1, setUps: 2 }),
    fileOf(part, { name, face: 'lower', setUp: 2, setUps: 2 }),
  ]
}

/** The face that a feature has to be worked from; nothing for what goes through, or is no work of a router. */
const faceOf = (feature: Feature): Face | undefined => {
  if (isChannel(feature)) return feature.face
  if (isHole(feature)) return feature.counterbore?.face
  return isScribe(feature) || isFold(feature) ? 'upper' : undefined
}

function fileOf(
  part: Part,
  { name, face, setUp, setUps }: Pick<RouterFile, 'name' | 'face' | 'setUp' | 'setUps'>,
): RouterFile {
  const second = part.features
    .filter(isHole)
    .filter((hole) => setUps === 2 && onWall(part, hole, 'upper') && !onWall(part, hole, 'lower'))
  const first = part.features.filter(isHole).filter((hole) => !second.includes(hole))
  const layers = (
    setUp === 1
      ? [
          ...recesses(part, face),
          ...channels(part, face),
          ...holes(part, first),
          ...lines(part, face),
          outline(part),
        ]
      : [...recesses(part, face), ...channels(part, face), ...holes(part, second)]
  ).concat(setUp === 2 ? done(part, first) : [])
  const seen = face === 'upper' ? layers : layers.map((layer) => turned(layer, part.length * MM))
  return {
    name: setUp === 1 ? name : name + SECOND,
    face,
    setUp,
    setUps,
    length: round(part.length),
    width: round(part.width),
    thickness: round(part.thickness),
    layers: seen,
  }
}

/** Whether a drill set on this face stands with one side in a channel. */
const onWall = (part: Part, { u, v, diameter }: Hole, face: Face): boolean =>
  part.features
    .filter(isChannel)
    .filter((channel) => channel.face === face)
    .some((channel) => {
      const { min, max } = channelBox(part, channel)
      const within = (at: number, low: number, high: number, by: number): boolean =>
        at > low - by && at < high + by
      const radius = diameter / 2
      const touched = within(u, min.x, max.x, radius - EPS) && within(v, min.y, max.y, radius - EPS)
      return touched && !(within(u, min.x, max.x, EPS - radius) && within(v, min.y, max.y, EPS - radius))
    })

const holes = (part: Part, which: readonly Hole[]): RouterLayer[] =>
  grouped(which, (hole) => `HOLE_D${named(hole.diameter)}_${named(part.thickness)}MM`).map(
    ([name, alike]) => ({
      name,
      work: 'hole',
      depth: round(part.thickness),
      opening: round(alike[0]?.diameter ?? 0),
      shapes: alike.map((hole) => circle(hole, hole.diameter)),
    }),
  )

const recesses = (part: Part, face: Face): RouterLayer[] => {
  const all = part.features
    .filter(isHole)
    .flatMap((hole) => (hole.counterbore?.face === face ? [{ hole, ...hole.counterbore }] : []))
  return grouped(
    all,
    ({ diameter, depth }) => `RECESS_${upper(face)}_D${named(diameter)}_${named(depth)}MM`,
  ).map(([name, alike]) => ({
    name,
    work: 'recess',
    depth: round(alike[0]?.depth ?? 0),
    opening: round(alike[0]?.diameter ?? 0),
    shapes: alike.map(({ hole, diameter }) => circle(hole, diameter)),
  }))
}

/** In the order in which they are cut. */
const CHANNELS = ['dado', 'groove', 'rebate'] as const

const channels = (part: Part, face: Face): RouterLayer[] => {
  const all = CHANNELS.flatMap((kind) =>
    part.features.filter(isChannel).filter((channel) => channel.kind === kind && channel.face === face),
  )
  return grouped(all, ({ kind, depth }) => `${kind.toUpperCase()}_${upper(face)}_${named(depth)}MM`).map(
    ([name, alike]) => ({
      name,
      work: alike[0]?.kind ?? 'dado',
      depth: round(Math.min(part.thickness, alike[0]?.depth ?? 0)),
      opening: alike[0]?.kind === 'rebate' ? undefined : round(Math.min(...alike.map(({ size }) => size))),
      ...(alike[0]?.kind === 'rebate' ? { step: round(Math.min(...alike.map(({ size }) => size))) } : {}),
      shapes: alike.map((channel) => {
        const { min, max } = channelBox(part, channel)
        return closed([
          { x: min.x, y: min.y },
          { x: max.x, y: min.y },
          { x: max.x, y: max.y },
          { x: min.x, y: max.y },
        ])
      }),
    }),
  )
}

const lines = (part: Part, face: Face): RouterLayer[] =>
  face === 'lower'
    ? []
    : [
        ...lineLayer(
          'SCRIBE_UPPER_0MM',
          'scribe',
          part.features.filter(isScribe).map(({ at }) => line({ x: 0, y: at }, { x: part.length, y: at })),
        ),
        ...lineLayer(
          'FOLD_UPPER_0MM',
          'fold',
          part.features.filter(isFold).map(({ at }) => line({ x: at, y: 0 }, { x: at, y: part.width })),
        ),
      ]

const lineLayer = (name: string, work: RouterWork, shapes: readonly RouterShape[]): RouterLayer[] =>
  shapes.length === 0 ? [] : [{ name, work, depth: 0, opening: undefined, shapes }]

const outline = (part: Part): RouterLayer => {
  const slots = part.features.filter(isNotch).filter(({ at, size }) => at > 0 && at + size < part.length)
  return {
    name: `OUTLINE_THROUGH_${named(part.thickness)}MM`,
    work: 'outline',
    depth: round(part.thickness),
    opening: slots.length === 0 ? undefined : round(Math.min(...slots.map(({ size }) => size))),
    shapes: edgesOf(part).map(closed),
  }
}

/** What was cut before, to see that the part lies right; nothing of it is cut again. */
const done = (part: Part, drilled: readonly Hole[]): RouterLayer[] => {
  return [
    ...(drilled.length === 0
      ? []
      : [
          {
            name: 'DONE_HOLES_NO_CUT',
            work: 'done-hole' as const,
            depth: 0,
            opening: undefined,
            shapes: drilled.map((hole) => circle(hole, hole.diameter)),
          },
        ]),
    {
      name: 'DONE_OUTLINE_NO_CUT',
      work: 'done-outline',
      depth: 0,
      opening: undefined,
      shapes: edgesOf(part).map(closed),
    },
  ]
}

/**
 * What is left of a panel seen from above: round each piece of wood once, wood on the left hand.
 *
 * Formula: cells of the grid of all walls; a side with wood on one side only is an edge; edges are chained corner to
 * corner. Validity: exact for channels and notches; holes are not in it.
 * @param part in part coordinates [m]
 * @returns closed chains of corners; one that runs the other way is a hole in the wood [m]
 * @source common practice
 */
export function edgesOf(part: Part): readonly (readonly RouterPoint[])[] {
  const { us, vs, ws, filled } = cellGrid(part)
  const wood = (i: number, j: number): boolean => ws.slice(1).some((_, k) => filled(i, j, k))
  const ways = new Map<string, Corner[]>()
  const edge = (from: Corner, to: Corner): void => {
    ways.set(from.join(' '), [...(ways.get(from.join(' ')) ?? []), to])
  }
  for (let i = 0; i < us.length - 1; i++)
    for (let j = 0; j < vs.length - 1; j++) {
      if (!wood(i, j)) continue
      if (!wood(i, j - 1)) edge([i, j], [i + 1, j])
      if (!wood(i + 1, j)) edge([i + 1, j], [i + 1, j + 1])
      if (!wood(i, j + 1)) edge([i + 1, j + 1], [i, j + 1])
      if (!wood(i - 1, j)) edge([i, j + 1], [i, j])
    }
  const chains: RouterPoint[][] = []
  for (const [key, out] of ways)
    while (out.length > 0) {
      const start = key.split(' ').map(Number) as [number, number]
      const corners: Corner[] = []
      let at: Corner = start
      do {
        const to = taken(ways.get(at.join(' ')) ?? [], corners.at(-1), at)
        if (!to) throw new Error(`The outline of ${part.key} does not close.`)
        corners.push(at)
        at = to
      } while (at[0] !== start[0] || at[1] !== start[1])
      chains.push(
        corners
          .filter(([i, j], n) => {
            const [a, b] = corners.at(n - 1) ?? [i, j]
            const [c, d] = corners[(n + 1) % corners.length] ?? [i, j]
            // a corner, not a station on a straight edge
            return !(a === i && c === i) && !(b === j && d === j)
          })
          .map(([i, j]) => ({ x: us[i] ?? 0, y: vs[j] ?? 0 })),
      )
    }
  return chains
}

/** Of the grid of walls. */
type Corner = readonly [number, number]

/** Takes the way on from a corner: to the left where two pieces of wood meet there, so that each keeps its own chain. */
const taken = (out: Corner[], from: Corner | undefined, at: Corner): Corner | undefined => {
  const left = out.findIndex(
    ([i, j]) => from && (at[0] - from[0]) * (j - at[1]) - (at[1] - from[1]) * (i - at[0]) > 0,
  )
  return out.splice(Math.max(0, left), 1)[0]
}

const turned = (layer: RouterLayer, length: number): RouterLayer => {
  const over = ({ x, y }: RouterPoint): RouterPoint => ({ x: tidy(length - x), y })
  return {
    ...layer,
    shapes: layer.shapes.map((shape): RouterShape => {
      if (shape.kind === 'circle') return { ...shape, centre: over(shape.centre) }
      if (shape.kind === 'line') return { ...shape, from: over(shape.from), to: over(shape.to) }
      // seen from the other side, a chain runs the other way round
      return { ...shape, points: shape.points.map(over).reverse() }
    }),
  }
}

/** In order of their first, by the name that they share. */
const grouped = <T>(
  all: readonly T[],
  nameOf: (one: T) => string,
): readonly (readonly [string, readonly T[]])[] => {
  const groups = new Map<string, T[]>()
  for (const one of all) groups.set(nameOf(one), [...(groups.get(nameOf(one)) ?? []), one])
  return [...groups]
}

const circle = ({ u, v }: Hole, diameter: number): RouterShape => ({
  kind: 'circle',
  centre: { x: round(u), y: round(v) },
  radius: round(diameter / 2),
})

const closed = (points: readonly RouterPoint[]): RouterShape => ({
  kind: 'closed',
  points: points.map(({ x, y }) => ({ x: round(x), y: round(y) })),
})

const line = (from: RouterPoint, to: RouterPoint): RouterShape => ({
  kind: 'line',
  from: { x: round(from.x), y: round(from.y) },
  to: { x: round(to.x), y: round(to.y) },
})

const upper = (face: Face): string => face.toUpperCase()

/** Metres to millimetres without what floating sums leave over. */
const round = (metres: number): number => tidy(metres * MM)
const tidy = (millimetres: number): number => {
  const steps = Math.round(millimetres / STEP)
  return steps === 0 ? 0 : Number((steps * STEP).toFixed(6))
}

/** A size as a layer's name may carry it: P for the point, which old readers refuse. */
const named = (metres: number): string => String(Number((metres * MM).toFixed(NAMED))).replace('.', 'P')
