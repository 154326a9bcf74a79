/** Limits of chemistry that are just met: on which side of them a recipe, a lye or a batch is then. */
import { describe, expect, test } from 'vitest'
import { alkaliFor } from '../../src/chemistry/alkali.ts'
import { MOLAR_MASS } from '../../src/chemistry/atomic-weights.ts'
import { blendMakeUp, rangeOfSum } from '../../src/chemistry/blend-make-up.ts'
import { middleComposition } from '../../src/chemistry/composition.ts'
import { waterDensity } from '../../src/chemistry/density.ts'
import { iceByWater } from '../../src/chemistry/ice-by-water.ts'
import { coolingConstantFromReadings, coolingTime } from '../../src/chemistry/lye-cooling.ts'
import { checkStockIce, equalPortions, planPortions } from '../../src/chemistry/lye-portions.ts'
import { consistentSaponification, reactionProducts } from '../../src/chemistry/mass-balance.ts'
import { dryPurity } from '../../src/chemistry/purity.ts'
import { type RescueInput, rescues } from '../../src/chemistry/rescue.ts'
import {
  plausibleSaponificationValue,
  saponificationValue,
} from '../../src/chemistry/saponification-value.ts'
import { checkSolubility, sodiumHydroxideSolubility } from '../../src/chemistry/solubility.ts'
import { stockLye } from '../../src/chemistry/solution.ts'
import { type LyeMixing, peakTemperature } from '../../src/chemistry/solution-heat.ts'
import { superfatContributions } from '../../src/chemistry/superfat-contributions.ts'
import type { SuperfatInput } from '../../src/chemistry/superfat-input.ts'
import { superfatMargin } from '../../src/chemistry/superfat-interval.ts'
import { superfatSpread } from '../../src/chemistry/superfat-spread.ts'
import { celsius, lye } from './lye-mixing.ts'

type Found = readonly { readonly code: string }[]
const codes = (findings: Found): string[] => findings.map(({ code }) => code)

describe('by hand: fats and their acids', () => {
  test('an acid of just two hundredths is named, a smaller one only if it is alone', () => {
    const fat = (small: number) =>
      blendMakeUp([
        {
          kind: 'triglyceride',
          mass: 1,
          saponificationValue: 0.19,
          acids: {
            'C16:0': { low: 0.02, high: 0.02 },
            'C18:0': { low: small, high: small },
            'C20:0': { low: 0.005, high: 0.005 },
            'C18:1': { low: 0.975 - small, high: 0.975 - small },
          },
        },
      ]).groups.find(({ key }) => key === 'saturated')
    expect(fat(0.01)?.acids.map(({ name }) => name)).toEqual(['C16:0'])
    expect(fat(0.01)?.other?.middle).toBeCloseTo(0.015, 12)
    expect(fat(0.0201)?.acids.map(({ name }) => name)).toEqual(['C16:0', 'C18:0', 'C20:0'])
    expect(fat(0.0199)?.acids.map(({ name }) => name)).toEqual(['C16:0'])
  })

  test('lowest shares that make the whole leave no choice, highest ones neither', () => {
    const carbons = (name: string) => Number(name.slice(1, 3))
    const of = (low: number, high: number) =>
      rangeOfSum({ 'C16:0': { low, high }, 'C18:0': { low, high } }, carbons)
    expect(of(0.5, 0.75)).toEqual({ low: 17, high: 17 })
    expect(of(0.25, 0.5)).toEqual({ low: 17, high: 17 })
    // and with a choice: 0.25 · 16 + 0.75 · 18 = 17.5 at the most
    expect(of(0.25, 0.75)).toEqual({ low: 16.5, high: 17.5 })
    // more than the whole, or less, whatever is chosen: sums of the ends
    expect(of(0.75, 1)).toEqual({ low: 25.5, high: 34 })
    expect(of(0, 0.25)).toEqual({ low: 0, high: 8.5 })
  })

  test('a middle that is brought to the whole is within its limits, though it leaves a narrow range', () => {
    const of = (low: number, high: number) =>
      blendMakeUp([
        {
          kind: 'triglyceride',
          mass: 1,
          saponificationValue: 0.19,
          acids: { 'C16:0': { low, high: low }, 'C18:1': { low: high, high } },
        },
      ]).groups[0]?.share
    // 0.48 of 0.96, and 0.52 of 1.04
    expect(of(0.48, 0.48)).toEqual({ low: expect.closeTo(0.48, 12), middle: 0.5, high: 0.5 })
    expect(of(0.52, 0.52)).toEqual({ low: 0.5, middle: 0.5, high: expect.closeTo(0.52, 12) })
  })

  test('an acid that is printed as none is none', () =>
    expect(middleComposition({ 'C16:0': { low: 0, high: 0 }, 'C18:0': { low: 0.2, high: 0.4 } })).toEqual({
      'C18:0': 1,
    }))

  test('a fat of no mass is not known of, and does not count', () => {
    const known = { 'C18:1': { low: 1, high: 1 } }
    const of = (mass: number) =>
      blendMakeUp([
        { kind: 'triglyceride', mass, saponificationValue: 0.19, acids: known },
        { kind: 'wax', mass: 2, saponificationValue: 0.09 },
      ])
    expect(of(0)).toMatchObject({ covered: 0, iodineCovered: 0 })
    expect(of(0).groups.every(({ acids }) => acids.length === 0)).toBe(true)
    expect(of(2)).toMatchObject({ covered: 0.5, iodineCovered: 0.5 })
  })
})

describe('by hand: saponification values', () => {
  const olive = { kind: 'triglyceride', published: { low: 0.184, high: 0.196 } } as const
  const certified = (value: number) =>
    codes(saponificationValue({ ...olive, certificate: { value } }).findings)

  test('tributyrin itself is a fat, nothing above it and nothing at 0', () => {
    const tributyrin = (3 * MOLAR_MASS.KOH) / 0.302367
    expect(plausibleSaponificationValue('triglyceride', tributyrin)).toEqual([])
    expect(codes(plausibleSaponificationValue('triglyceride', tributyrin * 1.0001))).toEqual([
      'saponification-value-impossible',
    ])
    expect(codes(plausibleSaponificationValue('wax', 0))).toEqual(['saponification-value-impossible'])
    expect(plausibleSaponificationValue('wax', 1e-6)).toEqual([])
    expect(plausibleSaponificationValue('triglyceride', 0.155)).toEqual([])
    expect(codes(plausibleSaponificationValue('triglyceride', 0.1549))).toEqual(['saponification-value-low'])
  })

  test('ends of what is published are within it; 3 % beyond them is another fat’s, 3 % sharp not yet', () => {
    expect(certified(0.184)).toEqual([])
    expect(certified(0.196)).toEqual([])
    expect(certified(0.1961)).toEqual(['saponification-value-outside-published'])
    for (const [end, by] of [
      [0.184, 1 - 0.03],
      [0.196, 1 + 0.03],
    ] as const) {
      expect(certified(end * by)).toEqual(['saponification-value-outside-published'])
      expect(certified(end * by + (by - 1) * 1e-4)).toEqual(['saponification-value-of-another-fat'])
    }
  })

  test('an analysis of nothing falls back to what is published', () =>
    expect(saponificationValue({ ...olive, lotComposition: {} }).basis).toBe('middle-of-range'))

  test('dry alkali of just nine tenths, and potash of eight', () => {
    const purity = (kind: 'NaOH' | 'KOH', share: number) =>
      codes(dryPurity({ name: 'drum', kind, purity: share, range: { low: 0.7, high: 1 } }).findings)
    expect(purity('NaOH', 0.9)).toEqual([])
    expect(purity('NaOH', 0.8999)).toEqual(['purity-too-low'])
    expect(purity('KOH', 0.8)).toEqual([])
    expect(purity('KOH', 0.7999)).toEqual(['purity-too-low'])
  })

  test('glycerol that misses its alkali by a little under or over 2 %', () => {
    const { glycerol } = consistentSaponification({ fat: 8.58, sodiumHydroxide: 1.2 })
    const by = (factor: number) =>
      codes(
        consistentSaponification({ fat: 8.58, sodiumHydroxide: 1.2, glycerol: glycerol * factor }).findings,
      )
    for (const share of [0.0199, -0.0199]) expect(by(1 + share)).toEqual([])
    for (const share of [0.02005, -0.02005]) expect(by(1 + share)).toEqual(['glycerol-does-not-match-alkali'])
  })

  test('no superfat is no mistake, and no potash is no alkali to weigh', () => {
    const need = alkaliFor({
      fats: [{ mass: 1, saponificationValue: 0.19 }],
      superfat: 0,
      potassiumShare: 0,
      purity: { NaOH: { nominal: 1 }, KOH: { nominal: 1 } },
    })
    expect(need.findings).toEqual([])
    expect(need.alkalis.map(({ alkali }) => alkali)).toEqual(['NaOH'])
  })

  test('alkali that is just taken is not left over', () => {
    // 1 mol of each
    const of = (sodium: number) =>
      reactionProducts({
        fats: [{ kind: 'fatty-acid', mass: 0.28, saponificationValue: MOLAR_MASS.KOH / 0.28 }],
        alkali: { NaOH: sodium * MOLAR_MASS.NaOH, KOH: 0 },
      })
    expect(of(1).findings).toEqual([])
    expect(of(1).superfat).toBeCloseTo(0, 12)
    expect(codes(of(1.000001).findings)).toEqual(['alkali-left-over'])
  })
})

describe('by hand: lye', () => {
  test('just as strong as can be dissolved is near crystallising, a fiftieth less is not', () => {
    const limit = sodiumHydroxideSolubility(celsius(20))
    const at = (NaOH: number) => codes(checkSolubility({ NaOH }, celsius(20)).findings)
    expect(at(limit)).toEqual(['lye-near-crystallising'])
    expect(checkSolubility({ NaOH: limit }, celsius(20)).limit).toBe(limit)
    expect(at(limit - 0.02)).toEqual([])
    expect(at(limit - 0.02 + 1e-6)).toEqual(['lye-near-crystallising'])
  })

  test('just 45 % needs its ice, and a quarter of its water is enough', () => {
    const stock = (sodiumHydroxide: number, water: number, ice: number) =>
      codes(checkStockIce({ ...lye(0), sodiumHydroxide, water, ice }))
    // 9 / 20
    expect(stock(9, 11, 0)).toEqual(['strong-lye-needs-ice'])
    expect(stock(9, 8.25, 2.75)).toEqual([])
    expect(stock(9, 8.26, 2.74)).toEqual(['strong-lye-needs-ice'])
    expect(stock(0, 11, 0)).toEqual([])
  })

  test('a limit that a whole per cent of ice just holds is held by it, down to all ice', () => {
    const mixing = lye(0.33)
    const at = (percent: number): number => {
      const ice = (mixing.water * percent) / 100
      return peakTemperature({ ...mixing, water: mixing.water - ice, ice }).temperature.high
    }
    for (const percent of [0, 1, 17, 40, 63, 99, 100]) {
      const [row] = iceByWater(mixing, at(percent), [celsius(20)])
      expect(row).toMatchObject({ share: percent / 100, peak: at(percent) })
    }
    expect(iceByWater(mixing, at(100) - 0.01, [celsius(20)])[0]).toMatchObject({
      share: undefined,
      peak: at(100),
    })
  })

  test('a limit that twenty portions just hold is held, one that they miss by a hair is not', () => {
    const mixing: LyeMixing = lye(0.33)
    const waitFor = celsius(25)
    const hottest = (count: number) =>
      Math.max(...equalPortions(mixing, count, waitFor).map(({ peak }) => peak))
    const plan = (limit: number) => planPortions(mixing, { hottest: limit, waitFor })
    expect(hottest(20)).toBeLessThan(hottest(19))
    expect(plan(hottest(20))).toMatchObject({ findings: [] })
    expect(plan(hottest(20)).portions).toHaveLength(20)
    expect(plan(hottest(20) - 1e-3)).toMatchObject({
      portions: [],
      findings: [{ code: 'portions-cannot-hold-limit' }],
    })
    expect(plan(hottest(7)).portions).toHaveLength(7)
  })

  test('waiting for just the room is no waiting for less, and a single portion waits for nothing', () => {
    const plan = (hottest: number, waitFor: number) =>
      planPortions(lye(0.33), { hottest: celsius(hottest), waitFor: celsius(waitFor) })
    expect(plan(60, 20).portions.length).toBeGreaterThan(1)
    expect(plan(60, 20).findings).toEqual([])
    expect(codes(plan(60, 19.9).findings)).toEqual(['next-portion-below-room'])
    expect(plan(130, 10)).toMatchObject({ portions: [{ number: 1 }], findings: [] })
    expect(
      planPortions(lye(0.33), { hottest: celsius(130), waitFor: celsius(30), atLeast: 3 }).portions,
    ).toHaveLength(3)
  })

  test('readings that do not fall, fall to the room, or took no time give no constant', () => {
    const from = (first: number, second: number, timeBetween: number) =>
      coolingConstantFromReadings({
        first: celsius(first),
        second: celsius(second),
        timeBetween,
        room: celsius(20),
      })
    for (const useless of [from(50, 50, 60), from(50, 20, 60), from(50, 40, 0)]) {
      expect(useless.constant).toBeUndefined()
      expect(codes(useless.findings)).toEqual(['cooling-readings-unusable'])
    }
    expect(from(50, 40, 60).constant).toBeCloseTo(Math.log(1.5) / 60, 12)
  })

  test('what is there already takes no time, in whatever room; the room itself is never reached', () => {
    const time = (from: number, to: number, constant = 1e-4) =>
      coolingTime({ from: celsius(from), to: celsius(to), room: celsius(20), constant })
    expect(time(20, 20)).toEqual({ time: 0, findings: [] })
    expect(time(40, 40, 0)).toEqual({ time: 0, findings: [] })
    expect(codes(time(40, 20).findings)).toEqual(['lye-never-cools-to-goal'])
    expect(codes(time(40, 30, 0).findings)).toEqual(['lye-never-cools-to-goal'])
    expect(time(40, 30).time).toBeCloseTo(Math.log(2) / 1e-4, 6)
  })

  test('a stock that brings a milligram of water too much is no other stock', () => {
    // 1.5 kg in 3 kg of 50 %, with 1.5 kg of water
    const of = (water: number) => stockLye({ alkali: 1.5, water, stockConcentration: 0.5 })
    expect(of(1.5)).toMatchObject({ stock: 3, makeUpWater: 0, findings: [] })
    expect(of(1.5 - 0.9e-6).findings).toEqual([])
    expect(codes(of(1.5 - 1.1e-6).findings)).toEqual(['stock-weaker-than-batch'])
  })
})

describe('published: Tanaka and others 2001, density of water [kg/m3] (recalled)', () => {
  // another formula than ours, made for 0 to 40 °C: ρ = a₅ (1 − (t + a₁)² (t + a₂) / (a₃ (t + a₄)))
  const tanaka = (t: number): number =>
    999.97495 * (1 - ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881)))
  test.each([0, 4, 10, 15, 20, 25, 30, 40])('%d °C', (t) =>
    // scales of temperature of 1968 and 1990 differ by up to 0.01 K here: 0.004 kg/m3
    expect(Math.abs(waterDensity(celsius(t)) - tanaka(t))).toBeLessThan(0.006),
  )
})

describe('by hand: mistakes at the scale', () => {
  const batch: RescueInput = {
    fats: [
      { key: 'soft', mass: 6, saponificationValue: 0.19, draws: [2.5, 2.5, 1] },
      { key: 'hard', mass: 4, saponificationValue: 0.256, draws: [2, 0, 2] },
    ],
    alkalis: [{ alkali: 'NaOH', mass: 1.45, purity: 0.985, portions: [0.5, 0.5, 0.45] }],
    hydroxideForAcids: 0,
    concentration: 1 / 3,
    floor: 0.02,
    softLimit: 0.1,
    roomLeft: 3.5,
  }

  test('a superfat just at the floor or just at the soft limit needs no remedy', () => {
    for (const { kind, of, draws, superfat } of rescues(batch)) {
      if (superfat === undefined) throw new Error('fat is left')
      const again = (change: Partial<RescueInput>) =>
        rescues({ ...batch, ...change }).find(
          (one) => one.kind === kind && one.of === of && one.draws.join() === draws.join(),
        )?.remedy.kind
      expect(again({ floor: superfat, softLimit: superfat + 1 })).toBe('none-small')
      expect(again({ floor: superfat - 1, softLimit: superfat })).toBe('none-small')
      expect(again({ floor: superfat + 1e-9, softLimit: superfat + 1 })).not.toBe('none-small')
      expect(again({ floor: superfat - 1, softLimit: superfat - 1e-9 })).not.toBe('none-small')
    }
  })

  test('a remedy that just fills the pot fits into it', () => {
    for (const [at, { overPlan }] of rescues(batch).entries()) {
      expect(rescues({ ...batch, roomLeft: overPlan })[at]?.overflow).toBe(false)
      expect(rescues({ ...batch, roomLeft: overPlan - 1e-9 })[at]?.overflow).toBe(true)
    }
  })

  test('draws of nothing are no draws, and keep their numbers', () =>
    expect(
      rescues(batch)
        .filter(({ of }) => of === 'hard')
        .map(({ draws }) => draws),
    ).toEqual([
      [1, 3],
      [1, 3],
    ]))

  test('no alkali, no fat, and no strength of a lye', () => {
    expect(() => rescues({ ...batch, alkalis: [] })).toThrow('no alkali')
    expect(() => rescues({ ...batch, fats: [] })).toThrow('no alkali')
    expect(() => rescues({ ...batch, concentration: 0 })).toThrow('no strength')
    expect(() => rescues({ ...batch, concentration: 1 })).toThrow('no strength')
  })
})

describe('by hand: superfat', () => {
  const weighing = { scale: 'a', draws: 1 }
  /** A kilogram of fat, nothing uncertain but what is said. */
  const plain = (change: Partial<SuperfatInput> = {}): SuperfatInput => ({
    fats: [{ key: 'fat', mass: 1, saponificationValue: { nominal: 0.2, low: 0.2, high: 0.2 }, weighing }],
    alkalis: [{ alkali: 'KOH', mass: 0.2, purity: { nominal: 1, low: 1, high: 1 }, weighing }],
    scales: { a: { division: 0, repeatability: 0, span: 0 } },
    floor: 0,
    draws: 200,
    ...change,
  })
  const halved = (mass: number): SuperfatInput => plain({ alkalis: [{ ...plain().alkalis[0]!, mass }] })

  test('none at all, and none needed: nothing stands against it', () => {
    const margin = superfatMargin(plain())
    expect(margin).toMatchObject({ nominal: 0, state: 'go', findings: [], remedies: [] })
    expect(margin.worst).toEqual({ low: 0, high: 0 })
  })

  test('just the floor is not under it, just the soft limit is not soft', () => {
    // 1 − 0.1/0.2
    const half = (floor: number, softLimit: number) => superfatMargin({ ...halved(0.1), floor, softLimit })
    expect(half(0.5, 0.5)).toMatchObject({ nominal: 0.5, state: 'go', findings: [] })
    expect(codes(half(0.5 + 1e-9, 0.6).findings)).toEqual(['superfat-under-floor'])
    expect(codes(half(0.5, 0.5 - 1e-9).findings)).toEqual(['superfat-may-be-soft'])
    expect(codes(superfatMargin(halved(0.1799)).findings)).toEqual(['superfat-may-be-soft'])
    expect(codes(superfatMargin(halved(0.1801)).findings)).toEqual([])
  })

  test('what weighs nothing cannot be weighed wrong', () => {
    const scales = { a: { division: 0.001, repeatability: 0.001, span: 0 } }
    const input = plain({ scales })
    const more: SuperfatInput = {
      ...input,
      fats: [...input.fats, { ...input.fats[0]!, key: 'none', mass: 0 }],
      alkalis: [...input.alkalis, { ...input.alkalis[0]!, alkali: 'NaOH', mass: 0 }],
    }
    expect(superfatContributions(more)).toEqual(superfatContributions(input))
  })

  test('a certificate is asked for where it says more than is known, by however little', () => {
    // purities of ± 0.5 % and values of ± 1 mg/g need none
    const uncertain = (value: number, purity: number, above = value) =>
      superfatMargin({
        ...halved(0.1999),
        fats: [
          { ...plain().fats[0]!, saponificationValue: { nominal: 0.2, low: 0.2 - value, high: 0.2 + above } },
        ],
        alkalis: [
          { ...halved(0.1999).alkalis[0]!, purity: { nominal: 1, low: 1 - purity, high: 1 + purity } },
        ],
        scales: {},
      }).remedies.map(({ kind }) => kind)
    expect(uncertain(0.001, 0.005)).toEqual(['superfat-at-least'])
    expect(uncertain(0.001005, 0.005)).toContain('fat-certificate')
    // no wider, if further to one side: of that a certificate would say no more
    expect(uncertain(0.0019, 0.005, 0.0001)).not.toContain('fat-certificate')
    expect(uncertain(0.001, 0.005)).not.toContain('purity-certificate')
    expect(uncertain(0.001, 0.00503)).toContain('purity-certificate')
  })

  test('a tenth of a division is offered down to a tenth of a gram', () => {
    const finer = (division: number) =>
      superfatMargin({
        ...halved(0.1999),
        scales: { a: { division, repeatability: 0.001, span: 0 } },
      }).remedies.find(({ kind }) => kind === 'finer-scale')?.value
    expect(finer(0.001)).toBe(0.0001)
    expect(finer(0.00099)).toBeUndefined()
    expect(finer(0.002)).toBe(0.0002)
  })

  test('a worst case of just nothing is a go', () => {
    // purity up to 1.25 of 0.75, 0.15 · 1.25 = 0.1875 = 0.1875 of fat, all exact in binary
    const at = (mass: number) =>
      superfatSpread({
        ...plain(),
        fats: [
          {
            ...plain().fats[0]!,
            mass: 0.9375,
            saponificationValue: { nominal: 0.25, low: 0.25, high: 0.25 },
          },
        ],
        alkalis: [{ ...plain().alkalis[0]!, mass, purity: { nominal: 1, low: 0.75, high: 1.25 } }],
      })
    expect(at(0.1875).worst.low).toBe(0)
    expect(at(0.1875).state).toBe('go')
    expect(at(0.1876).state).toBe('hold')
  })
})
