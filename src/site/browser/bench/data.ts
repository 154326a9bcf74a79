/** What the page of a sheet hands to the script that follows it at the bench. */

export interface BenchData {
  /** under which a phone keeps what belongs to this sheet: shop and sheet, since pages from a folder share one store */
  readonly store: string
  /** changes with whatever the sheet shows */
  readonly print: string
  readonly isStopped: boolean
  readonly clock: '24-hour' | 'am-pm'
  readonly steps: readonly BenchStep[]
}

export interface BenchStep {
  readonly name: string
  readonly number: number
  readonly isHold: boolean
  readonly waits: readonly BenchWait[]
  /** name of the first step that is done again, from there to this one */
  readonly again?: string
}

/** A duration [s] and how the sheet writes it. */
export interface Duration {
  readonly seconds: number
  readonly shown: string
}

export interface BenchWait {
  readonly name: string
  readonly words: string
  readonly after: readonly Duration[]
  readonly every?: Duration
  /** the moment of the sheet that it counts from */
  readonly since?: string
}

export type BenchWord =
  | 'paper' | 'refused' | 'dark' | 'awake' | 'silent' | 'held' | 'stopped' | 'stoppedTimers'
  | 'other' | 'look' | 'clearOther' | 'otherOne' | 'otherGone'
  | 'next' | 'nextHold' | 'leftOut' | 'leftOutHold' | 'nextRow' | 'leftOutRow' | 'nextRead' | 'done' | 'holdOpen' | 'readOpen'
  | 'ticked' | 'unticked' | 'undo' | 'step' | 'row'
  | 'start' | 'startEvery' | 'noteFirst' | 'counts' | 'left' | 'now' | 'nowOpen' | 'until' | 'between' | 'each'
  | 'seen' | 'stop' | 'timerStopped' | 'timers' | 'otherPrint' | 'more'
  | 'note' | 'noted' | 'notedOther' | 'earlier' | 'noteOff'
  | 'again' | 'clear' | 'clearAsk' | 'onPhone' | 'bar' // biome-ignore format: a table reads better in rows
