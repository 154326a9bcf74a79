import { describe, expect, test } from 'vitest'
import { type DryingSetting, dryingFromWeighIns, type WeighIn } from '../../src/cure/drying.ts'
import { estimateDrying } from '../../src/cure/drying-estimate.ts'
import { type FormName, shareLeft } from '../../src/cure/drying-forms.ts'
import { normalSource, randomSource } from '../../src/numerics/random.ts'

const DAYS = [2, 4, 7, 10, 14, 21, 28, 35]
const curve =
  (form: FormName, plateau: number, loss: number, rate: number) =>
  (days: number): number =>
    plateau + loss * shareLeft(form, rate, days - 2)
const weighed = (of: (days: number) => number, days: readonly number[] = DAYS): WeighIn[] =>
  days.map((at) => ({ days: at, mass: of(at) }))
const setting = (weighIns: readonly WeighIn[], more: Partial<DryingSetting> = {}): DryingSetting => ({
  weighIns,
  freeFrom: 2,
  scaleDeviation: 0.0001,
  dryMass: 0.09,
  ...more,
})
const codes = (of: { readonly findings: readonly { readonly code: string }[] }): string[] =>
  of.findings.map(({ code }) => code)

// the example of water in a batch: 1000 g oils, 136 g NaOH, 272 g water, 1408 g in all (arithmetic, read)
describe('published: worked example of a batch dried to 12 % moisture', () => {
  test('1408 g with 19.3 % water ends at 1290.9 g, 8.32 % lighter', () => {
    const { plateau } = estimateDrying({ mass: 1.408, waterShare: 272 / 1408, thickness: 0.025 }, 2)
    expect(plateau.nominal).toBeCloseTo(1.2909, 4)
    expect(1 - plateau.nominal / 1.408).toBeCloseTo(0.0832, 4)
  })
})

describe('by hand: before the first weigh-in', () => {
  const bar = { mass: 0.125, waterShare: 0.28, thickness: 0.025 }

  test('0.125 kg with 28 % water: dry 0.09, ends at 0.09/0.88, half of the way after 10 days', () => {
    // ends 0.09/0.92 = 0.097826, 0.09/0.88 = 0.102273, 0.09/0.84 = 0.107143
    const drying = estimateDrying(bar, 2)
    expect(drying.plateau.low).toBeCloseTo(0.097826, 6)
    expect(drying.plateau.nominal).toBeCloseTo(0.102273, 6)
    expect(drying.plateau.high).toBeCloseTo(0.107143, 6)
    expect(drying.weightOn(2)).toEqual({ low: 0.125, middle: 0.125, high: 0.125 })
    expect(drying.weightOn(12).middle).toBeCloseTo((0.125 + 0.102273) / 2, 5)
    expect(drying.weightOn(7).low).toBeCloseTo((0.125 + 0.097826) / 2, 5)
    expect(drying.weightOn(22).high).toBeCloseTo((0.125 + 0.107143) / 2, 5)
    expect(codes(drying)).toEqual(['drying-estimated'])
  })

  test('twice as thick takes four times as long', () => {
    const { halfTime } = estimateDrying({ ...bar, thickness: 0.05 }, 2)
    expect(halfTime).toEqual({ low: 20, nominal: 40, high: 80 })
  })

  test('what is still lost: the driest end, 27.174 g in all, by the slowest of the half times', () => {
    const { lossBetween } = estimateDrying(bar, 2)
    // 22 days after the pour the slowest has half of it left, and after two years nothing
    expect(lossBetween(22, 732)).toBeCloseTo(0.027174 / 2, 5)
    // in the first ten days the fastest loses most: two of its half times, 1 − 0.81057 exp(−2 · 0.48539) = 0.6929
    expect(lossBetween(2, 12)).toBeCloseTo(0.027174 * 0.6929, 5)
    expect(lossBetween(30, 30)).toBe(0)
  })

  test('soap drier than the end does not gain', () => {
    const { plateau } = estimateDrying({ ...bar, waterShare: 0.1 }, 2)
    expect(plateau).toEqual({ low: (0.9 * 0.125) / 0.92, nominal: 0.125, high: 0.125 })
  })
})

describe('by hand: from weigh-ins', () => {
  test.each(['exponential', 'slab'] as const)(
    'bars that dry as %s: plateau, loss and rate come back',
    (form) => {
      const { forms } = dryingFromWeighIns(setting(weighed(curve(form, 0.105, 0.02, 0.06))))
      const found = forms.find((one) => one.form === form)
      expect(found?.plateau).toBeCloseTo(0.105, 8)
      expect(found?.loss).toBeCloseTo(0.02, 8)
      expect(found?.rate).toBeCloseTo(0.06, 7)
      // half of what is lost has left: of an exponential after ln 2 / 0.06 = 11.5525 days
      expect(shareLeft(form, 0.06, found?.halfTime ?? 0)).toBeCloseTo(0.5, 4)
      if (form === 'exponential') expect(found?.halfTime).toBeCloseTo(11.5525, 3)
      expect(found?.deviation).toBeLessThan(1e-9)
    },
  )

  test('one exponential, 0.105 + 0.02 exp(−0.06 t): from day 25 to day 60 it loses 4.42 g, which the bound holds', () => {
    // 0.02 (exp(−0.06 · 23) − exp(−0.06 · 58)) = 0.02 (0.25158 − 0.03081) = 0.0044154
    const of = (days: readonly number[]): number =>
      dryingFromWeighIns(setting(weighed(curve('exponential', 0.105, 0.02, 0.06), days))).lossBetween?.(
        25,
        60,
      ) ?? 0
    const early = of(DAYS)
    expect(early).toBeGreaterThan(0.0044154)
    // of the slab, which these bars do not follow, two more weigh-ins leave less open
    const later = of([...DAYS, 42, 56])
    expect(later).toBeGreaterThan(0.0044154)
    expect(later).toBeLessThan(early)
  })

  test('the forms disagree more the farther away the day is, and the interval holds both', () => {
    const drying = dryingFromWeighIns(setting(weighed(curve('slab', 0.1, 0.025, 0.03))))
    const near = drying.disagreementOn?.(20) ?? 0
    const far = drying.disagreementOn?.(120) ?? 0
    expect(far).toBeGreaterThan(5 * near)
    // S23: one exponential reads the plateau too early
    const [one, slab] = drying.forms
    expect(one?.plateau).toBeGreaterThan(slab?.plateau ?? 1)
    const whole = drying.weightOn?.(120)
    for (const form of drying.forms) {
      expect(whole?.low).toBeLessThanOrEqual(form.weightOn(120).low)
      expect(whole?.high).toBeGreaterThanOrEqual(form.weightOn(120).high)
    }
    expect((whole?.high ?? 0) - (whole?.low ?? 0)).toBeGreaterThan(far)
  })

  test('a reading spreads wider than the bars', () => {
    const drying = dryingFromWeighIns(setting(weighed(curve('slab', 0.1, 0.025, 0.05))))
    const bars = drying.weightOn?.(40)
    const reading = drying.readingOn?.(40)
    expect(reading?.high).toBeGreaterThan(bars?.high ?? 1)
    expect(reading?.low).toBeLessThan(bars?.low ?? 0)
  })

  test.each(['exponential', 'slab'] as const)(
    'of 300 batches that dry as %s with noise, about 95 in 100 are held',
    (form) => {
      const truth = curve(form, 0.104, 0.021, 0.05)
      const noise = normalSource(randomSource(11))
      let held = 0
      let wide = 0
      let lossHeld = 0
      const trials = 300
      const lost = truth(40) - truth(300)
      for (let i = 0; i < trials; i += 1) {
        const weighIns = weighed((at) => truth(at) + 0.0002 * noise())
        const drying = dryingFromWeighIns(setting(weighIns, { scaleDeviation: 0.00001, dryMass: 0.085 }))
        const own = drying.forms.find((one) => one.form === form)?.weightOn(45)
        const all = drying.weightOn?.(45)
        if (own && own.low <= truth(45) && truth(45) <= own.high) held += 1
        if (all && all.low <= truth(45) && truth(45) <= all.high) wide += 1
        const ownForm = drying.forms.find((one) => one.form === form)
        if ((ownForm?.lossBetween(40, 300) ?? 0) >= lost) lossHeld += 1
        expect(drying.lossBetween?.(40, 300)).toBeGreaterThanOrEqual(ownForm?.lossBetween(40, 300) ?? 1)
      }
      // 95 % of 300 is 285, four standard errors are 15
      expect(held).toBeGreaterThan(269)
      expect(held).toBeLessThanOrEqual(299)
      expect(wide).toBeGreaterThanOrEqual(held)
      // one side only: 97.5 %
      expect(lossHeld).toBeGreaterThan(277)
    },
  )

  test('without noise the standard errors are those of the curve fit; a limit that decides leaves none', () => {
    const drying = dryingFromWeighIns(
      setting(
        weighed((days) => 0.125 - 0.0001 * days),
        { dryMass: 0.12 },
      ),
    )
    expect(drying.forms[0]?.errors).toBeUndefined()
    expect(codes(drying)).toContain('drying-end-open')
    expect(drying.weightOn?.(400).low).toBeGreaterThanOrEqual(0.12)
  })
})

describe('by hand: what is found', () => {
  const truth = curve('exponential', 0.105, 0.02, 0.06)

  test('fine weigh-ins: nothing', () => {
    expect(codes(dryingFromWeighIns(setting(weighed(curve('slab', 0.105, 0.02, 0.08)))))).toEqual([])
  })

  test('out of order, and before the pour: no curve', () => {
    const swapped = weighed(truth, [2, 7, 4, 10, 14])
    expect(dryingFromWeighIns(setting(swapped)).findings[0]).toMatchObject({
      code: 'weigh-ins-out-of-order',
      severity: 'stop',
      values: { days: 4, before: 7 },
    })
    const early = dryingFromWeighIns(setting(weighed(truth, [-1, 2, 7, 14, 21])))
    expect(early.findings[0]).toMatchObject({ code: 'weigh-in-before-pour', values: { days: -1 } })
    expect(early.weightOn).toBeUndefined()
  })

  test('a gain of 0.3 g is more than 2.8 · 0.1 g, one of 0.25 g is not', () => {
    const rising = (gain: number) => [
      { days: 2, mass: 0.125 },
      { days: 6, mass: 0.12 },
      { days: 10, mass: 0.12 + gain },
    ]
    expect(dryingFromWeighIns(setting(rising(0.0003))).findings[0]).toMatchObject({
      code: 'weigh-in-gains',
      severity: 'warn',
      values: { days: 10 },
    })
    expect(codes(dryingFromWeighIns(setting(rising(0.00025))))).toEqual(['weigh-ins-too-few'])
  })

  test('three days are too few, however often they are weighed; days before the bars stand free do not count', () => {
    const thrice = weighed(truth, [2, 2, 7, 7, 14, 14])
    expect(dryingFromWeighIns(setting(thrice)).findings[0]).toMatchObject({
      code: 'weigh-ins-too-few',
      values: { have: 3, weighIns: 4 },
    })
    expect(codes(dryingFromWeighIns(setting(weighed(truth, [0, 1, 2, 7, 14]))))).toEqual([
      'weigh-ins-too-few',
    ])
  })

  test('bars that only gain have no drying curve', () => {
    const damp = weighed((days) => 0.11 + 0.0002 * days)
    expect(codes(dryingFromWeighIns(setting(damp)))).toContain('drying-not-seen')
  })

  test('a slip of 2 g on day 14 stands out, and stays in the fit', () => {
    const slip = weighed(truth).map((one) => (one.days === 14 ? { days: 14, mass: one.mass + 0.002 } : one))
    const noise = normalSource(randomSource(5))
    const noisy = slip.map(({ days, mass }) => ({ days, mass: mass + 0.0001 * noise() }))
    const drying = dryingFromWeighIns(setting(noisy))
    expect(drying.suspects.map(({ days }) => days)).toEqual([14])
    // n = 8: Student's t at 1 − 0.05/16 on 4 is 5.07 (between 4.604 at 0.995 and 5.598 at 0.9975)
    expect(drying.suspects[0]?.limit).toBeGreaterThan(4.604)
    expect(drying.suspects[0]?.limit).toBeLessThan(5.598)
    expect(codes(drying)).toContain('weigh-in-stands-out')
    expect(drying.forms[0]?.deviation).toBeGreaterThan(0.0005)
  })
})
