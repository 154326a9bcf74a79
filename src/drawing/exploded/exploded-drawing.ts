/**
 * Draws a fixture apart, with a number for each kind of part and hardware.
 */
import type { Vec3 } from '../../geometry/placement.ts'
import { lettering } from '../lettering.ts'
import { boundsOf, markBox, moved, moveMark, segments } from '../mark-bounds.ts'
import { fittingScale, onPaper } from '../scale.ts'
import { scaleText } from '../sheet.ts'
import type { Span } from '../spans.ts'
import { sheetSvg } from '../svg.ts'
import { type Drawing, type DrawingStyle, drawingStyle, type Mark, type Point, type Scale } from '../types.ts'
import type { ApartScene } from './apart.ts'
import { type AxonometricLines, axonometricLines } from './axonometric.ts'
import { type Balloon, balloonMarks, balloonRadius, placeBalloons } from './balloons.ts'
import { type LeaderEnd, leaderEnds, seenPlaces } from './leader-ends.ts'
import { thinnedLines } from './thin-lines.ts'

export interface ExplodedRequest {
  /** what the drawing shows, for readers who cannot see it */
  readonly label: string
  /** the word before the scale */
  readonly scaleWord: string
  /** the page that it stands on states its scale */
  readonly framed?: boolean
  /** room there is [mm] */
  readonly box: { readonly width: number; readonly height: number }
  readonly style?: DrawingStyle
}

/** A balloon, and where on its part the leader ends [m]. */
export interface PartBalloon extends Balloon {
  readonly point: LeaderEnd['point']
}

/** Marks of the drawing around the model's origin [mm]. */
export interface ExplodedView {
  readonly scale: Scale
  readonly outlines: readonly Mark[]
  readonly paths: readonly Mark[]
  readonly balloons: readonly PartBalloon[]
}

/** mm: a line of 0.35 mm and white that is still seen beside it */
const leastGap = 0.6

/** Steps between the standard scales, for a drawing that is looked at and not measured. */
const explodedScales: readonly Scale[] = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100].map(
  (model) => ({
    paper: 1,
    model,
  }),
)

/**
 * The exploded drawing.
 *
 * Formula: the largest scale at which lines, balloons and the scale's note fit the box. Validity: see the scale.
 * @param apart parts moved apart, their paths and numbers [m]
 * @param request label, words and box [mm]
 * @returns the drawing, named `exploded`, without dimensions [mm]
 * @source common practice
 */
export function explodedDrawing(apart: ApartScene, request: ExplodedRequest): Drawing {
  const style = request.style ?? drawingStyle
  const lines = axonometricLines(apart.scene, apart.paths)
  const composed = new Map<Scale, ReturnType<typeof compose>>()
  const seen = placesSeen(apart, lines)
  const compose = (scale: Scale) => {
    const view = explodedView(seen, lines, scale)
    const numbers = view.balloons.map((balloon) => number(balloon, style))
    const marks = [...view.outlines, ...view.paths, ...view.balloons.flatMap(balloonMarks), ...numbers]
    return { marks, extent: boundsOf(marks.map(markBox)) }
  }
  const at = (scale: Scale) => {
    const known = composed.get(scale) ?? compose(scale)
    composed.set(scale, known)
    return known
  }
  const footHeight = 2 * style.textSize
  const sizeAt = (scale: Scale) => {
    const paper = onPaper(1, scale)
    const bare = { width: lines.outline.width * paper, height: lines.outline.height * paper + footHeight }
    // Balloons take time to place, so they are placed only where the lines alone would fit.
    if (bare.width > request.box.width || bare.height > request.box.height) return bare
    const { extent } = at(scale)
    return { width: extent.width + 1, height: extent.height + footHeight + 1 }
  }
  const scale = fittingScale(sizeAt, request.box, explodedScales)
  const { marks, extent } = at(scale)
  const note = lettering({
    class: 'note-text',
    runs: [{ kind: 'plain', text: `${request.scaleWord} ${scaleText(scale)}` }],
    at: { x: 0, y: 0 },
    turned: false,
    size: style.textSize,
  })
  const corner = { x: extent.x + extent.width - note.box.width / 2, y: extent.y - 1.4 * style.textSize }
  const foot = moveMark(note, corner)
  const total = request.framed ? extent : boundsOf([extent, markBox(foot)])
  const lower: Point = { x: 0.5 - total.x, y: 0.5 - total.y }
  const sheet = {
    views: [
      {
        at: lower,
        view: { name: 'isometric', marks, dimensions: [], outline: extent, extent: moved(extent, lower) },
      },
    ],
    foot: request.framed ? [] : [moveMark(foot, lower)],
    width: total.width + 1,
    height: total.height + 1,
    style,
    dimensions: [],
  }
  return {
    name: 'exploded',
    widthMm: sheet.width,
    heightMm: sheet.height,
    scale,
    dimensions: [],
    label: request.label,
    ...sheetSvg({ ...sheet, name: 'exploded', label: request.label }),
  }
}

/** Where on each numbered kind a leader may end; the same at every scale. */
export type PlacesSeen = readonly {
  readonly key: string
  readonly number: number
  readonly places: readonly Vec3[]
}[]

/**
 * Visible places of all that is numbered.
 *
 * Formula: see the places of one part. Validity: any fixture.
 * @param apart the fixture drawn apart [m]
 * @param lines what is seen of it [m]
 * @returns places by key and number [m]
 * @source common practice
 */
export const placesSeen = ({ scene, numbers }: ApartScene, { shadows }: AxonometricLines): PlacesSeen =>
  [...numbers].map(([key, itemNumber]) => ({
    key,
    number: itemNumber,
    places: seenPlaces(scene, shadows, key),
  }))

/**
 * Lines and balloons at a scale.
 *
 * Formula: model [m] times scale; balloons around it. Validity: a kind that is hidden as a whole gets no balloon.
 * @param seen where leaders may end, by part [m]
 * @param lines what is seen of the parts [m]
 * @param scale of the drawing
 * @returns marks around the model's origin, and balloons [mm]
 * @source common practice
 */
export function explodedView(
  seen: PlacesSeen,
  { visible, curves, paths }: AxonometricLines,
  scale: Scale,
): ExplodedView {
  const paper = onPaper(1, scale)
  const toPaper = ({ x, y }: Point): Point => ({ x: x * paper, y: y * paper })
  const onSheet = ({ a, b }: Span): Span => ({ a: toPaper(a), b: toPaper(b) })
  const straight = thinnedLines(visible.map(onSheet), leastGap)
  const outlines: readonly Mark[] = [
    ...straight.map(({ a, b }): Mark => ({ kind: 'line', class: 'visible', a, b })),
    ...curves.map(
      (points): Mark => ({ kind: 'outline', class: 'visible', closed: false, points: points.map(toPaper) }),
    ),
  ]
  const pathMarks = thinnedLines(paths.map(onSheet), leastGap, straight).map(
    ({ a, b }): Mark => ({ kind: 'line', class: 'centre', a, b }),
  )
  const drawn = [...outlines, ...pathMarks].flatMap(segments)
  const targets = seen.flatMap(({ key, number: itemNumber, places }) => {
    const ends = leaderEnds({ seen: places, toPaper, lines: drawn })
    return ends.length === 0 ? [] : [{ key, number: itemNumber, ends, dots: ends.map((end) => end.paper) }]
  })
  const balloons = placeBalloons(targets, drawn).map((balloon, index) => ({
    ...balloon,
    point: targets[index]!.ends.find(({ paper: at }) => at === balloon.dot)!.point,
  }))
  return { scale, outlines, paths: pathMarks, balloons }
}

const number = ({ number: value, centre }: Balloon, style: DrawingStyle): Mark =>
  lettering({
    class: 'note-text',
    runs: [{ kind: 'plain', text: `${value}` }],
    at: { x: centre.x, y: centre.y - 0.357 * style.textSize },
    turned: false,
    size: Math.min(style.textSize, 1.3 * balloonRadius),
  })
