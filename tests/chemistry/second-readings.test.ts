/** Second readings of the shipped library: the digits as other prints have them, and how they lie to the main ranges. */
import { readFileSync } from 'node:fs'
import { FAILSAFE_SCHEMA, load } from 'js-yaml'
import { describe, expect, test } from 'vitest'
import { fatDensity, waterDensity } from '../../src/chemistry/density.ts'
import { type FatEntry, fat } from '../../src/schema/fats.ts'
import { materialsFile } from '../../src/schema/materials.ts'
import type { AnySchema } from '../../src/schema/schema-walk.ts'
import { sourcesFile } from '../../src/schema/sources.ts'
import { readIn } from '../../src/schema/translations.ts'
import type { YamlNode } from '../../src/schema/yaml.ts'

/** In English where a text is given in two languages. */
const content = (name: string, schema: AnySchema): unknown =>
  readIn(
    load(readFileSync(new URL(`../../content/${name}`, import.meta.url), 'utf8'), {
      schema: FAILSAFE_SCHEMA,
    }) as YamlNode,
    schema,
    ['en'],
  )
const fats = Object.entries(materialsFile.parse(content('materials/fats.yaml', materialsFile)).fats ?? {})
const { sources } = sourcesFile.parse(content('sources.yaml', sourcesFile))

type Reading = NonNullable<FatEntry['also']>[number]

const celsius = (kelvin: number): number => Math.round((kelvin - 273.15) * 1e6) / 1e6

/** `0.961 to 0.963, 15.5/15.5 °C`: a reading as it would be printed. */
const digitsOf = (one: Reading): string => {
  const ends = [one.from, one.to].filter((end) => end !== undefined)
  const range =
    one.from === undefined
      ? `up to ${one.to}`
      : one.to === undefined
        ? `from ${one.from}`
        : one.from === one.to
          ? `${one.from}`
          : ends.join(' to ')
  const water = one['against-water-at']
  const at =
    one.at === undefined ? [] : [`${celsius(one.at)}${water === undefined ? '' : `/${celsius(water)}`} °C`]
  return [range, ...at, ...(one.note === undefined ? [] : [one.note])].join(', ')
}

const figureOf = ({ figure, acid, with: second }: Reading): string =>
  [acid ?? figure, ...(second === undefined ? [] : [second])].join(' + ')

const carried = fats.flatMap(([key, entry]) =>
  (entry.also ?? []).map((reading) => ({ key, entry, reading, figure: figureOf(reading) })),
)

interface Print {
  readonly title: string
  readonly evidence: 'read' | 'recalled'
  /** fat, figure, digits */
  readonly rows: readonly (readonly [string, string, string])[]
}

const PRINTS: Readonly<Record<string, Print>> = {
  'codex33-recalled': {
    title: 'Codex CXS 33, appendix, from memory',
    evidence: 'recalled',
    rows: [
      ['olive', 'saponification-value', '182 to 193, pomace olive oil'],
      ['olive', 'unsaponifiable', 'up to 30, pomace olive oil'],
    ],
  },
  'coconut-sheet': {
    title: "a supplier's sheet of coconut oil",
    evidence: 'read',
    rows: [
      ['coconut', 'saponification-value', '248 to 265'],
      ['coconut', 'iodine-value', '6.3 to 10.6'],
      ['coconut', 'density', '0.908 to 0.921, 40/20 °C'],
      ['coconut', 'unsaponifiable', 'up to 15'],
    ],
  },
  codex210: {
    title: 'Codex CXS 210, Table 2',
    evidence: 'read',
    rows: [
      ['palm', 'apparent-density', '0.889 to 0.895, 50 °C'],
      ['safflower-high-oleic', 'density', '0.91 to 0.916, 25/20 °C'],
    ],
  },
  'codex210-fractions': {
    title: 'Codex CXS 210, 2015, fractions of palm kernel oil',
    evidence: 'read',
    rows: [
      ['palm-kernel', 'C12:0', '52 to 59.7, the hard fraction'],
      ['palm-kernel', 'C14:0', '20 to 25, the hard fraction'],
      ['palm-kernel', 'C12:0', '39.7 to 47, the liquid fraction'],
      ['palm-kernel', 'C14:0', '11.5 to 15.5, the liquid fraction'],
    ],
  },
  'merck-sunflower': {
    title: 'Merck Index, sunflower seed oil',
    evidence: 'read',
    rows: [
      ['sunflower', 'saponification-value', '188 to 194'],
      ['sunflower', 'iodine-value', '125 to 136'],
      ['sunflower', 'density', '0.915 to 0.919, 25/25 °C'],
      ['sunflower', 'unsaponifiable', 'up to 15'], // printed as 1.5 %
    ],
  },
  'malaysia-food-regulations': {
    title: 'Malaysia, Food Regulations 1985, sunflower seed oil',
    evidence: 'read',
    rows: [['sunflower', 'iodine-value', '110 to 143']],
  },
  'usp28-cottonseed': {
    title: 'USP 28, cottonseed oil',
    evidence: 'read',
    rows: [
      ['cottonseed', 'iodine-value', '109 to 120'],
      ['cottonseed', 'density', '0.915 to 0.921, no temperature printed'],
    ],
  },
  'usp29-cottonseed': {
    title: 'USP 29, cottonseed oil',
    evidence: 'read',
    rows: [
      ['cottonseed', 'C16:0', '17 to 29'],
      ['cottonseed', 'C18:1', '13 to 44'],
      ['cottonseed', 'C18:2', '40 to 63'],
    ],
  },
  'bpc1911-peanut': {
    title: 'British Pharmaceutical Codex 1911, oleum arachis',
    evidence: 'read',
    rows: [
      ['peanut', 'saponification-value', '188 to 196.6'],
      ['peanut', 'iodine-value', '83 to 100'],
      ['peanut', 'density', '0.916 to 0.921, no temperature printed'],
    ],
  },
  'pheur-almond': {
    title: 'refined almond oil by the tests of the European Pharmacopoeia',
    evidence: 'read',
    rows: [
      ['sweet-almond', 'saponification-value', '190 to 195'],
      ['sweet-almond', 'iodine-value', '95 to 109'],
      ['sweet-almond', 'density', '0.915 to 0.918, 20 °C'],
    ],
  },
  'firestone-recalled': {
    title: 'Firestone, from memory',
    evidence: 'recalled',
    rows: [['avocado', 'unsaponifiable', '4 to 120, crude oil']], // remembered as 0.4 to 12 %
  },
  'merck-castor': {
    title: 'Merck Index, castor oil',
    evidence: 'read',
    rows: [
      ['castor', 'saponification-value', '176 to 187'],
      ['castor', 'iodine-value', '81 to 91'],
      ['castor', 'density', '0.961 to 0.963, 15.5/15.5 °C'],
      ['castor', 'hydroxyl-value', '161 to 169'],
    ],
  },
  codex325r: {
    title: 'Codex CXS 325R, Table 2, unrefined shea butter',
    evidence: 'read',
    rows: [['shea-butter', 'density', '0.91 to 0.98, 20 °C, solid']],
  },
  'shea-thesis': {
    title: 'Nahm, seven West African shea butters',
    evidence: 'read',
    rows: [
      ['shea-butter', 'C16:0', '3.36 to 4.44'],
      ['shea-butter', 'C18:0', '39.74 to 44.62'],
      ['shea-butter', 'C18:1', '40.71 to 44.48'],
      ['shea-butter', 'C18:2', '5.73 to 6.41'],
    ],
  },
  'merck-lard': {
    title: 'Merck Index, lard',
    evidence: 'read',
    rows: [
      ['lard', 'saponification-value', '195 to 203'],
      ['lard', 'iodine-value', '46 to 70'],
      ['lard', 'density', '0.917, no temperature printed'],
    ],
  },
  'codex211-recalled': {
    title: 'Codex CXS 211, from memory',
    evidence: 'recalled',
    rows: [
      ['beef-tallow', 'C14:0', '2 to 6'],
      ['beef-tallow', 'C16:0', '20 to 30'],
      ['beef-tallow', 'C16:1', '1 to 5'],
      ['beef-tallow', 'C18:0', '15 to 30'],
      ['beef-tallow', 'C18:1', '30 to 45'],
      ['beef-tallow', 'C18:2', '1 to 6'],
      ['beef-tallow', 'saponification-value', '190 to 200, premier jus'],
      ['beef-tallow', 'iodine-value', '36 to 47, premier jus'],
    ],
  },
  'belitz-food-chemistry': {
    title: 'Belitz, Grosch and Schieberle, Food Chemistry, melting ranges [°C]',
    evidence: 'read',
    rows: [
      ['coconut', 'melting', '20 to 28'],
      ['palm-kernel', 'melting', '23 to 30'],
      ['shea-butter', 'melting', '23 to 42, all its crystal forms'],
      ['beef-tallow', 'melting', '50 to 56, pressed tallow'],
    ],
  },
  'pheur-recalled': {
    title: 'European Pharmacopoeia, from memory',
    evidence: 'recalled',
    rows: [['beeswax', 'ester-value', '70 to 80']],
  },
  'usp-recalled': {
    title: 'National Formulary, stearic acid, from memory',
    evidence: 'recalled',
    rows: [
      ['stearic-acid', 'C18:0', 'from 40'],
      ['stearic-acid', 'C18:0 + C16:0', 'from 90'],
    ],
  },
}

describe.each(Object.entries(PRINTS).map(([source, print]) => ({ source, ...print })))(
  'published: $title',
  ({ source, evidence, rows }) => {
    const own = carried.filter(({ reading }) => reading.source === source)

    test.each(rows)('%s, %s: %s', (key, figure, digits) => {
      const same = own.filter((one) => one.key === key && one.figure === figure)
      expect(same.map(({ reading }) => digitsOf(reading))).toContain(digits)
    })
    test('nothing else is carried from it', () => {
      expect(own.map(({ key, figure, reading }) => [key, figure, digitsOf(reading)])).toEqual(rows)
    })
    test('each reading, and the list of sources, say how it is known', () => {
      expect(new Set(own.map(({ reading }) => reading.evidence))).toEqual(new Set([evidence]))
      expect(sources[source]?.evidence).toBe(evidence)
    })
  },
)

interface Ends {
  readonly from?: number | undefined
  readonly to?: number | undefined
}

const meet = (one: Ends, other: Ends): boolean =>
  Math.max(one.from ?? 0, other.from ?? 0) <=
  Math.min(one.to ?? Number.POSITIVE_INFINITY, other.to ?? Number.POSITIVE_INFINITY)

const acidEnds = (entry: FatEntry, names: readonly string[]): Ends | undefined => {
  const percent = Object.entries(entry['fatty-acids']?.percent ?? {}).flatMap(([name, ends]) =>
    names.includes(name) ? [ends] : [],
  )
  if (percent.length < names.length) return undefined
  const sum = (end: 0 | 1) =>
    Math.min(
      100,
      percent.reduce((total, ends) => total + ends[end], 0),
    )
  return { from: sum(0), to: sum(1) }
}

/** Main density at the temperature of a reading, or at its own [kg/m3]. */
const densityEnds = ({ density }: FatEntry, temperature: number = density.at): Ends => {
  const { low, high } = fatDensity(
    {
      low: density.from,
      high: density.to,
      temperature: density.at,
      waterTemperature: density['against-water-at'],
    },
    temperature,
  )
  return { from: low, to: high }
}

/** The main range of the figure, and the reading in the same unit; no main range where the fat has none. */
const compared = (entry: FatEntry, reading: Reading): { main: Ends | undefined; other: Ends } => {
  const times = (unit: number): Ends => ({
    from: reading.from === undefined ? undefined : reading.from * unit,
    to: reading.to === undefined ? undefined : reading.to * unit,
  })
  switch (reading.figure) {
    case 'apparent-density':
      return { main: densityEnds(entry, reading.at), other: times(1000) }
    case 'density':
      return {
        main: densityEnds(entry, reading.at),
        other: times(waterDensity(reading['against-water-at'] ?? 293.15)),
      }
    case 'melting': {
      const { melting } = entry
      return {
        main: melting && { from: celsius(melting.from), to: celsius(melting.to) },
        other: times(1),
      }
    }
    case 'fatty-acid':
      return {
        main: acidEnds(
          entry,
          [reading.acid, reading.with].filter((name) => name !== undefined),
        ),
        other: times(1),
      }
    case 'ester-value':
    case 'hydroxyl-value':
      return { main: undefined, other: times(1) }
    default:
      return { main: entry[reading.figure], other: times(1) }
  }
}

const relation = (entry: FatEntry, reading: Reading): 'meets' | 'misses' | 'alone' => {
  const { main, other } = compared(entry, reading)
  return main === undefined ? 'alone' : meet(main, other) ? 'meets' : 'misses'
}

const named = (wanted: 'misses' | 'alone'): string[] =>
  carried
    .filter(({ entry, reading }) => relation(entry, reading) === wanted)
    .map(({ key, figure, reading }) => `${key}, ${figure}, ${digitsOf(reading)}`)

/** What does not meet its main range, and why. */
const CONFLICTS: Readonly<Record<string, string>> = {
  'palm-kernel, C14:0, 20 to 25, the hard fraction':
    'Another material: pressing gathers C12:0 and C14:0 in the hard part. The whole oil has 14 to 18.',
  'lard, density, 0.917, no temperature printed':
    'The main range, 0.896 to 0.904, is at 40 °C; 0.917 fits a cool room, as is reckoned below.',
}

/** Figures of which the fat has no main range: nothing to compare them with. */
const ALONE = [
  'avocado, unsaponifiable, 4 to 120, crude oil',
  'castor, hydroxyl-value, 161 to 169',
  'beef-tallow, C16:1, 1 to 5',
  'beeswax, ester-value, 70 to 80',
]

describe('by hand: a second reading against the main range of the same figure', () => {
  test('56 readings of 16 fats, each listed with its print', () => {
    expect(carried).toHaveLength(56)
    expect(new Set(carried.map(({ key }) => key)).size).toBe(16)
    expect(carried.filter(({ reading }) => !Object.hasOwn(PRINTS, reading.source))).toEqual([])
  })
  test('they overlap, but for those that are explained, and every explanation is needed', () => {
    expect(named('misses').sort()).toEqual(Object.keys(CONFLICTS).sort())
  })
  test('those without a main range', () => {
    expect(named('alone').sort()).toEqual([...ALONE].sort())
  })
  test('a reading moved past the end of its main range is found', () => {
    const [, sunflower] = fats.find(([key]) => key === 'sunflower')!
    const evidence = { source: 'somewhere', evidence: 'read' } as const
    const iodine = (from: number, to?: number): string =>
      relation(sunflower, { figure: 'iodine-value', from, to, ...evidence }) // 118 to 141
    expect([iodine(141, 150), iodine(141.1, 150), iodine(100, 117.9), iodine(142)]).toEqual([
      'meets',
      'misses',
      'misses',
      'misses',
    ])
  })

  // 0.904 · 998.2 + 0.66 · 20 = 915.6 and · 25 = 918.9 kg/m3; 0.917 · 998.2 = 915.4
  test('lard: 0.896 to 0.904 at 40 °C reaches 0.917 at 20 °C and below', () => {
    const [, lard] = fats.find(([key]) => key === 'lard')!
    expect(densityEnds(lard, 293.15).to).toBeCloseTo(915.6, 0)
    expect(densityEnds(lard, 288.15).to).toBeCloseTo(918.9, 0)
    expect(densityEnds(lard, 293.15).to).toBeGreaterThan(0.917 * 998.2)
    expect(densityEnds(lard, 298.15).to).toBeLessThan(0.917 * 998.2)
  })

  // 17 + 70 = 87 and 24 + 80 = 104
  test('beeswax: acid value and ester value make the saponification value', () => {
    const [, wax] = fats.find(([key]) => key === 'beeswax')!
    const ester = wax.also?.find(({ figure }) => figure === 'ester-value')
    expect(wax['acid-value']!.from! + ester!.from!).toBe(wax['saponification-value'].from)
    expect(wax['acid-value']!.to! + ester!.to!).toBe(wax['saponification-value'].to)
  })
})

describe('by hand: what the schema refuses of a second reading', () => {
  const schema = fat.shape.also.unwrap()
  const typed = { figure: 'iodine-value', from: '81', to: '91', source: 'somewhere', evidence: 'read' }
  const refusal = (change: Readonly<Record<string, string | undefined>>): string => {
    const given = Object.entries({ ...typed, ...change }).filter(([, value]) => value !== undefined)
    return schema.safeParse([Object.fromEntries(given)]).error?.issues[0]?.message ?? ''
  }

  test('no figure, but not a single end', () => {
    expect(refusal({ from: undefined })).toBe('')
    expect(refusal({ to: undefined })).toBe('')
    expect(refusal({ from: undefined, to: undefined })).toBe('This reading has no figure')
  })
  test('a range that runs downwards', () => {
    expect(refusal({ from: '91.1' })).toBe('The range begins above its end')
  })
  test('an acid with another figure, and a fatty acid without its name', () => {
    expect(refusal({ figure: 'fatty-acid', acid: 'C18:1' })).toBe('')
    expect(refusal({ figure: 'fatty-acid', acid: 'C18:1', with: 'C16:0' })).toBe('')
    expect(refusal({ acid: 'C18:1' })).toBe('"acid" belongs to the figure fatty-acid only')
    expect(refusal({ with: 'C18:1' })).toBe('"with" belongs to the figure fatty-acid only')
    expect(refusal({ figure: 'fatty-acid' })).toBe('"acid" is missing here')
    expect(refusal({ figure: 'fatty-acid', acid: 'C19:0' })).toBe(
      'is not a fatty acid that this program knows',
    )
  })
  test('a figure without its source', () => {
    expect(refusal({ source: undefined })).not.toBe('')
    expect(refusal({ evidence: 'heard' })).not.toBe('')
  })
})
