/** When each task of one batch is done: its rules laid into the hours of a shop. */
import type { Finding } from '../findings.ts'
import { type Moment, minutesAt, momentAt } from '../units/civil-day.ts'
import { isAwake, isOpen, isRestDay, openFrom, type ShopHours } from './shop-hours.ts'

/** What becomes of a task that falls where nobody works. */
export type Moving =
  /** it waits for the next open time; its latest, if it has one, may not pass */
  | 'later'
  /** it stays: nobody is needed */
  | 'stays'
  /** it stays: somebody must be awake from its earliest to its latest */
  | 'awake'

/** A task by its rule. */
export interface TaskRule {
  readonly task: string
  /** the task it is counted from; undefined for the first */
  readonly after: string | undefined
  /** another task whose work must be over before */
  readonly behind?: string
  /** min after the task it is counted from */
  readonly earliest: number
  /** min after the task it is counted from; undefined when it may wait */
  readonly latest?: number
  /** min that somebody works on it; it must fit into the hours of one day */
  readonly work: number
  readonly moving: Moving
}

export interface PlannedTask {
  readonly task: string
  readonly after: string | undefined
  /** when it is done, and the bounds of its window */
  readonly at: Moment
  readonly opens: Moment
  readonly closes: Moment | undefined
  /** min between the task it is counted from and this one */
  readonly wait: number
  /** min that it was moved from when it was due */
  readonly moved: number
  readonly work: number
}

/**
 * Times of the tasks of a batch.
 *
 *     due = task before + earliest, not before the work it stands behind is over, moved to open time by its rule
 *
 * The pour is wanted at its hour: it is never moved in silence. Wall-clock time throughout: a night on which clocks are
 * moved makes its spans an hour longer or shorter.
 *
 * @param batch its name, for findings
 * @param pour  when it begins
 * @param rules in order, each after those it names; spans [min]
 * @param hours of the shop
 * @returns a task for each rule, and findings
 * @source common practice
 */
export function taskTimes(
  batch: string,
  pour: Moment,
  rules: readonly TaskRule[],
  hours: ShopHours,
): { readonly tasks: readonly PlannedTask[]; readonly findings: readonly Finding[] } {
  const findings: Finding[] = []
  const begun = minutesAt(pour)
  const done = new Map<string, number>()
  const over = new Map<string, number>()
  const tasks = rules.map((rule): PlannedTask => {
    const start = rule.after === undefined ? begun : (done.get(rule.after) ?? begun)
    const opens = Math.max(start + rule.earliest, over.get(rule.behind ?? '') ?? Number.NEGATIVE_INFINITY)
    const closes = rule.latest === undefined ? undefined : start + rule.latest
    const at = timeOf(rule, opens, closes, hours)
    const chosen = at ?? opens
    done.set(rule.task, chosen)
    over.set(rule.task, chosen + rule.work)
    const wrong = findingOf(batch, rule, { opens, closes, at }, hours)
    if (wrong) findings.push(wrong)
    return {
      task: rule.task,
      after: rule.after,
      at: momentAt(chosen),
      opens: momentAt(opens),
      closes: closes === undefined ? undefined : momentAt(closes),
      wait: chosen - start,
      moved: chosen - opens,
      work: rule.work,
    }
  })
  return { tasks, findings }
}

/** undefined when its window has closed before anybody is there */
const timeOf = (
  rule: TaskRule,
  due: number,
  closes: number | undefined,
  hours: ShopHours,
): number | undefined => {
  if (rule.moving !== 'later') return due
  if (rule.after === undefined) return isOpen(due, rule.work, hours) ? due : undefined
  const later = openFrom(due, rule.work, hours)
  return later !== undefined && (closes === undefined || later <= closes) ? later : undefined
}

const findingOf = (
  batch: string,
  rule: TaskRule,
  {
    opens,
    closes,
    at,
  }: { readonly opens: number; readonly closes: number | undefined; readonly at: number | undefined },
  hours: ShopHours,
): Finding | undefined => {
  const { task } = rule
  const { date, minute } = momentAt(opens)
  const until = momentAt(closes ?? opens)
  const rest = isRestDay(opens, hours)
  const values = { batch, task, date, minute, closes: until.date, closesMinute: until.minute }
  if (rule.moving === 'awake')
    return closes !== undefined && !isAwake(opens, closes, hours)
      ? { code: 'hottest-at-night', severity: 'warn', values }
      : undefined
  if (rule.moving === 'stays') return undefined
  if (rule.after === undefined) {
    if (at !== undefined) return undefined
    return { code: rest ? 'pour-on-rest-day' : 'pour-outside-hours', severity: 'stop', values }
  }
  if (at === undefined)
    return { code: rest ? 'window-on-rest-day' : 'window-at-night', severity: 'stop', values }
  // Nobody is there when the window opens, though somebody comes before it closes.
  if (closes !== undefined && at !== opens)
    return { code: rest ? 'window-opens-on-rest-day' : 'window-opens-at-night', severity: 'warn', values }
  return undefined
}
