/**
 * Where marks lie on paper.
 */
import type { Mark, Point, Rect } from './types.ts'

/** Straight pieces of a mark, for finding what a note would cover. */
export function segments(mark: Mark): readonly { readonly a: Point; readonly b: Point }[] {
  switch (mark.kind) {
    case 'line':
      return [mark]
    case 'outline':
    case 'arrow':
      return mark.points.slice(1).map((b, index) => ({ a: mark.points[index]!, b }))
    case 'circle': {
      const { x, y } = mark.centre
      const r = mark.radius
      return [
        { a: { x: x - r, y }, b: { x: x + r, y } },
        { a: { x, y: y - r }, b: { x, y: y + r } },
      ]
    }
    case 'text':
      return []
  }
}

/** Rectangle around a mark [mm]. */
export function markBox(mark: Mark): Rect {
  if (mark.kind === 'text') return mark.box
  if (mark.kind === 'circle') {
    const r = mark.radius
    return { x: mark.centre.x - r, y: mark.centre.y - r, width: 2 * r, height: 2 * r }
  }
  return pointsBox(mark.kind === 'line' ? [mark.a, mark.b] : mark.points)
}

/** Rectangle around points; at least one. */
export function pointsBox(points: readonly Point[]): Rect {
  const x = Math.min(...points.map((point) => point.x))
  const y = Math.min(...points.map((point) => point.y))
  return {
    x,
    y,
    width: Math.max(...points.map((point) => point.x)) - x,
    height: Math.max(...points.map((point) => point.y)) - y,
  }
}

/** Rectangle around rectangles; at least one. */
export function boundsOf(rects: readonly Rect[]): Rect {
  const x = Math.min(...rects.map((rect) => rect.x))
  const y = Math.min(...rects.map((rect) => rect.y))
  return {
    x,
    y,
    width: Math.max(...rects.map((rect) => rect.x + rect.width)) - x,
    height: Math.max(...rects.map((rect) => rect.y + rect.height)) - y,
  }
}

/** Wider by a margin on all sides. */
export const grown = ({ x, y, width, height }: Rect, by: number): Rect => ({
  x: x - by,
  y: y - by,
  width: width + 2 * by,
  height: height + 2 * by,
})

/** The rectangle moved across the paper [mm]. */
export const moved = (rect: Rect, by: Point): Rect => ({ ...rect, x: rect.x + by.x, y: rect.y + by.y })

/** The mark moved across the paper [mm]. */
export function moveMark(mark: Mark, by: Point): Mark {
  const point = ({ x, y }: Point): Point => ({ x: x + by.x, y: y + by.y })
  switch (mark.kind) {
    case 'line':
      return { ...mark, a: point(mark.a), b: point(mark.b) }
    case 'outline':
    case 'arrow':
      return { ...mark, points: mark.points.map(point) }
    case 'circle':
      return { ...mark, centre: point(mark.centre) }
    case 'text':
      return { ...mark, at: point(mark.at), box: moved(mark.box, by) }
  }
}
