import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lengthsFor, packsFor } from '../../src/quote/packs.ts'

describe('by hand: packs to buy', () => {
  it.each([
    [10, 25, 1],
    [25, 25, 1],
    [26, 25, 2],
    [1, undefined, 1],
    [7, undefined, 7],
  ])('%d pieces in packs of %s are %d', (count, pack, packs) => {
    expect(packsFor([{ count }], undefined, { pack })).toBe(packs)
  })

  it('gives each size its own box', () => {
    expect(packsFor([{ count: 10 }, { count: 10 }], undefined, { pack: 25 })).toBe(2)
  })

  it('weighs what is used by weight', () => {
    expect(packsFor([], 2.04, { mass: 0.5 })).toBe(5)
    expect(packsFor([], 2, { mass: 0.5 })).toBe(4)
    expect(packsFor([], 2.04, { mass: 0.5, pack: 2 })).toBe(3)
    // a price by the piece says nothing of a weight
    expect(packsFor([], 2.04, { pack: 2 })).toBeUndefined()
  })

  it('cuts rods from whole lengths', () => {
    // 290 + 2 + 290 + 2 + 290 = 874 of 914 mm, and 2 x 402 with one cut = 806
    expect(lengthsFor([{ count: 3, length: 0.29 }], 0.9144)).toBe(1)
    expect(lengthsFor([{ count: 4, length: 0.29 }], 0.9144)).toBe(2)
    expect(
      lengthsFor(
        [
          { count: 2, length: 0.402 },
          { count: 1, length: 0.11 },
        ],
        0.9144,
      ),
    ).toBe(2)
    expect(
      lengthsFor(
        [
          { count: 2, length: 0.402 },
          { count: 1, length: 0.1 },
        ],
        0.9144,
      ),
    ).toBe(1)
    // 457 + 2 + 457 = 916 of 914.4 mm: the saw cut decides
    expect(lengthsFor([{ count: 2, length: 0.457 }], 0.9144)).toBe(2)
    // no kerf beyond the last piece
    expect(lengthsFor([{ count: 1, length: 0.9144 }], 0.9144)).toBe(1)
    expect(lengthsFor([{ count: 1, length: 0.92 }], 0.9144)).toBeUndefined()
    expect(packsFor([{ count: 4, length: 0.29 }], undefined, { length: 0.9144, pack: 2 })).toBe(1)
  })

  it('lays the long ones first, and each into the first length that still takes it', () => {
    const each = (...lengths: number[]) => lengths.map((length) => ({ count: 1, length }))
    // 0.7 + 0.25, 0.6 + 0.35 and 0.5 + 0.45 of 1 m; as listed 0.25 + 0.35 and 0.45 + 0.5 would leave 0.6 and 0.7 alone
    expect(lengthsFor(each(0.25, 0.35, 0.45, 0.5, 0.6, 0.7), 1)).toBe(3)
  })

  it('loses a saw cut for each piece, between the first two and after them', () => {
    // 3 x 300 + 2 x 2 = 904 mm
    expect(lengthsFor([{ count: 3, length: 0.3 }], 0.904)).toBe(1)
    expect(lengthsFor([{ count: 3, length: 0.3 }], 0.9039)).toBe(2)
    // 4 x 200 + 3 x 2 = 806 mm
    expect(lengthsFor([{ count: 4, length: 0.2 }], 0.806)).toBe(1)
    expect(lengthsFor([{ count: 4, length: 0.2 }], 0.8059)).toBe(2)
  })

  it('sells what has no pack one by one, however many', () => {
    expect(packsFor([{ count: 1000 }], undefined, {})).toBe(1000)
    // 200.5 kg in bags of 500 g are 401
    expect(packsFor([], 200.5, { mass: 0.5 })).toBe(401)
    // 300 rods of 0.6 m, one to a length
    expect(packsFor([{ count: 300, length: 0.6 }], undefined, { length: 1 })).toBe(300)
  })

  it('sells as pieces what has no length', () => {
    expect(packsFor([{ count: 4, length: 0.29 }], undefined, { pack: 3 })).toBe(2)
  })

  it('never buys less than all pieces are long together, nor more lengths than pieces', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            count: fc.integer({ min: 1, max: 9 }),
            length: fc.double({ min: 0.01, max: 1, noNaN: true }),
          }),
          {
            minLength: 1,
            maxLength: 8,
          },
        ),
        (pieces) => {
          const lengths = lengthsFor(pieces, 1) ?? 0
          const all = pieces.reduce((sum, { count, length }) => sum + count * length, 0)
          expect(lengths).toBeGreaterThanOrEqual(Math.ceil(all - 1e-9))
          expect(lengths).toBeLessThanOrEqual(pieces.reduce((sum, { count }) => sum + count, 0))
        },
      ),
      { seed: 20270301, numRuns: 300 },
    )
  })
})
