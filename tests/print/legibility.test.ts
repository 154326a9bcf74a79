/** Type sizes as they stand on paper: large enough for the distance that each sheet says it is read at. */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { EXEMPT, READINGS, seenAngle } from '../../src/sheets/reading.ts'
import { composeEdited, type Edits, STATES, type State, WHOLE_DEMO } from '../sites/edited-demo.ts'
import { elements, hasClass, textOf } from '../sites/html.ts'
import { paintedPieces } from './kitchen-sink/painted-pieces.ts'
import { type PrintedSheets, printSheets } from './printed-sheets.ts'
import { type SizedText, typeSizesOf } from './type-sizes.ts'

interface Read extends PrintedSheets {
  readonly texts: readonly (readonly SizedText[])[]
}
const read = async (printed: PrintedSheets): Promise<Read> => ({
  ...printed,
  texts: await typeSizesOf(printed.pdf),
})

/** mm; the foot line of the printer stands below this */
const FOOT = 17
/** A PDF gives sizes to a thousandth; angles follow. [arc minutes] */
const ROUNDING = 0.05

const close = (text: string): string => text.replace(/\s+/g, '').replaceAll('\u2044', '/')

/** What a reader is not asked to read from the distance: the words of the classes in the list. */
const exemptOf = ({ root }: Read['sheets'][number]): string =>
  close(
    elements(root)
      .filter((element) => EXEMPT.some(({ of }) => hasClass(element, of)))
      .map((element) => textOf(element))
      .join('\n'),
  )

/** pt; larger than this nothing is small print, whatever it says */
const SMALL_PRINT = 8.6
const asked = (texts: readonly SizedText[], exempt: string): SizedText[] =>
  texts.filter(({ text, points }) => points > SMALL_PRINT || !exempt.includes(close(text)))

const textsOf = ({ texts }: Read, { sheet, firstPage, pages }: Read['sheets'][number]): SizedText[] =>
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

let demo: Read
beforeAll(async () => {
  const binder = await composeEdited(WHOLE_DEMO)
  demo = await read(await printSheets(binder, binder.sheets))
}, 120_000)

describe('published: ISO 9241-3, on the paper of the demo', () => {
  it('shows the running text of every sheet at 20 arc minutes or more', () => {
    for (const one of demo.sheets) {
      // a month has few words in a cell, by its own angle; a label has the heights of its law, and is held in the hand
      if (['calendar', 'label-page'].includes(one.sheet.kind)) continue
      const exempt = exemptOf(one)
      const running = asked(textsOf(demo, one), exempt)
      const { distance } = READINGS[one.sheet.reading.kind]
      expect(seenAngle(bodySize(running), distance) + ROUNDING, one.sheet.id).toBeGreaterThanOrEqual(20)
    }
  })

  it('shows no letter below 16 arc minutes but in the small print of the list', () => {
    for (const one of demo.sheets) {
      const { distance } = READINGS[one.sheet.reading.kind]
      const exempt = exemptOf(one)
      const small = asked(textsOf(demo, one), exempt).filter(
        ({ points }) => seenAngle(points, distance) + ROUNDING < 16,
      )
      expect(small.map(({ text, points }) => `${one.sheet.id}: ${points} pt, ${text}`)).toEqual([])
    }
  })

  it('says the distance on every sheet', () => {
    for (const one of demo.sheets) {
      const words = close(
        textsOf(demo, one)
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

const isCard = ({ kind }: Sheet): boolean => kind === 'card' || kind === 'emergency'
/** Each line of the emergency card filled, the address over two lines. */
const ALL_CONTACTS = [
  `  - who: Ambulance
    reach: write your own number here before the first batch
  - who: Poison centre
    reach: write your own number here before the first batch`,
  `  - { who: Ambulance, reach: 555 01 11 }
  - { who: Poison centre, reach: 555 01 10 }
  - { who: Fire brigade, reach: 555 01 12, is: fire-brigade }
  - { who: Fetch, reach: 'Robin, 555 01 13', is: person-to-fetch }
  - { who: We are at, reach: '14 Withy Lane, yard behind the mill', is: our-address }`,
] as const
/** Each with the states whose cards are fullest on it. */
const PAPERS: readonly (readonly [string, Shop, readonly State[]])[] = [
  ['full, Letter', [ALL_CONTACTS], ['worst case below zero', 'small kettles, two colours, a blend of fats']],
  [
    'half, Letter',
    [['  cards: full ', '  cards: half ']],
    ['worst case below zero', 'small kettles, two colours, a blend of fats'],
  ],
  [
    'half, A4',
    [
      ['  cards: full ', '  cards: half '],
      ['size: Letter', 'size: A4'],
    ],
    ['a stock lye that is heavy, fats that are short'],
  ],
]
type Shop = readonly (readonly [string, string])[]
const withShop = (state: State, shop: Shop): Edits => {
  const edits: Edits = STATES[state] as Edits
  const before = edits['shop.yaml'] ?? []
  return { ...edits, 'shop.yaml': typeof before === 'string' ? before : [...before, ...shop] }
}

describe.each(PAPERS)('by hand: cards on paper, %s', (_paper, shop, states) => {
  const all: Read[] = []
  beforeAll(async () => {
    for (const state of states) {
      const binder = await composeEdited(withShop(state, shop))
      all.push(await read(await printSheets(binder, binder.sheets.filter(isCard))))
    }
  }, 120_000)

  it('has a page for each card', () => {
    expect(
      all.flatMap(({ sheets }) => sheets.filter(({ pages }) => pages !== 1).map(({ sheet }) => sheet.id)),
    ).toEqual([])
  })

  it('prints every line of a card at its size, and its one number largest', () => {
    for (const one of all)
      for (const sheet of one.sheets) {
        const { distance } = READINGS[sheet.sheet.reading.kind]
        const exempt = exemptOf(sheet)
        const lines = asked(textsOf(one, sheet), exempt)
        expect(lines.length).toBeGreaterThan(5)
        // two figures over a stroke make one sign, as large as a digit
        for (const { text, points } of lines)
          expect(seenAngle(points, distance) + ROUNDING, `${sheet.sheet.id}: ${text}`).toBeGreaterThanOrEqual(
            // where the numbers are from is no line of a card, but on a whole page it is read from the wall
            exempt.includes(close(text)) ? 16 : 20,
          )
        const { card } = sheet.sheet.blocks
        if (card?.kind !== 'card' || !card.number) continue
        const largest = Math.max(...lines.map(({ points }) => points))
        const number = lines
          .filter(({ points }) => points > largest - 0.1)
          .map(({ text }) => close(text))
          .join('')
        const value = Object.values(card.number.words.fill)[0]
        if (typeof value === 'object' && 'shown' in value) expect(number).toContain(close(value.shown))
      }
  })

  it('has cut marks round each copy, inside the page, and none round a whole page', async () => {
    for (const { pdf, sheets } of all.slice(0, 1))
      for (const { sheet, firstPage } of sheets) {
        const { card } = sheet.blocks
        if (card?.kind !== 'card') continue
        const [width, height] = shop.length > 1 ? [210, 297] : [215.9, 279.4]
        const pieces = await paintedPieces(pdf, firstPage)
        const marks = pieces.filter(
          ({ left, right, low, high }) =>
            Math.abs(Math.max(right - left, high - low) - MARK) < 0.3 &&
            Math.min(right - left, high - low) < 0.6,
        )
        if (card.copies.length === 1) continue
        expect(marks.length, sheet.id).toBeGreaterThanOrEqual(16)
        for (const { left, right, low, high } of pieces) {
          expect(left).toBeGreaterThan(5)
          expect(right).toBeLessThan(width - 5)
          expect(low).toBeGreaterThan(5)
          expect(high).toBeLessThan(height - 5)
        }
      }
  })
})

/** mm; one side of a mark */
const MARK = 4
