/** What a phone keeps of a sheet: ticks, times and timers, in the page's own storage, or for as long as the page is open. */
import type { Timer } from './timers.ts'

export interface Tick {
  /** ms of the phone's clock */
  readonly at: number
  /** what stood there when it was ticked */
  readonly what: string
}

export interface Moment {
  readonly at: number
  readonly print: string
}

type Named<Thing> = Readonly<Record<string, Thing>>

export interface Kept {
  /** of the sheet that the ticks were made on */
  readonly print: string
  readonly ticks: Named<Tick>
  readonly moments: Named<Moment>
  readonly timers: readonly Timer[]
  /** ticks that were made on other prints of the sheet */
  readonly others: readonly { readonly print: string; readonly ticks: Named<Tick> }[]
}

export interface Store {
  readonly now: () => Kept
  readonly isRefused: () => boolean
  /** from what is kept at that moment: another window may have changed it */
  readonly change: (edit: (kept: Kept) => Kept) => void
  /** of all sheets */
  readonly clear: () => void
  readonly whenElsewhereChanged: (told: () => void) => void
}

const PREFIX = 'kettle-and-kerf/bench/'

export const openStore = (name: string, print: string): Store => {
  const key = `${PREFIX}${name}`
  let kept = emptyKept(print)
  let isRefused = false
  const read = (): void => {
    try {
      const text = localStorage.getItem(key)
      kept = forPrint(text === null ? emptyKept(print) : (keptOf(text) ?? emptyKept(print)), print)
    } catch {
      isRefused = true
    }
  }
  const write = (): void => {
    try {
      localStorage.setItem(key, JSON.stringify(kept))
      isRefused = false
    } catch {
      isRefused = true
    }
  }
  read()
  // a browser that refuses says so when something is written
  write()
  return {
    now: () => kept,
    isRefused: () => isRefused,
    change: (edit) => {
      if (!isRefused) read()
      kept = edit(kept)
      write()
    },
    clear: () => {
      kept = emptyKept(print)
      try {
        for (const one of Object.keys(localStorage)) if (one.startsWith(PREFIX)) localStorage.removeItem(one)
      } catch {
        isRefused = true
      }
    },
    whenElsewhereChanged: (told) =>
      addEventListener('storage', (event) => {
        if (event.key !== key && event.key !== null) return
        read()
        told()
      }),
  }
}

const emptyKept = (print: string): Kept => ({ print, ticks: {}, moments: {}, timers: [], others: [] })

/** Ticks belong to the print that they were made on: those of another are set aside, those of this one come back. */
export const forPrint = (kept: Kept, print: string): Kept => {
  if (kept.print === print) return kept
  const here = kept.others.find((other) => other.print === print)
  const aside = kept.others.filter((other) => other !== here)
  const left = Object.keys(kept.ticks).length > 0 ? [{ print: kept.print, ticks: kept.ticks }] : []
  return { ...kept, print, ticks: here?.ticks ?? {}, others: [...aside, ...left] }
}

/** @returns undefined for what this program did not write */
export const keptOf = (text: string): Kept | undefined => {
  try {
    const found: unknown = JSON.parse(text)
    return isKept(found) ? found : undefined
  } catch {
    return undefined
  }
}

const isRecord = (thing: unknown): thing is Record<string, unknown> =>
  typeof thing === 'object' && thing !== null && !Array.isArray(thing)

const areTicks = (thing: unknown): boolean =>
  isRecord(thing) &&
  Object.values(thing).every(
    (one) => isRecord(one) && typeof one.at === 'number' && typeof one.what === 'string',
  )

const isKept = (thing: unknown): thing is Kept =>
  isRecord(thing) &&
  typeof thing.print === 'string' &&
  areTicks(thing.ticks) &&
  isRecord(thing.moments) &&
  Object.values(thing.moments).every((one) => isRecord(one) && typeof one.at === 'number') &&
  Array.isArray(thing.timers) &&
  thing.timers.every(isTimer) &&
  Array.isArray(thing.others) &&
  thing.others.every((one) => isRecord(one) && typeof one.print === 'string' && areTicks(one.ticks))

const isTimer = (thing: unknown): boolean =>
  isRecord(thing) &&
  typeof thing.name === 'string' &&
  typeof thing.words === 'string' &&
  typeof thing.start === 'number' &&
  typeof thing.seen === 'number' &&
  Array.isArray(thing.after) &&
  thing.after.every((one) => isRecord(one) && typeof one.seconds === 'number') &&
  (thing.every === undefined || (isRecord(thing.every) && typeof thing.every.seconds === 'number'))
