/** All fats of the shipped library, reckoned a second time with the atomic weights of another package. */
import { MF } from 'mf-parser'
import { describe, expect, test } from 'vitest'
import {
  iodineValueOfFreeAcids,
  iodineValueOfTriglyceride,
  middleComposition,
  saponificationValueOfFreeAcids,
  saponificationValueOfTriglyceride,
} from '../../src/chemistry/composition.ts'
import type { FattyAcidName } from '../../src/chemistry/fatty-acids.ts'
import { reactionProducts } from '../../src/chemistry/mass-balance.ts'
import { fats, type PrintedFat, rangesOf } from '../chemistry/fats-library.ts'

/** g/mol, from isotope abundances */
const massOf = (formula: string): number => new MF(formula).getInfo().mass
const KOH = massOf('KOH')
const IODINE = massOf('I2')
const WATER = massOf('H2O')
const GLYCEROL = massOf('C3H8O3')

const parts = (acid: string) => {
  const [, carbons = '0', bonds = '0', hydroxyl] = /^C(\d+):(\d+)(OH)?/.exec(acid) ?? []
  return { carbons: Number(carbons), bonds: Number(bonds), oxygens: hydroxyl === undefined ? 2 : 3 }
}
const acidMass = (acid: string): number => {
  const { carbons, bonds, oxygens } = parts(acid)
  return massOf(`C${carbons}H${2 * (carbons - bonds)}O${oxygens}`)
}

type Percent = Readonly<Record<string, number>>

/** Mean acid, mg KOH per g, g I2 per 100 g; percentages are brought to 100. */
const reckon = (percent: Percent, free: boolean) => {
  const entries = Object.entries(percent)
  const sum = entries.reduce((total, [, share]) => total + share, 0)
  const acid = sum / entries.reduce((total, [name, share]) => total + share / acidMass(name), 0)
  const residue = GLYCEROL - 3 * WATER
  const iodine = entries.reduce((total, [name, share]) => {
    const molecule = free ? acidMass(name) : acidMass(name) + residue / 3
    return total + (share / sum) * ((100 * parts(name).bonds * IODINE) / molecule)
  }, 0)
  return { acid, saponification: (1000 * KOH) / (free ? acid : acid + residue / 3), iodine }
}

const middles = (fat: PrintedFat): Percent =>
  Object.fromEntries(
    Object.entries(fat['fatty-acids']?.percent ?? {})
      .map(([name, [low, high]]) => [name, (low + high) / 2] as const)
      .filter(([, share]) => share > 0),
  )

const within = (value: number, { from = 0, to = Number.POSITIVE_INFINITY }: { from?: number; to?: number }) =>
  value >= from && value <= to

const fatOf = (key: string): PrintedFat => fats.find(([name]) => name === key)![1]
const withAcids = fats.filter(([, fat]) => fat.kind !== 'wax')

describe('by hand: 36 fats, with another package’s atomic weights', () => {
  test('36 of them, two are waxes', () => {
    expect(fats).toHaveLength(36)
    expect(fats.filter(([, { kind }]) => kind === 'wax').map(([key]) => key)).toEqual(['jojoba', 'beeswax'])
    for (const [key, fat] of withAcids) expect(Object.keys(middles(fat)).length, key).toBeGreaterThan(0)
  })

  test.each(withAcids)('%s: the same values', (_, fat) => {
    const free = fat.kind === 'fatty-acid'
    const composition = middleComposition(rangesOf(fat))
    const expected = reckon(middles(fat), free)
    const saponification = free
      ? saponificationValueOfFreeAcids(composition)
      : saponificationValueOfTriglyceride(composition)
    // the two sets of atomic weights are 2 in 100 000 apart
    expect(Math.abs((saponification * 1000) / expected.saponification - 1)).toBeLessThan(1e-4)
    const iodine = free ? iodineValueOfFreeAcids(composition) : iodineValueOfTriglyceride(composition)
    // printed factors carry three figures: half a per cent
    expect(Math.abs(iodine * 100 - expected.iodine)).toBeLessThanOrEqual(0.005 * expected.iodine)
  })
})

describe('published: limits of the trade for each fat (sources stand in the library), and the middle of its acids', () => {
  const outside = withAcids.flatMap(([key, fat]) => {
    const { saponification, iodine } = reckon(middles(fat), fat.kind === 'fatty-acid')
    return [
      ...(within(saponification, fat['saponification-value']) ? [] : [`${key}: saponification value`]),
      ...(within(iodine, fat['iodine-value']) ? [] : [`${key}: iodine value`]),
    ]
  })

  test('68 values lie inside but three, which are explained below', () =>
    expect(outside).toEqual([
      'babassu: saponification value',
      'babassu: iodine value',
      'beef-tallow: iodine value',
    ]))

  test('babassu: 244.4 under 245 and 18.1 over 18, both from the middle; an oil inside the same ranges has neither', () => {
    const fat = fatOf('babassu')
    const middle = reckon(middles(fat), false)
    expect(middle.saponification).toBeCloseTo(244.4, 1)
    // 14.5 / 107.05 · 86 + 4 / 107.05 · 173.2 = 18.12
    expect(middle.iodine).toBeCloseTo(18.12, 1)
    const oil: Percent = {
      'C8:0': 6, 'C10:0': 5, 'C12:0': 46, 'C14:0': 17, 'C16:0': 8, 'C18:0': 3.5, 'C18:1': 12, 'C18:2': 2.5,
    } // biome-ignore format: a table reads better in rows
    expect(Object.values(oil).reduce((sum, share) => sum + share, 0)).toBe(100)
    for (const [name, [low, high]] of Object.entries(fat['fatty-acids']!.percent)) {
      expect(oil[name], name).toBeGreaterThanOrEqual(low)
      expect(oil[name], name).toBeLessThanOrEqual(high)
    }
    expect(within(reckon(oil, false).saponification, fat['saponification-value'])).toBe(true)
    expect(within(reckon(oil, false).iodine, fat['iodine-value'])).toBe(true)
  })

  test('beef tallow: 39.7 under 40, since its acids were printed without C16:1; with it (1 to 5 %, from memory) inside', () => {
    const fat = fatOf('beef-tallow')
    expect(Object.keys(fat['fatty-acids']!.percent)).not.toContain('C16:1')
    // 40 / 97.5 · 86 + 2.5 / 97.5 · 173.2 = 39.72
    expect(reckon(middles(fat), false).iodine).toBeCloseTo(39.7, 1)
    expect(within(reckon({ ...middles(fat), 'C16:1': 3 }, false).iodine, fat['iodine-value'])).toBe(true)
  })
})

describe('published: waxes, limits from memory, explained by what a wax is', () => {
  test('jojoba: one acid on one alcohol as long, not three on glycerol', () => {
    const fat = fatOf('jojoba')
    const { acid, saponification } = reckon(middles(fat), false)
    // as a triglyceride it would want nearly twice the lye
    expect(saponification).toBeGreaterThan(1.7 * fat['saponification-value'].to)
    // an alcohol is its acid with two hydrogens for one oxygen
    const alcohol = acid - massOf('O') + massOf('H2')
    const ester = acid + alcohol - WATER
    expect(within((1000 * KOH) / ester, fat['saponification-value'])).toBe(true)
    // one double bond in each half
    expect(within((100 * 2 * IODINE) / ester, fat['iodine-value'])).toBe(true)
    // half stays alcohol, at most 510 g in 1 kg; and so says the program’s balance, at the middle of the range
    expect(alcohol / ester).toBeGreaterThan(0.49)
    expect(alcohol / ester).toBeLessThan(0.51)
    const found = reactionProducts({
      fats: [{ kind: 'wax', mass: 1, saponificationValue: 0.0935, fattyAcidMolarMass: acid / 1000 }],
      alkali: { NaOH: 0, KOH: 0.0935 },
    })
    expect(found.glycerol).toBe(0)
    expect(Math.abs(found.waxAlcohol - alcohol / ester)).toBeLessThan(0.02)
  })

  test('beeswax: no acids are published with it; acid value 17 to 24 and ester value 70 to 80 make its 87 to 104', () => {
    const fat = fatOf('beeswax')
    expect(fat['fatty-acids']).toBeUndefined()
    expect(fat['saponification-value'].from).toBe(17 + 70)
    expect(fat['saponification-value'].to).toBe(24 + 80)
    // melissyl palmitate, C46H92O2, has 82.8 mg/g and takes up no iodine: what does is not its ester (from memory)
    expect((1000 * KOH) / massOf('C46H92O2')).toBeCloseTo(82.8, 1)
    expect(fat['iodine-value'].to).toBeLessThan(20)
  })
})

describe('by hand: names of acids', () => {
  test('every acid of the library is one that is reckoned with', () => {
    const names = new Set(fats.flatMap(([, fat]) => Object.keys(fat['fatty-acids']?.percent ?? {})))
    for (const name of names as Set<FattyAcidName>) expect(parts(name).carbons, name).toBeGreaterThan(4)
    expect(parts('C18:1OH')).toEqual({ carbons: 18, bonds: 1, oxygens: 3 })
    expect(parts('C18:3n6')).toEqual({ carbons: 18, bonds: 3, oxygens: 2 })
  })
})
