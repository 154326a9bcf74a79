/**
 * Makes text marks and knows how much paper they take.
 */
import { textRuns, textWidth } from './text-width.ts'
import {
  capitalHeight,
  type DrawingStyle,
  type Point,
  type Rect,
  type TextMark,
  type TextRun,
} from './types.ts'

export interface LetteringRequest {
  readonly class: TextMark['class']
  readonly maker?: boolean
  readonly name?: string
  readonly runs: readonly TextRun[]
  /** middle of the baseline [mm] */
  readonly at: Point
  readonly turned: boolean
  readonly size: number
}

/** Widths are those of the regular weight; bold is wider by this at most in the words of titles (from the font's advances) */
export const BOLD = 1.1

/** From line to line, in type sizes */
export const LEADING = 1.25

const descender = 0.24 // of the type size: g, j, p, q, y of Noto Sans (computed from the glyphs' bounds)

/**
 * A text mark with its box.
 *
 * Formula: width from the font's advances; height from descender to capital height. Validity: one line.
 * @param request text, place and type size [mm]
 * @returns the mark [mm]
 * @source common practice
 */
export function lettering(request: LetteringRequest): TextMark {
  const { at, turned, size, runs } = request
  const width = textWidth(runs, size) * (request.class === 'view-title' ? BOLD : 1)
  const up = capitalHeight * size
  const down = descender * size
  const box: Rect = turned
    ? { x: at.x - up, y: at.y - width / 2, width: up + down, height: width }
    : { x: at.x - width / 2, y: at.y - down, width, height: up + down }
  return { kind: 'text', ...request, box }
}

/** Width of a shown value at the style's type size [mm]. */
export const shownWidth = (shown: string, style: DrawingStyle): number =>
  textWidth(textRuns(shown), style.textSize)

export const overlaps = (a: Rect, b: Rect, clearance = 0): boolean =>
  a.x < b.x + b.width + clearance &&
  b.x < a.x + a.width + clearance &&
  a.y < b.y + b.height + clearance &&
  b.y < a.y + a.height + clearance

/** True when a straight line passes through a rectangle. */
export function crosses(a: Point, b: Point, rect: Rect): boolean {
  // most lines that are asked after lie wholly to one side
  if (Math.max(a.x, b.x) <= rect.x || Math.min(a.x, b.x) >= rect.x + rect.width) return false
  if (Math.max(a.y, b.y) <= rect.y || Math.min(a.y, b.y) >= rect.y + rect.height) return false
  let from = 0
  let to = 1
  const slabs: readonly (readonly [number, number, number, number])[] = [
    [a.x, b.x - a.x, rect.x, rect.x + rect.width],
    [a.y, b.y - a.y, rect.y, rect.y + rect.height],
  ]
  for (const [start, run, low, high] of slabs) {
    if (Math.abs(run) < 1e-12) {
      if (start <= low || start >= high) return false
      continue
    }
    const p = (low - start) / run
    const q = (high - start) / run
    from = Math.max(from, Math.min(p, q))
    to = Math.min(to, Math.max(p, q))
  }
  return to - from > 1e-9
}
