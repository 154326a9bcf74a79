import { describe, expect, test } from 'vitest'
import { notchStation } from '../../src/geometry/part.ts'
import { type Axis, handOf } from '../../src/geometry/placement.ts'

const AXES = ['x', 'y', 'z'] as const
const TURNS = [
  ['x', 'y', 'z'],
  ['y', 'z', 'x'],
  ['z', 'x', 'y'],
] // even permutations; all others are odd

describe('by hand: turned or mirrored', () => {
  // each axis that points backwards mirrors once, and so does an odd permutation of the three
  test('all 48 placements: even permutation and an even number of backward axes, or both odd', () => {
    let tried = 0
    for (const u of AXES)
      for (const v of AXES)
        for (const w of AXES) {
          if (new Set([u, v, w]).size < 3) continue
          const isEven = TURNS.some((turn) => turn.join() === [u, v, w].join())
          for (let backward = 0; backward < 8; backward += 1) {
            const signs = [0, 1, 2].map((bit) => ((backward >> bit) & 1 ? '-' : '+'))
            const odd = signs.filter((sign) => sign === '-').length % 2 === 1
            const placement = {
              origin: { x: 1, y: 2, z: 3 },
              u: `${signs[0]}${u}` as Axis,
              v: `${signs[1]}${v}` as Axis,
              w: `${signs[2]}${w}` as Axis,
            }
            expect(handOf(placement), JSON.stringify(placement)).toBe(isEven === odd ? -1 : 1)
            tried += 1
          }
        }
    expect(tried).toBe(48)
  })

  test('two axes that coincide are neither', () => {
    expect(handOf({ origin: { x: 0, y: 0, z: 0 }, u: '+x', v: '+x', w: '+z' })).toBeCloseTo(0, 12)
  })
})

describe('by hand: where a notch is marked', () => {
  test('20 mm wide from 100 mm: its middle at 110, its edge at 100', () => {
    expect(notchStation({ at: 0.1, size: 0.02, setBy: 'middle' })).toBeCloseTo(0.11, 12)
    expect(notchStation({ at: 0.1, size: 0.02 })).toBeCloseTo(0.1, 12)
  })
})
