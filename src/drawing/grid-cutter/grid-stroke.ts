/**
 * The stroke in section: before the wires touch, at a mark half way, and at its end, with the sizes that hands meet.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import { cutSceneAt } from '../cut-scene.ts'
import type { DimensionRequest, LinearRequest, Side } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import { type RowOfViews, rowOfViews } from '../row-of-views.ts'
import type { Span } from '../spans.ts'
import type { LengthFormatter, Point, Rect, Scale } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import { gridScene, loavesOf, wireFromSide } from './grid-scene.ts'
import type { GridDrawingWords } from './grid-words.ts'

const SCALES: readonly Scale[] = [5, 6, 7, 8, 10, 12, 15, 20, 30, 50].map((model) => ({ paper: 1, model }))

/**
 * Three sections side by side.
 *
 * Formula: the frame lifted by what is left of its stroke; wires straight before they touch and bowed by their lag from
 * then on. Validity: a level frame.
 * @param cutter as designed [m]
 * @param words titles and label
 * @param options width of the row [mm], and how lengths are written
 * @returns an svg, and the sizes that it shows
 * @source common practice
 */
export function gridStroke(
  cutter: GridCutter,
  words: GridDrawingWords,
  { width, format }: { readonly width: number; readonly format: LengthFormatter },
): RowOfViews {
  return rowOfViews([atStart(cutter, words), atMark(cutter, words), atEnd(cutter, words)], {
    name: 'stroke',
    label: words.labels['grid-stroke'] ?? '',
    width,
    height: 130,
    format,
    titlesAtFoot: true,
    scales: SCALES,
  })
}

type Place = readonly [number, number]

const linear = (name: string, side: Side, [x, y]: Place, [toX, toY]: Place): LinearRequest => ({
  kind: 'linear',
  name: `stroke.${name}`,
  side,
  from: { x, y },
  to: { x: toX, y: toY },
})

/** The frame with its skirt on the block, its lower wires just above it. */
function atStart(cutter: GridCutter, words: GridDrawingWords): ViewRequestOnPaper {
  const { stroke, hands, outside, guide, edgeAtEnd } = cutter
  const left = -outside.width / 2
  const top = edgeAtEnd + stroke + guide.depth
  return strokeView(cutter, {
    name: 'start',
    title: words.use.start ?? '',
    lift: stroke,
    share: 0,
    dimensions: [
      linear('skirt', 'left', [left, edgeAtEnd + stroke], [left, top]),
      linear('hands-start', 'left', [left, 0], [left, hands.start]),
    ],
  })
}

/** Half way: as far down as one of the lines on the mark sticks says. */
function atMark(cutter: GridCutter, words: GridDrawingWords): ViewRequestOnPaper {
  const { stroke, outside, marks, hands } = cutter
  const mark = marks[Math.floor(marks.length / 2)] ?? { travel: 0, height: hands.start }
  const lift = stroke - mark.travel
  const left = -outside.width / 2
  return strokeView(cutter, {
    name: 'mark',
    title: words.use.mark ?? '',
    lift,
    share: 1,
    dimensions: [linear('mark', 'left', [left, 0], [left, mark.height])],
  })
}

function atEnd(cutter: GridCutter, words: GridDrawingWords): ViewRequestOnPaper {
  const { hands, outside, edgeAtEnd, input } = cutter
  const { base, block } = input.mould
  const right = outside.width / 2
  const top = base.height + block.setHeight
  return strokeView(cutter, {
    name: 'end',
    title: words.use.end ?? '',
    lift: 0,
    share: 1,
    dimensions: [
      linear('knuckles', 'left', [-right, 0], [-right, edgeAtEnd]),
      linear('reach', 'right', [right, base.height], [right, hands.end]),
      linear('standing', 'right', [right, hands.end], [right, top]),
    ],
  })
}

interface Moment {
  readonly name: string
  readonly title: string
  readonly lift: number
  /** of the wires' lag */
  readonly share: number
  readonly dimensions: readonly DimensionRequest[]
}

function strokeView(
  cutter: GridCutter,
  { name, title, lift, share, dimensions }: Moment,
): ViewRequestOnPaper {
  const across = cutter.wires.filter(({ runs }) => runs === 'width')
  const plane = across[Math.floor(across.length / 2)]?.at ?? 0
  const scene = gridScene(cutter, { lift, base: true, hardware: false })
  const cut = cutSceneAt(scene, plane)
  const lines = projectScene({ scene: cut.scene, viewpoint: 'right', showHidden: [] })
  const wood = (base: boolean) =>
    cut.wood.filter(({ key }) => isOfBase(key) === base).flatMap(({ rects }) => rects)
  return {
    name,
    title,
    lines: { ...lines, outline: withBlock(cutter, lines.outline) },
    hatched: [wood(false), wood(true)],
    extras: [
      stand(cutter),
      ...soap(cutter),
      ...(across[0] ? wireFromSide(across[0], share, lift).map(thin) : []),
    ],
    dimensions,
  }
}

const isOfBase = (key: string): boolean => key === 'base-top' || key === 'rail'

/** The outline of a view reaches to the top of the block, so that dimensions stay clear of it. */
function withBlock({ input }: GridCutter, outline: Rect): Rect {
  const { base, block } = input.mould
  const top = Math.max(outline.y + outline.height, base.height + block.setHeight)
  return { ...outline, height: top - outline.y }
}

const thin = (span: Span): ViewExtra => ({ kind: 'line', class: 'dimension', ...span })

/** The stand that everything stands on in the end. */
const stand = ({ outside }: GridCutter): ViewExtra => {
  const half = 0.62 * outside.width
  return { kind: 'line', class: 'visible', a: { x: -half, y: 0 }, b: { x: half, y: 0 } }
}

/** Outline of the block, and where it is cut. */
function soap(cutter: GridCutter): readonly ViewExtra[] {
  const loaves = loavesOf(cutter).filter(({ column }) => column === 0)
  const line = (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: 'phantom', a, b })
  const [low, high] = [loaves[0]?.min.z ?? 0, loaves[0]?.max.z ?? 0]
  const ys = [...loaves.map(({ min }) => min.y), loaves[loaves.length - 1]?.max.y ?? 0]
  return [
    ...ys.map((y) => line({ x: y, y: low }, { x: y, y: high })),
    line({ x: ys[0] ?? 0, y: high }, { x: ys[ys.length - 1] ?? 0, y: high }),
  ]
}
