/** A folder to its sheets: read, check, bind, compose. `build` and `check` share it, and so see the same mistakes. */
import { resolve } from 'node:path'
import { type BoundBinder, bind, type Proofs } from '../binder/bind.ts'
import { isShoppingAsked } from '../binder/bind-shopping.ts'
import { type Diagnostic, hasErrors, type SourceDocument } from '../diagnostics.ts'
import { keptByInput, keptOrMade } from '../kept-or-made.ts'
import { checkRecords } from '../papers/check-records.ts'
import { recordedIn } from '../papers/papers.ts'
import { type Revised, withRevisions } from '../papers/revisions.ts'
import type { Content } from '../schema/content.ts'
import { loadContent } from '../schema/load.ts'
import {
  languagesIn,
  type ReadLanguage,
  readBibliography,
  readLanguage,
  TEXT_FOLDER,
} from '../schema/read-catalogue.ts'
import { type FolderFile, readFolder } from '../schema/read-folder.ts'
import { binderSheets } from '../sheets/binder-sheets.ts'
import { calendarFile } from '../sheets/cure/calendar-file.ts'
import { type TaskDay, taskDays } from '../sheets/cure/task-days.ts'
import { type Frame, frameOf, spokenIn } from '../sheets/frame.ts'
import type { Sheet, Source } from '../sheets/model.ts'
import { printedSheet } from '../sheets/printed/printed-sheet.ts'
import type { PrintedPapers } from '../sheets/printed/types.ts'
import { routerFilesOf, type WrittenRouterFile } from '../sheets/router/files.ts'
import { type Show, showIn } from '../sheets/shown.ts'
import { pageRoom } from '../site/print-job.ts'
import { frameWords } from '../site/site-data.ts'
import { proveBarCutter } from '../solids/bar-cutter-proof.ts'
import { proveGridCutter } from '../solids/grid-cutter-proof.ts'
import { proveLeverPress } from '../solids/lever-press-proof.ts'
import { proveMould } from '../solids/mould-proof.ts'
import { loadSolids, type Solids } from '../solids/solids.ts'
import { proveTrialFrame } from '../solids/trial-frame-proof.ts'
import { loadSolver } from '../solver/solver.ts'
import type { Catalogue } from '../text/catalogue.ts'
import { withDecimalMark } from '../text/locale.ts'
import { readPapers } from './papers.ts'

export interface Composed {
  readonly diagnostics: readonly Diagnostic[]
  readonly documents: ReadonlyMap<string, SourceDocument>
  /** missing when anything is wrong */
  readonly binder?: {
    readonly content: Content
    /** that its sheets are in */
    readonly language: string
    readonly frame: Frame
    /** what the sheets are composed of */
    readonly bound: BoundBinder
    readonly sheets: readonly Sheet[]
    /** what each of them shows, with its revision and code */
    readonly revised: readonly Revised[]
    /** of what was printed */
    readonly papers?: PrintedPapers
    /** as they were read */
    readonly files: readonly FolderFile[]
    /** dates of all batches, for a calendar program */
    readonly calendar: string
    /** the same by day, for the first page of the site */
    readonly days: readonly TaskDay[]
    /** shapes and notes of every part of every fixture that stands, for a router */
    readonly routerFiles: readonly WrittenRouterFile[]
  }
}

/** Designs that are kept with their proofs: equal ones are proved once. */
const MOST_KNOWN = 32

const proofsOf = (solids: Solids): Proofs => ({
  mould: keptByInput(MOST_KNOWN, (mould) => proveMould(mould, solids)),
  gridCutter: keptByInput(MOST_KNOWN, (cutter) => proveGridCutter(cutter, solids)),
  barCutter: keptByInput(MOST_KNOWN, (cutter) => proveBarCutter(cutter, solids)),
  trialFrame: keptByInput(MOST_KNOWN, (trial) => proveTrialFrame(trial, solids)),
  leverPress: keptByInput(MOST_KNOWN, ({ press, cutter }) => proveLeverPress(press, solids, cutter)),
})
let proofs: Proofs | undefined

const MOST_LANGUAGES = 8
const languages = new Map<string, ReadLanguage>()

/** Our own words do not change while the program runs. */
const knownLanguage = (language: string, text: string): ReadLanguage =>
  keptOrMade(languages, MOST_LANGUAGES, `${text} ${language}`, () => readLanguage(language, text))

const bibliographies = new Map<string, ReturnType<typeof readBibliography>>()

const knownBibliography = (language: string): ReturnType<typeof readBibliography> =>
  keptOrMade(bibliographies, MOST_LANGUAGES, language, () => readBibliography(language))

/**
 * @param folder   the maker's folder, absolute
 * @param shown    how messages name it
 * @param words    another catalogue than that of the shop's language, for tests of the words
 * @param text     where the folders of all languages are
 */
export const compose = async (
  folder: string,
  shown: string,
  words?: (language: string) => Catalogue,
  { causes = false, text = TEXT_FOLDER }: { readonly causes?: boolean; readonly text?: string } = {},
): Promise<Composed> => {
  const read = await readFolder(resolve(folder), shown)
  const composed = await composeFiles(read, shown, words, text)
  const { binder } = composed
  if (!binder?.content.printed) return composed
  const { printed } = binder.content
  const ids = binder.sheets.map(({ id }) => id)
  const { papers, diagnostics, documents } = await readPapers(
    {
      folder: resolve(folder),
      shown,
      files: read.files,
      languages: [binder.language, binder.content.onLabels.language],
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
  const page = printedSheet(binder.frame, papers)
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

/** The same of files that need not stand in a folder: as they were once, or as they would be after an edit. */
export const composeFiles = async (
  { files, diagnostics: unread }: Awaited<ReturnType<typeof readFolder>>,
  shown: string,
  words?: (language: string) => Catalogue,
  text = TEXT_FOLDER,
): Promise<Composed> => {
  const loaded = loadContent(files, shown, languagesIn(text))
  const { content } = loaded
  const spoken = new Map(
    [...new Set([loaded.language, loaded.labelLanguage])].map((language) => [
      language,
      words ? { catalogue: words(language), diagnostics: [], documents: [] } : knownLanguage(language, text),
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

  proofs ??= proofsOf(await loadSolids())
  const solve = isShoppingAsked(content) ? await loadSolver() : undefined
  const bound = bind(content, proofs, solve)
  diagnostics.push(...bound.diagnostics)
  if (hasErrors(diagnostics)) return { diagnostics, documents }

  const frame = frameFor(content, catalogue, labelCatalogue)
  const { sheets, diagnostics: composing } = sheetsIn(frame, bound.binder)
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
  const calendar = calendarFile(frame, bound.binder, content.shop.value.edition)
  const days = taskDays(frame, bound.binder)
  const routerFiles = routerFilesOf(frame, bound.binder)
  return {
    diagnostics,
    documents,
    binder: {
      content,
      language: loaded.language,
      frame,
      bound: bound.binder,
      sheets: sheets.map((sheet) => withCodes.get(sheet.id) ?? sheet),
      files,
      revised,
      calendar,
      days,
      routerFiles,
    },
  }
}

/**
 * What all sheets of a binder share.
 * @param words   of the binder
 * @param onLabel of its labels
 */
export const frameFor = (content: Content, words: Catalogue, onLabel: Catalogue): Frame => {
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
    allSources(content, words.language),
    spokenIn(onLabel, showOf(onLabel)),
    shop,
  )
}

/** Sheets of what is bound already, in the words of a frame. */
export const sheetsIn = (frame: Frame, binder: BoundBinder): ReturnType<typeof binderSheets> => {
  const { size } = binder.content.shop.value.paper
  return binderSheets(frame, binder, size === 'Letter' ? 'third-angle' : 'first-angle')
}

const DENOMINATORS = { '1/8 in': 8, '1/16 in': 16, '1/32 in': 32, '1/64 in': 64 } as const

const allSources = (content: Content, language: string): ReadonlyMap<string, Source> => {
  const all = new Map<string, Source>()
  for (const [key, entry] of knownBibliography(language))
    all.set(key, { key, ...entry, where: entry.where ?? '' })
  for (const [key, { value }] of content.sources)
    all.set(key, { key, title: value.title, where: value.where ?? '', evidence: value.evidence })
  return all
}
