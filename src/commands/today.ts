/** The day by this machine's clock, for what a person dates while they type. */
import { dateOf, dayNumber } from '../units/civil-day.ts'

export const today = (): string => {
  const now = new Date()
  const two = (part: number): string => String(part).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}

export const dayAfter = (date: string, days: number): string => dateOf(dayNumber(date) + days)
