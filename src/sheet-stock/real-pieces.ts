/**
 * A board as it lies on the saw: which of its edges are trimmed at all, and where its pieces are, measured from the corner
 * of the whole board.
 */
import { piecesOf } from './check-layout.ts'
import type { Board, Piece, Place, Region } from './types.ts'

/**
 * Edges of a board or of a piece of it. Near and far: the two along its length; left and right: its ends. The datum corner
 * is near and left.
 */
export type Edge = 'near' | 'far' | 'left' | 'right'

/** A piece on the way to the blanks; one that is not cut is what it becomes. */
export interface RealPiece {
  readonly place: Place
  /** a blank's key, and whether it lies across */
  readonly blank?: { readonly key: string; readonly turned: boolean }
  readonly cut?: RealCut
}

export interface RealCut {
  readonly kind: 'rip' | 'crosscut'
  /** edge that is set against the fence */
  readonly from: Edge
  /** from that edge to the near side of the saw cut [m] */
  readonly distance: number
  /** between edge and saw cut */
  readonly kept: RealPiece
  /** beyond the saw cut; missing where all of it turns to dust */
  readonly falls?: RealPiece
  /** the size of what falls is a finished one, too: the saw cut has to be as wide as was reckoned */
  readonly bothExact: boolean
}

export interface RealBoard {
  /** edges that are trimmed, in the order in which they are sawn */
  readonly trimmed: readonly Edge[]
  /** once they are */
  readonly piece: RealPiece
}

/** m; sums of sizes in metres differ by far less */
export const SAME = 1e-8

/** m; less than that no saw takes off an edge: what is larger by no more is left so (common practice) */
export const LEAST_CUT = 0.0003

const EDGES: readonly Edge[] = ['near', 'far', 'left', 'right']

/** The edge across from another. */
export const opposite = (edge: Edge): Edge =>
  edge === 'near' ? 'far' : edge === 'far' ? 'near' : edge === 'left' ? 'right' : 'left'

const hasBlank = (region: Region): boolean => piecesOf(region).some(({ kind }) => kind === 'blank')

/**
 * A sawn board with what is not needed left out.
 *
 * Formula: an edge is trimmed where a blank ends on it, or where it is set against the fence; otherwise what lies there
 * keeps it and is larger by the trim. Between two offcuts no cut is made. Of a cut's two sides the one that is set by the
 * fence is the one whose size is a blank's; of two such, or of none, the one at the datum corner, unless the fence does not
 * reach that far. A cut that would take off less than a saw can is none, and its piece stays larger by that; so does one that
 * would take a mere sliver off blanks that are over size anyway. Validity:
 * layouts without faults.
 * @param region of the layout [m]
 * @param board whole board [m]
 * @param kerf width of a saw cut [m]
 * @param reach of the saw's fence [m]
 * @param later blanks that are cut to size later, and the thickest sliver that is left on them [m]
 * @returns trimmed edges, and the tree of cuts in places of the whole board [m]
 * @source common practice
 */
export function realBoard(
  region: Region,
  { length, width, trim }: Pick<Board, 'length' | 'width' | 'trim'>,
  kerf: number,
  reach: number,
  later: Later = { keys: new Set(), sliver: 0 },
): RealBoard {
  const root = region
  const touches = (place: Place, edge: Edge): boolean =>
    edge === 'near'
      ? place.across <= root.across + SAME
      : edge === 'left'
        ? place.along <= root.along + SAME
        : edge === 'far'
          ? place.across + place.width >= root.across + root.width - SAME
          : place.along + place.length >= root.along + root.length - SAME
  const needed = new Set<Edge>()
  for (const piece of piecesOf(root))
    if (piece.kind === 'blank') for (const edge of EDGES) if (touches(piece, edge)) needed.add(edge)
  const guided = (one: Region): void => {
    if (one.kind !== 'cut' || !hasBlank(one)) return
    const edge = guideOf(one, reach).from
    if (touches(one, edge)) needed.add(edge)
    guided(one.first)
    if (one.second) guided(one.second)
  }
  guided(root)
  const trimmed = trim > SAME ? EDGES.filter((edge) => needed.has(edge)) : []
  const start = (edge: Edge): number => (trimmed.includes(edge) ? trim : 0)
  const placeOf = (place: Place): Place => {
    const along = touches(place, 'left') ? start('left') : place.along - root.along + trim
    const across = touches(place, 'near') ? start('near') : place.across - root.across + trim
    const right = touches(place, 'right')
      ? length - start('right')
      : place.along - root.along + trim + place.length
    const far = touches(place, 'far') ? width - start('far') : place.across - root.across + trim + place.width
    return { along, across, length: right - along, width: far - across }
  }
  /** `over`: by how much it is longer and wider than the layout has it, since cuts were left out */
  const real = (one: Region, over: Over): RealPiece => {
    const bare = placeOf(one)
    const place = { ...bare, length: bare.length + over.length, width: bare.width + over.width }
    if (one.kind === 'blank') return { place, blank: { key: one.key ?? '', turned: one.turned ?? false } }
    if (one.kind !== 'cut' || !hasBlank(one)) return { place }
    const side = one.cut === 'rip' ? 'width' : 'length'
    const beyond = place[side] - placeOf(one.first)[side]
    const isLater = piecesOf(one.first).every(
      ({ kind, key }) => kind !== 'blank' || later.keys.has(key ?? ''),
    )
    const least = isLater ? Math.max(LEAST_CUT, kerf + later.sliver) : LEAST_CUT
    if ((!one.second || !hasBlank(one.second)) && hasBlank(one.first) && beyond <= least + SAME)
      return real(one.first, { ...over, [side]: beyond })
    const { from, bothExact } = guideOf(one, reach)
    const first = real(one.first, { ...over, [side]: 0 })
    const second = one.second ? real(one.second, over) : dustOrSliver(place, first.place, one.cut, kerf)
    const fromCorner = from === 'near' || from === 'left'
    const kept = fromCorner ? first : (second as RealPiece)
    const falls = fromCorner ? second : first
    return {
      place,
      cut: {
        kind: one.cut,
        from,
        distance: one.cut === 'rip' ? kept.place.width : kept.place.length,
        kept,
        ...(falls ? { falls } : {}),
        bothExact,
      },
    }
  }
  return { trimmed, piece: real(root, { length: 0, width: 0 }) }
}

type Over = Pick<Place, 'length' | 'width'>

/** Blanks that are larger than their parts, by key, and the sliver that is not worth a cut on them [m]. */
export interface Later {
  readonly keys: ReadonlySet<string>
  readonly sliver: number
}

/** What an untrimmed edge leaves where a trimmed one would have left dust. */
function dustOrSliver(
  whole: Place,
  first: Place,
  cut: 'rip' | 'crosscut',
  kerf: number,
): RealPiece | undefined {
  if (cut === 'rip') {
    const across = first.across + first.width + kerf
    const width = whole.across + whole.width - across
    return width > SAME ? { place: { ...whole, across, width } } : undefined
  }
  const along = first.along + first.length + kerf
  const length = whole.along + whole.length - along
  return length > SAME ? { place: { ...whole, along, length } } : undefined
}

/** Which side of a cut the fence sets. */
function guideOf(
  { cut, first, second }: Extract<Region, { kind: 'cut' }>,
  reach: number,
): Pick<RealCut, 'from' | 'bothExact'> {
  const [corner, other] = cut === 'rip' ? (['near', 'far'] as const) : (['left', 'right'] as const)
  const size = (one: Region): number => (cut === 'rip' ? one.width : one.length)
  if (!second) return { from: corner, bothExact: false }
  const [exact, alsoExact] = [isExact(first, cut), isExact(second, cut)]
  const isFar = size(first) > reach && size(second) <= reach
  const from = exact === alsoExact ? (isFar ? other : corner) : exact ? corner : other
  return { from, bothExact: exact && alsoExact }
}

/** True when a blank is as wide as the piece, but for what no saw takes off, so that no later cut makes its width. */
const isExact = (region: Region, cut: 'rip' | 'crosscut'): boolean =>
  piecesOf(region).some(
    (piece: Piece) =>
      piece.kind === 'blank' &&
      (cut === 'rip'
        ? piece.width >= region.width - LEAST_CUT - SAME
        : piece.length >= region.length - LEAST_CUT - SAME),
  )
