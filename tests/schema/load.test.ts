import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { loadContent } from '../../src/schema/load.ts'
import type { FolderFile } from '../../src/schema/read-folder.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
const files = (): Map<string, string> =>
  new Map(
    readdirSync(base, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [relative(base, path).replaceAll('\\', '/'), readFileSync(path, 'utf8')]),
  )

const load = (change: (all: Map<string, string>) => void) => {
  const all = files()
  change(all)
  const read = [...all].map(
    ([below, text]): FolderFile => ({
      file: `binder/${below}`,
      below,
      bytes: new TextEncoder().encode(text),
    }),
  )
  return loadContent(read, 'binder')
}
const edit = (below: string, from: string, to: string) => (all: Map<string, string>) => {
  const text = all.get(below) ?? ''
  expect(text).toContain(from)
  all.set(below, text.replace(from, to))
}
const told = (change: (all: Map<string, string>) => void): string[] =>
  load(change).diagnostics.map(({ code, file, path }) => `${code} ${file} ${path}`)

describe('by hand: a folder as a whole', () => {
  test('the small binder is read whole, in SI', () => {
    const { content, diagnostics } = load(() => {})
    expect(diagnostics).toEqual([])
    expect(content?.recipes.get('plain')?.value.fats).toEqual({ olive: 0.7, coconut: 0.3 })
    expect(content?.fixtures.get('small')?.value.lip).toBe(0.04) // 40 mm
    expect(content?.batches.get('2027-02-01-plain')?.value.lye?.['water-temperature']).toBeCloseTo(281.15, 9) // 8 °C
    expect(content?.certificates.size).toBe(0)
  })

  test('a folder without shop.yaml says so; one without sources is complete', () => {
    expect(told((all) => all.delete('shop.yaml'))).toEqual(['file-missing binder/shop.yaml '])
    const bare = load((all) => {
      all.delete('sources.yaml')
      all.delete('materials/all.yaml')
      all.delete('recipes/plain.yaml')
      all.delete('fixtures/small.yaml')
      all.delete('batches/2027-02-01-plain.yaml')
    })
    expect(bare.diagnostics).toEqual([])
    expect(bare.content?.batches.size).toBe(0)
  })

  test('a file that is no YAML is one mistake, not one for each name that it held', () => {
    expect(told((all) => all.set('sources.yaml', 'sources: ['))).toEqual([
      'bracket-not-closed binder/sources.yaml ',
    ])
    expect(told((all) => all.set('materials/all.yaml', '\tfats:'))).toEqual([
      'tab-indent binder/materials/all.yaml ',
    ])
  })

  test('a misspelt name is found in a file that has other mistakes', () => {
    const found = told((all) => {
      edit('recipes/plain.yaml', 'olive: 70 %', 'olvie: 70')(all)
      edit('batches/2027-02-01-plain.yaml', 'recipe: plain', 'recipe: plane')(all)
    })
    expect(found.sort()).toEqual([
      'unit-missing binder/recipes/plain.yaml /fats/olvie',
      'unknown-name binder/batches/2027-02-01-plain.yaml /recipe',
      'unknown-name binder/recipes/plain.yaml /fats/olvie',
    ])
  })

  test('shares of thirds count as a whole', () => {
    expect(
      told(edit('recipes/plain.yaml', 'olive: 70 %\n  coconut: 30 %', 'olive: 66.7 %\n  coconut: 33.3 %')),
    ).toEqual([])
    expect(told(edit('recipes/plain.yaml', 'coconut: 30 %', 'coconut: 30.1 %'))).toEqual([
      'shares-not-100 binder/recipes/plain.yaml /fats',
    ])
  })

  test('names of the language itself are refused and never looked up', () => {
    for (const name of ['__proto__', 'constructor', 'prototype', 'toString'])
      expect(told(edit('recipes/plain.yaml', 'olive: 70 %', `${name}: 70 %`)).length).toBeGreaterThan(0)
  })
})
