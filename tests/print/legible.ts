/** Letters on paper, measured: large enough for the distance that each sheet says it is read at. */
import { describe, expect, it } from 'vitest'
import { EXEMPT, READINGS, seenAngle } from '../../src/sheets/reading.ts'
import { elements, hasClass, textOf } from '../sites/html.ts'
import type { PrintedSheets } from './printed-sheets.ts'
import { type SizedText, typeSizesOf } from './type-sizes.ts'

export interface Read extends PrintedSheets {
  readonly texts: readonly (readonly SizedText[])[]
}
export const read = async (printed: PrintedSheets): Promise<Read> => ({
  ...printed,
  texts: await typeSizesOf(printed.pdf),
})

/** mm; the foot line of the printer stands below this */
const FOOT = 17
/** A PDF gives sizes to a thousandth; angles follow. [arc minutes] */
export const ROUNDING = 0.05

export const close = (text: string): string => text.replace(/\s+/g, '').replaceAll('\u2044', '/')

/** What a reader is not asked to read from the distance: the words of the classes in the list. */
export const exemptOf = ({ root }: Read['sheets'][number]): string =>
  close(
    elements(root)
      .filter((element) => EXEMPT.some(({ of }) => hasClass(element, of)))
      .map((element) => textOf(element))
      .join('\n'),
  )

/** pt; larger than this nothing is small print, whatever it says */
const SMALL_PRINT = 8.6
export const asked = (texts: readonly SizedText[], exempt: string): SizedText[] =>
  texts.filter(({ text, points }) => points > SMALL_PRINT || !exempt.includes(close(text)))

export const textsOf = ({ texts }: Read, { sheet, firstPage, pages }: Read['sheets'][number]): SizedText[] =>
  texts
    .slice(firstPage - 1, firstPage - 1 + pages)
    .flat()
    // of a lying page the foot line is along another edge; its words are small print anywhere
    .filter(({ up, points }) => (sheet.orientation === 'portrait' ? up > FOOT : points > 7.6 || up > 30))

/** Type size that most letters of a sheet have. */
const bodySize = (texts: readonly SizedText[]): number => {
  const letters = new Map<number, number>()
  for (const { text, points } of texts) {
    const size = Math.round(points * 10) / 10
    letters.set(size, (letters.get(size) ?? 0) + text.length)
  }
  return [...letters].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0
}

/** Holds every sheet of a printed binder to the sizes that it may have. */
export const describeLegible = (demo: () => Read): unknown =>
  describe('published: ISO 9241-3, on paper', () => {
    it('shows the running text of every sheet at 20 arc minutes or more', () => {
      for (const one of demo().sheets) {
        // a month has few words in a cell, by its own angle; a label has the heights of its law, and is held in the hand
        if (['calendar', 'label-page'].includes(one.sheet.kind)) continue
        const exempt = exemptOf(one)
        const running = asked(textsOf(demo(), one), exempt)
        const { distance } = READINGS[one.sheet.reading.kind]
        expect(seenAngle(bodySize(running), distance) + ROUNDING, one.sheet.id).toBeGreaterThanOrEqual(20)
      }
    })

    it('shows no letter below 16 arc minutes but in the small print of the list', () => {
      for (const one of demo().sheets) {
        const { distance } = READINGS[one.sheet.reading.kind]
        const exempt = exemptOf(one)
        const small = asked(textsOf(demo(), one), exempt).filter(
          ({ points }) => seenAngle(points, distance) + ROUNDING < 16,
        )
        expect(small.map(({ text, points }) => `${one.sheet.id}: ${points} pt, ${text}`)).toEqual([])
      }
    })

    it('says the distance on every sheet', () => {
      for (const one of demo().sheets) {
        const words = close(
          textsOf(demo(), one)
            .map(({ text }) => text)
            .join(''),
        )
        expect(words, one.sheet.id).toContain(close(one.sheet.reading.at.shown))
      }
    })

    it('would find a letter that is too small', () => {
      // 10 pt at 70 cm
      expect(seenAngle(10, 0.7)).toBeLessThan(16)
    })
  })
