/** Works out on which page everything stands: from the first pass, with blank pages put in between. */
import type { PrintedSheet, PrintJob, PrintSheet } from './job.ts'

export interface PagePlan {
  readonly sheets: readonly PrintedSheet[]
  /** blank pages to put before these sheets, each on the back of the leaf before it */
  readonly blanks: readonly {
    readonly anchor: string
    readonly orientation: PrintSheet['orientation']
  }[]
  /** page of every anchor */
  readonly anchors: Readonly<Record<string, number>>
  readonly pageCount: number
}

/** What a pass showed: page of each anchor and the number of pages, pages counted from 1. */
export interface PassResult {
  readonly anchors: ReadonlyMap<string, number>
  readonly pageCount: number
}

/**
 * Plans the second pass.
 *
 * A sheet that would start on an even page gets one blank page before it, of the orientation of the leaf it completes;
 * everything after moves by one. A blank never changes what stands inside a sheet.
 *
 * @param job sheets in the order of the document, and whether they start on right-hand pages
 * @param first the first pass, without blank pages; must hold every sheet's anchor
 * @returns pages counted from 1; undefined when the sheets do not follow one another from page 1
 */
export function planPages(
  job: { readonly sheets: PrintJob['sheets']; readonly duplex: PrintJob['duplex'] },
  first: PassResult,
): PagePlan | undefined {
  const starts = job.sheets.map((sheet) => first.anchors.get(sheet.anchor) ?? 0)
  if (starts[0] !== 1) return undefined
  const sheets: PrintedSheet[] = []
  const blanks: { anchor: string; orientation: PrintSheet['orientation'] }[] = []
  const shifts: number[] = []
  for (const [index, sheet] of job.sheets.entries()) {
    const start = starts[index] as number
    const pages = (starts[index + 1] ?? first.pageCount + 1) - start
    if (pages < 1) return undefined
    const before = job.sheets[index - 1]
    if (before && job.duplex.rightHandStarts && (start + blanks.length) % 2 === 0) {
      blanks.push({ anchor: sheet.anchor, orientation: before.orientation })
    }
    shifts.push(blanks.length)
    sheets.push({ id: sheet.id, firstPage: start + blanks.length, pages })
  }
  const anchors: Record<string, number> = Object.create(null)
  for (const [anchor, page] of first.anchors) {
    const index = starts.findLastIndex((start) => start <= page)
    anchors[anchor] = page + (shifts[index] ?? 0)
  }
  return { sheets, blanks, anchors, pageCount: first.pageCount + blanks.length }
}
