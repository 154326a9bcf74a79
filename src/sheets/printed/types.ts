/** What the list of printed papers is composed of: plain data, worked out by src/papers. */

/** A number that is another one now; one that is new, or gone. */
export interface ChangedValue {
  readonly name: string
  readonly label: string
  readonly before?: string
  readonly now?: string
  /** a weight, a temperature or a time to wait */
  readonly safety: boolean
}

/** A line of text that reads otherwise now; one that is new, or gone. */
export interface ChangedLine {
  readonly before?: string
  readonly now?: string
  /** a caution, or whom to call */
  readonly safety: boolean
}

export interface SheetChanges {
  readonly number?: { readonly before: string; readonly now: string }
  readonly title?: { readonly before: string; readonly now: string }
  /** that the paper is printed in, where it is another one: its words are not compared then */
  readonly language?: string
  readonly values: readonly ChangedValue[]
  readonly lines: readonly ChangedLine[]
  /** captions of drawings that are not as they were */
  readonly drawings: readonly string[]
  /** steps stand under other numbers */
  readonly renumbered: boolean
}

/** Something of the maker's files that a change hangs on. */
export interface ChangeCause {
  readonly file: string
  readonly path: readonly string[]
  readonly kind: 'other' | 'added' | 'gone' | 'order'
  readonly before?: string
  readonly now?: string
}

/** One paper on a wall, in a ring, or with somebody. */
export interface Paper {
  readonly sheet: string
  readonly revision: number
  readonly code: string
  readonly shows: string
  readonly date: string
  readonly how: 'filed' | 'laminated' | 'given-away'
  readonly where: string
}

/** What a sheet is now, for a paper of it. */
export interface SheetNow {
  readonly id: string
  readonly number: string
  readonly title: string
  readonly revision: number
  readonly code: string
  readonly recorded: boolean
}

/** A paper that does not show what its sheet shows now. */
export interface OutOfDate {
  readonly paper: Paper
  /** number and title on it, where what it showed is kept */
  readonly number?: string
  readonly title?: string
  /** missing where there is no such sheet any more */
  readonly now?: SheetNow
  /** missing where what it showed is not kept */
  readonly changes?: SheetChanges
  /** by the names of changed values and other marks: what each of them hangs on */
  readonly causes: ReadonlyMap<string, readonly ChangeCause[]>
  /** somebody may be hurt by who follows it */
  readonly safety: boolean
}

export interface PrintedPapers {
  readonly outOfDate: readonly OutOfDate[]
  readonly right: readonly { readonly paper: Paper; readonly now: SheetNow }[]
}

/** How causes of a change are asked for: a value by its name, lines and drawings by these. */
export const lineMark = (text: string): string => `line ${text}`
export const drawingMark = (label: string): string => `drawing ${label}`
