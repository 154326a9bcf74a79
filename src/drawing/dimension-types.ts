/**
 * What is asked of the dimensions of a view: anchors in the geometry, never a number.
 */
import type { Point } from './types.ts'

export type Side = 'above' | 'below' | 'left' | 'right'

/** Distance between two anchors, across (above, below) or up (left, right). */
export interface LinearRequest {
  readonly kind: 'linear'
  readonly name: string
  readonly side: Side
  readonly from: Point
  readonly to: Point
  readonly locates?: readonly string[]
  /** on which end the value stands when it doesn't fit inside; after is to the right or above */
  readonly outside?: 'after' | 'before'
  /** words shown before the value */
  readonly prefix?: string
}

/** Distances of several stations from one datum edge, in one row. */
export interface OrdinateRequest {
  readonly kind: 'ordinate'
  readonly side: Side
  readonly origin: Point
  readonly stations: readonly {
    readonly name: string
    readonly at: Point
    readonly locates?: readonly string[]
  }[]
}

/** A note with an arrow: words, and lengths measured between two anchors. */
export interface LeaderRequest {
  readonly kind: 'leader'
  readonly name: string
  /** where the arrow points [m]; with a radius it stops at the rim [m] */
  readonly at: Point
  readonly radius?: number
  readonly text: readonly LeaderPiece[]
  readonly locates?: readonly string[]
}

export type LeaderPiece =
  | { readonly words: string }
  | { readonly diameter: number; readonly name: string }
  | { readonly length: number; readonly name: string }

export type DimensionRequest = LinearRequest | OrdinateRequest | LeaderRequest
