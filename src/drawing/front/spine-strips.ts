/** Strips for the spine of a binder, side by side on one page, with marks to cut by. */
import { lettering } from '../lettering.ts'
import { figureSvg } from '../svg.ts'
import { textRuns, textWidth } from '../text-width.ts'
import { capitalHeight, type Mark } from '../types.ts'
import { CUT_ROOM, cutMarks, fittingSize } from './cut-marks.ts'

/** Widths of strips for common binders, and how high all of them are [mm] (common practice; makers differ) */
export const STRIP_WIDTHS = [25, 38, 48, 60] as const
export const STRIP_HEIGHT = 190

export interface SpineWords {
  /** what it is; the catalogue's */
  readonly title: string
  /** whose; the maker's */
  readonly shop: string
  /** a date */
  readonly edition: string
  /** for those who do not see it */
  readonly label: string
}

/**
 * All strips.
 *
 * Formula: edge to edge, common cuts; type as large as the strip allows. Validity: pages that are as wide as all strips
 * with their marks.
 * @param words on the strip
 * @returns the figure, and how much paper it takes [mm]
 * @source common practice
 */
export function spineStrips(words: SpineWords): {
  readonly svg: string
  readonly width: number
  readonly height: number
} {
  const width = STRIP_WIDTHS.reduce((sum: number, each) => sum + each, 0) + 1
  const height = STRIP_HEIGHT + 2 * CUT_ROOM
  let left = 0.5
  const marks = STRIP_WIDTHS.flatMap((each) => {
    const strip = { x: left, y: CUT_ROOM, width: each, height: STRIP_HEIGHT }
    left += each
    return [...cutMarks(strip, false), ...stripMarks(strip, words)]
  })
  return {
    svg: figureSvg({ name: 'spine', label: words.label, width, height, view: 'strips', marks }),
    width,
    height,
  }
}

/** mm; room at both ends of a strip, and for the edition at its foot */
const END = 8
const FOOT = 22
const LARGEST = { title: 14, shop: 9, edition: 4.5 } as const

const stripMarks = (
  strip: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  { title, shop, edition }: SpineWords,
): readonly Mark[] => {
  const middle = strip.x + strip.width / 2
  const sizeOf = (text: string, room: number, largest: number): number =>
    fittingSize(1.1 * textWidth(textRuns(text), 1), room, Math.min(largest, strip.width / 4))
  const long = strip.height - FOOT - 2 * END
  const titleSize = sizeOf(title, long, LARGEST.title)
  const shopSize = sizeOf(shop, long, LARGEST.shop)
  const at = { y: strip.y + FOOT + END + long / 2 }
  const gap = 0.6 * shopSize
  // both lines together stand in the middle of the strip
  const half = (capitalHeight * (titleSize + shopSize) + gap) / 2
  const line = (
    text: string,
    of: { readonly class: 'view-title' | 'note-text'; readonly size: number; readonly x: number },
    maker: boolean,
  ): Mark =>
    lettering({
      class: of.class,
      maker,
      runs: textRuns(text),
      at: { x: of.x, y: at.y },
      turned: true,
      size: of.size,
    })
  return [
    line(shop, { class: 'note-text', size: shopSize, x: middle - half + capitalHeight * shopSize }, true),
    line(title, { class: 'view-title', size: titleSize, x: middle + half }, false),
    {
      kind: 'line',
      class: 'visible',
      a: { x: strip.x + 4, y: strip.y + FOOT },
      b: { x: strip.x + strip.width - 4, y: strip.y + FOOT },
    },
    lettering({
      class: 'note-text',
      maker: true,
      runs: textRuns(edition),
      at: { x: middle, y: strip.y + END },
      turned: false,
      size: fittingSize(textWidth(textRuns(edition), 1), strip.width - 4, LARGEST.edition),
    }),
  ]
}
