/** What timers are at a moment: they keep when they began, so that neither a reload nor a locked phone stops them. */
import type { BenchWait } from './data.ts'

/** All of the wait that it was begun for: its sheet may be another one by the time that it is over. */
export interface Timer extends BenchWait {
  /** ms of the phone's clock */
  readonly start: number
  /** how many of its moments somebody has acknowledged */
  readonly seen: number
  /** of the sheet that it was begun on */
  readonly print: string
}

export interface TimerState {
  /** of its moments, in order [ms] */
  readonly moments: readonly number[]
  readonly passed: number
  /** a moment has come that nobody has acknowledged */
  readonly isRinging: boolean
  /** the last that has come */
  readonly since: number | undefined
  /** the first that is to come */
  readonly next: number | undefined
}

/**
 * When a timer rings.
 *
 * Formula: its beginning and each of its durations; of one that comes again every multiple before the last of them, too.
 * Validity: durations above 0.
 * @returns rising [ms]
 */
export const momentsOf = ({
  start,
  after,
  every,
}: Pick<Timer, 'start' | 'after' | 'every'>): readonly number[] => {
  const ends = after.map(({ seconds }) => start + seconds * 1000)
  const last = ends.at(-1) ?? start
  if (!every || every.seconds <= 0) return ends
  const step = every.seconds * 1000
  const between = Array.from(
    { length: Math.ceil((last - start) / step) - 1 },
    (_, index) => start + (index + 1) * step,
  )
  return [...between, last]
}

export const stateOf = (timer: Timer, now: number): TimerState => {
  const moments = momentsOf(timer)
  const passed = moments.filter((moment) => moment <= now).length
  return {
    moments,
    passed,
    isRinging: passed > timer.seen,
    since: passed > 0 ? moments[passed - 1] : undefined,
    next: moments[passed],
  }
}

/** What rings, then what is over soonest. */
export const inOrder = (timers: readonly Timer[], now: number): Timer[] => {
  const rank = (timer: Timer): number => {
    const { isRinging, next } = stateOf(timer, now)
    return isRinging ? 0 : (next ?? Number.MAX_VALUE)
  }
  return [...timers].sort((one, other) => rank(one) - rank(other))
}

/** What is left, to the second: 1:02:03, 2:03. */
export const leftText = (milliseconds: number): string => {
  const seconds = Math.max(0, Math.ceil(milliseconds / 1000))
  const two = (value: number): string => String(value).padStart(2, '0')
  const hours = Math.floor(seconds / 3600)
  const minutes = Math.floor(seconds / 60) % 60
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`
}

/** A time of day on the shop's clock; with its weekday where it is another day than the one beside it. */
export const clockTime = (
  moment: number,
  now: number,
  { clock, language }: { readonly clock: '24-hour' | 'am-pm'; readonly language: string },
): string => {
  const date = new Date(moment)
  const time =
    clock === '24-hour'
      ? `${date.getHours()}:${String(date.getMinutes()).padStart(2, '0')}`
      : date.toLocaleTimeString(language, { hour: 'numeric', minute: '2-digit', hour12: true })
  return date.toDateString() === new Date(now).toDateString()
    ? time
    : `${date.toLocaleDateString(language, { weekday: 'short' })} ${time}`
}
