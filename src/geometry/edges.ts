/**
 * The sharp edges of a part with channels, as straight segments.
 */
import { type CellGrid, cellGrid } from './cells.ts'
import type { Part } from './part.ts'
import type { Vec3 } from './placement.ts'

export interface Segment3 {
  readonly a: Vec3
  readonly b: Vec3
}

/**
 * Edges of the wood of a part.
 *
 * Formula: a grid line is an edge where the four cells around it are neither all alike nor two flat neighbours.
 * Validity: exact for channels; holes and chamfers are left out.
 * @param part in part coordinates [m]
 * @returns straight segments, collinear runs joined [m]
 * @source common practice
 */
export function partEdges(part: Part): readonly Segment3[] {
  const grid = cellGrid(part)
  return [...edgesAlong(grid, 'x'), ...edgesAlong(grid, 'y'), ...edgesAlong(grid, 'z')]
}

function edgesAlong(grid: CellGrid, axis: keyof Vec3): readonly Segment3[] {
  const { us, vs, ws } = grid
  const along = { x: us, y: vs, z: ws }[axis]
  const [first, second] = { x: [vs, ws], y: [us, ws], z: [us, vs] }[axis] as [number[], number[]]
  const at = (n: number, p: number, q: number): boolean =>
    axis === 'x' ? grid.filled(n, p, q) : axis === 'y' ? grid.filled(p, n, q) : grid.filled(p, q, n)
  const point = (n: number, p: number, q: number): Vec3 =>
    axis === 'x'
      ? { x: us[n]!, y: vs[p]!, z: ws[q]! }
      : axis === 'y'
        ? { x: us[p]!, y: vs[n]!, z: ws[q]! }
        : { x: us[p]!, y: vs[q]!, z: ws[n]! }
  const edges: Segment3[] = []
  for (let p = 0; p < first.length; p++)
    for (let q = 0; q < second.length; q++) {
      let start = -1
      for (let n = 0; n < along.length; n++) {
        const sharp =
          n < along.length - 1 && isSharp(at(n, p - 1, q - 1), at(n, p, q - 1), at(n, p - 1, q), at(n, p, q))
        if (sharp && start < 0) start = n
        if (!sharp && start >= 0) {
          edges.push({ a: point(start, p, q), b: point(n, p, q) })
          start = -1
        }
      }
    }
  return edges
}

/** The four cells around a line, two by two: flat when both of one row or both of one column match. */
function isSharp(a: boolean, b: boolean, c: boolean, d: boolean): boolean {
  const wood = Number(a) + Number(b) + Number(c) + Number(d)
  if (wood === 1 || wood === 3) return true
  return wood === 2 && a === d
}
