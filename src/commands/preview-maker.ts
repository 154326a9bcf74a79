/** Makes what a preview shows: composes a folder, and makes each page only when somebody looks at it. */
import { renderDiagnostics } from '../diagnostics.ts'
import { keptOrMade } from '../kept-or-made.ts'
import {
  type Files,
  faultFailure,
  GONE,
  goneFailure,
  type Maker,
  MISTAKES,
  type Outcome,
  WAITING,
} from '../preview/types.ts'
import { FIRST_LANGUAGE, readCatalogue } from '../schema/read-catalogue.ts'
import { assetsOf } from '../site/assets.ts'
import { buildPages, type Page, type SiteData } from '../site/build-pages.ts'
import { previewFiles } from '../site/preview-files.ts'
import { previewData } from '../site/site-data.ts'
import { changedLines } from './changed-lines.ts'
import { type Composed, compose } from './compose.ts'
import { papersOfSite } from './papers.ts'
import { noteLines, verdict } from './terminal.ts'

type Binder = NonNullable<Composed['binder']>

interface Of {
  /** the maker's folder, absolute */
  readonly folder: string
  /** how messages name it */
  readonly shown: string
  /** whether the terminal takes colours */
  readonly colour: boolean
}

/** Pages that are made in one go unasked: a save must not wait for many. */
const FEW = 8

export const previewMaker = ({ folder, shown, colour }: Of): Maker => {
  let made: Binder | undefined
  let current: { readonly binder: Binder; readonly data: SiteData } | undefined
  /** pages of the current binder that were made, by their paths */
  let known = new Map<string, string>()

  const make: Maker['make'] = async (read): Promise<Outcome> => {
    try {
      const { binder, diagnostics, documents } = await compose(folder, shown, undefined, {
        decoded: async (files) => {
          if (!current) return
          read(changedLines(current.binder.files, files).join('\n'))
          // what follows lets nothing else come to its turn
          await new Promise((told) => setImmediate(told))
        },
      })
      const wrong = (inColour: boolean): string =>
        renderDiagnostics(diagnostics, documents, { colour: inColour })
      made = binder
      const text = wrong(false)
      const err = colour ? wrong(true) : text
      if (!binder) return { kind: 'wrong', text, terminal: { out: '', err } }
      const { sheets } = binder
      return {
        kind: 'good',
        text,
        terminal: {
          out: `${shown}: ${sheets.length} sheets, ${verdict(sheets)}.\n`,
          err: `${err}${noteLines(sheets, documents)}`,
        },
      }
    } catch (error) {
      const isGone = ['ENOENT', 'ENOTDIR', 'EACCES', 'EPERM'].includes(
        String((error as { code?: unknown }).code),
      )
      if (!isGone && process.env.KETTLE_DEBUG === '1') console.error(error)
      return isGone ? goneFailure(shown) : faultFailure(error)
    }
  }

  const accept = async (paths: readonly string[]): Promise<Files> => {
    const binder = made
    if (!binder) throw new Error('No good binder was made.')
    const data = previewData(binder.frame, binder.sheets, binder.language, binder.firstPage())
    current = { binder, data }
    known = new Map()
    const pages = await pagesAt(data, paths)
    return new Map<string, string | Uint8Array>([...commonFiles(binder.language), ...pages])
  }

  /** Of these paths those that are pages of the binder, each made once. */
  const pagesAt = async (data: SiteData, paths: readonly string[]): Promise<Map<string, string>> => {
    const own = known
    const wanted = pathsOf(data).filter((path) => paths.includes(path))
    const missing = new Set(wanted.filter((path) => !own.has(path)))
    if (missing.size > 0)
      for (const { path, content } of await buildPages(data, missing)) own.set(path, content)
    return new Map(wanted.map((path) => [path, own.get(path) ?? '']))
  }

  const file = async (path: string): Promise<string | Uint8Array | undefined> => {
    if (!current) return undefined
    const { binder, data } = current
    if (!path.startsWith('assets/') && !path.endsWith('.html'))
      return binder
        .outputFiles()
        .find((one) => one.path === path)
        ?.text()
    if (path.endsWith('.html')) return (await pagesAt(data, [path])).get(path)
    const asset = assetsOf(
      binder.frame,
      binder.sheets,
      papersOfSite(binder.content, binder.papers),
      binder.firstPage().same,
    ).find((one) => one.path === path)
    if (asset?.of !== 'pages') return asset?.make([])
    const all = await pagesAt(data, pathsOf(data))
    return asset.make([...all].map(([at, content]): Page => ({ path: at, content })))
  }

  const more = async (): Promise<Files | undefined> => {
    if (!current) return undefined
    const { data } = current
    const next = pathsOf(data)
      .filter((path) => !known.has(path))
      .slice(0, FEW)
    return next.length > 0 ? pagesAt(data, next) : undefined
  }

  return { common: async () => commonFiles(FIRST_LANGUAGE), make, accept, file, more, end: () => undefined }
}

const pathsOf = (data: SiteData): string[] => [
  'index.html',
  'look-up.html',
  ...data.sheets.map(({ file }) => file),
]

const MOST_LANGUAGES = 8
const common = new Map<string, Files>()

/** Our own words do not change while the program runs, and are not read again after each save. */
const commonFiles = (language: string): Files =>
  keptOrMade(common, MOST_LANGUAGES, language, () => {
    const catalogue = readCatalogue(language)
    return previewFiles(language, (key) => catalogue.phrase(key), {
      waiting: WAITING,
      mistakes: MISTAKES,
      gone: GONE,
    })
  })
