import { describe, expect, test } from 'vitest'
import { type Contribution, type Distribution, stackUp } from '../../src/tolerance/stack.ts'

const part = (
  key: string,
  tolerance: number,
  sensitivity = 1,
  distribution: Distribution = 'normal',
): Contribution => ({ key, tolerance, sensitivity, distribution })

describe('published: a design office’s page on tolerance stack-up (read)', () => {
  // housing 4.020 ± 0.005 less parts of 2.0 ± 0.005, 1.5 ± 0.003, 0.5 ± 0.002: gap 0.020 in
  const gap = stackUp([
    part('a', 0.005, -1),
    part('b', 0.003, -1),
    part('c', 0.002, -1),
    part('housing', 0.005),
  ])

  test('gap of a housing: 0.015 at the worst, 0.00794 by root-sum-square, so 0.012 to 0.028', () => {
    expect(gap.worst).toBeCloseTo(0.015, 12)
    expect(gap.rootSumSquare).toBeCloseTo(0.00794, 5)
    expect(0.02 - gap.rootSumSquare).toBeCloseTo(0.012, 3)
    expect(0.02 + gap.rootSumSquare).toBeCloseTo(0.028, 3)
  })

  test('ten parts of ± 0.1: 1.0 and 0.316', () => {
    const ten = stackUp(Array.from({ length: 10 }, (_, index) => part(`p${index}`, 0.1)))
    expect(ten.worst).toBeCloseTo(1, 12)
    expect(ten.rootSumSquare).toBeCloseTo(0.316, 3)
  })
})

describe('by hand: thickness of a bar from pitch, saw, groove, alignment and wire, in inches', () => {
  // 1/64 + 1/32 + 1/64 + 1/32 + 0.0003 = 0.09405; √(2 · 0.015625² + 2 · 0.03125² + 0.0003²) = 0.04941
  const bar = stackUp([
    part('pitch', 1 / 64),
    part('saw', 1 / 32),
    part('groove', 1 / 64),
    part('alignment', 1 / 32),
    part('wire', 0.0003),
  ])
  test('worst 0.09405, root-sum-square 0.04941', () => {
    expect(bar.worst).toBeCloseTo(0.09405, 5)
    expect(bar.rootSumSquare).toBeCloseTo(0.04941, 5)
  })

  test('shares: saw and alignment have four fifths of the variance, a third each of the worst case', () => {
    // (1/32)² / (2 (1/32)² + 2 (1/64)²) = 4/10; 0.03125 / 0.09405 = 0.33227
    expect(bar.shares[1]?.ofVariance).toBeCloseTo(0.4, 4)
    expect(bar.shares[1]?.ofWorst).toBeCloseTo(0.33227, 4)
    expect(bar.shares.reduce((sum, one) => sum + one.ofVariance, 0)).toBeCloseTo(1, 12)
    expect(bar.shares.reduce((sum, one) => sum + one.ofWorst, 0)).toBeCloseTo(1, 12)
  })
})

describe('by hand: shapes', () => {
  // 3 u / t: a uniform error has a deviation of t/√3, a triangular one of t/√6
  test.each([
    ['normal', 1],
    ['triangular', 1.2247],
    ['uniform', 1.7321],
  ] as const)('%s: three deviations are %f of the tolerance', (distribution, factor) => {
    expect(stackUp([part('one', 1, 1, distribution)]).nearlyAll).toBeCloseTo(factor, 4)
  })

  test('shifted means are added with their signs, and once more to the root-sum-square', () => {
    // 2 · 0.1 − 1 · 0.3 = −0.1; root of (2 · 0.3)² + 0.8² = 1; worst 0.6 + 0.8 + 0.2 + 0.3
    const shifted = stackUp([
      { ...part('a', 0.3, 2), shift: 0.1 },
      { ...part('b', 0.8, -1), shift: 0.3 },
    ])
    expect(shifted.shift).toBeCloseTo(-0.1, 12)
    expect(shifted.rootSumSquare).toBeCloseTo(1.1, 12)
    expect(shifted.worst).toBeCloseTo(1.9, 12)
    // three deviations of normal errors are the root-sum-square
    expect(shifted.nearlyAll).toBeCloseTo(1.1, 12)
  })

  test('nothing off, nothing spread', () => {
    const still = stackUp([part('a', 0)])
    expect([still.worst, still.deviation, still.shares[0]?.ofVariance, still.shares[0]?.ofWorst]).toEqual([
      0, 0, 0, 0,
    ])
  })
})
