/**
 * Puts one view on paper: its lines, its dimensions around it, and its title underneath.
 */

import { layOutSide, type PlacedDimension } from './dimension-rows.ts'
import type {
  DimensionRequest,
  LeaderRequest,
  LinearRequest,
  OrdinateRequest,
  Side,
} from './dimension-types.ts'
import { grainMarks } from './grain.ts'
import { drawLeader } from './leader.ts'
import { lettering } from './lettering.ts'
import { arrow } from './linear-dimension.ts'
import type { ViewLines } from './projection.ts'
import { onPaper } from './scale.ts'
import { type CutFace, hatch } from './section.ts'
import type { Span } from './spans.ts'
import type { DrawingStyle, LengthFormatter, LineClass, Mark, Point, Rect, Scale, TextMark } from './types.ts'

export interface ViewRequestOnPaper {
  readonly name: string
  readonly title: string
  readonly lines?: ViewLines
  readonly cut?: CutFace
  /** cut wood of a section view, one list per hatching direction [m] */
  readonly hatched?: readonly (readonly Rect[])[]
  readonly extras?: readonly ViewExtra[]
  readonly dimensions: readonly DimensionRequest[]
}

/** What a view shows besides the thing itself [m]. */
export type ViewExtra =
  | { readonly kind: 'line'; readonly class: LineClass; readonly a: Point; readonly b: Point }
  /** ring around a place that a detail enlarges */
  | { readonly kind: 'ring'; readonly at: Point; readonly radius: number; readonly letter: string }
  /** upright cutting plane, looked at towards the left */
  | { readonly kind: 'plane'; readonly x: number; readonly letter: string }
  /** which way the face grain runs */
  | { readonly kind: 'grain'; readonly along: 'length' | 'width'; readonly word: string }

export interface PaperSettings {
  readonly scale: Scale
  readonly format: LengthFormatter
  readonly style: DrawingStyle
}

/** A view on paper, y up, in its own coordinates: the model's origin is the paper's [mm]. */
export interface PaperView {
  readonly name: string
  readonly marks: readonly Mark[]
  readonly dimensions: readonly PlacedDimension[]
  readonly outline: Rect
  /** with dimensions and title */
  readonly extent: Rect
}

/**
 * Lays out a view with its dimensions.
 *
 * Formula: model [m] times scale; dimensions stacked outside the outline; notes where they cover least.
 * Validity: any scale.
 * @param request lines or cut face, dimensions and title
 * @param settings scale, formatter and style
 * @returns the view on paper [mm]
 * @source common practice
 */
export function paperView(request: ViewRequestOnPaper, settings: PaperSettings): PaperView {
  const { scale, format, style } = settings
  const paperPerMetre = onPaper(1, scale)
  const toPaper = ({ x, y }: Point): Point => ({ x: x * paperPerMetre, y: y * paperPerMetre })
  const marks = [
    ...(request.lines ? viewMarks(request.lines, toPaper, paperPerMetre) : []),
    ...(request.cut ? cutMarks(request.cut, toPaper) : []),
    ...(request.hatched ?? []).flatMap((wood, index) => hatchMarks(wood, toPaper, index % 2 === 0 ? 1 : -1)),
  ]
  const model = request.lines?.outline ?? request.cut?.region ?? { x: 0, y: 0, width: 0, height: 0 }
  const corner = toPaper(model)
  const outline: Rect = {
    ...corner,
    width: model.width * paperPerMetre,
    height: model.height * paperPerMetre,
  }
  const extras = (request.extras ?? []).flatMap((extra) =>
    extra.kind === 'grain'
      ? grainMarks(extra, { outline, style, lines: marks.flatMap(segments) })
      : extraMarks(extra, toPaper, outline, style),
  )
  const placed: PlacedDimension[] = []
  for (const side of ['above', 'below', 'left', 'right'] as const)
    placed.push(
      ...layOutSide({
        side,
        edge: edgeOf(outline, side),
        linear: request.dimensions.filter(
          (one): one is LinearRequest => one.kind === 'linear' && one.side === side,
        ),
        ordinates: request.dimensions.filter(
          (one): one is OrdinateRequest => one.kind === 'ordinate' && one.side === side,
        ),
        toPaper,
        format,
        style,
        taken: [...placed.map((one) => one.text), ...extras.filter(isText)].map((text) => text.box),
      }),
    )
  const leaders = request.dimensions.filter((one): one is LeaderRequest => one.kind === 'leader')
  for (const leader of leaders) {
    const lines = [...marks, ...extras, ...placed.flatMap((one) => one.marks)].flatMap(segments)
    const taken = [...placed.map((one) => one.text), ...extras.filter(isText)].map((text) => text.box)
    placed.push(drawLeader({ leader, toPaper, paperPerMetre, format, style, taken, lines }))
  }
  const drawn = boundsOf([
    outline,
    ...marks.map(markBox),
    ...extras.map(markBox),
    ...placed.flatMap((one) => [one.text.box, ...one.marks.map(markBox)]),
  ])
  const title = lettering({
    class: 'view-title',
    runs: [{ kind: 'plain', text: request.title }],
    at: {
      x: outline.x + outline.width / 2,
      y: drawn.y - style.titleSize * 1.1,
    },
    turned: false,
    size: style.titleSize,
  })
  const all: Mark[] = [...marks, ...extras, ...(request.title === '' ? [] : [title])]
  return {
    name: request.name,
    marks: all,
    dimensions: placed,
    outline,
    extent: request.title === '' ? drawn : boundsOf([drawn, title.box]),
  }
}

const overrun = 2 // mm that a centre line runs past its outline

function viewMarks(lines: ViewLines, toPaper: (point: Point) => Point, perMetre: number): readonly Mark[] {
  const span = (line: Span, kind: 'visible' | 'hidden'): Mark => ({
    kind: 'line',
    class: kind,
    a: toPaper(line.a),
    b: toPaper(line.b),
  })
  return [
    ...lines.visible.map((line) => span(line, 'visible')),
    ...lines.hidden.map((line) => span(line, 'hidden')),
    ...lines.circles.map(
      (circle): Mark => ({
        kind: 'circle',
        class: circle.hidden ? 'hidden' : 'visible',
        centre: toPaper(circle.centre),
        radius: circle.radius * perMetre,
      }),
    ),
    ...lines.hexagons.map(
      ({ centre, acrossFlats }): Mark => ({
        kind: 'outline',
        class: 'visible',
        closed: true,
        points: hexagon(toPaper(centre), (acrossFlats * perMetre) / 2),
      }),
    ),
    ...lines.centres.flatMap(({ at, diameter }) => {
      const reach = (diameter * perMetre) / 2 + overrun
      const { x, y } = toPaper(at)
      return [
        centreLine({ x: x - reach, y }, { x: x + reach, y }),
        centreLine({ x, y: y - reach }, { x, y: y + reach }),
      ]
    }),
    ...lines.axes.map(({ a, b }) => {
      const from = toPaper(a)
      const to = toPaper(b)
      const length = Math.hypot(to.x - from.x, to.y - from.y) || 1
      const step = { x: ((to.x - from.x) / length) * overrun, y: ((to.y - from.y) / length) * overrun }
      return centreLine({ x: from.x - step.x, y: from.y - step.y }, { x: to.x + step.x, y: to.y + step.y })
    }),
  ]
}

const centreLine = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'centre', a, b })

function hexagon(centre: Point, apothem: number): readonly Point[] {
  const radius = apothem / Math.cos(Math.PI / 6)
  return [0, 1, 2, 3, 4, 5].map((sixth) => ({
    x: centre.x + radius * Math.cos((sixth * Math.PI) / 3),
    y: centre.y + radius * Math.sin((sixth * Math.PI) / 3),
  }))
}

const hatchPitch = 2 // mm on paper, common practice (from memory)

function cutMarks(cut: CutFace, toPaper: (point: Point) => Point): readonly Mark[] {
  return [
    ...hatchMarks(cut.wood, toPaper, 1),
    ...cut.outline.map(
      ({ a, b }): Mark => ({ kind: 'line', class: 'visible', a: toPaper(a), b: toPaper(b) }),
    ),
    ...cut.breaks.map(({ a, b }) => breakLine(toPaper(a), toPaper(b))),
  ]
}

function hatchMarks(wood: readonly Rect[], toPaper: (point: Point) => Point, slant: 1 | -1): readonly Mark[] {
  const rects = wood.map((rect): Rect => {
    const a = toPaper(rect)
    const b = toPaper({ x: rect.x + rect.width, y: rect.y + rect.height })
    return { ...a, width: b.x - a.x, height: b.y - a.y }
  })
  return hatch(rects, hatchPitch, slant).map(({ a, b }): Mark => ({ kind: 'line', class: 'hatch', a, b }))
}

function extraMarks(
  extra: Exclude<ViewExtra, { readonly kind: 'grain' }>,
  toPaper: (point: Point) => Point,
  outline: Rect,
  style: DrawingStyle,
): readonly Mark[] {
  const letter = (text: string, at: Point): Mark =>
    lettering({
      class: 'note-text',
      runs: [{ kind: 'plain', text }],
      at: { x: at.x, y: at.y - 0.357 * style.textSize },
      turned: false,
      size: style.textSize,
    })
  if (extra.kind === 'line') return [{ ...extra, a: toPaper(extra.a), b: toPaper(extra.b) }]
  if (extra.kind === 'ring') {
    const centre = toPaper(extra.at)
    const rim = toPaper({ x: extra.at.x + extra.radius, y: extra.at.y })
    const radius = Math.max(4, rim.x - centre.x)
    return [
      { kind: 'circle', class: 'dimension', centre, radius },
      letter(extra.letter, { x: centre.x + radius + 2.5, y: centre.y + radius * 0.8 }),
    ]
  }
  const { x } = toPaper({ x: extra.x, y: 0 })
  const ends = [
    { near: outline.y + outline.height + 1, far: outline.y + outline.height + 6 },
    { near: outline.y - 1, far: outline.y - 6 },
  ]
  return ends.flatMap(({ near, far }): Mark[] => [
    { kind: 'line', class: 'section', a: { x, y: near }, b: { x, y: far } },
    { kind: 'line', class: 'dimension', a: { x, y: far }, b: { x: x - 6, y: far } },
    arrow({ x: x - 7, y: far }, { x, y: far }, style),
    letter(extra.letter, { x: x + 3, y: (near + far) / 2 }),
  ])
}

const isText = (mark: Mark): mark is TextMark => mark.kind === 'text'

/** An upright line with one zigzag, past the wood at both ends. */
function breakLine(a: Point, b: Point): Mark {
  const middle = (a.y + b.y) / 2
  return {
    kind: 'outline',
    class: 'break',
    closed: false,
    points: [
      { x: a.x, y: a.y - overrun },
      { x: a.x, y: middle - 1.5 },
      { x: a.x - 1.2, y: middle - 0.5 },
      { x: a.x + 1.2, y: middle + 0.5 },
      { x: a.x, y: middle + 1.5 },
      { x: a.x, y: b.y + overrun },
    ],
  }
}

function edgeOf(outline: Rect, side: Side): number {
  switch (side) {
    case 'above':
      return outline.y + outline.height
    case 'below':
      return -outline.y
    case 'left':
      return -outline.x
    case 'right':
      return outline.x + outline.width
  }
}

/** Straight pieces of a mark, for finding what a note would cover. */
export function segments(mark: Mark): readonly { readonly a: Point; readonly b: Point }[] {
  switch (mark.kind) {
    case 'line':
      return mark.class === 'hatch' ? [] : [mark]
    case 'outline':
    case 'arrow':
      return mark.points.slice(1).map((b, index) => ({ a: mark.points[index]!, b }))
    case 'circle': {
      const { x, y } = mark.centre
      const r = mark.radius
      return [
        { a: { x: x - r, y }, b: { x: x + r, y } },
        { a: { x, y: y - r }, b: { x, y: y + r } },
      ]
    }
    case 'text':
      return []
  }
}

export function markBox(mark: Mark): Rect {
  if (mark.kind === 'text') return mark.box
  if (mark.kind === 'circle') {
    const r = mark.radius
    return { x: mark.centre.x - r, y: mark.centre.y - r, width: 2 * r, height: 2 * r }
  }
  const points = mark.kind === 'line' ? [mark.a, mark.b] : mark.points
  const x = Math.min(...points.map((point) => point.x))
  const y = Math.min(...points.map((point) => point.y))
  return {
    x,
    y,
    width: Math.max(...points.map((point) => point.x)) - x,
    height: Math.max(...points.map((point) => point.y)) - y,
  }
}

export function boundsOf(rects: readonly Rect[]): Rect {
  const x = Math.min(...rects.map((rect) => rect.x))
  const y = Math.min(...rects.map((rect) => rect.y))
  return {
    x,
    y,
    width: Math.max(...rects.map((rect) => rect.x + rect.width)) - x,
    height: Math.max(...rects.map((rect) => rect.y + rect.height)) - y,
  }
}
