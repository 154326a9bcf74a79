/** Drills beside channels and in them: a wall that is only touched is none. */
import { describe, expect, it } from 'vitest'
import type { Channel, Feature, Part } from '../../src/geometry/part.ts'
import { routerFiles } from '../../src/router/router-file.ts'
import { plainBoard } from '../geometry/plain-board.ts'

/** A board of 1 x 1 m, worked on both faces: a channel above and a groove below that nothing comes near. */
const board = (channel: Partial<Channel>, u: number, v: number): Part => ({
  ...plainBoard,
  length: 1,
  width: 1,
  features: [
    {
      kind: 'dado',
      name: 'd',
      face: 'upper',
      runs: 'length',
      at: 0.25,
      size: 0.125,
      depth: 0.006,
      ...channel,
    },
    { kind: 'groove', name: 'g', face: 'lower', runs: 'length', at: 0.875, size: 0.01, depth: 0.006 },
    // of 1/16 m, so that sums are exact
    { kind: 'hole', name: 'h', u, v, diameter: 0.0625 } satisfies Feature,
  ],
})
/** Which of both set-ups drills: what is turned over first would stand on a wall above. */
const drilledIn = (part: Part) =>
  routerFiles(part).findIndex(({ layers }) => layers.some(({ work }) => work === 'hole'))

describe('by hand: a drill of 1/16 m, radius 1/32, beside a channel from 1/4 to 3/8 m and in it', () => {
  // what sums of metres leave over, and what is a wall
  const HAIR = 1e-11
  const MORE = 1e-6
  const along = (at: number) => drilledIn(board({}, 0.5, at))
  const across = (at: number) => drilledIn(board({ runs: 'width' }, at, 0.5))
  const radius = 1 / 32
  it.each([
    ['along', along],
    ['across', across],
  ])(
    '%s: it is drilled from above as long as it only touches a wall, from within or from outside',
    (_, drilled) => {
      const walls = [0.25 - radius, 0.25 + radius, 0.375 - radius, 0.375 + radius]
      for (const at of walls) for (const off of [-HAIR, 0, HAIR]) expect(drilled(at + off)).toBe(0)
      // beyond: towards the wall, over it
      const over = [0.25 - radius + MORE, 0.25 + radius - MORE, 0.375 - radius + MORE, 0.375 + radius - MORE]
      for (const at of [...over, 0.25, 0.375]) expect(drilled(at)).toBe(1)
      for (const at of [0.1, 0.3125, 0.5]) expect(drilled(at)).toBe(0)
    },
  )
})
