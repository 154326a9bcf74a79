/** What a sheet hands to the templates: values, words and blocks, nothing left to compute. */

import type { ReadingKind } from './reading.ts'

/** A number, date or size that a reader sees. `value` and `unit` are SI; `shown` is what stands on paper. */
export interface Value {
  /** stable, with the maker's key in it: `fat.olive.mass` */
  readonly name: string
  readonly value: number | string
  readonly unit: string
  readonly shown: string
}

/** Words from the text catalogue (inline Markdown) with what fills their `[[placeholders]]`. */
export interface Inline {
  readonly text: string
  /** a value is printed as `shown` in an element with its name; a string is the maker's own words */
  readonly fill: Readonly<Record<string, Value | string | Inline>>
  /** what the words lead to: the anchor of a sheet, or of an entry on it */
  readonly to?: string
  /** what the words name: a file, by its path below the output folder */
  readonly file?: string
}

export type Cell =
  | { readonly kind: 'words'; readonly words: Inline }
  | { readonly kind: 'value'; readonly value: Value }
  | { readonly kind: 'maker'; readonly text: string }
  | { readonly kind: 'box' }
  /** boxes, each with its words: one of them is ticked */
  | { readonly kind: 'choices'; readonly of: readonly Inline[] }
  | { readonly kind: 'blank'; readonly after?: Inline }
  /** in the place of a blank: what was written there and then typed into the maker's file */
  | { readonly kind: 'typed'; readonly words: Inline }
  /** pages of sheets that follow one another in the binder: the first and the last of each, known when it is printed */
  | { readonly kind: 'pages'; readonly of: readonly { readonly from: string; readonly to: string }[] }
  | { readonly kind: 'empty' }

export interface Column {
  readonly head: Inline
  readonly align: 'left' | 'right' | 'centre'
  /** share of the width, in percent; columns without one share what is left */
  readonly width?: number
  /** the one number that the row is for: set large */
  readonly main?: boolean
}

export interface Table {
  readonly kind: 'table'
  readonly style?: 'plain' | 'weigh' | 'log' | 'checks' | 'saw' | 'changes'
  readonly caption?: Inline
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly Cell[])[]
  /** one for each row that is ticked: what it is known by when rows before it come or go */
  readonly names?: readonly string[]
  /** set apart below a line: sums */
  readonly foot?: readonly (readonly Cell[])[]
}

export type Signal = 'danger' | 'warning' | 'caution' | 'notice'

/** A label before a line, with the unit after it. */
export interface StepBlank {
  readonly label: Inline
  readonly after?: Inline
  /** by which the batch's record finds the step, and its file the value */
  readonly reading?: string
  /** what was written on the line, once it was typed into the file */
  readonly typed?: Inline
  /** of a time of day: what it is known by among the times of its sheet */
  readonly moment?: string
}

/** What a step waits for, by durations that its sheet shows. */
export interface Wait {
  /** known by it on its sheet, whatever comes before */
  readonly name: string
  readonly words: Inline
  /** after its beginning, rising: when it is over; of two the window between them, of more each in its turn */
  readonly after: readonly [Value, ...Value[]]
  /** in between it is looked at so often */
  readonly every?: Value
  /** the moment of the sheet that it counts from; without one from when it is begun */
  readonly since?: string
}

export interface Step {
  /** known by it on its sheet, whatever steps come before */
  readonly name?: string
  /** set above the step, with its signal word */
  readonly caution?: { readonly signal: Signal; readonly words: Inline }
  readonly text: Inline
  readonly why?: Inline
  /** what the person writes down */
  readonly blanks?: readonly StepBlank[]
  readonly hold?: boolean
  readonly waits?: readonly Wait[]
  /** the first step that is done again, from there to this one */
  readonly again?: string
}

/** A step that is ticked on a phone, too, which has to know it again. */
export interface NamedStep extends Step {
  readonly name: string
}

export interface Steps {
  readonly kind: 'steps'
  readonly first: number
  readonly items: readonly Step[]
}

export interface Facts {
  readonly kind: 'facts'
  readonly size: 'big' | 'plain'
  readonly items: readonly { readonly label: Inline; readonly cell: Cell; readonly note?: Inline }[]
}

export interface Cautions {
  readonly kind: 'cautions'
  readonly signal: Signal
  readonly heading?: Inline
  readonly items: readonly Inline[]
}

export interface Figure {
  readonly kind: 'figure'
  /** trusted: made by src/drawing, never from the maker's text */
  readonly svg: string
  readonly caption: Inline
  /** the dimensions that the drawing shows */
  readonly values: readonly Value[]
}

export interface ContentsBlock {
  readonly kind: 'contents'
  readonly entries: readonly { readonly anchor: string; readonly number: string; readonly title: Inline }[]
}

export interface Stamp {
  readonly kind: 'stamp'
  readonly heading: Inline
  readonly items: readonly Inline[]
  /** what somebody must have read, with a box each */
  readonly ticks?: readonly Inline[]
  /** nothing of it leaves the shop before what it says is done */
  readonly isHold?: boolean
}

export interface MonthDay {
  /** its number; nothing for a day of another month */
  readonly day?: Value
  readonly note?: Inline
  /** by the thing that they are done to, each with what is done to it by the hour */
  readonly groups: readonly { readonly of: Inline; readonly tasks: readonly Inline[] }[]
}

/** A month as a wall calendar shows it. */
export interface Month {
  readonly kind: 'month'
  readonly weekdays: readonly Inline[]
  readonly weeks: readonly (readonly MonthDay[])[]
}

/** What hangs at a work station: ten lines, in the order in which they are looked for. */
export interface Card {
  readonly kind: 'card'
  /** two of them fill a page, to be cut apart */
  readonly copies: readonly [1] | readonly [1, 2]
  readonly caution: { readonly signal: Signal; readonly words: Inline }
  /** the one that the station is for, seen from farther than all else */
  readonly number?: { readonly label: Inline; readonly words: Inline }
  readonly picture?: { readonly svg: string; readonly values: readonly Value[] }
  readonly hold?: Inline
  readonly wear?: Inline
  readonly steps: readonly Inline[]
  /** what makes the reader stop and fetch somebody */
  readonly stop?: Inline
  /** the sheet that its numbers are taken from */
  readonly from: Inline
}

/** What to do before anybody has time to read. */
export interface FirstAid {
  readonly kind: 'first-aid'
  readonly always: Inline
  readonly items: readonly { readonly where: Inline; readonly act: Inline }[]
}

/** Who to call. */
export interface Contacts {
  readonly kind: 'contacts'
  /** a contact without a number has a line to write it on */
  readonly contacts: readonly { readonly who: string; readonly reach?: string }[]
  /** labels of lines that are there only to be written on */
  readonly toWrite: readonly Inline[]
}

/** One trouble: what is seen, what is done now, and what comes of it. */
export interface Case {
  readonly code: string
  readonly anchor: string
  readonly sign: Inline
  readonly see: Inline
  readonly cause: Inline
  /** in order */
  readonly now: readonly Inline[]
  readonly verdict: Inline
  readonly safe: Inline
  readonly next: Inline
}

export interface Cases {
  readonly kind: 'cases'
  readonly labels: {
    readonly see: Inline
    readonly cause: Inline
    readonly now: Inline
    readonly safe: Inline
    readonly next: Inline
  }
  readonly items: readonly Case[]
}

/** Signs by the place at which they are dealt with. */
export interface SymptomIndex {
  readonly kind: 'index'
  readonly heads: {
    readonly sign: Inline
    readonly verdict: Inline
    readonly place: Inline
    readonly page: Inline
  }
  readonly groups: readonly { readonly title: Inline; readonly items: readonly Case[] }[]
}

export type Block =
  | Table
  | Steps
  | Facts
  | Cautions
  | Figure
  | ContentsBlock
  | Stamp
  | Month
  | Card
  | FirstAid
  | Contacts
  | Cases
  | SymptomIndex

export interface Source {
  readonly key: string
  readonly title: string
  readonly where: string
  readonly evidence: 'read' | 'recalled' | 'computed' | 'common-practice'
}

export interface Sheet {
  /** kind and the maker's name, never the order: `batch/2027-03-14-hearth` */
  readonly id: string
  readonly anchor: string
  readonly kind: string
  readonly number: string
  readonly section: Inline
  readonly title: Inline
  readonly issued: Value
  readonly revision: Inline
  /** leads from the paper to its sheet, revision and content; a page that is made new each time has none */
  readonly code?: Value
  /** the first figures of the fingerprint of all that it shows; of the same sheets */
  readonly fingerprint?: string
  readonly orientation: 'portrait' | 'landscape'
  /** of paper of its own, which has neither margins nor head nor foot and is not bound [mm] */
  readonly wholePage?: { readonly width: number; readonly height: number }
  /** how far from the eye it is read; type sizes follow from it */
  readonly reading: { readonly kind: ReadingKind; readonly at: Value }
  /** Markdown with `[[placeholders]]`: the catalogue's, or the maker's own page */
  readonly template: string
  /** what the template's `[[name]]` may name, inline */
  readonly fill: Readonly<Record<string, Value | string | Inline>>
  /** what a `[[name]]` on a line of its own may name */
  readonly blocks: Readonly<Record<string, Block>>
  /** every value that the sheet shows, by name, in order of first use */
  readonly values: ReadonlyMap<string, Value>
  readonly sources: readonly Source[]
  readonly stopped?: readonly {
    readonly code: string
    readonly reason: Inline
    /** file and line of what the maker would change */
    readonly place?: string
  }[]
  /** followed at the bench on a phone, with ticks and timers */
  readonly atBench?: boolean
  /** what meets on it that should not: the sheet stands, and the maker decides */
  readonly conflicts?: readonly { readonly code: string; readonly reason: Inline; readonly place?: string }[]
}
