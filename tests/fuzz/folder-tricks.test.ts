/** What a folder can be besides files with text in them: nothing outside it is read, nothing waits, and what is not read is told. */
import { execFileSync } from 'node:child_process'
import { cpSync, linkSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, statSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs' // biome-ignore format: a list reads better in rows
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { compose } from '../../src/commands/compose.ts'
import { hasErrors, renderDiagnostics } from '../../src/diagnostics.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { readFolder, readKept } from '../../src/schema/read-folder.ts'
import { STEERS } from './run-one.ts'

const small = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
/** Stands in files outside of the folder, and nowhere else. */
const OUTSIDE = 'outside-of-the-shop'
const RECIPE = 'recipes/plain.yaml'

let base: string
let shop: string
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'folder-tricks-'))
  shop = join(base, 'shop')
  cpSync(small, shop, { recursive: true })
  mkdirSync(join(base, 'shop-beside', 'deeper'), { recursive: true })
  for (const name of ['plain.yaml', 'shop.yaml', 'plain.md', 'deeper/plain.yaml'])
    writeFileSync(join(base, 'shop-beside', name), `title: ${OUTSIDE}\n`)
})
afterEach(() => rmSync(base, { recursive: true, force: true }))

const outside = (name: string): string => join(base, 'shop-beside', name)
const inside = (name: string): string => join(shop, name)
const put = (name: string, text: string | Buffer = 'title: x\n'): void => writeFileSync(inside(name), text)
const instead = (name: string, make: (path: string) => void): void => {
  rmSync(inside(name), { recursive: true, force: true })
  make(inside(name))
}

/** By what somebody did to the folder, the code that is told; nothing where it is a sound binder. */
const TRICKS: Readonly<Record<string, readonly [does: () => void, code: string | undefined]>> = {
  'a link to a file outside': [
    () => instead(RECIPE, (path) => symlinkSync(outside('plain.yaml'), path)),
    'link-leads-out',
  ],
  'a link to a file outside by a relative way': [
    () => instead(RECIPE, (path) => symlinkSync('../../shop-beside/plain.yaml', path)),
    'link-leads-out',
  ],
  'a link into a folder whose name begins like this one': [
    () => instead('shop.yaml', (path) => symlinkSync('../shop-beside/shop.yaml', path)),
    'link-leads-out',
  ],
  'a folder that is a link outside': [
    () => instead('recipes', (path) => symlinkSync(outside('.'), path)),
    'link-leads-out',
  ],
  'a folder of pages that is a link outside': [
    () => symlinkSync(outside('.'), inside('pages')),
    'link-leads-out',
  ],
  'a list of prints that is a link outside': [
    () => {
      mkdirSync(inside('records'))
      symlinkSync(outside('plain.yaml'), inside('records/printed.yaml'))
    },
    'link-leads-out',
  ],
  'a folder of records that is a link outside': [
    () => {
      writeFileSync(outside('printed.yaml'), `title: ${OUTSIDE}\n`)
      symlinkSync(outside('.'), inside('records'))
    },
    'link-leads-out',
  ],
  'a link by way of a link': [
    () => {
      symlinkSync(outside('.'), inside('.way'))
      instead(RECIPE, (path) => symlinkSync('../.way/plain.yaml', path))
    },
    'link-leads-out',
  ],
  'a link to itself': [() => instead(RECIPE, (path) => symlinkSync('plain.yaml', path)), 'cannot-read'],
  'two links in a ring': [
    () => {
      symlinkSync('ring-b.yaml', inside('recipes/ring-a.yaml'))
      symlinkSync('ring-a.yaml', inside('recipes/ring-b.yaml'))
    },
    'cannot-read',
  ],
  'a link to nothing': [() => symlinkSync('nowhere.yaml', inside('recipes/gone.yaml')), 'cannot-read'],
  'a link to the folder itself': [() => instead('recipes', (path) => symlinkSync('.', path)), undefined],
  'a link to a device': [() => symlinkSync('/dev/zero', inside('recipes/zero.yaml')), 'link-leads-out'],
  'a link to what the system tells': [
    () => symlinkSync('/proc/self/environ', inside('recipes/env.yaml')),
    'link-leads-out',
  ],
  'a link from file to file within': [
    () => symlinkSync('plain.yaml', inside('recipes/again.yaml')),
    undefined,
  ],
  'the same file by a second name': [() => linkSync(inside(RECIPE), inside('recipes/again.yaml')), undefined],
  'a pipe that nobody writes to': [
    () => instead(RECIPE, (path) => execFileSync('mkfifo', [path])),
    'not-a-file',
  ],
  'a pipe for the shop': [() => instead('shop.yaml', (path) => execFileSync('mkfifo', [path])), 'not-a-file'],
  'a folder where the shop’s file is looked for': [
    () => instead('shop.yaml', (path) => mkdirSync(path)),
    'not-a-file',
  ],
  'a folder with the name of a recipe': [() => mkdirSync(inside('recipes/deep.yaml')), 'not-a-file'],
  'a file where a folder is looked for': [
    () => instead('batches', (path) => writeFileSync(path, 'x')),
    'not-a-folder',
  ],
  'a file of records': [() => put('records', 'x'), undefined],
  'a folder in a folder': [() => mkdirSync(inside('recipes/older')), undefined],
  'no shop at all': [() => rmSync(inside('shop.yaml')), 'file-missing'],
  'an empty file': [() => put(RECIPE, ''), 'file-empty'],
  'a file that is larger than a book': [() => truncateSync(inside(RECIPE), 1_000_001), 'file-too-large'],
  'a file of noughts': [() => put(RECIPE, Buffer.alloc(10_000)), undefined],
  'a name with a way up in it': [() => put('recipes/..x.yaml'), undefined],
  'a name that is one dot more than an ending': [() => put('recipes/..yaml'), undefined],
  'a name that some systems keep for a device': [
    () => renameSync(inside(RECIPE), inside('recipes/con.yaml')),
    undefined,
  ],
  'a name of two lines': [() => put('recipes/a\nb.yaml'), 'file-name'],
  'a name that steers a terminal': [() => put('recipes/\u001b[31mred\u0007.yaml'), 'file-name'],
  'a name that turns the way of reading': [() => put('recipes/\u202elmay.yaml'), 'file-name'],
  'a name with markup': [() => put('recipes/<b>{{ 7*7 }}.yaml'), 'file-name'],
  'a name that every object has': [() => put('recipes/__proto__.yaml'), 'file-name'],
  'a name that every object has, of small letters': [() => put('recipes/constructor.yaml'), undefined],
  'a name with a way in it, as another system writes it': [
    () => put('recipes/x\\..\\..\\y.yaml'),
    'file-name',
  ],
  'a name as long as a name can be': [() => put(`recipes/${'x'.repeat(250)}.yaml`), undefined],
  'a name of no letters at all': [() => put('recipes/\u0301.yaml'), 'file-name'],
  'names that differ by capitals': [() => put('recipes/Plain.yaml'), 'file-name'],
  'names that differ by how an accent is written': [
    () => {
      put('recipes/caf\u00e9.yaml')
      put('recipes/cafe\u0301.yaml')
    },
    'file-name',
  ],
  'a name that is no UTF-8': [
    () =>
      writeFileSync(
        Buffer.concat([Buffer.from(`${shop}/recipes/`), Buffer.from([0xff, 0xfe]), Buffer.from('.yaml')]),
        'x',
      ),
    undefined,
  ],
  'more files than a shop has': [
    () => {
      mkdirSync(inside('pages'))
      for (let index = 0; index < 5001; index += 1) put(`pages/p${index}.md`, '# P\n')
    },
    'too-many-files',
  ],
  'a folder that is named like a link on a page': [() => mkdirSync(inside('javascript:alert(1)')), undefined],
}

/** Names, kinds and sizes of all that is in the folder. */
const listing = (): string[] =>
  readdirSync(base, { recursive: true, withFileTypes: true }).map((entry) => {
    const path = join(entry.parentPath, entry.name)
    const about = entry.isFile() ? statSync(path, { throwIfNoEntry: false }) : undefined
    return `${path} ${about?.size} ${about?.mtimeMs}`
  })

describe('by hand: what is in a folder besides text', () => {
  it.each(Object.keys(TRICKS))('%s', { timeout: 30_000 }, async (name) => {
    const [does, code] = TRICKS[name] as (typeof TRICKS)[string]
    does()
    const before = listing()
    const read = await readFolder(shop, 'shop', FILE_KINDS)
    for (const { bytes } of read.files) expect(Buffer.from(bytes).includes(OUTSIDE)).toBe(false)
    const { diagnostics, documents, binder } = await compose(shop, 'shop')
    const told = renderDiagnostics(diagnostics, documents, { colour: false })
    expect(told).not.toMatch(STEERS)
    expect(told).not.toContain(OUTSIDE)
    expect(hasErrors(diagnostics), told).toBe(binder === undefined)
    if (code !== undefined)
      expect(
        diagnostics.map((one) => one.code),
        told,
      ).toContain(code)
    expect(listing()).toEqual(before)
  })

  it('a socket for a recipe', async () => {
    const server = createServer()
    await new Promise<void>((ready) => server.listen(inside('recipes/talks.yaml'), ready))
    try {
      const { diagnostics } = await readFolder(shop, 'shop', FILE_KINDS)
      expect(diagnostics.map(({ code }) => code)).toEqual(['not-a-file'])
    } finally {
      server.close()
    }
  })

  it.each<[what: string, place: string, does: (path: string) => void]>([
    ['a link to a paper outside', 'plain-1.yaml', (path) => symlinkSync(outside('plain.yaml'), path)],
    ['a link to a paper within', 'plain-1.yaml', (path) => symlinkSync(inside('shop.yaml'), path)],
    ['a pipe for a paper', 'plain-1.yaml', (path) => execFileSync('mkfifo', [path])],
    ['a device for a paper', 'plain-1.yaml', (path) => symlinkSync('/dev/zero', path)],
    ['a folder for a paper', 'plain-1.yaml', (path) => mkdirSync(path)],
    [
      'a paper that is larger than a book',
      'plain-1.yaml',
      (path) => writeFileSync(path, Buffer.alloc(1_000_001)),
    ],
    ['a name with a way up in it', '../../../shop-beside/plain.yaml', () => {}],
    ['a name from the top of the disk', '/../../../../../../../../../etc/hostname', () => {}],
  ])('%s, of those that were printed', async (what, place, does) => {
    mkdirSync(inside('records/as-printed'), { recursive: true })
    does(join(inside('records/as-printed'), place))
    const files = await readKept(shop, 'shop', [place])
    expect(files.length).toBe(what.endsWith('within') ? 1 : 0)
  })

  it('finds what is outside when it is copied in, so that these trials can fail', async () => {
    put('recipes/plain.yaml', readFileSync(outside('plain.yaml')))
    const { files } = await readFolder(shop, 'shop', FILE_KINDS)
    expect(files.some(({ bytes }) => Buffer.from(bytes).includes(OUTSIDE))).toBe(true)
  })
})
