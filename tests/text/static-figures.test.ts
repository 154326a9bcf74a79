/** Sheets whose worth is their text say figures by their values, never by the letter: a changed shop changes them too. */
import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { METHODS } from '../../src/sheets/methods.ts'
import { sourceFiles } from '../architecture-rules.ts'
import { reachedFrom } from './finding-codes.ts'

const words = readCatalogue('en')
const WRITTEN =
  /^(trouble|release|training|records|spine|tabs|reference)\.|^cautions\.(spill|lifting|wire|saw|scent|storage)\./
const TEMPLATES = [
  'spill',
  'lifting',
  'wire',
  'saw',
  'scent',
  'trouble',
  'release',
  'training',
  'record',
  'spine',
  'tabs',
]

/** Numbers that name a thing: parts of the batch sheet, and a standard. */
const NAMES = /\b(sections? \d|step 1|ISO 456)\b/gi

const digitsIn = (text: string): string | undefined =>
  /\d/.exec(text.replace(/\[\[[^\]]+\]\]/g, '').replace(NAMES, ''))?.[0]

describe('by hand: text without figures of its own', () => {
  const keys = words.keys.filter((key) => WRITTEN.test(key))

  it('in every phrase of these sheets', () => {
    expect(keys.length).toBeGreaterThan(400)
    expect(keys.filter((key) => digitsIn(words.phrase(key)) !== undefined)).toEqual([])
  })

  it('in every template of theirs', () => {
    expect(TEMPLATES.filter((name) => digitsIn(words.template(name)) !== undefined)).toEqual([])
  })

  it('would be noticed', () => {
    expect(digitsIn('wait 5 minutes')).toBe('5')
    expect(digitsIn('section 4 of the batch sheet, step 1, [[a1]]')).toBeUndefined()
  })
})

describe('by hand: methods', () => {
  const files = sourceFiles()
  const asked = new Set([
    ...reachedFrom(files, 'binder').map(({ path }) => path),
    ...files.map(({ path }) => path).filter((path) => /^(solids|drawing|wires)\//.test(path)),
  ])

  it('name every source that a formula of the binder comes from', () => {
    const named = new Set(
      files
        .filter(({ path }) => asked.has(path))
        .flatMap(({ text }) =>
          [...text.matchAll(/@source ([^\n]*)/g)].flatMap((match) =>
            (match[1] ?? '')
              .replace(/\*\/.*$/, '')
              .split(',')
              .map((key) => key.trim()),
          ),
        ),
    )
    named.delete('common practice')
    const cited = new Set(Object.values(METHODS).flat())
    expect(named.size).toBeGreaterThan(40)
    expect([...named].filter((key) => !cited.has(key))).toEqual([])
  })

  it('say each how it is made', () => {
    for (const method of Object.keys(METHODS)) {
      expect(words.has(`method.${method}`), method).toBe(true)
      expect(words.has(`method.${method}.how`), method).toBe(true)
    }
    const known = words.keys.filter((key) => /^method\.[\w-]+$/.test(key)).map((key) => key.slice(7))
    expect(known.filter((key) => !Object.hasOwn(METHODS, key))).toEqual([])
  })

  it('has its templates on disk', () => {
    const files = readdirSync(new URL('../../src/text/en/sheets/', import.meta.url))
    for (const name of TEMPLATES) expect(files).toContain(`${name}.md`)
  })
})
