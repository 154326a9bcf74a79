import { describe, expect, test } from 'vitest'
import { planDraws, type Scale } from '../../src/batch/draws.ts'
import { errorInUse, grossCheck, scaleCheck } from '../../src/batch/weighing-checks.ts'

const KITCHEN: Scale = { name: 'kitchen', capacity: 5, division: 0.001, repeatability: 0 }
const BENCH: Scale = { name: 'bench', capacity: 30, division: 0.01, repeatability: 0 }
const bowl = { name: 'bowl', emptyMass: 0.4, workingMass: 2 }
const plan = (mass: number) => planDraws({ mass, scale: KITCHEN, container: bowl })

describe('by hand: checks', () => {
  test('error in use: 1, 2 or 3 divisions', () => {
    expect(errorInUse(KITCHEN, 0.5)).toBe(0.001)
    expect(errorInUse(KITCHEN, 0.501)).toBe(0.002)
    expect(errorInUse(KITCHEN, 2)).toBe(0.002)
    expect(errorInUse(KITCHEN, 5)).toBe(0.003)
  })

  test('a kilogram may show 998 to 1002 g', () => {
    const check = scaleCheck({ scale: KITCHEN, checkMass: 1, largestDraw: 4 })
    expect([check.low, check.expected, check.high].map((kg) => Math.round(kg * 1000))).toEqual([
      998, 1000, 1002,
    ])
    expect(check.findings).toEqual([])
  })

  test('a check mass over the capacity or far below the draws', () => {
    expect(scaleCheck({ scale: KITCHEN, checkMass: 6, largestDraw: 4 }).findings[0]?.code).toBe(
      'check-mass-over-capacity',
    )
    expect(scaleCheck({ scale: KITCHEN, checkMass: 0.2, largestDraw: 4 }).findings[0]?.code).toBe(
      'check-mass-small',
    )
  })

  test('pot with 4 kg of oil in two draws on a 10 g scale', () => {
    const check = grossCheck({ potMass: 2, contents: [{ name: 'olive oil', plan: plan(4) }], scale: BENCH })
    expect(check.expected).toBeCloseTo(6, 12)
    // bench: two readings 2 · 10²/12 = 16.67; 600 divisions, 20 g: 400/3 = 133.33
    // kitchen: two readings 2/12 = 0.167; gross 2400 divisions, 3 g each: 6²/3 = 12; u = √162.17 = 12.73 g
    expect(check.detects).toBeCloseTo(0.05094, 5) // 4 · 12.734
    expect([check.low, check.high].map((kg) => Math.round(kg * 1000))).toEqual([5980, 6020]) // 5974.5 to 6025.5
    expect(check.notDetected).toEqual([])
  })

  test('a draw of 40 g is not caught on a 10 g scale; a pot too heavy for the scale is held', () => {
    const contents = [
      { name: 'olive oil', plan: plan(4) },
      { name: 'castor oil', plan: plan(0.04) },
    ]
    const check = grossCheck({ potMass: 2, contents, scale: BENCH })
    expect(check.notDetected).toEqual(['castor oil'])
    expect(check.findings.map((finding) => finding.code)).toEqual(['gross-check-misses-small-draws'])
    const over = grossCheck({ potMass: 2, contents, scale: { ...BENCH, capacity: 6 } })
    expect(over.findings[0]).toMatchObject({ code: 'gross-check-over-capacity', severity: 'hold' })
  })

  test('a missed draw falls outside the band, whichever it is', () => {
    const contents = [3.2, 2.1, 4.5].map((mass, index) => ({ name: `oil ${index}`, plan: plan(mass) }))
    const check = grossCheck({ potMass: 2.4, contents, scale: BENCH })
    for (const { plan: one } of contents) {
      for (const draw of one.draws) {
        expect(check.expected - draw.target).toBeLessThan(check.low)
        expect(check.expected + draw.target).toBeGreaterThan(check.high)
      }
    }
  })

  test('third step at 2000 divisions, a fifth of the largest draw, severities', () => {
    expect(errorInUse(KITCHEN, 2.05)).toBe(0.003)
    const check = (checkMass: number) => scaleCheck({ scale: KITCHEN, checkMass, largestDraw: 1 }).findings
    expect(check(0.2)).toEqual([])
    expect(check(0.19)[0]).toMatchObject({ severity: 'warn', values: { wanted: 0.2 } })
    expect(check(5)).toEqual([])
    expect(check(6)[0]?.severity).toBe('warn')
  })

  test('two contents from one scale add their errors of span, those from two scales do not', () => {
    const one = { name: 'a', plan: plan(1.8) }
    const twin: Scale = { ...KITCHEN, name: 'twin' }
    const other = { name: 'b', plan: planDraws({ mass: 1.8, scale: twin, container: bowl }) }
    // gross 2.2 kg, 2200 divisions, 3 g each; check scale: 16.67 + 133.33 at 6 kg
    const same = grossCheck({ potMass: 2.4, contents: [one, { ...one, name: 'b' }], scale: BENCH })
    expect(same.detects).toBeCloseTo(4 * Math.sqrt(150e-6 + 36e-6 / 3 + 1e-6 / 6), 6)
    const apart = grossCheck({ potMass: 2.4, contents: [one, other], scale: BENCH })
    expect(apart.detects).toBeCloseTo(4 * Math.sqrt(150e-6 + 18e-6 / 3 + 1e-6 / 6), 6)
  })

  test('the upper end of the band must fit on the scale too', () => {
    const contents = [{ name: 'olive oil', plan: plan(4) }]
    const at = (capacity: number) =>
      grossCheck({ potMass: 2, contents, scale: { ...BENCH, capacity } }).findings.map(
        (finding) => finding.code,
      )
    expect(at(6.01)).toEqual(['gross-check-over-capacity'])
    expect(at(6.03)).toEqual([])
  })
})

describe('by hand: checks that are just met', () => {
  const contents = [{ name: 'olive oil', plan: plan(4) }]

  test('the upper end of the band just at the capacity fits on the scale', () => {
    const { detects, expected } = grossCheck({ potMass: 2, contents, scale: BENCH })
    const at = (capacity: number) =>
      grossCheck({ potMass: 2, contents, scale: { ...BENCH, capacity } }).findings
    expect(at(expected + detects / 2)).toEqual([])
    expect(at(expected + detects / 2 - 1e-9).map(({ code }) => code)).toEqual(['gross-check-over-capacity'])
  })

  test('a draw of just what the band shows is caught', () => {
    const { detects } = grossCheck({ potMass: 2, contents, scale: BENCH })
    const drawn = (target: number) => {
      const [first] = contents
      const draws = first!.plan.draws.map((draw) => ({ ...draw, target }))
      return grossCheck({
        potMass: 2,
        contents: [{ ...first!, plan: { ...first!.plan, draws } }],
        scale: BENCH,
      })
    }
    expect(drawn(detects).notDetected).toEqual([])
    expect(drawn(detects - 1e-9).notDetected).toEqual(['olive oil'])
  })

  test('another coverage, another width', () => {
    const half = (coverage?: number) =>
      grossCheck({ potMass: 2, contents, scale: BENCH, ...(coverage ? { coverage } : {}) }).detects / 2
    expect(half(3) / half(1)).toBeCloseTo(3, 12)
    expect(half() / half(1)).toBeCloseTo(2, 12)
  })

  test('repeatability counts for each draw, and twice for the pot', () => {
    // 10 g: 2 (10²/12 + 8²) + 20²/3; kitchen 2 draws: 2 (1/12 + 0.6²) + 6²/3
    const scale = { ...BENCH, repeatability: 0.008 }
    const shaky = contents.map(({ name, plan: one }) => ({
      name,
      plan: { ...one, scale: { ...one.scale, repeatability: 0.0006 } },
    }))
    const { detects } = grossCheck({ potMass: 2, contents: shaky, scale })
    const variance = 2 * (100 / 12 + 64) + 400 / 3 + 2 * (1 / 12 + 0.36) + 36 / 3
    expect(detects * 1000).toBeCloseTo(4 * Math.sqrt(variance), 6)
  })

  test('the nearest reading is accepted even where the band is narrower than a division', () => {
    const check = scaleCheck({ scale: { ...KITCHEN, division: 0.007 }, checkMass: 1, largestDraw: 1 })
    // 1000/7 = 142.86, 143 · 7 = 1001; 993 to 1007 are 141.9 and 143.9 steps: 142 and 143 of them
    expect([check.low, check.expected, check.high].map((kg) => Math.round(kg * 1000))).toEqual([
      994, 1001, 1001,
    ])
  })
})

describe('by hand: steps of the error in use', () => {
  test.each([
    [500, 1],
    [501, 2],
    [2000, 2],
    [2001, 3],
    [9000, 3],
  ])('%d divisions: %d', (divisions, error) => {
    // in quarters every product is exact
    const scale: Scale = { name: 'quarters', capacity: 5000, division: 0.25 }
    expect(errorInUse(scale, divisions * 0.25)).toBe(error * 0.25)
  })
})

describe('by hand: readings of every check mass from 20 g to 4.99 kg', () => {
  test('one, two or three grams either way, none lost to a last bit', () => {
    for (let grams = 20; grams < 4990; grams += 7) {
      const check = scaleCheck({ scale: KITCHEN, checkMass: grams / 1000, largestDraw: 1 })
      const error = grams <= 500 ? 1 : grams <= 2000 ? 2 : 3
      expect([check.low, check.expected, check.high].map((kg) => Math.round(kg * 1000))).toEqual([
        grams - error,
        grams,
        grams + error,
      ])
    }
  })
})
