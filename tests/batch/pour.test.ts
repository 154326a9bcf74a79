import { describe, expect, test } from 'vitest'
import { type PourSetting, pourPlan } from '../../src/batch/pour.ts'

/** mould with a rim of 38 cm on a bench of 90 cm, 16 kg of batter in a 2 kg pot */
const BENCH: PourSetting = {
  standHeight: 0.9,
  rimAboveStand: 0.38,
  elbowHeight: 1.05,
  shoulderHeight: 1.4,
  potMass: 2,
  batterMass: 16,
  batterDensity: 1000,
  potHeight: 0.3,
  potStandHeight: 0.9,
}
const why = (setting: PourSetting, method: string): readonly string[] | undefined =>
  pourPlan(setting).options.find((option) => option.method === method)?.because

describe('by hand: pouring', () => {
  test('rim at 1.28 m is above the elbow, lip at 1.58 m above the shoulder; the stand must go to 0.67 m', () => {
    const plan = pourPlan(BENCH)
    expect(plan.rimHeight).toBeCloseTo(1.28, 12)
    expect(plan.lipHeight).toBeCloseTo(1.58, 12)
    expect(plan.highestStand).toBeCloseTo(0.67, 12) // min(1.05, 1.4 − 0.3) − 0.38
    expect(plan.findings.map((finding) => finding.code)).toEqual([
      'rim-above-elbow',
      'pot-lip-above-shoulder',
      'pot-over-lift-limit',
    ])
  })

  test('18 kg of hot pot is too much for one and for two: jugs, six of 3 kg', () => {
    const plan = pourPlan({ ...BENCH, people: 2 })
    expect(plan.chosen).toBe('jug')
    expect(plan.jug).toEqual({ mass: 3, volume: 0.003, count: 6 })
    expect(why({ ...BENCH, people: 2 }, 'low-stand-by-two')).toEqual(['pot-too-heavy-for-two'])
    expect(why(BENCH, 'pour-by-two')).toEqual([
      'rim-above-elbow',
      'pot-lip-above-shoulder',
      'only-one-person',
      'pot-too-heavy-for-two',
    ])
  })

  test('a light batter is measured by the 4 litres of the jug: 0.7 kg/L, 2.8 kg', () => {
    const { jug } = pourPlan({ ...BENCH, batterDensity: 700 })
    expect(jug.mass).toBeCloseTo(2.8, 12)
    expect(jug.count).toBe(6)
  })

  test('a loaf on a low bench is poured directly, on a high one after lowering it', () => {
    const loaf = { ...BENCH, batterMass: 1.4, potMass: 0.8, rimAboveStand: 0.1, potHeight: 0.15 }
    expect(pourPlan(loaf)).toMatchObject({ chosen: 'pour-directly', findings: [] })
    const high = { ...loaf, standHeight: 1.1 }
    expect(pourPlan(high).chosen).toBe('low-stand')
    expect(pourPlan(high).highestStand).toBeCloseTo(0.95, 12)
  })

  test('12 kg by two people on a low stand, by one not', () => {
    const medium = { ...BENCH, batterMass: 10, people: 2 as const }
    expect(pourPlan(medium).chosen).toBe('low-stand-by-two')
    expect(why({ ...medium, people: 1 }, 'low-stand-by-two')).toEqual(['only-one-person'])
    expect(pourPlan({ ...medium, standHeight: 0.6 }).chosen).toBe('pour-by-two')
  })

  test('a valve must be there and must stand above the rim', () => {
    expect(why({ ...BENCH, potHasValve: true }, 'valve')).toEqual(['pot-stand-below-rim'])
    expect(pourPlan({ ...BENCH, potHasValve: true, potStandHeight: 1.3 }).chosen).toBe('valve')
    expect(why(BENCH, 'valve')).toEqual(['no-valve', 'pot-stand-below-rim'])
  })

  test('a rim above the shoulder leaves nothing', () => {
    const plan = pourPlan({ ...BENCH, standHeight: 1.1, shoulderHeight: 1.2 })
    expect(plan.chosen).toBeUndefined()
    expect(plan.highestStandForJug).toBeCloseTo(0.82, 12)
    expect(plan.findings.at(-1)).toMatchObject({ code: 'no-safe-pour', severity: 'stop' })
  })

  test('a tall mould whose stand would be below the floor', () => {
    const plan = pourPlan({ ...BENCH, rimAboveStand: 1.1 })
    expect(plan.highestStand).toBeCloseTo(-0.05, 12)
    expect(plan.options.find((option) => option.method === 'low-stand')?.because).toContain(
      'stand-too-low-to-build',
    )
  })

  test('the lift of the pot, at the start and over the mould', () => {
    const { lift, liftOnLowStand } = pourPlan(BENCH)
    // start: hands at 0.9 + 0.21 = 1.11, over the mould at 1.28 + 0.21 = 1.49, travel 0.38
    // start 23 · 0.25/0.3 · (1 − 0.3 · 0.36) · (0.82 + 0.045/0.38) = 23 · 0.83333 · 0.892 · 0.93842 = 16.0439
    expect(lift.atStart.limit).toBeCloseTo(16.0439, 3)
    // end 23 · 0.625 · (1 − 0.3 · 0.74) · 0.93842 = 23 · 0.625 · 0.778 · 0.93842 = 10.4950
    expect(lift.atEnd.limit).toBeCloseTo(10.495, 3)
    expect(lift.liftingIndex).toBeCloseTo(18 / 10.495, 3)
    // stand at 0.67: rim 1.05, hands 1.26, travel 0.15: 23 · 0.625 · 0.847 = 12.1756
    expect(liftOnLowStand.atEnd.limit).toBeCloseTo(12.1756, 3)
  })

  test('a stand that is low already is not raised, a shorter reach counts at both ends', () => {
    const low = { ...BENCH, standHeight: 0.4 }
    expect(pourPlan(low).liftOnLowStand.atEnd.limit).toBeCloseTo(pourPlan(low).lift.atEnd.limit, 9)
    const near = pourPlan({ ...BENCH, reach: 0.25 })
    expect(near.lift.atStart.multipliers.horizontal).toBe(1)
  })

  test('heights exactly at elbow and shoulder are good, and only warn above', () => {
    const level = { ...BENCH, batterMass: 5, standHeight: 0.67, elbowHeight: 1.05, shoulderHeight: 1.35 }
    expect(pourPlan(level)).toMatchObject({ chosen: 'pour-directly', findings: [] })
    expect(pourPlan(BENCH).findings.map((finding) => finding.severity)).toEqual(['warn', 'warn', 'warn'])
    expect(pourPlan({ ...BENCH, batterMass: 6 }).jug.count).toBe(2) // exactly two jugs
  })

  test('a stand of 10 cm can be built, one of 9 cm not', () => {
    const because = (rimAboveStand: number) => why({ ...BENCH, batterMass: 5, rimAboveStand }, 'low-stand')
    expect(because(0.94)).toEqual([])
    expect(because(0.96)).toEqual(['stand-too-low-to-build'])
  })

  test('a tall pot lets the shoulder decide on the stand', () => {
    expect(pourPlan({ ...BENCH, potHeight: 0.45 }).highestStand).toBeCloseTo(0.57, 12) // 1.4 − 0.45 − 0.38
  })
})

describe('by hand: heights and loads that are just at a limit', () => {
  const light = { ...BENCH, batterMass: 5 }

  test('a pot of just what one person may lift, and of just what two may', () => {
    // 10 kg, the shop's limit
    const ten = { ...BENCH, standHeight: 0.6, batterMass: 8 }
    expect(why(ten, 'pour-directly')).toEqual([])
    expect(why(ten, 'low-stand')).toEqual([])
    expect(pourPlan(ten).findings).toEqual([])
    const heavier = { ...ten, batterMass: 8.001 }
    expect(why(heavier, 'pour-directly')).toEqual(['pot-too-heavy-for-one'])
    expect(why(heavier, 'low-stand')).toEqual(['pot-too-heavy-for-one'])
    expect(pourPlan(heavier).findings.map(({ code }) => code)).toEqual(['pot-over-lift-limit'])
    const both = { ...ten, potMass: 0, batterMass: ((2 * 2) / 3) * 10, people: 2 as const }
    expect(pourPlan(both).lift.allowedTogether).toBe(both.batterMass)
    expect(why(both, 'pour-by-two')).toEqual([])
    expect(why({ ...both, potMass: 1e-6 }, 'pour-by-two')).toEqual(['pot-too-heavy-for-two'])
  })

  test('a shop’s own limit takes the place of 10 kg', () => {
    const plan = pourPlan({ ...BENCH, standHeight: 0.6, batterMass: 5, shopLimit: 6 })
    expect(plan.lift.allowedAlone).toBe(6)
    expect(plan.chosen).not.toBe('pour-directly')
  })

  test('a stand that is just as low as can be built', () => {
    const { highestStand } = pourPlan(light)
    expect(why({ ...light, lowestStand: highestStand }, 'low-stand')).toEqual([])
    expect(why({ ...light, lowestStand: highestStand + 1e-6 }, 'low-stand')).toEqual([
      'stand-too-low-to-build',
    ])
    // 1.05 − 0.949 = 0.101 m and 1.05 − 0.951 = 0.099 m, of 0.1 m at the least (estimate)
    expect(why({ ...light, rimAboveStand: 0.9495 }, 'low-stand')).toEqual([])
    expect(why({ ...light, rimAboveStand: 0.9505 }, 'low-stand')).toEqual(['stand-too-low-to-build'])
  })

  test('a rim just at the shoulder is reached with a jug, a pot stand just as high as the rim lets a valve run', () => {
    const high = { ...light, standHeight: 1, rimAboveStand: 0.5, shoulderHeight: 1.5 }
    expect(why(high, 'jug')).toEqual([])
    expect(why({ ...high, shoulderHeight: 1.499 }, 'jug')).toEqual(['rim-above-shoulder'])
    expect(why({ ...high, potHasValve: true, potStandHeight: 1.5 }, 'valve')).toEqual([])
    expect(why({ ...high, potHasValve: true, potStandHeight: 1.499 }, 'valve')).toEqual([
      'pot-stand-below-rim',
    ])
    expect(pourPlan(high).lowestValve).toBe(1.5)
  })

  test('heights that are sums are at a limit whatever their last bit is', () => {
    // 0.1 + 0.2 is a hair above 0.3, and 0.7 + 0.1 a hair below 0.8
    for (let stand = 1; stand <= 9; stand += 1) {
      const standHeight = stand / 10
      const plan = pourPlan({
        ...light,
        standHeight,
        rimAboveStand: 0.2,
        potHeight: 0.1,
        elbowHeight: (stand + 2) / 10,
        shoulderHeight: (stand + 3) / 10,
      })
      expect(plan.findings.filter(({ code }) => /above/.test(code))).toEqual([])
    }
  })

  test('a jug takes what it holds, 4 litres or 3 kg, whichever is least', () => {
    const jug = (change: object) => pourPlan({ ...BENCH, ...change }).jug
    expect(jug({ jugVolume: 0.002 })).toMatchObject({ mass: 2, count: 8 })
    expect(jug({ jugVolume: 0.009, batterDensity: 700 }).mass).toBeCloseTo(2.8, 12)
    expect(jug({ batterMass: 3.01 }).count).toBe(2)
    expect(jug({ batterMass: 3 }).count).toBe(1)
  })
})

describe('by hand: whole jugs', () => {
  test.each([0.7, 1.1, 2.3, 2.9])('so many of %d kg take as many jugs', (mass) => {
    for (let jugs = 1; jugs <= 25; jugs += 1) {
      const { jug } = pourPlan({ ...BENCH, batterMass: jugs * mass, jugVolume: mass / 1000 })
      expect(jug.count).toBe(jugs)
      expect(pourPlan({ ...BENCH, batterMass: jugs * mass + 0.001, jugVolume: mass / 1000 }).jug.count).toBe(
        jugs + 1,
      )
    }
  })
})
