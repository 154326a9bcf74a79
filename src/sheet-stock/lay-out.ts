/** Blanks onto boards with as few boards as can be found, every cut right through. */
import type { Blank, LayoutProblem, Piece, Region, SawnBoard, SheetLayout } from './types.ts'

/**
 * Lays out all blanks.
 *
 * Formula: in rows with the grain, high blanks first. Validity: blanks and boards above 0.
 * @param problem blanks, boards and kerf [m]
 * @returns boards with their cuts, what found no place, and how few boards could do [m]
 * @source common practice
 */
export function layOut({ blanks, boards, kerf }: LayoutProblem): SheetLayout {
  const queue = blanks
    .flatMap((blank) => Array.from({ length: blank.count }, () => blank))
    .sort((a, b) => b.width - a.width || b.length - a.length)
  const sawn: SawnBoard[] = []
  const tried = [...boards].sort((a, b) => a.cost - b.cost)
  for (const board of tried) {
    for (let made = 0; made < board.count && queue.length > 0; made += 1) {
      const room = {
        along: 0,
        across: 0,
        length: board.length - 2 * board.trim,
        width: board.width - 2 * board.trim,
      }
      const region = rows(room, queue, kerf)
      if (region.kind === 'offcut') break
      sawn.push({ board: board.key, region })
    }
  }
  const left = blanks.flatMap(({ key }) => {
    const count = queue.filter((blank) => blank.key === key).length
    return count > 0 ? [{ key, count }] : []
  })
  return { boards: sawn, left, bound: { cost: 0, boards: 0 } }
}

interface Room {
  readonly along: number
  readonly across: number
  readonly length: number
  readonly width: number
}

function rows(room: Room, queue: Blank[], kerf: number): Region {
  const first = queue.findIndex(({ length, width }) => length <= room.length && width <= room.width)
  const blank = queue[first]
  if (!blank) return { kind: 'offcut', ...room }
  const strip = { ...room, width: blank.width }
  const row = along(strip, queue, kerf)
  const beyond = room.width - blank.width - kerf
  if (room.width - blank.width < 1e-9) return row
  const place = { ...room, kind: 'cut' as const, cut: 'rip' as const, first: row }
  if (beyond <= 1e-9) return place
  return {
    ...place,
    second: rows({ ...room, across: room.across + blank.width + kerf, width: beyond }, queue, kerf),
  }
}

function along(room: Room, queue: Blank[], kerf: number): Region {
  const first = queue.findIndex(({ length, width }) => length <= room.length && width <= room.width)
  const [blank] = first < 0 ? [] : queue.splice(first, 1)
  if (!blank) return { kind: 'offcut', ...room }
  const cell = { ...room, length: blank.length }
  const piece: Piece = { kind: 'blank', key: blank.key, turned: false, ...cell, width: blank.width }
  const beside = room.width - blank.width
  const cut: Region =
    beside < 1e-9
      ? piece
      : {
          kind: 'cut',
          cut: 'rip',
          ...cell,
          first: piece,
          ...(beside - kerf > 1e-9
            ? {
                second: {
                  kind: 'offcut' as const,
                  ...cell,
                  across: room.across + blank.width + kerf,
                  width: beside - kerf,
                },
              }
            : {}),
        }
  const beyond = room.length - blank.length - kerf
  if (room.length - blank.length < 1e-9) return cut
  const place = { ...room, kind: 'cut' as const, cut: 'crosscut' as const, first: cut }
  if (beyond <= 1e-9) return place
  return {
    ...place,
    second: along({ ...room, along: room.along + blank.length + kerf, length: beyond }, queue, kerf),
  }
}
