/** When each task of each batch is done: dates and hours from durations, the shop's hours, its moulds and its racks. */
import type { Finding } from '../findings.ts'
import { dateOf, dayNumber, MINUTES_A_DAY, type Moment, minutesAt, momentAt, weekday } from './civil-day.ts'
import type { RackStay } from './racks.ts'

/** When somebody is there to work. */
export interface ShopHours {
  /** min after midnight, opens < closes ≤ 1440 */
  readonly opens: number
  readonly closes: number
  /** days of the week without work, 0 for Monday to 6 for Sunday */
  readonly restDays: readonly number[]
  /** dates without work */
  readonly holidays: readonly string[]
}

/** How a task that falls where nobody works is moved. */
export type Moving =
  /** to the next open time; its latest, if it has one, may not pass */
  | 'later'
  /** to the next open time or the one before, whichever is nearer */
  | 'nearest'
  /** not at all: nobody is needed */
  | 'stays'

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
}

export interface ShopMeans {
  readonly hours: ShopHours
  /** places by rack */
  readonly racks: readonly { readonly key: string; readonly places: number }[]
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
  /** min that it was moved from when it was due; negative for earlier */
  readonly moved: number
  readonly work: number
}

export interface PlannedBatch {
  readonly batch: string
  readonly tasks: readonly PlannedTask[]
  /** undefined when none was free */
  readonly mould: string | undefined
  /** bars by rack; fewer than the batch's when there is no more room */
  readonly places: readonly { readonly rack: string; readonly bars: number }[]
  readonly findings: readonly Finding[]
}

/** A mould in use, in min since 1970-01-01; it is free again at `to`. */
export interface MouldStay {
  readonly batch: string
  readonly mould: string
  readonly from: number
  readonly to: number
}

export interface Plan {
  readonly batches: readonly PlannedBatch[]
  readonly mouldStays: readonly MouldStay[]
  readonly rackStays: readonly (RackStay & { readonly rack: string })[]
  readonly findings: readonly Finding[]
}

/** d in which a free date is looked for */
const SEARCH = 400
/** min between the hours at which a pour is tried */
const SLOT = 30

/**
 * A plan of batches, each in turn into what the ones before it have left.
 *
 *     due = task before + earliest, not before the work it stands behind is over, moved to open time by its rule
 *     mould: pour to the task that frees it      racks: every day from the first to the last, both included
 *
 * A batch without a free mould, or with more bars than places, is planned all the same so that its dates are seen; what
 * is missing is named with the next date on which its pour meets nothing, and it takes no mould from another.
 * Wall-clock time throughout: a night on which clocks are moved makes its spans an hour longer or shorter.
 *
 * @param plans batches in the order of their right to moulds and racks; spans [min]
 * @param means hours [min after midnight], places
 * @returns tasks with dates, stays in moulds and on racks, and findings
 * @source common practice
 */
export function planCalendar(plans: readonly BatchPlan[], means: ShopMeans): Plan {
  const mouldStays: MouldStay[] = []
  const rackStays: (RackStay & { readonly rack: string })[] = []
  const batches = plans.map((plan) => {
    const placed = placeBatch(plan, means, mouldStays, rackStays)
    const needed = placed.findings.some(({ severity }) => severity === 'stop')
      ? nextFree(plan, means, mouldStays, rackStays)
      : undefined
    if (placed.mouldStay) mouldStays.push(placed.mouldStay)
    rackStays.push(...placed.rackStays)
    const findings = placed.findings.map((finding) =>
      finding.severity === 'stop' && needed !== undefined
        ? { ...finding, values: { ...finding.values, nextFree: needed.date, nextFreeMinute: needed.minute } }
        : finding,
    )
    return { ...placed.batch, findings }
  })
  return { batches, mouldStays, rackStays, findings: batches.flatMap(({ findings }) => findings) }
}

interface Placed {
  readonly batch: PlannedBatch
  readonly mouldStay: MouldStay | undefined
  readonly rackStays: readonly (RackStay & { readonly rack: string })[]
  readonly findings: readonly Finding[]
}

function placeBatch(
  plan: BatchPlan,
  means: ShopMeans,
  mouldStays: readonly MouldStay[],
  rackStays: readonly (RackStay & { readonly rack: string })[],
): Placed {
  const { batch } = plan
  const findings: Finding[] = []
  const tasks = placeTasks(plan, means.hours, findings)
  const timeOf = (task: string): number | undefined => {
    const found = tasks.find((one) => one.task === task)
    return found && minutesAt(found.at)
  }
  const from = minutesAt(plan.pour)
  const until = tasks.find(({ task }) => task === plan.mouldUntil)
  const to = Math.max(from + 1, until ? minutesAt(until.at) + until.work : from + 1)
  const meeting = (mould: string): MouldStay[] =>
    mouldStays.filter((stay) => stay.mould === mould && stay.from < to && from < stay.to)
  const mould = plan.moulds.find((one) => meeting(one).length === 0)
  if (mould === undefined) {
    const first = plan.moulds[0] ?? ''
    const other = meeting(first)[0]
    findings.push({
      code: 'mould-occupied',
      severity: 'stop',
      values: {
        batch,
        mould: first,
        other: other?.batch ?? '',
        until: other ? momentAt(other.to).date : '',
      },
    })
  }

  const firstDay = Math.floor((timeOf(plan.racksFrom) ?? from) / MINUTES_A_DAY)
  const lastDay = Math.max(firstDay, Math.floor((timeOf(plan.racksTo) ?? from) / MINUTES_A_DAY))
  const stays: (RackStay & { readonly rack: string })[] = []
  let left = plan.bars
  for (const { key, places } of means.racks) {
    const taken = most(rackStays, key, firstDay, lastDay)
    const bars = Math.min(left, Math.max(0, places - taken.bars))
    if (bars > 0) stays.push({ batch, rack: key, bars, from: dateOf(firstDay), to: dateOf(lastDay) })
    left -= bars
  }
  if (left > 0) {
    const fullest = most(rackStays, undefined, firstDay, lastDay)
    findings.push({
      code: 'racks-full',
      severity: 'stop',
      values: { batch, bars: plan.bars, short: left, day: dateOf(fullest.day) },
    })
  }
  return {
    batch: {
      batch,
      tasks,
      mould,
      places: stays.map(({ rack, bars }) => ({ rack, bars })),
      findings,
    },
    mouldStay: mould === undefined ? undefined : { batch, mould, from, to },
    rackStays: stays,
    findings,
  }
}

function placeTasks(plan: BatchPlan, hours: ShopHours, findings: Finding[]): PlannedTask[] {
  const { batch } = plan
  const done = new Map<string, number>()
  const over = new Map<string, number>()
  return plan.rules.map((rule) => {
    const start =
      rule.after === undefined ? minutesAt(plan.pour) : (done.get(rule.after) ?? minutesAt(plan.pour))
    const opens = Math.max(start + rule.earliest, over.get(rule.behind ?? '') ?? Number.NEGATIVE_INFINITY)
    const closes = rule.latest === undefined ? undefined : start + rule.latest
    const at = rule.moving === 'stays' ? opens : moved(rule, opens, start, closes, hours)
    const chosen = at ?? opens
    done.set(rule.task, chosen)
    over.set(rule.task, chosen + rule.work)
    const say = (code: string, severity: Finding['severity']): void => {
      const { date, minute } = momentAt(opens)
      const until = closes === undefined ? undefined : momentAt(closes)
      findings.push({
        code,
        severity,
        values: {
          batch,
          task: rule.task,
          date,
          minute,
          ...(until ? { closes: until.date, closesMinute: until.minute } : {}),
        },
      })
    }
    if (rule.after === undefined && rule.moving !== 'stays' && at !== opens) {
      // The pour is wanted at its hour: it is never moved in silence.
      say(isRestDay(dayOf(opens), hours) ? 'pour-on-rest-day' : 'pour-outside-hours', 'stop')
      return { task: rule.task, after: rule.after, ...timed(opens, opens, closes, start, rule.work) }
    }
    if (rule.moving !== 'stays' && at === undefined) {
      const rest = isRestDay(dayOf(opens), hours)
      say(rest ? 'window-on-rest-day' : 'window-at-night', 'stop')
    } else if (rule.moving !== 'stays' && closes !== undefined && at !== opens) {
      // Nobody is there when the window opens, though somebody comes before it closes.
      const rest = isRestDay(dayOf(opens), hours)
      say(rest ? 'window-opens-on-rest-day' : 'window-opens-at-night', 'warn')
    }
    return { task: rule.task, after: rule.after, ...timed(chosen, opens, closes, start, rule.work) }
  })
}

const timed = (
  at: number,
  opens: number,
  closes: number | undefined,
  start: number,
  work: number,
): Omit<PlannedTask, 'task' | 'after'> => ({
  at: momentAt(at),
  opens: momentAt(opens),
  closes: closes === undefined ? undefined : momentAt(closes),
  wait: at - start,
  moved: at - opens,
  work,
})

/** When the task is done; undefined when its window has closed before anybody is there. */
function moved(
  rule: TaskRule,
  due: number,
  start: number,
  closes: number | undefined,
  hours: ShopHours,
): number | undefined {
  if (rule.after === undefined) return isOpen(due, rule.work, hours) ? due : undefined
  const later = openFrom(due, rule.work, hours)
  if (rule.moving === 'nearest') {
    const before = openUntil(due, rule.work, hours)
    if (before !== undefined && before > start && (later === undefined || due - before < later - due))
      return before
  }
  return later !== undefined && (closes === undefined || later <= closes) ? later : undefined
}

const dayOf = (minutes: number): number => Math.floor(minutes / MINUTES_A_DAY)

const isRestDay = (day: number, { restDays, holidays }: ShopHours): boolean =>
  restDays.includes(weekday(day)) || holidays.includes(dateOf(day))

const isOpen = (at: number, work: number, hours: ShopHours): boolean => {
  const minute = at - dayOf(at) * MINUTES_A_DAY
  return !isRestDay(dayOf(at), hours) && minute >= hours.opens && minute + work <= hours.closes
}

/** First moment from one on at which the work can be begun and ended on the same day. */
function openFrom(from: number, work: number, hours: ShopHours): number | undefined {
  if (isOpen(from, work, hours)) return from
  for (let day = dayOf(from); day <= dayOf(from) + SEARCH; day += 1) {
    const at = Math.max(from, day * MINUTES_A_DAY + hours.opens)
    if (isOpen(at, work, hours)) return at
  }
  return undefined
}

/** Last moment up to one. */
function openUntil(until: number, work: number, hours: ShopHours): number | undefined {
  if (isOpen(until, work, hours)) return until
  for (let day = dayOf(until); day >= dayOf(until) - SEARCH; day -= 1) {
    const at = Math.min(until, day * MINUTES_A_DAY + hours.closes - work)
    if (isOpen(at, work, hours)) return at
  }
  return undefined
}

/** Most bars on a rack (or all of them) on any day of a span, and the first such day. */
function most(
  stays: readonly (RackStay & { readonly rack: string })[],
  rack: string | undefined,
  from: number,
  to: number,
): { readonly bars: number; readonly day: number } {
  const own = stays
    .filter((stay) => rack === undefined || stay.rack === rack)
    .map(({ bars, from: first, to: last }) => ({ bars, first: dayNumber(first), last: dayNumber(last) }))
  let best = { bars: 0, day: from }
  for (let day = from; day <= to; day += 1) {
    let bars = 0
    for (const stay of own) if (stay.first <= day && day <= stay.last) bars += stay.bars
    if (bars > best.bars) best = { bars, day }
  }
  return best
}

/** First pour after the wanted one that meets nothing: its own hour first, then the others of each day. */
function nextFree(
  plan: BatchPlan,
  means: ShopMeans,
  mouldStays: readonly MouldStay[],
  rackStays: readonly (RackStay & { readonly rack: string })[],
): Moment | undefined {
  const day = dayNumber(plan.pour.date)
  for (let at = day; at <= day + SEARCH; at += 1) {
    const slots = slotsOf(means.hours)
    const minutes = [plan.pour.minute, ...slots].filter((minute) => at > day || minute > plan.pour.minute)
    for (const minute of minutes) {
      const pour = { date: dateOf(at), minute }
      const { findings } = placeBatch({ ...plan, pour }, means, mouldStays, rackStays)
      if (findings.every(({ severity }) => severity !== 'stop')) return pour
    }
  }
  return undefined
}

const slotsOf = ({ opens, closes }: ShopHours): number[] =>
  Array.from({ length: Math.max(0, Math.floor((closes - opens) / SLOT)) }, (_, i) => opens + i * SLOT)

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
      /** the task is done then, since it waits so long after another, and was moved */
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
    readonly reasons: readonly Reason[]
  }[]
  readonly plan: Plan
  readonly findings: readonly Finding[]
}

/**
 * The latest pours that make so many bars ready for a market.
 *
 *     batches = ⌈bars / bars of a batch⌉      pour = the latest whose plan meets nothing and is ready in time
 *
 * The plan is reckoned forward for each half hour, from the market backwards, so that every rule of moving holds as it
 * does in the plan itself. The last batch is placed first; each other takes what moulds and racks it leaves.
 *
 * @param wish  bars, day of the market, rules of a batch
 * @param means hours and places
 * @param others batches that are planned already
 * @returns pours with the chain of reasons, and a finding when they do not fit
 * @source common practice
 */
export function planBack(wish: MarketWish, means: ShopMeans, others: readonly BatchPlan[] = []): BackPlan {
  const batches = Math.ceil(wish.bars / wish.barsPerBatch)
  const deadline = dayNumber(wish.market) - wish.ready
  const first = dayNumber(wish.notBefore)
  const known = planCalendar(others, means)
  const mouldStays = [...known.mouldStays]
  const rackStays = [...known.rackStays]
  // in the order in which they were placed: the plan must give them the same moulds and places again
  const chosen: { readonly plan: BatchPlan; readonly reasons: readonly Reason[] }[] = []
  const minutes = slotsOf(means.hours).reverse()
  for (let left = batches; left > 0; left -= 1) {
    let failed: Reason | undefined
    let found: { readonly placed: Placed; readonly plan: BatchPlan } | undefined
    for (let day = deadline; day >= first && !found; day -= 1) {
      let blocked: string | undefined
      for (const minute of minutes) {
        const plan = {
          ...wish.plan,
          batch: `${wish.plan.batch}-${left}`,
          pour: { date: dateOf(day), minute },
        }
        const placed = placeBatch(plan, means, mouldStays, rackStays)
        const stop = placed.findings.find(({ severity }) => severity === 'stop')
        const ready = placed.batch.tasks.find(({ task }) => task === wish.until)
        const inTime = ready !== undefined && dayNumber(ready.at.date) <= deadline
        if (inTime && !stop) {
          found = { placed, plan }
          break
        }
        blocked = inTime ? (stop?.code ?? 'ready-too-late') : 'ready-too-late'
      }
      if (!found && blocked) failed = { because: 'later-fails', date: dateOf(day), code: blocked }
    }
    if (!found) break
    if (found.placed.mouldStay) mouldStays.push(found.placed.mouldStay)
    rackStays.push(...found.placed.rackStays)
    const reasons: Reason[] = [
      { because: 'market', date: wish.market },
      { because: 'ready-before-market', date: dateOf(deadline), days: wish.ready },
      ...chainOf(found.placed.batch.tasks, wish.until),
      ...(failed ? [failed] : []),
    ]
    chosen.push({ plan: found.plan, reasons })
  }
  const plan = planCalendar([...others, ...chosen.map((one) => one.plan)], means)
  const short = batches - chosen.length
  const findings: Finding[] =
    short > 0
      ? [
          {
            code: 'market-too-soon',
            severity: 'stop',
            values: { market: wish.market, batches, short, bars: wish.bars },
          },
        ]
      : []
  return {
    batches,
    pours: [...chosen].reverse().map((one) => ({
      batch: one.plan.batch,
      pour: one.plan.pour,
      reasons: one.reasons,
    })),
    plan,
    findings: [...findings, ...plan.findings],
  }
}

/** The tasks that one waits for, from itself back to the pour. */
function chainOf(tasks: readonly PlannedTask[], last: string): Reason[] {
  const chain: Reason[] = []
  let task = tasks.find((one) => one.task === last)
  while (task && chain.length <= tasks.length) {
    const { task: name, after, at, wait, moved: by } = task
    chain.push({ because: 'task', task: name, after, at, wait, moved: by })
    task = tasks.find((one) => one.task === after)
  }
  return chain
}
