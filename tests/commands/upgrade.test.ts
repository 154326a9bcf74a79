/** `upgrade` as somebody types it: what it says, what it changes, and what it leaves alone. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeEach, describe, expect, it } from 'vitest'
import { helpRemark } from '../../src/commands/help-folder.ts'
import { run } from '../../src/commands/upgrade.ts'
import { helpFiles } from '../../src/schema/help/help-files.ts'
import { bytesBelow, type Ran, runCommand } from './run-command.ts'

const old = fileURLToPath(new URL('../formats/1/', import.meta.url))
const present = fileURLToPath(new URL('../formats/2/', import.meta.url))
const base = mkdtempSync(join(tmpdir(), 'upgrade-test-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))
let here = ''
let number = 0
beforeEach(() => {
  number += 1
  here = join(base, String(number))
  mkdirSync(here)
  cpSync(old, join(here, 'shop'), { recursive: true })
})

const upgrade = (...args: readonly string[]): Promise<Ran> => runCommand(run, [...args], here)
const texts = (folder: string): Record<string, string> =>
  Object.fromEntries(
    [...bytesBelow(join(here, folder))].map(([name, bytes]) => [name, bytes.toString('utf8')]),
  )

/** What the first run asks for. */
const answer = (): void => {
  cpSync(join(present, 'materials'), join(here, 'shop', 'materials'), { recursive: true })
  const path = join(here, 'shop/fixtures/small.yaml')
  const text = readFileSync(path, 'utf8')
  writeFileSync(path, text.replace('groove-depth: 9 mm', 'groove-depth: 9 mm, groove-strips: strip'))
}

describe('by hand: npm run upgrade', () => {
  it('asks for what only the maker knows, with the line, and changes nothing', async () => {
    const before = texts('shop')
    const ran = await upgrade('shop')
    expect(ran.code).toBe(1)
    expect(ran.err).toContain('shop/fixtures/small.yaml:5:9  error  lining-unnamed')
    expect(ran.err).toContain('Write the name of the sheet that you line the mould with')
    expect(ran.out).toContain('Nothing was changed. Put this right, then start again.')
    expect(texts('shop')).toEqual(before)
    expect(readdirSync(here)).toEqual(['shop'])
  })

  it('says only what it would do when asked to', async () => {
    answer()
    const before = texts('shop')
    const ran = await upgrade('shop', '--dry-run')
    expect(ran).toMatchObject({ code: 0, err: '' })
    expect(ran.out).toContain('small.yaml:5  lining: sheet')
    expect(ran.out).toContain('Nothing was changed.')
    expect(texts('shop')).toEqual(before)
    expect(readdirSync(here)).toEqual(['shop'])
  })

  it('changes the folder, keeps it as it was beside it, and leaves what it does not know', async () => {
    answer()
    mkdirSync(join(here, 'shop/output'))
    writeFileSync(join(here, 'shop/output/binder.pdf'), 'printed')
    const before = texts('shop')
    const ran = await upgrade('shop')
    expect(ran).toMatchObject({ code: 0, err: '' })
    expect(ran.out).toContain('As it was it is kept in shop-before-format-2.')
    expect(texts('shop-before-format-2')).toEqual(before)
    const after = texts('shop')
    for (const name of ['notes/mine.txt', 'output/binder.pdf']) expect(after[name]).toBe(before[name])
    expect(after['shop.yaml']).toMatch(/^# yaml-language-server.*\nformat: 2 /)
    for (const [name, text] of helpFiles()) expect(after[`help/${name}`]).toBe(text)
    expect(readdirSync(here).sort()).toEqual(['shop', 'shop-before-format-2'])
    // no path and no name of this machine
    for (const [name, text] of Object.entries(after)) expect(text.includes(here), name).toBe(false)

    const again = await upgrade('shop')
    expect(again.out).toBe('shop is up to date: format 2.\n')
    expect(texts('shop')).toEqual(after)
  })

  it('only writes the pages of help anew where all else is up to date, and a check says that they are old', async () => {
    cpSync(present, join(here, 'new'), { recursive: true })
    mkdirSync(join(here, 'new/help'))
    writeFileSync(join(here, 'new/help/shop.md'), 'of an older version')
    expect(helpRemark(join(here, 'new'), 'new')).toContain('npm run upgrade -- new')
    const before = texts('new')
    expect((await upgrade('new', '--dry-run')).out).toContain('would be written anew')
    expect(texts('new')).toEqual(before)
    expect((await upgrade('new')).out).toContain('are written anew')
    expect(helpRemark(join(here, 'new'), 'new')).toBeUndefined()
    expect(texts('new')['shop.yaml']).toBe(before['shop.yaml'])
    expect(readdirSync(here).sort()).toEqual(['new', 'shop'])
  })

  it('leaves a folder of a newer version, and one with mistakes, as it is', async () => {
    const shop = join(here, 'shop/shop.yaml')
    const text = readFileSync(shop, 'utf8')
    writeFileSync(shop, `format: 9\n${text}`)
    expect((await upgrade('shop')).err).toContain('format-too-new')
    answer()
    writeFileSync(shop, text.replace('language: en', 'langauge: en'))
    const before = texts('shop')
    const ran = await upgrade('shop')
    expect(ran.code).toBe(1)
    expect(ran.err).toContain('Did you mean "language"?')
    expect(texts('shop')).toEqual(before)
  })

  it('says what is missing', async () => {
    expect((await upgrade()).err).toContain('Name the folder')
    expect((await upgrade('none')).err).toContain('There is no folder none')
    mkdirSync(join(here, 'empty'))
    expect((await upgrade('empty')).err).toContain('There is no shop.yaml in empty')
  })
})
