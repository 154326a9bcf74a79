/** Days and hours of what was done of a batch: each not before what must have been done first. */
import type { z } from 'zod'
import { clockText, dayNumber, MINUTES_A_DAY } from '../units/civil-day.ts'
import { report } from './fields.ts'
import type { Made } from './made.ts'

/** Something that was done, as the file says it. */
interface Done {
  /** in the words of a message: "the cut" */
  readonly what: string
  /** in the batch's file */
  readonly path: readonly (string | number)[]
  /** min since 1970; of a day alone its two ends */
  readonly from: number
  readonly to: number
  readonly shown: string
}

/** Hours without a day are those of the pour's day. */
const steps = (date: string, made: Made, tested: string | undefined) => {
  const at = (
    what: string,
    path: Done['path'],
    day: string | undefined,
    minute?: number | undefined,
  ): Done[] => {
    if (day === undefined) return []
    const begins = dayNumber(day) * MINUTES_A_DAY
    return minute === undefined
      ? [{ what, path, from: begins, to: begins + MINUTES_A_DAY, shown: day }]
      : [{ what, path, from: begins + minute, to: begins + minute, shown: `${day}, ${clockText(minute)}` }]
  }
  const hour = (what: string, path: Done['path'], minute: number | undefined): Done[] =>
    minute === undefined ? [] : at(what, path, date, minute)
  const { readings = {}, wrapped, release, went = [] } = made
  const sidesOff = readings['sides-off']
  const { cut } = readings
  return {
    theDay: [
      ...hour('the beginning', ['made', 'began'], made.began),
      ...hour('the lye in the fats', ['made', 'readings', 'lye-in'], readings['lye-in']),
      ...hour('the first trace', ['made', 'readings', 'trace'], readings.trace),
      ...hour('the pour', ['made', 'readings', 'poured'], readings.poured),
    ],
    washedUp: hour('the washing up', ['made', 'washed-up'], made['washed-up']),
    pour: at('the day of the pour', [], date),
    sidesOff: at('the sides taken off', ['made', 'readings', 'sides-off'], sidesOff?.date, sidesOff?.at),
    cut: at('the cut', ['made', 'readings', 'cut'], cut?.date, cut?.at),
    later: [
      ...at('the wrapping', ['made', 'wrapped', 'date'], wrapped?.date),
      ...at('the free-alkali test', ['release-test', 'date'], tested),
      ...at('the decision', ['made', 'release', 'date'], release?.date),
      ...went.flatMap(({ date: day }, index) =>
        at('what left the shop', ['made', 'went', index, 'date'], day),
      ),
    ],
  }
}

/**
 * A file that says of a batch that it was wrapped before it was cut has a slip of the pen in it. That it was released too
 * soon is none: that may well have been done, and its record says so.
 *
 * @param date    of the pour
 * @param tested  day of the release test
 * @param context of the batch's whole file
 */
export const checkMadeDays = (
  date: string,
  made: Made,
  tested: string | undefined,
  context: z.RefinementCtx,
): void => {
  const { theDay, washedUp, pour, sidesOff, cut, later } = steps(date, made, tested)
  /** one line a slip, told at what is written later in the file */
  const inOrder = (row: readonly Done[]): boolean => {
    const at = row.findIndex((one, index) => index > 0 && one.to < (row[index - 1] as Done).from)
    const before = row[at - 1]
    const after = row[at]
    if (!before || !after) return true
    report(context, {
      code: 'made-goes-backwards',
      message: `${capital(after.what)} (${after.shown}) stands before ${before.what} (${before.shown})`,
      advice: 'Correct the day or the hour that is wrong; a clock after midday says 13:05 or 1:05 pm.',
      path: [...after.path],
    })
    return false
  }
  if (!inOrder(theDay)) return
  const last = theDay.at(-1)
  if (!inOrder([...(last ? [last] : []), ...washedUp])) return
  if (!inOrder([last ?? (pour[0] as Done), ...sidesOff, ...cut])) return
  const earliest = cut[0] ?? sidesOff[0] ?? (pour[0] as Done)
  for (const one of later) if (!inOrder([earliest, one])) return
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
