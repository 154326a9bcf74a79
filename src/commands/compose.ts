/** A folder to its sheets: read, check, bind, compose. `build` and `check` share it, and so see the same mistakes. */
import { resolve } from 'node:path'
import { type Diagnostic, hasErrors, type SourceDocument } from '../diagnostics.ts'
import { keptOrMade } from '../kept-or-made.ts'
import { madeWith } from '../made-with/made-with.ts'
import { checkRecords } from '../papers/check-records.ts'
import { recordedIn } from '../papers/papers.ts'
import { type Revised, withRevisions } from '../papers/revisions.ts'
import type { OutputFile, Process, ProcessContent } from '../process.ts'
import {
  languagesIn,
  type ReadLanguage,
  readBibliography,
  readLanguage,
  TEXT_FOLDER,
} from '../schema/read-catalogue.ts'
import { type FolderFile, readFolder } from '../schema/read-folder.ts'
import type { FirstPage } from '../sheets/first-page.ts'
import { type Frame, frameOf, spokenIn } from '../sheets/frame.ts'
import type { Sheet, Source } from '../sheets/model.ts'
import type { PrintedPapers } from '../sheets/printed/types.ts'
import { type Show, showIn } from '../sheets/shown.ts'
import { pageRoom } from '../site/print-job.ts'
import { frameWords } from '../site/site-data.ts'
import { SOAP } from '../soap.ts'
import type { Catalogue } from '../text/catalogue.ts'
import { withDecimalMark } from '../text/locale.ts'
import { readPapers } from './papers.ts'

export interface Binder<Content extends ProcessContent, Bound> {
  readonly content: Content
  /** that its sheets are in */
  readonly language: string
  readonly frame: Frame
  /** what the sheets are composed of */
  readonly bound: Bound
  readonly sheets: readonly Sheet[]
  /** what each of them shows, with its revision and code */
  readonly revised: readonly Revised[]
  /** of what was printed */
  readonly papers?: PrintedPapers
  /** as they were read */
  readonly files: readonly FolderFile[]
  readonly firstPage: () => FirstPage
  /** what is written beside pages and paper */
  readonly outputFiles: () => readonly OutputFile[]
}

export interface ComposedOf<Content extends ProcessContent, Bound> {
  readonly diagnostics: readonly Diagnostic[]
  readonly documents: ReadonlyMap<string, SourceDocument>
  /** missing when anything is wrong */
  readonly binder?: Binder<Content, Bound>
}

const MOST_LANGUAGES = 8
const languages = new Map<string, ReadLanguage>()

/** Our own words do not change while the program runs. */
const knownLanguage = (language: string, texts: readonly string[]): ReadLanguage =>
  keptOrMade(languages, MOST_LANGUAGES, JSON.stringify([language, texts]), () =>
    readLanguage(language, texts),
  )

const bibliographies = new Map<string, ReturnType<typeof readBibliography>>()

const knownBibliography = (language: string, texts: readonly string[]): ReturnType<typeof readBibliography> =>
  keptOrMade(bibliographies, MOST_LANGUAGES, JSON.stringify([language, texts]), () =>
    readBibliography(language, [TEXT_FOLDER, ...texts]),
  )

export interface Composer<Content extends ProcessContent, Bound> {
  /**
   * @param folder   the maker's folder, absolute
   * @param shown    how messages name it
   * @param words    another catalogue than that of the shop's language, for tests of the words
   * @param text     where the folders of all languages are
   */
  readonly compose: (
    folder: string,
    shown: string,
    words?: (language: string) => Catalogue,
    looking?: {
      readonly causes?: boolean
      readonly text?: string
      /** waited for when nothing is wrong in the files, before anything is worked out of them */
      readonly decoded?: (files: readonly FolderFile[]) => Promise<void>
    },
  ) => Promise<ComposedOf<Content, Bound>>
  /** The same of files that need not stand in a folder: as they were once, or as they would be after an edit. */
  readonly composeFiles: (
    read: Awaited<ReturnType<typeof readFolder>>,
    shown: string,
    words?: (language: string) => Catalogue,
    text?: string,
    decoded?: (files: readonly FolderFile[]) => Promise<void>,
  ) => Promise<ComposedOf<Content, Bound>>
}

/** Whoever composes the binders of one kind of work. */
export const composerOf = <Content extends ProcessContent, Bound>(
  process: Process<Content, Bound>,
): Composer<Content, Bound> => {
  const composeFiles: Composer<Content, Bound>['composeFiles'] = async (
    { files, diagnostics: unread },
    shown,
    words,
    text = TEXT_FOLDER,
    decoded,
  ) => {
    const texts = [text, ...process.texts]
    const loaded = process.load(files, shown, languagesIn(texts))
    const { content } = loaded
    const spoken = new Map(
      [...new Set([loaded.language, loaded.labelLanguage])].map((language) => [
        language,
        words
          ? { catalogue: words(language), diagnostics: [], documents: [] }
          : knownLanguage(language, texts),
      ]),
    )
    const diagnostics: Diagnostic[] = [
      ...unread,
      ...loaded.diagnostics,
      ...[...spoken.values()].flatMap((language) => language.diagnostics),
    ]
    const documents = new Map([
      ...loaded.documents,
      ...[...spoken.values()].flatMap((language) => [...language.documents]),
    ])
    const catalogue = spoken.get(loaded.language)?.catalogue
    const labelCatalogue = spoken.get(loaded.labelLanguage)?.catalogue
    if (!content || !catalogue || !labelCatalogue || hasErrors(diagnostics)) return { diagnostics, documents }

    await decoded?.(files)
    const { bound, diagnostics: binding } = await process.bind(content)
    diagnostics.push(...binding)
    if (hasErrors(diagnostics)) return { diagnostics, documents }

    const frame = frameFor(content, catalogue, labelCatalogue, process.texts)
    const { sheets, diagnostics: composing } = process.sheets(frame, content, bound)
    diagnostics.push(...composing)
    if (hasErrors(diagnostics)) return { diagnostics, documents }
    const revised = withRevisions(
      frame,
      sheets.filter(({ kind }) => kind !== 'printed'),
      recordedIn(content.printed?.value),
      frameWords(frame),
      loaded.language,
    )
    const withCodes = new Map(revised.map(({ sheet }) => [sheet.id, sheet]))
    return {
      diagnostics,
      documents,
      binder: {
        content,
        language: loaded.language,
        frame,
        bound,
        sheets: sheets.map((sheet) => withCodes.get(sheet.id) ?? sheet),
        files,
        revised,
        firstPage: () => process.firstPage(frame, bound),
        outputFiles: () => process.files(frame, content, bound),
      },
    }
  }

  const compose: Composer<Content, Bound>['compose'] = async (
    folder,
    shown,
    words,
    { causes = false, text = TEXT_FOLDER, decoded } = {},
  ) => {
    const read = await readFolder(resolve(folder), shown, process.kinds)
    const composed = await composeFiles(read, shown, words, text, decoded)
    const { binder } = composed
    if (!binder?.content.printed) return composed
    const { printed } = binder.content
    const ids = binder.sheets.map(({ id }) => id)
    const { papers, diagnostics, documents } = await readPapers(
      {
        folder: resolve(folder),
        shown,
        files: read.files,
        languages: [binder.language, binder.frame.onLabel.language],
        kinds: process.kinds,
      },
      printed.value,
      binder.revised,
      causes
        ? async (files) =>
            (await composeFiles({ files: [...files], diagnostics: [] }, shown, words, text)).binder?.revised
        : undefined,
    )
    const all = [...composed.diagnostics, ...checkRecords(printed, ids), ...diagnostics]
    const named = new Map([
      ...composed.documents,
      ...documents.map((document): [string, SourceDocument] => [document.file, document]),
    ])
    if (hasErrors(all)) return { diagnostics: all, documents: named }
    const page = process.printed(binder.frame, papers)
    return {
      diagnostics: all,
      documents: named,
      binder: {
        ...binder,
        papers,
        sheets: binder.sheets.map((sheet) => (sheet.id === page.id ? page : sheet)),
      },
    }
  }
  return { compose, composeFiles }
}

/** What every command does: binders of soap makers. */
export const { compose, composeFiles } = composerOf(SOAP)

export type Composed = Awaited<ReturnType<typeof compose>>

/**
 * What all sheets of a binder share.
 * @param words   of the binder
 * @param onLabel of its labels
 * @param texts   folders of words beside the engine's
 */
export const frameFor = (
  content: ProcessContent,
  words: Catalogue,
  onLabel: Catalogue,
  texts: readonly string[] = [],
): Frame => {
  const shop = content.shop.value
  const units = {
    length: shop.units.length,
    denominator: DENOMINATORS[shop.units['smallest-fraction'] ?? '1/16 in'],
    temperature: shop.units.temperature,
    clock: shop.hours?.clock ?? '24-hour',
  } as const
  // how the readers of a binder have their decimals says nothing of those of a label in another language
  const showOf = ({ language, locale }: Catalogue): Show =>
    showIn(units, language === words.language ? withDecimalMark(locale, shop['decimal-mark']) : locale)
  return frameOf(
    words,
    showOf(words),
    shop.name,
    pageRoom(shop.paper),
    shop.edition,
    allSources(content, words.language, texts),
    spokenIn(onLabel, showOf(onLabel)),
    { scales: shop.scales ?? {}, vessels: shop.vessels ?? {} },
    madeWith(),
  )
}

const DENOMINATORS = { '1/8 in': 8, '1/16 in': 16, '1/32 in': 32, '1/64 in': 64 } as const

const allSources = (
  content: ProcessContent,
  language: string,
  texts: readonly string[],
): ReadonlyMap<string, Source> => {
  const all = new Map<string, Source>()
  for (const [key, entry] of knownBibliography(language, texts))
    all.set(key, { key, ...entry, where: entry.where ?? '' })
  for (const [key, { value }] of content.sources)
    all.set(key, { key, title: value.title, where: value.where ?? '', evidence: value.evidence })
  return all
}
