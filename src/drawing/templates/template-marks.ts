/**
 * Match marks: what stands on two neighbouring tiles at the same place of the part, so that they can be joined.
 */
import { crosses, overlaps } from '../lettering.ts'
import type { Point, Rect } from '../types.ts'
import type { TemplateShape } from './template-features.ts'
import { type GridTile, OVERLAP, rowLetter, type TileGrid } from './template-grid.ts'

/** mm from the middle of a match mark to the ends of its arms, and to the corners of its diamond */
export const MATCH_ARM = 4
export const MATCH_DIAMOND = 3
/** mm from the middle of a match mark to the middle of its letter */
export const MATCH_LETTER = 6
/** mm from the corner of a tile to the first match mark: the corner itself may lie under another tile */
const FROM_CORNER = 14

/** The middle line of an overlap, where the nearer tile is cut. */
export interface Seam {
  /** nearer the datum edge; it is cut and laid on top */
  readonly near: GridTile
  readonly far: GridTile
  /** direction in which the two tiles follow each other */
  readonly across: 'length' | 'width'
  /** of the middle line [mm from the datum edge] */
  readonly at: number
  readonly marks: readonly MatchMark[]
}

export interface MatchMark {
  readonly letter: string
  /** on the part, from its datum corner [mm] */
  readonly at: Point
}

/**
 * Match marks of a division.
 *
 * Formula: two a seam, as far apart as features leave room, each with a letter of its own; letters begin after the
 * last row letter, so that none is taken for a row. Validity: seams of 4 mm and more; between crowded features a
 * mark may touch one.
 * @param grid tiles of the part
 * @param shapes features [mm]
 * @returns seams with their marks [mm]
 * @source common practice
 */
export function matchMarks(grid: TileGrid, shapes: readonly TemplateShape[]): readonly Seam[] {
  const lines = shapes.flatMap((shape) => shape.lines)
  const circles = shapes.flatMap(({ circle, extent }) => (circle ? [extent] : []))
  let used = grid.rows.length
  return grid.tiles.flatMap((near) =>
    (['length', 'width'] as const).flatMap((across): Seam[] => {
      const far = grid.tiles.find(({ row, column }) =>
        across === 'length'
          ? row === near.row && column === near.column + 1
          : column === near.column && row === near.row + 1,
      )
      if (!far) return []
      const at = (across === 'length' ? far.rect.x : far.rect.y) + OVERLAP / 2
      const place = (along: number): Point =>
        across === 'length' ? { x: at, y: along } : { x: along, y: at }
      const [from, size] =
        across === 'length' ? [near.rect.y, near.rect.height] : [near.rect.x, near.rect.width]
      const isFree = (along: number): boolean => {
        const box = around(place(along), across)
        return (
          !lines.some(({ a, b }) => crosses(a, b, box)) && !circles.some((circle) => overlaps(circle, box))
        )
      }
      const margin = Math.min(FROM_CORNER, size / 4)
      const first = search(from + margin, from + size / 2 - 2, isFree)
      const last = search(from + size - margin, from + size / 2 + 2, isFree)
      return [
        {
          near,
          far,
          across,
          at,
          marks: [first, last].map((along) => ({ letter: rowLetter(used++), at: place(along) })),
        },
      ]
    }),
  )
}

/** Mark and letters on both sides of the seam. */
function around({ x, y }: Point, across: Seam['across']): Rect {
  const wide = MATCH_LETTER + 2.2
  const tall = MATCH_ARM + 0.6
  return across === 'length'
    ? { x: x - wide, y: y - tall, width: 2 * wide, height: 2 * tall }
    : { x: x - tall, y: y - wide, width: 2 * tall, height: 2 * wide }
}

/** The first free place from one end towards the middle; the end itself when there is none. */
function search(from: number, to: number, isFree: (along: number) => boolean): number {
  const step = to > from ? 0.5 : -0.5
  for (let along = from; (to - along) * step > 0; along += step) if (isFree(along)) return along
  return from
}
