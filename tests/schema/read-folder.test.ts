import { chmodSync, cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { renderDiagnostics } from '../../src/diagnostics.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'folder-'))
  cpSync(base, folder, { recursive: true })
})
afterEach(() => {
  chmodSync(folder, 0o700)
  rmSync(folder, { recursive: true, force: true })
})

const codes = async (): Promise<string[]> => {
  const { diagnostics } = await readFolder(folder, 'binder', FILE_KINDS)
  return diagnostics.map(({ code, file }) => `${code} ${file}`)
}

describe('by hand: what a folder may hold', () => {
  test('the files that are read, by path, and nothing of the rest', async () => {
    mkdirSync(join(folder, 'output'))
    writeFileSync(join(folder, 'output', 'shop.yaml'), 'not read')
    writeFileSync(join(folder, '.hidden.yaml'), 'not read')
    writeFileSync(join(folder, 'README.md'), 'not read')
    mkdirSync(join(folder, 'help'))
    writeFileSync(join(folder, 'help', 'shop.schema.json'), 'not read')
    const { files, diagnostics } = await readFolder(folder, 'binder', FILE_KINDS)
    expect(diagnostics).toEqual([])
    expect(files.map(({ below }) => below)).toEqual([
      'batches/2027-02-01-plain.yaml',
      'fixtures/small.yaml',
      'materials/all.yaml',
      'recipes/plain.yaml',
      'shop.yaml',
      'sources.yaml',
    ])
  })

  test('a link out of the folder is refused, a link inside it is read', async () => {
    symlinkSync('/etc/hostname', join(folder, 'recipes', 'out.yaml'))
    symlinkSync(join(folder, 'recipes', 'plain.yaml'), join(folder, 'recipes', 'again.yaml'))
    expect(await codes()).toEqual(['link-leads-out binder/recipes/out.yaml'])
    const { files } = await readFolder(folder, 'binder', FILE_KINDS)
    expect(files.map(({ below }) => below)).toContain('recipes/again.yaml')
  })

  test('a folder that leads out is refused as a whole', async () => {
    rmSync(join(folder, 'recipes'), { recursive: true })
    symlinkSync('/etc', join(folder, 'recipes'))
    expect(await codes()).toEqual(['link-leads-out binder/recipes'])
  })

  test('a link to nothing, a folder for a file, a file for a folder', async () => {
    symlinkSync(join(folder, 'gone.yaml'), join(folder, 'recipes', 'gone.yaml'))
    mkdirSync(join(folder, 'recipes', 'deep.yaml'))
    rmSync(join(folder, 'batches'), { recursive: true })
    writeFileSync(join(folder, 'batches'), 'a file')
    expect(await codes()).toEqual([
      'not-a-folder binder/batches',
      'not-a-file binder/recipes/deep.yaml',
      'cannot-read binder/recipes/gone.yaml',
    ])
  })

  test('what is refused is told once: nothing that it may have named is missed on top', async () => {
    rmSync(join(folder, 'shop.yaml'))
    mkdirSync(join(folder, 'shop.yaml'))
    rmSync(join(folder, 'materials'), { recursive: true })
    symlinkSync('/etc', join(folder, 'materials'))
    rmSync(join(folder, 'recipes', 'plain.yaml'))
    symlinkSync('/etc/hostname', join(folder, 'recipes', 'plain.yaml'))
    rmSync(join(folder, 'fixtures'), { recursive: true })
    writeFileSync(join(folder, 'fixtures'), 'a file')
    writeFileSync(join(folder, 'sources.yaml'), `# ${'x'.repeat(1_000_001)}\n`)
    const { files, diagnostics } = await readFolder(folder, 'binder', FILE_KINDS)
    const all = [...diagnostics, ...loadContent(files, 'binder').diagnostics]
    expect(all.map(({ code, file }) => `${code} ${file}`).sort()).toEqual([
      'file-too-large binder/sources.yaml',
      'link-leads-out binder/materials',
      'link-leads-out binder/recipes/plain.yaml',
      'not-a-file binder/shop.yaml',
      'not-a-folder binder/fixtures',
    ])
  })

  test('names that no file should have', async () => {
    const names = [
      '\u001b[31mred',
      'two\nlines',
      '__proto__',
      'constructor',
      '\u202Eback',
      '%2e%2e',
      'ä',
      'con.fig',
    ]
    for (const name of names) {
      writeFileSync(join(folder, 'recipes', `${name}.yaml`), 'title: odd\n')
      writeFileSync(join(folder, name), '')
    }
    writeFileSync(Buffer.from(`${folder}/recipes/\xff.yaml`, 'latin1'), '')
    const { files, diagnostics } = await readFolder(folder, 'binder', FILE_KINDS)
    const loaded = loadContent(files, 'binder')
    expect(diagnostics.map(({ code }) => code).sort()).toEqual([
      'cannot-read',
      ...names.map(() => 'file-not-read'),
    ])
    // "constructor" is a word like any other, so what is wrong with that recipe is that nothing stands in it
    const named = loaded.diagnostics.filter(({ code }) => code === 'file-name')
    expect(named.length).toBe(names.length - 1)
    const text = renderDiagnostics([...diagnostics, ...loaded.diagnostics], loaded.documents, {
      colour: false,
    })
    for (const raw of ['\u001b', '\u202e', 'two\nlines']) expect(text).not.toContain(raw)
  })

  test('a name far from every known one gets no guess, a near one does', async () => {
    mkdirSync(join(folder, 'photographs'))
    writeFileSync(join(folder, 'Sources.yml'), '')
    const { diagnostics } = await readFolder(folder, 'binder', FILE_KINDS)
    expect(diagnostics.map(({ file, advice }) => `${file} ${advice.replace(/Read are.*/, '')}`)).toEqual([
      'binder/Sources.yml Did you mean "sources.yaml"? ',
      'binder/photographs ',
    ])
  })

  test('a file of more than a megabyte', async () => {
    writeFileSync(join(folder, 'recipes', 'long.yaml'), `title: long\n# ${'x'.repeat(1_000_001)}\n`)
    expect(await codes()).toEqual(['file-too-large binder/recipes/long.yaml'])
  })

  test('more files than any shop has', async () => {
    mkdirSync(join(folder, 'pages'))
    for (let index = 0; index < 5001; index += 1)
      writeFileSync(join(folder, 'pages', `${index}.md`), '', { flag: 'w' })
    expect(await codes()).toEqual(['too-many-files binder/pages'])
  })
})
