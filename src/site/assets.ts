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

/**
 * All but the fonts, which are copied.
 * @param pages finished, since what they show can be searched
 * @param same  what is searched for under two names
 */
export const siteAssets = (
  frame: Frame,
  sheets: readonly Sheet[],
  pages: readonly Page[],
  papers?: PapersOfSite,
  same?: Inline,
): readonly Page[] => [
  { path: 'assets/screen.css', content: screenStyles() },
  ...stylesOfKinds().map((name) => ({ path: `assets/${name}.css`, content: style(name) })),
  { path: 'assets/words.js', content: scriptWords(frame, same) },
  { path: 'assets/search-index.js', content: dataScript('kettleSearch', searchData(sheets, pages)) },
  { path: 'assets/codes.js', content: codesScript(frame, sheets, papers) },
  ...siteScripts(),
]
