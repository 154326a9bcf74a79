/** Balm in tins, made of the same engine: soap is one kind of work among others. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Binder, type ComposedOf, composerOf } from '../../src/commands/compose.ts'
import { writeBinder } from '../../src/commands/write-binder.ts'
import { renderDiagnostics } from '../../src/diagnostics.ts'
import { shortFingerprint } from '../../src/papers/revisions.ts'
import { readLanguage, TEXT_FOLDER } from '../../src/schema/read-catalogue.ts'
import { asFolderFiles } from '../../src/schema/read-folder.ts'
import type { Sheet, Table } from '../../src/sheets/model.ts'
import { importsOf, reached, soapAmong, sourceFiles } from '../architecture-rules.ts'
import { type BuiltBinder, builtBinder } from '../commands/built-binder.ts'
import { elements, textOf } from '../sites/html.ts'
import type { BalmBinder } from './balm-tins/bind.ts'
import { allMelted, batchFigures, densityAt, mixtureDensity, weighing } from './balm-tins/calculate.ts'
import type { BalmContent } from './balm-tins/load.ts'
import { BALM } from './balm-tins/process.ts'

const here = fileURLToPath(new URL('balm-tins/', import.meta.url))
const folder = join(here, 'content')
const BATCH = 'batch/2027-09-12-hand-balm'
const CARD = 'card/melt/2027-09-12-hand-balm'
const RECORD = 'record/2027-09-12-hand-balm'
const { compose, composeFiles } = composerOf(BALM)

type Composed = ComposedOf<BalmContent, BalmBinder>
type Edit = readonly [file: string, from: string, to: string]

const base = new Map(
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => [relative(folder, path).replaceAll('\\', '/'), readFileSync(path, 'utf8')] as const),
)

/** The folder with other words in it. @throws Error for a text that is not there */
const edited = (...edits: readonly Edit[]): Promise<Composed> => {
  const files = new Map(base)
  for (const [file, from, to] of edits) {
    const text = files.get(file) ?? ''
    if (!text.includes(from)) throw new Error(`${file} has no "${from}"`)
    files.set(file, text.replace(from, to))
  }
  return composeFiles(
    {
      files: asFolderFiles(files, 'balm'),
      diagnostics: [],
    },
    'balm',
  )
}

const told = ({ diagnostics, documents }: Composed): string =>
  renderDiagnostics(diagnostics, documents, { colour: false })
const sheetOf = (composed: Composed, id: string): Sheet => {
  const sheet = composed.binder?.sheets.find((one) => one.id === id)
  if (!sheet) throw new Error(`There is no ${id}: ${told(composed)}`)
  return sheet
}
/** As it is typed on a keyboard: a number and its unit are held together by a space of their own. */
const typed = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ')
const shown = (sheet: Sheet, name: string): string => typed(sheet.values.get(name)?.shown ?? '')

const KELVIN = 273.15
const BEESWAX = {
  density: { from: 817.2, to: 826.2, at: 98.5 + KELVIN },
  melting: { from: 334.15, to: 339.15 },
}
const ALMOND = { density: { from: 907.3, to: 912.3, at: 25 + KELVIN } }
const SHEA = { density: { from: 890, to: 930, at: 40 + KELVIN }, melting: { from: 308.15, to: 313.15 } }
const PARTS = [
  { key: 'beeswax', share: 0.22, material: BEESWAX },
  { key: 'almond', share: 0.58, material: ALMOND },
  { key: 'shea', share: 0.2, material: SHEA },
]
const FINE = { key: 'fine', division: 0.0001, least: 0.002, capacity: 0.5 }
const COARSE = { key: 'coarse', division: 0.001, least: 0.02, capacity: 5 }
const SETTING = {
  parts: PARTS,
  tins: 24,
  tinVolume: 54e-6,
  loss: 0.03,
  jug: { key: 'jug', volume: 0.002, fullTo: 0.75 },
  scales: [COARSE, FINE],
  cup: 0.085,
  room: 19 + KELVIN,
  hottest: 85 + KELVIN,
  meltAbove: 8,
  pourAbove: 4,
}

describe('published: figures of the materials, as printed', () => {
  it('beeswax melts from 61 to 66 °C (European Pharmacopoeia 2005, drop point)', async () => {
    const composed = await edited()
    const { melting } = composed.binder?.content.materials.get('beeswax')?.value ?? {}
    expect(melting?.source).toBe('pheur-beeswax')
    expect(melting?.from).toBeCloseTo(61 + KELVIN, 9)
    expect(melting?.to).toBeCloseTo(66 + KELVIN, 9)
  })

  it.each([
    // against water at 25 °C, 997.05 kg/m3
    ['sweet-almond', 25, 0.91, 0.915, 997.05],
    ['shea-butter', 40, 0.89, 0.93, 1000],
    // against water at 15.5 °C, 999.05 kg/m3
    ['beeswax', 98.5, 0.818, 0.827, 999.05],
  ])('%s at %s °C: %s to %s', async (key, degrees, low, high, water) => {
    const composed = await edited()
    const material = composed.binder?.content.materials.get(key)?.value
    expect(material?.density.at).toBeCloseTo(degrees + KELVIN, 9)
    expect((material?.density.from ?? 0) / water).toBeCloseTo(low, 3)
    expect((material?.density.to ?? 0) / water).toBeCloseTo(high, 3)
  })
})

describe('by hand: a jug of balm', () => {
  it('has the density of its parts', () => {
    const pour = 70 + KELVIN
    // 909.8 − 0.66 · 45; 910 − 0.66 · 30; 821.7 + 0.66 · 28.5
    expect(densityAt(ALMOND, pour)).toBeCloseTo(880.1, 9)
    expect(densityAt(SHEA, pour)).toBeCloseTo(890.2, 9)
    expect(densityAt(BEESWAX, pour)).toBeCloseTo(840.51, 9)
    // 0.22 / 840.51 + 0.58 / 880.1 + 0.2 / 890.2 = 0.000261746 + 0.000659016 + 0.000224669 = 0.001145431
    expect(mixtureDensity(PARTS, pour)).toBeCloseTo(1 / 0.001145431, 2)
    // of one liquid its own, and of two in equal volumes their mean
    expect(mixtureDensity([{ share: 1, material: SHEA }], pour)).toBeCloseTo(890.2, 9)
    const whole = 880.1 + 890.2
    const halves = [
      { share: 880.1 / whole, material: ALMOND },
      { share: 890.2 / whole, material: SHEA },
    ]
    expect(mixtureDensity(halves, pour)).toBeCloseTo(whole / 2, 9)
  })

  it('is melted above its last part, or in the room where nothing of it is solid', () => {
    expect(allMelted([ALMOND, SHEA, BEESWAX], 292.15)).toBeCloseTo(66 + KELVIN, 9)
    expect(allMelted([ALMOND], 292.15)).toBe(292.15)
  })

  it('is weighed back from its tins', () => {
    const figures = batchFigures(SETTING)
    expect(figures.findings).toEqual([])
    expect(figures.meltTo - KELVIN).toBeCloseTo(74, 9)
    expect(figures.pourAt - KELVIN).toBeCloseTo(70, 9)
    // 54 ml · 873.034 kg/m3 = 47.144 g; · 24 / 0.97 = 1166.4 g, of which 35.0 g stay
    expect(figures.tinMass * 1000).toBeCloseTo(47.144, 3)
    expect(figures.jugMass * 1000).toBeCloseTo(1166.45, 1)
    expect(figures.leftMass * 1000).toBeCloseTo(34.99, 1)
    // · 0.22 = 256.62, with its cup within 500 g; · 0.58 = 676.5; · 0.2 = 233.29
    expect(
      figures.parts.map(({ key, mass, scale }) => [key, scale.key, Math.round(mass * 1e7) / 1e4]),
    ).toEqual([
      ['beeswax', 'fine', 256.6],
      ['almond', 'coarse', 677],
      ['shea', 'fine', 233.3],
    ])
  })

  it('stops where the jug overflows, gets too hot, or finds no scale', () => {
    const codes = (change: Partial<typeof SETTING>) =>
      batchFigures({ ...SETTING, ...change }).findings.map(({ code }) => code)
    // hot it takes 1.166 kg / 870.4 kg/m3 = 1.340 l for 24 tins, so that 26 tins take 1.452 l and 27 take 1.508 l
    expect(codes({ tins: 26 })).toEqual([])
    expect(codes({ tins: 27 })).toEqual(['balm-jug-overflows'])
    expect(codes({ hottest: 74.01 + KELVIN })).toEqual([])
    expect(codes({ hottest: 73.99 + KELVIN })).toEqual(['balm-too-hot'])
    expect(codes({ scales: [FINE] })).toEqual(['balm-no-scale'])
  })

  it('takes the finest scale that bears the cup, too', () => {
    expect(weighing(0.415, 0.085, [COARSE, FINE])?.scale.key).toBe('fine')
    expect(weighing(0.4151, 0.085, [COARSE, FINE])?.scale.key).toBe('coarse')
    expect(weighing(0.0019, 0.085, [COARSE, FINE])).toBeUndefined()
  })
})

describe('by hand: a binder of balm', () => {
  let composed: Composed
  beforeAll(async () => {
    composed = await compose(folder, 'balm')
  })

  it('reads without a complaint, and has its own sheets in its own order', () => {
    expect(told(composed)).toBe('')
    expect(composed.binder?.sheets.map(({ number, id }) => `${number} ${id}`)).toEqual([
      '1.1 cover',
      '1.2 contents',
      '2.1 cautions/wax',
      `3.1 ${BATCH}`,
      `4.1 ${CARD}`,
      '5.1 printed',
      `5.2 ${RECORD}`,
      '6.1 sources',
      '6.2 colophon',
      '7.1 page/evening-before',
    ])
  })

  it('shows what was reckoned, the same on each sheet', () => {
    const batch = sheetOf(composed, BATCH)
    expect(shown(batch, 'beeswax.mass')).toBe('256.6 g')
    expect(shown(batch, 'sweet-almond.mass')).toBe('677 g')
    expect(shown(batch, 'shea-butter.mass')).toBe('233.3 g')
    expect(shown(batch, 'tin.mass')).toBe('47 g')
    expect(shown(batch, 'tin.volume')).toBe('54 ml')
    expect(shown(batch, 'melt.to')).toMatch(/^74 °C/)
    for (const id of [CARD, RECORD])
      for (const name of ['melt.to', 'pour.at', 'tin.mass'])
        expect(shown(sheetOf(composed, id), name), `${id} ${name}`).toBe(shown(batch, name))
    expect(shown(sheetOf(composed, 'page/evening-before'), `${BATCH}:beeswax.mass`)).toBe('256.6 g')
  })

  it('lists its own methods and its own works, and none of another work', () => {
    const { sources, methods } = sheetOf(composed, 'sources').blocks as { sources: Table; methods: Table }
    expect(methods.rows).toHaveLength(4)
    // five of its folder, three of ours
    expect(sources.rows).toHaveLength(8)
    expect(JSON.stringify(sources.rows)).toContain('First aid guidance on burns')
  })

  it('is made of nothing that is soap’s', () => {
    const own = readdirSync(here)
      .filter((name) => name.endsWith('.ts'))
      .map((name) => ({ path: `balm/${name}`, text: readFileSync(join(here, name), 'utf8') }))
    const asBelow = own.map(({ path, text }) => ({ path, text: text.replaceAll("'../../../src/", "'../") }))
    const imports = [...asBelow, ...sourceFiles()].flatMap(importsOf)
    const ways = reached(
      imports,
      own.map(({ path }) => path),
      'soap.ts',
    )
    expect(ways.size).toBeGreaterThan(40)
    expect(soapAmong(ways)).toEqual([])
  })
})

describe('by hand: mistakes in a balm maker’s folder', () => {
  it.each([
    [
      'a material that nothing bears',
      ['recipes/hand-balm.yaml', 'beeswax: 22 %', 'beeswacks: 22 %'],
      /recipes\/hand-balm\.yaml:4:3 .*unknown-name\nThere is no material named "beeswacks"[\s\S]*Did you mean "beeswax"\?/,
    ],
    [
      'shares that do not add up',
      ['recipes/hand-balm.yaml', 'beeswax: 22 %', 'beeswax: 20 %'],
      /recipes\/hand-balm\.yaml:3:1 .*shares-not-100\nThe parts make 98 %, not 100 %/,
    ],
    [
      'a vessel that the table does not have',
      ['batches/2027-09-12-hand-balm.yaml', 'vessel: jug', 'vessel: jugg'],
      /batches\/2027-09-12-hand-balm\.yaml:6:9 .*unknown-name\nThere is no vessel named "jugg"[\s\S]*Did you mean "jug"\?/,
    ],
    [
      'a value without its unit',
      ['tins/round-60.yaml', 'volume: 60 ml', 'volume: 60'],
      /tins\/round-60\.yaml:3:9 .*unit/,
    ],
    [
      'a value that no sheet shows',
      ['pages/evening-before.md', 'beeswax.mass', 'beeswax.mas'],
      /pages\/evening-before\.md:3:9 .*unknown-value\n[\s\S]*Did you mean "beeswax\.mass"\?/,
    ],
  ] as const)('%s', async (_what, edit, wanted) => {
    const composed = await edited(edit)
    expect(told(composed)).toMatch(wanted)
    expect(composed.binder).toBeUndefined()
  })
})

describe('by hand: a jug that would overflow', () => {
  let composed: Composed
  beforeAll(async () => {
    composed = await edited(['batches/2027-09-12-hand-balm.yaml', 'tins: 24', 'tins: 60'])
  })

  it('is stopped, with what would clear it and where', () => {
    const { stopped } = sheetOf(composed, BATCH)
    expect(stopped?.map(({ code, place }) => [code, place])).toEqual([
      ['balm-jug-overflows', 'balm/batches/2027-09-12-hand-balm.yaml:4'],
    ])
    // 60 tins take 60 / 24 · 1.340 l
    const volumes = [...sheetOf(composed, BATCH).values.values()].filter(({ unit }) => unit === 'm3')
    expect(volumes.map((value) => typed(value.shown))).toEqual(['3.4 L', '1.5 L'])
  })

  it('leaves no weight and no record of it on any sheet', () => {
    const sheets = composed.binder?.sheets ?? []
    expect(sheets.map(({ id }) => id)).not.toContain(RECORD)
    const weights = sheets.flatMap(({ values }) => [...values.values()].filter(({ unit }) => unit === 'kg'))
    expect(weights).toEqual([])
    expect(sheets.find(({ id }) => id === CARD)?.values.has('melt.to')).toBe(false)
  })
})

describe('by hand: words of two folders', () => {
  it('do not take the place of each other', () => {
    const own = mkdtempSync(join(tmpdir(), 'balm-words-'))
    try {
      mkdirSync(join(own, 'en/sheets'), { recursive: true })
      writeFileSync(join(own, 'en/sheets/cover.md'), 'Another cover.\n')
      const { catalogue, diagnostics } = readLanguage('en', [TEXT_FOLDER, own])
      expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
        ['text-twice', 'There are two texts for the sheet "cover"'],
      ])
      expect(catalogue).toBeUndefined()
    } finally {
      rmSync(own, { recursive: true, force: true })
    }
  })
})

describe('by hand: papers of balm', () => {
  const fingerprints = ({ binder }: Composed): ReadonlyMap<string, string> =>
    new Map((binder?.revised ?? []).map(({ sheet, fingerprint }) => [sheet.id, fingerprint]))

  it('are out of date where a changed share is read, and nowhere else', async () => {
    const before = fingerprints(await edited())
    const after = fingerprints(
      await edited(
        ['recipes/hand-balm.yaml', 'beeswax: 22 %', 'beeswax: 24 %'],
        ['recipes/hand-balm.yaml', 'sweet-almond: 58 %', 'sweet-almond: 56 %'],
      ),
    )
    // 1 / (0.24 / 840.51 + 0.56 / 880.1 + 0.2 / 890.2) = 872.2 kg/m3: a tin still holds 47 g, as the card says
    expect([...before].filter(([id, mark]) => after.get(id) !== mark).map(([id]) => id)).toEqual([
      BATCH,
      RECORD,
      'page/evening-before',
    ])
  })

  it('stand on the list that is walked with, in its own place', async () => {
    const own = mkdtempSync(join(tmpdir(), 'balm-'))
    try {
      cpSync(folder, own, { recursive: true })
      const older = await edited([
        'recipes/hand-balm.yaml',
        'beeswax: 22 %\n  sweet-almond: 58 %',
        'beeswax: 24 %\n  sweet-almond: 56 %',
      ])
      const papers = [BATCH, CARD].map((id) => {
        const one = older.binder?.revised.find(({ sheet }) => sheet.id === id)
        return `      - { sheet: ${id}, revision: 1, code: ${one?.sheet.code?.shown}, shows: ${shortFingerprint(one?.fingerprint ?? '')} }`
      })
      mkdirSync(join(own, 'records'))
      writeFileSync(
        join(own, 'records/printed.yaml'),
        `entries:\n  - date: 2027-09-02\n    how: laminated\n    where: beside the stove\n    sheets:\n${papers.join('\n')}\n`,
      )
      const composed = await compose(own, 'balm')
      expect(told(composed)).not.toContain('error')
      expect(composed.binder?.papers?.outOfDate.map(({ paper }) => paper.sheet)).toEqual([BATCH])
      expect(composed.binder?.papers?.right.map(({ paper }) => paper.sheet)).toEqual([CARD])
      const list = sheetOf(composed, 'printed')
      expect(list.number).toBe('5.1')
      expect(shown(list, 'papers.out-of-date')).toBe('1')
      expect(JSON.stringify(list.blocks)).toContain('beside the stove')
      expect(sheetOf(composed, 'cautions/wax').kind).toBe('cautions')
      expect(shown(sheetOf(composed, BATCH), 'sheet.revision')).toBe('2')
    } finally {
      rmSync(own, { recursive: true, force: true })
    }
  })
})

/** Words of another work: none of them has any business beside hot wax. */
const SOAP_WORDS =
  /\b(soaps?|lye|batter|moulds?|saponif\w*|superfat|alkalis?|NaOH|KOH|caustic|cured?|bars?|loaf|loaves|kettles?|trace|gel)\b/i

describe('by hand: a printed binder of balm', () => {
  const out = mkdtempSync(join(tmpdir(), 'balm-out-'))
  let binder: Binder<BalmContent, BalmBinder>
  let built: BuiltBinder

  beforeAll(async () => {
    const composed = await compose(folder, 'balm')
    if (!composed.binder) throw new Error(told(composed))
    binder = composed.binder
    await writeBinder(binder, { out: join(out, 'binder'), folder, report: () => {} })
    built = await builtBinder(join(out, 'binder'))
  })
  afterAll(() => rmSync(out, { recursive: true, force: true }))

  it('has passed all gates, each sheet in the contents and the outline at its page', () => {
    const { data, structure } = built
    expect(data.sheets.map(({ id }) => id)).toEqual(binder.sheets.map(({ id }) => id))
    expect(structure.pageCount).toBeGreaterThanOrEqual(binder.sheets.length)
    expect(structure.outline.map(({ page }) => page)).toEqual(data.sheets.map(({ firstPage }) => firstPage))
    const contents = data.sheets.find(({ id }) => id === 'contents')
    const text = structure.texts[(contents?.firstPage ?? 0) - 1]?.join('').replace(/\s/g, '') ?? ''
    for (const [index, { title, firstPage }] of data.sheets.entries())
      if (index > 1)
        expect(text).toContain(`${binder.sheets[index]?.number}${title}${firstPage}`.replace(/\s/g, ''))
  })

  it('has what hangs beside the stove on one page each', () => {
    const pages = new Map(built.data.sheets.map(({ id, pages }) => [id, pages]))
    expect([pages.get('cautions/wax'), pages.get(CARD)]).toEqual([1, 1])
  })

  it('has every value in its data as its page has it', () => {
    for (const { id, values } of built.data.sheets)
      for (const [name, value] of binder.sheets.find((sheet) => sheet.id === id)?.values ?? [])
        expect(values[name], `${id} ${name}`).toMatchObject({ shown: value.shown })
  })

  it('has pages that lead to files that are there, and to no calendar', () => {
    const pages = [...built.files.keys()].filter((path) => path.endsWith('.html'))
    expect(pages).toHaveLength(binder.sheets.length + 2)
    const led = pages.flatMap((page) =>
      elements(built.rootOf(page)).flatMap(({ attributes: { href, src } }) => {
        const to = (href ?? src)?.replace(/#.*$/, '')
        return to ? [join(page, '..', to)] : []
      }),
    )
    expect(led.length).toBeGreaterThan(50)
    expect([...new Set(led)].filter((path) => !built.files.has(path))).toEqual([])
    expect([...built.files.keys()].filter((path) => /\.(ics|dxf)$/.test(path))).toEqual([])
  })

  it('is followed at the bench on a phone', () => {
    const page = built.rootOf(`sheets/${BATCH.replace('/', '-')}.html`)
    const bench = elements(page).find(({ attributes }) => attributes.id === 'bench')
    const { steps } = JSON.parse(bench?.attributes['data-bench'] ?? '{}') as {
      steps: { name: string; waits: { after: { seconds: number }[] }[] }[]
    }
    expect(steps.map(({ name }) => name)).toContain('clear')
    expect(steps.flatMap(({ waits }) => waits).map(({ after }) => after[0]?.seconds)).toEqual([3 * 3600])
  })

  it('says no word of soap on any page, nor in what its scripts are given', () => {
    expect(SOAP_WORDS.test('Cut the bars')).toBe(true)
    // the colophon names the program, which has its name from soap
    const ours = (text: string): string => text.replaceAll('Kettle & Kerf', '')
    for (const page of [...built.files.keys()].filter((path) => path.endsWith('.html')))
      expect(SOAP_WORDS.exec(ours(textOf(built.rootOf(page))))?.[0], page).toBeUndefined()
    expect(SOAP_WORDS.exec(ours(built.structure.texts.flat().join(' ')))?.[0]).toBeUndefined()
    // and in the list of all words; on pages it would be found
    const index = ours(String(built.files.get('assets/search-index.js'))).replaceAll('kettle', '')
    expect(SOAP_WORDS.exec(index)?.[0]).toBeUndefined()
    expect(String(built.files.get('assets/words.js'))).not.toContain('sodium')
  })
})
