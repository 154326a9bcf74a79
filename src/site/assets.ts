/** What pages of the site load, as files below the output folder: styles, scripts, words and lists for scripts. */
import type { Frame } from '../sheets/frame.ts'
import type { Inline, Sheet } from '../sheets/model.ts'
import type { Page } from './build-pages.ts'
import { codesScript, type PapersOfSite } from './codes.ts'
import { scriptWords } from './script-words.ts'
import { dataScript, siteScripts } from './scripts.ts'
import { searchData } from './search-index.ts'
import { stylesOfKinds } from './site-data.ts'
import { screenStyles, style } from './styles.ts'

/** A file that pages load, made when it is wanted. */
export interface Asset {
  readonly path: string
  /** of what: pages that are finished, since what they show can be searched, or nothing but sheets */
  readonly of: 'pages' | 'sheets'
  readonly make: (pages: readonly Page[]) => string
}

/**
 * All but the fonts, which are copied.
 * @param same what is searched for under two names
 */
export const assetsOf = (
  frame: Frame,
  sheets: readonly Sheet[],
  papers?: PapersOfSite,
  same?: Inline,
): readonly Asset[] => [
  { path: 'assets/screen.css', of: 'sheets', make: screenStyles },
  ...stylesOfKinds().map(
    (name): Asset => ({ path: `assets/${name}.css`, of: 'sheets', make: () => style(name) }),
  ),
  { path: 'assets/words.js', of: 'sheets', make: () => scriptWords(frame, same) },
  {
    path: 'assets/search-index.js',
    of: 'pages',
    make: (pages) => dataScript('kettleSearch', searchData(sheets, pages)),
  },
  { path: 'assets/codes.js', of: 'sheets', make: () => codesScript(frame, sheets, papers) },
  ...siteScripts().map(({ path, content }): Asset => ({ path, of: 'sheets', make: () => content })),
]

/** The same, made. @param pages finished */
export const siteAssets = (
  frame: Frame,
  sheets: readonly Sheet[],
  pages: readonly Page[],
  papers?: PapersOfSite,
  same?: Inline,
): readonly Page[] =>
  assetsOf(frame, sheets, papers, same).map(({ path, make }) => ({ path, content: make(pages) }))
