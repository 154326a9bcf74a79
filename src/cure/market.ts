/** From the day of a market back to the pours: how many batches, and the latest at which they are ready in time. */

import { dateOf, dayNumber, MINUTES_A_DAY, type Moment } from '../units/civil-day.ts'
import {
  type BatchPlan,
  type Plan,
  placeBatch,
  planCalendar,
  type ShopMeans,
  type Taken,
  takenBy,
} from './calendar.ts'
import { SEARCH, slotsOf } from './shop-hours.ts'
import type { PlannedTask } from './task-times.ts'

export interface MarketWish {
  /** bars wanted, and good bars of one batch */
  readonly bars: number
  readonly barsPerBatch: number
  /** day of the market, and whole days before it on which all must be labelled */
  readonly market: string
  readonly ready: number
  /** the task that makes bars ready */
  readonly until: string
  /** a batch without its pour and name; the batches are named name-1, name-2 … */
  readonly plan: Omit<BatchPlan, 'pour'>
  /** first day on which a pour may be planned */
  readonly notBefore: string
}

/** A link in the chain of reasons, from the market back to the pour. */
export type Reason =
  | { readonly because: 'market'; readonly date: string }
  | { readonly because: 'ready-before-market'; readonly date: string; readonly days: number }
  | {
      /** the task is done then, since it waits so long after another, and was moved [min] */
      readonly because: 'task'
      readonly task: string
      readonly after: string | undefined
      readonly at: Moment
      readonly wait: number
      readonly moved: number
    }
  | {
      /** the next later day on which it might have been poured, and what forbids it */
      readonly because: 'later-fails'
      readonly date: string
      readonly code: string
    }

export interface BackPlan {
  /** batches needed */
  readonly batches: number
  /** latest pours, the earliest first; fewer than needed when there is no time */
  readonly pours: readonly {
    readonly batch: string
    readonly pour: Moment
    readonly plan: BatchPlan
    readonly reasons: readonly Reason[]
  }[]
  readonly plan: Plan
}

/**
 * The latest pours that make so many bars ready for a market.
 *
 *     batches = ⌈bars / bars of a batch⌉      pour = the latest whose plan meets nothing and is ready in time
 *
 * The plan is reckoned forward for each half hour, from the market backwards, so that every rule of moving holds as it
 * does in the plan itself. An hour without a warning is taken before a later one of the same day with a warning. The
 * last batch is placed first; each other takes what moulds and racks it leaves.
 *
 * @param wish  bars, day of the market, rules of a batch
 * @param means hours and places
 * @param others batches that are planned already
 * @returns pours with the chain of reasons; fewer than batches when they do not fit
 * @source common practice
 */
export function planBack(wish: MarketWish, means: ShopMeans, others: readonly BatchPlan[] = []): BackPlan {
  const batches = Math.ceil(wish.bars / wish.barsPerBatch)
  const deadline = dayNumber(wish.market) - wish.ready
  let taken: Taken = planCalendar(others, means)
  // in the order in which they were placed: the plan must give them the same moulds and places again
  const chosen: { readonly plan: BatchPlan; readonly reasons: readonly Reason[] }[] = []
  for (let left = batches; left > 0; left -= 1) {
    const found = latestPour(wish, `${wish.plan.batch}-${left}`, deadline, means, taken)
    if (!found) break
    taken = takenBy([taken, found.placed])
    chosen.push({
      plan: found.plan,
      reasons: [
        { because: 'market', date: wish.market },
        { because: 'ready-before-market', date: dateOf(deadline), days: wish.ready },
        ...chainOf(found.placed.batch.tasks, wish.until),
        ...(found.failed ? [found.failed] : []),
      ],
    })
  }
  const plan = planCalendar([...others, ...chosen.map((one) => one.plan)], means)
  return {
    batches,
    pours: chosen.toReversed().map((one) => ({
      batch: one.plan.batch,
      pour: one.plan.pour,
      plan: one.plan,
      reasons: one.reasons,
    })),
    plan,
  }
}

/**
 * The day on which so many bars can be ready at the soonest, whatever day the market is.
 *
 *     each batch poured on the first half hour at which it meets nothing that stops it; the last one's day
 *
 * @param wish  bars, rules of a batch, first day of a pour
 * @param means hours and places
 * @param others batches that are planned already
 * @returns date; undefined when some batch finds no place within 400 days
 * @source common practice
 */
export function soonestReady(
  wish: MarketWish,
  means: ShopMeans,
  others: readonly BatchPlan[] = [],
): string | undefined {
  let taken: Taken = planCalendar(others, means)
  const first = dayNumber(wish.notBefore)
  let last = ''
  for (let left = Math.ceil(wish.bars / wish.barsPerBatch); left > 0; left -= 1) {
    const placed = firstPour(wish, first, means, taken)
    const ready = placed?.batch.tasks.find(({ task }) => task === wish.until)
    if (!placed || !ready) return undefined
    taken = takenBy([taken, placed])
    if (ready.at.date > last) last = ready.at.date
  }
  return last
}

function firstPour(wish: MarketWish, first: number, means: ShopMeans, taken: Taken): Placed | undefined {
  for (let day = first; day <= first + SEARCH; day += 1)
    for (const minute of slotsOf(means.hours)) {
      const placed = placeBatch({ ...wish.plan, pour: { date: dateOf(day), minute } }, means, taken)
      if (!placed.batch.findings.some(({ severity }) => severity === 'stop')) return placed
    }
  return undefined
}

type Placed = ReturnType<typeof placeBatch>

/** The latest day that will do, and on it the latest hour, one without a warning if there is any. */
function latestPour(
  wish: MarketWish,
  batch: string,
  deadline: number,
  means: ShopMeans,
  taken: Taken,
): { readonly placed: Placed; readonly plan: BatchPlan; readonly failed: Reason | undefined } | undefined {
  const minutes = slotsOf(means.hours).reverse()
  let failed: Reason | undefined
  // What waits so long cannot be poured later; the first day tried is one that fails for that reason.
  const latest = deadline - Math.floor(leastWait(wish) / MINUTES_A_DAY) + 1
  for (let day = Math.min(deadline, latest); day >= dayNumber(wish.notBefore); day -= 1) {
    let blocked: string | undefined
    let awkward: { readonly placed: Placed; readonly plan: BatchPlan } | undefined
    for (const minute of minutes) {
      const plan = { ...wish.plan, batch, pour: { date: dateOf(day), minute } }
      const placed = placeBatch(plan, means, taken)
      const { tasks, findings } = placed.batch
      const stop = findings.find(({ severity }) => severity === 'stop')
      const ready = tasks.find(({ task }) => task === wish.until)
      const inTime = ready !== undefined && dayNumber(ready.at.date) <= deadline
      if (!inTime || stop) {
        blocked = inTime ? (stop?.code ?? 'ready-too-late') : 'ready-too-late'
        continue
      }
      if (findings.length === 0) return { placed, plan, failed }
      // the fewest warnings, the latest hour with so few
      if (!awkward || findings.length < awkward.placed.batch.findings.length) awkward = { placed, plan }
    }
    if (awkward) return { ...awkward, failed }
    if (blocked) failed = { because: 'later-fails', date: dateOf(day), code: blocked }
  }
  return undefined
}

/** Min from the pour to the task that makes bars ready, if nothing were ever moved. */
const leastWait = ({ plan: { rules }, until }: MarketWish): number => {
  let wait = 0
  let rule = rules.find(({ task }) => task === until)
  for (let links = 0; rule && links < rules.length; links += 1) {
    wait += rule.earliest
    const { after } = rule
    rule = rules.find(({ task }) => task === after)
  }
  return wait
}

/** The tasks that one waits for, from itself back to the pour. */
function chainOf(tasks: readonly PlannedTask[], last: string): Reason[] {
  const chain: Reason[] = []
  let task = tasks.find((one) => one.task === last)
  while (task && chain.length <= tasks.length) {
    const { task: name, after, at, wait, moved } = task
    chain.push({ because: 'task', task: name, after, at, wait, moved })
    task = tasks.find((one) => one.task === after)
  }
  return chain
}
