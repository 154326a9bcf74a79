/** Dates of the shop as a calendar file that any calendar program opens. */
import { dateOf, dayNumber, MINUTES_A_DAY } from '../units/civil-day.ts'

export interface CalendarEvent {
  /** key of the batch and of its task: together they name the event for ever */
  readonly batch: string
  readonly task: string
  readonly summary: string
  readonly description?: string
  /** first day */
  readonly date: string
  /** min after midnight and min that it takes; without them the event is all day */
  readonly time?: { readonly minute: number; readonly duration: number }
  /** days of an all-day event, 1 when left out */
  readonly days?: number
}

export interface CalendarFile {
  /** words for PRODID and for the calendar's name */
  readonly name: string
  /** date of the edition: it stamps every event, so that the same content gives the same bytes */
  readonly edition: string
  /** number of the edition, so that a program knows the newer one; ≥ 0 */
  readonly sequence: number
  readonly events: readonly CalendarEvent[]
}

/**
 * Number of an edition, so that a calendar program knows the newer one.
 *
 *     days since 2020-01-01, 0 before that
 *
 * @param date of the edition, year-month-day
 * @returns number [d]
 * @source rfc5545
 */
export const editionNumber = (date: string): number => Math.max(0, dayNumber(date) - dayNumber('2020-01-01'))

/** Octets of a line without its end. */
const LINE = 75

/**
 * A calendar file.
 *
 *     VCALENDAR with one VEVENT an event, lines of at most 75 octets that end in CR LF
 *
 * Times are floating: nine in the shop is nine wherever the calendar is read, and no time zone is needed. The end of an
 * all-day event is the day after its last.
 *
 * @param file edition and events, dates as year-month-day, times in min after midnight
 * @returns text, in UTF-8 when it is written
 * @source rfc5545
 */
export function calendarText(file: CalendarFile): string {
  const { name, edition, sequence, events } = file
  const stamp = `${bare(edition)}T000000Z`
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    `PRODID:${escapeText(`-//${name}//Kettle & Kerf//EN`)}`,
    'CALSCALE:GREGORIAN',
    ...events.flatMap((event) => [
      'BEGIN:VEVENT',
      `UID:${eventKey(event)}`,
      `DTSTAMP:${stamp}`,
      `SEQUENCE:${sequence}`,
      ...span(event),
      `SUMMARY:${escapeText(event.summary)}`,
      ...(event.description === undefined ? [] : [`DESCRIPTION:${escapeText(event.description)}`]),
      'END:VEVENT',
    ]),
    'END:VCALENDAR',
  ]
  return lines.map((line) => `${foldLine(line)}\r\n`).join('')
}

/**
 * Name of an event that stays the same in every edition.
 *
 *     batch/task@kettle-and-kerf, other signs than letters and digits written by their octets
 *
 * @param event keys of batch and task
 * @returns name, different for different pairs of keys
 * @source rfc5545
 */
export const eventKey = ({ batch, task }: Pick<CalendarEvent, 'batch' | 'task'>): string =>
  `${encodeURIComponent(wellFormed(batch))}/${encodeURIComponent(wellFormed(task))}@kettle-and-kerf`

/**
 * A text as the value of a property.
 *
 *     \ → \\    ; → \;    , → \,    line end → \n    other control signs are left out
 *
 * @param text any text
 * @returns escaped text, on one line
 * @source rfc5545
 */
export const escapeText = (text: string): string =>
  wellFormed(text)
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replace(/\r\n|\r|\n/g, '\\n')
    .replace(CONTROL, '')

/**
 * A long line folded: each further line begins with a space, which counts among its octets.
 *
 *     cut before the character that would pass the 75th octet
 *
 * No character is cut in two, which an older reader that unfolds octets would survive but a person would not.
 *
 * @param line one line without its end
 * @returns the line with CR LF and a space where it is folded
 * @source rfc5545
 */
export function foldLine(line: string): string {
  let folded = ''
  let room = LINE
  for (const sign of line) {
    const size = octets(sign)
    if (size > room) {
      folded += '\r\n '
      room = LINE - 1
    }
    folded += sign
    room -= size
  }
  return folded
}

function span({ date, time, days }: CalendarEvent): string[] {
  if (time === undefined) {
    const end = dateOf(dayNumber(date) + (days ?? 1))
    return [`DTSTART;VALUE=DATE:${bare(date)}`, `DTEND;VALUE=DATE:${bare(end)}`]
  }
  const at = (minutes: number): string => {
    const day = Math.floor(minutes / MINUTES_A_DAY)
    const minute = minutes - day * MINUTES_A_DAY
    const two = (value: number): string => String(value).padStart(2, '0')
    return `${bare(dateOf(dayNumber(date) + day))}T${two(Math.floor(minute / 60))}${two(minute % 60)}00`
  }
  const start = `DTSTART:${at(time.minute)}`
  // An event may not end when it begins; one without an end is a moment.
  return time.duration > 0 ? [start, `DTEND:${at(time.minute + time.duration)}`] : [start]
}

const bare = (date: string): string => date.replaceAll('-', '')

const octets = (sign: string): number => {
  const code = sign.codePointAt(0) ?? 0
  if (code < 0x80) return 1
  if (code < 0x800) return 2
  return code < 0x10000 ? 3 : 4
}

/** Half a character cannot be written in UTF-8. */
const wellFormed = (text: string): string => text.replace(/\p{Surrogate}/gu, '\uFFFD')

/** All that a text value may not hold; a tab may stay. */
const CONTROL = /(?!\t)\p{Cc}/gu
