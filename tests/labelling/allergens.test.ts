/** Which allergens of a fragrance a label names. */
import { describe, expect, test } from 'vitest'
import { type AllergenInput, fragranceAllergens } from '../../src/labelling/allergens.ts'

const meadow = {
  name: 'Meadow',
  mass: 0.03,
  composition: [
    { name: 'Geraniol', share: 0.004 },
    { name: 'Linalool', share: 0.05 },
    { name: 'Citral', share: 0.005 },
    { name: 'Menthol', share: 0.02, addedIn2023: true },
  ],
} as const
const bars: AllergenInput = { region: 'EU', fragrances: [meadow], finishedMass: 1.25 }
const verdicts = (input: AllergenInput) =>
  fragranceAllergens(input).lines.map(({ name, verdict }) => [name, verdict])
const codes = (input: AllergenInput) =>
  fragranceAllergens(input).findings.map(({ code, severity }) => [code, severity])

describe('published: Regulation (EU) 2023/1545 (read), 0.01 % rinsed off, 0.001 % left on', () => {
  test('limits', () => {
    expect(fragranceAllergens(bars).limit).toBe(0.0001)
    expect(fragranceAllergens({ ...bars, use: 'leave-on' }).limit).toBe(0.00001)
    expect(fragranceAllergens({ ...bars, region: 'US' }).limit).toBeUndefined()
  })

  test('the old list alone to 31 July 2026', () => {
    expect(verdicts({ ...bars, placedOnMarket: '2026-07-31' })[1]).toEqual(['Menthol', 'not-yet'])
    expect(verdicts({ ...bars, placedOnMarket: '2026-08-01' })[1]).toEqual(['Menthol', 'named'])
    expect(verdicts({ ...bars, placedOnMarket: '2026-07-31' })[0]).toEqual(['Linalool', 'named'])
  })
})

describe('by hand: shares of the bar', () => {
  test('30 g of scent in 1250 g of bars', () => {
    // 2.4 % of scent: 5 % of it 0.12 %, 2 % 0.048 %, 0.5 % 0.012 %, 0.4 % 0.0096 %
    const { lines } = fragranceAllergens(bars)
    expect(lines.map(({ share }) => Math.round(share * 1e6))).toEqual([1200, 480, 120, 96])
    expect(verdicts(bars)).toEqual([
      ['Linalool', 'named'],
      ['Menthol', 'named'],
      ['Citral', 'named'],
      ['Geraniol', 'below-limit'],
    ])
  })

  test('of the bar, not of the batter: what dries lifts it over the limit', () => {
    // geraniol 0.12 g: of 1200 g 0.01 % exactly, which is not above; of 1199 g it is
    expect(verdicts({ ...bars, finishedMass: 1.2 })[3]).toEqual(['Geraniol', 'below-limit'])
    expect(verdicts({ ...bars, finishedMass: 1.199 })[3]).toEqual(['Geraniol', 'named'])
  })

  test('two fragrances together name what neither does alone', () => {
    // 0.0096 % and 10 g · 0.1 % / 1250 g = 0.0008 %: 0.0104 %
    const second = { name: 'Hay', mass: 0.01, composition: [{ name: 'geraniol', share: 0.001 }] }
    expect(verdicts({ ...bars, fragrances: [meadow, second] })[3]).toEqual(['Geraniol', 'named'])
  })

  test('equal ones stand by name', () => {
    const composition = ['Limonene', 'Coumarin'].map((name) => ({ name, share: 0.01 }))
    expect(verdicts({ ...bars, fragrances: [{ ...meadow, composition }] }).map(([name]) => name)).toEqual([
      'Coumarin',
      'Limonene',
    ])
  })
})

describe('by hand: what is not known', () => {
  const undeclared = { name: 'Moss', mass: 0.01, composition: undefined }

  test('a fragrance without composition stops a label in Europe', () => {
    expect(codes({ ...bars, fragrances: [undeclared] })).toEqual([['fragrance-undeclared', 'stop']])
    expect(codes({ ...bars, region: 'UK', fragrances: [undeclared] })).toEqual([
      ['fragrance-undeclared', 'stop'],
    ])
    expect(codes({ ...bars, fragrances: [{ ...undeclared, composition: [] }] })).toEqual([])
  })

  test('elsewhere it is worth knowing, and no rule is known', () => {
    expect(codes({ ...bars, region: 'US', fragrances: [undeclared] })).toEqual([
      ['fragrance-undeclared', 'warn'],
      ['allergen-rule-unknown', 'warn'],
    ])
    expect(new Set(verdicts({ ...bars, region: 'CA' }).map(([, verdict]) => verdict))).toEqual(
      new Set(['no-rule']),
    )
    expect(codes({ ...bars, region: 'US', fragrances: [] })).toEqual([])
  })

  test('a composition that is more than the fragrance, bars that weigh nothing', () => {
    const composition = [
      { name: 'Linalool', share: 0.7 },
      { name: 'Citral', share: 0.4 },
    ]
    expect(codes({ ...bars, fragrances: [{ ...meadow, composition }] })).toEqual([
      ['fragrance-above-whole', 'stop'],
    ])
    expect(codes({ ...bars, finishedMass: 0 })).toEqual([['allergen-bar-mass', 'stop']])
  })
})
