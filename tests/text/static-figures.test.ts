/** Sheets whose worth is their text say figures by their values, never by the letter: a changed shop changes them too. */
import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { METHODS } from '../../src/sheets/methods.ts'
import { sourceFiles } from '../architecture-rules.ts'
import { FIGURES_IN_PHRASES, FIGURES_IN_TEMPLATES, withoutPlaces } from './figures-in-text.ts'
import { reachedFrom } from './finding-codes.ts'

const words = readCatalogue('en')
const TEMPLATES = readdirSync(new URL('../../src/text/en/sheets/', import.meta.url)).map((name) =>
  name.replace(/\.md$/, ''),
)

const hasFigure = (text: string): boolean => /\d/.test(withoutPlaces(text))

describe('by hand: text without figures of its own', () => {
  it('in every phrase, but for kinds that are listed with their reasons', () => {
    const figured = words.keys.filter((key) => hasFigure(words.phrase(key)))
    expect(figured.filter((key) => !FIGURES_IN_PHRASES.some(({ keys }) => keys.test(key)))).toEqual([])
    // a line of the list that allows nothing is a line too many
    for (const { why, keys } of FIGURES_IN_PHRASES)
      expect(
        figured.some((key) => keys.test(key)),
        why,
      ).toBe(true)
  })

  it('in sheets that are all text, but for steps and sections by their numbers', () => {
    const written = words.keys.filter(
      (key) => /^(trouble|release|training|batch|block)\./.test(key) || /^cautions\.(?!aid\.)/.test(key),
    )
    expect(written.length).toBeGreaterThan(400)
    const NAMED = /\b(sections? \d( and \d)?|step \d|ISO 456|19 batches of 20)\b/gi
    expect(written.filter((key) => hasFigure(words.phrase(key).replace(NAMED, '')))).toEqual([])
  })

  it('in every line of a template, but for those that are listed', () => {
    const lines = TEMPLATES.flatMap((of) =>
      words
        .template(of)
        .split('\n')
        .filter(hasFigure)
        .map((line) => ({ of, line })),
    )
    const allowed = (one: { of: string; line: string }): boolean =>
      FIGURES_IN_TEMPLATES.some(({ of, line }) => of === one.of && line.test(one.line))
    expect(lines.filter((one) => !allowed(one))).toEqual([])
  })

  it('would be noticed', () => {
    expect(hasFigure('wait 5 minutes')).toBe(true)
    expect(hasFigure('wait [[a1]]')).toBe(false)
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
})
