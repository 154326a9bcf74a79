/** Go, hold and stop: what each must print, and what a stopped thing must not print anywhere. */
import { beforeAll, describe, expect, it } from 'vitest'
import { binderData } from '../../src/sheets/binder-data.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { printJob } from '../../src/site/print-job.ts'
import { builtPages } from '../sites/built-pages.ts'
import {
  BATCH,
  type Binder,
  composeEdited,
  MOULD,
  STATES,
  type State,
  sheetOf,
} from '../sites/edited-demo.ts'
import { elements, textOf } from '../sites/html.ts'

const made = new Map<State, { readonly binder: Binder; readonly text: string; readonly shown: Set<string> }>()
const SHOWN_STATES: readonly State[] = [
  'go', 'untried', 'worst case below zero', 'superfat under the floor', 'lye too strong', 'dado too deep',
] // biome-ignore format: one line reads better

/** One space for every gap, so that a search finds what a reader sees. */
const plain = (text: string): string => text.replace(/\s+/g, ' ')

beforeAll(async () => {
  for (const state of SHOWN_STATES) {
    const binder = await composeEdited(STATES[state])
    const roots = [...(await builtPages(binder)).pages.values()]
    const job = printJob(binder.content.shop.value, binder.frame, binder.sheets, '')
    const feet = job.sheets.map(({ title, foot, bookmarks }) => JSON.stringify([title, foot, bookmarks]))
    const printed = binder.sheets.map(({ id }) => ({ id, firstPage: 1, pages: 1 }))
    const data = JSON.stringify(binderData(binder.sheets, { browserVersion: '', sheets: printed }))
    made.set(state, {
      binder,
      text: plain([...roots.map((root) => textOf(root)), ...feet, data].join('\n')),
      shown: new Set(
        roots.flatMap((root) =>
          elements(root)
            .filter(({ tag }) => tag === 'data')
            .map((one) => textOf(one)),
        ),
      ),
    })
  }
})

const of = (state: State) => made.get(state) as { binder: Binder; text: string; shown: Set<string> }
const TRIAL = 'trial-frame/five-by-three'
const wordsOf = (sheet: Sheet): string => JSON.stringify([...Object.values(sheet.blocks)])

describe('by hand: a batch that may go', () => {
  it('says so, with what its superfat is known to', () => {
    const { text, binder } = of('go')
    expect(text).toContain('By chemistry: superfat 6.0 %')
    expect(text).not.toContain('Hold for a test')
    expect(sheetOf(binder, BATCH).stopped).toBeUndefined()
  })
})

describe.each(['untried', 'worst case below zero'] as const)('by hand: a batch on hold, %s', (state) => {
  it('prints its weights, and the test that it must pass', () => {
    const { text, binder } = of(state)
    expect(text).toContain('Hold for a test')
    expect(text).toMatch(/five test bars have passed the free-alkali test of sheet 11\.2/)
    expect(text).toContain('Test passed, date and signature:')
    expect(text).not.toContain('Stop. Not for use.')
    const sheet = sheetOf(binder, BATCH)
    expect(sheet.stopped).toBeUndefined()
    expect(sheet.values.get('naoh.mass')?.unit).toBe('kg')
  })

  it('says why', () => {
    const why = {
      untried: 'no trial on file',
      'worst case below zero': 'if every tolerance falls the wrong way',
    }
    for (const [name, words] of Object.entries(why))
      expect(of(state).text.includes(words)).toBe(name === state)
  })
})

describe.each([
  ['superfat under the floor', 'superfat-under-floor'],
  ['lye too strong', 'lye-beyond-solubility'],
] as const)('by hand: a stopped batch, %s', (state, code) => {
  it('has a stop page in its place, with reason and remedy, and a line in the list of stops', () => {
    const { binder, text } = of(state)
    const sheet = sheetOf(binder, BATCH)
    const before = sheetOf(of('go').binder, BATCH)
    expect([sheet.number, inlineWords(sheet.title), sheet.kind]).toEqual([
      before.number,
      inlineWords(before.title),
      before.kind,
    ])
    expect(sheet.stopped?.map((one) => one.code)).toContain(code)
    expect(text).toContain('Stop. Not for use.')
    expect(text).not.toContain('Hold for a test')
    expect(text).not.toContain('By chemistry:')
  })

  it('prints no weight, volume, time or temperature that the batch would have, on any page or in any number', async () => {
    // The same batch composed as if nothing stopped it: without the one line that does.
    const going = sheetOf(of('go').binder, BATCH)
    const secret = [...going.values.values()].filter(
      // how high the block is when set is a size of the mould, which stands on the mould's own sheet
      // what one person may lift is the shop's own limit, cold vessels are as warm as its room, and what its vessels hold
      // and stand, and what a pail weighs, is written in its file; how long skin is rinsed and how cool a core must be for
      // the cut is the same everywhere
      ({ unit, name }) =>
        (['kg', 'm3', 's', 'K'].includes(unit) &&
          !/^load\..*\.alone$|^vessel\.(weighing|alkali)\.peak$|^vessel\..*\.(allowed|brim|working)$|^lye\.limit$|^rinse$|^pail\.tare$|^block\.cutBelow$/.test(
            name,
          )) ||
        /^fill\.(pourHeight|belowRim)$/.test(name),
    )
    expect(secret.length).toBeGreaterThan(40)
    // a cutter may weigh what a pitcher does, and a friend's work on it last as long as a wait
    const others = ['cautions/lifting', 'quote/first-set'].flatMap((id) =>
      [...sheetOf(of(state).binder, id).values.values()].map(({ shown }) => shown),
    )
    const found = secret.filter(({ shown }) => of(state).shown.has(shown) && !others.includes(shown))
    expect(found.map(({ name, shown }) => `${name}: ${shown}`)).toEqual([])
    // in grams they are long enough to be looked for in the plain text, too
    const grams = secret.filter(({ shown }) => /\d\d\d\s?g$/.test(shown)).map(({ shown }) => plain(shown))
    expect(grams.length).toBeGreaterThan(20)
    expect(grams.filter((one) => of(state).text.includes(one))).toEqual([])
    expect(sheetOf(of(state).binder, BATCH).values.size).toBeLessThan(10)
  })

  it('keeps the sheet of its mould, which is not to blame', () => {
    expect(sheetOf(of(state).binder, MOULD).stopped).toBeUndefined()
    expect(sheetOf(of(state).binder, MOULD).values.size).toBeGreaterThan(100)
  })

  it('names no other value than those of its reasons and remedies, its day, the edition, what names the paper and how far off it is read', () => {
    const names = [...sheetOf(of(state).binder, BATCH).values.keys()]
    expect(
      names.filter(
        (name) =>
          !/^(finding\.|remedy\.|batch\.date$|edition$|reading\.distance$|sheet\.(revision|code)$)/.test(
            name,
          ),
      ),
    ).toEqual([])
  })
})

describe('by hand: the search for secrets finds them when they are there', () => {
  it('finds every one of them in the binder that goes', () => {
    const going = [...sheetOf(of('go').binder, BATCH).values.values()].filter(({ unit }) => unit === 'kg')
    expect(going.filter(({ shown }) => !of('go').shown.has(shown))).toEqual([])
    expect(going.filter(({ shown }) => !of('go').text.includes(plain(shown)))).toEqual([])
  })
})

describe('by hand: a stopped mould', () => {
  const state = 'dado too deep'

  it('stops itself and every batch that would be poured into it', () => {
    const { binder, text } = of(state)
    for (const id of [MOULD, BATCH]) {
      expect(sheetOf(binder, id).stopped?.map(({ code }) => code)).toEqual(['mould-dado-too-deep'])
      expect(wordsOf(sheetOf(binder, id))).toContain('Stop. Not for use.')
    }
    expect(text).toContain('The dado is 5/8 in (16 mm) deep')
  })

  it('draws nothing and prints no size to cut', () => {
    const { binder, text } = of(state)
    expect(Object.values(sheetOf(binder, MOULD).blocks).map(({ kind }) => kind)).not.toContain('figure')
    const going = sheetOf(of('go').binder, MOULD)
    // the trial frame stands on its own and is of the same boards: sizes that it happens to share are its own
    const trial = [...sheetOf(binder, TRIAL).values.values()].map(({ shown }) => plain(shown))
    const cuts = [...going.values.values()].filter(
      ({ name, shown }) =>
        /^(part\..*\.(length|width)|rod\.length|mould\.inside)/.test(name) &&
        !trial.some((own) => own.includes(plain(shown))),
    )
    expect(cuts.length).toBeGreaterThan(15)
    expect(cuts.filter(({ shown }) => of(state).shown.has(shown)).map(({ name }) => name)).toEqual([])
    const millimetres = cuts.filter(({ shown }) => shown.endsWith('mm')).map(({ shown }) => plain(shown))
    expect(millimetres.filter((one) => text.includes(one))).toEqual([])
  })

  it('says in the binder that the batch is stopped, too', () => {
    const { binder } = of(state)
    const printed = binder.sheets.map(({ id }) => ({ id, firstPage: 1, pages: 1 }))
    const { stopped } = binderData(binder.sheets, { browserVersion: '', sheets: printed })
    // a mould that does not stand takes its batch, both cutters, its readings and what is said of their bars with it
    expect([...new Set(stopped.map(({ sheet }) => sheet))].sort()).toEqual(
      [
        BATCH,
        MOULD,
        'as-built/five-by-three',
        'bar-cutter/five-by-three',
        'grid-cutter/five-by-three',
        'tolerance/five-by-three',
      ].sort(),
    )
  })
})
