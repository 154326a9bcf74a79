/**
 * What is sawn from sheet stock, and how: blanks, boards, and the tree of saw cuts that takes one apart.
 *
 * Board coordinates: along the board's length (its grain, where it has one) and across it, both from one corner of what
 * is left once the edges are trimmed. Every cut goes right through the piece that lies on the saw.
 */

/** A rectangle that a part is made from. */
export interface Blank {
  /** names the part; one key, one size */
  readonly key: string
  /** along the grain, where the board has one [m] */
  readonly length: number
  /** across it [m] */
  readonly width: number
  readonly count: number
  /** its board has no grain, so that it may lie either way */
  readonly turns: boolean
}

/** Boards of one size that may be sawn up. */
export interface Board {
  readonly key: string
  /** along the grain [m] */
  readonly length: number
  /** [m] */
  readonly width: number
  /** that there are; Infinity where more can be bought */
  readonly count: number
  /** of one of them, in money or in any other measure of what is better left whole; 0 for what stands in the shop */
  readonly cost: number
  /** sawn off each of its edges before anything else [m] */
  readonly trim: number
}

/** Where a piece of board lies [m]. */
export interface Place {
  /** along the length, from the corner */
  readonly along: number
  /** across it, from the corner */
  readonly across: number
  readonly length: number
  readonly width: number
}

/** A piece of board that is not sawn again. */
export interface Piece extends Place {
  /** what is not a blank is an offcut, however small */
  readonly kind: 'blank' | 'offcut'
  /** of the blank */
  readonly key?: string
  /** the blank's length lies across the board */
  readonly turned?: boolean
}

/** A piece of board that one cut parts. */
export interface Sawn extends Place {
  readonly kind: 'cut'
  /** rip: along the board's length; crosscut: across it */
  readonly cut: 'rip' | 'crosscut'
  /** on the corner's side of the cut */
  readonly first: Region
  /** beyond the kerf; missing where the saw turns all of that into dust */
  readonly second?: Region
}

export type Region = Piece | Sawn

/** One board with everything that comes out of it. */
export interface SawnBoard {
  /** of the Board */
  readonly board: string
  /** all that is left once the edges are trimmed */
  readonly region: Region
}

/** How few boards could do at the very least, whatever anybody finds. */
export interface LayoutBound {
  /** cost of the boards, at least */
  readonly cost: number
  /** number of boards, at least, of those that are bought */
  readonly boards: number
}

export interface SheetLayout {
  readonly boards: readonly SawnBoard[]
  /** blanks that no board was left for, by key and number */
  readonly left: readonly { readonly key: string; readonly count: number }[]
  readonly bound: LayoutBound
}

export interface LayoutProblem {
  readonly blanks: readonly Blank[]
  readonly boards: readonly Board[]
  /** width of a saw cut [m] */
  readonly kerf: number
}
