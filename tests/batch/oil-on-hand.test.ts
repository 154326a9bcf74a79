import { describe, expect, test } from 'vitest'
import { measured } from '../../src/batch/band.ts'
import type { BatterPart } from '../../src/batch/batter.ts'
import { type FillSetting, oilsForFillHeight } from '../../src/batch/fill.ts'
import type { FillAllowances } from '../../src/batch/fill-allowances.ts'
import { barsForOilOnHand } from '../../src/batch/oil-on-hand.ts'

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

describe('by hand: oils on hand', () => {
  test('olive oil runs out: 5.2 kg at half of the oils is 10.4 kg of oils', () => {
    const result = barsForOilOnHand(SETTING, [
      { name: 'olive oil', mass: 5.2 },
      { name: 'coconut oil', mass: 9 },
    ])
    expect(result.limitingFat).toBe('olive oil')
    expect(result.oilMassPossible).toBeCloseTo(10.4, 12)
    // volume a kg of oils: 0.3/910 + 0.7/900 + 0.39617/1350 = 1.40090 L; 10.4 kg: 145.69 mm; (145.69 − 15) / 25 = 5.23
    expect(result.fill?.slices).toBe(5)
    expect(result.fill?.bars).toBe(100)
    expect(result.fill?.oilMass).toBeCloseTo((0.14 * 0.1) / 0.0014009, 2) // 140 mm of 0.1 m2
    expect(result.leftOver[0]?.mass).toBeCloseTo(5.2 - (0.5 * 0.014) / 0.0014009, 2)
  })

  test('the mould limits when oil is plenty, and one slice too few stops', () => {
    expect(barsForOilOnHand(SETTING, [{ name: 'olive oil', mass: 500 }]).fill?.slices).toBe(5)
    expect(barsForOilOnHand(SETTING, []).fill?.slices).toBe(5)
    const none = barsForOilOnHand(SETTING, [{ name: 'olive oil', mass: 1 }]) // 28 mm, 40 needed
    expect(none.fill).toBeUndefined()
    expect(none.findings[0]).toMatchObject({ code: 'no-whole-slice', severity: 'stop' })
    expect(none.findings[0]?.values.oilMassNeeded).toBeCloseTo(0.004 / 0.0014009, 2)
  })

  test('stock of exactly the needed mass makes all slices', () => {
    const full = oilsForFillHeight(SETTING)
    const exact = barsForOilOnHand(SETTING, [{ name: 'olive oil', mass: full.oilMass * 0.5 }])
    expect(exact.fill?.slices).toBe(5)
  })
})

describe('by hand: oils that are just enough, or none of which is taken', () => {
  const names = (...onHand: readonly (readonly [string, number])[]) =>
    barsForOilOnHand(
      { ...SETTING, parts: [...BATTER, { name: 'scent', kind: 'fat', massPerOil: 0, density: 900 }] },
      onHand.map(([name, mass]) => ({ name, mass })),
    )

  test('a fat that the recipe takes nothing of limits nothing', () => {
    expect(names(['scent', 1])).toMatchObject({ limitingFat: undefined, oilMassPossible: undefined })
    expect(names(['scent', 1]).leftOver).toEqual([{ name: 'scent', mass: 1 }])
    expect(names(['scent', 0]).limitingFat).toBeUndefined()
    expect(names(['water', 1]).limitingFat).toBeUndefined()
  })

  test('of two that would last as long the first of the recipe is named', () => {
    // 3 / 0.3 and 5 / 0.5 kg
    expect(names(['olive oil', 5], ['coconut oil', 3]).limitingFat).toBe('coconut oil')
    expect(names(['olive oil', 4.9], ['coconut oil', 3]).limitingFat).toBe('olive oil')
  })

  test('the same fat twice counts together', () =>
    expect(names(['olive oil', 2], ['olive oil', 3.2]).oilMassPossible).toBeCloseTo(10.4, 12))

  test('stock of exactly the needed mass makes every number of slices', () => {
    for (let slices = 1; slices <= 12; slices += 1) {
      const cuts = { ...SETTING.cuts, slices, slicePitch: 0.0253 }
      const { oilMass } = oilsForFillHeight({ ...SETTING, cuts })
      const most = { ...SETTING, cuts: { ...cuts, slices: 12 } }
      for (const [name, share] of [
        ['olive oil', 0.5],
        ['coconut oil', 0.3],
      ] as const) {
        expect(barsForOilOnHand(most, [{ name, mass: oilMass * share }]).fill?.slices).toBe(slices)
        const short = barsForOilOnHand(most, [{ name, mass: oilMass * share * 0.999 }])
        expect(short.fill?.slices ?? 0).toBe(slices - 1)
      }
    }
  })

  test('what is left over is never less than nothing', () => {
    const { leftOver, fill } = names(['olive oil', 5], ['coconut oil', 3], ['lye', 2])
    // 10 kg stand 140.09 mm high, 15 and 5 · 25 are 140
    expect(fill?.slices).toBe(5)
    for (const { mass } of leftOver) expect(mass).toBeGreaterThanOrEqual(0)
    expect(leftOver.find(({ name }) => name === 'lye')?.mass).toBe(2)
  })

  test('a mould without room takes no oil, and says so with whole numbers', () => {
    const none = barsForOilOnHand({ ...SETTING, mould: { ...SETTING.mould, width: 0 } }, [
      { name: 'olive oil', mass: 5 },
    ])
    expect(none.findings[0]?.values).toEqual({ fat: 'olive oil', oilMass: 10, oilMassNeeded: 0 })
    expect(none.leftOver).toEqual([{ name: 'olive oil', mass: 5 }])
  })
})
