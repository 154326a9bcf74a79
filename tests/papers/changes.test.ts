import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { changesOf } from '../../src/papers/changes.ts'
import { keptName, keptText, readKeptSheet } from '../../src/papers/kept-text.ts'
import { filledLine, gapFor, plainText } from '../../src/papers/line-text.ts'
import { fingerprintOf } from '../../src/papers/shown-sheet.ts'
import type { ShownSheet } from '../../src/sheets/printed/shown-types.ts'

const lye: ShownSheet = {
  id: 'card/lye',
  language: 'en',
  number: '5.2',
  section: 'Cards',
  title: 'Lye',
  values: [
    { name: 'naoh', shown: '1 652 g', unit: 'kg', label: 'NaOH, Weigh' },
    { name: 'bars', shown: '105', unit: '1', label: 'Bars' },
  ],
  lines: [
    { text: 'Alkali into water', about: 'caution' },
    { text: '1.\tWeigh [[naoh]] of NaOH' },
    { text: '2.\tStir' },
    { text: 'Bars\t[[bars]]' },
  ],
  drawings: [{ label: 'Pail', hash: 'aa' }],
}
const NONE = { values: [], lines: [], drawings: [], renumbered: false }

describe('by hand: what changed on a paper', () => {
  it('is nothing where it shows the same', () => {
    expect(changesOf(lye, lye)).toEqual(NONE)
  })

  it('is a number, told with its label once and not again with its line; a weight may hurt somebody', () => {
    const now = {
      ...lye,
      values: lye.values.map((one) => (one.name === 'naoh' ? { ...one, shown: '1 610 g' } : one)),
    }
    expect(changesOf(lye, now)).toEqual({
      ...NONE,
      values: [{ name: 'naoh', label: 'NaOH, Weigh', before: '1 652 g', now: '1 610 g', safety: true }],
    })
  })

  it('is known by its label where the program has another name for it by now', () => {
    const now = {
      ...lye,
      values: lye.values.map((one) => (one.name === 'naoh' ? { ...one, name: 'alkali.naoh' } : one)),
      lines: lye.lines.map((line) => ({ ...line, text: line.text.replace('[[naoh]]', '[[alkali.naoh]]') })),
    }
    expect(changesOf(lye, now)).toEqual(NONE)
    expect(fingerprintOf(now)).toBe(fingerprintOf(lye))
  })

  it('is a new number, and one that is gone', () => {
    const without = {
      ...lye,
      values: lye.values.slice(1),
      lines: lye.lines.filter((_, index) => index !== 1),
    }
    expect(changesOf(without, lye).values).toEqual([
      { name: 'naoh', label: 'NaOH, Weigh', now: '1 652 g', safety: true },
    ])
    expect(changesOf(lye, without).values).toEqual([
      { name: 'naoh', label: 'NaOH, Weigh', before: '1 652 g', safety: true },
    ])
    expect(changesOf(lye, without).lines).toEqual([{ before: '1. · Weigh 1 652 g of NaOH', safety: false }])
  })

  it('is a line with other words, a caution first of all', () => {
    const now = { ...lye, lines: [{ text: 'Water last', about: 'caution' as const }, ...lye.lines.slice(1)] }
    expect(changesOf(lye, now).lines).toEqual([
      { before: 'Alkali into water', now: 'Water last', safety: true },
    ])
  })

  it('is a step that was put in; those after it only have other numbers', () => {
    const now = {
      ...lye,
      lines: [...lye.lines.slice(0, 2), { text: '2.\tWait' }, { text: '3.\tStir' }, ...lye.lines.slice(3)],
    }
    expect(changesOf(lye, now)).toEqual({
      ...NONE,
      lines: [{ now: '2. · Wait', safety: false }],
      renumbered: true,
    })
  })

  it('is a drawing, a number of the sheet, its title', () => {
    const now = { ...lye, number: '5.3', title: 'Lye water', drawings: [{ label: 'Pail', hash: 'bb' }] }
    expect(changesOf(lye, now)).toEqual({
      ...NONE,
      number: { before: '5.2', now: '5.3' },
      title: { before: 'Lye', now: 'Lye water' },
      drawings: ['Pail'],
    })
  })

  it('of a paper in another language is its numbers alone, whatever the marks in them', () => {
    const values = [
      { name: 'naoh', shown: '1,652 kg', unit: 'kg', label: 'NaOH' },
      { name: 'bars', shown: '105', unit: '1', label: 'Barras' },
      { name: 'day', shown: '3 de marzo', unit: 'date', label: 'Día' },
    ]
    const spanish: ShownSheet = {
      ...lye,
      language: 'es',
      title: 'Lejía',
      values,
      lines: [{ text: 'Pese [[naoh]]' }],
    }
    const english = (naoh: string): ShownSheet => ({
      ...lye,
      values: [
        { name: 'naoh', shown: naoh, unit: 'kg', label: 'NaOH, Weigh' },
        ...lye.values.slice(1),
        { name: 'day', shown: 'March 3', unit: 'date', label: 'Day' },
      ],
    })
    expect(changesOf(spanish, english('1.652 kg'))).toEqual({ ...NONE, language: 'es' })
    expect(changesOf(spanish, english('1.610 kg'))).toEqual({
      ...NONE,
      language: 'es',
      values: [{ name: 'naoh', label: 'NaOH, Weigh', before: '1,652 kg', now: '1.610 kg', safety: true }],
    })
  })

  it('tells two values that changed places with their line', () => {
    const swapped = {
      ...lye,
      lines: lye.lines.map(({ text, ...rest }) => ({
        ...rest,
        text: text.replace(/\[\[(naoh|bars)\]\]/, (_all, name: string) =>
          name === 'naoh' ? '[[bars]]' : '[[naoh]]',
        ),
      })),
    }
    expect(changesOf(lye, swapped).lines.map(({ now }) => now)).toEqual([
      '1. · Weigh 105 of NaOH',
      'Bars · 1 652 g',
    ])
  })
})

const words = fc.string({
  unit: fc.constantFrom('a', 'b', ' ', '[', ']', '.', '\u00a0', '"', '\\', 'é'),
  maxLength: 12,
})
const sheets = fc.record({
  texts: fc.array(
    words.map((text) => text.trim()).filter((text) => text !== ''),
    { minLength: 1, maxLength: 8 },
  ),
  shown: fc.array(words, { minLength: 3, maxLength: 3 }),
  at: fc.array(fc.nat({ max: 2 }), { minLength: 8, maxLength: 8 }),
})
const built = ({ texts, shown, at }: { texts: string[]; shown: string[]; at: number[] }): ShownSheet => ({
  ...lye,
  values: shown.map((one, index) => ({ name: `v${index}`, shown: one, unit: '1', label: `l${index}` })),
  lines: texts.map((text, index) => ({ text: plainText(text) + gapFor(`v${at[index]}`) })),
})

describe('by hand: changes of any two papers', () => {
  it('are told if, and only if, the fingerprints differ', () => {
    fc.assert(
      fc.property(sheets, sheets, fc.boolean(), (one, other, isSame) => {
        const [a, b] = [built(one), built(isSame ? { ...other, texts: one.texts, at: one.at } : other)]
        const { values, lines } = changesOf(a, b)
        if (fingerprintOf(a) !== fingerprintOf(b)) expect(values.length + lines.length).toBeGreaterThan(0)
        if (values.length + lines.length === 0) expect(fingerprintOf(a)).toBe(fingerprintOf(b))
      }),
    )
  })

  it('list each value that reads otherwise with both texts', () => {
    fc.assert(
      fc.property(sheets, words, fc.nat({ max: 2 }), (one, fresh, which) => {
        const a = built(one)
        const b = built({ ...one, shown: one.shown.map((text, index) => (index === which ? fresh : text)) })
        const before = one.shown[which]
        const told = changesOf(a, b).values
        if (before === fresh) expect(told).toEqual([])
        else
          expect(told).toEqual([{ name: `v${which}`, label: `l${which}`, before, now: fresh, safety: false }])
      }),
    )
  })

  it('are kept in a file and read back to the letter; a file with another letter is found', () => {
    fc.assert(
      fc.property(sheets, fc.integer({ min: 1, max: 99 }), (one, revision) => {
        const shown = built(one)
        const fingerprint = fingerprintOf(shown)
        const text = keptText({ shown, revision, fingerprint, inputs: 'inputs-x.yaml' })
        const file = (content: string) => ({
          file: 'kept',
          below: keptName(shown.id, revision),
          bytes: new TextEncoder().encode(content),
        })
        const read = readKeptSheet(file(text))
        expect(read.diagnostics).toEqual([])
        expect(read.kept).toEqual({ shown, revision, fingerprint, inputs: 'inputs-x.yaml' })
        const damaged = text.replace('section: "Cards"', 'section: "Card"')
        expect(readKeptSheet(file(damaged)).diagnostics.map(({ code }) => code)).toEqual([
          'kept-paper-changed',
        ])
        expect(readKeptSheet(file(text.slice(0, 200))).kept).toBeUndefined()
      }),
    )
  })

  it('leaves double brackets of a sheet as they are', () => {
    for (const text of ['[[', ']]', '[[[a]]]', 'a [[naoh]] b', '[[[[]]'])
      expect(filledLine(plainText(text), () => 'never')).toBe(text)
  })
})
