/** Which folder may import which, and behind which file each outside library stands. */
import { describe, expect, it } from 'vitest'
import {
  CALCULATORS,
  folderOf,
  folderRings,
  type Import,
  importsOf,
  reached,
  soapAmong,
  sourceFiles,
  unsteady,
  wrongDirections,
  wrongImporters,
} from './architecture-rules.ts'

/** Folder to what it may import: a folder, or one file of it. */
const DIRECTIONS: Readonly<Record<string, readonly string[]>> = {
  units: [],
  findings: [],
  'kept-or-made': [],
  'made-with': [],
  numerics: [],
  geometry: [],
  diagnostics: [],
  chemistry: ['numerics', 'findings'],
  batch: ['numerics', 'findings'],
  // what fats, alkali and acids become is one number with that of the recipe
  labelling: ['chemistry', 'numerics', 'findings', 'units/civil-day.ts'],
  cure: ['numerics', 'findings', 'units/civil-day.ts'],
  // how far loaded wires trail sets grooves and gaps, and what a peg holds is one number
  fixtures: ['geometry', 'findings', 'wires'],
  wires: ['numerics', 'findings'],
  'sheet-stock': ['numerics', 'findings'],
  // what is counted: features of parts, cuts of a layout
  quote: ['geometry', 'sheet-stock'],
  router: ['geometry'],
  dxf: ['router'],
  tolerance: ['numerics', 'findings'],
  // whole coins are shared out of exact fractions
  supply: ['numerics', 'findings', 'units/civil-day.ts', 'units/rational.ts'],
  revisions: [],
  solids: ['geometry', 'fixtures', 'findings'],
  // what it is asked and what it answers
  solver: ['supply/programme.ts', 'kept-or-made'],
  drawing: ['geometry', 'fixtures', 'router'],
  text: ['units'],
  // of chemistry only the names that a file may use
  // of revisions only what data of files look like
  schema: [
    'units',
    'diagnostics',
    'kept-or-made',
    'revisions/input-changes.ts',
    'text/glyphs.ts',
    'text/catalogue.ts',
    'text/locale.ts',
    'chemistry/fatty-acids.ts',
  ],
  // what a new folder is made of
  starter: ['schema', 'units', 'diagnostics'],
  // of units days, and what finds the name that was meant
  binder: [
    ...CALCULATORS,
    'findings',
    'kept-or-made',
    'diagnostics',
    'schema',
    'units/civil-day.ts',
    'units/spelling.ts',
  ],
  // of geometry only how a part names its features and where its copies stand; of units only what finds the name that was meant, and days
  sheets: [
    'binder',
    'drawing',
    'text',
    'schema',
    'findings',
    'kept-or-made',
    'made-with',
    'diagnostics',
    'geometry/part.ts',
    'geometry/placement.ts',
    // of cure only how a calendar file is written
    'cure/icalendar.ts',
    'units/spelling.ts',
    'units/civil-day.ts',
    // of money only how many decimals a currency has
    'units/money.ts',
    // of router only which cutter fits a file, and how a second file is called
    'router/router-file.ts',
  ],
  // of print only what a job looks like
  site: ['labelling/paper-code.ts', 'sheets', 'schema', 'kept-or-made', 'print/job.ts', 'print/fonts.ts'],
  // what is read on a sheet is what the reader of its words makes of them; of labelling only how codes are checked
  papers: [
    'sheets',
    'schema',
    'diagnostics',
    'kept-or-made',
    'revisions',
    'site/markdown.ts',
    'labelling/paper-code.ts',
    'units/spelling.ts',
  ],
  // of sheets what they are, and their words as plain text
  'what-if': ['papers', 'revisions', 'sheets', 'schema', 'diagnostics', 'units/spelling.ts'],
  print: ['launch/browser-folder.mjs'],
  output: ['launch/lock.mjs', 'launch/plain-error.mjs', 'launch/process-identity.mjs'],
  launch: [],
  // what the engine is given: a shape, and no code
  process: [],
  soap: ['process', 'schema', 'binder', 'solids', 'solver', 'sheets', 'dxf', 'kept-or-made'],
  // knows of no binder: it watches, serves and tells what it is handed
  preview: [],
  commands: [
    'preview',
    'labelling/paper-code.ts',
    'units/spelling.ts',
    'units/civil-day.ts',
    'starter',
    'process',
    'soap',
    'binder',
    'schema',
    'revisions',
    'sheets',
    'papers',
    'what-if',
    'site',
    'text',
    'print',
    'output',
    'diagnostics',
    'kept-or-made',
    'made-with',
  ],
}

/** What results look like may be named further down the line than what makes them. */
const TYPE_DIRECTIONS: Readonly<Record<string, readonly string[]>> = {
  sheets: [...CALCULATORS, 'solids'],
  binder: ['solids'],
  process: ['diagnostics', 'schema', 'sheets'],
  // what a saw plan looks like
  drawing: ['sheet-stock'],
}

/** Outside libraries by the files that may import them. A library that is not named here is not allowed anywhere. */
const IMPORTERS: Readonly<Record<string, readonly RegExp[]>> = {
  'js-yaml': [/^schema\/yaml\.ts$/],
  zod: [/^schema\//],
  'temporal-polyfill': [/^schema\/fields\.ts$/],
  'fastest-levenshtein': [/^schema\//, /^units\/spelling\.ts$/],
  'fraction.js': [/^units\//],
  picocolors: [/^diagnostics\.ts$/],
  uqr: [/^site\/qr\.ts$/],
  '@11ty/eleventy': [/^site\/build-pages\.ts$/],
  'markdown-it': [/^site\/markdown\.ts$/],
  'markdown-it-container': [/^site\/markdown\.ts$/, /^site\/markdown-it-container\.d\.ts$/],
  '@cantoo/pdf-lib': [/^print\//],
  'pdfjs-dist': [/^print\//],
  '@tarikjabiri/dxf': [/^dxf\/dxf-text\.ts$/],
  esbuild: [/^site\/scripts\.ts$/],
  minisearch: [/^site\/search-index\.ts$/, /^site\/browser\/search\.ts$/],
  highs: [/^solver\/solver\.ts$/],
  'manifold-3d': [/^solids\/solids\.ts$/],
  puppeteer: [/^print\/libraries\.ts$/],
  tsx: [/^launch\/main\.mjs$/, /^commands\/preview-process\.mjs$/],
  chokidar: [/^preview\/watch\.ts$/],
  '@sparticuz/chromium': [/^launch\/unpack\.mjs$/],
  'node:fs': [
    /^schema\/read-(folder|catalogue)\.ts$/,
    /^starter\/read-starter\.ts$/,
    /^made-with\/made-with\.ts$/,
    /^schema\/help\/help-pages\.ts$/,
    /^(print|output|launch|commands|site)\//,
  ],
  'node:fs/promises': [
    /^schema\/read-folder\.ts$/,
    /^(print|output|launch|commands|site)\//,
    /^preview\/folder-stamp\.ts$/,
  ],
  'node:crypto': [/^papers\/shown-sheet\.ts$/, /^launch\//, /^preview\/server\.ts$/],
  'node:child_process': [/^(print|launch)\//, /^preview\/child-maker\.ts$/],
  'node:http': [/^preview\/server\.ts$/],
  'node:https': [],
  'node:net': [],
}

/** Types of a library may be named beside the file that loads it: they are gone when the program runs. */
const TYPES = [/^print\//, /^site\//]

/** Scripts of the site run in a reader's browser, which has neither Node nor the rest of the program. */
const BROWSER = /^site\/browser\//
const BROWSER_LIBRARIES: readonly string[] = ['minisearch']
/** What reads a code on a paper is one piece for the terminal and for the look-up page. */
const ALSO_IN_BROWSER: readonly string[] = ['labelling/paper-code.ts']
const wrongInBrowser = (all: readonly Import[]): string[] =>
  all
    .filter(({ from }) => BROWSER.test(from))
    .filter(
      ({ outside, to, typeOnly }) =>
        !typeOnly &&
        !(outside ? BROWSER_LIBRARIES.includes(to) : BROWSER.test(to) || ALSO_IN_BROWSER.includes(to)),
    )
    .map(({ from, to }) => `${from} imports ${to}`)

/** Where the engine begins: what is asked of a folder, of whatever work it is, and the sheets that any work may have. */
const ENGINE: readonly string[] = [
  'process.ts',
  'schema/read-files.ts',
  'schema/read-folder.ts',
  'schema/settings.ts',
  'schema/look-up.ts',
  'schema/listed.ts',
  'sheets/card-sheet.ts',
  'sheets/contents-sheet.ts',
  'sheets/own-page-sheet.ts',
  'sheets/printed/printed-sheet.ts',
  'sheets/source-sheet.ts',
  'sheets/stop-sheet.ts',
  'commands/compose.ts',
  'commands/write-binder.ts',
]
/** The one place at which it is handed soap. */
const HANDED = 'soap.ts'
const files = sourceFiles()
const imports = files.flatMap(importsOf)
const none: readonly string[] = []

describe('by hand: the program keeps its rules', () => {
  it('has a rule for every folder', () => {
    const folders = [...new Set(files.map(({ path }) => folderOf(path)))]
    expect(folders.filter((folder) => !Object.hasOwn(DIRECTIONS, folder) && folder !== 'launch')).toEqual(
      none,
    )
    expect(files.length).toBeGreaterThan(100)
    expect(imports.length).toBeGreaterThan(300)
  })

  it('imports in the allowed directions only', () => {
    expect(wrongDirections(imports, DIRECTIONS, TYPE_DIRECTIONS)).toEqual(none)
  })

  it('keeps each outside library behind its file', () => {
    expect(wrongImporters(imports, IMPORTERS, TYPES)).toEqual(none)
  })

  it('has an engine that knows nothing of soap', () => {
    const ways = reached(imports, ENGINE, HANDED)
    expect(ways.size).toBeGreaterThan(80)
    expect(ENGINE.filter((file) => !files.some(({ path }) => path === file))).toEqual(none)
    expect(soapAmong(ways)).toEqual(none)
  })

  it('writes JSON Schemas by one piece', () => {
    const writing = files.filter(({ text }) => text.includes('toJSONSchema')).map(({ path }) => path)
    expect(writing).toEqual(['schema/help/described.ts'])
  })

  it('has no rings of folders', () => {
    expect(folderRings(imports)).toEqual(none)
  })

  it('imports nothing that is not there', () => {
    const known = new Set(files.map(({ path }) => path))
    const missing = imports.filter(({ outside, to }) => !outside && !known.has(to))
    expect(missing.map(({ from, to }) => `${from} imports ${to}`)).toEqual(none)
  })

  it('computes, composes and words without clock, chance, environment or the language of the machine', () => {
    const steady = [
      ...CALCULATORS,
      'units',
      'text',
      'schema',
      'binder',
      'drawing',
      'sheets',
      'findings',
      'site',
      'dxf',
      'papers',
      'starter',
    ]
    // a phone's own clock is what its scripts are for
    expect(
      unsteady(
        files.filter(({ path }) => !BROWSER.test(path)),
        steady,
      ),
    ).toEqual(none)
  })

  it('sends nothing of Node or of the rest of the program to a browser', () => {
    expect(imports.some(({ from }) => BROWSER.test(from))).toBe(true)
    expect(wrongInBrowser(imports)).toEqual(none)
  })

  it('has calculators that import nothing from outside at all', () => {
    const outside = imports.filter(
      ({ from, outside: out }) =>
        out && [...CALCULATORS, 'drawing', 'binder', 'findings'].includes(folderOf(from)),
    )
    expect(outside.map(({ from, to }) => `${from} imports ${to}`)).toEqual(none)
  })
})

describe('by hand: the rules notice what they are for', () => {
  const read = (path: string, text: string): Import[] => importsOf({ path, text })

  it('reads every way of importing', () => {
    const text = [
      "import { a } from '../x/a.ts'",
      "import type { B } from '../x/b.ts'",
      'import {\n  c,\n  type D,\n} from "../x/c.ts"',
      "export * from '../x/d.ts'",
      "import '../x/e.ts'",
      "const f = await import('../x/f.ts')",
      "const g = require('puppeteer')",
      "type H = typeof import('@scope/name/deep')",
      "// import { no } from '../x/no.ts'",
      "/* import '../x/never.ts' */",
      "const text = 'the lye from the pail'",
    ].join('\n')
    const found = read('here/file.ts', text)
    expect(found.map(({ to }) => to).sort()).toEqual(
      ['@scope/name', 'puppeteer', 'x/a.ts', 'x/b.ts', 'x/c.ts', 'x/d.ts', 'x/e.ts', 'x/f.ts'].sort(),
    )
    expect(found.filter(({ typeOnly }) => typeOnly).map(({ to }) => to)).toEqual(['x/b.ts', '@scope/name'])
  })

  it.each([
    ['chemistry/a.ts', '../sheets/model.ts'],
    ['geometry/a.ts', '../findings.ts'],
    ['print/a.ts', '../schema/shop.ts'],
    ['schema/a.ts', '../chemistry/alkali.ts'],
    ['sheets/a.ts', '../chemistry/alkali.ts'],
    ['site/a.ts', '../print/print-binder.ts'],
    ['launch/a.mjs', '../schema/load.ts'],
    ['units/a.ts', '../diagnostics.ts'],
    ['batch/a.ts', '../chemistry/alkali.ts'],
  ])('%s may not import %s', (path, to) => {
    expect(
      wrongDirections(read(path, `import { a } from '${to}'`), DIRECTIONS, TYPE_DIRECTIONS),
    ).toHaveLength(1)
  })

  it.each(["import { a } from 'node:fs'", "import { a } from '../markdown.ts'", "import { z } from 'zod'"])(
    'a script of the site may not say %s',
    (text) => {
      expect(wrongInBrowser(read('site/browser/a.page.ts', text))).toHaveLength(1)
      expect(wrongInBrowser(read('site/browser/a.page.ts', "import { a } from './words.ts'"))).toEqual(none)
    },
  )

  it('lets a folder import itself and what its line names', () => {
    const fine = [
      ...read('chemistry/a.ts', "import { b } from './b.ts'\nimport { f } from '../findings.ts'"),
      ...read('schema/a.ts', "import { b } from '../chemistry/fatty-acids.ts'"),
      ...read('units.ts', "import { b } from './units/parse.ts'"),
    ]
    expect(wrongDirections(fine, DIRECTIONS)).toEqual(none)
  })

  it('lets sheets name the types of the calculators, and nobody before them', () => {
    const type = "import type { A } from '../chemistry/alkali.ts'"
    expect(wrongDirections(read('sheets/a.ts', type), DIRECTIONS, TYPE_DIRECTIONS)).toEqual(none)
    expect(wrongDirections(read('schema/a.ts', type), DIRECTIONS, TYPE_DIRECTIONS)).toHaveLength(1)
    expect(wrongDirections(read('print/a.ts', type), DIRECTIONS, TYPE_DIRECTIONS)).toHaveLength(1)
  })

  it.each([
    ['schema/load.ts', "import { load } from 'js-yaml'"],
    ['sheets/a.ts', "import MarkdownIt from 'markdown-it'"],
    ['site/configure.ts', "import Eleventy from '@11ty/eleventy'"],
    ['print/browser-page.ts', "import puppeteer from 'puppeteer'"],
    ['print/browser-page.ts', "const p = await import('puppeteer')"],
    ['binder/a.ts', "import { z } from 'zod'"],
    ['site/a.ts', "import { PDFDocument } from '@cantoo/pdf-lib'"],
    ['chemistry/a.ts', "import { readFileSync } from 'node:fs'"],
    ['text/a.ts', "import { readFileSync } from 'node:fs'"],
    ['site/a.ts', "import { get } from 'node:https'"],
    ['commands/a.ts', "import whatever from 'a-package-nobody-knows'"],
  ])('%s may not say %s', (path, text) => {
    expect(wrongImporters(read(path, text), IMPORTERS, TYPES)).toHaveLength(1)
  })

  it('finds rings of any length, and no ring where two ways meet', () => {
    const edge = (from: string, to: string): Import => ({
      from: `${from}/x.ts`,
      to: `${to}/x.ts`,
      outside: false,
      typeOnly: false,
    })
    expect(folderRings([edge('a', 'b'), edge('b', 'c'), edge('c', 'a')])).toEqual(['a → b → c → a'])
    expect(folderRings([edge('a', 'b'), edge('a', 'c'), edge('b', 'd'), edge('c', 'd')])).toEqual(none)
  })

  it.each([
    'const t = Date.now()',
    'const t = new Date()',
    'const r = Math.random()',
    'const e = process.env.HOME',
    'new Intl.NumberFormat()',
    'n.toLocaleString()',
    "a.localeCompare('b')",
  ])('sees that a result depends on the machine: %s', (text) => {
    expect(unsteady([{ path: 'chemistry/a.ts', text }], ['chemistry'])).toHaveLength(1)
    expect(unsteady([{ path: 'chemistry/a.ts', text: `// ${text}` }], ['chemistry'])).toEqual(none)
    expect(unsteady([{ path: 'launch/a.ts', text }], ['chemistry'])).toEqual(none)
  })
})
