/** What was not as planned, what is put away, how the bars cured, and who let them go. */
import type { BoundRecord } from '../../binder/bind-record.ts'
import { choices, empty, type Fill, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'
import { typedOr } from './cells.ts'

/** kg */
const GRAM = 0.001
const DEVIATION_ROWS = 3
const SAMPLE_ROWS = 2

/** each with its share of the width in percent; 0 shares what is left */
const CURE_COLUMNS = { stands: 16, from: 13, last: 15, wrapped: 14, weights: 0, 'sell-by': 19 }

const emptyRow = (columns: number): Cell[] => Array.from({ length: columns }, () => empty)

export const deviationTable = (frame: Frame, { made }: BoundRecord): Table => {
  const { say, show } = frame
  const typed = made?.deviations ?? []
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.deviations.caption'),
    columns: [
      { head: say('record.deviations.date'), align: 'left', width: 14 },
      { head: say('record.deviations.what'), align: 'left' },
      { head: say('record.deviations.done'), align: 'left', width: 36 },
      { head: say('record.deviations.by'), align: 'left', width: 12 },
    ],
    rows: [
      ...typed.map(({ date, what, done, by }, index): Cell[] => [
        typedOr(
          frame,
          date === undefined ? undefined : show.shortDate(`made.deviation.${index + 1}.date`, date),
        ),
        typedOr(frame, what),
        typedOr(frame, done),
        typedOr(frame, by),
      ]),
      ...Array.from({ length: Math.max(1, DEVIATION_ROWS - typed.length) }, () => emptyRow(4)),
    ],
  }
}

export const sampleTable = (frame: Frame, { made }: BoundRecord): Table => {
  const { say, show } = frame
  const typed = made?.samples ?? []
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.samples.caption'),
    columns: [
      { head: say('record.samples.what'), align: 'left' },
      { head: say('record.samples.bars'), align: 'left', width: 10 },
      { head: say('record.samples.place'), align: 'left', width: 30 },
      { head: say('record.samples.until'), align: 'left', width: 22 },
    ],
    rows: [
      ...typed.map(({ what, bars, place, until }, index): Cell[] => [
        typedOr(frame, what),
        typedOr(frame, show.count(`made.sample.${index + 1}.bars`, bars)),
        typedOr(frame, place),
        typedOr(frame, until === undefined ? undefined : show.date(`made.sample.${index + 1}.until`, until)),
      ]),
      ...Array.from({ length: Math.max(0, SAMPLE_ROWS - typed.length) }, () => emptyRow(4)),
    ],
  }
}

/** Where the bars stand, and what they weighed: each weighing is written on the weigh-in log. */
export const cureTable = (frame: Frame, { made, cure }: BoundRecord, links: Fill): Table => {
  const { say, show } = frame
  const racked = cure.planned.tasks.find(({ task }) => task === 'slice')
  const sellBy = cure.planned.tasks.find(({ task }) => task === 'sell-by')
  const last = cure.weighIns.at(-1)
  const wrapped = made?.wrapped
  const weights = wrapped?.weights ?? []
  const mean = weights.reduce((sum, one) => sum + one, 0) / weights.length
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.cure.caption', links),
    columns: Object.entries(CURE_COLUMNS).map(([key, width]) => ({
      head: say(`record.cure.${key}`),
      align: 'left' as const,
      ...(width > 0 ? { width } : {}),
    })),
    rows: [
      [
        typedOr(frame, made?.stands),
        racked && !cure.cutUnknown ? number(show.shortDate('record.racked', racked.at.date)) : empty,
        last
          ? typedOr(
              frame,
              say('record.cure.weighed', {
                date: show.shortDate('made.last-weighed', last.date),
                mass: show.weight('made.last-weight', last.mass, GRAM),
              }),
            )
          : words(say('record.cure.log', links)),
        typedOr(frame, wrapped && show.shortDate('made.wrapped', wrapped.date)),
        typedOr(
          frame,
          wrapped &&
            say('record.cure.of-bars', {
              bars: show.count('made.weights', weights.length),
              low: show.weight('made.weights.low', Math.min(...weights), GRAM),
              mean: show.weight('made.weights.mean', mean, GRAM),
              high: show.weight('made.weights.high', Math.max(...weights), GRAM),
            }),
        ),
        sellBy && !cure.cutUnknown ? number(show.date('record.sell-by', sellBy.at.date)) : empty,
      ],
    ],
  }
}

/** Who answers for it: made, checked, tested, looked through, decided. */
export const signedTable = (frame: Frame, { made, cure, batch }: BoundRecord, links: Fill): Table => {
  const { say, show } = frame
  const test = cure.planned.tasks.find(({ task }) => task === 'release-test')
  const { release } = made ?? {}
  const tested = batch.file.value['release-test']
  const date = (name: string, day: string | undefined): Cell =>
    typedOr(frame, day === undefined ? undefined : show.date(`made.${name}.date`, day))
  const open = (keys: readonly string[]): Cell => choices(keys.map((key) => say(`record.signed.${key}`)))
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.signed.caption'),
    columns: [
      { head: say('record.signed.what'), align: 'left' },
      { head: say('record.signed.decision'), align: 'left', width: 17 },
      { head: say('record.signed.date'), align: 'left', width: 20 },
      { head: say('record.signed.name'), align: 'left', width: 14 },
      { head: say('record.signed.signature'), align: 'left', width: 17 },
    ],
    rows: [
      [words(say('record.signed.made')), empty, empty, typedOr(frame, made?.weighed), empty],
      [words(say('record.signed.checked')), empty, empty, typedOr(frame, made?.checked), empty],
      [
        words(
          test && !cure.cutUnknown
            ? say('record.signed.tested-from', {
                ...links,
                date: show.shortDate('record.test-day', test.at.date),
              })
            : say('record.signed.tested', links),
        ),
        tested
          ? typedOr(frame, say(tested.result === 'passed' ? 'record.signed.passed' : 'record.signed.failed'))
          : open(['passed', 'failed']),
        date('tested', tested?.date),
        typedOr(frame, tested?.by),
        empty,
      ],
      [words(say('record.signed.looked-through')), open(['nothing-open']), empty, empty, empty],
      [
        words(say('record.signed.decided')),
        release
          ? typedOr(frame, say(`record.signed.${release.decision}`))
          : open(['released', 'held', 'rejected']),
        date('release', release?.date),
        typedOr(frame, release?.by),
        empty,
      ],
      [words(say('record.signed.why')), typedOr(frame, release?.why), empty, empty, empty],
    ],
  }
}
