/** `new` as somebody types it: what it asks, what it writes, and that it never writes over anything. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Asker } from '../../src/commands/ask.ts'
import { run as check } from '../../src/commands/check.ts'
import { run } from '../../src/commands/new.ts'
import { helpFiles } from '../../src/schema/help/help-files.ts'
import { fakeTerminal } from './fake-terminal.ts'
import { bytesBelow, type Ran, runCommand } from './run-command.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
const here = mkdtempSync(join(tmpdir(), 'new-test-'))
beforeAll(() => cpSync(base, join(here, 'shop'), { recursive: true }))
afterAll(() => rmSync(here, { recursive: true, force: true }))

const made = (args: readonly string[], asker: () => Asker | undefined = () => undefined): Promise<Ran> =>
  runCommand((typed, context) => run(typed, context, asker), [...args], here)
const below = (folder: string): string[] => [...bytesBelow(join(here, folder)).keys()]

describe('by hand: npm run new -- FOLDER', () => {
  it('asks eight questions, asks again what it cannot take, and writes a folder that checks clean', async () => {
    const terminal = fakeTerminal(
      'Cook’s "shed": 2',
      'fr',
      'es',
      '',
      'inches',
      'mm',
      '',
      '60 x 60 mm',
      '60 mm x 60 mm x 25 mm',
      '1x3x7',
      '3x2x6',
      '2027-13-01',
      '2027-03-14',
    )
    const ran = await made(['own'], terminal.asker)
    expect(ran.err).toBe('')
    expect(ran.code).toBe(0)
    expect(terminal.screen().match(/\?|:(?= \[)/g)?.length).toBeGreaterThan(8)
    for (const words of [
      'This program has no words in "fr"',
      '[A4]',
      '"inches" is not one of the words allowed here',
      'Three sizes belong here',
      '"1" is too few',
      'the calendar does not have',
    ])
      expect(terminal.screen()).toContain(words)
    const shop = readFileSync(join(here, 'own', 'shop.yaml'), 'utf8')
    expect(shop).toContain('name: "Cook’s \\"shed\\": 2"')
    expect(shop).toContain('language: es')
    expect(below('own')).toEqual(
      [
        'batches/2027-03-14-first-bar.yaml',
        'fixtures/first-block.yaml',
        ...[...helpFiles().keys()].map((name) => `help/${name}`),
        'materials/alkalis.yaml',
        'materials/fats.yaml',
        'materials/panels.yaml',
        'recipes/first-bar.yaml',
        'shop.yaml',
        'sources.yaml',
      ].sort(),
    )
    // no hidden rest beside it
    expect(readdirSync(here).sort()).toEqual(['own', 'shop'])
    const checked = await runCommand(check, ['own'], here)
    expect(checked).toMatchObject({ code: 0 })
    // what only its maker knows
    expect(checked.err).toBe(
      'to write: own/shop.yaml:38, 40  contacts: escriba aquí su número antes de la primera tanda\nto write: own/materials/alkalis.yaml:10  alkalis: escriba el lote del bidón\n',
    )
    expect(checked.out).toMatch(/^own: \d\d sheets, nothing wrong; held for a test: 4\.1 \(.*\)\.\n$/)
  }, 120_000)

  it('refuses what is there, and leaves it as it was', async () => {
    const before = bytesBelow(join(here, 'shop'))
    expect(await made(['shop', '--yes'])).toMatchObject({ code: 2, out: '' })
    expect(bytesBelow(join(here, 'shop'))).toEqual(before)
    writeFileSync(join(here, 'file'), 'x')
    const ran = await made(['file', '--yes'])
    expect(ran.err).toContain('is there already, and is no folder')
    rmSync(join(here, 'file'))
  })

  it('says what is missing, what it does not know, and what belongs to the program', async () => {
    expect((await made([])).err).toContain('Name the folder')
    expect((await made(['x'])).err).toContain('--yes')
    expect((await made(['x', 'soap'])).err).toContain('one of: recipe, batch, fixture')
    expect((await made(['x', '--yes', '--title', 'a'])).err).toContain('--title means nothing here')
    expect((await made(['x', '--yes', '--grid', '5x3'])).err).toContain('--grid: Three whole numbers')
    expect((await made(['x', '--yes', '--bar', '2 in x 2 in x 9 ft'])).err).toContain('--bar: "9 ft"')
    const own = fileURLToPath(new URL('../../content', import.meta.url))
    expect((await made([own, '--yes'])).err).toContain('belongs to the program itself')
    expect((await made(['no/where', '--yes'])).err).toContain('There is no folder')
    expect(readdirSync(here).includes('x')).toBe(false)
  })
})

describe('by hand: npm run new -- FOLDER recipe, batch or fixture', () => {
  it('adds one of each, which the folder then knows', async () => {
    const before = bytesBelow(join(here, 'shop'))
    const recipe = await made(['shop', 'recipe'], fakeTerminal('Ñandú bar', '').asker)
    expect(recipe.out).toContain('shop/recipes/nandu-bar.yaml is written')
    const text = readFileSync(join(here, 'shop/recipes/nandu-bar.yaml'), 'utf8')
    expect(text).toContain('  olive: 70 %\n  coconut: 30 %\n')
    expect(text).toContain('alkali: beads')
    const terminal = fakeTerminal('palin', 'nandu-bar', '', '2027-03-01', '')
    const batch = await made(['shop', 'batch'], terminal.asker)
    expect(terminal.screen()).toContain('There is no recipe "palin". Did you mean "plain"?')
    expect(batch.out).toContain('shop/batches/2027-03-01-nandu-bar.yaml is written')
    const after = bytesBelow(join(here, 'shop'))
    expect([...after.keys()].filter((name) => !before.has(name))).toEqual([
      'batches/2027-03-01-nandu-bar.yaml',
      'recipes/nandu-bar.yaml',
    ])
    for (const [name, bytes] of before) expect(after.get(name)?.equals(bytes), name).toBe(true)
  }, 60_000)

  it('writes over nothing', async () => {
    const ran = await made(['shop', 'recipe', '--yes', '--title', 'Plain', '--name', 'plain'])
    expect(ran).toMatchObject({ code: 2 })
    expect(ran.err).toContain('shop/recipes/plain.yaml is there already')
    expect(readFileSync(join(here, 'shop/recipes/plain.yaml'))).toEqual(
      readFileSync(join(base, 'recipes/plain.yaml')),
    )
  })

  it('says what a fixture lacks in this folder, and writes nothing', async () => {
    const ran = await made(['shop', 'fixture', '--yes', '--title', 'Large block'])
    expect(ran.code).toBe(2)
    // the small binder has other boards
    expect(ran.err).toContain('birch-18')
    expect(below('shop').some((name) => name.includes('large'))).toBe(false)
  })

  it('adds nothing to a folder with mistakes', async () => {
    mkdirSync(join(here, 'wrong'))
    writeFileSync(join(here, 'wrong/shop.yaml'), 'name: A\n')
    const ran = await made(['wrong', 'recipe', '--yes'])
    expect(ran.code).toBe(1)
    expect(ran.out).toContain('Nothing was written')
    expect(below('wrong')).toEqual(['shop.yaml'])
  })
})
