/** The demo printed in Spanish: it passes the gates of paper, is legible, keeps its walls to a page, and says nothing in English. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/build.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import type { BinderData } from '../../src/sheets/binder-data.ts'
import type { StructureRead } from '../print/kitchen-sink/read-back.ts'
import { describeLegible, type Read } from '../print/legible.ts'
import { composeEdited, editedDemo, WHOLE_DEMO } from '../sites/edited-demo.ts'
import { hasClass, readHtml, textOf } from '../sites/html.ts'
import { strangers } from '../text/strangers.ts'
import { builtBinder } from './built-binder.ts'
import { type Ran, runCommand } from './run-command.ts'

const base = mkdtempSync(join(tmpdir(), 'spanish-test-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))

const SPANISH = { 'shop.yaml': [['language: en', 'language: es']] } as const

let ran: Ran
let data: BinderData
let files: Map<string, Buffer>
let structure: StructureRead
let printed: Read

beforeAll(async () => {
  const { folder, remove } = editedDemo(SPANISH, WHOLE_DEMO)
  try {
    ran = await runCommand(run, [folder, '--out', join(base, 'out')], base)
  } finally {
    remove()
  }
  expect(ran.code, ran.err).toBe(0)
  const built = await builtBinder(join(base, 'out'))
  ;({ files, data, structure } = built)
  printed = built.printed((await composeEdited(WHOLE_DEMO)).sheets)
})

describeLegible(() => printed)

describe('by hand: a Spanish binder', () => {
  it('says so to whoever reads it aloud', () => {
    const page = String(files.get('index.html'))
    expect(page).toContain('<html lang="es">')
    expect(structure.pageCount).toBeGreaterThan(300)
  })

  it('keeps to one page what hangs on a wall', () => {
    const walls = data.sheets.filter(({ id }) =>
      /^(card|calendar)\/|^cautions\/(emergency|lifting|wire|saw)$|^records\//.test(id),
    )
    expect(walls.length).toBeGreaterThan(30)
    expect(walls.filter(({ pages }) => pages !== 1).map(({ id }) => id)).toEqual([])
  })

  it('has no English on any page, a maker’s words among them', () => {
    // labels have a language of their own, and what is on paper in English is quoted in English
    const pages = [...files].filter(
      ([name]) => name.endsWith('.html') && !/labels?-|sources|printed|look-up/.test(name),
    )
    // works are named by their own titles
    const texts = pages.map(([, bytes]) =>
      textOf(readHtml(String(bytes)), (element) => hasClass(element, 'sheet-sources')),
    )
    // a shop, a supplier and the key of a board, which are called the same in every language
    const names = ['Corner', 'Wrapping', 'polypropylene']
    const found = strangers(texts, readCatalogue('en'), readCatalogue('es'))
    expect(found.filter((word) => !names.includes(word))).toEqual([])
    const all = texts.join('\n')
    for (const word of ['Hearth bar', 'Olive oil', 'plywood', 'pilot loaf']) expect(all).not.toContain(word)
    for (const word of ['Pastilla del hogar', 'Aceite de oliva']) expect(all).toContain(word)
  })
})
