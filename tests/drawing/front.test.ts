/** Spine strips and tabs: as large as they say, on the paper, nothing across a cut. */
import { describe, expect, it } from 'vitest'
import { BANK, sectionTabs, tabFrom, tabLength } from '../../src/drawing/front/section-tabs.ts'
import { STRIP_HEIGHT, STRIP_WIDTHS, spineStrips } from '../../src/drawing/front/spine-strips.ts'
import { elements, readHtml } from '../sites/html.ts'

/** mm between the margins: Letter and A4 with a binding margin of 22 mm, less 12, 12 and 18 */
const ROOMS = [
  { name: 'Letter', width: 215.9 - 34, height: 279.4 - 30, card: 279.4 },
  { name: 'A4', width: 210 - 34, height: 297 - 30, card: 297 },
] as const
/** mm; head of the sheet, its words, caption and a table of half of the sections */
const BESIDE = 52

const LONG = {
  title: 'Binder of the whole workshop',
  shop: 'A shop with quite a long name for such a narrow strip',
  edition: '28 September 2027',
  label: 'strips',
}

describe.each(ROOMS)('by hand: strips for the spine, $name', ({ width, height }) => {
  it('fit the page with their marks', () => {
    const figure = spineStrips(LONG)
    expect(figure.width).toBeLessThanOrEqual(width)
    expect(figure.height).toBeLessThanOrEqual(height - BESIDE + 10)
  })
})

describe('by hand: strips for the spine', () => {
  const root = readHtml(spineStrips(LONG).svg)
  const texts = elements(root).filter(({ tag }) => tag === 'text')

  it('say shop, title and edition on each', () => {
    expect(texts).toHaveLength(3 * STRIP_WIDTHS.length)
  })

  it('keep letters within the strip: a turned line is no longer than it, an edition no wider', () => {
    for (const { attributes } of texts) {
      const size = Number(attributes['font-size'])
      expect(size).toBeGreaterThan(1.5)
      const turned = (attributes.transform ?? '').startsWith('rotate(-90')
      const letters = turned ? Math.max(LONG.shop.length, LONG.title.length) : LONG.edition.length
      // Noto Sans is about half as wide as it is high
      if (!turned) expect(0.5 * size * letters).toBeLessThan(60)
      else expect(size).toBeLessThanOrEqual(STRIP_HEIGHT / 10)
    }
  })
})

describe.each(ROOMS)('by hand: tabs of sections, $name', ({ width, height, card }) => {
  const tabs = Array.from({ length: 14 }, (_, index) => ({
    number: String(index + 1),
    name: 'Sources and methods',
  }))

  it('fit the page, all fourteen', () => {
    expect(sectionTabs(tabs, { room: width, cardHeight: card, label: 'tabs' }).height).toBeLessThan(
      height - BESIDE,
    )
  })

  it('share the edge between its shoulders, and begin again at the top', () => {
    // 279.4 − 25.4 = 254 mm for seven tabs of 36.29 mm; 297 − 25.4 = 271.6 for seven of 38.8
    expect(tabLength(card)).toBeCloseTo((card - 25.4) / 7, 9)
    expect(tabFrom(0, card)).toBe(12.7)
    expect(tabFrom(BANK - 1, card) + tabLength(card)).toBeCloseTo(card - 12.7, 9)
    expect(tabFrom(BANK, card)).toBe(12.7)
  })

  it('say each name on both sides, one of them on its head', () => {
    const root = readHtml(sectionTabs(tabs, { room: width, cardHeight: card, label: 'tabs' }).svg)
    const texts = elements(root).filter(({ tag }) => tag === 'text')
    expect(texts).toHaveLength(4 * tabs.length)
    const onHead = texts.filter(({ attributes }) => (attributes.transform ?? '').startsWith('rotate(180'))
    expect(onHead).toHaveLength(2 * tabs.length)
  })
})
