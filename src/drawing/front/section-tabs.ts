/** Tabs of sections: each is folded over the edge of a card, so that it reads from both sides. */
import { lettering } from '../lettering.ts'
import { figureSvg } from '../svg.ts'
import { textRuns, textWidth } from '../text-width.ts'
import { capitalHeight, type Mark } from '../types.ts'
import { CUT_ROOM, cutMarks, fittingSize } from './cut-marks.ts'

export interface SectionTab {
  readonly number: string
  readonly name: string
}

/** mm; standard shoulder at head and foot of a tabbed sheet, half an inch (tab-dividers, read) */
const SHOULDER = 12.7
/** Tabs in one row from the head of the card to its foot */
export const BANK = 7
/** mm; one half of a folded tab */
const HALF = 15

/** Length of a tab on a card of this height [mm]. */
export const tabLength = (cardHeight: number): number => (cardHeight - 2 * SHOULDER) / BANK

/** Upper end of a tab below the upper edge of its card [mm]. @param index among all tabs, from 0 */
export const tabFrom = (index: number, cardHeight: number): number =>
  SHOULDER + (index % BANK) * tabLength(cardHeight)

/**
 * All tabs with marks to cut by and a line to fold at.
 *
 * Formula: as many in a row as the page is wide for; the upper half stands on its head, since it is folded over.
 * Validity: any number that the page is high enough for.
 * @param tabs in the order of the binder
 * @param options room of the page and height of the card [mm]
 * @returns the figure [mm]
 * @source common practice, tab-dividers
 */
export function sectionTabs(
  tabs: readonly SectionTab[],
  { room, cardHeight, label }: { readonly room: number; readonly cardHeight: number; readonly label: string },
): { readonly svg: string; readonly height: number } {
  const length = tabLength(cardHeight)
  const pitch = length + 2 * CUT_ROOM + 1
  const inRow = Math.max(1, Math.floor(room / pitch))
  const rowHeight = 2 * HALF + 2 * CUT_ROOM + 1
  const height = Math.ceil(tabs.length / inRow) * rowHeight
  const marks = tabs.flatMap((tab, index) =>
    tabMarks(tab, {
      x: (index % inRow) * pitch + CUT_ROOM + 0.5,
      y: height - (Math.floor(index / inRow) + 1) * rowHeight + CUT_ROOM + 0.5,
      width: length,
      height: 2 * HALF,
    }),
  )
  return { svg: figureSvg({ name: 'tabs', label, width: room, height, view: 'tabs', marks }), height }
}

const tabMarks = (
  { number, name }: SectionTab,
  rect: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): readonly Mark[] => {
  const middle = rect.x + rect.width / 2
  const fold = rect.y + rect.height / 2
  const nameSize = fittingSize(1.1 * textWidth(textRuns(name), 1), rect.width - 3, 5)
  const numberSize = 6.5
  const lines = (flip: 1 | -1): readonly Mark[] => {
    const text = (of: {
      readonly class: 'view-title' | 'note-text'
      readonly text: string
      readonly size: number
      readonly up: number
      readonly maker: boolean
    }): Mark => ({
      ...lettering({
        class: of.class,
        maker: of.maker,
        runs: textRuns(of.text),
        at: { x: middle, y: fold - of.up },
        turned: false,
        size: of.size,
      }),
      ...(flip === -1 ? { headDown: { x: middle, y: fold } } : {}),
    })
    return [
      text({
        class: 'view-title',
        text: number,
        size: numberSize,
        up: 2 + capitalHeight * numberSize,
        maker: true,
      }),
      text({ class: 'note-text', text: name, size: nameSize, up: HALF - 2.5, maker: false }),
    ]
  }
  return [
    ...cutMarks(rect),
    { kind: 'line', class: 'hidden', a: { x: rect.x, y: fold }, b: { x: rect.x + rect.width, y: fold } },
    ...lines(1),
    ...lines(-1),
  ]
}
