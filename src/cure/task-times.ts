/** When each task of one batch is done: its rules laid into the hours of a shop. */
import type { Finding } from '../findings.ts'
import { MINUTES_A_DAY, type Moment, minutesAt, momentAt } from '../units/civil-day.ts'
import {
  dayFrom,
  dayOf,
  isAwake,
  isOpen,
  isRestDay,
  openFrom,
  openUntil,
  type ShopHours,
} from './shop-hours.ts'

/** What becomes of a task that falls where nobody works. */
export type Moving =
  /** it waits for the next open time; its latest, if it has one, may not pass */
  | 'later'
  /** it is due on a day, at no hour of it; it waits for the next day with work */
  | 'day'
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
  /** min of work that must go before, on the same day; of the first task only */
  readonly lead?: number
  readonly moving: Moving
}

export interface PlannedTask {
  readonly task: string
  readonly after: string | undefined
  /** when it is done, and the bounds of its window; it closes at the last hour at which somebody can still begin it */
  readonly at: Moment
  readonly opens: Moment
  readonly closes: Moment | undefined
  /** min between the task it is counted from and this one */
  readonly wait: number
  /** min that it was moved from when it was due */
  readonly moved: number
  readonly work: number
  readonly lead: number
  /** done on its day at no hour; its moment is when the shop opens, or when what it stands behind is over */
  readonly wholeDay: boolean
}

/**
 * Times of the tasks of a batch.
 *
 *     due = task before + earliest, not before the work it stands behind is over, moved to open time by its rule
 *
 * The pour is wanted at its hour: it is never moved in silence. A window opens when its task is due, whatever the task
 * stands behind: nobody sees to it before somebody is there. It closes when somebody can begin it last. Wall-clock time throughout: a night on which clocks are
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
    const due = rule.moving === 'day' ? dayOf(start + rule.earliest) * MINUTES_A_DAY : start + rule.earliest
    const opens = Math.max(due, over.get(rule.behind ?? '') ?? Number.NEGATIVE_INFINITY)
    const closes = rule.latest === undefined ? undefined : start + rule.latest
    const at = timeOf(rule, opens, closes, hours)
    const chosen = at ?? opens
    const isDay = rule.moving === 'day'
    done.set(rule.task, chosen)
    over.set(rule.task, chosen + rule.work)
    const wrong = findingOf(batch, rule, { due, opens, closes, at }, hours)
    if (wrong) findings.push(wrong)
    const days = (from: number): number => (dayOf(chosen) - dayOf(from)) * MINUTES_A_DAY
    return {
      task: rule.task,
      after: rule.after,
      at: momentAt(chosen),
      opens: momentAt(opens),
      closes: closes === undefined ? undefined : momentAt(lastStart(rule, at, closes, hours)),
      wait: isDay ? days(start) : chosen - start,
      moved: isDay ? days(opens) : chosen - opens,
      work: rule.work,
      lead: rule.lead ?? 0,
      wholeDay: isDay,
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
  if (rule.moving === 'day') return dayFrom(due, hours)
  if (rule.moving !== 'later') return due
  const { lead = 0 } = rule
  if (rule.after === undefined) return isOpen(due - lead, lead + rule.work, hours) ? due : undefined
  const later = openFrom(due, rule.work, hours)
  return later !== undefined && (closes === undefined || later <= closes) ? later : undefined
}

/** What somebody does can be begun last while the shop is open; nobody's hours bound what stays, or what nobody can do. */
const lastStart = (rule: TaskRule, at: number | undefined, closes: number, hours: ShopHours): number =>
  rule.moving === 'later' && at !== undefined ? (openUntil(closes, rule.work, hours) ?? closes) : closes

const findingOf = (
  batch: string,
  rule: TaskRule,
  {
    due,
    opens,
    closes,
    at,
  }: {
    readonly due: number
    readonly opens: number
    readonly closes: number | undefined
    readonly at: number | undefined
  },
  hours: ShopHours,
): Finding | undefined => {
  const { task } = rule
  const { date, minute } = momentAt(due)
  const until = momentAt(closes ?? opens)
  const rest = isRestDay(due, hours)
  const values = { batch, task, date, minute, closes: until.date, closesMinute: until.minute }
  if (rule.moving === 'awake')
    return closes !== undefined && !isAwake(opens, closes, hours)
      ? { code: 'hottest-at-night', severity: 'warn', values }
      : undefined
  if (rule.moving === 'stays' || rule.moving === 'day') return undefined
  if (rule.after === undefined) {
    if (at !== undefined) return undefined
    return { code: rest ? 'pour-on-rest-day' : 'pour-outside-hours', severity: 'stop', values }
  }
  if (at === undefined)
    return { code: rest ? 'window-on-rest-day' : 'window-at-night', severity: 'stop', values }
  // Nobody is there when the window opens, though somebody comes before it closes.
  if (closes !== undefined && (at !== opens || !isOpen(due, 0, hours)))
    return { code: rest ? 'window-opens-on-rest-day' : 'window-opens-at-night', severity: 'warn', values }
  return undefined
}
