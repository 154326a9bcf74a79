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
import type { ShopHours } from '../cure/shop-hours.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import { type ShopFile, WEEKDAYS } from '../schema/shop.ts'
import { dayNumber } from '../units/civil-day.ts'
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

/** One batch's bars from the pour to the label: how they dry, and when what is done with them. */
export interface BoundCure extends DryingBars {
  readonly planned: PlannedBatch
  readonly plan: readonly PlannedWeighIn[]
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
    return {
      ...one,
      planned: cutUnknown ? { ...planned, findings: [...planned.findings, noWindow(one.batch)] } : planned,
      plan: weighPlan(one, planned),
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
