/** A kind of file of a maker's folder: where it lies, and what may stand in it. */
import type { z } from 'zod'
import { printedFile } from './printed.ts'
import { sourcesFile } from './sources.ts'

export interface FileKind<Value = unknown> {
  /** what a person calls one of them */
  readonly name: string
  /** below the maker's folder: the one file of its kind, or the folder that many of them lie in */
  readonly place: { readonly file: string } | { readonly folder: string }
  readonly schema: z.ZodType<Value>
}

/** By what the program calls them. */
export type FileKinds = Readonly<Record<string, FileKind>>

/** Those that a folder of any work may have. */
export const COMMON_KINDS = {
  sources: { name: 'sources', place: { file: 'sources.yaml' }, schema: sourcesFile },
  printed: { name: 'printed', place: { file: 'records/printed.yaml' }, schema: printedFile },
} as const satisfies FileKinds

/** The kind of a file by its path below the folder; nothing for pages and what is not read. */
export const kindIn = (kinds: FileKinds, below: string): FileKind | undefined =>
  Object.values(kinds).find(({ place }) =>
    'file' in place ? place.file === below : below.startsWith(`${place.folder}/`),
  )
