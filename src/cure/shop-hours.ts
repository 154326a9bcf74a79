/** When somebody works in the shop, and when somebody is awake. */
import { dateOf, MINUTES_A_DAY, weekday } from '../units/civil-day.ts'

export interface ShopHours {
  /** min after midnight, opens < closes ≤ 1440 */
  readonly opens: number
  readonly closes: number
  /** days of the week without work, 0 for Monday to 6 for Sunday */
  readonly restDays: readonly number[]
  /** dates without work */
  readonly holidays: readonly string[]
  /** min after midnight: somebody can look at a block, on rest days too; the opening hours where it is left out */
  readonly awake?: { readonly from: number; readonly until: number }
}

/** d in which an open hour is looked for */
export const SEARCH = 400
/** min between the hours at which a pour is tried */
const SLOT = 30

/**
 * The day of a moment.
 *
 *     ⌊minutes / 1440⌋
 *
 * @param minutes since 1970-01-01 at midnight
 * @returns days since 1970-01-01
 * @source gregorian
 */
export const dayOf = (minutes: number): number => Math.floor(minutes / MINUTES_A_DAY)

/**
 * Whether nobody works on the day of a moment.
 *
 *     its day of the week is a rest day, or its date a holiday
 *
 * @param at    min since 1970-01-01 at midnight
 * @param hours of the shop
 * @returns true for a day without work
 * @source common practice
 */
export const isRestDay = (at: number, { restDays, holidays }: ShopHours): boolean =>
  restDays.includes(weekday(dayOf(at))) || holidays.includes(dateOf(dayOf(at)))

/**
 * Whether work can be begun at a moment and ended before the shop closes.
 *
 *     opens ≤ minute of the day, and minute + work ≤ closes, on a day with work
 *
 * @param at    min since 1970-01-01 at midnight
 * @param work  min that it takes
 * @param hours of the shop
 * @returns true when it can
 * @source common practice
 */
export const isOpen = (at: number, work: number, hours: ShopHours): boolean => {
  const minute = at - dayOf(at) * MINUTES_A_DAY
  return minute >= hours.opens && minute + work <= hours.closes && !isRestDay(at, hours)
}

/**
 * First moment from one on at which work can be begun and ended on the same day.
 *
 *     the moment itself, or the opening of the first day on which it fits
 *
 * @param from  min since 1970-01-01 at midnight
 * @param work  min that it takes
 * @param hours of the shop
 * @returns min since 1970-01-01 at midnight; undefined when no day of the next 400 has room
 * @source common practice
 */
export function openFrom(from: number, work: number, hours: ShopHours): number | undefined {
  if (isOpen(from, work, hours)) return from
  for (let day = dayOf(from); day <= dayOf(from) + SEARCH; day += 1) {
    const at = Math.max(from, day * MINUTES_A_DAY + hours.opens)
    if (isOpen(at, work, hours)) return at
  }
  return undefined
}

/**
 * Last moment up to one at which work can be begun and ended on the same day.
 *
 *     the moment itself, or as long before closing as the work takes, on the last day on which it fits
 *
 * @param until min since 1970-01-01 at midnight
 * @param work  min that it takes
 * @param hours of the shop
 * @returns min since 1970-01-01 at midnight; undefined when no day of the 400 before has room
 * @source common practice
 */
export function openUntil(until: number, work: number, hours: ShopHours): number | undefined {
  for (let day = dayOf(until); day >= dayOf(until) - SEARCH; day -= 1) {
    const at = Math.min(until, day * MINUTES_A_DAY + hours.closes - work)
    if (isOpen(at, work, hours)) return at
  }
  return undefined
}

/**
 * When something is done that is due on a day at no hour.
 *
 *     the opening of the first day with work, or the moment itself where that is later on the same day
 *
 * @param from  min since 1970-01-01 at midnight
 * @param hours of the shop
 * @returns min since 1970-01-01 at midnight; undefined when no day of the next 400 has work
 * @source common practice
 */
export function dayFrom(from: number, hours: ShopHours): number | undefined {
  for (let day = dayOf(from); day <= dayOf(from) + SEARCH; day += 1) {
    const opens = day * MINUTES_A_DAY + hours.opens
    if (!isRestDay(opens, hours)) return day === dayOf(from) ? Math.max(opens, from) : opens
  }
  return undefined
}

/**
 * Whether somebody is awake all through a span.
 *
 *     awake from ≤ start, end ≤ awake until, on the same day
 *
 * @param from  min since 1970-01-01 at midnight
 * @param to    the same, from ≤ to
 * @param hours of the shop
 * @returns true when somebody is
 * @source common practice
 */
export const isAwake = (from: number, to: number, { opens, closes, awake }: ShopHours): boolean => {
  const midnight = dayOf(from) * MINUTES_A_DAY
  const { from: up = opens, until = closes } = awake ?? {}
  return from - midnight >= up && to - midnight <= until
}

/**
 * Hours of a day at which a pour is tried, half an hour apart.
 *
 *     opens, opens + 30 min … before closes
 *
 * @param hours of the shop
 * @returns min after midnight, ascending
 * @source common practice
 */
export const slotsOf = ({ opens, closes }: ShopHours): number[] =>
  Array.from({ length: Math.max(0, Math.floor((closes - opens) / SLOT)) }, (_, i) => opens + i * SLOT)
