/** Bars that must be ready for a day: from it back to the pours. */

import type { BatchPlan, ShopMeans } from '../cure/calendar.ts'
import { type BackPlan, type MarketWish, planBack, soonestReady } from '../cure/market.ts'
import { type Finding, isStopped } from '../findings.ts'
import { keptByInput } from '../kept-or-made.ts'
import type { BatchFile } from '../schema/batch.ts'
import type { Content } from '../schema/content.ts'
import type { MarketFile } from '../schema/market.ts'
import type { Placed } from '../schema/placed.ts'
import { dateOf, dayNumber } from '../units/civil-day.ts'
import { barBalance } from './bar-balance.ts'
import { batchPlan, MARKED } from './batch-plan.ts'
import type { BoundBatch } from './bind-batch.ts'
import { type BoundCalendar, type BoundCure, lightDate, placesFor } from './bind-calendar.ts'
import { cureDays } from './cure-days.ts'
import { dryingBars } from './drying-bars.ts'

export interface MarketItem {
  readonly recipeKey: string
  readonly recipeTitle: string
  /** wanted; and of one batch: all, and what is left of them after tests */
  readonly bars: number
  readonly barsPoured: number
  readonly barsPerBatch: number
  /** kg on the label, where bars that keep it take longer than the shop's own wait */
  readonly waitsFor: number | undefined
  /** missing where no batch of it can be made at all */
  readonly back: BackPlan | undefined
  /** bars of batches that are planned already and will be ready by then */
  readonly planned: readonly PlannedBars[]
  /** those bars are enough, if they are free to sell */
  readonly covered: boolean
  /** the last day on which it is decided whether more is poured; missing where nothing can be */
  readonly decideBy: string | undefined
  readonly findings: readonly Finding[]
}

export interface PlannedBars {
  readonly batch: string
  /** of the pour, and of the label */
  readonly date: string
  readonly label: string
  /** good ones, and those of them that the market wants */
  readonly bars: number
  readonly kept: number
  /** by when a light one weighs enough, if at all; missing where there is no label to reach */
  readonly light: { readonly date: string | undefined } | undefined
}

export interface BoundMarket {
  readonly key: string
  readonly file: Placed<MarketFile>
  readonly title: string
  readonly date: string
  /** last day on which bars may be labelled, and whole days from it to the market */
  readonly readyBy: string
  readonly daysBefore: number
  readonly items: readonly MarketItem[]
}

const DAY = 86400
/** Bars of a batch that are not counted: five for the release test, one that is kept, and the marked (common practice) */
export const KEPT_BACK = 5 + 1 + MARKED

export interface MarketParts {
  readonly content: Content
  readonly calendar: BoundCalendar
  readonly cures: readonly BoundCure[]
  /** a batch that nobody has planned yet; nothing where the shop lacks a vessel (told elsewhere) */
  readonly imagine: (file: Placed<BatchFile>) => BoundBatch | undefined
}

export const bindMarkets = (parts: MarketParts): BoundMarket[] => {
  const { content, calendar } = parts
  const markets = [...content.markets.values()].sort((a, b) =>
    a.value.date + a.key < b.value.date + b.key ? -1 : 1,
  )
  // What an earlier market takes is not there for a later one.
  const others = [...calendar.plans]
  return markets.map((file): BoundMarket => {
    const { title, date, ready = DAY, bars } = file.value
    const daysBefore = Math.ceil(ready / DAY)
    const items = Object.entries(bars).map(([recipeKey, wanted]) => {
      const item = itemOf(parts, file, recipeKey, wanted, daysBefore, others)
      others.push(...(item.back?.pours.map(({ plan }) => plan) ?? []))
      return item
    })
    return {
      key: file.key,
      file,
      title,
      date,
      readyBy: dateOf(dayNumber(date) - daysBefore),
      daysBefore,
      items,
    }
  })
}

const itemOf = (
  { content, calendar, cures, imagine }: MarketParts,
  file: Placed<MarketFile>,
  recipeKey: string,
  bars: number,
  daysBefore: number,
  others: readonly BatchPlan[],
): MarketItem => {
  const { date, mould, 'label-weight': labelWeight } = file.value
  const recipeTitle = content.recipes.get(recipeKey)?.value.title ?? recipeKey
  const { edition } = content.shop.value
  const batch = imagine({
    ...file,
    key: `${file.key}/${recipeKey}`,
    value: {
      recipe: recipeKey,
      mould,
      date: edition,
      fill: 'to the line',
      lye: { ice: 'as needed' },
      ...(labelWeight === undefined ? {} : { 'label-weight': labelWeight }),
    },
  })
  const drying = batch && dryingBars(content, batch)
  const deadline = dateOf(dayNumber(date) - daysBefore)
  let wanting = bars
  const planned = cures
    .filter(
      (cure) =>
        cure.batch.recipeKey === recipeKey &&
        cure.label.from !== undefined &&
        !isStopped(cure.findings) &&
        !cure.cutUnknown,
    )
    .flatMap((cure) => {
      const { made } = cure.batch.file.value
      const wrapped = made?.wrapped?.date
      const label = wrapped ?? cure.planned.tasks.find(({ task }) => task === 'label')?.at.date
      if (label === undefined || label > deadline || (wrapped === undefined && label < edition)) return []
      if (made?.release && made.release.decision !== 'released') return []
      // once they are counted nobody reckons them any more
      const counted = barBalance(made)
      const good = Math.max(0, counted.kept ?? counted.fit ?? cure.batch.fill.bars - KEPT_BACK)
      const kept = Math.min(good, wanting)
      wanting -= kept
      const light =
        wrapped !== undefined || cure.label.declared === undefined
          ? undefined
          : { date: lightDate(cure, calendar.hours) }
      return [{ batch: cure.batch.key, date: cure.batch.date, label, bars: good, kept, light }]
    })
  const covered = planned.reduce((sum, one) => sum + one.bars, 0) >= bars
  const item = { recipeKey, recipeTitle, bars, planned, covered }
  const none = (finding: Finding): MarketItem => ({
    ...item,
    barsPoured: 0,
    barsPerBatch: 0,
    waitsFor: undefined,
    back: undefined,
    decideBy: undefined,
    findings: [finding],
  })
  if (!batch || !drying || isStopped(drying.findings))
    return none({ code: 'market-batch-stopped', severity: 'stop', values: { recipe: recipeTitle } })
  const { declared, from, most } = drying.label
  if (declared !== undefined && from === undefined)
    return none({
      code: 'market-label-too-heavy',
      severity: 'stop',
      values: { recipe: recipeTitle, declared, labelMost: most },
    })
  const barsPerBatch = Math.max(1, batch.fill.bars - KEPT_BACK)
  const { pour: _, ...plan } = batchPlan(content, drying, placesFor(content.shop.value, drying), {
    date: edition,
    minute: calendar.hours.opens,
  })
  const wish: MarketWish = {
    bars,
    barsPerBatch,
    market: date,
    ready: daysBefore,
    until: 'label',
    plan,
    notBefore: edition,
  }
  const request = { wish, means: calendar.means, others }
  const back = plannedBack(request)
  const short = back.batches - back.pours.length
  const soonest = short > 0 ? readySoonest(request).day : undefined
  const { batches } = back
  const findings: Finding[] = []
  if (soonest !== undefined)
    findings.push({
      code: 'market-too-soon',
      severity: 'stop',
      values: { recipe: recipeTitle, batches, short, soonest },
    })
  else if (short > 0)
    findings.push({
      code: 'market-too-large',
      severity: 'stop',
      values: { recipe: recipeTitle, batches, short },
    })
  const [first] = back.pours
  const waits = (from ?? 0) > cureDays(content, recipeKey).label
  return {
    ...item,
    barsPoured: batch.fill.bars,
    barsPerBatch,
    waitsFor: waits ? declared : undefined,
    back,
    // what begins with the shop's first hour is decided the evening before
    decideBy: first && dateOf(dayNumber(first.pour.date) - 1),
    findings,
  }
}

interface BackRequest {
  readonly wish: MarketWish
  readonly means: ShopMeans
  /** planned already */
  readonly others: readonly BatchPlan[]
}

/** Wishes that are kept with their pours. */
const MOST_KNOWN = 64

const plannedBack = keptByInput(MOST_KNOWN, ({ wish, means, others }: BackRequest) =>
  planBack(wish, means, others),
)
const readySoonest = keptByInput(MOST_KNOWN, ({ wish, means, others }: BackRequest) => ({
  day: soonestReady(wish, means, others),
}))
