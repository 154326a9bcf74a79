import { describe, expect, test } from 'vitest'
import { gelled } from '../../src/batch/block-gel.ts'
import { startBrick } from '../../src/numerics/conduction.ts'

describe('by hand: a metre of soap, from 0 °C at its base to 100 °C at its top', () => {
  // ten layers, 5, 15, … 95 °C in their middles
  const size = { length: 1, width: 1, height: 1 }
  const faces = { end: Infinity, side: Infinity, top: Infinity, base: Infinity }
  const brick = startBrick(
    { size, cells: { length: 1, width: 1, height: 10 }, conductivity: 1, heatCapacity: 1 },
    faces,
    0,
  )
  const hottest = Float64Array.from({ length: 10 }, (_, i) => 5 + 10 * i)
  const at = (temperature: number) =>
    gelled(brick, hottest, { fromEnd: 50, fromSide: 50, fromTop: 100, fromBase: 0 }, temperature, 0)

  test('gels above 0.32 m where it gels at 32 °C: 0.68 of it, 0.32 m from the base, up to all other faces', () => {
    const found = at(32)
    expect(found.share).toBeCloseTo(0.68, 12)
    expect(found.edge?.fromBase).toBeCloseTo(0.32, 12)
    expect(found.edge).toMatchObject({ fromTop: 0, fromEnd: 0, fromSide: 0 })
  })

  test('has no edge where its middle did not gel', () => {
    expect(at(52)).toMatchObject({ share: expect.closeTo(0.48, 12), edge: undefined })
  })
})
