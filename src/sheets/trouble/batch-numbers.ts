/** Numbers of this shop's batches that troubles name, side by side. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { madeBatches } from '../../binder/caution-figures.ts'
import { empty, nothing, number, words } from '../compose.ts'
import { logNumber } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Block, Cell, Inline, Sheet } from '../model.ts'
import { codeLinks } from './symptoms.ts'

/**
 * @param sheets those of the batches and their logs, which the numbers lead to
 * @returns a row for each batch that may be made
 */
export const batchNumbers = (frame: Frame, binder: BoundBinder, sheets: readonly Sheet[]): Block => {
  const batches = madeBatches(binder)
  if (batches.length === 0) return nothing
  const { say } = frame
  const head = (key: string, width?: number) => ({
    head: say(`trouble.numbers.${key}`),
    align: key === 'batch' ? ('left' as const) : ('right' as const),
    ...(width === undefined ? {} : { width }),
  })
  return {
    kind: 'table',
    caption: say('trouble.numbers.caption', codeLinks),
    columns: [
      head('batch', 20),
      head('thick'),
      head('core', 18),
      head('limit', 13),
      head('strip'),
      head('cut'),
      head('latest'),
      head('log'),
    ],
    rows: batches.map((batch) => rowOf(frame, binder, sheets, batch)),
  }
}

const rowOf = (frame: Frame, binder: BoundBinder, sheets: readonly Sheet[], batch: BoundBatch): Cell[] => {
  const { say, show } = frame
  const { blockHeat } = batch
  const name = `trouble.${batch.key}`
  const hours = (what: string, time: number | undefined): Cell =>
    time === undefined ? words(say('trouble.numbers.not-known')) : number(show.hours(`${name}.${what}`, time))
  return [
    words(
      say('trouble.numbers.of', {
        recipe: batch.recipeTitle,
        sheet: linkOf(frame, sheets, `batch/${batch.key}`),
      }),
    ),
    batch.timeToThick > 0
      ? number(show.minutes(`${name}.thick`, batch.timeToThick))
      : words(say('trouble.numbers.not-tried')),
    ...(blockHeat
      ? [
          number(show.temperature(`${name}.core`, blockHeat.heat.peak.high)),
          number(show.temperature(`${name}.limit`, blockHeat.tooHot)),
          hours('strip', blockHeat.heat.strip.nominal),
          hours('cut', blockHeat.heat.earliestCut.nominal),
          hours('latest', blockHeat.heat.latestCut.nominal),
        ]
      : [empty, empty, empty, empty, empty]),
    logOf(binder, sheets, batch),
  ]
}

const logOf = (binder: BoundBinder, sheets: readonly Sheet[], batch: BoundBatch): Cell => {
  const cure = binder.cures.find((one) => one.batch === batch)
  if (!cure) return empty
  const id = `cure/${batch.key}`
  const sheet = sheets.find((one) => one.id === id)
  return words(linkTo(sheet ?? { id, number: logNumber(binder, cure) }))
}

const linkOf = ({ say }: Frame, sheets: readonly Sheet[], id: string): Inline => {
  const sheet = sheets.find((one) => one.id === id)
  return sheet ? linkTo(sheet) : say('reference.none')
}
