/** Durations that somebody waits for: as long as the sheet says, since a clock beside the paper must not contradict it. */
import type { Frame } from '../frame.ts'
import type { Value } from '../model.ts'
import { hoursAsShown, minutesAsShown } from '../shown.ts'

export const waitHours = (show: Frame['show'], name: string, duration: number): Value =>
  show.hours(name, hoursAsShown(duration))

export const waitMinutes = (show: Frame['show'], name: string, duration: number): Value =>
  show.minutes(name, minutesAsShown(duration))
