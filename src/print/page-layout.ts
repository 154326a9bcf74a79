/** Where the margins of a printed page lie: the binding margin and the content box, for each side and orientation. */
import type { PrintJob, PrintSheet } from './job.ts'

/** Margins of one page as it is read. [mm] */
export interface PageBox {
  readonly width: number
  readonly height: number
  readonly top: number
  readonly right: number
  readonly bottom: number
  readonly left: number
  /** the edge that carries the foot line: always one away from the spine */
  readonly footEdge: 'top' | 'bottom'
  /** true when the outer end of the foot line is its right end */
  readonly outerIsRight: boolean
}

export type PageSide = 'right' | 'left'

/** Printers leave about 4 to 6 mm of the edge blank. [mm] (from memory) */
const UNPRINTED_EDGE = 6
/** Room under a full-size template for its foot line, above the edge a printer leaves blank. [mm] (computed) */
const TEMPLATE_FOOT = UNPRINTED_EDGE + 6

/**
 * Lays out one page of a sheet.
 *
 * The content box has the same size on both sides, so that a change of side never moves a line break.
 * A landscape sheet lies in an upright binder turned a quarter anticlockwise: on a right-hand page its top edge
 * is at the spine, on the back of that leaf (turned the same way) its bottom edge is. Its foot line runs along the
 * other edge each time, so on such a left-hand page it stands above the content.
 * A page on paper of its own has no margins: what is on it is placed from the edges of its paper, and it is not bound.
 *
 * @param job paper, margins [mm] and the two duplex settings
 * @param sheet orientation and kind of the sheet
 * @param side right-hand (odd) or left-hand (even) page; no difference unless margins are mirrored
 * @returns page size and margins [mm]
 * @source common practice
 */
export function pageBox(
  job: Pick<PrintJob, 'paper' | 'margins' | 'duplex'>,
  sheet: Pick<PrintSheet, 'orientation' | 'bleedFree' | 'wholePage'>,
  side: PageSide,
): PageBox {
  if (sheet.wholePage)
    return {
      ...sheet.wholePage,
      top: 0,
      right: 0,
      bottom: 0,
      left: 0,
      footEdge: 'bottom',
      outerIsRight: true,
    }
  const { inner } = job.margins
  const outer = sheet.bleedFree ? UNPRINTED_EDGE : job.margins.outer
  const top = sheet.bleedFree ? UNPRINTED_EDGE : job.margins.top
  const bottom = sheet.bleedFree ? TEMPLATE_FOOT : job.margins.bottom
  const flipped = job.duplex.mirroredMargins && side === 'left'
  const [short, long] = [job.paper.width, job.paper.height]

  if (sheet.orientation === 'portrait') {
    return {
      width: short,
      height: long,
      top,
      bottom,
      left: flipped ? outer : inner,
      right: flipped ? inner : outer,
      footEdge: 'bottom',
      outerIsRight: !flipped,
    }
  }
  return {
    width: long,
    height: short,
    top: flipped ? bottom : inner,
    bottom: flipped ? inner : bottom,
    left: outer,
    right: outer,
    footEdge: flipped ? 'top' : 'bottom',
    // both ends are equally far from the spine; the number stays where the eye expects it
    outerIsRight: true,
  }
}

/**
 * Size of a sheet's content box, the same on every page of it.
 *
 * @param job paper and margins [mm]
 * @param sheet orientation and kind of the sheet
 * @returns width and height [mm]
 */
export function contentSize(
  job: Pick<PrintJob, 'paper' | 'margins' | 'duplex'>,
  sheet: Pick<PrintSheet, 'orientation' | 'bleedFree' | 'wholePage'>,
): { readonly width: number; readonly height: number } {
  const box = pageBox(job, sheet, 'right')
  return {
    width: Number((box.width - box.left - box.right).toFixed(4)),
    height: Number((box.height - box.top - box.bottom).toFixed(4)),
  }
}
