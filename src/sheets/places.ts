/** Sheets that every binder has, by their numbers, and how other sheets point to them. */
import type { Fill } from './compose.ts'
import { inlineList } from './compose.ts'
import type { Frame } from './frame.ts'
import { linkTo, type Place } from './links.ts'
import type { Inline, Sheet } from './model.ts'

export const PLACES = {
  spine: { id: 'front/spine', number: '1.3' },
  tabs: { id: 'front/tabs', number: '1.4' },
  lye: { id: 'cautions/lye', number: '2.1' },
  emergency: { id: 'cautions/emergency', number: '2.2' },
  spill: { id: 'cautions/spill', number: '2.3' },
  lifting: { id: 'cautions/lifting', number: '2.4' },
  wire: { id: 'cautions/wire', number: '2.5' },
  saw: { id: 'cautions/saw', number: '2.6' },
  scent: { id: 'cautions/scent', number: '2.7' },
  training: { id: 'training', number: '10.1' },
  trouble: { id: 'trouble', number: '11.1' },
  release: { id: 'release', number: '11.2' },
  'log-batches': { id: 'records/batches', number: '12.1' },
  'log-lots': { id: 'records/lots', number: '12.2' },
  'log-scales': { id: 'records/scales', number: '12.3' },
  'log-wires': { id: 'records/wires', number: '12.4' },
  'log-care': { id: 'records/care', number: '12.5' },
  'log-accidents': { id: 'records/accidents', number: '12.6' },
  printed: { id: 'printed', number: '12.7' },
  colophon: { id: 'colophon', number: '13.2' },
} as const satisfies Record<string, Place>

export type PlaceKey = keyof typeof PLACES

/** What sheets are to a batch, by how their ids begin, in the order of the work. */
export const BATCH_KIN = [
  ['card/weigh/', 'site.kin.weigh'],
  ['card/lye/', 'site.kin.lye'],
  ['card/blend/', 'site.kin.blend'],
  ['card/rack/', 'site.kin.rack'],
  ['card/wrap/', 'site.kin.wrap'],
  ['card/stop/', 'site.kin.stop'],
  ['record/', 'site.kin.record'],
  ['cure/', 'site.kin.log'],
  ['label/', 'site.kin.label'],
  ['labels/', 'site.kin.labels'],
] as const

/** Every sheet that all binders have, for the placeholders of a phrase. */
export const fixedLinks: Fill = Object.fromEntries(
  Object.entries(PLACES).map(([key, place]) => [key, linkTo(place)]),
)

/** Sheets that words point to together, by how their ids begin: their numbers, one after the other. */
const TOGETHER = {
  builds: /^(fixture|grid-cutter|bar-cutter|wires|trial-frame|lever-press)\//,
  batches: /^batch\//,
  recipes: /^recipe\//,
  logs: /^cure\/(?!plan$|racks$)/,
  plan: /^cure\/plan$/,
  racks: /^cure\/racks$/,
} as const

/**
 * What fills the references of a phrase.
 * @param sheets those that are there already; of a kind without any the words say so
 */
export const referencesTo = ({ say }: Frame, sheets: readonly Sheet[]): Fill => {
  const listed = (ids: RegExp): Inline =>
    inlineList(
      say,
      sheets.filter(({ id, stopped }) => ids.test(id) && !stopped).map((sheet) => linkTo(sheet)),
    )
  return {
    ...fixedLinks,
    ...Object.fromEntries(Object.entries(TOGETHER).map(([key, ids]) => [key, listed(ids)])),
  }
}
