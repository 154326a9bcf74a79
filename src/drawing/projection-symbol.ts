/**
 * The symbol that says in which angle the views are arranged: a truncated cone from the side and end on.
 */
import type { Mark, Point, Projection } from './types.ts'

export const symbolSize = { width: 21, height: 9 } // mm, proportions of ISO 5456-2 (from memory)

/**
 * Draws the symbol from its lower left corner.
 *
 * Formula: the end view shows the cone's small end; in third angle it stands on that side, in first angle on the
 * other. Validity: both arrangements.
 * @param projection of the drawing
 * @returns marks within the symbol's size [mm]
 * @source common practice
 */
export function projectionSymbol(projection: Projection): readonly Mark[] {
  const middle = symbolSize.height / 2
  const circlesX = projection === 'third-angle' ? 4.5 : 16.5
  const coneX = projection === 'third-angle' ? 12 : 1
  // The small end of the cone faces left in both arrangements.
  const cone: readonly Point[] = [
    { x: coneX, y: middle - 1.75 },
    { x: coneX + 8, y: middle - 3.5 },
    { x: coneX + 8, y: middle + 3.5 },
    { x: coneX, y: middle + 1.75 },
  ]
  const centre = { x: circlesX, y: middle }
  const axis = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'centre', a, b })
  return [
    { kind: 'outline', class: 'visible', points: cone, closed: true },
    { kind: 'circle', class: 'visible', centre, radius: 3.5 },
    { kind: 'circle', class: 'visible', centre, radius: 1.75 },
    axis({ x: coneX - 1, y: middle }, { x: coneX + 9, y: middle }),
    axis({ x: circlesX - 4.5, y: middle }, { x: circlesX + 4.5, y: middle }),
    axis({ x: circlesX, y: middle - 4.5 }, { x: circlesX, y: middle + 4.5 }),
  ]
}
