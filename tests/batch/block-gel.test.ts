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

describe('by hand: temperatures that rise along a straight line in every direction', () => {
  // the slopes through a cell add up to the same in every cell, at the faces, too: 3 + 5 + 7 K
  const cells = { length: 4, width: 3, height: 5 }
  const faces = { end: Infinity, side: Infinity, top: Infinity, base: Infinity }
  const brick = startBrick(
    { size: { length: 1, width: 1, height: 1 }, cells, conductivity: 1, heatCapacity: 1 },
    faces,
    0,
  )
  const at = (i: number): [number, number, number] => [i % 4, Math.floor(i / 4) % 3, Math.floor(i / 12)]
  const hottest = Float64Array.from({ length: 60 }, (_, i) => {
    const [column, row, layer] = at(i)
    return 3 * column + 5 * row + 7 * layer
  })
  const room = 300

  test.each([0, 2, 11, 20.5, 33, 41, 46])(
    '%d K above its room: each cell by half and its excess over 15 K',
    (limit) => {
      const parts = [...hottest].map((kelvins) => Math.min(1, Math.max(0, 0.5 + (kelvins - limit) / 15)))
      const share = parts.reduce((sum, part) => sum + part) / 60
      const found = gelled(
        brick,
        hottest,
        { fromEnd: 0, fromSide: 0, fromTop: 0, fromBase: 0 },
        room + limit,
        room,
      )
      expect(found.share).toBeCloseTo(share, 12)
      expect(found.temperature).toBe(room + limit)
    },
  )

  test('ends of one line are cut in part, too: 0.93 of it above 7 °C, 0.03 above 97 °C', () => {
    const line = startBrick(
      {
        size: { length: 1, width: 1, height: 1 },
        cells: { length: 1, width: 1, height: 10 },
        conductivity: 1,
        heatCapacity: 1,
      },
      faces,
      0,
    )
    const tens = Float64Array.from({ length: 10 }, (_, i) => 5 + 10 * i)
    const share = (limit: number) =>
      gelled(line, tens, { fromEnd: 50, fromSide: 50, fromTop: 100, fromBase: 0 }, limit, 0).share
    expect(share(7)).toBeCloseTo(0.93, 12)
    expect(share(97)).toBeCloseTo(0.03, 12)
  })
})

describe('by hand: a block that is all as warm as its gel temperature', () => {
  const faces = { end: Infinity, side: Infinity, top: Infinity, base: Infinity }
  const cells = { length: 2, width: 2, height: 3 }
  const brick = startBrick(
    { size: { length: 1, width: 1, height: 1 }, cells, conductivity: 1, heatCapacity: 1 },
    faces,
    0,
  )
  const even = new Float64Array(12).fill(40)
  const at = (limit: number) =>
    gelled(brick, even, { fromEnd: 40, fromSide: 40, fromTop: 40, fromBase: 40 }, 300 + limit, 300)

  test('has gelled, up to its faces', () =>
    expect(at(40)).toEqual({
      temperature: 340,
      share: 1,
      edge: { fromEnd: 0, fromSide: 0, fromTop: 0, fromBase: 0 },
    }))
  test('has not, where that takes more', () =>
    expect(at(40.001)).toEqual({ temperature: 340.001, share: 0, edge: undefined }))

  test('where only its faces stayed colder, the edge lies between the outer cell and the face', () => {
    // outer cells stand a quarter of half a metre from end and side, a sixth of a metre from top and base; halfway from
    // 40 to 20 is 30
    const found = gelled(brick, even, { fromEnd: 20, fromSide: 20, fromTop: 20, fromBase: 20 }, 330, 300)
    expect(found.edge?.fromEnd).toBeCloseTo(0.125 / 2, 12)
    expect(found.edge?.fromSide).toBeCloseTo(0.125 / 2, 12)
    expect(found.edge?.fromTop).toBeCloseTo(1 / 12, 12)
    expect(found.edge?.fromBase).toBeCloseTo(1 / 12, 12)
  })
})
