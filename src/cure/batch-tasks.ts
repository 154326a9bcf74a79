/** The tasks of a batch from pour to sell-by, from the durations of its recipe and mould. */
import { MINUTES_A_DAY } from '../units/civil-day.ts'
import type { TaskRule } from './task-times.ts'

/** Of a task, in min after another. */
export interface TaskWindow {
  readonly earliest: number
  readonly latest?: number
}

export interface BatchDurations {
  /** min after the pour, in which the core is hottest; undefined when nobody could reckon it */
  readonly hottest?: { readonly earliest: number; readonly latest: number }
  /** min after the pour */
  readonly strip: TaskWindow
  /** min after the pour: soft enough not to crack, firm enough not to drag */
  readonly cut: TaskWindow
  /** min after the cut */
  readonly slice: TaskWindow
  /** min after the slice; undefined when bars are not stamped */
  readonly stamp?: TaskWindow
  /** d after the pour */
  readonly turns: readonly number[]
  readonly weighIns: readonly number[]
  readonly releaseTest: number
  readonly label: number
  readonly sellBy: number
  /** min of work; to prepare goes before the pour */
  readonly work: {
    readonly prepare: number
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
 *     pour → hottest, strip, cut → slice → stamp      pour → turns, weigh-ins, release test → label, sell by
 *
 * Windows (strip, cut, slice, stamp) are not passed. Turns, weigh-ins, test and label have a day and no hour, and wait
 * for the next day with work: a turn and a weigh-in of one day stay together. Somebody must be awake while the core is
 * hottest; nobody is needed on the day of sell-by.
 *
 * @param durations min and d, as each says
 * @returns rules for `taskTimes` [min]; tasks that repeat are named by their day: turn-7, weigh-in-14
 * @source common practice
 */
export function batchTasks(durations: BatchDurations): TaskRule[] {
  const { work, hottest } = durations
  const later = (task: string, days: number, minutes: number, behind?: string): TaskRule => ({
    task,
    after: 'pour',
    ...(behind === undefined ? {} : { behind }),
    earliest: days * MINUTES_A_DAY,
    work: minutes,
    moving: 'day',
  })
  const within = (
    task: string,
    after: string,
    { earliest, latest }: TaskWindow,
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
    { task: 'pour', after: undefined, earliest: 0, work: work.pour, lead: work.prepare, moving: 'later' },
    ...(hottest ? [{ task: 'hottest', after: 'pour', ...hottest, work: 0, moving: 'awake' } as const] : []),
    within('strip', 'pour', durations.strip, work.strip, 'pour'),
    within('cut', 'pour', durations.cut, work.cut, 'strip'),
    within('slice', 'cut', durations.slice, work.slice, 'cut'),
    ...(durations.stamp ? [within('stamp', 'slice', durations.stamp, work.stamp, 'slice')] : []),
    ...durations.turns.map((days) => later(`turn-${days}`, days, work.turn, 'slice')),
    ...durations.weighIns.map((days) => later(`weigh-in-${days}`, days, work.weighIn, 'slice')),
    later('release-test', durations.releaseTest, work.releaseTest, 'slice'),
    later('label', durations.label, work.label, 'release-test'),
    { task: 'sell-by', after: 'pour', earliest: durations.sellBy * MINUTES_A_DAY, work: 0, moving: 'stays' },
  ]
}
