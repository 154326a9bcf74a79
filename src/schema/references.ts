/** Names that point from one file of a soap maker's folder into another. */
import type { Diagnostic } from '../diagnostics.ts'
import { SECTIONS_OF_PANELS } from './fixture.ts'
import { child, keysOf, lookUp, type ReadFile } from './look-up.ts'

/**
 * @param files     all files read, whatever was wrong with them
 * @param unread    folders of files that were no YAML at all: what they would have named is not missed on top
 * @returns a diagnostic for each name that nothing bears
 */
export const checkReferences = (files: readonly ReadFile[], unread: ReadonlySet<string>): Diagnostic[] => {
  const { diagnostics, inFolder, keys, value } = lookUp(files, unread)
  const materials = inFolder('materials')
  const named = (part: string): Set<string> =>
    new Set(materials.flatMap(({ document }) => keysOf(child(document.data, part))))
  const known = {
    fats: named('fats'),
    alkalis: named('alkalis'),
    stockLyes: named('stock-lyes'),
    premixes: named('premixes'),
    additions: new Set([...named('additives'), ...named('fragrances')]),
    liquids: named('liquids'),
    panels: named('panels'),
    suppliers: named('suppliers'),
    stocked: new Set(STOCKED.flatMap((part) => [...named(part)])),
    batches: new Set(inFolder('batches').map(({ key }) => key)),
    recipes: new Set(inFolder('recipes').map(({ key }) => key)),
    fixtures: new Set(inFolder('fixtures').map(({ key }) => key)),
    sources: new Set(
      inFolder('sources.yaml').flatMap(({ document }) => keysOf(child(document.data, 'sources'))),
    ),
  }
  for (const recipe of inFolder('recipes')) {
    keys(recipe, 'fats', known.fats, 'fat')
    keys(recipe, 'alkalis', known.alkalis, 'alkali')
    keys(recipe, 'additions', known.additions, 'scent or additive')
    value(recipe, ['alkali'], known.alkalis, 'alkali')
    value(recipe, ['lye-liquid'], known.liquids, 'liquid')
    for (const colour of keysOf(child(recipe.document.data, 'colours')))
      keys(recipe, ['colours', colour, 'with'], known.additions, 'scent or additive')
  }
  for (const fixture of inFolder('fixtures')) {
    for (const role of keysOf(child(fixture.document.data, 'panels')))
      value(fixture, ['panels', role], known.panels, 'panel')
    for (const section of SECTIONS_OF_PANELS)
      for (const role of keysOf(child(child(fixture.document.data, section), 'panels')))
        value(fixture, [section, 'panels', role], known.panels, 'panel')
    for (const path of [['lumber', 'board'], ['panel'], ['packer']])
      value(fixture, ['lever-press', ...path], known.panels, 'panel')
    value(fixture, ['lining'], known.panels, 'panel')
    value(fixture, ['base', 'groove-strips'], known.panels, 'panel')
  }
  for (const batch of inFolder('batches')) {
    value(batch, ['recipe'], known.recipes, 'recipe', 'recipes')
    value(batch, ['mould'], known.fixtures, 'mould', 'fixtures')
    keys(batch, 'on-hand', known.fats, 'fat')
    value(batch, ['lye', 'stock'], known.stockLyes, 'stock lye')
    value(batch, ['premix'], known.premixes, 'premix')
  }
  for (const market of inFolder('markets')) {
    keys(market, 'bars', known.recipes, 'recipe', 'recipes')
    value(market, ['mould'], known.fixtures, 'mould', 'fixtures')
  }
  for (const ledger of inFolder('stock')) {
    const entries = child(ledger.document.data, 'entries')
    for (const index of Array.isArray(entries) ? entries.keys() : []) {
      const path = ['entries', String(index)]
      value(ledger, [...path, 'material'], known.stocked, 'material')
      value(ledger, [...path, 'batch'], known.batches, 'batch', 'batches')
    }
  }
  for (const build of inFolder('builds')) keys(build, 'fixtures', known.fixtures, 'fixture', 'fixtures')
  for (const shop of inFolder('shop.yaml')) {
    const boards = child(shop.document.data, 'boards-in-shop')
    for (const index of Array.isArray(boards) ? boards.keys() : [])
      value(shop, ['boards-in-shop', String(index), 'panel'], known.panels, 'panel')
  }
  for (const file of materials) {
    for (const key of keysOf(child(file.document.data, 'packs'))) {
      value(file, ['packs', key, 'material'], known.stocked, 'material')
      value(file, ['packs', key, 'supplier'], known.suppliers, 'supplier')
    }
    keys(file, 'certificates', known.fats, 'fat')
    for (const key of keysOf(child(file.document.data, 'premixes')))
      keys(file, ['premixes', key, 'fats'], known.fats, 'fat')
    for (const part of ['fats', 'panels'])
      for (const key of keysOf(child(file.document.data, part))) {
        value(file, [part, key, 'source'], known.sources, 'source', 'sources.yaml')
        for (const field of keysOf(child(child(file.document.data, part), key)))
          value(file, [part, key, field, 'source'], known.sources, 'source', 'sources.yaml')
        const also = child(child(child(file.document.data, part), key), 'also')
        for (const index of Array.isArray(also) ? also.keys() : [])
          value(file, [part, key, 'also', String(index), 'source'], known.sources, 'source', 'sources.yaml')
      }
  }
  return diagnostics
}

/** Sections of the materials whose things are kept as stock. */
const STOCKED = [
  'fats', 'alkalis', 'stock-lyes', 'premixes', 'additives', 'fragrances', 'liquids', 'packaging',
] as const // biome-ignore format: one line reads better
