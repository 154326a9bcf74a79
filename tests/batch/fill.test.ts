import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { measured } from '../../src/batch/band.ts'
import { type BatterPart, batterPerOil } from '../../src/batch/batter.ts'
import {
  type FillSetting,
  fillHeightForOils,
  oilsForFillHeight,
  wholeSlicesForOils,
} from '../../src/batch/fill.ts'
import { DEFAULT_FILL_ALLOWANCES, type FillAllowances } from '../../src/batch/fill-allowances.ts'

/** no loss, no air, no shrinkage: what is left is geometry */
const EXACT: FillAllowances = {
  potResidue: measured(0),
  air: measured(0),
  setShrinkage: measured(0),
  rise: measured(0),
  dish: measured(0),
  ash: measured(0),
  level: 0,
}

/** 5 % superfat, saponification value 195, lye at a third: NaOH 0.195 · 39.997 / 56.105 · 0.95 = 0.13206 */
const ALKALI = ((0.195 * 39.997) / 56.105) * 0.95
const BATTER: readonly BatterPart[] = [
  { name: 'coconut oil', kind: 'fat', massPerOil: 0.3, density: 910 },
  { name: 'palm oil', kind: 'fat', massPerOil: 0.2, density: 900 },
  { name: 'olive oil', kind: 'fat', massPerOil: 0.5, density: 900 },
  { name: 'lye', kind: 'lye', massPerOil: 3 * ALKALI, density: 1350 },
]

const SETTING: FillSetting = {
  parts: BATTER,
  mould: { length: 0.4, width: 0.25, height: 0.2 },
  cuts: { columns: 5, rows: 4, slices: 5, slicePitch: 0.025, topTrim: 0.015 },
  allowances: EXACT,
}

describe('by hand: fill', () => {
  test('a litre and a half of water-like batter in a tenth of a square metre is 15 mm high', () => {
    const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
    const fill = fillHeightForOils({ ...SETTING, parts }, 1.5) // 0.0015 m3 / 0.1 m2
    expect(fill.pourHeight.nominal).toBeCloseTo(0.015, 12)
    expect(fill.setHeight.low).toBeCloseTo(0.015, 12)
    expect(fill.bars).toBe(100) // 5 · 4 · 5
  })

  test('a mould that was measured with water is filled by that, whatever its length and width are', () => {
    const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
    const mould = { length: 0.41, width: 0.26, height: 0.2, area: 0.1 }
    const fill = fillHeightForOils({ ...SETTING, parts, mould }, 10) // 0.01 / 0.1 = 0.1
    expect(fill.pourHeight.nominal).toBeCloseTo(0.1, 12)
    expect(fill.freeboard).toBeCloseTo(0.1, 12) // 0.2 − 0.1
  })

  test('residue, air and shrinkage multiply', () => {
    const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
    const allowances = {
      ...EXACT,
      potResidue: measured(0.02),
      air: measured(0.03),
      setShrinkage: measured(0.04),
    }
    const fill = fillHeightForOils({ ...SETTING, parts, allowances }, 10)
    expect(fill.pourHeight.nominal).toBeCloseTo(0.1 * 0.98 * 1.03, 12)
    expect(fill.setHeight.nominal).toBeCloseTo(0.1 * 0.98 * 1.03 * 0.96, 12)
    expect(fill.pouredMass).toBeCloseTo(9.8, 12)
  })

  test('bands: one independent part gives its own share, two add as squares', () => {
    const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
    const air = { low: 0, nominal: 0, high: 0.03 }
    const potResidue = { low: 0, nominal: 0, high: 0.04 }
    const one = fillHeightForOils({ ...SETTING, parts, allowances: { ...EXACT, air } }, 10)
    expect(one.pourHeight.high).toBeCloseTo(0.103, 12)
    expect(one.pourHeight.low).toBeCloseTo(0.1, 12)
    const shrinkage = { low: 0, nominal: 0, high: 0.03 }
    const two = fillHeightForOils(
      { ...SETTING, parts, allowances: { ...EXACT, potResidue, setShrinkage: shrinkage } },
      10,
    )
    expect(two.setHeight.low).toBeCloseTo(0.1 * (1 - 0.05), 12) // 3-4-5
  })

  test('trim: dish 3, ash 1, and spreads of 3 and 4 mm as squares make 9 mm', () => {
    const dish = { low: 0.001, nominal: 0.003, high: 0.006 }
    const ash = { low: 0, nominal: 0.001, high: 0.005 }
    const fill = fillHeightForOils({ ...SETTING, allowances: { ...EXACT, dish, ash } }, 10)
    expect(fill.trimParts).toMatchObject({ dish: 0.003, ash: 0.001, outOfLevel: 0 })
    expect(fill.trimNeeded).toBeCloseTo(0.009, 12)
    // a set block that may be 5 % lower: 100 mm by 5 mm
    const setShrinkage = { low: 0, nominal: 0, high: 0.05 }
    const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
    expect(
      fillHeightForOils({ ...SETTING, parts, allowances: { ...EXACT, setShrinkage } }, 10).trimNeeded,
    ).toBeCloseTo(0.005, 12)
  })

  test('one degree out of level is 5 mm over 300 mm, half of it below the mean', () => {
    const mould = { length: 0.3, width: 1e-9, height: 0.2 }
    const fill = fillHeightForOils({ ...SETTING, mould, allowances: { ...EXACT, level: Math.PI / 180 } }, 0)
    expect(fill.trimParts.outOfLevel * 2).toBeCloseTo(0.0052, 4)
  })

  test('findings: over the rim, rising over it, short freeboard, short trim, short block', () => {
    const codes = (change: Partial<FillAllowances>, oilMass: number, height = 0.2): string[] => {
      const mould = { ...SETTING.mould, height }
      const fill = fillHeightForOils({ ...SETTING, mould, allowances: { ...EXACT, ...change } }, oilMass)
      return fill.findings.map((finding) => finding.code)
    }
    const tenth = 0.01 / batterPerOil(BATTER).volumePerOil // 100 mm high
    expect(codes({}, 1.4 * tenth)).toEqual([])
    expect(codes({}, 1.4 * tenth, 0.139)).toEqual(['batter-over-rim'])
    expect(codes({ rise: measured(0.05) }, 1.4 * tenth, 0.145)).toEqual(['rise-over-rim']) // 147 mm
    expect(codes({ rise: { low: 0, nominal: 0.03, high: 0.05 } }, 1.4 * tenth, 0.145)).toEqual([
      'freeboard-short',
    ])
    expect(codes({ dish: measured(0.02) }, 1.4 * tenth)).toEqual(['trim-short'])
    expect(codes({}, 1.2 * tenth)).toEqual(['fill-below-slices'])
  })

  test('twice the oils is twice the height; oils for a height and height for oils undo each other', () => {
    fc.assert(
      fc.property(
        fc.record({
          length: fc.double({ min: 0.1, max: 1, noNaN: true }),
          width: fc.double({ min: 0.1, max: 1, noNaN: true }),
          lining: fc.double({ min: 0, max: 0.01, noNaN: true }),
          slices: fc.integer({ min: 1, max: 20 }),
          residue: fc.double({ min: 0, max: 0.1, noNaN: true }),
          shrink: fc.double({ min: 0, max: 0.2, noNaN: true }),
        }),
        ({ length, width, lining, slices, residue, shrink }) => {
          const setting: FillSetting = {
            ...SETTING,
            mould: { length: length - 2 * lining, width: width - 2 * lining, height: 2 },
            cuts: { ...SETTING.cuts, slices },
            allowances: {
              ...DEFAULT_FILL_ALLOWANCES,
              potResidue: measured(residue),
              setShrinkage: measured(shrink),
            },
          }
          const fill = oilsForFillHeight(setting)
          expect(fill.setHeight.nominal).toBeCloseTo(slices * 0.025 + 0.015, 10)
          const twice = fillHeightForOils(setting, 2 * fill.oilMass)
          expect(twice.pourHeight.nominal).toBeCloseTo(2 * fill.pourHeight.nominal, 10)
          expect(twice.batterMass).toBeCloseTo(2 * fill.batterMass, 10)
        },
      ),
      { seed: 6, numRuns: 200 },
    )
  })

  test('nothing is NaN or infinite for an empty recipe or a mould without room', () => {
    for (const setting of [
      { ...SETTING, parts: [] },
      { ...SETTING, mould: { ...SETTING.mould, width: 0 } },
    ]) {
      const fill = oilsForFillHeight(setting)
      expect(Object.values(fill).every((value) => typeof value !== 'number' || Number.isFinite(value))).toBe(
        true,
      )
      expect(fill.findings.map((finding) => finding.code)).toContain('fill-below-slices')
    }
  })

  test('bands about a nominal that is not zero, each part alone', () => {
    const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
    const heights = (change: Partial<FillAllowances>) =>
      fillHeightForOils({ ...SETTING, parts, allowances: { ...EXACT, ...change } }, 10)
    const band = { low: 0.1, nominal: 0.2, high: 0.4 }
    const air = heights({ air: band }).pourHeight // 100 mm · 1.1, 1.2, 1.4
    expect([air.low, air.nominal, air.high].map((m) => Math.round(m * 1e6))).toEqual([110000, 120000, 140000])
    const residue = heights({ potResidue: band }).pourHeight // 100 mm · 0.6, 0.8, 0.9
    expect([residue.low, residue.nominal, residue.high].map((m) => Math.round(m * 1e6))).toEqual([
      60000, 80000, 90000,
    ])
    const set = heights({ setShrinkage: band }).setHeight
    expect([set.low, set.nominal, set.high].map((m) => Math.round(m * 1e6))).toEqual([60000, 80000, 90000])
    const spread = heights({ setShrinkage: band })
    expect(spread.trimNeeded).toBeCloseTo(0.02, 12)
  })

  test('length and width both count when the mould is out of level', () => {
    const mould = { length: 0.4, width: 0.2, height: 0.2 }
    const fill = fillHeightForOils({ ...SETTING, mould, allowances: { ...EXACT, level: 0.01 } }, 0)
    expect(fill.trimParts.outOfLevel).toBeCloseTo(0.003, 6) // 0.6 / 2 · 0.01
    expect(fill.trimNeeded).toBeCloseTo(0.003, 6)
  })

  test('what stops and what warns', () => {
    const severities = (change: Partial<FillAllowances>, oilMass: number, height = 0.2) =>
      fillHeightForOils(
        { ...SETTING, mould: { ...SETTING.mould, height }, allowances: { ...EXACT, ...change } },
        oilMass,
      ).findings.map((finding) => finding.severity)
    const tenth = 0.01 / batterPerOil(BATTER).volumePerOil
    expect(severities({}, 1.4 * tenth, 0.139)).toEqual(['stop'])
    expect(severities({ rise: measured(0.05) }, 1.4 * tenth, 0.145)).toEqual(['stop'])
    expect(severities({ rise: { low: 0, nominal: 0.03, high: 0.05 } }, 1.4 * tenth, 0.145)).toEqual(['warn'])
    expect(severities({ ash: measured(0.02) }, 1.4 * tenth)).toEqual(['warn'])
    expect(severities({}, 1.2 * tenth)).toEqual(['stop'])
  })
})

describe('by hand: so much oil in as many whole slices as it fills', () => {
  const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
  const setting: FillSetting = { ...SETTING, parts }

  test.each([
    // kg over 0.1 m2, height, slices of 25 mm above a trim of 15 mm
    [14, 0.14, 5], // 125 + 15: all five
    [13.9, 0.139, 4], // a millimetre short of the fifth
    [6.5, 0.065, 2], // 50 + 15
    [4, 0.04, 1],
    [3.9, 0.039, 1], // less than one slice with its trim, more than one slice
  ])('%f kg stand %f m high: %i slices', (oils, height, slices) => {
    const fill = wholeSlicesForOils(setting, oils)
    expect(fill.setHeight.nominal).toBeCloseTo(height, 12)
    expect(fill.slices).toBe(slices)
    expect(fill.bars).toBe(20 * slices)
    expect(fill.trim).toBeCloseTo(height - slices * 0.025, 12)
  })

  test('not one slice: a stop', () =>
    expect(wholeSlicesForOils(setting, 2).findings.map(({ code }) => code)).toContain('fill-below-slices'))

  test('more than the mould is cut into: no more slices than it has', () =>
    expect(wholeSlicesForOils(setting, 19).slices).toBe(5))
})

describe('by hand: heights that are just met', () => {
  const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
  const air = { low: 0, nominal: 0.01, high: 0.03 }
  const rise = { low: 0, nominal: 0.03, high: 0.1 }
  const fill = (height: number, change: Partial<FillAllowances> = {}) =>
    fillHeightForOils(
      {
        ...SETTING,
        parts,
        mould: { ...SETTING.mould, height },
        allowances: { ...EXACT, air, rise, ...change },
      },
      14,
    )
  const codes = (height: number, change: Partial<FillAllowances> = {}) =>
    fill(height, change).findings.map(({ code }) => code)

  test('batter up to the rim, batter that rises to it, and the whole of the rise', () => {
    const { high, nominal } = fill(1).pourHeight
    // 140 mm · 1.03
    expect(high).toBeCloseTo(0.1442, 9)
    expect(codes(high)).toEqual(['rise-over-rim'])
    expect(codes(high - 1e-6)).toEqual(['batter-over-rim'])
    expect(codes(high * 1.03)).toEqual(['freeboard-short'])
    expect(codes(high * 1.03 - 1e-6)).toEqual(['rise-over-rim'])
    const { freeboardNeeded } = fill(1)
    // 144.2 mm · 1.1 less 141.4 mm
    expect(freeboardNeeded).toBeCloseTo(0.01722, 9)
    const enough = [0, 1, 2].map((last) => nominal + freeboardNeeded + last * 2 ** -55)
    expect(enough.map((height) => codes(height))).toContainEqual([])
    expect(codes(nominal + freeboardNeeded - 1e-6)).toEqual(['freeboard-short'])
  })

  test('freeboard that is just what the rise takes is enough', () => {
    // 0.25 m of batter in 0.1 m2 that may rise by half: 0.375 m, exact in binary
    const half = { low: 0, nominal: 0.25, high: 0.5 }
    const mould = { length: 1, width: 0.1, height: 0.375, area: 0.1 }
    const exact = (height: number) =>
      fillHeightForOils(
        {
          ...SETTING,
          parts: [{ ...parts[0]!, density: 1 }],
          mould: { ...mould, area: 1, height },
          allowances: { ...EXACT, rise: half },
        },
        0.25,
      )
    expect(exact(0.375)).toMatchObject({ freeboard: 0.125, freeboardNeeded: 0.125, findings: [] })
    expect(exact(0.3749).findings.map(({ code }) => code)).toEqual(['freeboard-short'])
    expect(exact(0.3125).findings.map(({ code }) => code)).toEqual(['freeboard-short'])
    expect(exact(0.25).findings.map(({ code }) => code)).toEqual(['rise-over-rim'])
  })

  test('oils for just the slices and the trim that is needed never fall short by their last bit', () => {
    for (let slices = 1; slices <= 12; slices += 1)
      for (const topTrim of [0, 0.004, 0.015]) {
        const setting: FillSetting = {
          ...SETTING,
          mould: { ...SETTING.mould, height: 1 },
          cuts: { ...SETTING.cuts, slices, slicePitch: 0.0253, topTrim },
          allowances: { ...EXACT, dish: measured(topTrim * 0.75), ash: measured(topTrim * 0.25) },
        }
        const { findings, oilMass } = oilsForFillHeight(setting)
        expect(findings).toEqual([])
        expect(
          wholeSlicesForOils({ ...setting, cuts: { ...setting.cuts, slices: 12 } }, oilMass).slices,
        ).toBe(slices)
      }
  })

  test('a millimetre of trim too little is told', () => {
    const one = (dish: number) =>
      oilsForFillHeight({ ...SETTING, allowances: { ...EXACT, dish: measured(dish) } }).findings.map(
        ({ code }) => code,
      )
    expect(one(0.015)).toEqual([])
    expect(one(0.01501)).toEqual(['trim-short'])
  })
})

describe('by hand: what is assumed of a fill (estimates)', () => {
  test('10 kg in a tenth of a square metre, by their middles', () => {
    const parts: BatterPart[] = [{ name: 'oil', kind: 'fat', massPerOil: 1, density: 1000 }]
    const { allowances: _, ...usual } = SETTING
    const fill = fillHeightForOils({ ...usual, parts }, 10)
    // 100 mm · 0.99 · 1.01 = 99.99; down by 0.01/0.99 and 0.01/1.01, up by 0.005/0.99 and 0.02/1.01
    expect(fill.pourHeight.nominal).toBeCloseTo(0.09999, 9)
    expect(fill.pourHeight.low).toBeCloseTo(0.09999 * (1 - Math.hypot(0.01 / 0.99, 0.01 / 1.01)), 9)
    expect(fill.pourHeight.high).toBeCloseTo(0.09999 * (1 + Math.hypot(0.005 / 0.99, 0.02 / 1.01)), 9)
    // it sinks by 4 %, 3 to 5
    expect(fill.setHeight.nominal).toBeCloseTo(0.09999 * 0.96, 9)
    expect(fill.setHeight.low).toBeCloseTo(
      0.09999 * 0.96 * (1 - Math.hypot(0.01 / 0.99, 0.01 / 1.01, 0.01 / 0.96)),
      9,
    )
    expect(fill.trimParts.dish).toBe(0.003)
    expect(fill.trimParts.ash).toBe(0.001)
    const down = fill.setHeight.nominal - fill.setHeight.low
    expect(fill.trimParts.spread).toBeCloseTo(Math.hypot(down, 0.002, 0.001), 12)
    // 650 mm of both sides, half of it, 3.5 mm a metre
    expect(fill.trimParts.outOfLevel).toBeCloseTo(0.325 * 0.0035, 7)
    expect(fill.freeboardNeeded).toBeCloseTo(fill.pourHeight.high * 1.1 - 0.09999, 9)
  })
})
