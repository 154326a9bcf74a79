/** Every state of a binder, and the phrases that it says. */
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { printJob } from '../../src/site/print-job.ts'
import { siteData } from '../../src/site/site-data.ts'
import type { Catalogue } from '../../src/text/catalogue.ts'
import { isSoak } from '../long.ts'
import { type Binder, composeEdited, STATES, type State } from '../sites/edited-demo.ts'

/** Those that are looked at each day: all are in the soak. */
const DAILY: readonly State[] = [
  'go',
  'a batch that was made, and not as planned',
  'metric shop, other paper',
  'fixtures that were measured',
  'the whole demo',
]
export const LOOKED_AT = isSoak ? (Object.keys(STATES) as State[]) : DAILY

export const words = readCatalogue('en')

/** Keys of all phrases that were said. */
export const said = new Set<string>()

/** One for all states: a fixture that several of them have is then composed once. */
const listening: Catalogue = {
  ...words,
  phrase: (key) => {
    said.add(key)
    return words.phrase(key)
  },
}

const compose = async (): Promise<ReadonlyMap<State, Binder>> => {
  const binders = new Map<State, Binder>()
  for (const state of LOOKED_AT) {
    const binder = await composeEdited(STATES[state], () => listening)
    siteData(binder.frame, binder.sheets, '', 'en', binder.firstPage())
    for (const { text } of binder.outputFiles()) text()
    printJob(binder.content.shop.value, binder.frame, binder.sheets, '')
    binders.set(state, binder)
  }
  return binders
}

let composed: Promise<ReadonlyMap<State, Binder>> | undefined

/** Composed when they are first asked for. */
export const everyState = (): Promise<ReadonlyMap<State, Binder>> => {
  composed ??= compose()
  return composed
}

/** Every state is proved with solids: a busy machine takes its time. [ms] */
export const PATIENCE = 600_000
