/** Readings of a batch day with the limits that its sheet prints for them, and what was typed back of each. */
import type { Made } from '../schema/made.ts'
import { minutesAt } from '../units/civil-day.ts'
import type { BoundCure } from './bind-calendar.ts'

/** By the name that the file has for it. */
export type ReadingKey = keyof NonNullable<Made['readings']>

export interface RecordControl {
  readonly key: ReadingKey
  /** in the reading's own unit; times in min since 1970 */
  readonly low: number | undefined
  readonly high: number | undefined
  readonly found: number | undefined
  /** undefined where nothing was typed, or nothing limits it */
  readonly isWithin: boolean | undefined
}

/** K; fats and lye this near their temperatures come out as reckoned (common practice) */
export const NEAR = 3
/** m; a rule against the wet edge of batter (common practice) */
export const LINE_OFF = 0.003

/** In the order of the day. */
export const controlsOf = ({ batch, planned }: BoundCure): RecordControl[] => {
  const { readings = {} } = batch.file.value.made ?? {}
  const { lye, heat, fill, blockHeat } = batch
  const pourTask = planned.tasks.find(({ task }) => task === 'pour')
  const at = (minute: number | undefined): number | undefined =>
    minute === undefined ? undefined : minutesAt({ date: batch.date, minute })
  const momentOf = (one: { readonly date: string; readonly at: number } | undefined): number | undefined =>
    one && minutesAt({ date: one.date, minute: one.at })
  const poured = at(readings.poured) ?? (pourTask && minutesAt(pourTask.at))
  const afterPour = (seconds: number | undefined): number | undefined =>
    seconds === undefined || poured === undefined ? undefined : poured + seconds / 60
  const lyeIn = at(readings['lye-in'])
  const block = blockHeat?.heat
  const row = (
    key: ReadingKey,
    found: number | undefined,
    low?: number | undefined,
    high?: number | undefined,
    slack = SLACK,
  ): RecordControl => ({
    key,
    low,
    high,
    found,
    isWithin:
      found === undefined || (low === undefined && high === undefined)
        ? undefined
        : found >= (low ?? Number.NEGATIVE_INFINITY) - slack &&
          found <= (high ?? Number.POSITIVE_INFINITY) + slack,
  })
  return [
    row('lye-peak', readings['lye-peak'], undefined, lye.limit),
    row('lye', readings.lye, heat.lye - NEAR, heat.lye + NEAR),
    row('fats', readings.fats, heat.fats - NEAR, heat.fats + NEAR),
    row('lye-in', lyeIn),
    row(
      'trace',
      at(readings.trace),
      undefined,
      lyeIn === undefined || batch.timeToThick === 0 ? undefined : lyeIn + batch.timeToThick / 60,
    ),
    row('poured', at(readings.poured)),
    row('below-rim', readings['below-rim'], fill.freeboard - LINE_OFF, fill.freeboard + LINE_OFF),
    row('core-hottest', readings['core-hottest'] ?? hottestLogged(batch), undefined, blockHeat?.tooHot),
    row('sides-off', momentOf(readings['sides-off']), afterPour(block?.strip.nominal), undefined, HALF_HOUR),
    row('set-height', readings['set-height'], fill.setHeight.low - LINE_OFF, fill.setHeight.high + LINE_OFF),
    row('push', readings.push),
    row(
      'cut',
      momentOf(readings.cut),
      afterPour(block?.earliestCut.nominal),
      afterPour(block?.latestCut.nominal),
      HALF_HOUR,
    ),
  ]
}

/** In the unit of the reading: what is typed as it is printed lies within its limits. */
const SLACK = 1e-9
/** min; hours after the pour are printed to the hour */
const HALF_HOUR = 30

/** Of the core log, where nobody typed the hottest by itself. */
const hottestLogged = ({ coreLog }: BoundCure['batch']): number | undefined =>
  coreLog && Math.max(...coreLog.readings.map(({ temperature }) => temperature))
