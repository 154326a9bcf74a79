/** Labels: letters against the font's own tables, words in their room, places on the page. */
import { describe, expect, test } from 'vitest'
import {
  CAPITAL_N,
  type LabelWords,
  labelLayout,
  SMALL_LETTER,
} from '../../src/drawing/labels/label-layout.ts'
import { type LabelPlaces, labelCorners, labelPage } from '../../src/drawing/labels/label-page.ts'
import { BOLD } from '../../src/drawing/lettering.ts'
import { textWidth } from '../../src/drawing/text-width.ts'
import type { Mark, TextRun } from '../../src/drawing/types.ts'
import { wrapRuns } from '../../src/drawing/wrap-runs.ts'
import { fontTables } from './font-tables.ts'

const plain = (text: string): TextRun => ({ kind: 'plain', text })
const own = (text: string): TextRun => ({ kind: 'plain', text, maker: true })
const textOf = (runs: readonly TextRun[]): string =>
  runs.map((run) => (run.kind === 'diameter' ? '' : run.text)).join('')

describe("published: the font files' own tables", () => {
  test('small letters are as tall, and a capital N as wide, as a label reckons with', () => {
    expect(fontTables(400).smallLetter).toBeCloseTo(SMALL_LETTER, 3)
    // the weight is set in bold, whose small letters are no lower
    expect(fontTables(700).smallLetter).toBeGreaterThanOrEqual(SMALL_LETTER)
    expect(fontTables(400).advance('N')).toBeCloseTo(CAPITAL_N, 3)
    // and its N is no wider than the clear space takes it for
    expect(fontTables(700).advance('N')).toBeLessThanOrEqual(CAPITAL_N * BOLD)
  })

  test('a line of a label is as wide as its letters are, in bold at most', () => {
    const { advance } = fontTables(400)
    const bold = fontTables(700).advance
    for (const text of [
      'Net wt 3.49 oz (99 g)',
      'Butyrospermum Parkii Butter, Cocos Nucifera Oil',
      'Hearth bar',
    ]) {
      const sum = (of: (character: string) => number) => [...text].reduce((all, one) => all + of(one), 0)
      expect(Math.abs(textWidth([plain(text)], 1) - sum(advance)) / sum(advance)).toBeLessThan(0.002)
      expect(textWidth([plain(text)], 1) * BOLD).toBeGreaterThanOrEqual(sum(bold) * 0.999)
    }
  })
})

describe('by hand: words into lines', () => {
  test('break at spaces, keep what stands together, and never lose a letter', () => {
    const runs = [
      plain('Best before '),
      { ...plain('March 2028'), value: true },
      plain('. Batch '),
      own('AB-2'),
    ]
    for (const room of [3, 6, 9, 12, 40]) {
      const lines = wrapRuns(runs, room, 1)
      expect(lines.map(textOf).join(' ')).toBe('Best before March 2028. Batch AB-2')
      for (const line of lines) if (textWidth(line, 1) > room) expect(textOf(line)).not.toContain(' ')
    }
    // a full stop is never alone
    expect(wrapRuns(runs, 1, 1).map(textOf)).toEqual(['Best', 'before', 'March', '2028.', 'Batch', 'AB-2'])
  })
})

const words: LabelWords = {
  title: [own('Hearth bar')],
  heads: [[own('Bar soap')]],
  paragraphs: [
    [plain('Ingredients: '), own('Olea Europaea Fruit Oil, Water, Cocos Nucifera Oil, Sodium Hydroxide')],
  ],
  net: [[plain('Net wt 3.49 oz (99 g)')]],
  instead: undefined,
}
const room = { width: 90, height: 60, text: 3, net: 6, netLines: 1, clear: 4 }

const boxesOf = (marks: readonly Mark[]) => marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []))

describe('by hand: one label', () => {
  test('has all of its words on it, none on another, the weight lowest with clear space round it', () => {
    const { marks, fits } = labelLayout(words, room)
    expect(fits).toBe(true)
    const texts = boxesOf(marks)
    const all = texts.map(({ runs }) => textOf(runs)).join(' ')
    expect(all).toBe(
      'Hearth bar Bar soap Ingredients: Olea Europaea Fruit Oil, Water, Cocos Nucifera Oil, Sodium Hydroxide Net wt 3.49 oz (99 g)',
    )
    for (const { box } of texts) {
      expect(box.x).toBeGreaterThanOrEqual(3 - 1e-9)
      expect(box.x + box.width).toBeLessThanOrEqual(87 + 1e-9)
      expect(box.y).toBeGreaterThan(0)
      expect(box.y + box.height).toBeLessThanOrEqual(57.2)
    }
    const net = texts.at(-1)!
    const others = texts.slice(0, -1)
    // capitals of the weight end 4 mm below the lowest letter of all other words, and begin 4 mm above the edge
    expect(net.at.y).toBeGreaterThanOrEqual(4)
    const lowest = Math.min(...others.map(({ at, size }) => at.y - 0.24 * size))
    expect(lowest - (net.at.y + 0.714 * net.size)).toBeGreaterThanOrEqual(4 - 1e-9)
    const rows = [...others].sort((a, b) => b.at.y - a.at.y)
    for (const [index, row] of rows.entries()) {
      const next = rows[index + 1]
      if (next) expect(row.at.y - 0.24 * row.size).toBeGreaterThan(next.at.y + 0.714 * next.size - 1e-9)
    }
  })

  test('that is not for sale says so in the place of its weight, and has none', () => {
    const { marks } = labelLayout({ ...words, net: [], instead: [plain('NOT FOR SALE')] }, room)
    const texts = boxesOf(marks)
    expect(texts.map(({ runs }) => textOf(runs)).filter((text) => /oz|\bg\b/.test(text))).toEqual([])
    const mark = texts.at(-1)!
    expect(textOf(mark.runs)).toBe('NOT FOR SALE')
    // as tall as the weight would be, at least
    expect(mark.size).toBeGreaterThanOrEqual(room.net)
    expect(mark.at.y).toBeLessThan(0.3 * room.height)
    expect(marks.filter(({ kind }) => kind === 'outline')).toHaveLength(2)
  })

  test('takes larger words where there is room, and never smaller ones than the least', () => {
    const sizes = [40, 45, 50, 60, 80].map((height) => labelLayout(words, { ...room, height }))
    for (const { text } of sizes) expect(text).toBeGreaterThanOrEqual(3 - 1e-9)
    expect(sizes.at(-1)!.text).toBeCloseTo(1.4 * 3, 9)
    for (const [index, one] of sizes.entries())
      if (index > 0) expect(one.text).toBeGreaterThanOrEqual(sizes[index - 1]!.text)
  })

  test('that is too small says what it needs', () => {
    const low = labelLayout(words, { ...room, height: 20 })
    expect(low.fits).toBe(false)
    expect(low.needed.height).toBeGreaterThan(20)
    // what it asks for is enough
    expect(labelLayout(words, { ...room, height: low.needed.height }).fits).toBe(true)
    const narrow = labelLayout(
      { ...words, heads: [[own('Onelongwordwithoutanyspacewhatever')]] },
      { ...room, width: 40 },
    )
    expect(narrow.fits).toBe(false)
    expect(narrow.needed.width).toBeGreaterThan(40)
  })
})

const places: LabelPlaces = {
  paper: { width: 210, height: 297 },
  columns: 3,
  rows: 2,
  width: 60,
  height: 40,
  left: 12,
  top: 20,
  gapAcross: 3,
  gapDown: 5,
  cutMarks: true,
}

describe('by hand: places on the page', () => {
  test('are counted from the edges of the paper, row by row', () => {
    // 12, 12 + 63, 12 + 126; 297 − 20 − 40 = 237, 237 − 45 = 192
    expect(labelCorners(places)).toEqual([
      { x: 12, y: 237 },
      { x: 75, y: 237 },
      { x: 138, y: 237 },
      { x: 12, y: 192 },
      { x: 75, y: 192 },
      { x: 138, y: 192 },
    ])
  })

  const page = (more: Partial<LabelPlaces>) =>
    labelPage({
      places: { ...places, ...more },
      label: [],
      head: [plain('which page')],
      scale: { length: 50, runs: [plain('50 mm')] },
      listener: 'labels',
    })
  const marks = (svg: string): number => svg.split('class="extension"').length - 1

  test('have marks in all four margins in line with every edge, none on paper that is cut already', () => {
    // six edges across and four down, each at both ends
    expect(marks(page({}).svg)).toBe(2 * 6 + 2 * 4)
    expect(marks(page({ cutMarks: false }).svg)).toBe(0)
    // labels without gaps share their edges: four across, three down
    expect(marks(page({ gapAcross: 0, gapDown: 0 }).svg)).toBe(2 * 4 + 2 * 3)
    // a margin that no printer prints has none: only those on the right and below are left
    expect(marks(page({ left: 5, top: 4 }).svg)).toBe(6 + 4)
  })

  test('leave a line in the upper margin where there is room for it', () => {
    expect(page({}).svg).toContain('which page')
    expect(page({}).hasScale).toBe(true)
    expect(page({ top: 8 }).svg).not.toContain('which page')
    expect(page({ top: 8 }).hasScale).toBe(false)
  })
})
