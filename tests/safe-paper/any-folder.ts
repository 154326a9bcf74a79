/**
 * Folders of a maker whose batches lie near every limit: text of YAML files, as anybody might have typed them.
 *
 * What is weighed (fats, alkali, acids, scales, weights) is chosen for a group of folders; vessels, room, limits, lye and
 * mould for each folder of it. What a superfat may be is drawn once for a group, which is what takes long.
 */
import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { smallBinderFiles } from '../sites/small-binder.ts'
import { type Chance, chanceOf } from './chance.ts'

const content = (path: string): string =>
  readFileSync(new URL(`../../content/${path}`, import.meta.url), 'utf8')
/** Half of the fats library at a time would be as good, and slower to read: a folder gets what its recipes name. */
const library = content('materials/fats.yaml')
const entries = new Map<string, string>()
for (const part of library.slice(library.indexOf('\nfats:\n') + 7).split(/\n(?= {2}[a-z][a-z-]*:\n)/))
  entries.set(/^\s*([a-z-]+):/.exec(part)?.[1] ?? '', part)
const FATS = [...entries.keys()].filter((key) => key !== '') as [string, ...string[]]
const kinds = parse(library) as {
  fats: Record<
    string,
    {
      kind: string
      'saponification-value': { from: number; to: number }
      'fatty-acids'?: { percent: Record<string, [number, number]> }
    }
  >
}

interface Weighing {
  readonly recipes: readonly string[]
  readonly fats: readonly (readonly string[])[]
  readonly shares: readonly (readonly number[])[]
  readonly alkali: readonly ('beads' | 'flakes' | 'both')[]
  /** kg, by recipe */
  readonly oils: readonly number[]
  /** how much, as the batch of each recipe says it */
  readonly amounts: readonly string[]
  readonly blended: readonly boolean[]
  readonly fromStock: readonly boolean[]
  readonly jugs: readonly string[]
  readonly materials: string
  readonly scales: string
  readonly floor: number
  readonly grid: string
  readonly bar: string
  /** mm of all slices */
  readonly height: number
}

const shares = (by: Chance, count: number): number[] => {
  // one fat mostly leads; 0.1 % is the least that a recipe may name
  const raw = Array.from({ length: count }, () => by.between(0.03, 1) ** by.of([1, 1, 2, 4]))
  const sum = raw.reduce((total, one) => total + one, 0)
  const tenths = raw.map((one) => Math.max(1, Math.round((one / sum) * 1000)))
  // what rounding leaves goes to the largest, which can bear it
  const largest = tenths.indexOf(Math.max(...tenths))
  tenths[largest] = (tenths[largest] ?? 0) + 1000 - tenths.reduce((total, one) => total + one, 0)
  return tenths.map((one) => one / 10)
}

const range = (by: Chance, value: number, most: number, spread: number): string => {
  const low = Math.max(50, value - by.number(0, spread))
  const high = Math.min(most, value + by.number(0, spread))
  return `{ from: ${low.toFixed(1)} %, to: ${high.toFixed(1)} % }`
}

const materialsOf = (by: Chance, used: ReadonlySet<string>): string => {
  const soda = by.odds(0.97) ? by.number(96, 100) : by.number(85, 96)
  const potash = by.odds(0.97) ? by.number(82, 92) : by.number(70, 100)
  const stock = by.number(30, 50)
  const certificates = [...used].flatMap((key) => {
    const fat = kinds.fats[key]
    if (!fat || by.odds(0.55)) return []
    const { from, to } = fat['saponification-value']
    const off = by.odds(0.9) ? 0 : to * 0.05
    const value = by.number(from - off, to + off)
    const acids = fat['fatty-acids']?.percent
    const analysis = acids && by.odds(0.15) ? Object.entries(acids) : []
    const sum = analysis.reduce((total, [, [low, high]]) => total + (low + high) / 2, 0)
    const listed = analysis
      .filter(([, [low, high]]) => low + high > 0)
      .map(([acid, [low, high]]) => `'${acid}': ${(((low + high) / 2 / sum) * 100).toFixed(3)}`)
    if (sum > 0) return [`  ${key}: { lot: L1, fatty-acids: { ${listed.join(', ')} } }`]
    return [
      `  ${key}: { lot: L1, saponification-value: ${value}${by.odds(0.5) ? `, tolerance: ${by.number(0, 6)}` : ''} }`,
    ]
  })
  return `fats:
${[...used].map((key) => entries.get(key)).join('\n')}
${certificates.length > 0 ? `\ncertificates:\n${certificates.join('\n')}\n` : ''}
alkalis:
  beads: { name: Sodium hydroxide, kind: NaOH, purity: ${soda} %${by.odds(0.6) ? `, purity-range: ${range(by, soda, 100, 3)}` : ''}${by.odds(0.3) ? `, damp: ${by.number(0, 3)} %` : ''} }
  flakes: { name: Potassium hydroxide, kind: KOH, purity: ${potash} %${by.odds(0.6) ? `, purity-range: ${range(by, potash, 100, 4)}` : ''} }
stock-lyes:
  jug-of-lye: { name: Stock lye, kind: ${by.odds(0.85) ? 'NaOH' : 'KOH'}, strength: ${stock} %${by.odds(0.7) ? `, strength-range: ${range(by, stock, 60, 1).replace('from: 50.0', `from: ${stock}`)}` : ''} }
additives:
  citric: { name: Citric acid, acid: ${by.of(['citric-acid', 'citric-acid-monohydrate'])}, strength: ${by.number(90, 100)} % }
  lactic: { name: Lactic acid, acid: lactic-acid, strength: ${by.number(50, 90)} % }
  vinegar: { name: Vinegar, acid: acetic-acid, strength: ${by.number(4, 12)} % }
  clay: { name: Clay, density: 2500 kg/m3 }
  salt: { name: Salt, behaves: hardens, density: 2160 kg/m3 }
  sugar: { name: Sugar, behaves: heats }
fragrances:
  scent: { name: Scent, limit: ${by.number(1, 6)} %, tried: small pot }
  new-scent: { name: New scent, limit: 5 % }
liquids:
  milk: { name: Goat milk, water: 87 %, behaves: heats }
`
}

const recipeOf = (
  by: Chance,
  index: number,
  fats: readonly string[],
  parts: readonly number[],
  alkali: string,
) => {
  const superfat = by.odds(0.8) ? by.number(4, 13) : by.odds(0.5) ? by.number(-5, 5) : by.number(8, 30)
  const potash = by.odds(0.3) ? by.whole(1, 99) : by.whole(2, 30)
  const strength = by.of([
    () => `lye-concentration: ${by.odds(0.85) ? by.number(24, 40) : by.number(10, 60)} %`,
    () => `water-to-lye: ${by.odds(0.85) ? by.number(1.5, 3.2, 2) : by.number(0.6, 9, 2)}`,
    () => `water-share-of-fats: ${by.odds(0.85) ? by.number(24, 45) : by.number(5, 100)} %`,
  ])()
  const additions = [
    ...(by.odds(0.12) ? [`citric: ${by.number(0.2, 4, 2)} %`] : []),
    ...(by.odds(0.08) ? [`lactic: ${by.number(0.2, 4, 2)} %`] : []),
    ...(by.odds(0.05) ? [`vinegar: ${by.number(1, 20)} %`] : []),
    ...(by.odds(0.2) ? [`clay: ${by.number(0.05, 6, 2)} %`] : []),
    ...(by.odds(0.05) ? [`salt: ${by.number(1, 40)} %`] : []),
    ...(by.odds(0.08) ? [`sugar: ${by.number(0.2, 4)} %`] : []),
    ...(by.odds(0.3) ? [`scent: ${by.number(0.5, 6)} %`] : []),
    ...(by.odds(0.03) ? [`new-scent: ${by.number(0.5, 4)} %`] : []),
  ]
  const pale = by.whole(10, 90)
  return `title: Bar ${index + 1}
fats: { ${fats.map((key, i) => `${key}: ${parts[i]} %`).join(', ')} }
superfat: ${superfat} %
${alkali === 'both' ? `alkalis: { beads: ${100 - potash} %, flakes: ${potash} % }` : `alkali: ${alkali}`}
${strength}
${by.odds(0.04) ? 'lye-liquid: milk\n' : ''}${by.odds(0.12) ? `later-liquid: ${by.number(1, by.odds(0.8) ? 20 : 60)} %\n` : ''}${additions.length > 0 ? `additions: { ${additions.join(', ')} }\n` : ''}${by.odds(0.15) ? `colours: { pale: { share: ${pale} % }, dark: { share: ${100 - pale} %, with: { clay: ${by.number(0.2, 5)} % } } }\n` : ''}`
}

/** How much is made, by each of the ways that a batch may say it. */
const amountOf = (by: Chance, oils: number, fat: string, share: number): string =>
  by.odds(0.85)
    ? `oils: ${by.of([`${Math.max(51, Math.round(oils * 1000))} g`, `${Math.max(0.06, oils).toFixed(2)} kg`, `${Math.max(2, oils / 0.028349523).toFixed(1)} oz`])}`
    : by.odds(0.6)
      ? 'fill: to the line'
      : `on-hand: { ${fat}: ${Math.max(1, Math.round(oils * 10 * share * by.between(0.6, 1.4)))} g }`

const PER_GROUP = 10

const weighingOf = (by: Chance): Weighing => {
  const columns = by.whole(2, 4)
  const rows = by.whole(2, 3)
  const slices = by.whole(4, 8)
  const thickness = by.whole(19, 28)
  // litres of block, and about two thirds of a kilogram of fats in each
  const whole = columns * 0.6 * rows * 0.7 * ((slices * thickness + 20) / 100) * 0.66
  const fats: string[][] = []
  const parts: number[][] = []
  const alkali: ('beads' | 'flakes' | 'both')[] = []
  const recipes: string[] = []
  const oils: number[] = []
  const amounts: string[] = []
  for (let index = 0; index < PER_GROUP; index += 1) {
    const count = by.of([1, 2, 3, 3, 4, 5, 7])
    const named = [...new Set(Array.from({ length: count }, () => by.of(FATS)))]
    const one = shares(by, named.length)
    const kind = by.of(['beads', 'beads', 'beads', 'both', 'flakes'] as const)
    fats.push(named)
    parts.push(one)
    alkali.push(kind)
    recipes.push(recipeOf(by, index, named, one, kind))
    oils.push(by.odds(0.9) ? whole * by.between(0.5, 1.2) : whole * by.between(0.02, 6))
    amounts.push(amountOf(by, oils[index] ?? 1, named[0] ?? '', one[0] ?? 100))
  }
  const scale = (name: string, capacity: number, division: number): string =>
    `  ${name}: { capacity: ${capacity} g, division: ${division} g${by.odds(0.3) ? `, repeatability: ${(division * by.number(0, 2)).toFixed(3)} g` : ''}${by.odds(0.3) ? `, span-error: ${by.number(0, 0.5, 2)} %` : ''}${by.odds(0.15) ? `, smallest-weighing: ${division * by.whole(5, 50)} g` : ''}${by.odds(0.3) ? `, check-mass: ${by.of([200, 1000, 2000])} g` : ''} }`
  const scales = [
    scale('bench', by.of([2000, 5000, 5000, 10_000, 30_000]), by.of([0.1, 0.5, 1, 1, 1, 2, 5])),
    ...(by.odds(0.5) ? [scale('floor', by.of([30_000, 60_000, 150_000]), by.of([5, 10, 20, 50]))] : []),
    ...(by.odds(0.4) ? [scale('small', by.of([200, 500, 1000]), by.of([0.01, 0.1]))] : []),
    ...(by.odds(0.03) ? [scale('old', 10_000, by.of([50, 100, 500]))] : []),
  ]
  return {
    recipes,
    fats,
    shares: parts,
    alkali,
    oils,
    amounts,
    blended: oils.map(() => by.odds(0.15)),
    fromStock: oils.map(() => by.odds(0.12)),
    jugs: [
      vesselOf(by, 'weighing', by.of([1, 2, 3, 3, 5]), by.whole(100, 400), [], 0.2),
      vesselOf(by, 'alkali', by.of([0.4, 0.6, 1, 1, 2]), by.whole(40, 150)),
    ],
    materials: materialsOf(by, new Set(fats.flat())),
    scales: scales.join('\n'),
    floor: by.odds(0.7) ? 2 : by.number(0, 6),
    grid: `columns: ${columns}, rows: ${rows}, slices: ${slices}`,
    bar: `thickness: ${thickness} mm`,
    height: slices * thickness,
  }
}

const GOOD = ['polypropylene', 'stainless-304', 'stainless-316', 'hdpe'] as const
const BAD = [
  'aluminium',
  'zinc',
  'galvanised-steel',
  'tin',
  'brass',
  'glass',
  'pet',
  'wood',
  'other',
] as const

const vesselOf = (
  by: Chance,
  use: string,
  litres: number,
  mass: number,
  more: readonly string[] = [],
  careless = 0.02,
): string => {
  const material = by.odds(careless) ? by.of(BAD) : by.of(GOOD)
  const rated = by.odds(0.75) ? by.whole(90, 140) : by.whole(40, 100)
  return `  ${use}-1: { use: ${use}, material: ${material}, volume: ${Math.round(litres * 1000)} ml, empty-mass: ${Math.round(mass)} g, rated: ${rated} C${more.map((one) => `, ${one}`).join('')} }`
}

export interface AnyFolder {
  readonly seed: number
  /** which of its group */
  readonly number: number
  readonly files: ReadonlyMap<string, string>
}

const base = smallBinderFiles()
const sources = content('sources.yaml').replace(
  /\nsources:\n/,
  '\nsources:\n  ledger: { title: The ledger of this shop, where: shelf, evidence: read }\n',
)

/** Folders of one group, by its seed; of each recipe of theirs one batch. */
export function* foldersOfGroup(
  seed: number,
  folders: number,
  batchesEach = PER_GROUP,
): Generator<AnyFolder> {
  const weighing = weighingOf(chanceOf(seed))
  for (let number = 0; number < folders; number += 1)
    yield {
      seed,
      number,
      files: filesOf(
        weighing,
        chanceOf(seed * 1009 + number + 1),
        chanceOf(seed * 1013 + 1 + (number % WAYS_TO_FILL)),
        batchesEach,
      ),
    }
}

/** What a mould is filled by follows from these: of a group only so many, or every folder would weigh out otherwise. */
const WAYS_TO_FILL = 4

const filesOf = (weighing: Weighing, by: Chance, byFew: Chance, batchesEach: number): Map<string, string> => {
  const files = new Map<string, string>()
  const litres = Math.max(...weighing.oils.filter((_, i) => i < batchesEach)) / 0.66
  const usual = litres > 12 ? 6 : litres
  const kettle = (usual / 0.75) * by.between(0.8, 1.8)
  const shop = base.get('shop.yaml') ?? ''
  const pail = by.odds(0.9) ? usual * by.between(0.4, 1.2) : by.between(0.5, 12)
  const vessels = [
    ...weighing.jugs,
    vesselOf(by, 'lye', pail, by.whole(200, 1500), [
      ...(by.odds(0.03) ? [] : [`tray: ${Math.round(pail * by.between(0.45, 3) * 1000)} ml`]),
      ...(by.odds(0.03) ? ['tight-lid: yes'] : []),
      ...(by.odds(0.2)
        ? [
            `cooling: { first: ${by.whole(60, 90)} C, second: ${by.whole(35, 59)} C, after: ${by.whole(20, 90)} min, room: ${by.whole(10, 30)} C }`,
          ]
        : []),
    ]),
    vesselOf(by, 'mixing', kettle, by.whole(800, 5000), [
      ...(by.odds(0.3) ? [`how-many: ${by.whole(1, 3)}`] : []),
      ...(by.odds(0.3) ? [`height: ${by.whole(15, 45)} cm`] : []),
      ...(by.odds(0.2) ? ['valve: yes'] : []),
    ]),
    vesselOf(by, 'pouring', by.between(0.6, 5), by.whole(150, 900)),
  ]
  const fill = byFew.odds(0.3)
    ? `fill: { left-in-kettle: ${byFew.number(0, 4)} %, air: ${byFew.number(0, 8)} %, sinks-while-setting: ${byFew.number(0, 8)} %, rises-while-hot: ${by.number(0, 20)} % }\n`
    : ''
  const block = by.odds(0.4)
    ? `block: { insulation: ${by.whole(0, 60)} mm${by.odds(0.3) ? `, cut-below: ${by.whole(30, 50)} C` : ''} }\n`
    : ''
  const room = by.odds(0.9) ? by.number(8, 30) : by.number(-10, 45)
  files.set(
    'shop.yaml',
    `${shop
      .slice(0, shop.indexOf('scales:'))
      .replace('least-superfat: 2 %', `least-superfat: ${weighing.floor} %`)
      .replace('hot-lift: 10 kg', `hot-lift: ${by.whole(6, 23)} kg`)
      .replace('hottest-lye: 80 C', `hottest-lye: ${by.odds(0.6) ? by.whole(70, 90) : by.whole(45, 95)} C`)
      .replace('next-portion-below: 50 C', `next-portion-below: ${by.whole(25, 65)} C`)
      .replace('usual-temperature: 18 C', `usual-temperature: ${room} C`)
      .replace('elbow-height: 100 cm', `elbow-height: ${by.whole(80, 120)} cm`)
      .replace(
        /units:\n {2}length: mm\n {2}temperature: C/,
        by.odds(0.85) ? '$&' : 'units:\n  length: in\n  temperature: F',
      )}${fill}${block}scales:\n${weighing.scales}\n\nvessels:\n${vessels.join('\n')}\n`,
  )
  files.set('sources.yaml', sources)
  const panels = (base.get('materials/all.yaml') ?? '').slice(
    (base.get('materials/all.yaml') ?? '').indexOf('panels:'),
  )
  const blends: string[] = []
  for (let index = 0; index < Math.min(batchesEach, weighing.recipes.length); index += 1) {
    const pour = byFew.odds(0.85) ? byFew.whole(30, 55) : byFew.whole(15, 90)
    files.set(
      `recipes/bar-${index}.yaml`,
      `${weighing.recipes[index]}pour-temperature: ${pour} C\n${by.odds(0.4) ? `lye-temperature: ${by.odds(0.85) ? by.whole(25, 55) : by.whole(10, 70)} C\n` : ''}${by.odds(0.9) ? `tried: { where: loaf 1, oils: 700 g, minutes-to-thick: ${by.whole(5, 60)}, behaviour: calm }\n` : ''}`,
    )
    const fats = weighing.fats[index] ?? []
    const parts = weighing.shares[index] ?? []
    const amount = by.odds(0.98)
      ? (weighing.amounts[index] ?? '')
      : amountOf(by, weighing.oils[index] ?? 1, fats[0] ?? '', parts[0] ?? 100)
    let premix = ''
    if (fats.length > 1 && weighing.blended[index]) {
      const [one = 50, two = 50] = parts
      const first = Number(((100 * one) / (one + two)).toFixed(2))
      blends.push(
        `  blend-${index}: { name: Blend ${index}, fats: { ${fats[0]}: ${first} %, ${fats[1]}: ${(100 - first).toFixed(2)} % } }`,
      )
      premix = `premix: blend-${index}\n`
    }
    const lye = weighing.fromStock[index]
      ? 'stock: jug-of-lye'
      : [
          ...(by.odds(0.85)
            ? [`water-temperature: ${by.odds(0.8) ? by.whole(2, 22) : by.whole(0, 40)} C`]
            : []),
          ...(by.odds(0.6)
            ? [by.odds(0.3) ? 'ice: as needed' : `ice: ${by.whole(0, by.odds(0.9) ? 60 : 90)} %`]
            : []),
        ].join(', ')
    files.set(
      `batches/2027-02-${String(index + 1).padStart(2, '0')}-bar-${index}.yaml`,
      `recipe: bar-${index}\nmould: small\ndate: 2027-02-${String(index + 1).padStart(2, '0')}\n${premix}${amount}\n${lye === '' ? '' : `lye: { ${lye} }\n`}`,
    )
  }
  files.set(
    'materials/all.yaml',
    `${weighing.materials}${blends.length > 0 ? `premixes:\n${blends.join('\n')}\n` : ''}\n${panels}`,
  )
  const trim = byFew.whole(6, 28)
  const freeboard = by.odds(0.9) ? by.whole(22, 60) : by.whole(0, 25)
  files.set(
    'fixtures/small.yaml',
    (base.get('fixtures/small.yaml') ?? '')
      .replace('columns: 3, rows: 2, slices: 6', weighing.grid)
      .replace('thickness: 25 mm', weighing.bar)
      .replace('top: 15 mm', `top: ${trim} mm`)
      .replace('freeboard: 40 mm', `freeboard: ${freeboard} mm`)
      .replace(
        'heights: [50 mm, 240 mm]',
        `heights: [50 mm, ${80 + weighing.height + trim + freeboard - 45} mm]`,
      ),
  )
  return files
}
