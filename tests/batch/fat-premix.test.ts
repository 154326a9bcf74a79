import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { premix } from '../../src/batch/fat-premix.ts'

const FATS = [
  { key: 'olive', mass: 4.5 },
  { key: 'coconut', mass: 3 },
  { key: 'castor', mass: 0.5 },
  { key: 'palm', mass: 2 },
]
const BLENDED = new Set(['coconut', 'castor', 'palm'])
const shares = (of: Record<string, number>): ReadonlyMap<string, number> => new Map(Object.entries(of))

describe('by hand: the mass to draw', () => {
  test('3 + 0.5 + 2 = 5.5 kg, of it 6/11, 1/11 and 4/11', () => {
    const { mass, fats, findings } = premix(FATS, BLENDED)
    expect(mass).toBe(5.5)
    expect(fats.map(({ fat, mass: own }) => [fat, own])).toEqual([
      ['coconut', 3],
      ['castor', 0.5],
      ['palm', 2],
    ])
    expect(fats[0]!.share).toBeCloseTo(0.545455, 6)
    expect(fats[1]!.share).toBeCloseTo(0.090909, 6)
    expect(fats[2]!.share).toBeCloseTo(0.363636, 6)
    expect(findings).toEqual([])
  })

  test('a fat that stands in the recipe twice counts together, and one that it lacks is none', () => {
    const twice = [...FATS, { key: 'palm', mass: 1 }]
    const { mass, fats } = premix(twice, new Set(['palm', 'tallow']))
    expect(mass).toBe(3)
    expect(fats).toEqual([
      { fat: 'palm', mass: 3, share: 1 },
      { fat: 'tallow', mass: 0, share: 0 },
    ])
  })

  test('a blend of nothing', () => {
    expect(premix(FATS, new Set())).toEqual({ mass: 0, fats: [], findings: [] })
    expect(premix([{ key: 'palm', mass: 0 }], new Set(['palm']))).toEqual({
      mass: 0,
      fats: [{ fat: 'palm', mass: 0, share: 0 }],
      findings: [],
    })
  })
})

describe('by hand: whether it is the blend of the recipe', () => {
  const PAIR = [
    { key: 'coconut', mass: 3 },
    { key: 'palm', mass: 2 },
  ]
  const BOTH = new Set(['coconut', 'palm'])
  const findingsOf = (of: Record<string, number>) => premix(PAIR, BOTH, shares(of)).findings

  test.each([
    ['as it is', { coconut: 0.6, palm: 0.4 }],
    ['0.1 % off, no more', { coconut: 0.601, palm: 0.399 }],
    ['0.1 % off the other way', { coconut: 0.599, palm: 0.401 }],
    ['a trace of another fat', { coconut: 0.5995, palm: 0.3995, castor: 0.001 }],
  ])('%s: 60 and 40', (_, own) => {
    expect(findingsOf(own)).toEqual([])
  })

  test.each([
    ['0.11 % too much', { coconut: 0.6011, palm: 0.3995 }, 'coconut', 0.6011, 0.6],
    ['0.11 % too little', { coconut: 0.6, palm: 0.3989 }, 'palm', 0.3989, 0.4],
    ['turned round', { coconut: 0.4, palm: 0.6 }, 'coconut', 0.4, 0.6],
    ['a fat that the recipe lacks', { coconut: 0.5, palm: 0.35, castor: 0.15 }, 'castor', 0.15, 0],
    ['a fat that the blend lacks', { coconut: 1 }, 'coconut', 1, 0.6],
    ['a fat that the blend does not name', { coconut: 0.6 }, 'palm', 0, 0.4],
    ['shares that leave a part without a name', { coconut: 0.6, palm: 0.3 }, 'palm', 0.3, 0.4],
    ['percents taken for shares', { coconut: 60, palm: 40 }, 'coconut', 60, 0.6],
  ])('%s: a stop that names the fat that is furthest off', (_, own, fat, share, wanted) => {
    const findings = findingsOf(own as Record<string, number>)
    expect(findings).toEqual([
      { code: 'premix-not-of-this-recipe', severity: 'stop', values: { fat, share, wantedShare: wanted } },
    ])
  })

  test('the fats that are weighed apart do not matter', () => {
    const own = shares({ coconut: 6 / 11, castor: 1 / 11, palm: 4 / 11 })
    const other = FATS.map((fat) => (fat.key === 'olive' ? { ...fat, mass: 99 } : fat))
    expect(premix(FATS, BLENDED, own).findings).toEqual([])
    expect(premix(other, BLENDED, own).findings).toEqual([])
  })
})

describe('by hand: any recipe', () => {
  const recipes = fc
    .array(fc.double({ min: 0.01, max: 50, noNaN: true }), { minLength: 2, maxLength: 8 })
    .chain((masses) =>
      fc.record({
        fats: fc.constant(masses.map((mass, i) => ({ key: `fat ${i}`, mass }))),
        blended: fc.subarray(
          masses.map((_, i) => `fat ${i}`),
          { minLength: 2 },
        ),
        batch: fc.double({ min: 0.1, max: 20, noNaN: true }),
      }),
    )

  test('the draw and what is weighed apart are all fats; a blend of one batch fits every size of it', () => {
    fc.assert(
      fc.property(recipes, ({ fats, blended, batch }) => {
        const keys = new Set(blended)
        const own = premix(fats, keys)
        const apart = fats.filter(({ key }) => !keys.has(key)).reduce((sum, { mass }) => sum + mass, 0)
        expect(own.mass + apart).toBeCloseTo(
          fats.reduce((sum, { mass }) => sum + mass, 0),
          9,
        )
        expect(own.fats.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
        for (const { mass, share } of own.fats) expect(share * own.mass).toBeCloseTo(mass, 9)
        const bigger = fats.map(({ key, mass }) => ({ key, mass: mass * batch }))
        const blend = new Map(own.fats.map(({ fat, share }) => [fat, share]))
        expect(premix(bigger, keys, blend).findings).toEqual([])
      }),
      { seed: 24 },
    )
  })

  test('a fat that is off by more than the tolerance is always found', () => {
    const off = fc.double({ min: 0.0011, max: 0.5, noNaN: true })
    fc.assert(
      fc.property(recipes, off, ({ fats, blended }, more) => {
        const keys = new Set(blended)
        const blend = new Map(premix(fats, keys).fats.map(({ fat, share }) => [fat, share]))
        const [first, second] = blended as [string, string]
        blend.set(first, blend.get(first)! + more)
        blend.set(second, blend.get(second)! - more)
        expect(premix(fats, keys, blend).findings).toMatchObject([
          { code: 'premix-not-of-this-recipe', severity: 'stop' },
        ])
      }),
      { seed: 25 },
    )
  })
})

describe('by hand: a thousandth off', () => {
  const pair = [
    { key: 'coconut', mass: 6 },
    { key: 'palm', mass: 4 },
  ]
  const off = (by: number) =>
    premix(
      pair,
      new Set(['coconut', 'palm']),
      new Map([
        ['coconut', 0.6 + by],
        ['palm', 0.4 - by],
      ]),
    ).findings

  test.each([0.001, -0.001, 0.0009])('%d is what a blend may be off', (by) => expect(off(by)).toEqual([]))
  test.each([0.001005, -0.001005])('%d is more', (by) => expect(off(by)).toHaveLength(1))
})
