/** The hours from the pour to the latest cut as a picture, laid into the days of the calendar. */
import type { BoundCure } from '../../binder/bind-calendar.ts'
import { type TimelineLane, timeline } from '../../drawing/timeline.ts'
import { dateOf, MINUTES_A_DAY, minutesAt } from '../../units/civil-day.ts'
import { inlineWords, nothing } from '../compose.ts'
import { printedTasks } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Block } from '../model.ts'

/** mm; between the margins of either paper */
const WIDTH = 172
/** min between two hours of the axis */
const EVERY = 6 * 60

/** @param cure the batch's own place in the plan of all batches; nothing for one that is stopped or is never cool enough to cut */
export const pourToCut = ({ say, show }: Frame, cure: BoundCure | undefined): Block => {
  const tasks = cure ? printedTasks(cure) : []
  const of = (name: string) => tasks.find(({ task }) => task === name)
  const [pour, cut, hottest, strip] = ['pour', 'cut', 'hottest', 'strip'].map(of)
  const blockHeat = cure?.batch.blockHeat
  if (!pour || !cut?.closes || !blockHeat) return nothing
  const begins = minutesAt(pour.at)
  const closes = minutesAt(cut.closes)
  const after = (seconds: number): number => begins + seconds / 60
  const { heat } = blockHeat
  const hard = Math.min(closes, Math.max(minutesAt(cut.at), after(heat.latestCut.low)))
  const lane = (
    key: string,
    spans: TimelineLane['spans'],
    moments: readonly number[] = [],
  ): TimelineLane => ({
    name: inlineWords(say(`block.timeline.${key}`)),
    spans,
    moments,
  })
  const lanes = [
    lane('pour', [], [begins]),
    ...(hottest?.closes
      ? [lane('watch', [{ from: minutesAt(hottest.at), to: minutesAt(hottest.closes), kind: 'sure' }])]
      : []),
    lane('hottest', [{ from: after(heat.peakTime.low), to: after(heat.peakTime.high), kind: 'may' }]),
    ...(strip ? [lane('strip', [], [minutesAt(strip.at)])] : []),
    lane('cut', [
      { from: minutesAt(cut.at), to: hard, kind: 'sure' },
      { from: hard, to: closes, kind: 'may' },
    ]),
  ]
  // from a whole hour of the axis before the pour to one after the cut
  const from = Math.floor(begins / EVERY) * EVERY
  const to = Math.ceil(closes / EVERY) * EVERY
  const along = (step: number, first: number) =>
    Array.from({ length: Math.floor((to - first) / step) + 1 }, (_, index) => first + index * step)
  const drawn = timeline({
    name: 'pour-to-cut',
    label: inlineWords(say('block.timeline.label')),
    width: WIDTH,
    from,
    to,
    hours: along(EVERY, from).map((at) => ({ at, shown: show.time('', at % MINUTES_A_DAY).shown })),
    days: along(MINUTES_A_DAY, Math.floor(from / MINUTES_A_DAY) * MINUTES_A_DAY).map((at) => ({
      at,
      shown: show.shortDate('', dateOf(at / MINUTES_A_DAY)).shown,
    })),
    lanes,
  })
  return { kind: 'figure', svg: drawn.svg, caption: say('block.timeline.caption'), values: [] }
}
