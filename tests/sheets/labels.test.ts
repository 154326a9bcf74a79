/** Sheets of labels: what stands on a label and what must not, pages for every region, and places of what is in the way. */
import { describe, expect, test } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import { runsOf } from '../../src/sheets/labels/label-words.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { lettering, textsOf } from '../sites/sheet-texts.ts'
import { bindAndCompose, contentOf, smallBinderFiles } from '../sites/small-binder.ts'
import { GRID, type LabelCase, labelsOf, UNION, US_SOAP, wrapped } from '../sites/small-labels.ts'

const BARS = wrapped([105, 106.2, 104.1, 107, 105.5, 106], '  bars: { cut: 6 }\n')

const sheetsOf = (of: LabelCase) => {
  const { labels, sheets } = labelsOf(of)
  const section = sheets.filter(({ number }) => number.startsWith('9.'))
  const one = (id: string): Sheet => {
    const found = section.find((sheet) => sheet.id === id)
    if (!found) throw new Error(`No sheet ${id} among ${section.map((sheet) => sheet.id).join(', ')}.`)
    return found
  }
  return {
    label: labels[0]!,
    section,
    rules: one('label/rules'),
    data: one('label/2027-02-01-plain'),
    page: section.find(({ id }) => id === 'labels/2027-02-01-plain'),
  }
}

/** Texts of a drawing, in the order in which they are drawn. */
const drawn = (sheet: Sheet | undefined): string[] => {
  const { page } = sheet?.blocks ?? {}
  if (page?.kind !== 'figure') throw new Error('No page of labels.')
  return lettering(page.svg).map((text) => text.replaceAll('\u00a0', ' '))
}

/** All that a sheet says beside what it draws, as one text. */
const textOf = (sheet: Sheet): string => textsOf(sheet, false)

const idsOf = (sheets: readonly Sheet[]): string[] =>
  sheets.filter(({ number }) => number.startsWith('9.')).map(({ id }) => id)

describe('by hand: what a shop does not say', () => {
  test('where it sells: there is no section of labels', () =>
    expect(idsOf(bindAndCompose(contentOf(smallBinderFiles())).sheets)).toEqual([]))

  test('how its label paper is divided: there is no page of labels', () =>
    expect(idsOf(labelsOf({ selling: US_SOAP.replace(GRID, '') }).sheets)).toEqual([
      'label/rules',
      'label/2027-02-01-plain',
    ]))
})

describe('by hand: a label that may be sold', () => {
  const { label, page, data, section } = sheetsOf({ batch: BARS })

  test('says in the United States what soap must: name, what it is, ingredients, maker, code, weight in both units', () => {
    expect(label.state).toBe('for-sale')
    const all = drawn(page)
    const own = all.slice(0, all.length / 6 + 2)
    const text = own.join(' ')
    for (const wanted of [
      'Plain bar',
      'Soap',
      'Ingredients: Olea Europaea Fruit Oil',
      'Alder Yard, Ford',
      `Batch ${label.code?.code}`,
    ])
      expect(text).toContain(wanted)
    const grams = Math.round(label.net.declared! * 1000)
    const ounces = (Math.floor((grams / 28.349523125) * 100) / 100).toFixed(2)
    expect(text).toContain(`Net wt ${ounces} oz (${grams} g)`)
  })

  test('stands in every place of the grid, and nowhere is it not for sale', () => {
    const all = drawn(page)
    expect(all.filter((text) => text === 'Plain bar')).toHaveLength(6)
    expect(all.filter((text) => text.startsWith('Net wt'))).toHaveLength(6)
    expect(all.join(' ')).not.toMatch(/not for sale/i)
    expect(page?.wholePage).toEqual({ width: 210, height: 297 })
  })

  test('has a sheet with both lists, what asks for each part, and how often the page is printed', () => {
    expect(section.map(({ number }) => number)).toEqual(['9.1', '9.2', '9.3'])
    const text = textOf(data)
    expect(text).toContain('Sodium Olivate')
    expect(text).toContain('Sodium Hydroxide')
    expect(text).toContain('16 CFR 500.5')
    expect(text).toContain('no legal advice'.replace('no', 'No'))
    // six bars, six labels a page
    expect(text).toContain('6 labels a page; for 6 bars print it 1 times.')
  })
})

describe('by hand: a label that must not be sold yet', () => {
  test.each([
    ['not weighed', { batch: 'label-weight: 90 g\n' }],
    ['a gate open', { batch: BARS, selling: US_SOAP.replace(/ {4}sold-only.*\n/, '') }],
  ] as const)('%s: bears it in every place, and no weight', (_, of) => {
    const { page, data, label } = sheetsOf(of)
    expect(label.state).toBe('not-for-sale')
    const all = drawn(page)
    expect(all.filter((text) => text === 'NOT FOR SALE')).toHaveLength(6)
    expect(all.filter((text) => /\boz\b|\d g\b|Net wt/.test(text))).toEqual([])
    expect(inlineWords(page!.title)).toContain('not for sale')
    expect(textOf(data)).toContain('Not for sale yet')
  })

  test('the sheet names what is open, with its section', () => {
    const { data, rules } = sheetsOf({ batch: BARS, selling: US_SOAP.replace(/ {4}sold-only.*\n/, '') })
    expect(textOf(data)).toContain(
      '“Labelled, sold and spoken of as soap alone” is entered (21 CFR 701.20(a)(2))',
    )
    expect(textOf(rules)).toContain('Labelled, sold and spoken of as soap alone')
  })

  test('a batch that is held has a page without any label, which says what to do and where', () => {
    const { page } = sheetsOf({
      batch: BARS,
      more: {
        'recipes/plain.yaml':
          'title: Plain bar\ncode: PL\nfats: { olive: 70 %, coconut: 30 % }\nsuperfat: 6 %\nalkali: beads\nlye-concentration: 30 %\npour-temperature: 40 C\n',
      },
    })
    expect(page?.stopped?.map(({ code }) => code)).toEqual(['label-batch-held'])
    expect(JSON.stringify(page?.blocks)).not.toContain('<svg')
    expect(page?.wholePage).toBeUndefined()
  })
})

describe('by hand: a panel too small for its text', () => {
  const small = (size: string) =>
    sheetsOf({ batch: BARS, selling: US_SOAP.replace('width: 90 mm, height: 80 mm', size) }).page

  test('too low: named, with its line in the shop’s file', () => {
    const page = small('width: 90 mm, height: 25 mm')
    const [first] = page?.stopped ?? []
    expect(first?.code).toBe('label-text-too-tall')
    // the grid is one line of it, the last one but for the line break
    const line =
      smallBinderFiles().get('shop.yaml')!.split('\n').length + 1 + US_SOAP.trimEnd().split('\n').length
    expect(first?.place).toBe(`shop.yaml:${line}`)
    expect(inlineWords(first!.reason)).toMatch(/take .* of its height and have/)
  })

  test('too narrow for the weight at its least height', () => {
    // "Net wt" alone in bold letters of 3.2 mm with two widths of N at either side takes more than 30 mm
    expect(small('width: 30 mm, height: 80 mm')?.stopped?.map(({ code }) => code)).toContain(
      'label-text-too-wide',
    )
  })
})

describe('by hand: other regions', () => {
  test('the Union: grams alone, responsible person, month, precautions, substances of the scent', () => {
    const { page, data, rules } = sheetsOf({
      selling: UNION.replace('EU\n', 'EU\n  ingredients: as-finished\n'),
      batch: BARS,
      recipe: 'code: PL\nadditions: { meadow: 2 % }\n',
      materials:
        'fragrances:\n  meadow: { name: Meadow, limit: 3 %, tried: once, declares: [{ substance: Linalool, share: 10 % }] }\n',
    })
    const text = drawn(page).join(' ')
    for (const wanted of [
      'Sodium Olivate',
      'Aqua',
      'Parfum',
      'Linalool',
      'Responsible person: Alder Yard, Ford',
      'Best before the end of January 2028',
      'Rinse eyes at once.',
    ])
      expect(text).toContain(wanted)
    expect(text).not.toMatch(/\boz\b/)
    expect(drawn(page).filter((one) => /^\d+ g$/.test(one))).toHaveLength(6)
    expect(textOf(data)).toContain('1223/2009 Art. 19(1)(g)')
    expect(textOf(rules)).toContain('European Union')
    expect(textOf(rules)).toContain('76/211/EEC Annex I 3.1')
  })

  test('Great Britain has its own gates under the same numbers', () => {
    const { rules } = sheetsOf({
      selling: UNION.replace('EU\n', 'UK\n').replace('    language: { text: English }\n', ''),
    })
    expect(textOf(rules)).toContain('as S.I. 2019/696 Sch. 34 has it')
  })

  test('Canada: gates are told, and no label is printed', () => {
    const { page, rules } = sheetsOf({ selling: US_SOAP.replace('US\n', 'CA\n'), batch: BARS })
    expect(page?.stopped?.map(({ code }) => code)).toContain('label-rules-unknown')
    expect(textOf(rules)).toContain('prints no labels for it')
  })

  test('a cosmetic in the United States has a contact', () => {
    const { page, data } = sheetsOf({
      selling: US_SOAP.replace('US\n', 'US\n  sold-as: cosmetic\n').replace(
        '    soap-of',
        '    safety-assessment: { text: filed }\n    domestic-contact: { text: alder.example }\n    soap-of',
      ),
      batch: BARS,
    })
    expect(drawn(page).join(' ')).toContain('Contact: alder.example')
    expect(textOf(data)).toContain('21 CFR 701.13')
  })
})

describe('by hand: every rule has its section and how it is known', () => {
  test.each(['US', 'EU', 'UK', 'CA'])('%s', (region) => {
    const { rules } = sheetsOf({ selling: US_SOAP.replace('US\n', `${region}\n`) })
    const { rules: table, gates } = rules.blocks
    for (const one of [table, gates]) {
      if (one?.kind !== 'table') throw new Error('no table')
      expect(one.rows.length).toBeGreaterThan(0)
      for (const row of one.rows) expect(row.every(({ kind }) => kind !== 'empty')).toBe(true)
    }
    expect(textOf(rules)).toContain('This binder gives no legal advice')
  })
})

describe('by hand: catalogue words as runs of a drawing', () => {
  test('mark what the maker typed, and name what is a value of the drawing', () => {
    const value = { name: 'drawing.label.net.grams', value: 0.1, unit: 'kg', shown: '100 g' }
    expect(runsOf({ text: 'Net [[grams]] of [[what]]', fill: { grams: value, what: 'soap' } })).toEqual([
      { kind: 'plain', text: 'Net ' },
      { kind: 'plain', text: '100 g', value: true, name: 'label.net.grams' },
      { kind: 'plain', text: ' of ' },
      { kind: 'plain', text: 'soap', maker: true },
    ])
  })
})
