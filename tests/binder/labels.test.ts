/** Labels of whole binders: three recipes of the demo by hand, weights, scents, and what is in the way of a label. */
import { resolve } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import type { BoundLabel } from '../../src/binder/bind-labels.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { demo } from '../sites/edited-demo.ts'
import { labelOf, labelsOf, UNION, US_SOAP, wrapped } from '../sites/small-labels.ts'

let ofDemo: readonly BoundLabel[] = []
beforeAll(async () => {
  const { files } = await readFolder(resolve(demo), 'demo', FILE_KINDS)
  const { content } = loadContent(files, 'demo')
  ofDemo = bind(content!).binder.labels
}, 60_000)

const codes = ({ findings }: BoundLabel): string[] => findings.map(({ code }) => code)
const listed = (key: string, which: 'as-put-in' | 'as-finished') =>
  ofDemo
    .find(({ batch }) => batch.key === key)!
    .statements[which].lines.map(({ name, mass }) => [name, mass * 1000] as const)
const isList = (
  is: readonly (readonly [string, number])[],
  wanted: readonly (readonly [string, number])[],
): void => {
  expect(is.map(([name]) => name)).toEqual(wanted.map(([name]) => name))
  // what was weighed to the gram is reckoned with to half a gram
  for (const [index, [name, grams]] of wanted.entries())
    expect(Math.abs((is[index]?.[1] ?? 0) - grams), name).toBeLessThan(0.6)
}

/*
 * Of each fat: alkali demand d = m · SV / 56.106; by the alkali that was weighed a share s of all demand is met; molar
 * mass of its acids M = (m (1 − u) − d (92.094 / 3 − 18.015)) / d; soap = s d (M + 22.990 − 1.008);
 * free fat = (1 − s) d (M + 92.094 / 3 − 18.015) + u m; glycerol = Σ s d · 92.094 / 3; water = bars − all of these.
 * Saponification values, mg/g: olive 191.62, coconut 256.8, palm 197.48, shea 171.95, castor 181.26, lard 195.10;
 * unsaponifiable, g/kg: 7.5, 7.5, 6, 100, 4, 5. Worked by these formulas apart from the program, from the grams of the batch sheets.
 */
describe('by hand: ingredients of three recipes of the demo', () => {
  test('five fats and lye, as put in: the grams of its batch sheet', () =>
    isList(listed('2027-03-14-hearth', 'as-put-in'), [
      ['Olea Europaea Fruit Oil', 3603],
      ['Water', 2697],
      ['Cocos Nucifera Oil', 2276],
      ['Elaeis Guineensis Oil', 2086],
      // 1329 g of 98.5 %
      ['Sodium Hydroxide', 1309.1],
      ['Butyrospermum Parkii Butter', 948],
      ['Ricinus Communis Seed Oil', 569],
    ]))

  test('five fats and lye, as finished bars of 12 501 g', () =>
    // s = 0.9403
    isList(listed('2027-03-14-hearth', 'as-finished'), [
      ['Sodium Olivate', 3470],
      ['Sodium Cocoate', 2215.1],
      ['Sodium Palmate', 2013.9],
      ['Water', 1709.9],
      ['Glycerin', 1004.7],
      ['Sodium Shea Butterate', 827.7],
      ['Sodium Castorate', 549],
      ['Olea Europaea Fruit Oil', 240.6],
      ['Cocos Nucifera Oil', 152],
      ['Butyrospermum Parkii Butter', 145.8],
      ['Elaeis Guineensis Oil', 136.3],
      ['Ricinus Communis Seed Oil', 36.1],
    ]))

  test('two alkalis, citric acid and scent, as put in', () =>
    isList(listed('2027-03-21-lather', 'as-put-in'), [
      ['Elaeis Guineensis Oil', 2088],
      // 1964 g, and half a per cent of 52 g of acid
      ['Water', 1964.3],
      ['Cocos Nucifera Oil', 1305],
      ['Butyrospermum Parkii Butter', 783],
      ['Ricinus Communis Seed Oil', 626],
      ['Sodium Hydroxide', 582.1],
      ['Stearic Acid', 418],
      ['Potassium Hydroxide', 271.8],
      ['Fragrance', 78],
      ['Citric Acid', 51.7],
    ]))

  test('two alkalis, citric acid and scent, as finished bars of 7291 g', () =>
    // 14.553 + 4.844 mol of hydroxide, 0.8079 mol of it for the acid; 75.03 % of all salts are of sodium
    isList(listed('2027-03-21-lather', 'as-finished'), [
      ['Sodium Palmate', 1547.5],
      ['Water', 1129.3],
      ['Sodium Cocoate', 975.1],
      ['Potassium Palmate', 543.6],
      ['Sodium Shea Butterate', 524.8],
      ['Glycerin', 524.1],
      ['Sodium Castorate', 463.6],
      ['Potassium Cocoate', 347.7],
      ['Sodium Stearate', 338.6],
      ['Potassium Shea Butterate', 184],
      ['Potassium Castorate', 162.2],
      ['Potassium Stearate', 118.8],
      ['Butyrospermum Parkii Butter', 105],
      ['Elaeis Guineensis Oil', 91.1],
      ['Fragrance', 78],
      ['Cocos Nucifera Oil', 58.8],
      ['Sodium Citrate', 52.1],
      ['Ricinus Communis Seed Oil', 26.1],
      ['Potassium Citrate', 20.6],
    ]))

  test('stock lye and two colours, as put in: water of the stock counts, colours stand last', () =>
    isList(listed('2027-04-04-pied', 'as-put-in'), [
      ['Olea Europaea Fruit Oil', 3100],
      // 1744 g of stock at 49.3 % bring 884.2 g, and 971 g are added
      ['Water', 1855.2],
      ['Adeps Suillus', 1736],
      ['Cocos Nucifera Oil', 1364],
      ['Sodium Hydroxide', 859.8],
      ['Titanium Dioxide', 40],
      ['Iron Oxides', 13],
    ]))

  test('stock lye and two colours, as finished bars of 8239 g', () =>
    isList(listed('2027-04-04-pied', 'as-finished'), [
      ['Sodium Olivate', 2984.9],
      ['Sodium Lardate', 1676.6],
      ['Sodium Cocoate', 1327.2],
      ['Water', 1126.2],
      ['Glycerin', 659.9],
      ['Olea Europaea Fruit Oil', 207.7],
      ['Adeps Suillus', 112.2],
      ['Cocos Nucifera Oil', 91.4],
      ['Titanium Dioxide', 40],
      ['Iron Oxides', 13],
    ]))
})

describe('by hand: what the demo may label', () => {
  const stateOf = (key: string) => ofDemo.find(({ batch }) => batch.key === key)?.state

  test('what is not weighed is not for sale, what is held has no label, what is stopped is not there', () => {
    expect(stateOf('2027-03-14-hearth')).toBe('not-for-sale')
    expect(stateOf('2027-03-21-lather')).toBe('none')
    expect(stateOf('2027-04-04-pied')).toBe('none')
    expect(stateOf('2027-03-28-market')).toBeUndefined()
  })

  test('what is entered for one recipe counts for no other', () => {
    const open = (key: string) =>
      ofDemo.find(({ batch }) => batch.key === key)!.gates.gates.filter((one) => one.open)
    expect(open('2027-03-14-hearth')).toEqual([])
    expect(open('2027-03-21-lather').map(({ gate }) => gate)).toEqual(['soap-of-alkali-salts'])
  })

  test('codes have day and key, and differ', () => {
    const all = ofDemo.map(({ code }) => code)
    expect(all.map((one) => `${one?.date} ${one?.key}`)).toEqual([
      '2027-01-10 HE',
      '2027-03-14 HE',
      '2027-03-21 LA',
      '2027-04-04 PY',
    ])
  })
})

const BARS = [105, 106.2, 104.1, 107, 105.5, 106]

describe('by hand: net weight', () => {
  test('is the lightest bar less what it may lose and one division, in whole grams', () => {
    const label = labelOf({ batch: wrapped(BARS, '  bars: { cut: 8, tests: 2 }\n') })
    const { net } = label
    expect(net.from).toBe('weighed')
    // six of six that are left
    expect(net.ofBars).toBe(6)
    expect(net.scaleError).toBe(0.001)
    const declared = Math.floor(104.1 - 1 - net.stillToLose * 1000)
    expect(net.declared).toBeCloseTo(declared / 1000, 9)
    expect(codes(label)).not.toContain('lightest-not-known')
    expect(label.state).toBe('for-sale')
    // hundredths of an ounce of 28.349523125 g, rounded down
    expect(net.statement?.avoirdupois?.ounces).toBe(Math.floor((declared / 28.349523125) * 100) / 100)
  })

  test('what a bar may lose is what it loses between wrapping and its last day of sale', () => {
    const early = labelOf({ batch: wrapped(BARS) })
    const late = labelOf({ batch: wrapped(BARS).replace('2027-03-20', '2027-06-20') })
    expect(early.net.stillToLose).toBeGreaterThan(late.net.stillToLose)
    expect(late.net.stillToLose).toBeGreaterThan(0)
    expect(late.net.declared!).toBeGreaterThan(early.net.declared!)
  })

  test('some of the bars do not know the lightest', () =>
    expect(codes(labelOf({ batch: wrapped(BARS, '  bars: { cut: 30 }\n') }))).toContain('lightest-not-known'))

  test('a weight that was typed stands, unless bars do not keep it', () => {
    const typed = (grams: number) => labelOf({ batch: `label-weight: ${grams} g\n${wrapped(BARS)}` })
    expect(typed(90).net.declared).toBe(0.09)
    expect(typed(90).state).toBe('for-sale')
    const heavy = typed(104)
    expect(codes(heavy)).toContain('label-above-bars')
    expect(heavy.state).toBe('none')
  })

  test('before bars are weighed it is planned, and nothing is sold', () => {
    expect(labelOf({}).net.from).toBe('reckoned')
    expect(labelOf({ batch: 'label-weight: 90 g\n' }).net).toMatchObject({ from: 'typed', declared: 0.09 })
    expect(labelOf({ batch: 'label-weight: 90 g\n' }).state).toBe('not-for-sale')
  })

  test('by the average a light bar counts with the others', () => {
    const by = (rule: string) =>
      labelOf({
        selling: US_SOAP.replace('US\n', `US\n  weight: ${rule}\n`),
        batch: wrapped(BARS, '  bars: { cut: 6 }\n'),
      })
    expect(by('average').net.declared!).toBeGreaterThan(by('least').net.declared!)
  })
})

const SCENT = (declares: string) =>
  `fragrances:\n  meadow: { name: Meadow, limit: 3 %, tried: once${declares} }\n`
const scented = (declares: string, selling: string) =>
  labelOf({
    selling,
    recipe: 'code: PL\nadditions: { meadow: 2 % }\n',
    materials: SCENT(declares),
    batch: wrapped(BARS),
  })

describe('by hand: scent', () => {
  test('substances above 0.01 % of the finished bar are named, at the place of their mass', () => {
    const label = scented(
      ', declares: [{ substance: Linalool, share: 10 % }, { substance: Citral, share: 0.2 % }]',
      UNION,
    )
    const scent = label.masses.fragrances[0]!.mass
    const [linalool, citral] = label.allergens.lines
    expect(linalool?.share).toBeCloseTo((0.1 * scent) / label.finished.middle, 12)
    expect(linalool?.verdict).toBe('named')
    // two per cent of the fats are about 1.6 % of the bar, of which 0.2 % are 0.003 %
    expect(citral?.verdict).toBe('below-limit')
    const names = label.statements['as-put-in'].lines.map(({ name }) => name)
    expect(names.at(-1)).toBe('Linalool')
    expect(names).toContain('Parfum')
    expect(names).not.toContain('Citral')
  })

  test('that nobody has declared makes no label in Europe, and its place is told; an empty list is a declaration', () => {
    const label = scented('', UNION)
    expect(label.state).toBe('none')
    const finding = label.findings.find(({ code }) => code === 'fragrance-undeclared')!
    expect(finding.severity).toBe('stop')
    expect(label.placesOf(finding)).toEqual([
      { file: 'materials/more.yaml', line: 2, key: 'fragrances: meadow' },
    ])
    expect(scented(', declares: []', UNION).state).toBe('for-sale')
    expect(codes(scented('', US_SOAP))).toContain('fragrance-undeclared')
    expect(scented('', US_SOAP).state).toBe('for-sale')
  })
})

describe('by hand: what is in the way of a label', () => {
  const UNTRIED = {
    'recipes/plain.yaml':
      'title: Plain bar\ncode: PL\nfats: { olive: 70 %, coconut: 30 % }\nsuperfat: 6 %\nalkali: beads\nlye-concentration: 30 %\npour-temperature: 40 C\n',
  }

  test('a batch that is held waits for its test; one that failed is never labelled', () => {
    const held = labelOf({ more: UNTRIED, batch: wrapped(BARS) })
    expect(held.batch.state).toBe('hold')
    expect(codes(held)).toContain('label-batch-held')
    expect(held.state).toBe('none')
    const passed = labelOf({
      more: UNTRIED,
      batch: `${wrapped(BARS)}release-test: { date: 2027-03-01, result: passed }\n`,
    })
    expect(passed.state).toBe('for-sale')
    const failed = labelOf({ batch: `${wrapped(BARS)}release-test: { date: 2027-03-01, result: failed }\n` })
    expect(failed.state).toBe('none')
    expect(codes(failed)).toContain('label-test-failed')
    const [finding] = failed.findings.filter(({ code }) => code === 'label-test-failed')
    expect(failed.placesOf(finding!)).toMatchObject([{ key: 'release-test' }])
  })

  test.each([
    ['released', 'for-sale'],
    ['held', 'none'],
    ['rejected', 'none'],
  ])('a batch of which it was decided that it is %s is %s', (decision, state) => {
    const label = labelOf({
      batch: `${wrapped(BARS)}  release: { decision: ${decision}, date: 2027-03-08, by: M. Oakes }\n`,
    })
    expect(label.state).toBe(state)
    expect(codes(label).includes('label-not-released')).toBe(state === 'none')
    expect(label.released?.by).toBe(state === 'none' ? undefined : 'M. Oakes')
  })

  test('an open gate leaves labels that say so', () => {
    const label = labelOf({ selling: US_SOAP.replace(/ {4}sold-only.*\n/, ''), batch: wrapped(BARS) })
    expect(label.state).toBe('not-for-sale')
    expect(codes(label)).toEqual(expect.arrayContaining(['label-gate-open']))
  })

  test('an additive without a name for labels stops, with its place', () => {
    const label = labelOf({
      recipe: 'code: PL\nadditions: { clay: 2 % }\n',
      materials: 'additives:\n  clay: { name: White clay }\n',
      batch: wrapped(BARS),
    })
    const finding = label.findings.find(({ code }) => code === 'ingredient-name-missing')!
    expect(label.placesOf(finding)).toEqual([
      { file: 'materials/more.yaml', line: 2, key: 'additives: clay' },
    ])
    expect(label.state).toBe('none')
  })

  test('a name may differ by region, and its water dries', () => {
    const named = (selling: string) =>
      labelOf({
        selling,
        recipe: 'code: PL\nadditions: { honey: 3 % }\n',
        materials: 'additives:\n  honey: { name: Honey, inci: { US: Honey, EU: Mel }, water: 18 % }\n',
      }).statements
    expect(named(US_SOAP)['as-put-in'].lines.map(({ name }) => name)).toContain('Honey')
    const eu = named(UNION)
    const mass = (which: 'as-put-in' | 'as-finished') =>
      eu[which].lines.find(({ name }) => name === 'Mel')!.mass
    expect(mass('as-finished')).toBeCloseTo(0.82 * mass('as-put-in'), 9)
  })

  test('milk in place of water is an ingredient of its own, and what of it is water dries', () => {
    const milk = (water: string) =>
      labelOf({
        more: { ...UNTRIED, 'recipes/plain.yaml': `${UNTRIED['recipes/plain.yaml']}lye-liquid: milk\n` },
        materials: `liquids:\n  milk: { name: Goat milk, inci: Caprae Lac${water} }\n`,
      })
    const { statements } = milk(', water: 87 %')
    const put = statements['as-put-in'].lines
    // ice is of water: 40 % of the liquid
    const lac = put.find(({ name }) => name === 'Caprae Lac')!.mass
    const water = put.find(({ name }) => name === 'Water')!.mass
    expect(water / (lac + water)).toBeCloseTo(0.4, 2)
    expect(statements['as-finished'].lines.find(({ name }) => name === 'Caprae Lac')!.mass).toBeCloseTo(
      0.13 * lac,
      9,
    )
    expect(codes(milk(''))).toContain('liquid-water-unknown')
  })

  test('in Europe a label has a batch number; in the United States it may lack one', () => {
    expect(labelOf({ selling: UNION, recipe: '', batch: wrapped(BARS) }).state).toBe('none')
    const us = labelOf({ recipe: '', batch: wrapped(BARS) })
    expect(us.state).toBe('for-sale')
    expect(codes(us)).toContain('label-code-missing')
  })

  test('two batches with one code have no labels; a code of its own tells the second from the first', () => {
    const second =
      'recipe: plain\nmould: small\ndate: 2027-02-01\npour-at: 16:00\nfill: to the line\nlye: { water-temperature: 8 C, ice: 40 % }\n'
    const { labels } = labelsOf({ more: { 'batches/2027-02-01-second.yaml': second } })
    const apart = labelsOf({ more: { 'batches/2027-02-01-second.yaml': `${second}code: P2\n` } }).labels
    expect(apart.map(({ code }) => code?.key)).toEqual(['PL', 'P2'])
    expect(apart.flatMap(codes)).not.toContain('label-code-twice')
    expect(labels.map(codes).every((all) => all.includes('label-code-twice'))).toBe(true)
    expect(labels.map(({ state }) => state)).toEqual(['none', 'none'])
  })

  test('Canada has gates here and no rules: no label', () => {
    const label = labelOf({ selling: US_SOAP.replace('US\n', 'CA\n'), batch: wrapped(BARS) })
    expect(label.letterHeight).toBeUndefined()
    expect(label.state).toBe('none')
  })

  test('a claim is told, and where most is not soap there is none', () => {
    const label = labelOf({ recipe: 'code: PL\nlabel-words: [Deeply moisturising]\n', batch: wrapped(BARS) })
    expect(label.findings).toContainEqual({
      code: 'claim-makes-cosmetic',
      severity: 'warn',
      values: { word: 'moisturising', region: 'US' },
    })
    expect(label.soapShare).toBeGreaterThan(0.8)
    const salty = labelOf({
      recipe: 'code: PL\nadditions: { brick-dust: 50 %, chalk: 50 %, sand: 50 % }\n',
      materials:
        'additives:\n  brick-dust: { name: Dust, inci: Dust }\n  chalk: { name: Chalk, inci: Chalk }\n  sand: { name: Sand, inci: Sand }\n',
      batch: wrapped(BARS),
    })
    // as much again, and a half: soap is two fifths
    expect(salty.soapShare).toBeLessThan(0.5)
    expect(codes(salty)).toContain('soap-below-half')
  })
})

describe('by hand: how long it keeps', () => {
  test('the last whole month before the day', () => {
    const until = (weeks: number) =>
      labelOf({ selling: UNION.replace('52 weeks', `${weeks} weeks`) }).bestBefore
    // 1 February 2027 and 52 weeks is 31 January 2028: all of January
    expect(until(52)).toBe('2028-01-31')
    // a week less is 24 January: only December is whole
    expect(until(51)).toBe('2027-12-31')
  })
})
