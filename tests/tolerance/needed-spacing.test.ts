import { describe, expect, test } from 'vitest'
import { neededTolerance } from '../../src/tolerance/needed-spacing.ts'
import { type Contribution, stackUp } from '../../src/tolerance/stack.ts'

const parts: readonly Contribution[] = [
  { key: 'wires', tolerance: 0.4, sensitivity: 5, distribution: 'normal' },
  { key: 'mould', tolerance: 0.8, sensitivity: 2, distribution: 'uniform' },
  { key: 'soap', tolerance: 1, sensitivity: 1.2, distribution: 'normal' },
]

describe('by hand: how close wires must be', () => {
  test('what is left of the wanted spread', () => {
    // rest: 3 · √((0.8 · 2 / √3)² + 0.4²) = 3 · √(0.85333 + 0.16) = 3.01993; wanted 5: √(25 − 9.12) / 5 = 0.79699
    const needed = neededTolerance(parts, ['wires'], 5)
    expect(needed.ofTheRest).toBeCloseTo(3.01993, 4)
    expect(needed.tolerance).toBeCloseTo(0.79699, 4)
    expect(needed.findings).toEqual([])
  })

  test('put in, it gives the wanted spread', () => {
    for (const asked of [['wires'], ['mould'], ['wires', 'soap']]) {
      const { tolerance = Number.NaN } = neededTolerance(parts, asked, 5)
      const with_ = parts.map((one) => (asked.includes(one.key) ? { ...one, tolerance } : one))
      expect(stackUp(with_).nearlyAll).toBeCloseTo(5, 9)
    }
  })

  test('a wanted spread that the others alone exceed is found', () => {
    const needed = neededTolerance(parts, ['wires'], 3)
    expect(needed.tolerance).toBeUndefined()
    expect(needed.findings).toHaveLength(1)
    expect(needed.findings[0]).toMatchObject({ code: 'wanted-spread-out-of-reach', severity: 'warn' })
    expect(needed.findings[0]?.values.spreadOfRest).toBeCloseTo(3.01993, 4)
  })

  test('what does not matter is asked for in vain', () => {
    expect(neededTolerance(parts, ['hinge'], 50).tolerance).toBeUndefined()
  })
})
