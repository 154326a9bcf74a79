/** Cards on paper: each on its page, its lines large enough. All other sheets: tests/commands/build.test.ts */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { READINGS, seenAngle } from '../../src/sheets/reading.ts'
import { composeEdited, type Edits, STATES, type State } from '../sites/edited-demo.ts'
import { paintedPieces } from './kitchen-sink/painted-pieces.ts'
import { asked, close, exemptOf, type Read, ROUNDING, read, textsOf } from './legible.ts'
import { printSheets } from './printed-sheets.ts'

const isCard = ({ kind }: Sheet): boolean => kind === 'card' || kind === 'emergency'
/** Each line of the emergency card filled, the address over two lines. */
const ALL_CONTACTS = [
  `  - who: { en: Ambulance, es: Ambulancia }
    reach:
      en: write your own number here before the first batch
      es: escriba aquí su número antes de la primera tanda
  - who: { en: Poison centre, es: Centro de toxicología }
    reach:
      en: write your own number here before the first batch
      es: escriba aquí su número antes de la primera tanda`,
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
    ['a stock lye that is heavy, fats that are short', 'superfat under the floor'],
  ],
  // Spanish has the longer words
  [
    'half, Letter, Spanish',
    [
      ['  cards: full ', '  cards: half '],
      ['language: en', 'language: es'],
    ],
    ['small kettles, two colours, a blend of fats', 'superfat under the floor'],
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
        const [width, height] = shop.some(([, after]) => after === 'size: A4') ? [210, 297] : [215.9, 279.4]
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
