/** What scripts say: phrases of the catalogue as they stand, placeholders and all, under the names that scripts know. */
import type { Frame } from '../sheets/frame.ts'
import { dataScript } from './scripts.ts'

/** Name in a script to key of a phrase; `browser/words.ts` fills the placeholders. */
const SAID = {
  today: 'site.today', tomorrow: 'site.tomorrow', nothingToday: 'site.nothing-today', nextDay: 'site.next-day', planOver: 'site.plan-over',
  earlier: 'site.earlier', later: 'site.later', searchHint: 'site.search-hint', found: 'site.found', foundOne: 'site.found-one', foundFirst: 'site.found-first',
  foundNone: 'site.found-none', searchMissing: 'site.search-missing', inSection: 'site.in-section', searchSame: 'site.search-same', wideTable: 'site.wide-table', wideDrawing: 'site.wide-drawing',
} as const // biome-ignore format: a table reads better in rows

/** Words of `assets/words.js`. */
export const scriptWords = ({ say }: Frame): string =>
  dataScript(
    'kettleWords',
    Object.fromEntries(Object.entries(SAID).map(([name, key]) => [name, say(key).text])),
  )
