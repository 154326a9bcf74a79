/** A board with a shelf glued on, as one beam: sums of its rectangles, and beams of two sections. */
import { describe, expect, test } from 'vitest'
import { railGive } from '../../src/wires/rail.ts'
import { boardSection, compositeFigures, compositeSection, type Rail } from '../../src/wires/rail-section.ts'

/** 110 mm high and 18 mm thick, with a shelf of 12 mm that stands out by 40 */
const board = { width: 0.11, depth: 0.018 }
const shelf = { width: 0.012, depth: 0.04 }

describe('by hand: parallel axes', () => {
  test('areas 1980 and 480 mm2, their middles 9 and 38 mm from the inner face: the line lies at 14.659 mm', () => {
    // (1980 · 9 + 480 · 38) / 2460 = 36060 / 2460
    const { area, middle } = compositeFigures(board, shelf)
    expect(area * 1e6).toBeCloseTo(2460, 9)
    expect(middle * 1e3).toBeCloseTo(14.6585, 4)
  })

  test('53 460 + 1980 · 5.6585² + 64 000 + 480 · 23.3415² = 442 371 mm4, eight times that of the board alone', () => {
    // 110 · 18³ / 12 = 53 460; 12 · 40³ / 12 = 64 000; 63 397 and 261 514 by the distances
    const { secondMoment } = compositeFigures(board, shelf)
    expect(secondMoment * 1e12).toBeCloseTo(442371, -1)
    expect(compositeSection(board, shelf).bending / boardSection(board).bending).toBeCloseTo(8.275, 3)
  })

  test('a shelf as wide as the board is only a thicker board, in bending and in shear', () => {
    const both = compositeSection(board, { width: 0.11, depth: 0.04 })
    const one = boardSection({ width: 0.11, depth: 0.058 })
    expect(both.bending / one.bending).toBeCloseTo(1, 12)
    expect(both.shear / one.shear).toBeCloseTo(1, 12)
  })

  test('the shear area by adding up slices of a hundredth of a millimetre', () => {
    const { middle, secondMoment, shearArea } = compositeFigures(board, shelf)
    const slice = 1e-5
    let beyond = 0
    let sum = 0
    for (let y = slice / 2; y < 0.058; y += slice) {
      const width = y < 0.018 ? 0.11 : 0.012
      // up to the middle of the slice
      const half = (width * slice * (y - middle)) / 2
      beyond += half
      sum += (beyond ** 2 / width) * slice
      beyond += half
    }
    expect(secondMoment ** 2 / sum / shearArea).toBeCloseTo(1, 3)
  })
})

describe('by hand: a rail of two sections', () => {
  const bending = 400
  const section = (to: number, times = 1) => ({
    to,
    bending: times * bending,
    shear: Number.POSITIVE_INFINITY,
  })

  test('cut in two like ones it is the rail that it was', () => {
    const whole: Rail = { length: 0.3, sections: [section(Number.POSITIVE_INFINITY)] }
    const cut: Rail = { length: 0.3, sections: [section(0.1), section(Number.POSITIVE_INFINITY)] }
    for (const ends of ['pinned', 'fixed'] as const) {
      const [a, b] = [railGive(whole, [0.08, 0.15], ends), railGive(cut, [0.08, 0.15], ends)]
      for (const [i, row] of a.entries())
        for (const [j, give] of row.entries()) expect((b[i]?.[j] ?? 0) / give).toBeCloseTo(1, 9)
    }
  })

  test('twice as stiff in the middle half: L³/48EI less half of what the middle gives', () => {
    // ∫ M²/EI with M = x/2 from both ends: 2 · (1/4) [x³/3] = L³/48; the outer quarters have 1/8 of it, so
    // (1/8 + 7/8 · 1/2) = 9/16
    const rail: Rail = {
      length: 0.4,
      sections: [section(0.1), section(0.3, 2), section(Number.POSITIVE_INFINITY)],
    }
    const give = railGive(rail, [0.2], 'pinned')[0]?.[0] ?? 0
    expect(give / (0.4 ** 3 / 48 / bending)).toBeCloseTo(9 / 16, 9)
  })

  test('a rail that ends before its joint is refused', () =>
    expect(() => railGive({ length: 0.3, sections: [section(0.2)] }, [0.1], 'pinned')).toThrow(RangeError))
})
