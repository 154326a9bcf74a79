/** Folders of older formats: what the upgrade mends, what it asks for, and that their numbers stay what they were. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { FORMAT } from '../../src/schema/format.ts'
import { loadContent } from '../../src/schema/load.ts'
import { asFolderFiles, type FolderFile } from '../../src/schema/read-folder.ts'
import { upgradeFiles } from '../../src/schema/upgrade/upgrade.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { bindAndCompose, contentOf } from '../sites/small-binder.ts'

const folder = (format: number): Map<string, string> => {
  const root = fileURLToPath(new URL(`./${format}/`, import.meta.url))
  return new Map(
    readdirSync(root, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name.endsWith('.yaml'))
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [relative(root, path).replaceAll('\\', '/'), readFileSync(path, 'utf8')] as const),
  )
}

const asFiles = (files: ReadonlyMap<string, string>): FolderFile[] => asFolderFiles(files, 'shop')

const change = (files: Map<string, string>, file: string, from: string, to: string): void => {
  const text = files.get(file) ?? ''
  if (!text.includes(from)) throw new Error(`${file} has no "${from}"`)
  files.set(file, text.replace(from, to))
}

/** What the maker adds when the upgrade has asked for it: the two sheets, and which one fills the grooves. */
const answered = (): Map<string, string> => {
  const files = folder(1)
  files.set('materials/all.yaml', folder(2).get('materials/all.yaml') ?? '')
  change(files, 'fixtures/small.yaml', 'groove-depth: 9 mm', 'groove-depth: 9 mm, groove-strips: strip')
  return files
}

const upgraded = (files: ReadonlyMap<string, string>): Map<string, string> =>
  new Map([...files, ...upgradeFiles(asFiles(files)).files])

const shownOf = (sheets: readonly Sheet[]): string[] =>
  sheets.flatMap(({ id, values, stopped = [] }) => [
    ...stopped.map(({ code }) => `${id} stopped: ${code}`),
    ...[...values].map(([name, { shown }]) => `${id} ${name}: ${shown}`),
  ])

describe('by hand: from format 1 to 2', () => {
  it('asks for what only the maker knows, each with its place, and says what it mends', () => {
    const { unknown, told, notes } = upgradeFiles(asFiles(folder(1)))
    expect(unknown.map(({ code, file, path }) => `${code} ${file} ${path}`)).toEqual([
      'lining-unnamed shop/fixtures/small.yaml /lining',
      'strips-unnamed shop/fixtures/small.yaml /base',
    ])
    expect(told).toHaveLength(1)
    expect(told[0]).toMatch(/^shop\/fixtures\/small\.yaml:10 {2}groove-depths: 9 mm for the short/)
    expect(notes.map((one) => one.split(' ')[0])).toEqual([
      'shop/fixtures/small.yaml:10',
      'shop/recipes/plain.yaml:9',
    ])
  })

  it('does the rest by itself and leaves remarks, order and layout alone', () => {
    const before = answered()
    const { unknown, files } = upgradeFiles(asFiles(before))
    expect(unknown).toEqual([])
    const fixture = files.get('fixtures/small.yaml') ?? ''
    expect(fixture.split('\n')).toEqual(
      [
        '# yaml-language-server: $schema=../help/fixture.schema.json',
        ...(before.get('fixtures/small.yaml') ?? '').split('\n'),
      ].map((line) =>
        line
          .replace('lining: 1 mm ', 'lining: sheet ')
          .replace('groove-depth: 9 mm', 'groove-depths: { short-wires: 9 mm, long-wires: 9 mm }'),
      ),
    )
    expect(files.get('shop.yaml')?.split('\n').slice(0, 4)).toEqual([
      '# yaml-language-server: $schema=help/shop.schema.json',
      expect.stringMatching(/^format: 2 +# /),
      '',
      'name: Alder Yard',
    ])
  })

  it('changes nothing the second time', () => {
    const once = upgraded(answered())
    expect(upgradeFiles(asFiles(once)).files.size).toBe(0)
  })

  it('gives the numbers of the same folder written by hand', () => {
    const files = upgraded(answered())
    // what the sheet of the mould asks for: short wires lead now
    change(files, 'fixtures/small.yaml', 'short-wires: 9 mm', 'short-wires: 12 mm')
    const [own, twin] = [files, folder(2)].map((one) => shownOf(bindAndCompose(contentOf(one)).sheets))
    expect(own?.length).toBeGreaterThan(200)
    expect(own).toEqual(twin)
  })

  it('keeps line ends and the mark of an editor before the first letter', () => {
    const files = answered()
    for (const [below, text] of files) files.set(below, `\ufeff${text.replaceAll('\n', '\r\n')}`)
    const { files: changed } = upgradeFiles(asFiles(files))
    for (const [below, text] of changed) {
      expect(text.startsWith('\ufeff#'), below).toBe(true)
      expect(/[^\r]\n/.test(text), below).toBe(false)
    }
    expect(loadContent(asFiles(new Map([...files, ...changed])), 'shop').diagnostics).toEqual([])
  })

  it('makes remarks of what follows from other things now, and asks for its hand where that cannot be', () => {
    const files = folder(2)
    files.set('shop.yaml', (files.get('shop.yaml') ?? '').replace('format: 2\n', ''))
    const cutter = [
      'grid-cutter:',
      '  panels: { side: birch, end: birch, shelf: birch }',
      '  wire: 0.5 mm',
      '  lag:            # measured in May',
      '    short-wires: 4 mm',
      '    long-wires: 6 mm',
      'bar-cutter: { wire: 0.4 mm, pull: 40 N }',
      '',
    ]
    files.set('fixtures/small.yaml', `${files.get('fixtures/small.yaml')}${cutter.join('\n')}`)
    const { files: changed, unknown } = upgradeFiles(asFiles(files))
    expect(changed.get('fixtures/small.yaml')).toContain(
      [
        '  wire: 0.5 mm',
        '  # no longer asked for, it follows from tension, soap and rails:',
        '  # lag:            # measured in May',
        '    # short-wires: 4 mm',
        '    # long-wires: 6 mm',
        'bar-cutter: {',
      ].join('\n'),
    )
    expect(unknown.map(({ code, path }) => `${code} ${path}`)).toEqual(['no-longer-read /bar-cutter/pull'])
  })

  it('has a frozen folder for every format', () => {
    const formats = Array.from({ length: FORMAT }, (_, index) => folder(index + 1).size)
    expect(formats.every((size) => size > 0)).toBe(true)
    expect(loadContent(asFiles(folder(FORMAT)), 'shop').diagnostics).toEqual([])
  })
})

describe('recorded: what the program of commit 5f964e1 printed of the folder of format 1', () => {
  it('is printed of it today', () => {
    const files = upgraded(answered())
    change(files, 'fixtures/small.yaml', 'short-wires: 9 mm', 'short-wires: 12 mm')
    const { sheets } = bindAndCompose(contentOf(files))
    const plain = (text: string | undefined): string => (text ?? '').replace(/\s/g, ' ')
    const shown = (id: string, name: string): string =>
      plain(sheets.find((sheet) => sheet.id === id)?.values.get(name)?.shown)
    const recipe = { 'fats.demand': '149.7', 'naoh.perFats': '142.1', 'lye.waterToLye': '2.33 : 1' }
    for (const [name, was] of Object.entries(recipe)) expect(shown('recipe/plain', name), name).toBe(was)
    const batch = {
      'fat.olive.mass': '2 065 g',
      'fat.coconut.mass': '885 g',
      'water.mass': '587 g',
      'ice.mass': '391 g',
      'naoh.mass': '419 g',
      'batter.mass': '4 347 g',
    }
    for (const [name, was] of Object.entries(batch))
      expect(shown('batch/2027-02-01-plain', name), name).toBe(was)
  })
})
