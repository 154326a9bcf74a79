/**
 * Places views beside and under each other.
 */
import type { Point, Projection } from './types.ts'
import type { PaperView } from './view.ts'

/** A view and where its own origin goes on the sheet, y up [mm]. */
export interface SetView {
  readonly view: PaperView
  readonly at: Point
}

export const gap = 5 // mm between neighbouring views with their dimensions

type Grid = readonly (readonly (PaperView | undefined)[])[]

/** Third angle: what is seen from above stands above. First angle: it stands below. The side view is from the right. */
export function arrange(
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

/** Sets lined-up views, from the upper left corner at 0, 0 [mm]. */
export function setGrid(grid: Grid): {
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

/** Width of views in one row [mm]. */
export const rowWidth = (views: readonly PaperView[]): number =>
  views.reduce((sum, view) => sum + view.extent.width + gap, -gap)

/** Sets views in rows of a width, from the upper left corner at 0, 0 [mm]. */
export function setRows(views: readonly PaperView[], width: number) {
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
