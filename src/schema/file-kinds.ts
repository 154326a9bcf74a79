/** Every kind of file that a maker's folder holds: where it lies, and what may stand in it. */
import type { z } from 'zod'
import { batchFile } from './batch.ts'
import { buildFile } from './build.ts'
import { fixtureFile } from './fixture.ts'
import { ledgerFile } from './ledger.ts'
import { marketFile } from './market.ts'
import { materialsFile } from './materials.ts'
import { printedFile } from './printed.ts'
import { recipeFile } from './recipe.ts'
import { shopFile } from './shop.ts'
import { sourcesFile } from './sources.ts'

export interface FileKind<Value = unknown> {
  /** what a person calls one of them */
  readonly name: string
  /** below the maker's folder: the one file of its kind, or the folder that many of them lie in */
  readonly place: { readonly file: string } | { readonly folder: string }
  readonly schema: z.ZodType<Value>
}

export const FILE_KINDS = {
  shop: { name: 'shop', place: { file: 'shop.yaml' }, schema: shopFile },
  sources: { name: 'sources', place: { file: 'sources.yaml' }, schema: sourcesFile },
  materials: { name: 'materials', place: { folder: 'materials' }, schema: materialsFile },
  recipe: { name: 'recipe', place: { folder: 'recipes' }, schema: recipeFile },
  fixture: { name: 'fixture', place: { folder: 'fixtures' }, schema: fixtureFile },
  batch: { name: 'batch', place: { folder: 'batches' }, schema: batchFile },
  market: { name: 'market', place: { folder: 'markets' }, schema: marketFile },
  build: { name: 'build', place: { folder: 'builds' }, schema: buildFile },
  stock: { name: 'stock', place: { folder: 'stock' }, schema: ledgerFile },
  printed: { name: 'printed', place: { file: 'records/printed.yaml' }, schema: printedFile },
} as const satisfies Readonly<Record<string, FileKind>>

/** The kind of a file by its path below the folder; nothing for pages and what is not read. */
export const kindOf = (below: string): FileKind | undefined =>
  Object.values<FileKind>(FILE_KINDS).find(({ place }) =>
    'file' in place ? place.file === below : below.startsWith(`${place.folder}/`),
  )
