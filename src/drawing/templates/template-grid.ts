/**
 * Divides the face of a part into tiles that fit the paper, so that as few as possible carry all its features.
 */

import type { Rect } from '../types.ts'
import type { TemplateShape } from './template-features.ts'

/** mm by which neighbouring tiles overlap */
export const OVERLAP = 10

/** mm around a feature that stay on its tile, for lettering and the arms of crosses */
const CLEAR = 8

/** A stretch of the part [mm from the datum edge]. */
export interface Stretch {
  readonly from: number
  readonly to: number
}

export interface GridTile {
  /** row letter and column number, counted from the datum corner: A1 holds it */
  readonly name: string
  readonly row: number
  readonly column: number
  /** of the part's face [mm] */
  readonly rect: Rect
}

export interface TileGrid {
  /** true when the part lies a quarter turn anticlockwise on the paper */
  readonly turned: boolean
  readonly columns: readonly Stretch[]
  readonly rows: readonly Stretch[]
  readonly tiles: readonly GridTile[]
  /** names of those without a feature */
  readonly leftOut: readonly string[]
}

interface Face {
  /** [mm] */
  readonly length: number
  readonly width: number
  readonly shapes: readonly TemplateShape[]
}

/** Room for tiles on one page [mm], for a part that lies turned or not. */
export type TileRoom = (turned: boolean) => { readonly width: number; readonly height: number }

/**
 * Divides a face.
 *
 * Formula: of all combinations of equal and gathered columns and rows, upright and turned, the one that breaks the
 * fewest holes, then with the fewest pages, then tiles. Validity: any face; a hole larger than a page is on no tile whole.
 * @param face of the part with its shapes [mm]
 * @param room on a page, turned or not [mm]
 * @param pagesOf how many pages tiles of these sizes take
 * @returns tiles in reading order from the datum corner, and which were left out
 * @source common practice
 */
export function tileGrid(
  face: Face,
  room: TileRoom,
  pagesOf: (sizes: readonly { readonly width: number; readonly height: number }[], turned: boolean) => number,
): TileGrid {
  const choices = [false, true].flatMap((turned) => {
    const page = room(turned)
    const [along, across] = turned ? [page.height, page.width] : [page.width, page.height]
    return divisions(face.length, along, stretches(face, 'length')).flatMap((columns) =>
      divisions(face.width, across, stretches(face, 'width')).map((rows) => {
        const grid = keptTiles(face, { turned, columns, rows })
        const sizes = grid.tiles.map(({ rect }) => paperSize(rect, turned))
        const broken = face.shapes.filter(
          ({ circle, extent }) => circle && !grid.tiles.some(({ rect }) => holdsRect(rect, extent)),
        )
        return {
          grid,
          cost: [broken.length, pagesOf(sizes, turned), grid.tiles.length, columns.length * rows.length],
        }
      }),
    )
  })
  return choices.reduce((best, one) => (isLess(one.cost, best.cost) ? one : best)).grid
}

/** True when a rectangle lies in another, edges together allowed. */
export const holdsRect = (rect: Rect, { x, y, width, height }: Rect): boolean =>
  x >= rect.x - SAME &&
  y >= rect.y - SAME &&
  x + width <= rect.x + rect.width + SAME &&
  y + height <= rect.y + rect.height + SAME

const SAME = 0.001 // mm

export const paperSize = ({ width, height }: Rect, turned: boolean) =>
  turned ? { width: height, height: width } : { width, height }

const isLess = (a: readonly number[], b: readonly number[]): boolean => {
  const index = a.findIndex((value, place) => value !== b[place])
  return index >= 0 && (a[index] ?? 0) < (b[index] ?? 0)
}

/** Where features lie along one direction; one that runs along it is everywhere and asks for no place of its own. */
function stretches({ shapes }: Face, along: 'length' | 'width'): readonly Stretch[] {
  return shapes
    .filter(({ runs }) => runs !== along)
    .map(({ extent }) => stretchOf(extent, along))
    .sort((a, b) => a.from - b.from || a.to - b.to)
}

const stretchOf = (rect: Rect, along: 'length' | 'width'): Stretch =>
  along === 'length' ? { from: rect.x, to: rect.x + rect.width } : { from: rect.y, to: rect.y + rect.height }

/** Divisions worth trying: alike pieces, and pieces gathered round the features. */
function divisions(size: number, room: number, local: readonly Stretch[]): readonly (readonly Stretch[])[] {
  const even = evenly({ from: 0, to: size }, room)
  if (even.length === 1) return [even]
  return [shifted(even, room, local), gathered(size, room, local)]
}

/** Alike pieces that overlap. */
function evenly({ from, to }: Stretch, room: number): readonly Stretch[] {
  const count = Math.max(1, Math.ceil((to - from - OVERLAP) / (room - OVERLAP) - 1e-9))
  const step = (to - from - OVERLAP) / count
  return Array.from({ length: count }, (_, index) => ({
    from: from + index * step,
    to: index === count - 1 ? to : from + (index + 1) * step + OVERLAP,
  }))
}

/** Moves each seam to the nearest place where it meets no feature, as far as the pieces still fit. */
function shifted(pieces: readonly Stretch[], room: number, local: readonly Stretch[]): readonly Stretch[] {
  const out = pieces.map((piece) => ({ ...piece }))
  const end = out[out.length - 1]!.to
  for (let index = 0; index < out.length - 1; index++) {
    const left = out.length - 1 - index
    const most = Math.floor((out[index]!.from + room - out[index]!.to) * 2) / 2
    // what is left must still fit into the pieces that are left
    const least = Math.ceil((end - left * room + (left - 1) * OVERLAP - out[index + 1]!.from) * 2) / 2
    const shifts = Array.from(
      { length: Math.max(0, (most - least) * 2) + 1 },
      (_, step) => least + step / 2,
    ).sort((a, b) => Math.abs(a) - Math.abs(b) || a - b)
    const seam = out[index]!.to - OVERLAP / 2
    const meets = (shift: number) =>
      local.filter(({ from, to }) => from < seam + shift + CLEAR && to > seam + shift - CLEAR).length
    const best = shifts.reduce((a, b) => (meets(b) < meets(a) ? b : a), shifts[0] ?? 0)
    out[index]!.to += best
    out[index + 1]!.from += best
  }
  return out
}

/** Pieces that each begin and end near features; what lies between is divided too, and mostly left out. */
function gathered(size: number, room: number, local: readonly Stretch[]): readonly Stretch[] {
  // what is wider than a page is held by its walls
  const wanted = local.flatMap(({ from, to }) =>
    to - from + 2 * CLEAR > room
      ? [
          { from, to: from },
          { from: to, to },
        ]
      : [{ from, to }],
  )
  const pieces: { from: number; to: number }[] = []
  for (let index = 0; index < wanted.length; ) {
    const before = pieces.at(-1)
    const first = wanted[index]!
    let from = Math.max(0, first.from - CLEAR)
    if (!before && first.to + CLEAR <= room) from = 0
    if (before && from <= before.to) from = before.to - OVERLAP
    let to = Math.min(size, first.to + CLEAR)
    for (index += 1; index < wanted.length; index++) {
      const next = Math.min(size, wanted[index]!.to + CLEAR)
      if (next - from > room) break
      to = Math.max(to, next)
    }
    if (size - from <= room && index >= wanted.length) to = size
    pieces.push({ from, to })
  }
  const all: Stretch[] = []
  let done = 0
  for (const piece of [...pieces, { from: size, to: size }]) {
    const start = Math.max(0, all.length > 0 ? done - OVERLAP : 0)
    const stop = Math.min(size, piece.from + OVERLAP)
    if (piece.from > done + 1e-9) all.push(...evenly({ from: start, to: stop }, room))
    if (piece.to > piece.from) all.push({ from: all.length > 0 ? piece.from : 0, to: piece.to })
    done = piece.to
  }
  return all
}

function keptTiles(
  face: Face,
  { turned, columns, rows }: Pick<TileGrid, 'turned' | 'columns' | 'rows'>,
): TileGrid {
  const kept = new Set<number>()
  const key = (row: number, column: number) => row * columns.length + column
  for (const { extent, runs } of face.shapes) {
    const inColumns =
      runs === 'length' ? columns.map((_, index) => index) : holders(columns, stretchOf(extent, 'length'))
    const inRows =
      runs === 'width' ? rows.map((_, index) => index) : holders(rows, stretchOf(extent, 'width'))
    for (const row of inRows) for (const column of inColumns) kept.add(key(row, column))
  }
  hold(kept, columns.length, rows.length)
  const all = rows.flatMap((tall, row) =>
    columns.map(
      (wide, column): GridTile => ({
        name: `${rowLetter(row)}${column + 1}`,
        row,
        column,
        rect: { x: wide.from, y: tall.from, width: wide.to - wide.from, height: tall.to - tall.from },
      }),
    ),
  )
  const isKept = ({ row, column }: GridTile) => kept.has(key(row, column))
  return {
    turned,
    columns,
    rows,
    tiles: all.filter(isKept),
    leftOut: all.filter((tile) => !isKept(tile)).map(({ name }) => name),
  }
}

/** The piece that holds a stretch whole and leaves it the most room; all that touch it if none does. */
function holders(pieces: readonly Stretch[], { from, to }: Stretch): readonly number[] {
  const margin = (piece: Stretch) => Math.min(from - piece.from, piece.to - to)
  // at the part's own edge nothing is lost
  const whole = pieces.flatMap((piece, index) =>
    from >= piece.from - 1e-6 && to <= piece.to + 1e-6 ? [{ index, margin: margin(piece) }] : [],
  )
  if (whole.length > 0) return [whole.reduce((a, b) => (b.margin > a.margin ? b : a)).index]
  return pieces.flatMap((piece, index) => (from < piece.to && to > piece.from ? [index] : []))
}

/** Tiles that hang together must reach an edge of the part in both directions, or nobody could lay them down. */
function hold(kept: Set<number>, columns: number, rows: number): void {
  for (let again = kept.size > 0; again; ) {
    again = false
    for (const group of groupsOf(kept, columns)) {
      const at = group.map((key) => ({ row: Math.floor(key / columns), column: key % columns }))
      const nearest = at.reduce((a, b) => (b.column + b.row < a.column + a.row ? b : a))
      const hasEnd = at.some(({ column }) => column === 0 || column === columns - 1)
      const hasSide = at.some(({ row }) => row === 0 || row === rows - 1)
      if (hasEnd && hasSide) continue
      kept.add(
        hasEnd ? (nearest.row - 1) * columns + nearest.column : nearest.row * columns + nearest.column - 1,
      )
      again = true
      break
    }
  }
}

function groupsOf(kept: ReadonlySet<number>, columns: number): readonly (readonly number[])[] {
  const seen = new Set<number>()
  return [...kept].flatMap((start) => {
    if (seen.has(start)) return []
    const group = [start]
    seen.add(start)
    for (const key of group) {
      const column = key % columns
      const beside = [key - columns, key + columns]
      if (column > 0) beside.push(key - 1)
      if (column < columns - 1) beside.push(key + 1)
      for (const next of beside)
        if (kept.has(next) && !seen.has(next)) {
          seen.add(next)
          group.push(next)
        }
    }
    return [group]
  })
}

/** A, B, … Z, AA, AB: without letters that are taken for figures. */
const LETTERS = 'ABCDEFGHJKLMNPRSTUVWXYZ'
export const rowLetter = (index: number): string =>
  index < LETTERS.length
    ? LETTERS[index]!
    : rowLetter(Math.floor(index / LETTERS.length) - 1) + LETTERS[index % LETTERS.length]!
