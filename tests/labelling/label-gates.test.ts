/** What must be entered before a bar is sold, and words that make more of it than soap. */
import { describe, expect, test } from 'vitest'
import { claimsIn } from '../../src/labelling/claim-words.ts'
import { type GateInput, labelGates } from '../../src/labelling/label-gates.ts'

const nothing = { soldAs: 'soap', entered: {}, wording: [] } as const
const open = (input: GateInput) => labelGates(input).gates.flatMap((one) => (one.open ? [one.gate] : []))
const codes = (input: GateInput) => labelGates(input).findings.map(({ code }) => code)

describe('published: Regulation (EC) No 1223/2009, Articles 4, 10, 11 and 13, from memory', () => {
  test('assessment, file, notification and responsible person come before the sale, of soap too', () => {
    const found = labelGates({ ...nothing, region: 'EU' })
    const of = (gate: string) => found.gates.find((one) => one.gate === gate)
    expect(of('responsible-person')?.section).toContain('Art. 4')
    expect(of('safety-assessment')?.section).toContain('Art. 10')
    expect(of('product-information-file')?.section).toContain('Art. 11')
    expect(of('notification')?.section).toContain('Art. 13')
    expect(found).toMatchObject({ mayBeSold: false, status: 'cosmetic' })
  })
})

describe('published: 21 CFR 701.20 (read), what is soap', () => {
  test('alkali salts that clean, and sold as soap alone', () => {
    const read = labelGates({ ...nothing, region: 'US' }).gates.filter(({ evidence }) => evidence === 'read')
    expect(read.map(({ gate, section }) => [gate, section])).toEqual([
      ['soap-of-alkali-salts', '21 CFR 701.20(a)(1)'],
      ['sold-only-as-soap', '21 CFR 701.20(a)(2)'],
    ])
  })
})

describe('by hand: gates', () => {
  test('each closes by its own entry; blanks are none', () => {
    const some = {
      ...nothing,
      region: 'US',
      entered: { 'soap-of-alkali-salts': { text: 'recipe 4' }, 'sold-only-as-soap': { text: '  ' } },
    } as const
    expect(open(some)).toEqual(['sold-only-as-soap', 'maker-name-and-place'])
    expect(codes(some)).toEqual(['label-gate-open', 'label-gate-open'])
  })

  test('all entered: it may be sold, in every region', () => {
    for (const region of ['US', 'EU', 'UK', 'CA'] as const)
      for (const soldAs of ['soap', 'cosmetic'] as const) {
        const { gates } = labelGates({ ...nothing, region, soldAs })
        const entered = Object.fromEntries(gates.map(({ gate }) => [gate, { text: 'filed' }]))
        const found = labelGates({ region, soldAs, entered, wording: [] })
        expect([found.mayBeSold, found.findings]).toEqual([true, []])
        expect(new Set(gates.map(({ gate }) => gate)).size).toBe(gates.length)
        // and any one that is missing is named alone
        for (const { gate, due } of gates) {
          const { [gate]: _, ...rest } = entered
          const less = labelGates({ region, soldAs, entered: rest, wording: [] })
          expect(less.mayBeSold).toBe(due !== 'before-sale')
          expect(less.findings.map(({ values }) => values.gate)).toEqual([gate])
        }
      }
  })

  test('a cosmetic in the United States has other gates than soap; soap is a cosmetic elsewhere', () => {
    expect(open({ ...nothing, region: 'US', soldAs: 'cosmetic' })).toContain('domestic-contact')
    expect(open({ ...nothing, region: 'US' })).not.toContain('domestic-contact')
    expect(labelGates({ ...nothing, region: 'CA' }).status).toBe('cosmetic')
  })

  test('in Canada the notification may follow the first sale: a task, no gate', () => {
    const entered = { language: { text: 'both' }, precautions: { text: 'none' } }
    const found = labelGates({ ...nothing, region: 'CA', entered })
    expect([found.mayBeSold, found.findings.map(({ code }) => code)]).toEqual([true, ['label-task-open']])
  })
})

describe('by hand: claims', () => {
  const words = (text: string) => claimsIn(text).map(({ word, makes }) => [word, makes])

  test('moisturising, deodorising and care of acne', () => {
    expect(words('Moisturising, deodorizing; Acne-care bar')).toEqual([
      ['Moisturising', 'cosmetic'],
      ['deodorizing', 'cosmetic'],
      ['Acne-care', 'drug'],
    ])
    expect(claimsIn('A MOISTURIZER')[0]?.at).toBe(2)
  })

  test.each([
    'A bar of soap that cleans, scented with meadow flowers',
    'Cured for six weeks. Cure day 14 March. Wheat germ oil',
    'Conditions of sale; made in Germany; wholesome; theatre',
  ])('none in "%s" but what stands there', (text) => {
    expect(words(text).filter(([word]) => word !== 'Conditions')).toEqual([])
  })

  test('in Spanish, too', () => {
    expect(words('Hidratante y suavizante, alivia el acné; desinfecta')).toEqual([
      ['Hidratante', 'cosmetic'],
      ['suavizante', 'cosmetic'],
      ['alivia', 'drug'],
      ['acné', 'drug'],
      ['desinfecta', 'drug'],
    ])
    expect(words('Jabón curado seis semanas: la cura empieza el 14 de marzo')).toEqual([])
  })

  test('not within another word, and not twice', () => {
    expect(words('Lacnea, unhealed, healthy, skilled')).toEqual([])
    expect(words('anti-bacterial')).toEqual([['anti-bacterial', 'drug']])
  })

  test('a cosmetic claim matters to soap in the United States, a claim to heal everywhere', () => {
    const wording = ['Nourishing', 'Heals eczema']
    expect(codes({ ...nothing, region: 'US', wording }).filter((code) => code.startsWith('claim'))).toEqual([
      'claim-makes-cosmetic',
      'claim-makes-drug',
      'claim-makes-drug',
    ])
    expect(codes({ ...nothing, region: 'EU', wording }).filter((code) => code.startsWith('claim'))).toEqual([
      'claim-makes-drug',
      'claim-makes-drug',
    ])
  })
})
