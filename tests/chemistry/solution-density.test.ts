import { describe, expect, test } from 'vitest'
import { waterDensity } from '../../src/chemistry/density.ts'
import { lyeDensity } from '../../src/chemistry/solution-density.ts'

const celsius = (t: number) => t + 273.15

describe('published: krakow-tables, KOH at 18 °C [g/cm3]', () => {
  test.each([
    [5, 1.045],
    [10, 1.091],
    [15, 1.139],
    [20, 1.188],
    [25, 1.238],
    [30, 1.29],
    [35, 1.344],
    [40, 1.4],
  ])('%i %%', (percent, printed) => {
    // Half the last digit is 0.0005; the model is up to 0.1 % off.
    expect(Math.abs(lyeDensity({ KOH: percent / 100 }, celsius(18)) / 1000 - printed)).toBeLessThan(0.0016)
  })
})

describe('published: advancedthermo, NaOH by molality [g/cm3] at 10, 25, 40, 55 and 70 °C', () => {
  test.each([
    [0.5, [1.02222, 1.0186, 1.01322, 1.00639, 0.99832]],
    [1, [1.0434, 1.03911, 1.03323, 1.0261, 1.0179]],
    [3, [1.12001, 1.11402, 1.10659, 1.0984, 1.0898]],
    [6, [1.21677, 1.20866, 1.20013, 1.19121, 1.18192]],
  ])('%f mol/kg', (molality, printed) => {
    const salt = molality * 0.0399968
    ;[10, 25, 40, 55, 70].forEach((t, i) => {
      const found = lyeDensity({ NaOH: salt / (1 + salt) }, celsius(t)) / 1000
      // Two models of the same measurements: 0.5 %.
      expect(Math.abs(found / printed[i]! - 1)).toBeLessThan(0.005)
    })
  })
})

describe('published: perry-recalled, NaOH at 20 °C [g/cm3] (from memory)', () => {
  test.each([
    [5, 1.0538],
    [10, 1.1089],
    [20, 1.2191],
    [30, 1.3279],
    [40, 1.43],
    [45, 1.4779],
    [50, 1.5253],
  ])('%i %%', (percent, printed) => {
    const found = lyeDensity({ NaOH: percent / 100 }, celsius(20)) / 1000
    // 0.5 %, and 0.8 % above 45 %, where sources differ among themselves.
    expect(Math.abs(found / printed - 1)).toBeLessThan(percent > 45 ? 0.008 : 0.005)
  })
})

describe('by hand: laliberte2009, computed apart from this program from the parameters [kg/m3]', () => {
  test.each([
    ['NaOH', 0.02, 20, 1020.2],
    ['NaOH', 0.1, 25, 1107.1],
    ['NaOH', 0.33, 20, 1356.6],
    ['NaOH', 0.33, 60, 1338.8],
    ['NaOH', 0.5, 15, 1516.1],
    ['KOH', 0.05, 40, 1036.9],
    ['KOH', 0.33, 20, 1320.9],
    ['KOH', 0.5, 60, 1484.7],
  ] as const)('%s %f at %i °C', (alkali, share, t, expected) => {
    // Half the last digit, and 0.02 for another equation of water.
    expect(Math.abs(lyeDensity({ [alkali]: share }, celsius(t)) - expected)).toBeLessThan(0.07)
  })
})

describe('by hand', () => {
  test('no alkali: water', () =>
    expect(lyeDensity({}, celsius(20))).toBeCloseTo(waterDensity(celsius(20)), 9))

  test('a mixed lye lies between the two at the same strength', () => {
    const mixed = lyeDensity({ NaOH: 0.2, KOH: 0.13 }, celsius(20))
    expect(mixed).toBeLessThan(lyeDensity({ NaOH: 0.33 }, celsius(20)))
    expect(mixed).toBeGreaterThan(lyeDensity({ KOH: 0.33 }, celsius(20)))
  })

  test('smooth where the apparent density has its pole, near 9.5 %', () => {
    const around = Array.from({ length: 41 }, (_, i) => lyeDensity({ NaOH: 0.075 + i * 0.001 }, celsius(20)))
    for (let i = 1; i < around.length; i++) expect(around[i]! - around[i - 1]!).toBeCloseTo(1.1, 0)
  })
})
