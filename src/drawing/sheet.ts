/**
 * Arranges views on a drawing: lined up with each other by projection, details underneath.
 */
import { arrange, gap, rowWidth, type SetView, setGrid, setRows } from './arrange.ts'
import { lettering } from './lettering.ts'
import { boundsOf, moved, moveMark } from './mark-bounds.ts'
import { projectionSymbol, symbolSize } from './projection-symbol.ts'
import { fittingScale, onPaper, standardScales } from './scale.ts'
import { sheetSvg } from './svg.ts'
import {
  type Drawing,
  type DrawingStyle,
  type DrawnDimension,
  drawingStyle,
  type LengthFormatter,
  type Mark,
  type Projection,
  type Rect,
  type Scale,
} from './types.ts'
import { type PaperView, paperView, type ViewRequestOnPaper } from './view.ts'

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
  /** the page that it stands on states scale and projection for all its drawings */
  readonly framed?: boolean
  /** no view is drawn larger than this, so that the drawings of one fixture share a scale */
  readonly largestScale?: Scale
  /** never on two lines: whoever draws it tries another scale instead */
  readonly onOneLine?: true
  readonly format: LengthFormatter
  readonly style?: DrawingStyle
}

/** What stands on a sheet, without its name, scale and frame. */
export type SheetViews = Pick<SheetRequest, 'front' | 'top' | 'side' | 'details'>

/**
 * Draws a sheet.
 *
 * Formula: the largest standard scale at which views, details and foot fit the box; details as large as the room
 * that is left allows. Where that is no clear scale, notes and titles may go over two lines. Validity: when nothing
 * fits, the smallest scale is used and the drawing exceeds its box.
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
  // Scales are tried one after the other, and most views are the same from one trial to the next.
  const views = [request.front, request.top, request.side, ...request.details]
  const known = new Map<string, PaperView>()
  const viewAt =
    (isNarrow: boolean) =>
    (one: ViewRequestOnPaper, scale: Scale, isDetail: boolean): PaperView => {
      const key = `${views.indexOf(one)} ${scale.paper}:${scale.model}${isNarrow ? ' narrow' : ''}`
      const title = isDetail ? `${one.title} ${scaleText(scale)}` : one.title
      const room = isNarrow ? { room: box.width - 1 } : {}
      const made = known.get(key) ?? paperView({ ...one, title }, { scale, format, style, ...room })
      known.set(key, made)
      return made
    }
  const compose = (scale: Scale, detailScale: Scale, isNarrow: boolean) =>
    composeSheet(request, { scale, detailScale, style, viewAt: viewAt(isNarrow) })
  const largest = request.largestScale?.model ?? 1
  const smallestDetail = detailChoices[detailChoices.length - 1] ?? widest
  // Notes take time to place, so they are placed only where each view alone would fit.
  const bare = (one: Scale): Extent => {
    const sizes = [request.front, request.top, request.side].map((view) => view?.lines?.outline)
    const most = (side: keyof Extent) => onPaper(Math.max(0, ...sizes.map((size) => size?.[side] ?? 0)), one)
    return { width: most('width'), height: most('height') }
  }
  const drawn = (isNarrow: boolean): { readonly scale: Scale; readonly sheet: Sheet } => {
    const sizeAt = (one: Scale): Extent => {
      if (one.model < largest) return { width: Infinity, height: Infinity }
      const least = bare(one)
      return least.width > box.width || least.height > box.height
        ? least
        : compose(one, smallestDetail, isNarrow)
    }
    const scale = fittingScale(sizeAt, box)
    const detailSizeAt = (one: Scale): Extent =>
      compose(scale, one.model > scale.model ? scale : one, isNarrow)
    const detailScale = request.details.length === 0 ? scale : fittingScale(detailSizeAt, box)
    return { scale, sheet: compose(scale, detailScale.model > scale.model ? scale : detailScale, isNarrow) }
  }
  const onOneLine = drawn(false)
  const hasRoom = onOneLine.sheet.width <= box.width && onOneLine.scale.model <= SMALLEST_CLEAR
  const { scale, sheet } = hasRoom || request.onOneLine ? onOneLine : drawn(true)
  return {
    name: request.name,
    widthMm: sheet.width,
    heightMm: sheet.height,
    scale,
    dimensions: sheet.dimensions,
    label: request.label,
    ...sheetSvg({ ...sheet, label: request.label, name: request.name }),
  }
}

/** of 1:10; in a smaller drawing that is so for its notes alone, holes are specks */
const SMALLEST_CLEAR = 10

interface Extent {
  readonly width: number
  readonly height: number
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

interface Composition {
  readonly scale: Scale
  readonly detailScale: Scale
  readonly style: DrawingStyle
  readonly viewAt: (view: ViewRequestOnPaper, scale: Scale, isDetail: boolean) => PaperView
}

function composeSheet(request: SheetRequest, { scale, detailScale, style, viewAt }: Composition): Sheet {
  const view = (one: ViewRequestOnPaper | undefined) => one && viewAt(one, scale, false)
  const grid = arrange(request.projection, {
    front: view(request.front),
    top: view(request.top),
    side: view(request.side),
  })
  const main = setGrid(grid)
  const details = request.details.map((detail) => viewAt(detail, detailScale, true))
  const mainBounds =
    main.views.length > 0
      ? boundsOf(main.views.map(({ view: one, at }) => moved(one.extent, at)))
      : { x: 0, y: 0, width: 0, height: 0 }
  const width = Math.max(mainBounds.width, ...details.map((detail) => detail.extent.width))
  const below = setRows(details, Math.max(width, Math.min(request.box.width, rowWidth(details))))
  const drop = main.height + (main.views.length > 0 && details.length > 0 ? gap : 0)
  const left = main.views.length > 0 ? mainBounds.x : 0
  const all = [
    ...main.views,
    ...below.views.map(({ view: one, at }) => ({ view: one, at: { x: at.x + left, y: at.y - drop } })),
  ]
  const bounds = boundsOf(all.map(({ view: one, at }) => moved(one.extent, at)))
  const foot = request.framed
    ? []
    : footMarks({ request, scale, style, right: bounds.x + bounds.width, top: bounds.y - gap })
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

/** Dimensions of a view that is set on a sheet of a height, y down [mm]. */
export function drawnDimensions({ view, at }: SetView, height: number): readonly DrawnDimension[] {
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
