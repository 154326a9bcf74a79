/** The tasks of a batch from pour to sell-by, from the durations of its recipe and mould. */
import type { TaskRule } from './calendar.ts'
import { MINUTES_A_DAY } from './civil-day.ts'

export interface BatchDurations {
  /** min after the pour */
  readonly strip: { readonly earliest: number; readonly latest?: number }
  /** min after the pour: soft enough not to crack, firm enough not to drag */
  readonly cut: { readonly earliest: number; readonly latest: number }
  /** min after the cut */
  readonly slice: { readonly earliest: number; readonly latest?: number }
  /** min after the slice; undefined when bars are not stamped */
  readonly stamp?: { readonly earliest: number; readonly latest?: number }
  /** d after the slice */
  readonly turns: readonly number[]
  readonly weighIns: readonly number[]
  /** d after the pour */
  readonly releaseTest: number
  readonly label: number
  readonly sellBy: number
  /** min of work */
  readonly work: {
    readonly pour: number
    readonly strip: number
    readonly cut: number
    readonly slice: number
    readonly stamp: number
    readonly turn: number
    readonly weighIn: number
    readonly releaseTest: number
    readonly label: number
  }
}

/**
 * Rules of all tasks of a batch, in order.
 *
 *     pour → strip, cut → slice → stamp, turns, weigh-ins      pour → release test, label, sell by
 *
 * Windows (strip, cut, slice, stamp) are not passed. A turn moves to the nearest open day. Weigh-ins, test and label
 * wait. Nobody is needed on the day of sell-by.
 *
 * @param durations min and d, as each says
 * @returns rules for `planCalendar` [min]; tasks that repeat are named turn-1, turn-2 …
 * @source common practice
 */
export function batchTasks(durations: BatchDurations): TaskRule[] {
  const { work } = durations
  const later = (task: string, after: string, days: number, minutes: number, behind?: string): TaskRule => ({
    task,
    after,
    ...(behind === undefined ? {} : { behind }),
    earliest: days * MINUTES_A_DAY,
    work: minutes,
    moving: 'later',
  })
  const window = (
    task: string,
    after: string,
    { earliest, latest }: { readonly earliest: number; readonly latest?: number },
    minutes: number,
    behind: string,
  ): TaskRule => ({
    task,
    after,
    behind,
    earliest,
    ...(latest === undefined ? {} : { latest }),
    work: minutes,
    moving: 'later',
  })
  return [
    { task: 'pour', after: undefined, earliest: 0, work: work.pour, moving: 'later' },
    window('strip', 'pour', durations.strip, work.strip, 'pour'),
    window('cut', 'pour', durations.cut, work.cut, 'strip'),
    window('slice', 'cut', durations.slice, work.slice, 'cut'),
    ...(durations.stamp ? [window('stamp', 'slice', durations.stamp, work.stamp, 'slice')] : []),
    ...durations.turns.map(
      (days, i): TaskRule => ({
        ...later(`turn-${i + 1}`, 'slice', days, work.turn, 'slice'),
        moving: 'nearest',
      }),
    ),
    ...durations.weighIns.map((days, i) => later(`weigh-in-${i + 1}`, 'slice', days, work.weighIn, 'slice')),
    later('release-test', 'pour', durations.releaseTest, work.releaseTest),
    later('label', 'pour', durations.label, work.label, 'release-test'),
    { ...later('sell-by', 'pour', durations.sellBy, 0), moving: 'stays' },
  ]
}
