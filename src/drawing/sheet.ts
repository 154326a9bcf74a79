/**
 * Arranges views on a drawing: lined up with each other by projection, details underneath.
 */
import { lettering } from './lettering.ts'
import { projectionSymbol, symbolSize } from './projection-symbol.ts'
import { fittingScale, standardScales } from './scale.ts'
import { sheetSvg } from './svg.ts'
import {
  type Drawing,
  type DrawingStyle,
  type DrawnDimension,
  drawingStyle,
  type LengthFormatter,
  type Mark,
  type Point,
  type Projection,
  type Rect,
  type Scale,
} from './types.ts'
import { boundsOf, type PaperView, paperView, type ViewRequestOnPaper } from './view.ts'

export interface SheetRequest {
  readonly name: string
  /** what the drawing shows, for readers who cannot see it */
  readonly label: string
  /** the word before the scale */
  readonly scaleWord: string
  /** views that are lined up with each other; top and front share their width, front and side their height */
  readonly front?: ViewRequestOnPaper
  readonly top?: ViewRequestOnPaper
  readonly side?: ViewRequestOnPaper
  /** enlarged views with a scale of their own, set in rows underneath */
  readonly details: readonly ViewRequestOnPaper[]
  /** room there is [mm] */
  readonly box: { readonly width: number; readonly height: number }
  readonly projection: Projection
  /** no view is drawn larger than this, so that the drawings of one fixture share a scale */
  readonly largestScale?: Scale
  readonly format: LengthFormatter
  readonly style?: DrawingStyle
}

/**
 * Draws a sheet.
 *
 * Formula: the largest standard scale at which views, details and foot fit the box; details as large as the room
 * that is left allows. Validity: when nothing fits, the smallest scale is used and the drawing exceeds its box.
 * @param request views, details, box [mm], projection and formatter
 * @returns the drawing [mm]
 * @source common practice
 */
export function drawSheet(request: SheetRequest): Drawing {
  const { box, format } = request
  const style = request.style ?? drawingStyle
  const widest = standardScales[standardScales.length - 1]!
  // Details take what is left, so the main scale is chosen with the details at their smallest useful size first.
  const detailChoices = standardScales.filter((scale) => scale.model <= 5)
  const compose = (scale: Scale, detailScale: Scale) =>
    composeSheet(request, { scale, detailScale, format, style })
  const largest = request.largestScale?.model ?? 1
  const smallestDetail = detailChoices[detailChoices.length - 1] ?? widest
  const sizeAt = (one: Scale) =>
    one.model < largest ? { width: Infinity, height: Infinity } : compose(one, smallestDetail)
  const scale = fittingScale(sizeAt, box)
  const detailScale =
    request.details.length === 0
      ? scale
      : fittingScale((one) => (one.model > scale.model ? compose(scale, scale) : compose(scale, one)), box)
  const sheet = compose(scale, detailScale.model > scale.model ? scale : detailScale)
  return {
    name: request.name,
    widthMm: sheet.width,
    heightMm: sheet.height,
    scale,
    dimensions: sheet.dimensions,
    svg: sheetSvg({ ...sheet, label: request.label, name: request.name }),
  }
}

/** A view and where its own origin goes on the sheet, y up [mm]. */
export interface SetView {
  readonly view: PaperView
  readonly at: Point
}

/** All that is on the sheet, from its lower left corner, y up [mm]. */
export interface Sheet {
  readonly views: readonly SetView[]
  readonly foot: readonly Mark[]
  readonly width: number
  readonly height: number
  readonly style: DrawingStyle
  readonly dimensions: readonly DrawnDimension[]
}

const gap = 5 // mm between neighbouring views with their dimensions

interface Composition {
  readonly scale: Scale
  readonly detailScale: Scale
  readonly format: LengthFormatter
  readonly style: DrawingStyle
}

function composeSheet(request: SheetRequest, { scale, detailScale, format, style }: Composition): Sheet {
  const view = (one: ViewRequestOnPaper | undefined) => one && paperView(one, { scale, format, style })
  const grid = arrange(request.projection, {
    front: view(request.front),
    top: view(request.top),
    side: view(request.side),
  })
  const main = setGrid(grid)
  const details = request.details.map((detail) =>
    paperView(
      { ...detail, title: `${detail.title} ${scaleText(detailScale)}` },
      { scale: detailScale, format, style },
    ),
  )
  const mainBounds = boundsOf(main.views.map(({ view: one, at }) => moved(one.extent, at)))
  const width = Math.max(mainBounds.width, ...details.map((detail) => detail.extent.width))
  const below = setRows(details, Math.max(width, Math.min(request.box.width, rowWidth(details))))
  const drop = main.height + (main.views.length > 0 && details.length > 0 ? gap : 0)
  const left = main.views.length > 0 ? mainBounds.x : 0
  const all = [
    ...main.views,
    ...below.views.map(({ view: one, at }) => ({ view: one, at: { x: at.x + left, y: at.y - drop } })),
  ]
  const bounds = boundsOf(all.map(({ view: one, at }) => moved(one.extent, at)))
  const foot = footMarks({ request, scale, style, right: bounds.x + bounds.width, top: bounds.y - gap })
  const total = boundsOf([bounds, ...foot.map((mark) => mark.box)])
  const lower = { x: -total.x + 0.5, y: -total.y + 0.5 }
  const height = total.height + 1
  const views = all.map((one) => ({ ...one, at: { x: one.at.x + lower.x, y: one.at.y + lower.y } }))
  return {
    views,
    foot: foot.flatMap((one) => one.marks).map((mark) => moveMark(mark, lower)),
    width: total.width + 1,
    height,
    style,
    dimensions: views.flatMap((one) => drawnDimensions(one, height)),
  }
}

type Grid = readonly (readonly (PaperView | undefined)[])[]

/** Third angle: what is seen from above stands above. First angle: it stands below. The side view is from the right. */
function arrange(
  projection: Projection,
  { front, top, side }: { readonly front?: PaperView; readonly top?: PaperView; readonly side?: PaperView },
): Grid {
  const grid: Grid =
    projection === 'third-angle'
      ? [
          [top, undefined],
          [front, side],
        ]
      : [
          [side, front],
          [undefined, top],
        ]
  const rows = grid.filter((row) => row.some((one) => one))
  const columns = [0, 1].filter((column) => rows.some((row) => row[column]))
  return rows.map((row) => columns.map((column) => row[column]))
}

interface Margins {
  readonly before: number
  readonly size: number
  readonly after: number
}

function setGrid(grid: Grid): {
  readonly views: readonly SetView[]
  readonly height: number
} {
  const columns = (grid[0] ?? []).map((_, column) =>
    margins(
      grid.map((row) => row[column]),
      (view) => {
        const { outline, extent } = view
        // Where the next place in the row is empty, dimensions may reach into it.
        const row = grid.find((one) => one[column] === view) ?? []
        const isFree = (neighbour: number) => neighbour in row && row[neighbour] === undefined
        return {
          before: isFree(column - 1) ? 0 : outline.x - extent.x,
          size: outline.width,
          after: isFree(column + 1) ? 0 : extent.x + extent.width - outline.x - outline.width,
        }
      },
    ),
  )
  const rows = grid.map((row) =>
    margins(row, ({ outline, extent }) => ({
      before: outline.y - extent.y,
      size: outline.height,
      after: extent.y + extent.height - outline.y - outline.height,
    })),
  )
  const views: SetView[] = []
  let y = 0
  grid.forEach((row, rowIndex) => {
    const high = rows[rowIndex]!
    y -= high.after + high.size
    let x = 0
    row.forEach((view, column) => {
      const wide = columns[column]!
      x += wide.before
      if (view) views.push({ view, at: { x: x - view.outline.x, y: y - view.outline.y } })
      x += wide.size + wide.after + gap
    })
    y -= high.before + gap
  })
  const sum = (list: readonly Margins[]) =>
    list.reduce((total, one) => total + one.before + one.size + one.after + gap, list.length > 0 ? -gap : 0)
  return { views, height: sum(rows) }
}

function margins(views: readonly (PaperView | undefined)[], of: (view: PaperView) => Margins): Margins {
  const all = views.filter((view) => view !== undefined).map(of)
  return {
    before: Math.max(0, ...all.map((one) => one.before)),
    size: Math.max(0, ...all.map((one) => one.size)),
    after: Math.max(0, ...all.map((one) => one.after)),
  }
}

const rowWidth = (views: readonly PaperView[]): number =>
  views.reduce((sum, view) => sum + view.extent.width + gap, -gap)

function setRows(views: readonly PaperView[], width: number) {
  const set: SetView[] = []
  let x = 0
  let top = 0
  let low = 0
  for (const view of views) {
    if (x > 0 && x + view.extent.width > width) {
      x = 0
      top = low - gap
    }
    set.push({ view, at: { x: x - view.extent.x, y: top - view.extent.y - view.extent.height } })
    x += view.extent.width + gap
    low = Math.min(low, top - view.extent.height)
  }
  return { views: set }
}

export const scaleText = ({ paper, model }: Scale): string => `${paper}:${model}`

interface Foot {
  readonly request: SheetRequest
  readonly scale: Scale
  readonly style: DrawingStyle
  readonly right: number
  readonly top: number
}

/** Scale and projection symbol, flush right under the views. */
function footMarks({
  request,
  scale,
  style,
  right,
  top,
}: Foot): readonly { marks: readonly Mark[]; box: Rect }[] {
  const corner = { x: right - symbolSize.width, y: top - symbolSize.height }
  const text = lettering({
    class: 'note-text',
    runs: [{ kind: 'plain', text: `${request.scaleWord} ${scaleText(scale)}` }],
    at: { x: 0, y: corner.y + symbolSize.height / 2 - 0.357 * style.textSize },
    turned: false,
    size: style.textSize,
  })
  const shift = corner.x - gap - text.box.width / 2
  const parts = [{ marks: [moveMark(text, { x: shift, y: 0 })], box: moved(text.box, { x: shift, y: 0 }) }]
  const views = [request.front, request.top, request.side].filter((one) => one).length
  return views < 2
    ? parts
    : [
        ...parts,
        {
          marks: projectionSymbol(request.projection).map((mark) => moveMark(mark, corner)),
          box: { ...corner, ...symbolSize },
        },
      ]
}

function drawnDimensions({ view, at }: SetView, height: number): readonly DrawnDimension[] {
  const flip = (rect: Rect): Rect => {
    const box = moved(rect, at)
    return { x: box.x, y: height - box.y - box.height, width: box.width, height: box.height }
  }
  return view.dimensions.flatMap((one): readonly DrawnDimension[] =>
    one.values
      ? one.values.map((value, index) => ({
          ...value,
          locates: index === 0 ? one.locates : [],
          box: flip(value.box),
        }))
      : [
          {
            name: one.name,
            value: one.value,
            shown: one.shown,
            locates: one.locates,
            box: flip(one.text.box),
          },
        ],
  )
}

const moved = (rect: Rect, by: Point): Rect => ({ ...rect, x: rect.x + by.x, y: rect.y + by.y })

/** The mark moved across the paper [mm]. */
export function moveMark(mark: Mark, by: Point): Mark {
  const point = ({ x, y }: Point): Point => ({ x: x + by.x, y: y + by.y })
  switch (mark.kind) {
    case 'line':
      return { ...mark, a: point(mark.a), b: point(mark.b) }
    case 'outline':
    case 'arrow':
      return { ...mark, points: mark.points.map(point) }
    case 'circle':
      return { ...mark, centre: point(mark.centre) }
    case 'text':
      return { ...mark, at: point(mark.at), box: moved(mark.box, by) }
  }
}
