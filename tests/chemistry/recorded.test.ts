/**
 * Recorded on 27 November 2026: what lye, fats and their soap are reckoned to be, and what becomes of that when one
 * number is another, so that nobody changes it unseen. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import {
  type AddedAcid,
  type AlkaliInput,
  alkaliFor,
  hydroxideDemand,
  hydroxideOfAcid,
  sameHydroxide,
  waterWithAcid,
} from '../../src/chemistry/alkali.ts'
import { blendMakeUp, rangeOfSum } from '../../src/chemistry/blend-make-up.ts'
import {
  blendComposition,
  fattyAcidShareOfTriglyceride,
  iodineValueOfFreeAcids,
  iodineValueOfTriglyceride,
  makeUp,
  meanFattyAcidMolarMass,
  middleComposition,
  saponificationValueOfFreeAcids,
  saponificationValueOfTriglyceride,
  theoreticalIodineFactor,
} from '../../src/chemistry/composition.ts'
import { fatDensity, foodFatDensity, waterDensity } from '../../src/chemistry/density.ts'
import { FATTY_ACID_MOLAR_MASS, FATTY_ACID_NAMES, FATTY_ACIDS } from '../../src/chemistry/fatty-acids.ts'
import {
  consistentSaponification,
  type ReactionInput,
  reactionProducts,
} from '../../src/chemistry/mass-balance.ts'
import { dryPurity, stockStrength } from '../../src/chemistry/purity.ts'
import { type RescueInput, rescues } from '../../src/chemistry/rescue.ts'
import {
  plausibleSaponificationValue,
  saponificationValue,
  saponificationValueByTitration,
} from '../../src/chemistry/saponification-value.ts'
import { expectRecorded } from '../recorded.ts'
import { whatChanges } from '../recorded-changes.ts'
import { fats, measuredOf, rangesOf } from './fats-library.ts'

const C = 273.15
const FACTORS = [0.5, 0.95, 1.05, 2]
const recorded = (name: string, value: unknown): void => expectRecorded(value, name, import.meta.url)
const figures = (...values: readonly number[]): string =>
  values.map((value) => String(Number(value.toPrecision(7)))).join(' ')

const ACIDS: readonly AddedAcid[] = [
  { acid: 'citric-acid', mass: 0.05, strength: 1 },
  { acid: 'citric-acid-monohydrate', mass: 0.04, strength: 0.99 },
  { acid: 'lactic-acid', mass: 0.06, strength: 0.8 },
  { acid: 'acetic-acid', mass: 0.2, strength: 0.05 },
]

describe('recorded: fatty acids', () => {
  test('each of them', () =>
    recorded(
      'fatty-acids',
      FATTY_ACID_NAMES.map((name) => [
        name,
        FATTY_ACIDS[name],
        figures(
          FATTY_ACID_MOLAR_MASS[name],
          theoreticalIodineFactor(name),
          iodineValueOfTriglyceride({ [name]: 1 }),
          iodineValueOfFreeAcids({ [name]: 1 }),
          saponificationValueOfTriglyceride({ [name]: 1 }),
          saponificationValueOfFreeAcids({ [name]: 1 }),
          fattyAcidShareOfTriglyceride({ [name]: 1 }),
        ),
      ]),
    ))

  test('fats of the library by their middles', () =>
    recorded(
      'fats',
      fats.map(([key, fat]) => {
        const middle = middleComposition(rangesOf(fat))
        const measured = measuredOf(fat)
        const { saturated, oneDoubleBond, twoOrMoreDoubleBonds } = makeUp(middle)
        return `${key} ${figures(
          meanFattyAcidMolarMass(middle),
          saponificationValueOfTriglyceride(middle, 0.01),
          saponificationValueOfFreeAcids(measured),
          iodineValueOfTriglyceride(measured),
          saturated,
          oneDoubleBond,
          twoOrMoreDoubleBonds,
        )}`
      }),
    ))

  test('make-up of each fat of the library', () =>
    recorded(
      'fats-make-up',
      fats.map(([key, fat]) => {
        const { from, to } = fat['saponification-value']
        const { groups, iodineValue, covered, iodineCovered } = blendMakeUp([
          {
            kind: fat.kind,
            mass: 1,
            saponificationValue: (from + to) / 2000,
            acids: rangesOf(fat),
            iodineValue: { low: 0.5, high: 0.6 },
          },
        ])
        const of = ({ low, middle, high }: { low: number; middle: number; high: number }) =>
          figures(low, middle, high)
        return [
          key,
          of(iodineValue),
          figures(covered, iodineCovered),
          ...groups.map((group) => [
            of(group.share),
            group.acids.map(({ name, share }) => `${name} ${of(share)}`).join(', '),
            group.other && of(group.other),
          ]),
        ]
      }),
    ))

  test('a blend', () => {
    const ranges = (name: string) => rangesOf(fats.find(([key]) => key === name)![1])
    recorded('blend', [
      whatChanges(
        {
          fats: [
            { kind: 'triglyceride' as const, mass: 3, saponificationValue: 0.19, acids: ranges('olive') },
            { kind: 'triglyceride' as const, mass: 2, saponificationValue: 0.256, acids: ranges('coconut') },
            {
              kind: 'wax' as const,
              mass: 0.3,
              saponificationValue: 0.093,
              iodineValue: { low: 0.05, high: 0.11 },
            },
            { kind: 'fatty-acid' as const, mass: 0.4, saponificationValue: 0.198, acids: ranges('castor') },
          ],
        },
        (one) => blendMakeUp(one.fats),
        [0, 2],
        new Set(['acids', 'saponificationValue']),
      ),
      rangeOfSum(
        {
          'C16:0': { low: 0.1, high: 0.3 },
          'C18:1': { low: 0.4, high: 0.8 },
          'C18:2': { low: 0.05, high: 0.2 },
        },
        (name) => FATTY_ACIDS[name].carbons,
      ),
      whatChanges(
        {
          parts: [
            { mass: 2, composition: { 'C12:0': 0.5, 'C18:1': 0.4, 'C18:2': 0.2 } },
            { mass: 1, composition: { 'C18:1': 0.7, 'C18:3': 0.3 }, fattyAcidShare: 0.5 },
          ],
        },
        (one) => [blendComposition(one.parts), ...one.parts.map(({ composition }) => makeUp(composition))],
        FACTORS,
      ),
    ])
  })
})

describe('recorded: alkali', () => {
  const input: AlkaliInput = {
    fats: [
      { mass: 6, saponificationValue: 0.19 },
      { mass: 4, saponificationValue: 0.256 },
    ],
    superfat: 0.05,
    potassiumShare: 0.2,
    purity: { NaOH: { nominal: 0.985 }, KOH: { nominal: 0.9 } },
    acids: ACIDS,
  }
  test('a recipe', () =>
    recorded('alkali', [
      whatChanges(input, alkaliFor, [-0.5, 0, 0.5, 1.05, 5]),
      ACIDS.map((acid) => figures(hydroxideOfAcid(acid), waterWithAcid(acid))),
      figures(
        hydroxideDemand(input.fats),
        sameHydroxide(1.3, 'NaOH', 'KOH'),
        sameHydroxide(1.3, 'KOH', 'NaOH'),
      ),
    ]))

  test('purities', () => {
    const stated = { name: 'drum', purity: 0.985, damp: 0.01 }
    recorded('purity', [
      whatChanges({ ...stated, kind: 'NaOH' as const }, dryPurity, [0, 0.8, 0.92, 1.01, 3]),
      whatChanges({ ...stated, kind: 'KOH' as const, purity: 0.9 }, dryPurity, [0, 0.85, 0.95, 1.08, 3]),
      whatChanges(
        { ...stated, kind: 'KOH' as const, range: { low: 0.88, high: 0.93 } },
        dryPurity,
        [0.9, 1.02],
      ),
      whatChanges({ name: 'stock', strength: 0.5 }, stockStrength, [0.5, 1.5]),
      stockStrength({ name: 'stock', strength: 0.5, range: { low: 0.49, high: 0.505 } }),
    ])
  })

  test('saponification values', () => {
    const known = {
      kind: 'triglyceride' as const,
      published: { low: 0.184, high: 0.196 },
      unsaponifiable: { low: 0.005, high: 0.015 },
    }
    const lotComposition = { 'C16:0': 0.12, 'C18:0': 0.03, 'C18:1': 0.72, 'C18:2': 0.1, 'C18:3': 0.01 }
    const near = [0.5, 0.95, 0.985, 1.02, 1.05, 4]
    recorded('saponification-values', [
      whatChanges(known, saponificationValue, near),
      whatChanges({ ...known, certificate: { value: 0.19, tolerance: 0.0015 } }, saponificationValue, near),
      whatChanges({ ...known, certificate: { value: 0.19 } }, saponificationValue, near),
      whatChanges({ ...known, lotComposition }, saponificationValue, near),
      (['triglyceride', 'wax', 'fatty-acid'] as const).map((kind) =>
        saponificationValue({ kind, published: known.published, lotComposition }),
      ),
      [-0.1, 0, 0.1, 0.154, 0.156, 0.55, 0.56].map((value) =>
        plausibleSaponificationValue('triglyceride', value),
      ),
      [-0.1, 0, 0.1, 0.156, 0.55, 0.56].map((value) => plausibleSaponificationValue('wax', value)),
      whatChanges(
        { blankVolume: 0.025, sampleVolume: 0.0122, acidConcentration: 500, fatMass: 0.0019 },
        saponificationValueByTitration,
        FACTORS,
      ),
    ])
  })
})

describe('recorded: what becomes of fats', () => {
  const input: ReactionInput = {
    fats: [
      { kind: 'triglyceride', mass: 6, saponificationValue: 0.19, acidValue: 0.002, unsaponifiable: 0.012 },
      { kind: 'wax', mass: 0.3, saponificationValue: 0.0935, acidValue: 0.019, unsaponifiable: 0.5 },
      { kind: 'wax', mass: 0.2, saponificationValue: 0.09, fattyAcidMolarMass: 0.3105 },
      { kind: 'fatty-acid', mass: 0.5, saponificationValue: 0.198 },
    ],
    alkali: { NaOH: 0.7, KOH: 0.25 },
    acids: ACIDS,
  }
  test('all that reacts', () => recorded('reaction', whatChanges(input, reactionProducts, [0.6, 1.5])))
  test('too much alkali, none, and little', () =>
    recorded('reaction-alkali', [
      reactionProducts({ ...input, alkali: { NaOH: 1.2, KOH: 0.3 } }),
      reactionProducts({ ...input, alkali: { NaOH: 0, KOH: 0 } }),
      reactionProducts({ ...input, alkali: { NaOH: 0.05, KOH: 0 } }),
      reactionProducts({ fats: input.fats, alkali: { NaOH: 0, KOH: 0.06 } }),
    ]))
  test('given pairs', () =>
    recorded(
      'reaction-pairs',
      whatChanges(
        { fat: 8.58, sodiumHydroxide: 1.2, glycerol: 0.92 },
        consistentSaponification,
        [0.3, 0.97, 0.985, 1.015, 1.03, 4],
      ),
    ))
})

describe('recorded: mistakes at the scale', () => {
  const batch: RescueInput = {
    fats: [
      { key: 'soft', mass: 6, saponificationValue: 0.19, draws: [2.5, 2.5, 1] },
      { key: 'hard', mass: 4, saponificationValue: 0.256, draws: [2, 2] },
      { key: 'paraffin', mass: 0.2, saponificationValue: 0, draws: [0.2, 0] },
    ],
    alkalis: [
      { alkali: 'NaOH', mass: 1.2, purity: 0.985, portions: [0.5, 0.5, 0.2] },
      { alkali: 'KOH', mass: 0.35, purity: 0.9, portions: [0.35] },
    ],
    hydroxideForAcids: 0.6,
    concentration: 1 / 3,
    floor: 0.02,
    softLimit: 0.1,
    roomLeft: 2,
  }
  const short = (input: RescueInput) =>
    rescues(input).map(
      ({ kind, of, draws, mass, superfat, remedy, superfatAfter, addedMass, overPlan, overflow }) => [
        `${kind} ${of} ${draws.join()} ${remedy.kind} ${overflow}`,
        figures(mass, superfat ?? Number.NaN, superfatAfter, addedMass, overPlan),
        Object.values(remedy)
          .flat()
          .map((one) =>
            typeof one === 'object'
              ? Object.values(one)
                  .map((part) => (typeof part === 'number' ? figures(part) : part))
                  .join(' ')
              : typeof one === 'number'
                ? figures(one)
                : one,
          )
          .join(', '),
      ],
    )
  test('as it is', () => recorded('rescues', rescues(batch)))
  test('as numbers change', () =>
    recorded(
      'rescues-changes',
      whatChanges(batch, short, [0.4, 1.6], new Set(['draws', 'portions', 'fats'])),
    ))
  test('as the fats change', () =>
    recorded(
      'rescues-fats',
      whatChanges(
        { fats: batch.fats },
        (one) => short({ ...batch, ...one }).map(([first, second]) => `${first} ${second}`),
        [0.7],
      ),
    ))
})

describe('recorded: densities', () => {
  test('water and fats', () =>
    recorded('densities', [
      [0, 1, 4, 15, 20, 25, 40, 60, 80, 99, 120, 150].map((t) =>
        figures(t, waterDensity(C + t), foodFatDensity(C + t)),
      ),
      whatChanges(
        { low: 0.91, high: 0.916, temperature: C + 20, waterTemperature: C + 15, at: C + 45 },
        ({ at, ...density }) => fatDensity(density, at),
        [0.95, 1.05],
      ),
      fatDensity({ low: 0.91, high: 0.916, temperature: C + 20 }, C + 5),
      fatDensity({ low: 0.91, high: 0.916, temperature: C + 20, solid: true }, C + 45),
    ]))
})
