import { describe, expect, test } from 'vitest'
import {
  type BlockChain,
  cellChange,
  chainDirection,
  loafKind,
  pooledContributions,
  sizeContributions,
  weightContributions,
} from '../../src/tolerance/block-chain.ts'
import { drawnSpread } from '../../src/tolerance/monte-carlo.ts'
import { stackUp } from '../../src/tolerance/stack.ts'

const tolerances = {
  place: { key: 'place', tolerance: 0.3 },
  led: { key: 'led', tolerance: 0.4 },
  together: [{ key: 'frame', tolerance: 1, distribution: 'uniform' as const }],
  faces: [{ key: 'inside', tolerance: 0.8, distribution: 'uniform' as const, at: 'both' as const }],
}
const keys = (direction: Parameters<typeof sizeContributions>[0], cell: number) =>
  sizeContributions(direction, cell)
    .map(({ key, sensitivity }) => `${key} ${sensitivity}`)
    .sort()

describe('by hand: three cells between two faces', () => {
  const direction = chainDirection([50, 60, 50], ['face', 'face'], tolerances)

  test('an inner cell has two wires, an outer one a wire, the frame and half of the inside', () => {
    expect(keys(direction, 1)).toEqual(['led -1', 'led 1', 'place -1', 'place 1'])
    expect(keys(direction, 0)).toEqual(['frame 1', 'inside 0.5', 'led 1', 'place 1'])
    expect(keys(direction, 2)).toEqual(['frame -1', 'inside 0.5', 'led -1', 'place -1'])
  })

  test('worst case of both', () => {
    // inner 2 (0.3 + 0.4) = 1.4; outer 0.3 + 0.4 + 1 + 0.4 = 2.1
    expect(stackUp(sizeContributions(direction, 1)).worst).toBeCloseTo(1.4, 12)
    expect(stackUp(sizeContributions(direction, 0)).worst).toBeCloseTo(2.1, 12)
  })
})

describe('by hand: ends', () => {
  test('between two wires neither frame nor inside matter', () => {
    const trimmed = chainDirection([50, 50], ['wire', 'wire'], tolerances)
    expect(keys(trimmed, 0)).toEqual(['led -1', 'led 1', 'place -1', 'place 1'])
  })

  test('one cell between two faces has the whole inside, and no wire', () => {
    const whole = chainDirection([50], ['face', 'face'], tolerances)
    expect(keys(whole, 0)).toEqual(['inside 1'])
  })

  test('a stop at the start, and a top that is cut away', () => {
    const faces = [
      { key: 'stop', tolerance: 0.4, distribution: 'uniform' as const, at: 'start' as const },
      { key: 'fill', tolerance: 2, distribution: 'uniform' as const, at: 'end' as const },
    ]
    const cut = chainDirection([20, 20], ['face', 'wire'], { ...tolerances, together: [], faces })
    expect(keys(cut, 0)).toEqual(['led 1', 'place 1', 'stop 1'])
    expect(keys(cut, 1)).not.toContain('fill 1')
    const whole = chainDirection([20, 20], ['face', 'face'], { ...tolerances, together: [], faces })
    expect(keys(whole, 1)).toEqual(['fill 1', 'led -1', 'place -1'])
  })

  test('movement of a cell is that of its far place less that of its near one', () => {
    expect(
      cellChange(
        {
          moves: [
            [1, 2],
            [2, 5],
          ],
        },
        1,
      ),
    ).toBe(3)
    expect(cellChange({ moves: [[1, 2]] }, 3)).toBe(0)
  })
})

describe('by hand: weight of a bar', () => {
  const chain: BlockChain = {
    length: chainDirection([50, 50], ['face', 'face'], { ...tolerances, together: [], faces: [] }),
    width: { cells: [40], ends: ['face', 'face'], sources: [] },
    height: { cells: [20, 20, 20], ends: ['face', 'face'], sources: [] },
    scale: [{ key: 'soap', tolerance: 0.01, distribution: 'uniform' }],
  }

  test('a wire off by its tolerance changes a bar by that over its size', () => {
    // 0.3 / 50, 0.4 / 50, 1 %
    const { shares, worst } = stackUp(weightContributions(chain, { length: 0, width: 0, height: 1 }))
    expect(shares.map(({ key, change }) => [key, Number(change.toFixed(9))])).toEqual([
      ['place', 0.006],
      ['led', 0.008],
      ['soap', 0.01],
    ])
    expect(worst).toBeCloseTo(0.024, 12)
  })

  test('all bars together: mean of their variances', () => {
    // both bars touch the one wire: a = 1/50; variance (0.1/50)² + (0.4/3/50)² + 0.01²/3
    const pooled = pooledContributions(chain)
    expect(pooled.map(({ key, sensitivity }) => [key, sensitivity])).toEqual([
      ['place', 1 / 50],
      ['led', 1 / 50],
      ['soap', 1],
    ])
    expect(stackUp(pooled).deviation ** 2).toBeCloseTo(0.002 ** 2 + 0.00266667 ** 2 + 0.01 ** 2 / 3, 9)
  })

  test('where half of the bars are touched, half of the variance counts', () => {
    // five cells, the frame moves the outer two: a² = 2/5 · (1/50)²
    const five = chainDirection([50, 50, 50, 50, 50], ['face', 'face'], tolerances)
    const frame = pooledContributions({ ...chain, length: five }).find(({ key }) => key === 'frame')
    expect(frame?.sensitivity).toBeCloseTo(Math.sqrt(2 / 5) / 50, 12)
    expect(frame?.change).toBe(1)
  })

  test('draws of small errors spread as the stack of all bars says', () => {
    const five = chainDirection([50, 50, 50, 50, 50], ['face', 'face'], tolerances)
    const three = chainDirection([60, 60, 60], ['face', 'face'], tolerances)
    const block: BlockChain = { ...chain, length: five, width: three }
    const expected = stackUp(pooledContributions(block)).deviation
    const { all } = drawnSpread(block, { blocks: 20_000, seed: 3, limits: [] })
    // 20 000 blocks: about 1 % of a deviation
    expect(all.deviation / expected).toBeGreaterThan(0.985)
    expect(all.deviation / expected).toBeLessThan(1.015)
  })
})

describe('by hand: loaves', () => {
  const between = (cells: number, ends: readonly ['face' | 'wire', 'face' | 'wire']) =>
    chainDirection(
      Array.from({ length: cells }, () => 50),
      ends,
      tolerances,
    )
  const counted = (chain: BlockChain) => {
    const found: Record<string, number> = {}
    chain.length.cells.forEach((_, length) => {
      chain.width.cells.forEach((_cell, width) => {
        const kind = loafKind(chain, { length, width })
        found[kind] = (found[kind] ?? 0) + 1
      })
    })
    return found
  }
  const height = between(2, ['face', 'wire'])

  test('five by three: four corners, eight edges, three inner ones', () =>
    expect(
      counted({
        length: between(5, ['face', 'face']),
        width: between(3, ['face', 'face']),
        height,
        scale: [],
      }),
    ).toEqual({ corner: 4, edge: 8, inner: 3 }))

  test('trimmed along its length: ten edges, five inner ones', () =>
    expect(
      counted({
        length: between(5, ['wire', 'wire']),
        width: between(3, ['face', 'face']),
        height,
        scale: [],
      }),
    ).toEqual({ edge: 10, inner: 5 }))

  test('a single row has a face on either side', () =>
    expect(
      counted({
        length: between(5, ['face', 'face']),
        width: between(1, ['face', 'face']),
        height,
        scale: [],
      }),
    ).toEqual({ corner: 2, edge: 3 }))
})
