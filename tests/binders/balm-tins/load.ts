/** A balm maker's folder to typed content, with every misspelt name. */
import type { ProcessContent } from '../../../src/process.ts'
import { entries, merged } from '../../../src/schema/listed.ts'
import { child, keysOf, lookUp, type ReadFile } from '../../../src/schema/look-up.ts'
import type { Placed } from '../../../src/schema/placed.ts'
import { type LoadedFolder, languageKnown, openFiles } from '../../../src/schema/read-files.ts'
import type { FolderFile } from '../../../src/schema/read-folder.ts'
import {
  BALM_KINDS,
  type BalmBatch,
  type BalmRecipe,
  type BalmShop,
  type Material,
  type Tin,
} from './schema.ts'

export interface BalmContent extends ProcessContent {
  readonly shop: Placed<BalmShop>
  readonly materials: ReadonlyMap<string, Placed<Material>>
  readonly recipes: ReadonlyMap<string, Placed<BalmRecipe>>
  readonly tins: ReadonlyMap<string, Placed<Tin>>
  readonly batches: ReadonlyMap<string, Placed<BalmBatch>>
}

export const loadBalm = (
  files: readonly FolderFile[],
  shown: string,
  languages: readonly string[],
): LoadedFolder<BalmContent> => {
  const open = openFiles(files, shown, languages)
  const { spoken, diagnostics, documents } = open
  const shop = open.one(BALM_KINDS.shop)
  if (shop)
    diagnostics.push(...languageKnown(shop.document.file, '/language', shop.value.language, languages))
  const sources = open.optional(BALM_KINDS.sources)
  const shelves = [...open.folder(BALM_KINDS.materials).values()]
  const materials = merged(shelves, 'materials', (shelf) => shelf.materials, diagnostics)
  const recipes = open.folder(BALM_KINDS.recipe)
  const tins = open.folder(BALM_KINDS.tin)
  const batches = open.folder(BALM_KINDS.batch)
  const printed = open.optional(BALM_KINDS.printed)
  const pages = open.pages()
  diagnostics.push(...unknownNames(open.readFiles, open.unread))

  const said = { language: spoken.binder, labelLanguage: spoken.label, diagnostics, documents }
  if (!shop || diagnostics.some(({ severity }) => severity === 'error')) return said
  return {
    ...said,
    content: {
      shop,
      sources: entries(sources, 'sources', sources?.value.sources),
      materials,
      recipes,
      tins,
      batches,
      pages,
      ...(printed ? { printed } : {}),
    },
  }
}

const unknownNames = (files: readonly ReadFile[], unread: ReadonlySet<string>) => {
  const { diagnostics, inFolder, keys, value } = lookUp(files, unread)
  const filesIn = (folder: string) => new Set(inFolder(folder).map(({ key }) => key))
  const listed = (folder: string, part: string) =>
    new Set(inFolder(folder).flatMap(({ document }) => keysOf(child(document.data, part))))
  const materials = listed('materials', 'materials')
  const sources = listed('sources.yaml', 'sources')
  const vessels = listed('shop.yaml', 'vessels')
  const recipes = filesIn('recipes')
  const tins = filesIn('tins')
  for (const recipe of inFolder('recipes')) keys(recipe, 'parts', materials, 'material')
  for (const batch of inFolder('batches')) {
    value(batch, ['recipe'], recipes, 'recipe', 'recipes')
    value(batch, ['tin'], tins, 'tin', 'tins')
    value(batch, ['vessel'], vessels, 'vessel', 'shop.yaml')
  }
  for (const shelf of inFolder('materials'))
    for (const key of keysOf(child(shelf.document.data, 'materials')))
      for (const figure of ['density', 'melting', 'flash-point'])
        value(shelf, ['materials', key, figure, 'source'], sources, 'source', 'sources.yaml')
  return diagnostics
}
