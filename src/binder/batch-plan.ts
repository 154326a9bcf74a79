/** What a batch asks of the calendar: its tasks with their windows, its moulds, its places on the racks. */
import type { BlockHeat } from '../batch/block-heat.ts'
import { type BatchDurations, batchTasks } from '../cure/batch-tasks.ts'
import type { BatchPlan } from '../cure/calendar.ts'
import type { RackPlaces } from '../cure/racks.ts'
import type { Content } from '../schema/content.ts'
import type { Moment } from '../units/civil-day.ts'
import type { BoundMould } from './bind-mould.ts'
import { cureDays } from './cure-days.ts'
import type { DryingBars } from './drying-bars.ts'

/** d after the pour: often while much leaves, then by the fortnight (common practice) */
const WEIGH_ON = [3, 7, 14, 21, 28, 35, 42, 56]
/** Bars of a batch that are marked, weighed each time, and stay on the rack to the last (common practice) */
export const MARKED = 5
/** min that a batch of a hundred bars takes; a pour is over when all is washed up (estimates) */
const WORK: Omit<BatchDurations['work'], 'prepare'> = {
  pour: 60,
  strip: 30,
  cut: 60,
  slice: 90,
  stamp: 60,
  turn: 20,
  weighIn: 15,
  releaseTest: 30,
  label: 120,
}
/** min; mould, scales and oils, before the lye is made and has cooled (estimate) */
const READY = 90
/** min; a lye that cools longer is made the day before, covered and locked away (common practice) */
const LONGEST_COOLING = 240
/** min; times are given to the half hour, on the safe side */
const STEP = 30
/** min after the pour, where nothing could be reckoned of the block (common practice) */
const USUAL_STRIP = 24 * 60
const LONGEST = 120 * 60
/** min after the cut: loaves are sliced before their faces dry (common practice) */
const SLICE_WITHIN = 24 * 60
/** a mould's place in its row of equal ones, after its key */
const NUMBERED = '#'

/** Moulds of one kind, each with a name of its own. */
export const mouldsOf = ({ key, file }: BoundMould): string[] => {
  const many = file.value['how-many'] ?? 1
  return many === 1 ? [key] : Array.from({ length: many }, (_, index) => `${key}${NUMBERED}${index + 1}`)
}

/** The kind of a mould by its own name, and its place among equal ones. */
export const mouldNamed = (name: string): { readonly key: string; readonly number: string | undefined } => {
  const [key = '', number] = name.split(NUMBERED)
  return { key, number }
}

/** The rules of a batch, and what it takes of moulds and racks. */
export const batchPlan = (
  content: Content,
  bars: DryingBars,
  places: readonly RackPlaces[],
  pour: Moment,
): BatchPlan => {
  const durations = durationsOf(content, bars)
  const lastWeighing = durations.weighIns.at(-1)
  return {
    batch: bars.batch.key,
    pour,
    rules: batchTasks(durations),
    moulds: mouldsOf(bars.batch.mould),
    // the grid cutter goes over the block on the mould's own base
    mouldUntil: 'cut',
    bars: bars.batch.fill.bars,
    racksFrom: 'slice',
    racksTo: 'label',
    ...(lastWeighing === undefined ? {} : { staying: { bars: MARKED, to: `weigh-in-${lastWeighing}` } }),
    ...(places.length > 0 ? { places: Object.fromEntries(places.map((one) => [one.key, one.places])) } : {}),
  }
}

const durationsOf = (content: Content, { batch, label, weighIns, freeFrom }: DryingBars): BatchDurations => {
  const stamp = { ...content.shop.value.cure, ...content.recipes.get(batch.recipeKey)?.value.cure }.stamp
  const days = cureDays(content, batch.recipeKey)
  const heat = batch.blockHeat?.heat
  const strip = upToStep(heat?.strip.nominal) ?? USUAL_STRIP
  const weighed = Math.max(0, ...weighIns.map((one) => one.days))
  const watch = batch.blockHeat?.watch
  return {
    // a block that stays cooler can be left alone
    ...(watch?.mayOverheat ? { hottest: { earliest: watch.from / 60, latest: watch.to / 60 } } : {}),
    strip: { earliest: strip },
    cut:
      heat && hasWindow(heat)
        ? {
            earliest: upToStep(heat.earliestCut.nominal) ?? LONGEST,
            latest: Math.floor(heat.latestCut.nominal / 60 / STEP) * STEP,
          }
        : { earliest: Math.max(strip, upToStep(heat?.earliestCut.nominal) ?? LONGEST) },
    slice: { earliest: 0, latest: SLICE_WITHIN },
    ...(stamp ? { stamp: { earliest: Math.ceil(stamp.from / 60), latest: Math.floor(stamp.to / 60) } } : {}),
    turns: days.turns,
    weighIns: WEIGH_ON.filter((day) => day >= freeFrom && day > weighed),
    releaseTest: days.releaseTest,
    // bars that no day is known for stay on the rack as long as the others
    label: label.from ?? days.label,
    sellBy: days.sellBy,
    work: { ...WORK, prepare: prepareTime(batch) },
  }
}

/** Min before the pour at which work begins: until the lye has cooled there is no pour. */
export const prepareTime = ({ lye }: DryingBars['batch']): number => {
  const cooling = Math.min(LONGEST_COOLING, (lye.coolingTime ?? 0) / 60)
  return Math.ceil((READY + cooling) / STEP) * STEP
}

const upToStep = (seconds: number | undefined): number | undefined =>
  seconds === undefined ? undefined : Math.ceil(seconds / 60 / STEP) * STEP

/** Whether a block can be cut at any time at all, as far as it could be reckoned. */
export const hasWindow = (heat: BlockHeat | undefined): boolean =>
  heat?.earliestCut.nominal !== undefined && heat.earliestCut.nominal <= heat.latestCut.nominal
