/** Makes what a preview shows: composes a folder, and makes each page only when somebody looks at it. */
import { readFileSync } from 'node:fs'
import { renderDiagnostics } from '../diagnostics.ts'
import {
  type Files,
  failure,
  GONE,
  goneFailure,
  type Maker,
  MISTAKES,
  type Outcome,
  WAITING,
} from '../preview/types.ts'
import { fontFiles } from '../print/fonts.ts'
import { FIRST_LANGUAGE, readCatalogue } from '../schema/read-catalogue.ts'
import { assetsOf } from '../site/assets.ts'
import { buildPages, type Page, type SiteData } from '../site/build-pages.ts'
import { previewFiles } from '../site/preview-files.ts'
import { previewData } from '../site/site-data.ts'
import { type Composed, compose } from './compose.ts'
import { papersOfSite } from './papers.ts'
import { stopLines, verdict } from './terminal.ts'

type Binder = NonNullable<Composed['binder']>

interface Of {
  /** the maker's folder, absolute */
  readonly folder: string
  /** how messages name it */
  readonly shown: string
  /** whether the terminal takes colours */
  readonly colour: boolean
}

export const previewMaker = ({ folder, shown, colour }: Of): Maker => {
  let made: Binder | undefined
  let current: { readonly binder: Binder; readonly data: SiteData } | undefined
  let all: Promise<readonly Page[]> | undefined

  const make = async (): Promise<Outcome> => {
    try {
      const { binder, diagnostics, documents } = await compose(folder, shown)
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
          err: `${err}${stopLines(sheets)}`,
        },
      }
    } catch (error) {
      const isGone = ['ENOENT', 'ENOTDIR', 'EACCES', 'EPERM'].includes(
        String((error as { code?: unknown }).code),
      )
      return isGone ? goneFailure(shown) : failure(faultOf(error))
    }
  }

  const accept = async (paths: readonly string[]): Promise<Files> => {
    const binder = made
    if (!binder) throw new Error('No good binder was made.')
    const data = previewData(binder.frame, binder.sheets, binder.language, binder.firstPage())
    const isPage = new Set(['index.html', 'look-up.html', ...data.sheets.map(({ file }) => file)])
    const wanted = new Set(paths.filter((path) => isPage.has(path)))
    current = { binder, data }
    all = undefined
    const pages = wanted.size > 0 ? await buildPages(data, wanted) : []
    return new Map([
      ...commonFiles(binder.language),
      ...pages.map(({ path, content }): [string, string] => [path, content]),
    ])
  }

  const file = async (path: string): Promise<string | Uint8Array | undefined> => {
    const font = fontFiles().find(({ name }) => path === `assets/fonts/${name}`)
    if (font) return readFileSync(font.path)
    if (!current) return undefined
    const { binder, data } = current
    if (!path.startsWith('assets/') && !path.endsWith('.html'))
      return binder
        .outputFiles()
        .find((one) => one.path === path)
        ?.text()
    if (path.endsWith('.html') && path !== 'print.html')
      return (await buildPages(data, new Set([path])))[0]?.content
    const asset = assetsOf(binder.frame, binder.sheets, papersOfSite(binder.content, binder.papers)).find(
      (one) => one.path === path,
    )
    if (asset?.of !== 'pages') return asset?.make([])
    all ??= buildPages(data, new Set(data.sheets.map((sheet) => sheet.file)))
    return asset.make(await all)
  }

  return { common: async () => commonFiles(FIRST_LANGUAGE), make, accept, file, end: () => undefined }
}

const commonFiles = (language: string): Files => {
  const catalogue = readCatalogue(language)
  return previewFiles(language, (key) => catalogue.phrase(key), {
    waiting: WAITING,
    mistakes: MISTAKES,
    gone: GONE,
  })
}

const faultOf = (error: unknown): string => {
  if (process.env.KETTLE_DEBUG === '1') console.error(error)
  return `The program failed: ${(error as Error)?.message ?? error}\nThis is a fault of the program. KETTLE_DEBUG=1 shows where it happened. What you saved last led to it: the preview goes on with the next save.`
}
