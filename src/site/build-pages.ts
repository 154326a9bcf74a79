/** Runs Eleventy over our own templates with a composed binder as data; the one place that knows Eleventy. */
import { fileURLToPath } from 'node:url'
import Eleventy from '@11ty/eleventy'
import type { Inline, Sheet, Value } from '../sheets/model.ts'

/** One finished page: where it goes below the output folder, and its whole text. */
export interface Page {
  readonly path: string
  readonly content: string
}

export interface SiteData {
  readonly language: string
  readonly title: Inline
  readonly sheets: readonly SitedSheet[]
  /** the same by section, in order */
  readonly sections: readonly {
    readonly anchor: string
    readonly name: Inline
    readonly sheets: readonly SitedSheet[]
  }[]
  /** sheets that are looked for in a hurry, with what they are called there; the first leads from every page */
  readonly urgent: readonly { readonly words: Inline; readonly file: string }[]
  readonly batches: readonly {
    readonly item: SitedSheet
    readonly isStopped: boolean
    /** its cards, record, logs and labels by what they are to it */
    readonly kin: readonly { readonly words: Inline; readonly item: SitedSheet }[]
  }[]
  readonly days: readonly {
    readonly day: Value
    readonly tasks: readonly { readonly words: Inline; readonly file: string | undefined }[]
  }[]
  /** written beside the pages, by their paths below the output folder */
  readonly files: readonly { readonly path: string; readonly words: Inline }[]
  /** by anchor: the page of a sheet, from a sheet's own page */
  readonly hrefs: Readonly<Record<string, string>>
  /** chrome of the site and of the print document, already worded */
  readonly words: Readonly<Record<string, Inline>>
  /** what a page of the site may load: nothing but what lies beside it */
  readonly policy: string
  /** it is shown while its files are edited: nothing of it is printed, and a script of its own keeps it up to date */
  readonly preview?: boolean
  /** styles of the printed document, with the fonts inside */
  readonly printStyles: string
}

export interface SitedSheet {
  readonly sheet: Sheet
  readonly file: string
  /** among all sheets, counted from 0 */
  readonly place: number
  /** anchor of its section on the first page */
  readonly section: string
  /** beyond those of every page: names of `browser/NAME.page.ts` and of `layouts/styles/NAME.css` */
  readonly scripts: readonly string[]
  readonly styles: readonly string[]
  /** of a sheet that is followed at the bench: what its script knows, as JSON */
  readonly bench?: string
  /** for a camera: what is on the paper, as a drawing; of cards only */
  readonly scan?: string
}

const root = fileURLToPath(new URL('../../', import.meta.url))

/**
 * Page paths relative to the output folder; the print document is `print.html`, for src/print only.
 *
 * @param only paths of the pages that are wanted; all of them where it is left out
 */
export const buildPages = async (data: SiteData, only?: ReadonlySet<string>): Promise<Page[]> => {
  const isMade = (path: string): boolean => only === undefined || only.has(path)
  // a template makes a page for each thing on its list, and none for an empty one
  const made = {
    home: isMade('index.html') ? [true] : [],
    lookUp: isMade('look-up.html') ? [true] : [],
    print: isMade('print.html') ? [true] : [],
    sheets: data.sheets.filter(({ file }) => isMade(file)),
  }
  // Eleventy resolves its folders against the working directory; ours are where the program stands.
  const before = process.cwd()
  process.chdir(root)
  try {
    const eleventy = new Eleventy('layouts/pages', '.pages', {
      quietMode: true,
      configPath: '.eleventy.js',
      config: (config) => {
        config.addGlobalData('binder', data)
        config.addGlobalData('made', made)
      },
    })
    eleventy.disableLogger()
    const pages = await eleventy.toJSON()
    return pages
      .map((page) => ({
        path: page.url.replace(/^\//, '').replace(/(^|\/)$/, '$1index.html'),
        content: page.content,
      }))
      .sort((a, b) => (a.path < b.path ? -1 : 1))
  } finally {
    process.chdir(before)
  }
}
