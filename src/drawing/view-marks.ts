/**
 * Turns what a view holds, in metres, into marks on paper, in millimetres.
 */
import { lettering } from './lettering.ts'
import { arrow } from './linear-dimension.ts'
import type { ViewLines } from './projection.ts'
import { type CutFace, hatch } from './section.ts'
import type { Span } from './spans.ts'
import type { DrawingStyle, LineClass, Mark, Point, Rect, TextMark } from './types.ts'

/** What a view shows besides the thing itself [m]. */
export type ViewExtra =
  | { readonly kind: 'line'; readonly class: LineClass; readonly a: Point; readonly b: Point }
  /** ring around a place that a detail enlarges */
  | {
      readonly kind: 'ring'
      readonly at: Point
      readonly radius: number
      readonly letter: string
      readonly below?: boolean
    }
  /** upright cutting plane, looked at towards the left */
  | { readonly kind: 'plane'; readonly x: number; readonly letter: string }
  /** which way the face grain runs */
  | { readonly kind: 'grain'; readonly along: 'length' | 'width'; readonly word: string }

const overrun = 2 // mm that a centre line runs past its outline

/** Lines of a projected view on paper [mm]. */
export function viewMarks(
  lines: ViewLines,
  toPaper: (point: Point) => Point,
  perMetre: number,
): readonly Mark[] {
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

/** A cut face on paper, hatched [mm]. */
export function cutMarks(cut: CutFace, toPaper: (point: Point) => Point): readonly Mark[] {
  return [
    ...hatchMarks(cut.wood, toPaper, 1),
    ...cut.outline.map(
      ({ a, b }): Mark => ({ kind: 'line', class: 'visible', a: toPaper(a), b: toPaper(b) }),
    ),
    ...cut.breaks.map(({ a, b }) => breakLine(toPaper(a), toPaper(b))),
  ]
}

/** Hatching over cut wood [mm]. */
export function hatchMarks(
  wood: readonly Rect[],
  toPaper: (point: Point) => Point,
  slant: 1 | -1,
): readonly Mark[] {
  const rects = wood.map((rect): Rect => {
    const a = toPaper(rect)
    const b = toPaper({ x: rect.x + rect.width, y: rect.y + rect.height })
    return { ...a, width: b.x - a.x, height: b.y - a.y }
  })
  return hatch(rects, hatchPitch, slant).map(({ a, b }): Mark => ({ kind: 'line', class: 'hatch', a, b }))
}

/** Rings, planes and added lines on paper [mm]. */
export function extraMarks(
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
      letter(extra.letter, {
        x: centre.x + radius + 2.5,
        y: centre.y + (extra.below ? -1 : 1) * radius * 0.8,
      }),
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

export const isText = (mark: Mark): mark is TextMark => mark.kind === 'text'

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
