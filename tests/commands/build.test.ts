/**
 * A whole build, read back: files, numbers, paper, links. In the soak of all of the demo; each day of the demo without
 * its cutters and its papers, which takes half the time.
 */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join, posix } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/build.ts'
import { compose } from '../../src/commands/compose.ts'
import type { BinderData } from '../../src/sheets/binder-data.ts'
import { isSoak } from '../long.ts'
import { type PageRaster, readRaster, type StructureRead } from '../print/kitchen-sink/read-back.ts'
import { describeLegible, type Read } from '../print/legible.ts'
import { BATCH, demo, editedDemo, MOULD, WHOLE_DEMO, withoutCutters } from '../sites/edited-demo.ts'
import { elements, textOf } from '../sites/html.ts'
import { type BuiltBinder, builtBinder } from './built-binder.ts'
import { type Ran, runCommand } from './run-command.ts'

const base = mkdtempSync(join(tmpdir(), 'build-test-'))
const out = join(base, 'demo')
const { folder, remove } = isSoak
  ? { folder: demo, remove: () => {} }
  : editedDemo(withoutCutters({}), WHOLE_DEMO)
if (!isSoak) rmSync(join(folder, 'records'), { recursive: true })
afterAll(() => {
  remove()
  rmSync(base, { recursive: true, force: true })
})

const build = (args: string[]): Promise<Ran> => runCommand(run, args, base)
/** Text without its gaps: two readers of a PDF put them at different places. */
const close = (text: string): string => text.replace(/\s+/g, '').replaceAll('\u2044', '/')

let ran: Ran
let files: Map<string, Buffer>
let data: BinderData
let structure: StructureRead
let rasters: PageRaster[]
let printed: Read
let rootOf: BuiltBinder['rootOf']

beforeAll(async () => {
  ran = await build([...(isSoak ? [] : [folder]), '--out', 'demo'])
  const built = await builtBinder(out)
  ;({ files, data, structure, rootOf } = built)
  rasters = await readRaster(built.pdf)
  printed = built.printed((await compose(folder, 'shop')).binder?.sheets ?? [])
})

describeLegible(() => printed)

describe('by hand: what a build leaves', () => {
  it('ends with 0 and says where the binder is, and what it must not be used for', () => {
    expect(ran.code).toBe(0)
    expect(ran.out).toContain(`${out}: ${data.sheets.length} sheets, ${structure.pageCount} pages.`)
    const shown = isSoak ? 'content' : 'shop'
    const told = ran.err.split('\n').filter((line) => line !== '')
    expect(told.map((line) => line.split('  ').slice(0, 2))).toEqual([
      ...data.stopped.map(({ sheet, code }) => [`stopped: ${sheet}`, code]),
      ...data.conflicts.map(({ sheet, code }) => [`conflict: ${sheet}`, code]),
      [
        `to write: ${shown}/shop.yaml:38, 39, 42, 43`,
        'contacts: write your own number here before the first batch',
      ],
      [`to write: ${shown}/materials/alkalis.yaml:9, 15`, 'alkalis: write the lot from the drum'],
    ])
  })

  it('writes a site, a binder, its numbers, and no print document', () => {
    const names = [...files.keys()].filter((name) => !/^(assets\/fonts|dxf)\//.test(name))
    expect(names).toEqual(
      [
        '.kettle-and-kerf-output',
        ...['bench', 'codes', 'home', 'look-up', 'search', 'search-index', 'site', 'words'].map(
          (name) => `assets/${name}.js`,
        ),
        'assets/bench.css',
        'assets/licences.txt',
        'assets/screen.css',
        ...data.sheets.map(({ id }) => `assets/paper/${id.replaceAll('/', '-')}.css`),
        'binder.json',
        'binder.pdf',
        'cure.ics',
        'index.html',
        'look-up.html',
        ...data.sheets.map(({ id }) => `sheets/${id.replaceAll('/', '-')}.html`),
      ].sort(),
    )
  })

  it('writes the router files that their sheet lists, and no other', () => {
    const written = [...files.keys()].filter((name) => name.startsWith('dxf/'))
    const page = String(files.get('sheets/router-files.html'))
    const links = [...page.matchAll(/href="\.\.\/(dxf\/[^"]+)"/g)].map((match) => match[1] ?? '')
    expect([...new Set(links)].sort()).toEqual(written.sort())
    expect(written.length).toBeGreaterThan(isSoak ? 30 : 8)
  })

  it('has a sheet for every batch and every fixture, named by its file', () => {
    const named = (folder: string) =>
      readdirSync(join(demo, folder))
        .map((name) => name.replace(/\.yaml$/, ''))
        .sort()
    const ids = data.sheets.map(({ id }) => id)
    expect(ids.filter((id) => id.startsWith('batch/'))).toEqual(
      named('batches').map((name) => `batch/${name}`),
    )
    expect(ids.filter((id) => id.startsWith('fixture/'))).toEqual(
      named('fixtures').map((name) => `fixture/${name}`),
    )
    expect(ids).toEqual(
      expect.arrayContaining(['cover', 'contents', 'cautions/lye', 'sources', BATCH, MOULD]),
    )
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('has binder.json in its agreed shape', () => {
    expect(Object.keys(data)).toEqual(['format', 'browser', 'sheets', 'stopped', 'conflicts', 'papers'])
    expect(data.format).toBe(1)
    expect(data.browser).toMatch(/\d+\.\d+/)
    for (const one of [...data.stopped, ...data.conflicts]) {
      expect(Object.keys(one)).toEqual(['sheet', 'code', 'reason'])
      expect(data.sheets.map(({ id }) => id)).toContain(one.sheet)
    }
    for (const sheet of data.sheets) {
      expect(Object.keys(sheet)).toEqual(['id', 'kind', 'title', 'revision', 'firstPage', 'pages', 'values'])
      for (const [name, value] of Object.entries(sheet.values)) {
        expect(Object.keys(value), name).toEqual(['value', 'unit', 'shown'])
        const shape = SHAPES[value.unit]
        if (shape) expect(value.value, name).toMatch(shape)
        else {
          expect(
            [
              'kg',
              'kg/kg',
              'm',
              'm2',
              'm3',
              'K',
              's',
              'J',
              'W',
              'N',
              'N m',
              'N/m',
              'm/s',
              'kg/m3',
              'Hz',
              'cent',
              'USD',
              '1',
            ],
            name,
          ).toContain(value.unit)
          expect(value.value, name).toSatisfy(Number.isFinite)
        }
        expect(value.shown, name).not.toMatch(/NaN|undefined|Infinity|null/)
        expect(value.shown.trim(), name).not.toBe('')
      }
    }
  })

  it('carries no trace of the machine, the day or the place', () => {
    for (const [name, bytes] of files) {
      const text = bytes.toString('latin1')
      for (const trace of [tmpdir(), process.cwd(), 'node_modules', 'file://'])
        expect(text.includes(trace), `${trace} in ${name}`).toBe(false)
    }
  })
})

describe('by hand: the site', () => {
  const pages = () =>
    [...files.keys()].filter((name) => name.endsWith('.html')).map((name) => ({ name, root: rootOf(name) }))

  it('has links that lead to files, and to places in them', () => {
    let links = 0
    const broken: string[] = []
    const places = new Map(
      pages().map(({ name, root }) => [name, new Set(elements(root).map(({ attributes }) => attributes.id))]),
    )
    for (const { name, root } of pages())
      for (const { attributes } of elements(root))
        for (const attribute of ['href', 'src', 'data']) {
          const link = attributes[attribute]
          if (link === undefined) continue
          links += 1
          const [path = '', place] = link.split('#')
          const target = path === '' ? name : posix.join(dirname(name), path)
          const isThere = place === undefined || !target.endsWith('.html') || places.get(target)?.has(place)
          if (!files.has(target) || !isThere) broken.push(`${name}: ${link}`)
        }
    expect(broken).toEqual([])
    expect(links).toBeGreaterThan(25)
  })

  it('can be walked from its first page to every sheet', () => {
    const home = rootOf('index.html')
    const linked = elements(home).map(({ attributes }) => attributes.href ?? '')
    for (const name of files.keys()) if (name.startsWith('sheets/')) expect(linked).toContain(name)
    expect(linked).toContain('binder.pdf')
  })

  it('asks nothing of any network', () => {
    for (const [name, bytes] of files) {
      if (!/\.(html|css)$/.test(name)) continue
      // scripts lie beside the pages: that they are there is seen to where links are
      const text = String(bytes)
        .replaceAll('xmlns="http://www.w3.org/2000/svg"', '')
        .replace(/<script src="(?:\.\.\/)?assets\/[a-z-]+\.js" defer><\/script>/g, '')
      expect(text, name).not.toMatch(/<script|<iframe|<object|@import|(?:href|src)="(?:https?:)?\/\//i)
      for (const [, address = ''] of text.matchAll(/url\(\s*['"]?([^'")]+)/g))
        expect(files.has(posix.join(dirname(name), address)), `${name}: ${address}`).toBe(true)
    }
  })

  it('has a list for searching that is no burden to a phone, and lines in it of every sheet', () => {
    const list = files.get('assets/search-index.js') as Buffer
    expect(list.byteLength).toBeLessThan(600_000)
    for (const { title } of data.sheets) expect(String(list)).toContain(JSON.stringify(title).slice(1, -1))
  })

  it('has one main heading a page, and unique ids', () => {
    for (const { name, root } of pages()) {
      const all = elements(root)
      expect(
        all.filter(({ tag }) => tag === 'h1'),
        name,
      ).toHaveLength(1)
      const ids = all.flatMap(({ attributes }) => (attributes.id === undefined ? [] : [attributes.id]))
      expect(new Set(ids).size, name).toBe(ids.length)
    }
  })
})

const isLying = (page: PageRaster | undefined): boolean => page !== undefined && page.width > page.height

/** Values that are words, by their unit. */
const SHAPES: Readonly<Record<string, RegExp>> = {
  note: /^[A-G]#?\d$/,
  layer: /^[A-Z0-9_-]{1,31}$/,
  date: /^\d{4}-\d\d-\d\d$/,
  month: /^\d{4}-\d\d$/,
  time: /^\d\d:\d\d$/,
  moment: /^\d{4}-\d\d-\d\dT\d\d:\d\d$/,
  // of a paper: it is typed as it stands there, and is no number
  code: /^[2-9A-HJ-NP-Z]{4}-\d+-[2-9A-HJ-NP-Z]{4}$/,
  // what another paper says, on the page of papers: its sheet may have no such number any more
  quoted: /\d/,
}

/** Sheets with more columns than an upright page is wide for. */
const LYING = /^cure\/plan$|^calendar\/|^supply\/(stock|trace)$|^records\/(batches|lots|wires|accidents)$/

describe('by hand: the paper', () => {
  const pagesOf = (sheet: BinderData['sheets'][number]): number[] =>
    Array.from({ length: sheet.pages }, (_, index) => sheet.firstPage - 1 + index)

  /** Pages of labels have the sizes of their own grid, right to the edge. */
  const isLabels = (index: number): boolean =>
    data.sheets.some((sheet) => sheet.kind === 'label-page' && pagesOf(sheet).includes(index))

  it('has as many pages for both readers, all of one size, the wall pages lying', () => {
    expect(rasters).toHaveLength(structure.pageCount)
    for (const { width, height } of rasters) {
      expect(Math.min(width, height)).toBeCloseTo(612, 1) // pt, 8.5 in
      expect(Math.max(width, height)).toBeCloseTo(792, 1) // pt, 11 in
    }
    const lying = data.sheets.filter((sheet) => pagesOf(sheet).some((index) => isLying(rasters[index])))
    expect(lying.map(({ id }) => id)).toEqual(data.sheets.map(({ id }) => id).filter((id) => LYING.test(id)))
    expect(lying.length).toBeGreaterThan(1)
  })

  it('begins every sheet on a right-hand page, in order, without overlap', () => {
    let free = 1
    for (const { firstPage, pages, id } of data.sheets) {
      expect(firstPage % 2, id).toBe(1)
      expect(firstPage, id).toBeGreaterThanOrEqual(free)
      expect(firstPage - free, id).toBeLessThan(2)
      free = firstPage + pages
    }
    // the last page may be blank, so that the last leaf is whole
    expect([free - 1, free]).toContain(structure.pageCount)
  })

  it('leaves exactly the other pages blank', () => {
    const used = new Set(data.sheets.flatMap(pagesOf))
    const blank = rasters.flatMap((page, index) => (used.has(index) ? [] : [{ page, index }]))
    expect(blank.length).toBeGreaterThan(0)
    for (const { page, index } of blank) {
      expect(page.text.trim(), `page ${index + 1}`).toBe('')
      expect(page.inkIn(0, 0, 280, 280), `page ${index + 1}`).toBe(0)
      expect(structure.texts[index]?.join('').trim(), `page ${index + 1}`).toBe('')
    }
    for (const index of used)
      expect(rasters[index]?.inkIn(0, 0, 280, 280), `page ${index + 1}`).toBeGreaterThan(0)
  })

  it('keeps the binding margin white on every page', () => {
    // 22 mm on the left of right-hand pages and on the right of left-hand ones; a pixel for the edge
    for (const [index, page] of rasters.entries()) {
      const [near, far] = index % 2 === 0 ? [0, 22] : [215.9 - 22, 215.9]
      // a lying page has its top at the spine on the right-hand side, and its foot on the back of that leaf
      if (isLabels(index)) continue
      const ink = isLying(page)
        ? page.inkIn(0, near, 279.4, far - 0.4)
        : page.inkIn(near, 0, far - 0.4, 279.4)
      expect(ink, `page ${index + 1}`).toBe(0)
    }
  })

  it.each(['pdfjs', 'pdfium'])('shows title and number at the head of each sheet, by %s', (reader) => {
    for (const { id, title, firstPage } of data.sheets) {
      const text = textOfPage(firstPage - 1, reader)
      expect(text, id).toContain(close(title))
      // a page of labels has no head but its line in the margin
      expect(text, id).toContain(close(isLabels(firstPage - 1) ? numberOf(id) : `Sheet ${numberOf(id)}`))
    }
  })

  it.each(['pdfjs', 'pdfium'])('shows every value of binder.json on its sheet, by %s', (reader) => {
    for (const sheet of data.sheets) {
      const text = pagesOf(sheet)
        .map((index) => textOfPage(index, reader))
        .join('')
      // on the boards of each day pdfium reads sizes crosswise that stand upright beside each other; pdfjs reads them all
      const isAsked = (name: string): boolean =>
        isSoak || reader === 'pdfjs' || !/\bdrawing\.board\./.test(name)
      const missing = Object.entries(sheet.values).filter(
        ([name, { shown }]) => isAsked(name) && !text.includes(close(shown)),
      )
      expect(missing.map(([name, { shown }]) => `${sheet.id} ${name}: ${shown}`)).toEqual([])
    }
  })

  it('has each sheet in the outline at its page, its sections below it in rising order', () => {
    expect(structure.outline.map(({ title, page }) => [title, page])).toEqual(
      data.sheets.map(({ title, firstPage }) => [title, firstPage]),
    )
    for (const [index, { children }] of structure.outline.entries()) {
      const sheet = data.sheets[index] as BinderData['sheets'][number]
      const pages = children.map(({ page }) => page)
      expect(pages).toEqual([...pages].sort((a, b) => a - b))
      for (const page of pages) expect(pagesOf(sheet), `${sheet.id}, page ${page}`).toContain(page - 1)
    }
    expect(structure.outline.flatMap(({ children }) => children).length).toBeGreaterThan(15)
  })

  it('has right page numbers in its contents', () => {
    const contents = data.sheets.find(({ id }) => id === 'contents')
    const text = pagesOf(contents as BinderData['sheets'][number])
      .map((index) => textOfPage(index, 'pdfjs'))
      .join('')
    for (const { id, title, firstPage } of data.sheets.slice(2)) {
      const entries = ['', ' (stopped: not for use)', ' (its bars are held for a test)'].map((mark) =>
        close(`${numberOf(id)} ${title}${mark} ${firstPage}`),
      )
      expect(
        entries.some((entry) => text.includes(entry)),
        entries[0],
      ).toBe(true)
    }
  })

  it('says of what is printed for a use on which pages it stands', () => {
    const contents = data.sheets.find(({ id }) => id === 'contents') as BinderData['sheets'][number]
    const text = pagesOf(contents)
      .map((index) => textOfPage(index, 'pdfjs'))
      .join('')
    const pages = (from: string, to = from): string => {
      const [first, last] = [from, to].map((id) => data.sheets.find((one) => one.id === id))
      return `${first?.firstPage}-${(last?.firstPage ?? 0) + (last?.pages ?? 0) - 1}`
    }
    const key = '2027-03-14-hearth'
    expect(text).toContain(
      close(
        [
          pages(`batch/${key}`),
          pages(`card/weigh/${key}`, `card/wrap/${key}`),
          pages(`cure/${key}`),
          pages(`label/${key}`, `labels/${key}`),
          pages(`record/${key}`),
        ].join(', '),
      ),
    )
    // a single page has no range
    const { firstPage, pages: count } = data.sheets.find(({ id }) => id === 'printed') ?? {}
    expect(text).toContain(`outofdate12.7${count === 1 ? firstPage : `${firstPage}-`}`)
  })

  it('counts the pages of each sheet at their foot', () => {
    for (const sheet of data.sheets.filter(({ firstPage }) => !isLabels(firstPage - 1)))
      for (const [index, page] of pagesOf(sheet).entries())
        expect(textOfPage(page, 'pdfjs')).toContain(
          close(`Sheet ${numberOf(sheet.id)} · page ${index + 1} of ${sheet.pages}`),
        )
  })

  it('has links, each to the page where its sheet or its place stands', () => {
    const numbers = new Map(data.sheets.map((sheet) => [sheet.id.replaceAll('/', '-'), sheet]))
    expect(structure.links.length).toBeGreaterThan(300)
    for (const { page, to, toPage } of structure.links) {
      expect(toPage, `page ${page}: ${to}`).toBeDefined()
      const sheet = numbers.get(to)
      // what is no sheet of its own is an entry of one
      if (sheet) expect(toPage, `page ${page}: ${to}`).toBe(sheet.firstPage)
      else expect(data.sheets.some((one) => pagesOf(one).includes((toPage ?? 0) - 1))).toBe(true)
    }
    // the contents lead to every sheet but those before it
    const contents = data.sheets.find(({ id }) => id === 'contents') as BinderData['sheets'][number]
    const led = structure.links.filter(({ page }) => pagesOf(contents).includes(page - 1))
    expect(new Set(led.map(({ to }) => to)).size).toBe(data.sheets.length - 2)
  })

  it('says of every figure what it shows', () => {
    expect(structure.figures.length).toBeGreaterThan(isSoak ? 80 : 50)
    expect(structure.figures.filter(({ alt }) => (alt ?? '').trim().length < 10)).toEqual([])
  })

  it('is painted in black, white and grey alone: what a mono laser prints', () => {
    const grey = /^#(..)\1\1$|^TilingPattern$/
    expect([...structure.colours].filter((colour) => !grey.test(colour))).toEqual([])
    expect([...structure.colours]).toContain('#000000')
  })

  it('is tagged, titled, and in a language', () => {
    expect(structure.isTagged).toBe(true)
    expect(structure.info.Title).toBe('Withy Corner Soap Shed: shop binder')
    expect(structure.info.Language).toBe('en')
    expect([...structure.roles]).toEqual(expect.arrayContaining(['H1', 'H2', 'Table', 'TH', 'TD', 'L', 'LI']))
  })
})

const textOfPage = (index: number, reader: string): string =>
  close(reader === 'pdfjs' ? (structure.texts[index] ?? []).join('') : (rasters[index]?.text ?? ''))

/** The number in the title block of a sheet, from its page of the site. */
const numberOf = (id: string): string => {
  const known = numbers.get(id)
  if (known !== undefined) return known
  const root = rootOf(`sheets/${id.replaceAll('/', '-')}.html`)
  const found = elements(root).find(({ attributes }) => attributes.class === 'sheet-number')
  const number = found ? textOf(found) : ''
  numbers.set(id, number)
  return number
}
const numbers = new Map<string, string>()
