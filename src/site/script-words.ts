/** What scripts say: phrases of the catalogue as they stand, placeholders and all, under the names that scripts know. */
import type { Frame } from '../sheets/frame.ts'
import type { Inline } from '../sheets/model.ts'
import { benchWords } from './bench.ts'
import { dataScript } from './scripts.ts'

/** Name in a script to key of a phrase; `browser/words.ts` fills the placeholders. */
const SAID = {
  today: 'site.today', tomorrow: 'site.tomorrow', nothingToday: 'site.nothing-today', nextDay: 'site.next-day', planOver: 'site.plan-over',
  earlier: 'site.earlier', later: 'site.later', searchHint: 'site.search-hint', found: 'site.found', foundOne: 'site.found-one', foundFirst: 'site.found-first',
  foundNone: 'site.found-none', searchMissing: 'site.search-missing', inSection: 'site.in-section', wideTable: 'site.wide-table', wideDrawing: 'site.wide-drawing',
  'code-length': 'code.slip.length', 'code-letters': 'code.slip.letters', 'code-revision': 'code.slip.revision', 'code-check': 'code.slip.check',
  'code-unknown': 'code.unknown', 'code-current': 'code.current', 'code-current-draft': 'code.current-draft', 'code-old': 'code.old', 'code-gone': 'code.gone',
  'code-newer': 'code.newer', 'code-draft': 'code.draft', 'code-not-kept': 'code.not-kept', 'code-changed': 'code.changed', 'code-open': 'code.open',
} as const // biome-ignore format: a table reads better in rows

/** Words of `assets/words.js`. @param same what is searched for under two names */
export const scriptWords = ({ say }: Frame, same?: Inline): string =>
  dataScript('kettleWords', {
    ...Object.fromEntries(
      Object.entries({ ...SAID, ...benchWords }).map(([name, key]) => [name, say(key).text]),
    ),
    searchSame: same?.text ?? '',
  })
