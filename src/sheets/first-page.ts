/** What the first page of the site shows beside the list of all sheets; what it is follows from the kind of work. */
import type { Inline, Value } from './model.ts'

/** What is due on one day. */
export interface TaskDay {
  /** its date, with its weekday as shown */
  readonly day: Value
  readonly tasks: readonly {
    readonly words: Inline
    /** anchors of sheets that it is done by, the first that is there leads to it */
    readonly sheets: readonly string[]
  }[]
}

export interface FirstPage {
  readonly days: readonly TaskDay[]
  /** ids of sheets that are looked for in a hurry, with what they are called there; every page leads to the first */
  readonly urgent: readonly { readonly id: string; readonly words: Inline }[]
  /** what sheets are to a batch, by how their ids begin in place of its own `batch/`, in the order of the work */
  readonly kin: readonly { readonly begins: string; readonly words: Inline }[]
}
