/** What is done at the block by the clock: the hours of section 7 laid into the hours of the shop. */
import type { BoundCure } from '../../binder/bind-calendar.ts'
import { minutesAt, momentAt } from '../../units/civil-day.ts'
import { empty, nothing, number, words } from '../compose.ts'
import { printedTasks } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell } from '../model.ts'

const HOUR = 3600

/** s after the pour, told to the hour as in the step of the cut: when the slowest history is cool enough to cut, and when the soap gets hard. */
const blindCut = ({ batch }: BoundCure): { readonly late: number | undefined; readonly latest: number } => ({
  late: batch.blockHeat?.heat.earliestCut.high,
  latest: batch.blockHeat?.heat.latestCut.nominal ?? 0,
})

/** @param cure the batch's own place in the plan of all batches; a batch that is stopped has none */
export const blockClock = ({ say, show }: Frame, cure: BoundCure | undefined): Block => {
  if (!cure) return nothing
  const tasks = printedTasks(cure)
  const of = (name: string) => tasks.find(({ task }) => task === name)
  const pour = of('pour')
  if (!pour) return nothing
  const hottest = of('hottest')
  const cut = of('cut')
  const at = (name: string): Cell => {
    const task = of(name)
    return task ? number(show.moment(`clock.${name}`, task.at)) : words(say('calendar.no-day'))
  }
  const { latest, late } = blindCut(cure)
  return {
    kind: 'table',
    caption: say('block.clock.caption', { time: show.time('clock.pourAt', pour.at.minute) }),
    columns: ['begin', 'pour', 'watch', 'strip', 'cut', 'blind', 'latest'].map((key) => ({
      head: say(`block.clock.${key}`),
      align: 'left' as const,
    })),
    rows: [
      [
        number(show.moment('clock.begin', momentAt(minutesAt(pour.at) - pour.lead))),
        at('pour'),
        hottest?.closes
          ? words(
              say('calendar.from-to', {
                from: show.moment('clock.watch.from', hottest.at),
                to: show.moment('clock.watch.to', hottest.closes),
              }),
            )
          : words(say('block.clock.no-watch')),
        at('strip'),
        at('cut'),
        late === undefined || late > latest
          ? words(say('block.clock.blind-never'))
          : number(show.moment('clock.blind', momentAt(minutesAt(pour.at) + Math.round(late / HOUR) * 60))),
        cut?.closes ? number(show.moment('clock.latest', cut.closes)) : empty,
      ],
    ],
  }
}
