/**
 * Pictures of the grid cutter's use: laid over the block, pushed to its stop, the first loaf on its way out.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import type { Box } from '../../geometry/placement.ts'
import { axonometricLines, type Path } from '../exploded/axonometric.ts'
import { isometric } from '../exploded/shadows.ts'
import { thinnedLines } from '../exploded/thin-lines.ts'
import { lettering } from '../lettering.ts'
import { arrow } from '../linear-dimension.ts'
import { boundsOf, markBox, moveMark } from '../mark-bounds.ts'
import { fittingScale, onPaper } from '../scale.ts'
import type { Scene } from '../scene.ts'
import type { Span } from '../spans.ts'
import { figureSvg } from '../svg.ts'
import { type DrawingStyle, drawingStyle, type Mark, type Point, type Scale } from '../types.ts'
import { edgesOf, gridScene, type Loaf, loavesOf } from './grid-scene.ts'
import type { GridDrawingWords } from './grid-words.ts'

/** One picture: where the frame is, what soap stands there, and where hands push. */
interface Moment {
  readonly title: string
  readonly lift: number
  readonly soap: readonly Box[]
  readonly pushed: boolean
}

/** For pictures that are looked at and not measured. */
const SCALES: readonly Scale[] = [4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 18, 20, 25, 30, 40, 50].map(
  (model) => ({ paper: 1, model }),
)
const STYLE: DrawingStyle = { ...drawingStyle, textSize: 3.4, titleSize: 3.4 }
const BETWEEN = 4 // mm
const LEAST_GAP = 0.5 // mm between lines that are told apart

/**
 * Three pictures side by side.
 *
 * Formula: the frame lifted by its stroke and a part of its skirt; at its end; the same with a corner loaf lifted.
 * Validity: any cutter; the largest scale at which all three stand in one row.
 * @param cutter as designed [m]
 * @param words titles and label
 * @param width of the row [mm]
 * @returns an svg of that width at most
 * @source common practice
 */
export function gridUsePictures(cutter: GridCutter, words: GridDrawingWords, width: number): string {
  const moments = momentsOf(cutter, words)
  const drawn = moments.map((moment) => ({ moment, lines: linesOf(cutter, moment) }))
  const compose = (scale: Scale) =>
    drawn.map(({ moment, lines }) => pictureMarks(cutter, moment, lines, scale))
  const bounds = (marks: readonly Mark[]) => boundsOf(marks.map(markBox))
  const sizeAt = (scale: Scale) => {
    const pictures = compose(scale).map(bounds)
    return {
      width: pictures.reduce((sum, one) => sum + one.width + BETWEEN, -BETWEEN),
      height: Math.max(...pictures.map(({ height }) => height)),
    }
  }
  const scale = fittingScale(sizeAt, { width: width - 1, height: 110 }, SCALES)
  const pictures = compose(scale)
  const size = sizeAt(scale)
  let x = 0.5
  const marks = pictures.flatMap((own) => {
    const box = bounds(own)
    const by = { x: x - box.x, y: 0.5 - box.y }
    x += box.width + BETWEEN
    return own.map((mark) => moveMark(mark, by))
  })
  return figureSvg({
    name: 'grid-use',
    label: words.labels['grid-use'] ?? '',
    width: size.width + 1,
    height: size.height + 1,
    view: 'isometric',
    marks,
  })
}

function momentsOf(cutter: GridCutter, words: GridDrawingWords): readonly Moment[] {
  const loaves = loavesOf(cutter)
  const { base, block } = cutter.input.mould
  const title = (key: string, index: number) => `${index}  ${words.use[key] ?? ''}`
  const whole: Box = {
    min: loaves[0]?.min ?? { x: 0, y: 0, z: base.height },
    max: loaves[loaves.length - 1]?.max ?? { x: 0, y: 0, z: base.height + block.setHeight },
  }
  const columns = Math.max(...loaves.map(({ column }) => column))
  const isFirst = ({ column, row }: Loaf) => column === columns && row === 0
  const up = 0.75 * block.setHeight
  return [
    {
      title: title('laid', 1),
      lift: cutter.stroke + 0.4 * cutter.guide.depth,
      soap: [whole],
      pushed: true,
    },
    { title: title('through', 2), lift: 0, soap: loaves, pushed: false },
    {
      title: title('first-out', 3),
      lift: 0,
      soap: loaves.map((loaf) => (isFirst(loaf) ? raisedBox(loaf, up) : loaf)),
      pushed: false,
    },
  ]
}

const raisedBox = ({ min, max }: Box, by: number): Box => ({
  min: { ...min, z: min.z + by },
  max: { ...max, z: max.z + by },
})

interface Lines {
  readonly wood: readonly Span[]
  readonly curves: readonly (readonly Point[])[]
  readonly soap: readonly Span[]
  readonly wires: readonly Span[]
}

function linesOf(cutter: GridCutter, { lift, soap }: Moment): Lines {
  const frame = gridScene(cutter, { lift, base: true })
  const boxes = [...frame.boxes, ...soap.map((box) => ({ key: 'block', ...box }))]
  const wood: Scene = { ...frame, boxes }
  const wires = cutter.wires.map(({ runs, at, half, height }): Path => {
    const z = height + lift
    return runs === 'width'
      ? { a: { x: at, y: -half, z }, b: { x: at, y: half, z } }
      : { a: { x: -half, y: at, z }, b: { x: half, y: at, z } }
  })
  const seen = axonometricLines(wood, wires)
  const ofSoap: Scene = {
    boxes,
    rounds: frame.rounds,
    bores: [],
    edges: soap.flatMap((box) => edgesOf(box).map((edge) => ({ key: 'block', ...edge }))),
  }
  // Rims of the hardware are drawn once, with the wood.
  return {
    wood: seen.visible,
    curves: seen.curves,
    wires: seen.paths,
    soap: axonometricLines(ofSoap).visible,
  }
}

function pictureMarks(cutter: GridCutter, moment: Moment, lines: Lines, scale: Scale): readonly Mark[] {
  const paper = onPaper(1, scale)
  const toPaper = ({ x, y }: Point): Point => ({ x: x * paper, y: y * paper })
  const onSheet = ({ a, b }: Span): Span => ({ a: toPaper(a), b: toPaper(b) })
  const wood = thinnedLines(lines.wood.map(onSheet), LEAST_GAP)
  const soap = thinnedLines(lines.soap.map(onSheet), LEAST_GAP, wood)
  const marks: readonly Mark[] = [
    ...wood.map(({ a, b }): Mark => ({ kind: 'line', class: 'dimension', a, b })),
    ...lines.curves.map(
      (points): Mark => ({ kind: 'outline', class: 'dimension', closed: false, points: points.map(toPaper) }),
    ),
    ...soap.map(({ a, b }): Mark => ({ kind: 'line', class: 'visible', a, b })),
    ...lines.wires.map(onSheet).map(({ a, b }): Mark => ({ kind: 'line', class: 'extension', a, b })),
    ...(moment.pushed ? pushes(cutter, moment.lift, toPaper) : []),
  ]
  const box = boundsOf(marks.map(markBox))
  const title = lettering({
    class: 'view-title',
    runs: [{ kind: 'plain', text: moment.title }],
    at: { x: box.x + box.width / 2, y: box.y - 1.6 * STYLE.titleSize },
    turned: false,
    size: STYLE.titleSize,
  })
  return [...marks, title]
}

/** An arrow down on each handle. */
function pushes(cutter: GridCutter, lift: number, toPaper: (point: Point) => Point): readonly Mark[] {
  const { outside, input, edgeAtEnd } = cutter
  const x = outside.length / 2 - input.handle / 2
  const y = outside.width / 2 - input.panels.side.thickness / 2
  const z = edgeAtEnd + outside.height + lift
  return [-1, 1].flatMap((right) =>
    [-1, 1].flatMap((back): Mark[] => {
      const tip = toPaper(isometric({ x: right * x, y: back * y, z }))
      const from = { x: tip.x, y: tip.y + 8 }
      return [
        { kind: 'line', class: 'visible', a: { x: tip.x, y: tip.y + 2 }, b: from },
        arrow(tip, from, STYLE),
      ]
    }),
  )
}
