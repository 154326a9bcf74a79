/** Schema and decoder: what an editor underlines, and what the program refuses. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { kindOf } from '../../../src/schema/file-kinds.ts'
import { isSoak } from '../../long.ts'
import { KIND_NAMES, type KindName, kindNamed, told, underlined } from './editor.ts'
import { type Change, type Place, sampleOf, takenWith } from './places.ts'

const root = (folder: string): string => fileURLToPath(new URL(`../../../${folder}`, import.meta.url))

interface Read {
  readonly file: string
  readonly kind: KindName
  readonly text: string
}

/** Files of a maker's folder whose kind is known. */
const filesIn = (folder: string): Read[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.yaml'))
    .flatMap((entry) => {
      const path = join(entry.parentPath, entry.name)
      const below = relative(folder, path).replaceAll('\\', '/')
      const kind = kindOf(below)
      const name = KIND_NAMES.find((one) => kindNamed(one) === kind)
      return name ? [{ file: path, kind: name, text: readFileSync(path, 'utf8') }] : []
    })

const demo = filesIn(root('content'))
const small = filesIn(root('tests/diagnostics/base'))
const wrong = readdirSync(root('tests/diagnostics'))
  .filter((name) => name !== 'base')
  .flatMap((name) => filesIn(root(`tests/diagnostics/${name}/input`)))

describe('by hand: a right file is underlined nowhere', () => {
  test('not in the demo, nor in the small binder', () => {
    const files = [...demo, ...small]
    expect(files.length).toBeGreaterThan(25)
    expect(new Set(files.map(({ kind }) => kind)).size).toBe(KIND_NAMES.length)
    expect(files.flatMap(({ file, kind, text }) => told(kind, text).map((one) => `${file}: ${one}`))).toEqual(
      [],
    )
    expect(
      files.flatMap(({ file, kind, text }) => underlined(kind, text).map((one) => `${file}: ${one}`)),
    ).toEqual([])
  })

  test('nor in what is right of the files that have mistakes in them', () => {
    const right = wrong.filter(({ kind, text }) => told(kind, text).length === 0)
    expect(right.length).toBeGreaterThan(40)
    expect(
      right.flatMap(({ file, kind, text }) => underlined(kind, text).map((one) => `${file}: ${one}`)),
    ).toEqual([])
  })
})

const examples = KIND_NAMES.map(
  (kind) => [kind, readFileSync(root(`src/schema/help/examples/${kind}.yaml`), 'utf8')] as const,
)
const samples = [...examples, ...small.map(({ kind, text }) => [kind, text] as const)].map(([kind, text]) =>
  sampleOf(kind, text),
)

/** A change at every place that it can be made at, and what both say of it. */
const everywhere = (
  changeOf: (place: Place) => readonly Change[],
): { where: string; program: boolean; editor: boolean }[] =>
  samples.flatMap((sample) =>
    sample.places.flatMap((place) =>
      changeOf(place).map((change) => ({
        where: `${sample.kind} ${place.path.join('/')} ${JSON.stringify(change)}`,
        ...takenWith(sample, place.path, change),
      })),
    ),
  )

const typedAs =
  (form: string, ...texts: readonly string[]) =>
  ({ part }: Place): readonly Change[] =>
    part['x-form'] === form ? texts.map((to) => ({ to })) : []

/** One more than the most, and one less than the least. */
const beyond = ({ part }: Place): readonly Change[] =>
  part['x-form'] === 'whole-number'
    ? [Number(part['x-most']) + 1, Number(part['x-least']) - 1].map((number) => ({ to: String(number) }))
    : []

const MISTAKES: readonly (readonly [string, (place: Place) => readonly Change[]])[] = [
  ['a key that is not known', ({ part }) => (part.properties ? [{ added: 'no-such-key' }] : [])],
  ['a unit that does not exist', ({ part }) => (part['x-quantity'] ? [{ to: '5 parsecs' }] : [])],
  ['a bare number', ({ part }) => (part['x-quantity'] ? [{ to: '5' }] : [])],
  [
    'a word that is not one of them',
    ({ part }) => ((part.enum ?? part.const) ? [{ to: 'no-such-word' }] : []),
  ],
  ['a number out of its range', beyond],
  ['a fraction of a whole number', typedAs('whole-number', '1.5')],
  ['a date in another shape', typedAs('date', '14.3.2027', '2027-3-4', '2027-14-03')],
  ['a time without minutes', typedAs('time', '8', '8.30', '8:5', 'noon')],
  ['a name that cannot be one', typedAs('name', 'Not A Name', 'two--hyphens')],
  [
    'a key that cannot be a name',
    ({ isNamedByMaker }) => (isNamedByMaker ? [{ renamed: 'Not A Name' }] : []),
  ],
  [
    'a text that is too long',
    ({ part }) => (part['x-form'] === 'text' ? [{ to: 'a'.repeat((part.maxLength ?? 0) + 1) }] : []),
  ],
  [
    'a text in the place of a group or list',
    ({ part, path }) => (path.length > 0 && (part.properties || part.items) ? [{ to: 'all of it' }] : []),
  ],
]

describe('by hand: both refuse', () => {
  test.each(MISTAKES)('%s', (_, changeOf) => {
    const tried = everywhere(changeOf)
    expect(tried.length).toBeGreaterThan(2)
    expect(tried.filter(({ program, editor }) => program || editor)).toEqual([])
  })

  test('a key that must be there and is not', () => {
    const tried = everywhere(({ path }) => (path.length > 0 ? [{ isGone: true }] : []))
    const missed = tried.filter(({ program, editor }) => !program && editor)
    expect(tried.filter(({ program }) => !program).length).toBeGreaterThan(100)
    // where another key may stand in its place, or where what it is asked for by is another key's value
    expect(missed.filter(({ where }) => !ASKED_FOR_BY_OTHERS.test(where))).toEqual([])
    expect(tried.filter(({ program, editor }) => program && !editor)).toEqual([])
  })
})

const ASKED_FOR_BY_OTHERS =
  /^(batch|recipe|stock|printed|materials) .*(fill|alkali|lye-concentration|material|amount|received|lost|counted|where|shows|\/(olive|coconut|castor|soda-beads|beads)) \{/

describe('by hand: only the program finds', () => {
  const tried = (kind: KindName, from: string, to: string): { program: boolean; editor: boolean } => {
    const text = examples.find(([name]) => name === kind)?.[1] ?? ''
    expect(text).toContain(from)
    const edited = text.replace(from, to)
    return { program: told(kind, edited).length === 0, editor: underlined(kind, edited).length === 0 }
  }

  test.each([
    ['a quantity beyond its limits', 'batch', 'label-weight: 99 g', 'label-weight: 99 kg'],
    ['a number with a unit that goes beyond a sum', 'fixture', '1 1/8 in', '1 9/8 in'],
    ['units that do not belong together', 'stock', 'amount: 20 kg', 'amount: 2 kg 1 lb'],
    ['a day that the calendar does not have', 'batch', '2027-03-14', '2027-02-30'],
    ['an hour that no day has', 'batch', '10 am', '14 pm'],
    ['two ways to say one thing', 'batch', 'fill: to the line', 'fill: to the line\noils: 9 kg'],
    ['a range that is upside down', 'materials', 'from: 184, to: 196', 'from: 196, to: 184'],
    ['a zero that does not belong there', 'fixture', 'columns: 5', 'columns: 05'],
    [
      'a language that this program does not have',
      'recipe',
      'title: Hearth bar',
      'title: { en: Hearth bar, xx: Hearth bar }',
    ],
    ['a character that the fonts do not have', 'recipe', 'title: Hearth bar', 'title: Hearth ☃'],
  ] as const)('%s', (_, kind, from, to) => {
    expect(tried(kind, from, to)).toEqual({ program: false, editor: true })
  })
})

/** What is typed into a field of each form: right ways, odd ones, and slips. */
const TYPED: Readonly<Record<string, readonly string[]>> = {
  quantity: [
    '5 mm',
    '2 1/4 in',
    '2¼ in',
    '57mm',
    '1 ft 3 in',
    '450 g',
    '2 lb 3 oz',
    '99 gram',
    '1.5 l',
    '2 gal',
    '5 %',
    '33.3 percent',
    '-2 %',
    '43 °C',
    '110 F',
    '300 K',
    '4 weeks',
    '1 h 30 min',
    '90 s',
    '900 W',
    '120 N',
    '40 N/m',
    '680 kg/m3',
    '0.7 g/ml',
    'as needed',
    '12',
    '0',
    '1e3 g',
  ],
  money: ['78.50 USD', '12 USD', '5', '900 JPY', '1.5 EUR'],
  currency: ['USD', 'EUR', 'eur'],
  'whole-number': ['1', '2', '07', '12', '1e2', '3.0', '250', '"4"', '+5'],
  'plain-number': ['1', '0.9', '256.8', '1.0', '-3', '0x10', '"0.91"', '1e-1'],
  date: ['2027-03-14', '2028-02-29', '2027-02-29', '"2027-03-14"'],
  time: ['8:30', '20:30', '8 pm', '8:30 AM', '24:00', '25:00'],
  name: [
    'plain',
    'five-by-three',
    '100',
    '007',
    '1e3',
    '1e-3',
    '0x1f',
    'true',
    'null',
    '2027-03-14',
    'no',
    '.5',
  ],
  'batch-key': ['HE', 'h2', '23', '99999', 'TRUE', 'true', '1'],
  text: [
    'Olive oil',
    '100',
    '1.50',
    'true',
    'no',
    'yes',
    '2027-03-14',
    '0x1F',
    '~x',
    '.inf',
    'ñandú',
    '12:30',
    '"  padded  "',
    'a\n  b',
  ],
  lines: ['Text', '12'],
}
const WORDS = ['yes', 'no', 'true', 'false', 'NaOH', 'read', 'none']

describe('by hand: whatever the program takes is underlined nowhere', () => {
  test('wherever it is typed', () => {
    let taken = 0
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.nat(), fc.nat(5), (one, two, three, way) => {
        const sample = samples[one % samples.length] as (typeof samples)[number]
        const place = sample.places[two % sample.places.length] as Place
        const own = TYPED[place.part['x-form'] ?? ''] ?? [...(place.part.enum ?? []), ...WORDS]
        const other = Object.values(TYPED).flat()
        const text = way === 0 ? other[three % other.length] : own[three % own.length]
        const { program, editor } = takenWith(sample, place.path, { to: text ?? '' })
        if (program) taken += 1
        if (program && !editor)
          throw new Error(`${sample.kind} ${place.path.join('/')}: ${text} is read, and underlined`)
      }),
      { numRuns: isSoak ? 10_000 : 700, seed: 14 },
    )
    expect(taken).toBeGreaterThan(80)
  })
})
