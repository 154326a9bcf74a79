/** How many bars a rack takes, by room and by weight, and how full it gets. */
import type { Finding } from '../findings.ts'
import { dateOf, dayNumber, weekday } from '../units/civil-day.ts'

export interface Rack {
  readonly key: string
  /** m, of one shelf */
  readonly length: number
  readonly width: number
  readonly shelves: number
  /** kg that one shelf may carry; undefined when nobody knows */
  readonly rating: number | undefined
}

/** A bar as it stands on the shelf. */
export interface RackedBar {
  /** m */
  readonly length: number
  readonly width: number
  /** kg when it is put there, at its heaviest */
  readonly mass: number
}

/** m of air between two bars: about a finger's width. */
export const AIRFLOW_GAP = 0.015 // estimate, common practice

export interface RackPlaces {
  readonly key: string
  /** bars along and across one shelf */
  readonly along: number
  readonly across: number
  /** true when the bar's length lies along the shelf's */
  readonly lengthways: boolean
  /** bars that have room on one shelf, and that it may carry */
  readonly byRoom: number
  readonly byLoad: number
  /** bars on the whole rack: the smaller of both on each shelf */
  readonly places: number
  readonly shelves: number
  /** kg that one shelf may carry */
  readonly rating: number | undefined
  /** kg on one shelf and on the rack when every place is taken */
  readonly shelfLoad: number
  readonly rackLoad: number
  readonly findings: readonly Finding[]
}

/**
 * Places for bars on a rack.
 *
 *     ⌊(L + gap) / (l + gap)⌋ · ⌊(W + gap) / (w + gap)⌋, the better of both ways round      by load ⌊rating / m⌋
 *
 * The gap is between bars; at the shelf's edges there is air anyway.
 *
 * @param rack shelf [m], shelves, rating of each [kg]
 * @param bar  footprint [m] and mass [kg]
 * @param gap  m of air between bars, ≥ 0
 * @returns places, and load [kg] when they are all taken
 * @source shelf-practice
 */
export function rackPlaces(rack: Rack, bar: RackedBar, gap: number = AIRFLOW_GAP): RackPlaces {
  const fitting = (room: number, size: number): number =>
    Math.max(0, Math.floor((room + gap) / (size + gap) + ROUNDING))
  const lengthways = { along: fitting(rack.length, bar.length), across: fitting(rack.width, bar.width) }
  const turned = { along: fitting(rack.length, bar.width), across: fitting(rack.width, bar.length) }
  const straight = lengthways.along * lengthways.across >= turned.along * turned.across
  const { along, across } = straight ? lengthways : turned
  const byRoom = along * across
  const byLoad =
    rack.rating === undefined ? byRoom : Math.max(0, Math.floor(rack.rating / bar.mass + ROUNDING))
  const onShelf = Math.min(byRoom, byLoad)
  const full = byRoom * bar.mass
  const findings: Finding[] = []
  if (byRoom === 0) findings.push({ code: 'rack-takes-no-bar', severity: 'stop', values: { rack: rack.key } })
  if (rack.rating === undefined) {
    findings.push({
      code: 'shelf-rating-unknown',
      severity: 'hold',
      values: { rack: rack.key, load: full },
    })
  } else if (byLoad < byRoom) {
    findings.push({
      code: 'shelf-full-by-load',
      severity: 'warn',
      values: { rack: rack.key, rating: rack.rating, load: full, byRoom, byLoad },
    })
  }
  return {
    key: rack.key,
    along,
    across,
    lengthways: straight,
    byRoom,
    byLoad,
    places: onShelf * rack.shelves,
    shelves: rack.shelves,
    rating: rack.rating,
    shelfLoad: onShelf * bar.mass,
    rackLoad: onShelf * rack.shelves * bar.mass,
    findings,
  }
}

/** Bars that stand on the racks from one day to the next, both days included. */
export interface RackStay {
  readonly batch: string
  readonly bars: number
  readonly from: string
  readonly to: string
}

export interface RackWeek {
  /** the Monday */
  readonly week: string
  /** on the fullest day of the week, the first of them: the day, bars of all batches, and the share of all room [–] */
  readonly day: string
  readonly bars: number
  readonly share: number
}

/**
 * How full the racks are, week by week.
 *
 *     share of a day = Σ bars/places of the stays that hold it        of a week: the most of its seven days
 *
 * Above 1 there are more bars than places.
 *
 * @param stays bars by batch with first and last day, and the share of all racks that they take [–]
 * @returns weeks from the first stay to the last, empty ones between them included
 * @source common practice
 */
export function rackWeeks(stays: readonly (RackStay & { readonly share: number })[]): readonly RackWeek[] {
  if (stays.length === 0) return []
  const spans = stays.map((stay) => ({ ...stay, first: dayNumber(stay.from), last: dayNumber(stay.to) }))
  const begin = Math.min(...spans.map(({ first }) => first))
  const end = Math.max(...spans.map(({ last }) => last))
  const weeks: RackWeek[] = []
  for (let monday = begin - weekday(begin); monday <= end; monday += 7) {
    let fullest = { day: monday, bars: 0, share: -1 }
    for (let day = monday; day < monday + 7; day += 1) {
      const then = spans.filter(({ first, last }) => first <= day && day <= last)
      const share = then.reduce((sum, one) => sum + one.share, 0)
      if (share > fullest.share + ROUNDING)
        fullest = { day, bars: then.reduce((sum, one) => sum + one.bars, 0), share }
    }
    weeks.push({ week: dateOf(monday), ...fullest, day: dateOf(fullest.day) })
  }
  return weeks
}

/** A hair, so that bars that fill a shelf exactly are not lost to the last bit of a division. */
const ROUNDING = 1e-9
