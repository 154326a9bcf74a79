import { describe, expect, test } from 'vitest'
import type { Loaded } from '../../src/schema/load.ts'
import { bindAndCompose, loadFiles, smallBinderFiles } from '../sites/small-binder.ts'

const files = smallBinderFiles()

const load = (file: string, text: string): Loaded => loadFiles(new Map(files).set(file, text))

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
          for (const sheet of bindAndCompose(content).sheets)
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
