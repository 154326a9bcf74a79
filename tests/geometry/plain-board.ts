import type { Part } from '../../src/geometry/part.ts'

/** A board of 200 by 100 by 18 mm with nothing in it. */
export const plainBoard: Part = {
  key: 'board',
  count: 1,
  length: 0.2,
  width: 0.1,
  thickness: 0.018,
  material: 'plywood',
  density: 680,
  grain: 'length',
  handed: false,
  placements: [],
  features: [],
}
