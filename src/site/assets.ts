/** What pages of the site load, as files below the output folder: styles, scripts, and words for scripts. */
import type { Frame } from '../sheets/frame.ts'
import type { Page } from './build-pages.ts'
import { scriptWords } from './script-words.ts'
import { siteScripts } from './scripts.ts'
import { stylesOfKinds } from './site-data.ts'
import { screenStyles, style } from './styles.ts'

/** All but the fonts, which are copied. */
export const siteAssets = (frame: Frame): readonly Page[] => [
  { path: 'assets/screen.css', content: screenStyles() },
  ...stylesOfKinds().map((name) => ({ path: `assets/${name}.css`, content: style(name) })),
  { path: 'assets/words.js', content: scriptWords(frame) },
  ...siteScripts(),
]
