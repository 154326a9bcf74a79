/**
 * Whether a layout can be sawn, found without the code that made it: once by walking its cuts, once by nothing but the
 * rectangles of its blanks.
 */
import type { Blank, Board, LayoutProblem, Piece, Place, Region, SheetLayout } from './types.ts'

/** What is wrong with a layout; none of it is the maker's fault. */
export interface LayoutFault {
  readonly code:
    | 'unknown-board'
    | 'too-many-boards'
    | 'board-not-as-trimmed'
    | 'cut-beside-piece'
    | 'kerf-missing'
    | 'rest-missing'
    | 'size-not-a-number'
    | 'unknown-blank'
    | 'wrong-size'
    | 'turned-against-grain'
    | 'wrong-count'
    | 'outside-board'
    | 'overlap'
    | 'no-cut-right-through'
  /** index in the layout's list of boards */
  readonly board?: number
  /** of the blank or the board */
  readonly key?: string
}

/** m; sums of sizes in metres differ by far less, and no saw tells this from nothing */
const SAME = 1e-8

const same = (a: number, b: number): boolean => Math.abs(a - b) <= SAME

/**
 * Everything that is wrong with a layout.
 *
 * Formula: walked as a tree, every cut's two sides and its kerf make up the piece that it parts, in place and in size;
 * as bare rectangles, blanks lie within the trimmed board, no two of them nearer than the kerf, and cuts right through
 * part them until each is alone; blanks and those left over are as many as asked for. Validity: any tree.
 * @param problem blanks, boards and kerf [m]
 * @param layout to be proved [m]
 * @returns faults, none where it can be sawn
 * @source common practice
 */
export function checkLayout(problem: LayoutProblem, layout: SheetLayout): readonly LayoutFault[] {
  return [
    ...boardFaults(problem, layout),
    ...layout.boards.flatMap(({ board: key, region }, board) => {
      const stock = problem.boards.find((one) => one.key === key)
      if (!stock) return []
      return [
        ...treeFaults(problem, stock, region),
        ...rectangleFaults(problem, stock, piecesOf(region).filter(isBlank)),
      ].map((fault) => ({ ...fault, board }))
    }),
    ...countFaults(problem, layout),
  ]
}

/**
 * All pieces that a board ends up as, from the corner on.
 *
 * Formula: leaves of the tree. Validity: any tree.
 * @param region board or piece of it [m]
 * @returns pieces in their places [m]
 * @source common practice
 */
export const piecesOf = (region: Region): readonly Piece[] =>
  region.kind === 'cut'
    ? [...piecesOf(region.first), ...(region.second ? piecesOf(region.second) : [])]
    : [region]

const isBlank = ({ kind }: Piece): boolean => kind === 'blank'

function boardFaults({ boards }: LayoutProblem, layout: SheetLayout): readonly LayoutFault[] {
  const used = new Map<string, number>()
  for (const { board } of layout.boards) used.set(board, (used.get(board) ?? 0) + 1)
  return [...used].flatMap(([key, count]): LayoutFault[] => {
    const stock = boards.find((one) => one.key === key)
    if (!stock) return [{ code: 'unknown-board', key }]
    return count > stock.count ? [{ code: 'too-many-boards', key }] : []
  })
}

/** Blanks on boards and left over, by key. */
function countFaults({ blanks }: LayoutProblem, layout: SheetLayout): readonly LayoutFault[] {
  const found = new Map<string, number>(blanks.map(({ key }) => [key, 0]))
  const add = (key: string, count: number): void => {
    found.set(key, (found.get(key) ?? 0) + count)
  }
  for (const { region } of layout.boards)
    for (const piece of piecesOf(region)) if (isBlank(piece)) add(piece.key ?? '', 1)
  for (const { key, count } of layout.left) add(key, count)
  const asked = (key: string): number =>
    blanks.reduce((sum, blank) => sum + (blank.key === key ? blank.count : 0), 0)
  return [
    ...[...found].flatMap(([key, count]): LayoutFault[] =>
      count === asked(key) ? [] : [{ code: 'wrong-count', key }],
    ),
    ...layout.left.flatMap(({ key, count }): LayoutFault[] =>
      Number.isInteger(count) && count > 0 ? [] : [{ code: 'wrong-count', key }],
    ),
  ]
}

/** The tree as it is: each cut against the piece that it parts. */
function treeFaults(problem: LayoutProblem, board: Board, root: Region): readonly LayoutFault[] {
  const whole: Place = {
    along: 0,
    across: 0,
    length: board.length - 2 * board.trim,
    width: board.width - 2 * board.trim,
  }
  const faults: LayoutFault[] = []
  const fault = (code: LayoutFault['code'], key?: string): void => {
    faults.push(key === undefined ? { code } : { code, key })
  }
  if (!isSamePlace(root, whole)) fault('board-not-as-trimmed', board.key)
  const walk = (region: Region): void => {
    const { along, across, length, width } = region
    if (![along, across, length, width].every(Number.isFinite) || length <= 0 || width <= 0)
      fault('size-not-a-number')
    if (region.kind === 'blank') {
      const blank = problem.blanks.find(({ key }) => key === region.key)
      if (!blank) fault('unknown-blank', region.key ?? '')
      else if (region.turned && !blank.turns) fault('turned-against-grain', blank.key)
      else if (!isSizeOf(region, blank, region.turned ?? false)) fault('wrong-size', blank.key)
    }
    if (region.kind !== 'cut') return
    const { cut, first, second } = region
    // as if every cut were a crosscut: s runs along what the cut divides, t along the cut
    const seen = (place: Place) =>
      cut === 'crosscut'
        ? { s: place.along, size: place.length, t: place.across, run: place.width }
        : { s: place.across, size: place.width, t: place.along, run: place.length }
    const piece = seen(region)
    const near = seen(first)
    if (!same(near.s, piece.s) || !same(near.t, piece.t) || !same(near.run, piece.run))
      fault('cut-beside-piece')
    const beyond = piece.size - near.size - problem.kerf
    if (near.size >= piece.size - SAME) fault('kerf-missing')
    if (second) {
      const far = seen(second)
      if (!same(far.t, piece.t) || !same(far.run, piece.run)) fault('cut-beside-piece')
      if (far.s < near.s + near.size + problem.kerf - SAME) fault('kerf-missing')
      if (!same(far.s, near.s + near.size + problem.kerf) || !same(far.s + far.size, piece.s + piece.size))
        fault('cut-beside-piece')
      walk(second)
    } else if (beyond > SAME) fault('rest-missing')
    walk(first)
  }
  walk(root)
  return faults
}

const isSamePlace = (a: Place, b: Place): boolean =>
  same(a.along, b.along) && same(a.across, b.across) && same(a.length, b.length) && same(a.width, b.width)

const isSizeOf = (piece: Place, blank: Blank, turned: boolean): boolean =>
  turned
    ? same(piece.length, blank.width) && same(piece.width, blank.length)
    : same(piece.length, blank.length) && same(piece.width, blank.width)

/** The blanks alone, as if nobody had said how they are parted. */
function rectangleFaults(
  { kerf }: LayoutProblem,
  board: Board,
  blanks: readonly Piece[],
): readonly LayoutFault[] {
  const faults: LayoutFault[] = []
  const length = board.length - 2 * board.trim
  const width = board.width - 2 * board.trim
  for (const { along, across, key, ...size } of blanks)
    if (
      !(along >= -SAME && across >= -SAME) ||
      !(along + size.length <= length + SAME && across + size.width <= width + SAME)
    )
      faults.push({ code: 'outside-board', key: key ?? '' })
  blanks.forEach((one, index) => {
    for (const other of blanks.slice(index + 1)) {
      const apart = Math.max(
        other.along - one.along - one.length,
        one.along - other.along - other.length,
        other.across - one.across - one.width,
        one.across - other.across - other.width,
      )
      if (!(apart >= kerf - SAME)) faults.push({ code: 'overlap', key: other.key ?? '' })
    }
  })
  if (faults.length === 0 && !canBeParted(blanks, kerf)) faults.push({ code: 'no-cut-right-through' })
  return faults
}

/**
 * True when cuts right through part the rectangles until each is alone. Any cut that meets none of them may be made
 * first: it takes away none of the cuts that could have been made instead.
 */
function canBeParted(pieces: readonly Place[], kerf: number): boolean {
  if (pieces.length < 2) return true
  for (const [from, size] of [
    ['along', 'length'],
    ['across', 'width'],
  ] as const) {
    const inOrder = [...pieces].sort((a, b) => a[from] - b[from])
    let end = Number.NEGATIVE_INFINITY
    for (const [index, piece] of inOrder.entries()) {
      if (index > 0 && piece[from] >= end + kerf - SAME)
        return canBeParted(inOrder.slice(0, index), kerf) && canBeParted(inOrder.slice(index), kerf)
      end = Math.max(end, piece[from] + piece[size])
    }
  }
  return false
}
