/** Station cards in every state of a binder: which there are, how long they are, whose numbers they show. */
import { beforeAll, describe, expect, it } from 'vitest'
import { cardLines, MOST_LINES } from '../../src/sheets/card-sheet.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Card, Sheet, Table } from '../../src/sheets/model.ts'
import {
  BATCH,
  type Binder,
  composeEdited,
  type Edits,
  MOULD,
  STATES,
  type State,
  sheetOf,
} from '../sites/edited-demo.ts'

/** Those in which a card says something else than in another. */
const names: readonly State[] = [
  'go', 'worst case below zero', 'superfat under the floor', 'lye too strong', 'dado too deep',
  'plain lye, no check weights', 'a stock lye that is heavy, fats that are short',
  'small kettles, two colours, a blend of fats', 'the whole demo',
] // biome-ignore format: a list
const built = new Map<State, Binder>()
beforeAll(async () => {
  for (const state of names) built.set(state, await composeEdited(STATES[state]))
}, 180_000)

const cardsOf = (binder: Binder): Sheet[] => binder.sheets.filter(({ kind }) => kind === 'card')
const cardOn = (sheet: Sheet): Card => {
  const { card } = sheet.blocks
  if (card?.kind !== 'card') throw new Error(`${sheet.id} has no card.`)
  return card
}
const of = (state: State): Binder => built.get(state) as Binder
const words = (card: Card): string =>
  [card.caution.words, card.number?.label, card.number?.words, card.hold, card.wear, ...card.steps, card.stop]
    .flatMap((one) => (one ? [inlineWords(one).replace(/\s/g, ' ')] : []))
    .join('\n')
const KEY = BATCH.replace('batch/', '')

describe.each(names)('by hand: cards, %s', (state) => {
  it('have ten lines at most', () => {
    for (const sheet of cardsOf(of(state)))
      expect(cardLines(cardOn(sheet)), sheet.id).toBeLessThanOrEqual(MOST_LINES)
    expect(MOST_LINES).toBe(10)
  })

  it('say what stops, and are numbered 5.1 and on', () => {
    for (const [index, sheet] of cardsOf(of(state)).entries()) {
      expect(sheet.number).toBe(`5.${index + 1}`)
      expect(cardOn(sheet).stop, sheet.id).toBeDefined()
    }
  })

  it('show no number of a batch that its own sheets do not show', () => {
    const { sheets } = of(state)
    for (const card of cardsOf(of(state))) {
      const [station = '', key = ''] = card.id.replace('card/', '').split('/')
      if (!['weigh', 'lye', 'blend'].includes(station)) continue
      const batch = sheetOf({ sheets }, `batch/${key}`)
      for (const [name, { shown, value }] of card.values) {
        if (OWN.has(name)) continue
        const there = batch.values.get(name)
        expect([shown, value], `${card.id}: ${name}`).toEqual([there?.shown, there?.value])
      }
    }
  })

  it('are all there for a batch that may be made, and one that says stop for one that may not', () => {
    const { sheets } = of(state)
    const ids = cardsOf(of(state)).map(({ id }) => id)
    for (const { id, stopped } of sheets.filter((sheet) => sheet.id.startsWith('batch/'))) {
      const key = id.replace('batch/', '')
      const stations = ids.filter((card) => card.endsWith(`/${key}`)).map((card) => card.split('/')[1])
      // poured, cut and wrapped: nobody works by a card of it any more
      if (key === '2027-01-10-hearth') expect(stations).toEqual([])
      else if (stopped) expect(stations).toEqual(['stop'])
      else expect(stations.slice(0, 3)).toEqual(['weigh', 'lye', 'blend'])
    }
  })
})

/** Counted, worst of several, or the sheet's own: what the batch sheet has in another form. */
const OWN = new Set(['oils.draws', 'heat.within', 'reading.distance', 'sheet.revision', 'sheet.code'])

describe('by hand: numbers that stand on a card alone', () => {
  const weigh = () => sheetOf(of('go'), `card/weigh/${KEY}`)
  const lye = () => sheetOf(of('go'), `card/lye/${KEY}`)

  it('draws are as many as rows of the batch sheet', () => {
    const draws = [...sheetOf(of('go'), BATCH).values.keys()].filter((name) => /^draw\.\d+$/.test(name))
    expect(weigh().values.get('oils.draws')?.value).toBe(draws.length)
  })

  it('a portion of the lye, so often, is all of it; and no temperature but the limit stands among what stops', () => {
    const { values, blocks } = lye()
    const portion = Number(values.get('naoh.portion.1.mass')?.value)
    const times = Number(values.get('portions')?.value)
    expect(times).toBeGreaterThan(1)
    // the last portion takes what rounding leaves, less than a division of each
    expect(Math.abs(portion * times - Number(values.get('naoh.mass')?.value))).toBeLessThan(0.001 * times)
    if (blocks.card?.kind !== 'card') throw new Error('no card')
    const number = blocks.card.number ? inlineWords(blocks.card.number.words) : ''
    expect(number).toContain(values.get('naoh.portion.1.mass')?.shown)
    expect(number).not.toContain(values.get('naoh.mass')?.shown)
    const stop = blocks.card.stop ? inlineWords(blocks.card.stop) : ''
    expect(stop.match(/°F/g)).toHaveLength(1)
    expect(values.has('lye.peak')).toBe(false)
  })

  it('the empty kettle is told by what the floor scale shows, less than with its fats', () => {
    const { values } = weigh()
    const batch = sheetOf(of('go'), BATCH).values
    expect(values.get('kettle.empty.low')).toEqual(batch.get('kettle.empty.low'))
    const fats = Number(batch.get('oils.mass')?.value)
    const gained = Number(values.get('gross.low')?.value) - Number(values.get('kettle.empty.high')?.value)
    expect(gained).toBeGreaterThan(0)
    expect(gained).toBeLessThan(fats)
  })

  it('the largest number at the scales is what the floor scale shows in the end, kettle and fats', () => {
    const card = cardOn(weigh())
    const batch = sheetOf(of('go'), BATCH).values
    const [low, expected, high] = ['gross.low', 'gross.expected', 'gross.high'].map((name) =>
      Number(batch.get(name)?.value),
    )
    expect(card.number ? inlineWords(card.number.words) : '').toBe(batch.get('gross.expected')?.shown)
    expect(expected).toBeGreaterThan(Number(batch.get('oils.mass')?.value))
    expect(expected).toBeGreaterThan(Number(low))
    expect(expected).toBeLessThan(Number(high))
  })

  it('the water is proved before any alkali, on the card as on the sheet', () => {
    const { values } = lye()
    const batch = sheetOf(of('go'), BATCH).values
    for (const name of ['lye.water.low', 'lye.water.high']) {
      expect(values.get(name)?.value, name).toBeGreaterThan(0)
      expect(values.get(name), name).toEqual(batch.get(name))
    }
    const water = ['water.mass', 'ice.mass'].reduce((sum, name) => sum + Number(values.get(name)?.value), 0)
    expect(Number(values.get('lye.water.low')?.value)).toBeLessThanOrEqual(water)
    expect(Number(values.get('lye.water.high')?.value)).toBeGreaterThanOrEqual(water)
  })

  it('each of two people presses as much as the sheet of the cutter says', () => {
    const { values } = sheetOf(of('go'), 'card/grid-cut/five-by-three')
    expect(values.get('push.half.most')?.value).toBeGreaterThan(0)
    expect(values.get('push.half.most')).toEqual(
      sheetOf(of('go'), 'grid-cutter/five-by-three').values.get('push.half.most'),
    )
  })

  it('a bar is wrapped by what its log asks for, under the label of the log', () => {
    const log = sheetOf(of('go'), `cure/${KEY}`).values
    const wrap = sheetOf(of('go'), `card/wrap/${KEY}`).values
    for (const name of ['cure.declared', 'cure.label.first.least']) {
      expect(wrap.get(name)?.value, name).toBeGreaterThan(0)
      expect(wrap.get(name), name).toEqual(log.get(name))
    }
    expect(Number(wrap.get('cure.label.first.least')?.value)).toBeGreaterThan(
      Number(wrap.get('cure.declared')?.value),
    )
  })

  it('bars of a loaf and loaves make the bars of the batch', () => {
    const { values } = sheetOf(of('go'), 'card/slice/five-by-three')
    const bars = Number(values.get('loaf.bars')?.value) * Number(values.get('loaves')?.value)
    expect(bars).toBe(sheetOf(of('go'), BATCH).values.get('bars')?.value)
  })

  it('the mould is closed with the torque and the strips of its build sheet', () => {
    const mould = sheetOf(of('go'), MOULD)
    for (const name of [
      'loads.torqueMost',
      'loads.hung',
      'strips.long',
      'strips.short',
      'mould.base.clearance',
    ])
      expect(sheetOf(of('go'), 'card/mould/five-by-three').values.get(name), name).toEqual(
        mould.values.get(name),
      )
  })

  it('the first weigh-in is the first of the log, with what it ought to show', () => {
    const log = sheetOf(of('go'), `cure/${KEY}`).values
    const { values } = sheetOf(of('go'), `card/rack/${KEY}`)
    const low = [...values.keys()].find((name) => /^cure\.plan\.\d+\.low$/.test(name)) ?? ''
    expect(values.get(low)).toEqual(log.get(low))
    expect(values.get('cure.firstWeighIn')?.value).toBe(log.get(low.replace('low', 'date'))?.value)
  })

  it('the stroke of the frame is the set block and a little more', () => {
    const stroke = Number(sheetOf(of('go'), 'card/grid-cut/five-by-three').values.get('cutter.stroke')?.value)
    const block = Number(sheetOf(of('go'), BATCH).values.get('fill.setHeight')?.value)
    expect(stroke - block).toBeGreaterThan(0.005)
    expect(stroke - block).toBeLessThan(0.03)
  })
})

describe('by hand: a batch on hold, and one that is stopped', () => {
  it('says at the scales, on the rack and at the table that it is on hold', () => {
    for (const station of ['weigh', 'rack', 'wrap']) {
      const id = `card/${station}/${KEY}`
      expect(words(cardOn(sheetOf(of('worst case below zero'), id)))).toContain('On hold')
      expect(words(cardOn(sheetOf(of('go'), id)))).not.toContain('On hold')
    }
  })

  it.each(['superfat under the floor', 'lye too strong'] as const)(
    'has no weight, size or heat: %s',
    (state) => {
      const sheet = sheetOf(of(state), `card/stop/${KEY}`)
      expect([...sheet.values.keys()]).toEqual([
        'batch.date',
        'edition',
        'reading.distance',
        'sheet.revision',
        'sheet.code',
      ])
      expect(words(cardOn(sheet))).not.toMatch(/\d\s?(g|kg|in|mm|°)/)
      expect(cardsOf(of(state)).filter(({ id }) => id.endsWith(KEY))).toEqual([sheet])
    },
  )

  it('has no card of a mould that does not stand', () => {
    expect(cardsOf(of('dado too deep')).map(({ id }) => id)).toEqual([`card/stop/${KEY}`])
  })
})

describe('by hand: half a page', () => {
  const half: Edits = { 'shop.yaml': [['  cards: full ', '  cards: half ']] }

  it('holds a card twice, read nearer, with the same numbers', async () => {
    const binder = await composeEdited(half)
    for (const sheet of cardsOf(binder)) {
      const full = sheetOf(of('go'), sheet.id)
      expect(cardOn(sheet).copies).toEqual([1, 2])
      expect(cardOn(full).copies).toEqual([1])
      expect(words(cardOn(sheet))).toBe(words(cardOn(full)))
      expect(Number(sheet.values.get('reading.distance')?.value)).toBeLessThan(
        Number(full.values.get('reading.distance')?.value),
      )
    }
  })
})

describe('by hand: the emergency card', () => {
  it('stands behind the cautions, and has a line to write on where a contact has no number', () => {
    const { sheets } = of('go')
    const ids = sheets.map(({ id }) => id)
    expect(ids.indexOf('cautions/emergency')).toBe(ids.indexOf('cautions/lye') + 1)
    const { contacts } = sheetOf({ sheets }, 'cautions/emergency').blocks
    expect(contacts).toMatchObject({ contacts: [{ who: 'Ambulance' }, { who: 'Poison centre' }] })
  })

  it('has lines for fire brigade, person to fetch and address, until the shop writes who or where it is', async () => {
    const toWrite = (sheets: readonly Sheet[]): string[] => {
      const { contacts } = sheetOf({ sheets }, 'cautions/emergency').blocks
      return contacts?.kind === 'contacts' ? contacts.toWrite.map(inlineWords) : []
    }
    expect(toWrite(of('go').sheets)).toEqual(['Fire brigade', 'Fetch', 'We are at'])
    const table = sheetOf(of('go'), 'cautions/lye').blocks.contacts as Table
    expect(table.rows).toHaveLength(5)
    const { sheets } = await composeEdited({
      'shop.yaml': [
        ['contacts:\n', 'contacts:\n  - { who: Fire station, reach: 555 01 13, is: fire-brigade }\n'],
      ],
    })
    expect(toWrite(sheets)).toEqual(['Fetch', 'We are at'])
  })

  it('shows a number as it was typed', async () => {
    const binder = await composeEdited({
      'shop.yaml': [
        [
          '  - who: { en: Ambulance, es: Ambulancia }\n    reach:\n      en: write your own number here before the first batch\n      es: escriba aquí su número antes de la primera tanda',
          '  - who: Ambulance\n    reach: 555 01 12, gate 3',
        ],
      ],
    })
    const { contacts } = sheetOf(binder, 'cautions/emergency').blocks
    expect(contacts).toMatchObject({ contacts: [{ who: 'Ambulance', reach: '555 01 12, gate 3' }, {}] })
  })
})
