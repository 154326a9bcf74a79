/** Every source that a formula or a sheet names has a title in the bibliography or in the demo's own list. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { load } from 'js-yaml'
import { describe, expect, it } from 'vitest'
import { readBibliography } from '../../src/schema/read-catalogue.ts'
import { sourceFiles } from '../architecture-rules.ts'
import { demo } from '../sites/edited-demo.ts'

const bibliography = readBibliography()
const own = load(readFileSync(join(demo, 'sources.yaml'), 'utf8')) as { sources: Record<string, unknown> }
const known = new Set([
  ...bibliography.keys(),
  ...Object.keys(own.sources),
  'common practice',
  'common-practice',
])

/** Named in docstrings, without a title yet; two of them are other spellings of keys that have one. */
const UNTITLED: readonly string[] = []

/** Keys after `@source` in docstrings. */
const inDocstrings = (path: string, text: string): { readonly path: string; readonly key: string }[] =>
  [...text.matchAll(/@source ([^\n]*)/g)].flatMap((match) =>
    (match[1] ?? '')
      .replace(/\*\/.*$/, '')
      .split(',')
      .map((key) => ({ path, key: key.trim() })),
  )

/** Keys that a sheet lists at its foot. */
const onSheets = (path: string, text: string): { readonly path: string; readonly key: string }[] =>
  [...text.matchAll(/\bpickSources\([^[]*\[([\s\S]*?)\]\)/g)].flatMap((match) =>
    [...(match[1] ?? '').matchAll(/'([^']+)'/g)].map((one) => ({ path, key: one[1] ?? '' })),
  )

describe('by hand: sources', () => {
  const files = sourceFiles()

  it('that formulas name are in the list', () => {
    const named = files.flatMap(({ path, text }) => inDocstrings(path, text))
    expect(named.length).toBeGreaterThan(100)
    expect(named.filter(({ key }) => !known.has(key) && !UNTITLED.includes(key))).toEqual([])
  })

  it('that sheets name are in the list', () => {
    const named = files.flatMap(({ path, text }) => onSheets(path, text))
    expect(named.length).toBeGreaterThan(12)
    expect(named.filter(({ key }) => !known.has(key))).toEqual([])
  })

  it('have a title and say how they are known', () => {
    for (const [key, { title, evidence }] of bibliography) {
      expect(title.trim(), key).not.toBe('')
      expect(['read', 'recalled', 'computed', 'common-practice'], key).toContain(evidence)
    }
  })

  it('would be missed when they are not there', () => {
    expect(inDocstrings('a.ts', '/** x\n * @source nobody-wrote-this, common practice\n */')).toEqual([
      { path: 'a.ts', key: 'nobody-wrote-this' },
      { path: 'a.ts', key: 'common practice' },
    ])
    expect(onSheets('a.ts', "pickSources(frame.sources, ['one', 'two'])").map(({ key }) => key)).toEqual([
      'one',
      'two',
    ])
  })
})
