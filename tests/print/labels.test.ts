/** Labels on paper: places to a tenth of a millimetre, letters of the weight no lower than they must be, nothing cut off. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, describe, expect, it } from 'vitest'
import { fontTables } from '../drawing/font-tables.ts'
import { composeEdited, type Edits, EUROPE, WEIGHED } from '../sites/edited-demo.ts'
import { type Piece, paintedPieces } from './kitchen-sink/painted-pieces.ts'
import { printSheets } from './printed-sheets.ts'

/** A length on paper may be off by this. [mm] */
const LIMIT = 0.1
const MM_A_POINT = 25.4 / 72

interface Text {
  readonly text: string
  readonly x: number
  readonly y: number
  readonly width: number
  /** type size [mm] */
  readonly size: number
}

interface Page {
  readonly texts: readonly Text[]
  readonly pieces: readonly Piece[]
  readonly size: { readonly width: number; readonly height: number }
  readonly pages: number
}

const batch = 'batches/2027-03-14-hearth.yaml'
const WEIGHED_BATCH = { [batch]: [['fill: to the line ', `${WEIGHED}fill: to the line `]] } as const

/** Each with its grid [mm] and the least height of the weight's letters by law [mm]. */
const CASES: readonly {
  readonly name: string
  readonly edits: Edits
  readonly grid: Readonly<
    Record<
      'paper' | 'high' | 'columns' | 'rows' | 'width' | 'height' | 'left' | 'top' | 'across' | 'down',
      number
    >
  >
  readonly weight: RegExp
  /** small letters, or figures */
  readonly least: { readonly of: 'small' | 'figures'; readonly mm: number }
}[] = [
  {
    name: 'the demo on Letter, for the United States',
    edits: WEIGHED_BATCH,
    grid: {
      paper: 215.9,
      high: 279.4,
      columns: 2,
      rows: 4,
      width: 95,
      height: 62,
      left: 10,
      top: 14,
      across: 5,
      down: 3,
    },
    weight: /^Net wt \d\.\d\d oz \(\d+ g\)$/,
    // a face of 2 1/4 by 2 3/4 in is more than 5 and less than 25 square inches
    least: { of: 'small', mm: 25.4 / 8 },
  },
  {
    name: 'another grid on A4, for the Union',
    edits: {
      ...WEIGHED_BATCH,
      'shop.yaml': [
        ['size: Letter', 'size: A4'],
        ['  region: US ', '  region: EU '],
        ['  entered:  ', `${EUROPE}    #`],
        ['columns: 2\n    rows: 4\n    width: 95 mm ', 'columns: 3\n    rows: 4\n    width: 63.5 mm '],
        ['height: 62 mm', 'height: 63 mm'],
        ['left: 10 mm ', 'left: 9 mm '],
        ['top: 14 mm', 'top: 21.5 mm'],
        ['gap-across: 5 mm', 'gap-across: 2.5 mm'],
        ['gap-down: 3 mm', 'gap-down: 0 mm'],
      ],
    },
    grid: {
      paper: 210,
      high: 297,
      columns: 3,
      rows: 4,
      width: 63.5,
      height: 63,
      left: 9,
      top: 21.5,
      across: 2.5,
      down: 0,
    },
    weight: /^\d+ g$/,
    // 50 to 200 g
    least: { of: 'figures', mm: 3 },
  },
]

const readPage = async (pdf: Uint8Array, number: number, pages: number): Promise<Page> => {
  const task = getDocument({ data: pdf.slice(), verbosity: 0 })
  const page = await (await task.promise).getPage(number)
  const { items } = await page.getTextContent({ disableNormalization: true })
  const [, , width = 0, height = 0] = page.view
  const texts = items.flatMap((item): Text[] => {
    if (!('str' in item) || item.str.trim() === '') return []
    const [, , c = 0, d = 0, x = 0, y = 0] = item.transform as number[]
    return [
      {
        text: item.str,
        x: x * MM_A_POINT,
        y: y * MM_A_POINT,
        width: item.width * MM_A_POINT,
        size: Math.hypot(c, d) * MM_A_POINT,
      },
    ]
  })
  await task.destroy()
  return {
    texts,
    pieces: await paintedPieces(pdf, number),
    size: { width: width * MM_A_POINT, height: height * MM_A_POINT },
    pages,
  }
}

describe.each(CASES)('by hand: $name', ({ edits, grid, weight, least }) => {
  let page: Page
  beforeAll(async () => {
    const binder = await composeEdited(edits)
    const { pdf, sheets } = await printSheets(
      binder,
      binder.sheets.filter(({ id }) => id.startsWith('label')),
    )
    const { firstPage, pages } = sheets.find(({ sheet }) => sheet.id === 'labels/2027-03-14-hearth')!
    page = await readPage(pdf, firstPage, pages)
  }, 120_000)

  const lefts = Array.from(
    { length: grid.columns },
    (_, index) => grid.left + index * (grid.width + grid.across),
  )
  const tops = Array.from({ length: grid.rows }, (_, index) => grid.top + index * (grid.height + grid.down))
  /** Lower left corners from the page's own lower left [mm]. */
  const corners = tops.flatMap((top) => lefts.map((left) => ({ left, low: grid.high - top - grid.height })))
  const onLabel = ({ left, low }: { readonly left: number; readonly low: number }): Text[] =>
    page.texts.filter(({ x, y }) => x > left && x < left + grid.width && y > low && y < low + grid.height)

  it('is one page, as large as its paper', () => {
    expect(page.pages).toBe(1)
    expect(Math.abs(page.size.width - grid.paper)).toBeLessThan(0.2)
    expect(Math.abs(page.size.height - grid.high)).toBeLessThan(0.2)
  })

  it('has a mark in line with both edges of every column and row, to 0.1 mm', () => {
    const upright = page.pieces.filter(({ left, right, low, high }) => right - left < 0.3 && high - low >= 1)
    const level = page.pieces.filter(({ left, right, low, high }) => high - low < 0.3 && right - left >= 1)
    for (const edge of lefts.flatMap((left) => [left, left + grid.width]))
      expect(Math.min(...upright.map(({ left, right }) => Math.abs((left + right) / 2 - edge)))).toBeLessThan(
        LIMIT,
      )
    for (const edge of tops.flatMap((top) => [top, top + grid.height]))
      expect(
        Math.min(...level.map(({ low, high }) => Math.abs(grid.high - (low + high) / 2 - edge))),
      ).toBeLessThan(LIMIT)
  })

  it('has the same words in the same place of every label, to 0.1 mm', () => {
    const [first, ...others] = corners
    const model = onLabel(first!)
    expect(model.length).toBeGreaterThan(6)
    for (const corner of others) {
      const texts = onLabel(corner)
      expect(texts.map(({ text }) => text)).toEqual(model.map(({ text }) => text))
      for (const [index, { x, y }] of texts.entries()) {
        const [from, place] = [model[index]!, { x: x - corner.left, y: y - corner.low }]
        expect(Math.abs(place.x - (from.x - first!.left))).toBeLessThan(LIMIT)
        expect(Math.abs(place.y - (from.y - first!.low))).toBeLessThan(LIMIT)
      }
    }
  })

  it('keeps every letter 2.5 mm away from the edges of its label', () => {
    for (const corner of corners)
      for (const { text, x, y, width, size } of onLabel(corner)) {
        expect(x, text).toBeGreaterThan(corner.left + 2.5)
        expect(x + width, text).toBeLessThan(corner.left + grid.width - 2.5)
        expect(y - 0.24 * size, text).toBeGreaterThan(corner.low + 1)
        expect(y + 0.714 * size, text).toBeLessThan(corner.low + grid.height - 2.5)
      }
  })

  it('prints the weight of every label no lower than the law has it, by the letters of the font itself', () => {
    // the weight is set in bold; pieces of one line have one baseline
    const { smallLetter, capital } = fontTables(700)
    for (const corner of corners) {
      const lines = new Map<number, Text[]>()
      for (const text of onLabel(corner)) {
        const key = Math.round(text.y * 20)
        lines.set(key, [...(lines.get(key) ?? []), text])
      }
      const line = [...lines.values()].find((all) =>
        weight.test(
          all
            .map(({ text }) => text)
            .join(' ')
            .replace(/[\s\u00a0]+/g, ' ')
            .replace('( ', '(')
            .replace(' )', ')')
            .trim(),
        ),
      )
      expect(
        line,
        JSON.stringify([...lines.values()].map((all) => all.map(({ text }) => text))),
      ).toBeDefined()
      for (const { size } of line!)
        expect(size * (least.of === 'small' ? smallLetter : capital)).toBeGreaterThanOrEqual(least.mm - 0.01)
      if (least.of === 'small') {
        // in the lowest three tenths, two widths of N away from either edge
        const { y, size } = line![0]!
        expect(y + capital * size).toBeLessThanOrEqual(corner.low + 0.3 * grid.height)
        const clear = 2 * fontTables(700).advance('N') * size
        expect(Math.min(...line!.map(({ x }) => x)) - corner.left).toBeGreaterThanOrEqual(clear)
        expect(
          corner.left + grid.width - Math.max(...line!.map(({ x, width }) => x + width)),
        ).toBeGreaterThanOrEqual(clear)
      }
    }
  })

  it('says in the margin which page it is', () =>
    expect(
      page.texts
        .filter(({ y }) => y > grid.high - grid.top)
        .map(({ text }) => text)
        .join(''),
    ).toContain('9.3'))
})
