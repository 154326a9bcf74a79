/** Every batch's tasks by date and hour, what they take of moulds and racks, and where they meet. */
import {
  type BatchPlan,
  type Plan,
  type PlannedBatch,
  planCalendar,
  type ShopMeans,
} from '../cure/calendar.ts'
import {
  AIRFLOW_GAP,
  type Rack,
  type RackPlaces,
  type RackWeek,
  rackPlaces,
  rackWeeks,
} from '../cure/racks.ts'
import { dayFrom, dayOf, type ShopHours } from '../cure/shop-hours.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import { type ShopFile, WEEKDAYS } from '../schema/shop.ts'
import { dateOf, dayNumber, MINUTES_A_DAY } from '../units/civil-day.ts'
import { batchPlan, hasWindow, prepareTime } from './batch-plan.ts'
import type { DryingBars } from './drying-bars.ts'

/** A day on which bars are weighed, with what one ought to show. */
export interface PlannedWeighIn {
  readonly date: string
  readonly days: number
  /** kg */
  readonly low: number
  readonly high: number
}

/** A day from which a bar that weighs enough may bear its label. */
export interface LabelDay {
  /** that of the plan; that of the last weighing; that by which a bar at the light end of the range weighs enough */
  readonly which: 'first' | 'later' | 'light'
  readonly date: string
  /** kg that the scale must show of each bar; undefined without a label */
  readonly least: number | undefined
}

/** One batch's bars from the pour to the label: how they dry, and when what is done with them. */
export interface BoundCure extends DryingBars {
  readonly planned: PlannedBatch
  readonly plan: readonly PlannedWeighIn[]
  /** ascending; none where bars do not reach their label */
  readonly labelDays: readonly LabelDay[]
  /** nobody can say when it is cut: what comes after has no date */
  readonly cutUnknown: boolean
  /** shelf by shelf, of each rack for bars of this size */
  readonly racks: readonly RackPlaces[]
}

export interface BoundCalendar {
  readonly hours: ShopHours
  /** false where the shop's file says nothing of its hours */
  readonly isStated: boolean
  readonly weekBegins: 'monday' | 'sunday'
  readonly racks: readonly Rack[]
  readonly weeks: readonly RackWeek[]
  /** what every further batch must leave room for */
  readonly plans: readonly BatchPlan[]
  readonly means: ShopMeans
  readonly plan: Plan
}

/** min; where the shop does not say (estimates) */
const USUAL_HOURS = { opens: 8 * 60, closes: 20 * 60, awakeFrom: 6 * 60, awakeUntil: 23 * 60 } as const
export const bindCalendar = (
  content: Content,
  bars: readonly DryingBars[],
): { readonly calendar: BoundCalendar; readonly cures: readonly BoundCure[] } => {
  const shop = content.shop.value
  const hours = hoursOf(shop)
  const racks = racksOf(shop)
  const standing = bars.map((one) => placesFor(shop, one))
  const plans = bars.map(
    (one, index): BatchPlan =>
      batchPlan(content, one, standing[index] ?? [], {
        date: one.batch.date,
        // the first pour of a day is when all that goes before it is done
        minute: one.batch.file.value['pour-at'] ?? hours.opens + prepareTime(one.batch),
      }),
  )
  // Without racks in its file a shop is taken to have room for everything.
  const means: ShopMeans = {
    hours,
    racks: shop.racks ? racks.map(({ key }) => ({ key, places: 0 })) : [{ key: '', places: BOUNDLESS }],
  }
  const plan = planCalendar(plans, means)
  const cures = bars.map((one, index): BoundCure => {
    const planned = plan.batches[index]
    if (!planned) throw new Error('A batch was not planned.')
    const cutUnknown = !hasWindow(one.batch.blockHeat?.heat)
    const weighings = weighPlan(one, planned)
    return {
      ...one,
      planned: cutUnknown ? { ...planned, findings: [...planned.findings, noWindow(one.batch)] } : planned,
      plan: weighings,
      labelDays: labelDays(one, planned, weighings, hours),
      cutUnknown,
      racks: standing[index] ?? [],
    }
  })
  return {
    calendar: {
      hours,
      isStated: shop.hours !== undefined,
      weekBegins: shop.hours?.['week-begins'] ?? 'monday',
      racks,
      weeks: shop.racks ? rackWeeks(staysOf(plan, cures)) : [],
      plans,
      means,
      plan,
    },
    cures,
  }
}

const BOUNDLESS = 1e9

const hoursOf = (shop: ShopFile): ShopHours => {
  const { opens, closes, 'rest-days': restDays = [], holidays = [], ...rest } = shop.hours ?? USUAL_HOURS_FILE
  return {
    opens,
    closes,
    restDays: restDays.map((day) => WEEKDAYS.indexOf(day)),
    holidays,
    awake: {
      from: Math.min(opens, rest['awake-from'] ?? USUAL_HOURS.awakeFrom),
      until: Math.max(closes, rest['awake-until'] ?? USUAL_HOURS.awakeUntil),
    },
  }
}
const USUAL_HOURS_FILE: NonNullable<ShopFile['hours']> = {
  opens: USUAL_HOURS.opens,
  closes: USUAL_HOURS.closes,
}

const racksOf = (shop: ShopFile): Rack[] =>
  Object.entries(shop.racks ?? {}).map(([key, { length, width, shelves, 'shelf-carries': rating }]) => ({
    key,
    length,
    width,
    shelves,
    rating,
  }))

/** Bars stand on their longer narrow side, so that air gets to both large faces. */
export const placesFor = (shop: ShopFile, { batch, barMass }: DryingBars): RackPlaces[] => {
  const { alongLength, alongWidth, thickness } = batch.mould.bar.green
  const bar = { length: Math.max(alongLength, alongWidth), width: thickness, mass: barMass }
  return racksOf(shop).map((rack) => rackPlaces(rack, bar, shop.racks?.[rack.key]?.gap ?? AIRFLOW_GAP))
}

/** m of air between two bars: of several racks the widest, which does for all of them. */
export const barGap = (shop: ShopFile): number => {
  const gaps = Object.values(shop.racks ?? {}).map(({ gap }) => gap ?? AIRFLOW_GAP)
  return gaps.length > 0 ? Math.max(...gaps) : AIRFLOW_GAP
}

const noWindow = ({ key }: DryingBars['batch']): Finding => ({
  code: 'no-cut-window',
  severity: 'stop',
  values: { batch: key },
})

const weighPlan = ({ batch, readingOn }: DryingBars, { tasks }: PlannedBatch): PlannedWeighIn[] =>
  tasks
    .filter(({ task }) => task.startsWith('weigh-in-'))
    .map(({ at: { date } }) => {
      const days = dayNumber(date) - dayNumber(batch.date)
      const { low, high } = readingOn(days)
      return { date, days, low, high }
    })

/** What is too light on the first day is weighed against less on the next: it has less to lose until its last day of sale. */
const labelDays = (
  bars: DryingBars,
  { tasks }: PlannedBatch,
  weighings: readonly PlannedWeighIn[],
  hours: ShopHours,
): LabelDay[] => {
  const { label } = bars
  const first = tasks.find(({ task }) => task === 'label')?.at.date
  if (label.from === undefined || first === undefined) return []
  const days: LabelDay[] = [{ which: 'first', date: first, least: label.leastOn(label.from) }]
  if (label.declared === undefined) return days
  const last = weighings.at(-1)
  if (last && last.date > first)
    days.push({ which: 'later', date: last.date, least: label.leastOn(last.days) })
  const light = lightDate(bars, hours)
  if (light !== undefined && light > (days.at(-1)?.date ?? ''))
    days.push({
      which: 'light',
      date: light,
      least: label.leastOn(dayNumber(light) - dayNumber(bars.batch.date)),
    })
  return days
}

/** The day with work by which a bar at the light end of the range weighs enough; undefined: not before its last of sale. */
export const lightDate = ({ batch, label }: DryingBars, hours: ShopHours): string | undefined => {
  if (label.days.latest === undefined) return undefined
  const at = dayFrom((dayNumber(batch.date) + label.days.latest) * MINUTES_A_DAY, hours)
  return at === undefined ? undefined : dateOf(dayOf(at))
}

/** With what found no place, so that a week shows by how much it overflows. */
const staysOf = (plan: Plan, cures: readonly BoundCure[]) =>
  cures.flatMap(({ planned, racks }) => {
    const room = racks.reduce((sum, { places }) => sum + places, 0)
    const stays = plan.rackStays.filter(({ batch }) => batch === planned.batch)
    const { bars, from, to } = planned.unplaced
    return [...stays, ...(bars > 0 ? [{ batch: planned.batch, bars, from, to }] : [])].map((stay) => ({
      ...stay,
      share: room > 0 ? stay.bars / room : 1,
    }))
  })
