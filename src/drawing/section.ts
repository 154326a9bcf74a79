/**
 * Cuts a part along a plane and hatches the wood that the saw would show.
 */
import { woodBoxes } from '../geometry/cells.ts'
import type { Part } from '../geometry/part.ts'
import type { Span } from './spans.ts'
import type { Point, Rect } from './types.ts'

/** A cut face: its outline, the wood in it, and where the drawing breaks off [m]. */
export interface CutFace {
  readonly outline: readonly Span[]
  readonly wood: readonly Rect[]
  readonly breaks: readonly Span[]
  readonly region: Rect
}

export interface CutRequest {
  readonly part: Part
  /** the cut runs along this direction, at right angles to the upper face */
  readonly along: 'length' | 'width'
  /** place of the cut across that direction, from the datum edge [m] */
  readonly at: number
  /** what is drawn of it, along the cut, from the datum edge [m] */
  readonly from: number
  readonly to: number
}

/**
 * The cut face of a part.
 *
 * Formula: boxes of wood that the plane meets; a border belongs to the outline when wood is on one side only.
 * Validity: channels; holes and chamfers are left out.
 * @param request part, plane and what of it is drawn [m]
 * @returns the cut face: x along the cut, y through the thickness [m]
 * @source common practice
 */
export function cutFace({ part, along, at, from, to }: CutRequest): CutFace {
  const size = along === 'length' ? part.length : part.width
  const wood = woodBoxes(part).flatMap(({ min, max }): Rect[] => {
    const across = along === 'length' ? ([min.y, max.y] as const) : ([min.x, max.x] as const)
    const run = along === 'length' ? ([min.x, max.x] as const) : ([min.y, max.y] as const)
    const start = Math.max(run[0], from)
    const end = Math.min(run[1], to)
    if (at <= across[0] || at > across[1] || end <= start) return []
    return [{ x: start, y: min.z, width: end - start, height: max.z - min.z }]
  })
  const region = { x: from, y: 0, width: to - from, height: part.thickness }
  const breaks = [from, to]
    .filter((x) => x > 0 && x < size)
    .map((x) => ({ a: { x, y: 0 }, b: { x, y: part.thickness } }))
  const isBreak = (x: number) => breaks.some((span) => Math.abs(span.a.x - x) < beside)
  return { outline: borders(wood, isBreak), wood, breaks, region }
}

/**
 * Parallel slanted lines over rectangles, in step with each other.
 *
 * Formula: lines x - y = n x pitch x sqrt 2 (or x + y for the other slant), clipped to each rectangle.
 * Validity: rectangles that do not overlap.
 * @param rects to be hatched, any one unit
 * @param pitch between lines, same unit [above 0]
 * @param slant +1 rising to the right, -1 falling
 * @returns pieces of line, same unit
 * @source common practice
 */
export function hatch(rects: readonly Rect[], pitch: number, slant: 1 | -1): readonly Span[] {
  const step = pitch * Math.SQRT2
  return rects.flatMap((rect) => {
    const right = rect.x + rect.width
    const top = rect.y + rect.height
    const corner = slant > 0 ? [rect.x - top, right - rect.y] : [rect.x + rect.y, right + top]
    const spans: Span[] = []
    for (let n = Math.ceil(corner[0]! / step); n * step < corner[1]!; n++) {
      const c = n * step
      // x - y = c rising, x + y = c falling
      const yAt = (x: number) => (slant > 0 ? x - c : c - x)
      const x0 = Math.max(rect.x, slant > 0 ? rect.y + c : c - top)
      const x1 = Math.min(right, slant > 0 ? top + c : c - rect.y)
      if (x1 - x0 > 1e-9) spans.push({ a: { x: x0, y: yAt(x0) }, b: { x: x1, y: yAt(x1) } })
    }
    return spans
  })
}

const beside = 1e-7 // m, how far beside a border the wood is looked for

export function borders(wood: readonly Rect[], isBreak: (x: number) => boolean): readonly Span[] {
  const xs = [...new Set(wood.flatMap((rect) => [rect.x, rect.x + rect.width]))].sort((a, b) => a - b)
  const ys = [...new Set(wood.flatMap((rect) => [rect.y, rect.y + rect.height]))].sort((a, b) => a - b)
  const isWood = ({ x, y }: Point) =>
    wood.some((r) => x > r.x && x < r.x + r.width && y > r.y && y < r.y + r.height)
  const spans: Span[] = []
  for (const x of xs)
    for (let j = 1; j < ys.length; j++) {
      const y = (ys[j - 1]! + ys[j]!) / 2
      if (!isBreak(x) && isWood({ x: x - beside, y }) !== isWood({ x: x + beside, y }))
        spans.push({ a: { x, y: ys[j - 1]! }, b: { x, y: ys[j]! } })
    }
  for (const y of ys)
    for (let i = 1; i < xs.length; i++) {
      const x = (xs[i - 1]! + xs[i]!) / 2
      if (isWood({ x, y: y - beside }) !== isWood({ x, y: y + beside }))
        spans.push({ a: { x: xs[i - 1]!, y }, b: { x: xs[i]!, y } })
    }
  return spans
}
