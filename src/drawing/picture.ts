/**
 * Pictures at one scale: views side by side, larger or smaller than standard scales allow, without a title block.
 */
import { setRows } from './arrange.ts'
import { boundsOf, moved } from './mark-bounds.ts'
import { fittingScale, onPaper } from './scale.ts'
import { drawnDimensions, scaleText } from './sheet.ts'
import { sheetSvg } from './svg.ts'
import {
  capitalHeight,
  type Drawing,
  type DrawingStyle,
  drawingStyle,
  type LengthFormatter,
  type Scale,
} from './types.ts'
import { paperView, type ViewRequestOnPaper } from './view.ts'

/** Enlarging and reducing scales, largest first; those of ISO 5455 and steps between them for what is not measured. */
export const pictureScales: readonly Scale[] = [
  ...[5, 4, 3, 2].map((paper) => ({ paper, model: 1 })),
  ...[1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 15, 20].map((model) => ({ paper: 1, model })),
]

/** Smaller letters than on a drawing that is measured: capitals of 2.5 mm, the smallest ISO 3098 step for print (from memory). */
export const pictureStyle: DrawingStyle = {
  ...drawingStyle,
  textSize: 2.5 / capitalHeight,
  titleSize: 3 / capitalHeight,
  arrowLength: 2.2,
  arrowWidth: 0.75,
}

export interface PictureRequest {
  readonly name: string
  /** what it shows, for readers who cannot see it */
  readonly label: string
  readonly views: readonly ViewRequestOnPaper[]
  /** room there is [mm] */
  readonly box: { readonly width: number; readonly height: number }
  /** no view is drawn larger than this */
  readonly largestScale?: Scale
  readonly format: LengthFormatter
}

/**
 * Sets views in rows.
 *
 * Formula: the largest scale at which all rows fit the box; views of a row stand on one line at their upper ends; notes and
 * titles over two lines where they are too wide at every scale. Validity: see the scale.
 * @param request views, box [mm] and formatter
 * @returns the drawing; each title ends with the scale where it ends with a comma [mm]
 * @source common practice
 */
export function pictureDrawing(request: PictureRequest): Drawing {
  const { name, label, box, format } = request
  const style = pictureStyle
  const ratio = ({ paper, model }: Scale): number => paper / model
  const scales = pictureScales.filter(
    (scale) => !request.largestScale || ratio(scale) <= ratio(request.largestScale),
  )
  const set = (scale: Scale, isNarrow: boolean) => {
    const views = request.views.map((view) =>
      paperView(
        { ...view, title: view.title.endsWith(',') ? `${view.title} ${scaleText(scale)}` : view.title },
        { scale, format, style, ...(isNarrow ? { room: box.width - 1 } : {}) },
      ),
    )
    const rows = setRows(views, box.width - 1).views
    return { rows, total: boundsOf(rows.map(({ view, at }) => moved(view.extent, at))) }
  }
  // Notes take time to place, so they are placed only where each view alone would fit.
  const bare = (scale: Scale) => ({
    width: Math.max(0, ...request.views.map((view) => onPaper(bareSize(view).width, scale))),
    height: Math.max(0, ...request.views.map((view) => onPaper(bareSize(view).height, scale))),
  })
  const drawn = (isNarrow: boolean) => {
    const known = new Map<Scale, ReturnType<typeof set>>()
    const at = (scale: Scale) => {
      const before = known.get(scale) ?? set(scale, isNarrow)
      known.set(scale, before)
      return before
    }
    const scale = fittingScale(
      (one) => {
        const least = bare(one)
        if (least.width > box.width || least.height > box.height) return least
        const { total } = at(one)
        return { width: total.width + 1, height: total.height + 1 }
      },
      box,
      scales,
    )
    return { scale, ...at(scale) }
  }
  const onOneLine = drawn(false)
  const isTooWide = onOneLine.total.width + 1 > box.width
  const { scale, rows, total } = isTooWide ? drawn(true) : onOneLine
  const lower = { x: 0.5 - total.x, y: 0.5 - total.y }
  const views = rows.map(({ view, at }) => ({ view, at: { x: at.x + lower.x, y: at.y + lower.y } }))
  const size = { width: total.width + 1, height: total.height + 1 }
  const dimensions = views.flatMap((one) => drawnDimensions(one, size.height))
  const sheet = { views, foot: [], ...size, style, dimensions }
  return {
    name,
    label,
    widthMm: size.width,
    heightMm: size.height,
    scale,
    dimensions,
    ...sheetSvg({ ...sheet, name, label }),
  }
}

/** Of a view without its notes [m]. */
const bareSize = ({ lines, cut }: ViewRequestOnPaper): { readonly width: number; readonly height: number } =>
  lines?.outline ?? cut?.region ?? { width: 0, height: 0 }
