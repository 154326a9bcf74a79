/** Mistakes at the scale and their remedies, and every remedy applied and reckoned once more. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { MOLAR_MASS } from '../../src/chemistry/atomic-weights.ts'
import {
  type Mistake,
  type MistakeKind,
  type RescueFat,
  type RescueInput,
  rescues,
} from '../../src/chemistry/rescue.ts'

/** Invented: 6 kg of a soft fat, 4 kg of a hard one, 1.45 kg of sodium hydroxide of 98.5 %, lye of a third. */
const soft: RescueFat = { key: 'soft', mass: 6, saponificationValue: 0.19, draws: [2.5, 2.5, 1] }
const hard: RescueFat = { key: 'hard', mass: 4, saponificationValue: 0.256, draws: [2, 2] }
const BATCH: RescueInput = {
  fats: [soft, hard],
  alkalis: [{ alkali: 'NaOH', mass: 1.45, purity: 0.985, portions: [0.5, 0.5, 0.45] }],
  hydroxideForAcids: 0,
  concentration: 1 / 3,
  floor: 0.02,
  softLimit: 0.1,
  roomLeft: 3.5,
}

const found = (input: RescueInput, kind: MistakeKind, of: string, draw: number): Mistake => {
  const all = rescues(input).filter((one) => one.kind === kind && one.of === of && one.draws.includes(draw))
  expect(all).toHaveLength(1)
  return all[0]!
}

// The batch with molar masses of 39.997 and 56.1056 g/mol:
// hydroxide 1450 · 0.985 / 39.997 = 35.70893 mol, demand (6 · 190 + 4 · 256) / 56.1056 = 2164 / 56.1056 = 38.57013 mol,
// superfat 1 − 35.70893 / 38.57013 = 0.07418. The masses are rounded to 1e-5 of their ratio.
const PLANNED = 0.07418
const near = (value: number | undefined, wanted: number): void =>
  expect(Math.abs((value ?? Number.NaN) - wanted)).toBeLessThan(3e-5)

describe('by hand: a draw of fat', () => {
  test('2 kg of the hard fat missed: 1652 g of KOH to take, 29.44448 mol; the fat goes in', () => {
    const one = found(BATCH, 'fat-draw-missed', 'hard', 2)
    near(one.superfat, -0.21275) // 1 − 35.70893 / 29.44448
    expect(one).toMatchObject({ draws: [1, 2], mass: 2, remedy: { kind: 'add-the-fat', mass: 2 } })
    near(one.superfatAfter, PLANNED)
    expect([one.addedMass, one.overPlan, one.overflow]).toEqual([2, 0, false])
  })

  test('the smaller last draw of the soft fat missed: 1974 / 56.1056 = 35.18365 mol', () => {
    const one = found(BATCH, 'fat-draw-missed', 'soft', 3)
    near(one.superfat, -0.01493) // 1 − 35.70893 / 35.18365
    expect(one).toMatchObject({ draws: [3], mass: 1, remedy: { kind: 'add-the-fat', mass: 1 } })
  })

  test('2.5 kg of the soft fat twice: more alkali, and water twice as heavy as it', () => {
    const one = found(BATCH, 'fat-draw-doubled', 'soft', 1)
    near(one.superfat, 0.24082) // 2639 / 56.1056 = 47.03630 mol; 1 − 35.70893 / 47.03630
    // 475 of 2164 g: 1.45 · 475 / 2164 = 0.318276 kg, water 0.636553 kg, together 0.954829 kg
    expect(one.remedy.kind).toBe('add-alkali')
    if (one.remedy.kind !== 'add-alkali') return
    expect(one.remedy.alkalis.map(({ alkali }) => alkali)).toEqual(['NaOH'])
    expect(one.remedy.alkalis[0]!.mass).toBeCloseTo(0.318276, 6)
    expect(one.remedy.water).toBeCloseTo(0.636553, 6)
    near(one.superfatAfter, PLANNED)
    expect(one.addedMass).toBeCloseTo(0.954829, 6)
    expect(one.overPlan).toBeCloseTo(3.454829, 6) // and 2.5
    expect(one.overflow).toBe(false) // 3.5 fit
  })

  test('what acids take is not taken twice: (35.70893 − 1) · 475 / 2164 = 7.61864 mol', () => {
    const { remedy } = found({ ...BATCH, hydroxideForAcids: 1 }, 'fat-draw-doubled', 'soft', 2)
    // 7.61864 · 39.997 / 0.985 = 309.36 g
    if (remedy.kind !== 'add-alkali') throw new Error(remedy.kind)
    near(remedy.alkalis[0]!.mass, 0.30936)
  })

  test('the only draw of the only fat: no superfat, and the fat goes in', () => {
    const alone: RescueInput = {
      ...BATCH,
      fats: [{ key: 'one', mass: 10, saponificationValue: 0.2, draws: [10] }],
    }
    const one = found(alone, 'fat-draw-missed', 'one', 1)
    expect(one.superfat).toBeUndefined()
    expect(one.remedy).toEqual({ kind: 'add-the-fat', mass: 10 })
    // 1 − 35.70893 · 56.1056 / 2000
    near(one.superfatAfter, -0.00174)
  })
})

describe('by hand: a portion of alkali', () => {
  test('0.45 kg twice: more of all fats', () => {
    const one = found(BATCH, 'alkali-portion-doubled', 'NaOH', 3)
    near(one.superfat, -0.21314) // 35.70893 · 1.9 / 1.45 = 46.79101 mol; 1 − 46.79101 / 38.57013
    // 10 · 0.45 / 1.45 = 3.103448 kg, of it 1.862069 kg soft and 1.241379 kg hard
    if (one.remedy.kind !== 'add-fats') throw new Error(one.remedy.kind)
    expect(one.remedy.mass).toBeCloseTo(3.103448, 6)
    expect(one.remedy.fats.map(({ key }) => key)).toEqual(['soft', 'hard'])
    expect(one.remedy.fats[0]!.mass).toBeCloseTo(1.862069, 6)
    expect(one.remedy.fats[1]!.mass).toBeCloseTo(1.241379, 6)
    near(one.superfatAfter, PLANNED)
    expect(one.overPlan).toBeCloseTo(3.553448, 6) // and 0.45
    expect(one.overflow).toBe(true) // 3.5 fit
  })

  test('0.5 kg missed: itself, in 1 kg of water that makes the batch heavier', () => {
    const one = found(BATCH, 'alkali-portion-missed', 'NaOH', 2)
    expect(one.draws).toEqual([1, 2])
    near(one.superfat, 0.39343) // 35.70893 · 0.95 / 1.45 = 23.39550 mol
    if (one.remedy.kind !== 'add-alkali') throw new Error(one.remedy.kind)
    expect(one.remedy.alkalis).toEqual([{ alkali: 'NaOH', mass: 0.5 }])
    expect(one.remedy.water).toBeCloseTo(1, 12)
    expect(one.addedMass).toBeCloseTo(1.5, 12)
    expect(one.overPlan).toBeCloseTo(1, 12)
    near(one.superfatAfter, PLANNED)
  })

  test('with two alkalis a fat that is there twice takes both, in their proportion', () => {
    const two: RescueInput = {
      ...BATCH,
      alkalis: [
        { alkali: 'NaOH', mass: 1.2, purity: 0.985, portions: [1.2] },
        { alkali: 'KOH', mass: 0.4, purity: 0.9, portions: [0.4] },
      ],
    }
    const { remedy } = found(two, 'fat-draw-doubled', 'hard', 1)
    // 512 of 2164 g: 0.236599 of 1.2 and of 0.4 kg
    if (remedy.kind !== 'add-alkali') throw new Error(remedy.kind)
    expect(remedy.alkalis.map(({ alkali }) => alkali)).toEqual(['NaOH', 'KOH'])
    expect(remedy.alkalis[0]!.mass).toBeCloseTo(0.283919, 5)
    expect(remedy.alkalis[1]!.mass).toBeCloseTo(0.09464, 5)
    // one that was left out comes back alone
    expect(found(two, 'alkali-portion-missed', 'KOH', 1).remedy).toMatchObject({
      alkalis: [{ alkali: 'KOH', mass: 0.4 }],
    })
  })
})

describe('by hand: what needs no remedy', () => {
  const small: RescueInput = { ...BATCH, fats: [{ ...soft, draws: [5.9, 0.1] }, hard] }

  test('0.1 kg of the soft fat missed: 2145 / 56.1056 = 38.23148 mol, 6.598 %', () => {
    const one = found(small, 'fat-draw-missed', 'soft', 2)
    near(one.superfat, 0.06598)
    expect(one).toMatchObject({ remedy: { kind: 'none-small' }, superfatAfter: one.superfat })
    expect([one.addedMass, one.overPlan]).toEqual([0, -0.1])
  })

  test('0.1 kg twice: 2183 / 56.1056 = 38.90877 mol, 8.224 %; too much for a pot that is full', () => {
    const one = found({ ...small, roomLeft: 0.05 }, 'fat-draw-doubled', 'soft', 2)
    near(one.superfat, 0.08224)
    expect(one).toMatchObject({ remedy: { kind: 'none-small' }, addedMass: 0, overPlan: 0.1, overflow: true })
  })

  test.each([
    [{ floor: 0.067 }, 'fat-draw-missed', 'add-the-fat'],
    [{ softLimit: 0.081 }, 'fat-draw-doubled', 'add-alkali'],
  ] as const)('the same with other limits, %o: a remedy', (limits, kind, wanted) => {
    const one = found({ ...small, ...limits }, kind, 'soft', 2)
    expect(one.remedy.kind).toBe(wanted)
    near(one.superfatAfter, PLANNED)
  })

  test('an oil that takes no alkali moves nothing, though the plan is outside the limits', () => {
    const oily: RescueInput = {
      ...BATCH,
      floor: 0.1,
      softLimit: 0.2,
      fats: [soft, hard, { key: 'scent', mass: 0.3, saponificationValue: 0, draws: [0.3] }],
    }
    for (const kind of ['fat-draw-missed', 'fat-draw-doubled'] as const)
      expect(found(oily, kind, 'scent', 1).remedy).toEqual({ kind: 'none-small' })
  })
})

describe('by hand: the list', () => {
  test('fats, then alkalis, each missed and then doubled, equal draws once', () => {
    expect(rescues(BATCH).map(({ kind, of, draws }) => `${of} ${draws} ${kind}`)).toEqual([
      'soft 1,2 fat-draw-missed',
      'soft 1,2 fat-draw-doubled',
      'soft 3 fat-draw-missed',
      'soft 3 fat-draw-doubled',
      'hard 1,2 fat-draw-missed',
      'hard 1,2 fat-draw-doubled',
      'NaOH 1,2 alkali-portion-missed',
      'NaOH 1,2 alkali-portion-doubled',
      'NaOH 3 alkali-portion-missed',
      'NaOH 3 alkali-portion-doubled',
    ])
  })

  test('draws that differ in their last bit are equal, and a draw of nothing is none', () => {
    const fats = [{ ...soft, draws: [0.1 + 0.2, 0, 0.3] }]
    expect(rescues({ ...BATCH, fats }).filter(({ of }) => of === 'soft')).toMatchObject([
      { draws: [1, 3], kind: 'fat-draw-missed' },
      { draws: [1, 3], kind: 'fat-draw-doubled' },
    ])
  })

  test.each([
    [{ alkalis: [] }],
    [{ fats: [] }],
    [{ hydroxideForAcids: 36 }],
    [{ concentration: 0 }],
    [{ concentration: 1 }],
    [{ concentration: Number.NaN }],
  ])('%o is a bug of the caller', (wrong) => {
    expect(() => rescues({ ...BATCH, ...wrong })).toThrow(RangeError)
  })
})

const kilograms = fc.double({ min: 0.05, max: 20, noNaN: true })
const draws = fc.array(kilograms, { minLength: 1, maxLength: 4 })
const total = (masses: readonly number[]): number => masses.reduce((sum, mass) => sum + mass, 0)
const batches: fc.Arbitrary<RescueInput> = fc
  .record({
    fats: fc.array(
      fc.record({ draws, saponificationValue: fc.double({ min: 0.1, max: 0.28, noNaN: true }) }),
      { minLength: 1, maxLength: 5 },
    ),
    potassium: fc.constantFrom(0, 0.3, 1),
    superfat: fc.double({ min: 0, max: 0.3, noNaN: true }),
    acids: fc.constantFrom(0, 0.5),
    portions: fc.integer({ min: 1, max: 4 }),
    concentration: fc.double({ min: 0.2, max: 0.5, noNaN: true }),
    band: fc.constantFrom(0, 0.03),
    roomLeft: kilograms,
  })
  .map(({ fats, potassium, superfat, acids, portions, concentration, band, roomLeft }) => {
    const named = fats.map((fat, i) => ({ key: `fat ${i}`, mass: total(fat.draws), ...fat }))
    const demand = total(named.map((fat) => (fat.mass * fat.saponificationValue) / MOLAR_MASS.KOH))
    const all = demand * (1 - superfat) + acids
    const one = (alkali: 'NaOH' | 'KOH', share: number, purity: number) => {
      const mass = (all * share * MOLAR_MASS[alkali]) / purity
      return { alkali, mass, purity, portions: Array.from({ length: portions }, () => mass / portions) }
    }
    return {
      fats: named,
      alkalis: [one('NaOH', 1 - potassium, 0.985), one('KOH', potassium, 0.9)].filter(({ mass }) => mass > 0),
      hydroxideForAcids: acids,
      concentration,
      floor: superfat - band,
      softLimit: superfat + band,
      roomLeft,
    }
  })

/** What lies in the pot after a mistake and its remedy, every mass for itself. */
function potAfter(input: RescueInput, { kind, of, mass, remedy }: Mistake, rescued: boolean) {
  const fats = new Map(input.fats.map((fat) => [fat.key, fat.mass]))
  const alkalis = new Map<string, number>(input.alkalis.map((one) => [one.alkali, one.mass]))
  const pour = (into: Map<string, number>, key: string, more: number) =>
    into.set(key, (into.get(key) ?? Number.NaN) + more)
  pour(kind.startsWith('fat') ? fats : alkalis, of, kind.endsWith('missed') ? -mass : mass)
  let water = 0
  if (rescued && remedy.kind === 'add-the-fat') pour(fats, of, remedy.mass)
  if (rescued && remedy.kind === 'add-fats') {
    for (const fat of input.fats)
      pour(fats, fat.key, (remedy.mass * fat.mass) / total(input.fats.map((f) => f.mass)))
  }
  if (rescued && remedy.kind === 'add-alkali') {
    for (const one of remedy.alkalis) pour(alkalis, one.alkali, one.mass)
    water = remedy.water
  }
  const demand = total(
    input.fats.map((fat) => ((fats.get(fat.key) ?? 0) * fat.saponificationValue) / MOLAR_MASS.KOH),
  )
  const hydroxide = total(
    input.alkalis.map((one) => ((alkalis.get(one.alkali) ?? 0) * one.purity) / MOLAR_MASS[one.alkali]),
  )
  return {
    superfat: 1 - (hydroxide - input.hydroxideForAcids) / demand,
    mass: total([...fats.values()]) + total([...alkalis.values()]) + water,
  }
}

describe('by hand: every remedy, stirred in', () => {
  test('brings back the planned superfat within 1e-9, and the masses that it says', () => {
    const kinds = new Set<string>()
    fc.assert(
      fc.property(batches, (input) => {
        const planned = (input.floor + input.softLimit) / 2
        const before = total([...input.fats, ...input.alkalis].map((one) => one.mass))
        for (const mistake of rescues(input)) {
          const { superfat, superfatAfter, remedy } = mistake
          kinds.add(remedy.kind)
          const wrong = potAfter(input, mistake, false)
          const right = potAfter(input, mistake, true)
          if (superfat !== undefined) {
            expect(Math.abs(superfat - wrong.superfat)).toBeLessThan(1e-9 * (1 + Math.abs(superfat)))
          }
          expect(Math.abs(right.superfat - superfatAfter)).toBeLessThan(1e-9)
          if (remedy.kind === 'none-small') {
            expect(superfatAfter).toBeGreaterThanOrEqual(input.floor)
            expect(superfatAfter).toBeLessThanOrEqual(input.softLimit)
          } else {
            expect(Math.abs(superfatAfter - planned)).toBeLessThan(1e-9)
            expect(Math.abs(right.superfat - planned)).toBeLessThan(1e-9)
          }
          expect(mistake.addedMass).toBeCloseTo(right.mass - wrong.mass, 9)
          expect(mistake.overPlan).toBeCloseTo(right.mass - before, 9)
          expect(mistake.overflow).toBe(mistake.overPlan > input.roomLeft)
        }
      }),
      { numRuns: 300, seed: 20 },
    )
    expect([...kinds].sort()).toEqual(['add-alkali', 'add-fats', 'add-the-fat', 'none-small'])
  })

  test('has masses above zero, lye of the strength that was given, and fats as in the recipe', () => {
    fc.assert(
      fc.property(batches, (input) => {
        const fatMass = total(input.fats.map((fat) => fat.mass))
        for (const { mass, remedy } of rescues(input)) {
          expect(mass).toBeGreaterThan(0)
          if (remedy.kind === 'add-alkali') {
            const alkali = total(remedy.alkalis.map((one) => one.mass))
            for (const one of remedy.alkalis) expect(one.mass).toBeGreaterThan(0)
            expect(alkali / (alkali + remedy.water)).toBeCloseTo(input.concentration, 9)
          } else if (remedy.kind === 'add-fats') {
            expect(remedy.mass).toBeGreaterThan(0)
            remedy.fats.forEach((fat, i) => {
              expect(fat.mass / remedy.mass).toBeCloseTo(input.fats[i]!.mass / fatMass, 9)
            })
          } else if (remedy.kind === 'add-the-fat') expect(remedy.mass).toBe(mass)
        }
      }),
      { numRuns: 200, seed: 21 },
    )
  })

  test('every draw is listed in just one missed and one doubled', () => {
    fc.assert(
      fc.property(batches, (input) => {
        const all = rescues(input)
        const weighings = [
          ...input.fats.map(({ key, draws: own }) => ({ key, count: own.length })),
          ...input.alkalis.map(({ alkali, portions }) => ({ key: alkali as string, count: portions.length })),
        ]
        for (const { key, count } of weighings) {
          for (const end of ['missed', 'doubled']) {
            const numbers = all
              .filter(({ of, kind }) => of === key && kind.endsWith(end))
              .flatMap((one) => [...one.draws])
            expect(numbers.sort()).toEqual(Array.from({ length: count }, (_, i) => i + 1))
          }
        }
      }),
      { numRuns: 100, seed: 22 },
    )
  })
})
