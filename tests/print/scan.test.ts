/** What a camera reads off a printed card: rendered at 150 dots an inch, and read by a library that had no part in it. */
import { PDFiumLibrary } from '@hyzyla/pdfium'
import jsQR from 'jsqr'
import { beforeAll, describe, expect, it } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import { scannedText } from '../../src/site/qr.ts'
import { composeEdited } from '../sites/edited-demo.ts'
import { printSheets } from './printed-sheets.ts'

// its types tell of a module that it is not
const scan = jsQR as unknown as typeof jsQR.default

const DPI = 150
const POINTS = 72

describe.each(['full', 'half'])('by hand: codes to scan on cards, %s', (size) => {
  const read: { id: string; wanted: string; found: string | undefined }[] = []
  beforeAll(async () => {
    const binder = await composeEdited(
      size === 'half' ? { 'shop.yaml': [['  cards: full ', '  cards: half ']] } : {},
    )
    const printed = await printSheets(
      binder,
      binder.sheets.filter(({ kind }) => kind === 'card'),
    )
    const library = await PDFiumLibrary.init()
    const document = await library.loadDocument(printed.pdf)
    try {
      for (const { sheet, firstPage } of printed.sheets) {
        const page = document.getPage(firstPage - 1)
        const { data, width, height } = await page.render({ scale: DPI / POINTS, render: 'bitmap' })
        // the lower right corner of the first card, as somebody holds a camera to it
        const [top, bottom] = size === 'half' ? [0.38, 0.51] : [0.75, 0.97]
        const area = { x: Math.round(width * 0.7), y: Math.round(height * top), right: width }
        const [across, down] = [area.right - area.x, Math.round(height * bottom) - area.y]
        const pixels = new Uint8ClampedArray(across * down * 4)
        for (let y = 0; y < down; y += 1)
          for (let x = 0; x < across; x += 1) {
            const from = ((area.y + y) * width + area.x + x) * 4
            // black and white are the same in any order of colours
            for (let part = 0; part < 4; part += 1)
              pixels[(y * across + x) * 4 + part] = part === 3 ? 255 : (data[from + part] ?? 0)
          }
        const code = scan(pixels, across, down)
        read.push({
          id: sheet.id,
          found: code?.data,
          wanted: [
            binder.frame.shopName,
            `${sheet.number} ${inlineWords(sheet.title)}`,
            `revision ${inlineWords(sheet.revision)}`,
            sheet.code?.shown,
          ].join('\n'),
        })
      }
    } finally {
      document.destroy()
      library.destroy()
    }
  }, 180_000)

  it('say the shop, the sheet, the revision and the code', () => {
    expect(read.length).toBeGreaterThan(5)
    expect(read.filter(({ found, wanted }) => found !== wanted)).toEqual([])
  })
})

describe('by hand: what is too long for a code to scan', () => {
  it('is cut where it may be', () => {
    const text = scannedText(
      ['A shop with a very long name indeed '.repeat(3), 'x'.repeat(60), 'revision 1', 'CODE'],
      [0, 1],
    )
    expect(new TextEncoder().encode(text).length).toBeLessThanOrEqual(106)
    expect(text.endsWith('revision 1\nCODE')).toBe(true)
  })
})
