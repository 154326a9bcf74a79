import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { type Loaded, loadContent } from '../../src/schema/load.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { binderSheets } from '../../src/sheets/binder-sheets.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import { frameOf } from '../../src/sheets/frame.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { showIn } from '../../src/sheets/shown.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
const files = new Map(
  readdirSync(base, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => [relative(base, path).replaceAll('\\', '/'), readFileSync(path, 'utf8')] as const),
)
const english = readCatalogue('en')

const load = (file: string, text: string): Loaded =>
  loadContent(
    [...files].map(([below, kept]) => ({
      file: below,
      below,
      bytes: new TextEncoder().encode(below === file ? text : kept),
    })),
    'binder',
  )

const sheetsOf = (content: NonNullable<Loaded['content']>): readonly Sheet[] => {
  const show = showIn({ length: 'mm', denominator: 16, temperature: 'C' })
  const frame = frameOf(english, show, 'Alder Yard', '2027-01-04', new Map())
  return binderSheets(frame, bind(content).binder, { projection: 'first-angle', textOf: inlineWords }).sheets
}

interface Written {
  readonly label: string
  /** the file with another number in the place of this one */
  readonly put: (other: string) => string
  readonly unit: string
}

/** A value that begins with a digit, where YAML has one. */
const NUMBER = /(?<=(?:[:[,]|^ *-) +|\[)-?\d[\d.]*(?: [^\s,}\]]+)?(?= *(?:[,}\]]|$))/gm

const numbersOf = (file: string): Written[] => {
  const text = files.get(file) ?? ''
  return [...text.matchAll(NUMBER)].map(({ 0: typed, index }) => ({
    label: `${file}, line ${text.slice(0, index).split('\n').length}, ${typed}`,
    put: (other) => text.slice(0, index) + other + text.slice(index + typed.length),
    unit: typed.replace(/^-?[\d.]+/, ''),
  }))
}

/** The least and the greatest that a file may hold in this place, as the program says when it refuses more. */
const limitsOf = (file: string, { put, unit }: Written): Set<string> =>
  new Set(
    [`999999999${unit}`, `-999999999${unit}`].flatMap((absurd) =>
      load(file, put(absurd)).diagnostics.flatMap(
        ({ advice }) => /^Allowed from (.+) up to (.+)\.$/.exec(advice)?.slice(1) ?? [],
      ),
    ),
  )

describe('by hand: each number of a shop and its materials at its least and at its greatest', () => {
  test.each([
    ['shop.yaml', 40],
    ['materials/all.yaml', 18],
  ])(
    '%s',
    (file, least) => {
      let tried = 0
      for (const written of numbersOf(file))
        for (const limit of limitsOf(file, written)) {
          const { content } = load(file, written.put(limit))
          if (!content) continue // refused together with its neighbour, such as a range from more to less
          tried += 1
          const label = `${written.label} as ${limit}`
          for (const sheet of sheetsOf(content))
            for (const { name, value, shown } of sheet.values.values()) {
              expect(shown, `${label}: ${name}`).not.toMatch(/NaN|Infinity|undefined|null|\de[+-]?\d/)
              if (typeof value === 'number') expect(Number.isFinite(value), `${label}: ${name}`).toBe(true)
            }
        }
      // the test is worth nothing where it finds no numbers
      expect(tried).toBeGreaterThanOrEqual(least)
    },
    90_000,
  )
})
