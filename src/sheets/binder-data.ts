/** binder.json: every value that a sheet shows, for spreadsheets, for tests and for comparing two editions. */
import { inlineWords } from './compose.ts'
import type { Sheet } from './model.ts'
import type { PrintedPapers, SheetChanges } from './printed/types.ts'

/** Raised when the shape changes in a way that a reader of the file would notice. */
export const BINDER_FORMAT = 1

interface Reasoned {
  readonly sheet: string
  readonly code: string
  readonly reason: string
}

export interface BinderData {
  readonly format: number
  readonly browser: string
  readonly sheets: readonly {
    readonly id: string
    readonly kind: string
    readonly title: string
    readonly revision: string
    readonly firstPage: number
    readonly pages: number
    readonly values: Readonly<
      Record<string, { readonly value: number | string; readonly unit: string; readonly shown: string }>
    >
  }[]
  readonly stopped: readonly Reasoned[]
  /** dates of batches that meet each other, the clock or a rest day */
  readonly conflicts: readonly Reasoned[]
  /** that do not show any more what their sheet shows, with all that changed on them */
  readonly papers: readonly {
    readonly sheet: string
    readonly code: string
    readonly where: string
    /** missing where there is no such sheet any more */
    readonly now?: string
    /** missing where what it showed is not kept */
    readonly changes?: SheetChanges
  }[]
}

/**
 * @param printed where each sheet stands in the PDF
 * @param papers  that were written down
 */
export const binderData = (
  sheets: readonly Sheet[],
  printed: {
    readonly browserVersion: string
    readonly sheets: readonly { readonly id: string; readonly firstPage: number; readonly pages: number }[]
  },
  papers: Pick<PrintedPapers, 'outOfDate'> = { outOfDate: [] },
): BinderData => ({
  format: BINDER_FORMAT,
  browser: printed.browserVersion,
  sheets: sheets.map((sheet) => {
    const place = printed.sheets.find(({ id }) => id === sheet.id)
    if (!place) throw new Error(`The sheet ${sheet.id} was not printed.`)
    return {
      id: sheet.id,
      kind: sheet.kind,
      title: inlineWords(sheet.title),
      revision: inlineWords(sheet.revision),
      firstPage: place.firstPage,
      pages: place.pages,
      values: Object.fromEntries(
        [...sheet.values].map(([name, { value, unit, shown }]) => [name, { value, unit, shown }]),
      ),
    }
  }),
  stopped: sheets.flatMap(({ id, stopped }) => reasoned(id, stopped)),
  conflicts: sheets.flatMap(({ id, conflicts }) => reasoned(id, conflicts)),
  papers: papers.outOfDate.map(({ paper, now, changes }) => ({
    sheet: paper.sheet,
    code: paper.code,
    where: paper.where,
    ...(now ? { now: now.code } : {}),
    ...(changes ? { changes } : {}),
  })),
})

const reasoned = (sheet: string, reasons: Sheet['conflicts'] = []): Reasoned[] =>
  reasons.map(({ code, reason }) => ({ sheet, code, reason: inlineWords(reason) }))
