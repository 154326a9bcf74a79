/**
 * What a full-size template shows of each feature of a part: millimetres on paper, which are those of the wood.
 *
 * The one place that knows the kinds: a feature without an entry is not drawn, and nothing else has to know of it.
 */
import type { Channel, Feature, Hole, Part, Scribe } from '../../geometry/part.ts'
import type { LineClass, Point, Rect } from '../types.ts'

/** A feature on the worked face, from the datum corner: x along the part's length, y along its width [mm]. */
export interface TemplateShape {
  readonly name: string
  readonly kind: Feature['kind']
  /** all of it; a channel goes from edge to edge [mm] */
  readonly extent: Rect
  /** which way it runs from edge to edge, if it does */
  readonly runs?: 'length' | 'width'
  readonly lines: readonly { readonly class: LineClass; readonly a: Point; readonly b: Point }[]
  readonly circle?: { readonly centre: Point; readonly radius: number }
  /** what is written beside it: the depth of a channel, the diameter of a hole, the height of a line [m] */
  readonly size: { readonly name: string; readonly metres: number }
}

/** mm that the cross of a hole runs past its rim: long enough to lay a square on */
const PAST_RIM = 4

const MM = 1000 // per metre

type Drawer = (part: Part, feature: Feature) => TemplateShape | undefined

const channel: Drawer = (part, feature) => {
  const { name, kind, face, runs, at, size, depth } = feature as Channel
  // A template lies on the worked face; what is cut from the other side cannot be marked with it.
  if (face !== 'upper') return undefined
  const [near, far] = [at * MM, (at + size) * MM]
  const [across, long] =
    runs === 'width' ? [part.length * MM, part.width * MM] : [part.width * MM, part.length * MM]
  const upright = (place: number, kindOfLine: LineClass) => ({
    class: kindOfLine,
    a: runs === 'width' ? { x: place, y: 0 } : { x: 0, y: place },
    b: runs === 'width' ? { x: place, y: long } : { x: long, y: place },
  })
  // The open side of a step is the part's own edge, which is drawn as such.
  const walls = [near, far].filter((place) => place > 0.001 && place < across - 0.001)
  return {
    name,
    kind,
    runs,
    extent:
      runs === 'width'
        ? { x: near, y: 0, width: far - near, height: long }
        : { x: 0, y: near, width: long, height: far - near },
    lines: [
      ...walls.map((place) => upright(place, 'dimension')),
      ...(kind === 'groove' ? [upright((near + far) / 2, 'centre')] : []),
    ],
    size: { name: `${name}.depth`, metres: depth },
  }
}

const hole: Drawer = (_part, feature) => {
  const { name, u, v, diameter } = feature as Hole
  const centre = { x: u * MM, y: v * MM }
  const radius = (diameter * MM) / 2
  const arm = radius + PAST_RIM
  return {
    name,
    kind: 'hole',
    extent: { x: centre.x - radius, y: centre.y - radius, width: 2 * radius, height: 2 * radius },
    // Full lines: the gap of a dashed one could fall where the point of the awl goes.
    lines: [
      { class: 'extension', a: { x: centre.x - arm, y: centre.y }, b: { x: centre.x + arm, y: centre.y } },
      { class: 'extension', a: { x: centre.x, y: centre.y - arm }, b: { x: centre.x, y: centre.y + arm } },
    ],
    circle: { centre, radius },
    size: { name: `${name}.diameter`, metres: diameter },
  }
}

const scribe: Drawer = (part, feature) => {
  const { name, at } = feature as Scribe
  const y = at * MM
  const width = part.length * MM
  return {
    name,
    kind: 'scribe',
    runs: 'length',
    extent: { x: 0, y, width, height: 0 },
    lines: [{ class: 'dimension', a: { x: 0, y }, b: { x: width, y } }],
    size: { name: `${name}.at`, metres: at },
  }
}

/** Kinds that a template shows; a new one is added here, and its words in the catalogue. */
const drawers: Readonly<Partial<Record<Feature['kind'], Drawer>>> = {
  dado: channel,
  groove: channel,
  rebate: channel,
  hole,
  scribe,
}

/**
 * Lists what a template of a part shows.
 *
 * Formula: metres x 1000; a channel runs from edge to edge. Validity: channels in the worked face and holes through;
 * a kind without a drawer, or one with a size that is no number, is left out.
 * @param part with features from its datum corner [m]
 * @returns shapes from the datum corner [mm]
 * @source common practice
 */
export function templateShapes(part: Part): readonly TemplateShape[] {
  return part.features.flatMap((feature) => {
    const shape = Object.hasOwn(drawers, feature.kind) ? drawers[feature.kind]?.(part, feature) : undefined
    const { x = Number.NaN, y, width, height } = shape?.extent ?? {}
    return shape && [x, y, width, height].every(Number.isFinite) ? [shape] : []
  })
}
