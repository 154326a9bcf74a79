/** Every language has what English has, key by key, and no words of English left in it by accident. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import {
  FIRST_LANGUAGE,
  languagesIn,
  readCatalogue,
  readLanguage,
  TEXT_FOLDER,
} from '../../src/schema/read-catalogue.ts'
import { placeholders } from '../../src/sheets/compose.ts'
import { unprintable } from '../../src/text/glyphs.ts'
import { isWordless, SAME_IN_BOTH } from './same-words.ts'

const english = readCatalogue(FIRST_LANGUAGE)
const others = languagesIn().filter((language) => language !== FIRST_LANGUAGE)
const scratch = mkdtempSync(join(tmpdir(), 'languages-'))
afterAll(() => rmSync(scratch, { recursive: true, force: true }))

describe('by hand: languages', () => {
  it('are more than one', () => {
    expect(others).toContain('es')
    expect(english.sheets.length).toBeGreaterThan(40)
  })
})

describe.each(others)('by hand: %s beside English', (language) => {
  const { diagnostics } = readLanguage(language)

  it('has every phrase, sheet and placeholder, and no others', () => {
    expect(diagnostics.map(({ file, message }) => `${file}: ${message}`)).toEqual([])
  })

  it('names in each text what English names, as often', () => {
    const own = readCatalogue(language)
    const sorted = (text: string): readonly string[] =>
      [...placeholders(text), ...(text.match(/\{[a-z]\}|\*\*/g) ?? [])].sort()
    for (const key of english.keys) expect(sorted(own.phrase(key)), key).toEqual(sorted(english.phrase(key)))
    for (const name of english.sheets)
      expect(sorted(own.template(name)), name).toEqual(sorted(english.template(name)))
  })

  it('can be printed', () => {
    const own = readCatalogue(language)
    const strange = [
      ...own.keys.map((key) => own.phrase(key)),
      ...english.sheets.map((name) => own.template(name)),
    ]
    expect(strange.flatMap(unprintable)).toEqual([])
  })

  it('says nothing as English says it, but what is listed', () => {
    const own = readCatalogue(language)
    const same = english.keys.filter(
      (key) => own.phrase(key) === english.phrase(key) && !isWordless(english.phrase(key)),
    )
    expect(same.filter((key) => !SAME_IN_BOTH.some(({ keys }) => keys.test(key)))).toEqual([])
    for (const { why, keys } of SAME_IN_BOTH)
      expect(
        same.some((key) => keys.test(key)),
        why,
      ).toBe(true)
    const lines = (text: string): readonly string[] => text.split('\n').filter((line) => !isWordless(line))
    const left = english.sheets.flatMap((name) => {
      const known = new Set(lines(english.template(name)))
      return lines(own.template(name)).filter((line) => known.has(line) && !line.startsWith(':::'))
    })
    expect(left).toEqual([])
  })
})

describe('by hand: a language that is broken', () => {
  const broken = (below: string, edit: (text: string) => string): string => {
    const text = mkdtempSync(join(scratch, 'text-'))
    cpSync(TEXT_FOLDER, text, { recursive: true, filter: (path) => !path.endsWith('.ts') })
    const file = join(text, 'es', below)
    writeFileSync(file, edit(readFileSync(file, 'utf8')))
    return text
  }

  it('is told with file and key, and is no catalogue', () => {
    const text = broken('phrases/frame.yaml', (frame) =>
      frame.replace(/^frame\.sheet:.*\n/m, '').replace('{x}', '{z}'),
    )
    const { catalogue, diagnostics } = readLanguage('es', [text])
    expect(catalogue).toBeUndefined()
    expect(diagnostics.map(({ code, path }) => [code, path])).toEqual([
      ['text-missing', ''],
      ['text-placeholder', '/frame.page-of'],
    ])
    expect(diagnostics[0]?.message).toContain('frame.sheet')
    expect(readLanguage('en', [text]).catalogue).toBeDefined()
  })

  it('may have a file that cannot be read, which lacks nothing on top of that', () => {
    const text = broken('phrases/frame.yaml', (frame) => `${frame}\nframe.sheet: "once more\n`)
    const { diagnostics } = readLanguage('es', [text])
    expect(new Set(diagnostics.map(({ file }) => file))).toEqual(new Set(['src/text/es/phrases/frame.yaml']))
    expect(diagnostics.map(({ code }) => code)).not.toContain('text-missing')
  })
})
