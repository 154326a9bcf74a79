import { describe, expect, test } from 'vitest'
import { type BlockChain, chainDirection } from '../../src/tolerance/block-chain.ts'
import {
  kindStacks,
  NEGLIGIBLE,
  neighbourDifference,
  rankedErrors,
  sizeStacks,
} from '../../src/tolerance/ranking.ts'

/** Two by one bars of 50 × 40 × 20, a wire of ± 0.3 between them, one end stop of ± 0.4 under the only slice. */
const chain = (inside = 0.8): BlockChain => ({
  length: chainDirection([50, 50], ['face', 'face'], {
    place: { key: 'wire', tolerance: 0.3 },
    led: { key: 'led', tolerance: 0 },
    together: [],
    faces: [{ key: 'inside', tolerance: inside, distribution: 'uniform', at: 'both' }],
  }),
  width: { cells: [40], ends: ['face', 'face'], sources: [] },
  height: chainDirection([20], ['face', 'wire'], {
    place: { key: 'wire', tolerance: 0.3 },
    led: { key: 'led', tolerance: 0 },
    together: [],
    faces: [{ key: 'stop', tolerance: 0.4, distribution: 'uniform', at: 'start' }],
  }),
  scale: [{ key: 'soap', tolerance: 0.01, distribution: 'uniform' }],
})

describe('by hand: two bars', () => {
  const ranked = rankedErrors(chain())
  const of = (key: string) => ranked.find((one) => one.key === key)

  // variances of the weight, in millionths: stop (0.4/20)²/3 = 133.33; soap 0.01²/3 = 33.33;
  // wire (0.1/50)² + (0.1/20)² = 4 + 25 = 29; inside (0.4/50)²/3 = 21.33; sum 217
  test('are told apart by stop, soap, wires and mould, in this order', () => {
    expect(ranked.filter(({ ofVariance }) => ofVariance > 0).map(({ key }) => key)).toEqual([
      'stop',
      'soap',
      'wire',
      'inside',
    ])
    expect(of('stop')?.ofVariance).toBeCloseTo(133.333 / 217, 5)
    expect(of('wire')?.ofVariance).toBeCloseTo(29 / 217, 5)
    expect(of('inside')?.ofVariance).toBeCloseTo(21.333 / 217, 5)
  })

  test('a wire off by 0.3 changes a bar by 0.3 in size and at most 0.3/20 in weight', () => {
    expect(of('wire')?.sizeChange).toBeCloseTo(0.3, 12)
    expect(of('wire')?.weightChange).toBeCloseTo(0.015, 12)
    expect(of('inside')?.sizeChange).toBeCloseTo(0.4, 12)
    expect(of('soap')?.sizeChange).toBeUndefined()
  })

  test('with its tolerance at what is good enough, an error has the negligible share', () => {
    const again = rankedErrors(chain(of('inside')?.goodEnough))
    expect(again.find(({ key }) => key === 'inside')?.ofVariance).toBeCloseTo(NEGLIGIBLE, 9)
  })

  test('sizes: along the length a face and a wire, across it two faces, in height the stop and a wire', () => {
    const sizes = sizeStacks(chain())
    expect(sizes.map(({ direction, faces, cells }) => [direction, faces, cells])).toEqual([
      ['length', 1, 2],
      ['width', 2, 1],
      ['height', 1, 1],
    ])
    // 0.3 + 0.8/2; root of 0.09 + 0.16; variances 0.01 of the wire and 0.16/3 of the mould
    expect(sizes[0]?.stack.worst).toBeCloseTo(0.7, 12)
    expect(sizes[0]?.stack.rootSumSquare).toBeCloseTo(0.5, 12)
    expect(sizes[0]?.shares[0]).toMatchObject({ key: 'inside' })
    expect(sizes[0]?.shares[0]?.ofVariance).toBeCloseTo(0.16 / 3 / (0.01 + 0.16 / 3), 9)
    expect(sizes[1]?.stack.worst).toBe(0)
  })

  test('both bars have two faces of the length and both of the width: corners', () => {
    // worst: wire 0.3/50 + inside 0.4/50 + wire 0.3/20 + stop 0.4/20 + 1 % = 0.006 + 0.008 + 0.015 + 0.02 + 0.01
    const [corner, ...others] = kindStacks(chain())
    expect(others).toEqual([])
    expect(corner).toMatchObject({ kind: 'corner', bars: 2 })
    expect(corner?.worst).toBeCloseTo(0.059, 12)
    // √(36 + 64 + 225 + 400 + 100) · 1e-3
    expect(corner?.rootSumSquare).toBeCloseTo(Math.sqrt(825) * 1e-3, 9)
    expect(corner?.nearlyAll).toBeCloseTo(3 * Math.sqrt(217e-6), 6)
  })
})

describe('by hand: bars of a kind are not alike', () => {
  test('the worst of them counts: of two slices only the first lies at the stop, 0.4/20', () => {
    const none = { key: 'wire', tolerance: 0 }
    const height = chainDirection([20, 20], ['face', 'wire'], {
      place: none,
      led: none,
      together: [],
      faces: [{ key: 'stop', tolerance: 0.4, distribution: 'uniform', at: 'start' }],
    })
    const [kind] = kindStacks({
      ...chain(0),
      scale: [],
      width: { cells: [40], ends: ['face', 'face'], sources: [] },
      height,
      length: { cells: [50], ends: ['face', 'face'], sources: [] },
    })
    expect(kind?.worst).toBeCloseTo(0.02, 12)
    // half of the bars: 3 · 0.02/√3/√2
    expect(kind?.nearlyAll).toBeCloseTo(0.0244949, 6)
  })
})

describe('by hand: neighbours of a row', () => {
  const row = (cells: readonly number[]) =>
    chainDirection(cells, ['face', 'face'], {
      place: { key: 'wire', tolerance: 0.3 },
      led: { key: 'led', tolerance: 0 },
      together: [],
      faces: [],
    })

  // a normal error of ± 0.3 deviates by 0.1; the wire between them makes one larger and the other smaller by it
  test('two of 50 and 30: 3 · 2 · 0.1 as a share of 40', () => {
    expect(neighbourDifference(row([50, 30]))).toBeCloseTo(0.6 / 40, 12)
  })

  // second less first: 2 · its own wire and 1 · the other's, so √(4 + 1) · 0.1 each
  test('three of 40: 3 · √5 · 0.1 as a share of 40', () => {
    expect(neighbourDifference(row([40, 40, 40]))).toBeCloseTo((0.3 * Math.sqrt(5)) / 40, 12)
  })

  test('one has none', () => {
    expect(neighbourDifference(row([40]))).toBeUndefined()
  })
})

describe('by hand: bars that feel an error', () => {
  // 3 × 2 loaves of one slice; the first wire across the length moves the two cells beside it, in both rows
  test('a face at the start moves the first column alone, the soap all', () => {
    const three: BlockChain = {
      length: chainDirection([50, 50, 50], ['face', 'face'], {
        place: { key: 'wire', tolerance: 0 },
        led: { key: 'led', tolerance: 0 },
        together: [],
        faces: [{ key: 'stop', tolerance: 0.4, distribution: 'uniform', at: 'start' }],
      }),
      width: { cells: [40, 40], ends: ['face', 'face'], sources: [] },
      height: { cells: [20], ends: ['face', 'face'], sources: [] },
      scale: [{ key: 'soap', tolerance: 0.01, distribution: 'uniform' }],
    }
    const bars = new Map(rankedErrors(three).map((one) => [one.key, one.bars]))
    expect(bars.get('stop')).toBe(2)
    expect(bars.get('soap')).toBe(6)
  })
})
