import { describe, expect, test } from 'vitest'
import { loadFiles, smallBinderFiles } from '../sites/small-binder.ts'

const load = (change: (all: Map<string, string>) => void) => {
  const all = smallBinderFiles()
  change(all)
  return loadFiles(all, 'binder')
}
const edit = (below: string, from: string, to: string) => (all: Map<string, string>) => {
  const text = all.get(below) ?? ''
  expect(text).toContain(from)
  all.set(below, text.replace(from, to))
}
const told = (change: (all: Map<string, string>) => void): string[] =>
  load(change).diagnostics.map(({ code, file, path }) => `${code} ${file} ${path}`)

const SHEA = `fats:
  shea-butter:
    names: [Shea butter]
    inci: { name: Butyrospermum Parkii Butter, source: ledger, evidence: read }
    kind: triglyceride
    saponification-value: { from: 170, to: 190, source: ledger, evidence: read }
    density: { from: 0.89, to: 0.92, at: 40 C, source: ledger, evidence: read }
`

describe('by hand: a folder as a whole', () => {
  test('the small binder is read whole, in SI', () => {
    const { content, diagnostics } = load(() => {})
    expect(diagnostics).toEqual([])
    expect(content?.recipes.get('plain')?.value.fats).toEqual({ olive: 0.7, coconut: 0.3 })
    expect(content?.fixtures.get('small')?.value.lip).toBe(0.04) // 40 mm
    expect(content?.batches.get('2027-02-01-plain')?.value.lye?.['water-temperature']).toBeCloseTo(281.15, 9) // 8 °C
    expect(content?.certificates.size).toBe(0)
  })

  test('shares that make 98 % are told beside a bare number in the same file; a share that is none is not summed', () => {
    const recipe = 'recipes/plain.yaml'
    const both = told((all) => {
      edit(recipe, 'olive: 70 %', 'olive: 68 %')(all)
      edit(recipe, 'superfat: 6 %', 'superfat: 6')(all)
    })
    expect(both).toContain(`shares-not-100 binder/${recipe} /fats`)
    expect(both).toHaveLength(2)
    const bare = told(edit(recipe, 'olive: 70 %', 'olive: 68'))
    expect(bare.filter((one) => one.startsWith('shares-not-100'))).toEqual([])
  })

  test('empty braces in the place of words are told, also where only labels show them', () => {
    const recipe = 'recipes/plain.yaml'
    expect(told(edit(recipe, 'where: loaf 1', 'where: {}'))).toEqual([
      `translation-missing binder/${recipe} /tried/where`,
    ])
    const label = load((all) => all.set(recipe, `${all.get(recipe)}\nlabel-words: [{}]\n`))
    expect(label.content).toBeUndefined()
    expect(label.diagnostics.map(({ code }) => code)).toContain('value-not-allowed')
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

  test('a line that has lost its place is one mistake, and other mistakes are still told', () => {
    const recipe = 'recipes/plain.yaml'
    expect(told(edit(recipe, 'superfat: 6 %', '---\nsuperfat: 6 %'))).toEqual([
      'second-document binder/recipes/plain.yaml ',
    ])
    expect(told(edit(recipe, 'superfat:', 'super\u00a0fat:'))).toEqual([
      'odd-space binder/recipes/plain.yaml ',
    ])
    expect(told(edit(recipe, 'superfat: 6 %', ': 6 %'))).toEqual(['name-missing binder/recipes/plain.yaml '])
    expect(
      told((all) => {
        edit(recipe, 'superfat:', 'super\u00a0fat:')(all)
        edit(recipe, 'lye-concentration: 30 %', 'lye-concentration: 30')(all)
      }),
    ).toEqual([
      'odd-space binder/recipes/plain.yaml ',
      'unit-missing binder/recipes/plain.yaml /lye-concentration',
    ])
  })

  test('a file that others cannot point to is one mistake', () => {
    expect(
      told((all) => {
        all.set('fixtures/Small Block.yaml', all.get('fixtures/small.yaml') ?? '')
        all.delete('fixtures/small.yaml')
      }),
    ).toEqual(['file-name binder/fixtures/Small Block.yaml '])
    expect(told((all) => all.set('pages/Our rules.md', '# Our rules\n'))).toEqual([
      'file-name binder/pages/Our rules.md ',
    ])
  })

  test.each([
    ['shea', 'shea-butter'],
    ['butter', 'shea-butter'],
    ['coco', 'coconut'],
    ['coconut-oil', 'coconut'],
    ['oliv', 'olive'],
    ['OLIVE', undefined], // no name at all, told as such
    ['sh', undefined],
    ['lard', undefined],
  ])('"%s" may have been meant to be %s', (typed, meant) => {
    const { diagnostics } = load((all) => {
      edit('materials/all.yaml', 'fats:\n', SHEA)(all)
      edit('recipes/plain.yaml', 'olive: 70 %', `${typed}: 70 %`)(all)
    })
    const unknown = diagnostics.find(({ code }) => code === 'unknown-name')
    expect(unknown?.advice.match(/^Did you mean "(.*)"\?$/)?.[1]).toBe(meant)
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

  test('names of the language itself are refused and never looked up, wherever a maker names things', () => {
    const places: [file: string, from: string, to: (name: string) => string][] = [
      ['recipes/plain.yaml', 'olive: 70 %', (name) => `${name}: 70 %`],
      ['recipes/plain.yaml', 'alkali: beads', (name) => `alkalis: { beads: 60 %, ${name}: 40 % }`],
      ['recipes/plain.yaml', 'superfat:', (name) => `additions: { ${name}: 2 % }\nsuperfat:`],
      ['recipes/plain.yaml', 'superfat:', (name) => `${name}: 2 %\nsuperfat:`],
      ['batches/2027-02-01-plain.yaml', 'fill: to the line', (name) => `on-hand: { ${name}: 1 kg }`],
      ['batches/2027-02-01-plain.yaml', 'recipe: plain', (name) => `recipe: ${name}`],
      ['batches/2027-02-01-plain.yaml', 'mould: small', (name) => `mould: ${name}`],
      ['fixtures/small.yaml', 'side: birch', (name) => `side: ${name}`],
      [
        'fixtures/small.yaml',
        'grid: {',
        (name) =>
          `grid-cutter: { wire: 0.5 mm, panels: { side: birch, end: birch, shelf: ${name} } }\ngrid: {`,
      ],
      [
        'fixtures/small.yaml',
        'grid: {',
        (name) =>
          `bar-cutter: { wire: 0.5 mm, panels: { base: birch, platform: birch, fence: ${name}, frame: birch, upright: birch } }\ngrid: {`,
      ],
      ['fixtures/small.yaml', 'grid: {', (name) => `grid: { ${name}: 3, `],
      ['materials/all.yaml', '  coconut:', (name) => `  ${name}:`],
      ['materials/all.yaml', '  beads:', (name) => `  ${name}:`],
      ['materials/all.yaml', 'panels:', (name) => `${name}: {}\npanels:`],
      ['sources.yaml', '  ledger:', (name) => `  ${name}:`],
      ['shop.yaml', 'limits:', (name) => `${name}: 1\nlimits:`],
    ]
    for (const [file, from, to] of places)
      for (const name of ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty'])
        expect(told(edit(file, from, to(name))), `${file}: ${to(name)}`).not.toEqual([])
    expect(Object.keys(Object.prototype)).toEqual([])
  })
})
