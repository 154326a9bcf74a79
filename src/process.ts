/**
 * What makes a binder of one kind of work out of the engine: which files a maker's folder has, what is worked out of
 * them, and which sheets come of it. Reading, words, revisions, site, paper and output are the engine's.
 */
import type { Diagnostic } from './diagnostics.ts'
import type { FileKinds } from './schema/file-kind.ts'
import type { PageFile, Placed } from './schema/placed.ts'
import type { PrintedFile } from './schema/printed.ts'
import type { LoadedFolder } from './schema/read-files.ts'
import type { FolderFile } from './schema/read-folder.ts'
import type { BinderSettings } from './schema/settings.ts'
import type { SourceEntry } from './schema/sources.ts'
import type { FirstPage } from './sheets/first-page.ts'
import type { Frame } from './sheets/frame.ts'
import type { Sheet } from './sheets/model.ts'
import type { PrintedPapers } from './sheets/printed/types.ts'

/** What the engine itself wants to know of a folder; a process has more. */
export interface ProcessContent {
  /** `scales` and `vessels` by their keys, where sheets name them */
  readonly shop: Placed<BinderSettings>
  readonly sources: ReadonlyMap<string, Placed<SourceEntry>>
  readonly pages: readonly PageFile[]
  /** papers that were printed, and what became of them */
  readonly printed?: Placed<PrintedFile>
}

/** A file that is written beside pages and paper. */
export interface OutputFile {
  /** below the output folder */
  readonly path: string
  readonly text: () => string
}

export interface Process<Content extends ProcessContent, Bound> {
  readonly kinds: FileKinds
  /** folders of words beside those of the engine, each with a folder for every language */
  readonly texts: readonly string[]
  readonly load: (
    files: readonly FolderFile[],
    shown: string,
    languages: readonly string[],
  ) => LoadedFolder<Content>
  /** runs the calculators; what is unsafe or cannot be built is part of what is bound, not a diagnostic */
  readonly bind: (
    content: Content,
  ) => Promise<{ readonly bound: Bound; readonly diagnostics: readonly Diagnostic[] }>
  /** every sheet in its order, and what a maker's own pages name wrongly */
  readonly sheets: (
    frame: Frame,
    content: Content,
    bound: Bound,
  ) => { readonly sheets: readonly Sheet[]; readonly diagnostics: readonly Diagnostic[] }
  /** the sheet of papers that are out of date, in the place that it has among the others */
  readonly printed: (frame: Frame, papers: PrintedPapers) => Sheet
  readonly firstPage: (frame: Frame, bound: Bound) => FirstPage
  readonly files: (frame: Frame, content: Content, bound: Bound) => readonly OutputFile[]
}
