/** Marks that a bar of a figure is made of: its outline, and strokes within it. */
import type { Mark, Rect } from './types.ts'

export const boxOutline = ({ x, y, width, height }: Rect): Mark => ({
  kind: 'outline',
  class: 'visible',
  closed: true,
  points: [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ],
})

/** Lines at 45°, cut off at the box. */
export function slanted({ x, y, width, height }: Rect, step: number, direction: 1 | -1): Mark[] {
  const lines: Mark[] = []
  for (let shift = -height + step / 2; shift < width; shift += step) {
    const from = Math.max(0, shift)
    const to = Math.min(width, shift + height)
    const rise = (at: number): number => (direction === 1 ? at - shift : height - (at - shift))
    lines.push({
      kind: 'line',
      class: 'hatch',
      a: { x: x + from, y: y + rise(from) },
      b: { x: x + to, y: y + rise(to) },
    })
  }
  return lines
}
