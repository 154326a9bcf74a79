/** What several sheets of a balm binder say of a batch in the same way. */

import type { Frame } from '../../../src/sheets/frame.ts'
import { linkTo, type Place } from '../../../src/sheets/links.ts'
import type { Inline, Value } from '../../../src/sheets/model.ts'
import type { BoundBalm } from './bind.ts'

/** Sheets that every balm binder has. */
export const BALM_PLACES = {
  wax: { id: 'cautions/wax', number: '2.1' },
  printed: { id: 'printed', number: '5.1' },
  sources: { id: 'sources', number: '6.1' },
  colophon: { id: 'colophon', number: '6.2' },
} as const satisfies Record<string, Place>

export const links: Readonly<Record<keyof typeof BALM_PLACES, Inline>> = {
  wax: linkTo(BALM_PLACES.wax),
  printed: linkTo(BALM_PLACES.printed),
  sources: linkTo(BALM_PLACES.sources),
  colophon: linkTo(BALM_PLACES.colophon),
}

/** Where a batch stands among the others, on each of its sheets. */
export const placeOf = (kind: 'batch' | 'card' | 'record', { key }: BoundBalm, index: number): Place => {
  if (kind === 'batch') return { id: `batch/${key}`, number: `3.${index + 1}` }
  if (kind === 'card') return { id: `card/melt/${key}`, number: `4.${index + 1}` }
  // the papers that are out of date stand before them
  return { id: `record/${key}`, number: `5.${index + 2}` }
}

export const titled = ({ say, show }: Frame, key: string, batch: BoundBalm): Inline =>
  say(key, { title: batch.title, date: show.date(`batch.${batch.key}.date`, batch.file.value.date) })

/** Numbers of a batch that more than one sheet shows. */
export const shownOf = (
  { show }: Frame,
  { file, figures }: BoundBalm,
  shop: { hottest: number; lids: number },
) => ({
  tins: show.count('tins', file.value.tins),
  melt: show.temperature('melt.to', figures.meltTo),
  pour: show.temperature('pour.at', figures.pourAt),
  hottest: show.temperature('hottest', shop.hottest),
  tinMass: show.weight('tin.mass', figures.tinMass, GRAM),
  wait: show.hours('lids.after', shop.lids) as Value,
})

/** kg; a tin is poured to the gram, whatever scale it stands on */
export const GRAM = 0.001
