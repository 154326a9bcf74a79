/** A plan of batches: each task's time, and which mould and which places on the racks a batch takes from the others. */
import type { Finding } from '../findings.ts'
import { dateOf, dayNumber, MINUTES_A_DAY, type Moment, minutesAt, momentAt } from '../units/civil-day.ts'
import type { RackStay } from './racks.ts'
import { SEARCH, type ShopHours, slotsOf } from './shop-hours.ts'
import { type PlannedTask, type TaskRule, taskTimes } from './task-times.ts'

export interface BatchPlan {
  readonly batch: string
  /** when the pour begins */
  readonly pour: Moment
  /** in order; the first is the pour */
  readonly rules: readonly TaskRule[]
  /** moulds it may be poured in, the first that is free is taken; and the task that frees it */
  readonly moulds: readonly string[]
  readonly mouldUntil: string
  /** bars on the racks from one task to another, both days included */
  readonly bars: number
  readonly racksFrom: string
  readonly racksTo: string
  /** of them so many stay from the next day on until another task, if that comes later */
  readonly staying?: { readonly bars: number; readonly to: string }
  /** places by rack for bars of this size; those of the racks themselves where it is left out */
  readonly places?: Readonly<Record<string, number>>
}

export interface ShopMeans {
  readonly hours: ShopHours
  /** places by rack */
  readonly racks: readonly { readonly key: string; readonly places: number }[]
}

/** Bars on one rack, and the share of its room that they take [–]. */
export interface PlacedStay extends RackStay {
  readonly rack: string
  readonly share: number
}

export interface PlannedBatch {
  readonly batch: string
  readonly pour: Moment
  readonly tasks: readonly PlannedTask[]
  /** undefined when none was free */
  readonly mould: string | undefined
  /** bars by rack; fewer than the batch's when there is no more room */
  readonly places: readonly { readonly rack: string; readonly bars: number }[]
  /** bars that no rack has room for, and the days on which they would want it */
  readonly unplaced: { readonly bars: number; readonly from: string; readonly to: string }
  /**
   * A pour that meets nothing: of a conflict the first after the wanted one, of a warning the nearest hour of that day or
   * of the days after; undefined when there is none or none is needed
   */
  readonly nextFree: Moment | undefined
  readonly findings: readonly Finding[]
}

/** A mould in use, in min since 1970-01-01; it is free again at `to`. */
export interface MouldStay {
  readonly batch: string
  readonly mould: string
  readonly from: number
  readonly to: number
}

export interface Plan extends Taken {
  readonly batches: readonly PlannedBatch[]
  readonly findings: readonly Finding[]
}

/** Work at an hour of its own, in min since 1970-01-01: the same hands cannot be at two batches. */
export interface WorkSpan {
  readonly batch: string
  readonly task: string
  readonly from: number
  readonly to: number
}

/** What is taken already. */
export interface Taken {
  readonly mouldStays: readonly MouldStay[]
  readonly rackStays: readonly PlacedStay[]
  readonly workSpans: readonly WorkSpan[]
}

/** d in which an hour without a warning is looked for */
const BETTER_WITHIN = 14

/**
 * A plan of batches, each in turn into what the ones before it have left.
 *
 *     times by taskTimes      mould: pour to the task that frees it
 *     racks: every day from the first to the last, both included; Σ bars/places ≤ 1 on each rack
 *     hands: work at its hour does not overlap that of another batch
 *
 * A batch without a free mould, or with more bars than places, is planned all the same so that its dates are seen; what
 * is missing is named with the next date on which its pour meets nothing, and it takes no mould from another.
 *
 * @param plans batches in the order of their right to moulds and racks; spans [min]
 * @param means hours [min after midnight], places
 * @returns tasks with dates, stays in moulds and on racks, and findings
 * @source common practice
 */
export function planCalendar(plans: readonly BatchPlan[], means: ShopMeans): Plan {
  let taken: Taken = NOTHING_TAKEN
  const placed = plans.map((plan) => {
    const { batch, ...own } = placeBatch(plan, means, taken)
    taken = takenBy([taken, own])
    return { plan, batch }
  })
  const batches = placed.map(({ plan, batch }): PlannedBatch => {
    // The others keep what they have, also those that came later.
    const isOther = (one: { readonly batch: string }): boolean => one.batch !== plan.batch
    const others = {
      mouldStays: taken.mouldStays.filter(isOther),
      rackStays: taken.rackStays.filter(isOther),
      workSpans: taken.workSpans.filter(isOther),
    }
    return { ...batch, nextFree: nextFree(plan, batch.findings, means, others) }
  })
  return { ...taken, batches, findings: batches.flatMap(({ findings }) => findings) }
}

const NOTHING_TAKEN: Taken = { mouldStays: [], rackStays: [], workSpans: [] }

/**
 * What several take together.
 *
 *     their stays and spans, one after the other
 *
 * @param all what each takes
 * @returns all of it
 * @source common practice
 */
export const takenBy = (all: readonly Taken[]): Taken => ({
  mouldStays: all.flatMap(({ mouldStays }) => mouldStays),
  rackStays: all.flatMap(({ rackStays }) => rackStays),
  workSpans: all.flatMap(({ workSpans }) => workSpans),
})

const isStop = ({ severity }: Finding): boolean => severity === 'stop'

/**
 * One batch into what the others have left.
 *
 *     the first of its moulds that nobody is in; racks in their order, each filled as far as it goes
 *
 * @param plan  batch; spans [min]
 * @param means hours [min after midnight], places
 * @param taken by others
 * @returns the batch, and what it takes
 * @source common practice
 */
export function placeBatch(
  plan: BatchPlan,
  means: ShopMeans,
  taken: Taken,
): Taken & { readonly batch: Omit<PlannedBatch, 'nextFree'> } {
  const { batch, pour } = plan
  const { tasks, findings: late } = taskTimes(batch, pour, plan.rules, means.hours)
  const findings = [...late]
  const from = minutesAt(pour)
  const timeOf = (name: string): number => {
    const found = tasks.find(({ task }) => task === name)
    return found ? minutesAt(found.at) : from
  }
  const until = tasks.find(({ task }) => task === plan.mouldUntil)
  const to = Math.max(from + 1, until ? minutesAt(until.at) + until.work : from + 1)
  const meeting = (mould: string): MouldStay[] =>
    taken.mouldStays.filter((stay) => stay.mould === mould && stay.from < to && from < stay.to)
  const mould = plan.moulds.find((one) => meeting(one).length === 0)
  if (mould === undefined) {
    // of all moulds the one that is free soonest
    const soonest = plan.moulds
      .flatMap((one) =>
        meeting(one)
          .toSorted((a, b) => b.to - a.to)
          .slice(0, 1),
      )
      .toSorted((a, b) => a.to - b.to)[0]
    const free = momentAt(soonest?.to ?? from)
    findings.push({
      code: 'mould-occupied',
      severity: 'stop',
      values: {
        batch,
        mould: soonest?.mould ?? '',
        occupant: soonest?.batch ?? '',
        until: free.date,
        untilMinute: free.minute,
      },
    })
  }

  const workSpans = tasks
    .filter(({ wholeDay, work, lead }) => !wholeDay && work + lead > 0)
    .map(({ task, at, work, lead }): WorkSpan => {
      const begun = minutesAt(at)
      return { batch, task, from: begun - lead, to: begun + work }
    })
  const met = new Set<string>()
  for (const span of workSpans) {
    const other = taken.workSpans.find((one) => one.from < span.to && span.from < one.to)
    // of two batches that meet all day long the first time is enough
    if (!other || met.has(other.batch)) continue
    met.add(other.batch)
    const { date, minute } = momentAt(Math.max(span.from, other.from))
    findings.push({
      code: 'two-at-once',
      severity: 'warn',
      values: {
        batch,
        task: span.task,
        occupant: other.batch,
        othersTask: other.task,
        date,
        minute,
      },
    })
  }

  const firstDay = Math.floor(timeOf(plan.racksFrom) / MINUTES_A_DAY)
  const lastDay = Math.max(firstDay, Math.floor(timeOf(plan.racksTo) / MINUTES_A_DAY))
  const days = { from: dateOf(firstDay), to: dateOf(lastDay) }
  const { stays, left, findings: full } = standOnRacks(plan, plan.bars, firstDay, lastDay, means, taken)
  findings.push(...full)
  const { staying } = plan
  const stayDay = staying ? Math.floor(timeOf(staying.to) / MINUTES_A_DAY) : lastDay
  const on =
    staying && stayDay > lastDay
      ? standOnRacks(plan, staying.bars, lastDay + 1, stayDay, means, taken)
      : undefined
  // bars that no rack takes are told once
  if (left === 0) findings.push(...(on?.findings ?? []))
  return {
    batch: {
      batch,
      pour,
      tasks,
      mould,
      places: stays.map(({ rack, bars }) => ({ rack, bars })),
      unplaced: { bars: left, ...days },
      findings,
    },
    mouldStays: mould === undefined ? [] : [{ batch, mould, from, to }],
    rackStays: [...stays, ...(on?.stays ?? [])],
    workSpans,
  }
}

/** Bars onto the racks in their order, each filled as far as it goes on the fullest day of a span. */
function standOnRacks(
  { batch, places: own }: BatchPlan,
  bars: number,
  firstDay: number,
  lastDay: number,
  means: ShopMeans,
  taken: Taken,
): { readonly stays: readonly PlacedStay[]; readonly left: number; readonly findings: readonly Finding[] } {
  const days = { from: dateOf(firstDay), to: dateOf(lastDay) }
  const stays: PlacedStay[] = []
  let left = bars
  for (const { key, places: usual } of means.racks) {
    const places = own?.[key] ?? usual
    if (places <= 0) continue
    const { share } = fullest(
      taken.rackStays.filter(({ rack }) => rack === key),
      firstDay,
      lastDay,
    )
    const fit = Math.min(left, Math.max(0, Math.floor((1 - share) * places + ROUNDING)))
    if (fit > 0) stays.push({ batch, rack: key, bars: fit, share: fit / places, ...days })
    left -= fit
  }
  if (left === 0) return { stays, left, findings: [] }
  const { day } = fullest(taken.rackStays, firstDay, lastDay)
  const values = { batch, bars, short: left, day: dateOf(day) }
  return { stays, left, findings: [{ code: 'racks-full', severity: 'stop', values }] }
}

/** A hair, so that bars that fill a rack exactly are not lost to the last bit of a sum of shares. */
const ROUNDING = 1e-6

/** Most of the room that is taken on any day of a span [–], and the first such day. */
function fullest(
  stays: readonly PlacedStay[],
  from: number,
  to: number,
): { readonly share: number; readonly day: number } {
  const own = stays
    .map(({ share, from: first, to: last }) => ({ share, first: dayNumber(first), last: dayNumber(last) }))
    .filter(({ first, last }) => first <= to && from <= last)
  // it gets fuller only where a stay begins
  const days = [from, ...own.map(({ first }) => first).filter((first) => first > from)].sort((a, b) => a - b)
  let best = { share: 0, day: from }
  for (const day of days) {
    let share = 0
    for (const stay of own) if (stay.first <= day && day <= stay.last) share += stay.share
    if (share > best.share) best = { share, day }
  }
  return best
}

/** A pour that meets nothing: its own hour of a day first, then the others. */
function nextFree(
  plan: BatchPlan,
  findings: readonly Finding[],
  means: ShopMeans,
  taken: Taken,
): Moment | undefined {
  if (findings.length === 0) return undefined
  const stopped = findings.some(isStop)
  const { date, minute: wanted } = plan.pour
  const meetsNothing = (pour: Moment): boolean => {
    const { batch } = placeBatch({ ...plan, pour }, means, taken)
    return stopped ? !batch.findings.some(isStop) : batch.findings.length === 0
  }
  const first = dayNumber(date)
  const slots = slotsOf(means.hours)
  const near = slots.toSorted((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted) || a - b)
  for (let day = first; day <= first + (stopped ? SEARCH : BETTER_WITHIN); day += 1) {
    // What cannot be done is put off; what is merely awkward may as well be done earlier on its day.
    const today = stopped ? slots.filter((minute) => minute > wanted) : near
    for (const minute of day > first ? [wanted, ...slots] : today) {
      const pour = { date: dateOf(day), minute }
      if (meetsNothing(pour)) return pour
    }
  }
  return undefined
}
