/** Papers that hang, lie filed or are with somebody, out of what was written down of them; which of them are out of date. */
import { isHung, type PrintedEntry, type PrintedFile } from '../schema/printed.ts'
import type { ShownSheet } from '../sheets/printed/shown-types.ts'
import type { ChangeCause, OutOfDate, Paper, PrintedPapers, SheetNow } from '../sheets/printed/types.ts'
import { changesOf, hurts } from './changes.ts'
import { type RecordedSheet, type Revised, shortFingerprint } from './revisions.ts'

/** Every print of a sheet that is written down. */
export const recordedIn = (file: PrintedFile | undefined): RecordedSheet[] =>
  (file?.entries ?? []).flatMap(({ sheets }) =>
    sheets.flatMap(({ sheet, revision, code, shows }) =>
      shows === undefined ? [] : [{ id: sheet, revision, code, shows }],
    ),
  )

/** Whether a paper is meant by an entry that removes papers: by its code, and its place where one is named. */
const isRemoved = (paper: Paper, entry: PrintedEntry): boolean =>
  entry.sheets.some(({ code }) => code === paper.code) &&
  (entry.where === undefined || entry.where === paper.where)

/** Papers that are still there, in the order in which they were printed. */
export const papersIn = (file: PrintedFile | undefined): Paper[] => {
  let papers: Paper[] = []
  for (const entry of file?.entries ?? []) {
    const { date, how, where = '' } = entry
    if (!isHung(how)) papers = papers.filter((paper) => !isRemoved(paper, entry))
    else
      for (const { sheet, revision, code, shows = '' } of entry.sheets) {
        // the same paper again at the same place takes the place of what was there
        papers = papers.filter((one) => one.code !== code || one.where !== where)
        papers.push({ sheet, revision, code, shows, date, how, where })
      }
  }
  return papers
}

/** @returns papers whose sheet shows something else by now, or is none any more */
export const outOfDateAmong = (papers: readonly Paper[], sheets: readonly Revised[]): Paper[] => {
  const now = new Map(sheets.map((one) => [one.sheet.id, shortFingerprint(one.fingerprint)]))
  return papers.filter(({ sheet, shows }) => now.get(sheet) !== shows)
}

export const sheetNow = ({ sheet, shown, revision, code, recorded }: Revised): SheetNow => ({
  id: sheet.id,
  number: shown.number,
  title: shown.title,
  revision,
  code: code.code,
  recorded,
})

/**
 * All papers, sorted for whoever walks through the shop: those that somebody may be hurt by first, then by place.
 *
 * @param kept what a paper showed, by its sheet and revision; missing where nobody kept it
 */
export const printedPapers = (
  papers: readonly Paper[],
  sheets: readonly Revised[],
  kept: (paper: Paper) => ShownSheet | undefined,
): PrintedPapers => {
  const revised = new Map(sheets.map((one) => [one.sheet.id, one]))
  const wrong = new Set(outOfDateAmong(papers, sheets))
  const outOfDate = papers
    .filter((paper) => wrong.has(paper))
    .map((paper): OutOfDate => {
      const before = kept(paper)
      const now = revised.get(paper.sheet)
      const changes = before && now && changesOf(before, now.shown)
      return {
        paper,
        ...(before ? { number: before.number, title: before.title } : {}),
        ...(now ? { now: sheetNow(now) } : {}),
        ...(changes ? { changes } : {}),
        causes: NONE,
        // nobody knows what changed, or the work that it tells how to do is not done so any more
        safety: changes ? hurts(changes) : true,
      }
    })
  const right = papers.flatMap((paper) => {
    const now = revised.get(paper.sheet)
    return now && !wrong.has(paper) ? [{ paper, now: sheetNow(now) }] : []
  })
  return {
    outOfDate: outOfDate.sort((a, b) => Number(b.safety) - Number(a.safety) || byPlace(a.paper, b.paper)),
    right: right.sort((a, b) => byPlace(a.paper, b.paper)),
  }
}

const NONE: ReadonlyMap<string, readonly ChangeCause[]> = new Map()

/** By code unit, so that the order is the same on every machine; papers of one place in the order of their printing. */
const byPlace = (a: Paper, b: Paper): number => (a.where < b.where ? -1 : a.where > b.where ? 1 : 0)
