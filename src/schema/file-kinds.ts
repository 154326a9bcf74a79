/** Every kind of file that a soap maker's folder holds. */
import { batchFile } from './batch.ts'
import { buildFile } from './build.ts'
import { COMMON_KINDS, type FileKind, type FileKinds, kindIn } from './file-kind.ts'
import { fixtureFile } from './fixture.ts'
import { ledgerFile } from './ledger.ts'
import { marketFile } from './market.ts'
import { materialsFile } from './materials.ts'
import { recipeFile } from './recipe.ts'
import { shopFile } from './shop.ts'

export const FILE_KINDS = {
  shop: { name: 'shop', place: { file: 'shop.yaml' }, schema: shopFile },
  sources: COMMON_KINDS.sources,
  materials: { name: 'materials', place: { folder: 'materials' }, schema: materialsFile },
  recipe: { name: 'recipe', place: { folder: 'recipes' }, schema: recipeFile },
  fixture: { name: 'fixture', place: { folder: 'fixtures' }, schema: fixtureFile },
  batch: { name: 'batch', place: { folder: 'batches' }, schema: batchFile },
  market: { name: 'market', place: { folder: 'markets' }, schema: marketFile },
  build: { name: 'build', place: { folder: 'builds' }, schema: buildFile },
  stock: { name: 'stock', place: { folder: 'stock' }, schema: ledgerFile },
  printed: COMMON_KINDS.printed,
} as const satisfies FileKinds

/** The kind of a file by its path below the folder; nothing for pages and what is not read. */
export const kindOf = (below: string): FileKind | undefined => kindIn(FILE_KINDS, below)
