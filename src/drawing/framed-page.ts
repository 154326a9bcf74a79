/**
 * Pages of drawings: a frame, several drawings side by side in the order in which they are read, and one title block.
 */
import { lettering } from './lettering.ts'
import { moveMark } from './mark-bounds.ts'
import { projectionSymbol, symbolSize } from './projection-symbol.ts'
import { scaleText } from './sheet.ts'
import { marksSvg, placedSvg, svgElement } from './svg.ts'
import { textRuns } from './text-width.ts'
import {
  capitalHeight,
  type Drawing,
  type DrawnDimension,
  drawingStyle,
  type Mark,
  type Point,
  type Projection,
  type Rect,
} from './types.ts'

/** What the title block says; its words come from the text catalogue, its data from the sheet. */
export interface TitleBlock {
  readonly owner: TitleField
  readonly title: TitleField
  readonly documentType: TitleField
  readonly number: TitleField
  readonly date: TitleField
  readonly drawnBy: TitleField
  readonly approvedBy: TitleField
  readonly tolerance: TitleField
  readonly scale: string
  /** before the number of this drawing sheet, between it and their number */
  readonly sheet: string
  readonly of: string
}

/** A field with its small heading; one that is signed by hand has no text. */
export interface TitleField {
  readonly label: string
  readonly text: string
  /** the maker's own words or data */
  readonly maker?: boolean
}

export interface FramedPage {
  readonly svg: string
  readonly label: string
  /** names of the drawings that stand on it */
  readonly drawings: readonly string[]
  readonly dimensions: readonly (DrawnDimension & { readonly drawing: string })[]
}

/** Heights of the title block's rows, and what is kept between frame and drawings [mm]. */
const rowHeight = 8.5
const blockHeight = 2 * rowHeight
const padding = 1
const between = 7

/**
 * Room for one drawing inside the frame.
 *
 * Formula: the page less its title block and a margin all round. Validity: any page.
 * @param page room on paper [mm]
 * @returns the largest drawing that fits [mm]
 * @source common practice
 */
export const roomInFrame = (page: { readonly width: number; readonly height: number }) => ({
  width: page.width - 2 * padding,
  height: page.height - blockHeight - 2 * padding,
})

/**
 * Sets drawings on framed pages.
 *
 * Formula: rows from the upper left, a new row where the width is used up, a new page where the height is. Fields of the
 * title block as ISO 7200 names them (from memory): owner, title, type, number, date, creator, approval, sheet of sheets.
 * Validity: a drawing larger than the room stands alone.
 * @param drawings in reading order [mm]
 * @param options page [mm], title block and projection
 * @returns pages, each one svg of the whole room
 * @source iso-7200
 */
export function framedPages(
  drawings: readonly Drawing[],
  options: {
    readonly page: { readonly width: number; readonly height: number }
    readonly title: TitleBlock
    readonly projection: Projection
  },
): readonly FramedPage[] {
  const { page, title, projection } = options
  const pages = packed(drawings, roomInFrame(page))
  return pages.map((placed, index) => {
    const marks = frameMarks(page, {
      title,
      projection,
      scales: [...new Set(placed.map(({ drawing }) => scaleText(drawing.scale)))].join(', '),
      sheet: `${title.sheet} ${index + 1} ${title.of} ${pages.length}`,
    })
    const flip = ({ x, y }: Point): Point => ({ x, y: page.height - y })
    const body = placed.map(({ drawing, x, y }) => placedSvg(drawing.body, x + padding, y + padding))
    const label = placed.map(({ drawing }) => drawing.label).join('; ')
    return {
      label,
      svg: svgElement({
        width: page.width,
        height: page.height,
        label,
        body: `${body.join('')}<g class="title-block">${marksSvg(marks, flip)}</g>`,
      }),
      drawings: placed.map(({ drawing }) => drawing.name),
      dimensions: placed.flatMap(({ drawing, x, y }) =>
        drawing.dimensions.map((one) => ({
          ...one,
          drawing: drawing.name,
          box: { ...one.box, x: one.box.x + x + padding, y: one.box.y + y + padding },
        })),
      ),
    }
  })
}

interface PlacedDrawing {
  readonly drawing: Drawing
  /** of its upper left corner, in the room [mm, y down] */
  readonly x: number
  readonly y: number
}

/**
 * Rows of drawings; what is left of a row's and a page's room is shared out between them. A drawing goes back to a row or
 * a page before it where it still fits: an empty corner is worth more than the order of small parts.
 */
function packed(
  drawings: readonly Drawing[],
  room: { width: number; height: number },
): readonly (readonly PlacedDrawing[])[] {
  const high = (row: readonly Drawing[]): number => Math.max(...row.map(({ heightMm }) => heightMm))
  const wide = (row: readonly Drawing[]): number => row.reduce((sum, one) => sum + one.widthMm + between, 0)
  const tall = (page: readonly (readonly Drawing[])[]): number =>
    page.reduce((sum, row) => sum + high(row) + between, 0)
  const pages: Drawing[][][] = []
  for (const drawing of drawings) {
    const fitsBeside = (row: readonly Drawing[], page: readonly (readonly Drawing[])[]): boolean =>
      wide(row) + drawing.widthMm <= room.width &&
      tall(page) - between + Math.max(0, drawing.heightMm - high(row)) <= room.height
    const row = pages.flatMap((page) => page.filter((one) => fitsBeside(one, page)))[0]
    const page = pages.find((one) => tall(one) + drawing.heightMm <= room.height)
    if (row) row.push(drawing)
    else if (page) page.push([drawing])
    else pages.push([[drawing]])
  }
  return pages.map((page) => {
    const spareHeight = room.height - page.reduce((sum, row) => sum + high(row), 0)
    const gapY = Math.min(2 * between, spareHeight / (page.length + 1))
    let y = gapY
    return page.flatMap((row) => {
      const spare = room.width - row.reduce((sum, one) => sum + one.widthMm, 0)
      const gapX = spare / (row.length + 1)
      let x = gapX
      const set = row.map((drawing) => {
        const placed = { drawing, x, y }
        x += drawing.widthMm + gapX
        return placed
      })
      y += high(row) + gapY
      return set
    })
  })
}

interface Frame {
  readonly title: TitleBlock
  readonly projection: Projection
  readonly scales: string
  readonly sheet: string
}

/** y up, like every mark */
function frameMarks(
  { width, height }: { readonly width: number; readonly height: number },
  { title, projection, scales, sheet }: Frame,
): readonly Mark[] {
  const half = 0.25 // of a wide line, which stays on the page
  const box = (x: number, y: number, w: number, h: number): Mark => ({
    kind: 'outline',
    class: 'visible',
    closed: true,
    points: [
      { x, y },
      { x: x + w, y },
      { x: x + w, y: y + h },
      { x, y: y + h },
    ],
  })
  const line = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'dimension', a, b })
  const upper: readonly (readonly [number, TitleField])[] = [
    [0.4, title.title],
    [0.3, title.owner],
    [0.16, title.drawnBy],
    [0.14, title.approvedBy],
  ]
  const symbolShare = (symbolSize.width + 4) / width
  const rest = 1 - symbolShare
  const lower: readonly (readonly [number, TitleField])[] = [
    [0.19 * rest, title.documentType],
    [0.29 * rest, title.tolerance],
    [0.1 * rest, { label: title.scale, text: scales }],
    [0.18 * rest, title.date],
    [0.24 * rest, { label: title.number.label, text: `${title.number.text} · ${sheet}` }],
  ]
  const row = (fields: readonly (readonly [number, TitleField])[], y: number): Mark[] => {
    let x = 0
    return fields.flatMap(([share, field]) => {
      const cell: Rect = { x, y, width: share * width, height: rowHeight }
      x += cell.width
      return [...fieldMarks(field, cell), line({ x, y }, { x, y: y + rowHeight })]
    })
  }
  const corner = { x: width - symbolSize.width - 2, y: (rowHeight - symbolSize.height) / 2 }
  return [
    box(half, half, width - 2 * half, height - 2 * half),
    line({ x: 0, y: blockHeight }, { x: width, y: blockHeight }),
    line({ x: 0, y: rowHeight }, { x: width, y: rowHeight }),
    ...row(upper, rowHeight),
    ...row(lower, 0),
    ...projectionSymbol(projection).map((mark) => moveMark(mark, corner)),
  ]
}

const labelSize = 1.8 / capitalHeight // capitals of 1.8 mm, the smallest of ISO 3098 (from memory)
const smallest = 1.8 / capitalHeight

/** A small heading over its text; what is too long is set smaller, never cut. */
function fieldMarks({ label, text, maker = false }: TitleField, cell: Rect): readonly Mark[] {
  const room = cell.width - 2
  const set = (words: string, size: number, baseline: number, theirs: boolean): Mark => {
    const runs = textRuns(words)
    const probe = lettering({ class: 'note-text', runs, at: { x: 0, y: 0 }, turned: false, size })
    const fitting = Math.max(smallest * 0.7, Math.min(size, (size * room) / Math.max(probe.box.width, 1e-9)))
    const wide = (probe.box.width * fitting) / size
    return lettering({
      class: 'note-text',
      runs,
      at: { x: cell.x + 1 + wide / 2, y: baseline },
      turned: false,
      size: fitting,
      maker: theirs,
    })
  }
  return [
    set(label, labelSize, cell.y + cell.height - 2.4, false),
    ...(text === '' ? [] : [set(text, drawingStyle.textSize * 0.8, cell.y + 1.5, maker)]),
  ]
}
