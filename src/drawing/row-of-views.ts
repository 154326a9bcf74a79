/**
 * Views side by side on one floor, as a figure among the text: what one does with a fixture, one moment after the other.
 */
import { setRows } from './arrange.ts'
import { lettering } from './lettering.ts'
import { boundsOf, moved } from './mark-bounds.ts'
import { fittingScale } from './scale.ts'
import { sheetSvg } from './svg.ts'
import { type DrawingStyle, drawingStyle, type LengthFormatter, type Scale } from './types.ts'
import { paperView, type ViewRequestOnPaper } from './view.ts'

export interface RowOfViews {
  readonly svg: string
  readonly dimensions: readonly { readonly name: string; readonly value: number; readonly shown: string }[]
}

const SCALES: readonly Scale[] = [2, 3, 4, 5, 6, 7, 8, 10, 12, 15, 18, 20, 25, 30, 50].map((model) => ({
  paper: 1,
  model,
}))
const STYLE: DrawingStyle = { ...drawingStyle, textSize: 3.9, titleSize: 3.6, firstRow: 7, nextRow: 6 }

/**
 * Sets the views in one row.
 *
 * Formula: the largest scale at which all stand beside each other. Validity: views that are drawn over one floor.
 * @param requests views [m]
 * @param options  name and label, room [mm], and how lengths are written
 * @returns an svg, and the sizes that it shows
 * @source common practice
 */
export function rowOfViews(
  requests: readonly ViewRequestOnPaper[],
  options: {
    readonly name: string
    readonly label: string
    readonly width: number
    readonly height: number
    readonly format: LengthFormatter
    /** titles in one line at the foot, for views that begin at different heights; else each right under its view */
    readonly titlesAtFoot?: true
    readonly scales?: readonly Scale[]
  },
): RowOfViews {
  const { name, label, width, height, format, titlesAtFoot = false, scales = SCALES } = options
  const at = (scale: Scale) => {
    const { views } = setRows(
      requests.map((request) =>
        paperView(titlesAtFoot ? { ...request, title: '' } : request, { scale, format, style: STYLE }),
      ),
      Number.POSITIVE_INFINITY,
    )
    return { views, extent: boundsOf(views.map(({ view, at: place }) => moved(view.extent, place))) }
  }
  const scale = fittingScale((one) => at(one).extent, { width: width - 1, height }, scales)
  const { views, extent } = at(scale)
  const low = Math.min(...views.map(({ view }) => view.extent.y)) - (titlesAtFoot ? 2 * STYLE.titleSize : 0)
  const high = Math.max(...views.map(({ view }) => view.extent.y + view.extent.height))
  const set = views.map(({ view, at: place }) => ({
    view,
    at: { x: place.x + 0.5 - extent.x, y: 0.5 - low },
  }))
  const foot = set.map(({ view, at: place }, index) =>
    lettering({
      class: 'view-title',
      runs: [{ kind: 'plain', text: requests[index]?.title ?? '' }],
      at: { x: place.x + view.outline.x + view.outline.width / 2, y: 0.5 + 0.5 * STYLE.titleSize },
      turned: false,
      size: STYLE.titleSize,
    }),
  )
  return {
    svg: sheetSvg({
      name,
      label,
      views: set,
      foot: titlesAtFoot ? foot : [],
      width: extent.width + 1,
      height: high - low + 1,
      style: STYLE,
      dimensions: [],
    }).svg,
    dimensions: views.flatMap(({ view }) =>
      // a note of words alone has no size
      view.dimensions
        .filter(({ shown }) => shown !== '')
        .map(({ name: own, value, shown }) => ({ name: own, value, shown })),
    ),
  }
}
