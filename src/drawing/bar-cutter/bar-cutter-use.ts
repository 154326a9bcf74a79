/**
 * How the bar cutter is used, in four small pictures from the side, cut along a wire: loaf in, half way, through, bars out.
 */
import type { BarCutter } from '../../fixtures/bar-cutter/types.ts'
import { noteAt } from '../clipped-section.ts'
import type { LeaderRequest } from '../dimension-types.ts'
import { type PictureRequest, pictureDrawing } from '../picture.ts'
import type { ViewLines } from '../projection.ts'
import type { Drawing, Point, Rect } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import type { BarCutterDrawingWords } from './bar-cutter-words.ts'
import { closedLines, loafRect, rectLines } from './cutter-scene.ts'
import { alongWire, behind, handleArc, swungFrame, swungPoint, swungWire } from './side-lines.ts'

/** m; of the bench that is drawn beyond the base, and how far a bar is lifted in the picture */
const BENCH = 0.02
const LIFTED = 0.07

/**
 * The pictures.
 *
 * Formula: what stands is drawn once, the frame turned to each angle behind it. Validity: any bar cutter.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @param about room [mm] and formatter
 * @returns one drawing, `use`
 * @source common practice
 */
export const cutterUse = (
  cutter: BarCutter,
  words: BarCutterDrawingWords,
  about: Pick<PictureRequest, 'box' | 'format'>,
): Drawing => {
  const { hinge, loaf, platform, frame, fence, input, holdOpen } = cutter
  const half = Math.atan2(platform.top + loaf.height / 2 - hinge.axis, (loaf.from + loaf.to) / 2)
  const rect = loafRect(cutter)
  const grip = (angle: number): Point =>
    swungPoint(
      cutter,
      { y: frame.end - input.frame.handle / 3, z: frame.bottom + input.panels.frame.thickness },
      angle,
    )
  const note = (name: string, at: Point): LeaderRequest => noteAt(`use.${name}`, at, words.notes[name] ?? '')
  const top = rect.y + rect.height
  const raised = { ...rect, y: rect.y + LIFTED }
  const right = rect.x + rect.width
  const open = cutter.swing.angle
  return pictureDrawing({
    ...about,
    name: 'use',
    label: words.labels['bar-cutter-use'] ?? '',
    views: [
      picture(cutter, open, {
        name: 'use-open',
        title: words.titles['use-open'] ?? '',
        extras: [...rectLines('phantom', rect), hookLine(cutter)],
        dimensions: [
          note('loaf', { x: rect.x + rect.width * 0.3, y: top }),
          note('fence', { x: -fence.y[1], y: platform.top + fence.height / 2 }),
          note('catch', { x: -holdOpen.hook.y, y: holdOpen.hook.z }),
          note('handle', grip(open)),
        ],
      }),
      picture(cutter, half, {
        name: 'use-half',
        title: words.titles['use-half'] ?? '',
        extras: [...rectLines('phantom', rect), ...arc(cutter, open, half)],
        dimensions: [
          note('hands', grip(half)),
          note('thrust', { x: -fence.y[1], y: platform.top + fence.height / 2 }),
        ],
      }),
      picture(cutter, 0, {
        name: 'use-closed',
        title: words.titles['use-closed'] ?? '',
        extras: rectLines('phantom', rect),
        dimensions: [
          note('on-rests', { x: -frame.frontRail[0] - 0.02, y: frame.bottom }),
          note('wire-below', { x: rect.x + rect.width / 2, y: cutter.wire.height }),
        ],
      }),
      picture(cutter, 0, {
        name: 'use-out',
        title: words.titles['use-out'] ?? '',
        extras: [
          ...rectLines('phantom', raised),
          ...[rect.x, right].map(
            (x): ViewExtra => ({
              kind: 'line',
              class: 'centre',
              a: { x, y: platform.top },
              b: { x, y: raised.y },
            }),
          ),
        ],
        dimensions: [note('lift', { x: right, y: raised.y + raised.height / 2 })],
      }),
    ],
  })
}

/** A hook in its eye. */
const hookLine = ({ holdOpen: { hook, eyeOpen } }: BarCutter): ViewExtra => ({
  kind: 'line',
  class: 'visible',
  a: { x: -hook.y, y: hook.z },
  b: { x: -eyeOpen.y, y: eyeOpen.z },
})

/** What stands and the bench it stands on, with the frame at an angle. */
function picture(
  cutter: BarCutter,
  angle: number,
  view: Pick<ViewRequestOnPaper, 'name' | 'title' | 'dimensions'> & { readonly extras: readonly ViewExtra[] },
): ViewRequestOnPaper {
  const { base } = cutter
  const stands = (key: string): boolean =>
    cutter.parts.some((part) => part.key === key) && !cutter.swinging.includes(key)
  const { lines, hatched, cut } = alongWire(cutter, stands)
  const shapes = cut.scene.boxes.map(({ min, max }): readonly Point[] => [
    { x: min.y, y: min.z },
    { x: max.y, y: min.z },
    { x: max.y, y: max.z },
    { x: min.y, y: max.z },
  ])
  const frames = swungFrame(cutter, angle)
  const edges = frames.flatMap((points) =>
    points.map((a, index) => ({ a, b: points[(index + 1) % points.length]! })),
  )
  const rails = railsOf(cutter, angle).flatMap((points) => closedLines('visible', points))
  const seen = behind(edges, shapes).map(({ a, b }): ViewExtra => ({ kind: 'line', class: 'visible', a, b }))
  const bench: ViewExtra = {
    kind: 'line',
    class: 'section',
    a: { x: -base.y[1], y: 0 },
    b: { x: -base.y[0] + BENCH, y: 0 },
  }
  return {
    ...view,
    lines: { ...lines, outline: around(lines, frames) },
    hatched,
    extras: [
      ...seen,
      ...rails,
      { kind: 'line', class: 'dimension', ...swungWire(cutter, angle) },
      bench,
      ...view.extras,
    ],
  }
}

/** The two rails, which the plane of the picture cuts: nothing that stands is before them. */
const railsOf = (cutter: BarCutter, angle: number): readonly (readonly Point[])[] => {
  const { frame, input } = cutter
  const top = frame.bottom + input.panels.frame.thickness
  return [frame.frontRail, frame.backRail].map(([near, far]) =>
    [
      { y: near, z: frame.bottom },
      { y: far, z: frame.bottom },
      { y: far, z: top },
      { y: near, z: top },
    ].map((corner) => swungPoint(cutter, corner, angle)),
  )
}

const around = ({ outline }: ViewLines, shapes: readonly (readonly Point[])[]): Rect => {
  const xs = shapes.flat().map(({ x }) => x)
  const ys = shapes.flat().map(({ y }) => y)
  const x = Math.min(outline.x, ...xs)
  const y = Math.min(outline.y, ...ys)
  return {
    x,
    y,
    width: Math.max(outline.x + outline.width, ...xs) - x,
    height: Math.max(outline.y + outline.height, ...ys) - y,
  }
}

/** The way of a hand, with the head of an arrow at its end. */
const arc = (cutter: BarCutter, from: number, to: number): readonly ViewExtra[] => {
  const points = handleArc(cutter, from, to)
  const line = (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: 'dimension', a, b })
  const end = points[points.length - 1]!
  const before = points[points.length - 2]!
  const way = Math.atan2(before.y - end.y, before.x - end.x)
  const barb = (turn: number): Point => ({
    x: end.x + BARB * Math.cos(way + turn),
    y: end.y + BARB * Math.sin(way + turn),
  })
  return [
    ...points.slice(1).map((point, index) => line(points[index]!, point)),
    line(end, barb(0.35)),
    line(end, barb(-0.35)),
  ]
}
/** m */
const BARB = 0.02
