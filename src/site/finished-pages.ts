/** What pages of the site can only say once the binder is printed: page numbers, and what a sheet needs to be printed alone. */
import type { PrintedBinder } from '../print/job.ts'
import type { Sheet } from '../sheets/model.ts'
import type { Page } from './build-pages.ts'

/**
 * Fills in what printing found, sets sheets as narrow as they were printed, and adds the page rules of each sheet as `assets/paper/ANCHOR.css`.
 * Templates leave room for it: `data-page-of`, `data-pages-of`, `data-page-range`, and links to `binder.pdf#of=ANCHOR`.
 */
export const finishedPages = (
  pages: readonly Page[],
  sheets: readonly Pick<Sheet, 'anchor'>[],
  paper: Pick<PrintedBinder, 'sheets' | 'anchors' | 'alone' | 'narrower'>,
): readonly Page[] => {
  const counts = new Map(sheets.map(({ anchor }, index) => [anchor, paper.sheets[index]?.pages]))
  const numberOf = (what: string, anchor: string): string => {
    const number = what === 'pages' ? counts.get(anchor) : paper.anchors[anchor]
    if (number === undefined) throw new Error(`Nobody knows the ${what} of "${anchor}".`)
    return String(number)
  }
  const rangeOf = (from: string, to: string): string => {
    const first = Number(numberOf('page', from))
    const last = Number(numberOf('page', to)) + Number(numberOf('pages', to)) - 1
    return first === last ? String(first) : `${first}-${last}`
  }
  const narrower = new Map(sheets.map(({ anchor }, index) => [anchor, paper.narrower[index] ?? []]))
  return [
    ...pages.map(({ path, content }) => ({
      path,
      content: content
        .replace(
          /(<[^<>]* data-(pages?)-of="([^"]+)"[^<>]*>)[^<]*/g,
          (_all, start: string, what: string, anchor: string) => start + numberOf(what, anchor),
        )
        .replace(
          /(<[^<>]* data-page-range="(\S+) (\S+)"[^<>]*>)[^<]*/g,
          (_all, start: string, from: string, to: string) => start + rangeOf(from, to),
        )
        .replace(
          /(<section class="sheet [^"]*)(" id="([^"]+)")/g,
          (_all, start: string, end: string, anchor: string) =>
            [start, ...(narrower.get(anchor) ?? [])].join(' ') + end,
        )
        .replace(
          /(href="[^"]*binder\.pdf)#of=([^"]+)"/g,
          (_all, start: string, anchor: string) => `${start}#page=${numberOf('page', anchor)}"`,
        ),
    })),
    ...sheets.map(({ anchor }, index) => ({
      path: `assets/paper/${anchor}.css`,
      content: `${paper.alone[index]}\n`,
    })),
  ]
}
