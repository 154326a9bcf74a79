/** The files of a new folder, or of one more recipe, batch or fixture, out of what a maker answered. Writes nothing. */
import type { YamlNode } from '../schema/yaml.ts'
import { asYamlText } from '../schema/yaml-text.ts'
import { parseQuantity } from '../units.ts'
import { entriesText, sourcesNamed } from './entries.ts'
import type { Starter } from './read-starter.ts'

/** As it was typed, each text one that the schema takes. */
export interface FixtureAnswers {
  readonly title: string
  /** the three sizes of a bar, lying in the block: along its length, along its width, thickness */
  readonly bar: readonly [string, string, string]
  readonly columns: number
  readonly rows: number
  readonly slices: number
}

export interface BatchAnswers {
  readonly recipe: string
  readonly mould: string
  readonly date: string
  /** when the batter is in the mould, where the usual hour will not do */
  readonly pourAt?: string
}

export interface ShopAnswers {
  readonly name: string
  readonly language: string
  readonly paper: 'Letter' | 'A4'
  readonly length: 'in' | 'mm'
  readonly temperature: 'F' | 'C'
  readonly edition: string
}

export interface FolderAnswers extends ShopAnswers {
  readonly fixture: Omit<FixtureAnswers, 'title'>
  readonly date: string
  readonly pourAt?: string
}

type Filling = Readonly<Record<string, string | number>>

/** Comments after a value stand below each other, wherever the value lets them. */
const COMMENT_AT = 31

/** @throws Error for a placeholder that nothing fills: a bug */
const fill = (template: string, values: Filling): string =>
  template
    .split('\n')
    .map((line) => {
      if (!line.includes('<<')) return line
      const filled = line.replace(/<<([a-z-]+)>>/g, (_, name: string) => {
        const value = values[name]
        if (value === undefined) throw new Error(`nothing fills ${name}`)
        return String(value)
      })
      const comment = /\S(\s+)# /.exec(line)
      if (!comment || line.startsWith('#')) return filled
      const at = filled.lastIndexOf(line.slice(line.indexOf('# ', comment.index)))
      return `${filled
        .slice(0, at)
        .trimEnd()
        .padEnd(COMMENT_AT - 2)}  ${filled.slice(at)}`
    })
    .join('\n')

const FATS = { olive: '46 %', coconut: '28 %', palm: '21 %', castor: '5 %' } as const
const ALKALI = 'soda-beads'
const PANELS = ['birch-18', 'birch-12', 'birch-24', 'polypropylene-1', 'polyethylene-5']

/** Sizes that hang on no bar, as they are usual, in the units that a maker measures in. */
const USUAL = {
  in: {
    trim: '5/8 in', dado: '1/4 in', lip: '1 1/2 in', freeboard: '1 1/2 in', 'base-height': '3 1/2 in',
    'groove-width': '3/16 in', 'groove-short': '5/8 in', 'groove-long': '3/8 in', thread: '1/4-20',
    'rod-low': '2 1/4 in', 'rod-stock': '36 in', 'strip-width': '2 in', 'grid-wire': '0.020 in', handle: '4 1/2 in',
  },
  mm: {
    trim: '16 mm', dado: '6 mm', lip: '38 mm', freeboard: '38 mm', 'base-height': '90 mm',
    'groove-width': '4.8 mm', 'groove-short': '16 mm', 'groove-long': '10 mm', thread: 'M6',
    'rod-low': '57 mm', 'rod-stock': '1 m', 'strip-width': '50 mm', 'grid-wire': '0.5 mm', handle: '115 mm',
  },
} as const // biome-ignore format: one line reads better

/** The more wires, and the longer the rails between them, the thinner they are, or the rails bow. */
const barWire = (slices: number, unit: 'in' | 'mm'): string => {
  const [inches, millimetres] =
    slices <= 7 ? ['0.014', '0.36'] : slices === 8 ? ['0.012', '0.3'] : ['0.010', '0.26']
  return unit === 'in' ? `${inches} in` : `${millimetres} mm`
}

/** m; of a text that a field has taken */
const metres = (text: string): number => {
  const read = parseQuantity(text, 'length')
  if (!read.ok) throw new Error(read.message)
  return read.value
}

/** m */
const INCH = 0.0254

/** Quarters of an inch as they are written, or whole millimetres by fives; rounded down. */
const roundLength = (length: number, unit: 'in' | 'mm'): string => {
  if (unit === 'mm') return `${Math.floor((length * 1000) / 5 + 1e-6) * 5} mm`
  const quarters = Math.floor((length / INCH) * 4 + 1e-6)
  const part = ['', '1/4', '1/2', '3/4'][quarters % 4] ?? ''
  return `${[Math.floor(quarters / 4), part].filter((one) => one !== '' && one !== 0).join(' ')} in`
}

/** The block that a fixture's bars are cut from, with what is trimmed [m] */
const blockOf = ({ bar, columns, rows, slices }: Omit<FixtureAnswers, 'title'>, unit: 'in' | 'mm') => {
  const [length, width, thickness] = bar.map(metres) as [number, number, number]
  return {
    length: length * columns,
    width: width * rows,
    height: thickness * slices + metres(USUAL[unit].trim),
  }
}

export const fixtureText = (starter: Starter, answers: FixtureAnswers, unit: 'in' | 'mm'): string => {
  const usual = USUAL[unit]
  const { length, height } = blockOf(answers, unit)
  const rim = metres(usual['base-height']) + height + metres(usual.freeboard)
  const { columns, rows, slices, bar } = answers
  return fill(starter.templates.fixture, {
    ...usual,
    title: asYamlText(answers.title),
    columns,
    rows,
    slices,
    bars: columns * rows * slices,
    'along-length': bar[0],
    'along-width': bar[1],
    thickness: bar[2],
    // as far below the rim as leaves the strip between the rods free
    'rod-high': roundLength(rim - 2.5 * INCH, unit),
    rails: length > LONG_BASE ? 3 : 2,
    'bar-wire': barWire(slices, unit),
  })
}

/** m; a longer base top bows between two rails (estimate) */
const LONG_BASE = 0.2

export const recipeText = (
  starter: Starter,
  title: string,
  units: Pick<ShopAnswers, 'temperature'>,
  {
    fats = FATS,
    alkali = ALKALI,
  }: { readonly fats?: Readonly<Record<string, string>>; readonly alkali?: string } = {},
): string =>
  fill(starter.templates.recipe, {
    title: asYamlText(title),
    fats: Object.entries(fats)
      .map(([key, share]) => `  ${key}: ${share}\n`)
      .join(''),
    alkali,
    'lye-temperature': units.temperature === 'F' ? '120 F' : '49 C',
    'pour-temperature': units.temperature === 'F' ? '105 F' : '40 C',
  })

export const batchText = (
  starter: Starter,
  answers: BatchAnswers,
  units: Pick<ShopAnswers, 'temperature'>,
): string =>
  fill(starter.templates.batch, {
    recipe: answers.recipe,
    mould: answers.mould,
    date: answers.date,
    'pour-at': answers.pourAt ?? USUAL_POUR,
    water: units.temperature === 'F' ? '50 F' : '10 C',
  })

const USUAL_POUR = '10:00'

/** Tools that hold a block of so much, in sizes as they are sold. */
const toolsFor = (volume: number): Filling => {
  const litres = volume * 1000
  const next = (needed: number, sizes: readonly number[]): number =>
    sizes.find((size) => size >= needed) ?? Math.ceil(needed / 10) * 10
  const kettle = next(litres * KETTLE_SHARE, KETTLES)
  const pail = next(Math.max(1, litres * PAIL_SHARE), PAILS)
  const isSmall = kettle <= 12
  return {
    'kettle-volume': `${kettle} l`,
    'kettle-mass': `${(1 + kettle * 0.12).toFixed(1)} kg`,
    'pail-volume': `${pail} l`,
    'pail-mass': `${Math.round(300 + pail * 90)} g`,
    'tray-volume': `${next(pail * 1.5, PAILS)} l`,
    'floor-capacity': isSmall ? '30 kg' : '60 kg',
    'floor-division': isSmall ? '10 g' : '20 g',
  }
}

/** l; stainless pots and pails as they are sold (estimates) */
const KETTLES = [4, 6, 8, 10, 12, 15, 20, 25, 30, 36, 40, 50, 60]
const PAILS = [2, 3, 4, 5, 6, 7, 9, 10, 12, 14, 16, 18, 20, 25, 30, 35, 40]
/** Of a block's volume: a kettle with room to stir, a pail for lye with room to foam (common practice) */
const KETTLE_SHARE = 1.5
const PAIL_SHARE = 0.65

/** Names of the first files; others may be chosen later. */
export const FIRST = { recipe: 'first-bar', fixture: 'first-block' } as const

/** Every file of a new folder by its path below it, help left out. */
export const folderFiles = (starter: Starter, answers: FolderAnswers): ReadonlyMap<string, string> => {
  const { templates, fats, panels, sources } = starter
  const words = Object.fromEntries(
    Object.entries(starter.words(answers.language)).map(([key, word]) => [key, asYamlText(word)]),
  )
  const titles = starter.words(answers.language)
  const { fixture, length: unit } = answers
  const { length, width, height } = blockOf(fixture, unit)
  const entriesOf = (document: typeof fats, part: string, keys: readonly string[]): YamlNode[] => {
    const all = (document.data as Readonly<Record<string, Readonly<Record<string, YamlNode>>>>)[part] ?? {}
    return keys.map((key) => all[key])
  }
  const keys = Object.keys(FATS)
  const isWarm = answers.temperature === 'F'
  const shop = fill(templates.shop, {
    ...words,
    ...toolsFor(length * width * height),
    name: asYamlText(answers.name),
    edition: answers.edition,
    language: answers.language,
    paper: answers.paper,
    'length-unit': unit,
    'temperature-unit': answers.temperature,
    elbow: unit === 'in' ? '41 in' : '104 cm',
    shoulder: unit === 'in' ? '53 in' : '135 cm',
    room: isWarm ? '66 F' : '19 C',
    clock: answers.paper === 'Letter' ? 'am-pm' : '24-hour',
  })
  const named = sourcesNamed(
    [...entriesOf(fats, 'fats', keys), ...entriesOf(panels, 'panels', PANELS)],
    (sources.data as Readonly<Record<string, Readonly<Record<string, YamlNode>>>>).sources ?? {},
  )
  return new Map([
    ['shop.yaml', shop],
    ['sources.yaml', templates.sources + entriesText(sources, 'sources', named)],
    ['materials/fats.yaml', templates.fats + entriesText(fats, 'fats', keys)],
    ['materials/alkalis.yaml', fill(templates.alkalis, words)],
    ['materials/panels.yaml', templates.panels + entriesText(panels, 'panels', PANELS, ['sheets'])],
    [`recipes/${FIRST.recipe}.yaml`, recipeText(starter, titles['first-recipe'] ?? '', answers)],
    [
      `fixtures/${FIRST.fixture}.yaml`,
      fixtureText(starter, { ...fixture, title: titles['first-fixture'] ?? '' }, unit),
    ],
    [
      `batches/${answers.date}-${FIRST.recipe}.yaml`,
      batchText(
        starter,
        {
          recipe: FIRST.recipe,
          mould: FIRST.fixture,
          date: answers.date,
          ...(answers.pourAt === undefined ? {} : { pourAt: answers.pourAt }),
        },
        answers,
      ),
    ],
  ])
}
