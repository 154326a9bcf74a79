/**
 * Marks that the enlarged details of a bar cutter share.
 */
import { noteAt } from '../clipped-section.ts'
import type { LeaderPiece, LeaderRequest, LinearRequest } from '../dimension-types.ts'
import type { Point } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'
import type { BarCutterDrawingWords } from './bar-cutter-words.ts'

/** m; drawn around what an enlarged view is about */
export const ROOM = 0.012
/** Parts by the slant of their hatching: what touches slants the other way. */
export const SLANTS: readonly (readonly string[])[] = [
  ['cutter-platform', 'cutter-front-rail', 'cutter-back-rail'],
  ['cutter-fence', 'cutter-hinge-post', 'cutter-riser'],
]

/** Notes of a view by their words' keys. */
export const noter =
  (view: string, { notes }: BarCutterDrawingWords) =>
  (name: string, at: Point, ...more: readonly LeaderPiece[]): LeaderRequest => {
    // a note that tells a size is named by it, so that paper and numbers are found by one name
    const size = more.find((piece) => 'name' in piece)
    return noteAt(
      size && 'name' in size ? `${size.name}.note` : `detail.${view}.${name}`,
      at,
      notes[name] ?? '',
      ...more,
    )
  }

/** A height beside a view. */
export const upright = (name: string, side: 'left' | 'right', from: Point, to: Point): LinearRequest => ({
  kind: 'linear',
  name: `detail.${name}`,
  side,
  from,
  to,
  outside: 'before',
})

const lineOf =
  (kind: 'dimension' | 'phantom' | 'visible') =>
  (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: kind, a, b })

/** A wire, or a level */
export const thin = lineOf('dimension')
export const phantom = lineOf('phantom')
export const edge = lineOf('visible')
