/** Heights of letters by panel and by content, and whether a text fits. */
import { describe, expect, test } from 'vitest'
import { breakLines, fitText, leastLetterHeight, panelArea } from '../../src/labelling/type-size.ts'

const SQUARE_INCH = 0.0254 ** 2
const soap = { region: 'US', declared: 0.12, kind: 'soap' } as const
const us = (squareInches: number, more = {}) =>
  (leastLetterHeight({ ...soap, area: squareInches * SQUARE_INCH, ...more }) ?? Number.NaN) * 1000

describe('published: 16 CFR 500.21(b) and 21 CFR 701.13(i), from memory but for the first step', () => {
  // in², mm
  test.each([
    [1, 1.6],
    [5, 1.6],
    [5.01, 3.2],
    [25, 3.2],
    [25.01, 4.8],
    [100, 4.8],
    [100.01, 6.4],
    [400, 6.4],
    [400.01, 12.7],
  ])('%d square inches: %d mm', (area, height) => expect(Math.abs(us(area) - height)).toBeLessThan(0.051))

  test('cosmetics keep a quarter of an inch; moulded letters are a sixteenth taller', () => {
    expect(us(500, { kind: 'cosmetic' })).toBeCloseTo(6.35, 9)
    expect(us(4, { moulded: true })).toBeCloseTo(3.175, 9)
  })
})

describe('published: Directive 76/211/EEC Annex I 3.1, from memory', () => {
  // g, mm
  test.each([
    [20, 2],
    [50, 2],
    [50.1, 3],
    [51, 3],
    [200, 3],
    [201, 4],
    [1000, 4],
    [1001, 6],
  ])('%d g: %d mm', (grams, height) => {
    const of = (region: 'EU' | 'UK') =>
      (leastLetterHeight({ region, area: 1, declared: grams / 1000, kind: 'cosmetic' }) ?? 0) * 1000
    expect(of('EU')).toBeCloseTo(height, 9)
    expect(of('UK')).toBeCloseTo(height, 9)
  })
})

describe('published: 16 CFR 500.21(a) (read), what counts as the panel', () => {
  test('a side, 40 % round a cylinder, 40 % of other shapes but for an obvious face', () => {
    expect(panelArea({ shape: 'rectangular', width: 0.06, height: 0.04 })).toBeCloseTo(0.0024, 12)
    // 0.4 · 0.1 · 0.2
    expect(panelArea({ shape: 'cylindrical', height: 0.1, circumference: 0.2 })).toBeCloseTo(0.008, 12)
    expect(panelArea({ shape: 'other', surface: 0.02 })).toBeCloseTo(0.008, 12)
    expect(panelArea({ shape: 'other', surface: 0.02, face: 0.005 })).toBe(0.005)
  })
})

describe('by hand: no size', () => {
  test('Canada, and what is no number', () => {
    expect(leastLetterHeight({ ...soap, region: 'CA', area: 0.01 })).toBeUndefined()
    expect(us(0)).toBeNaN()
    expect(us(Number.NaN)).toBeNaN()
    expect(leastLetterHeight({ ...soap, region: 'EU', area: 0.01, declared: 0 })).toBeUndefined()
  })
})

describe('by hand: a text on its panel', () => {
  const font = { advance: 0.5, measured: 0.7, capitalN: 0.7 } as const
  const text = { letterHeight: 1.5875e-3, font, lines: [20, 12], leading: 1.2 } as const
  const small = { width: 0.06, height: 0.04 } as const
  const codes = (of: Parameters<typeof fitText>[0]) => fitText(of).findings.map(({ code }) => code)

  test('two lines of a sixteenth on 60 mm by 40 mm, with clear space', () => {
    // type 1.5875 / 0.7 = 2.267857; letter 1.133929; 20 of them 22.67857; 2 N 3.175 at either side
    // height 1.5875 + 1.2 · 2.267857 = 4.308929, and 3.175; (60 − 6.35) / 1.133929 = 47.3
    const found = fitText({ ...text, panel: small, netWeightOf: 'US' })
    expect(found.typeSize * 1000).toBeCloseTo(2.267857, 6)
    expect(found.width * 1000).toBeCloseTo(22.67857, 5)
    expect(found.widthNeeded * 1000).toBeCloseTo(29.02857, 5)
    expect(found.height * 1000).toBeCloseTo(4.308929, 6)
    expect(found.heightNeeded * 1000).toBeCloseTo(7.483929, 6)
    expect(found.lettersALine).toBe(47)
    expect([found.fits, found.zone]).toEqual([true, undefined])
  })

  test('letters more than three times as tall as the capital N is wide are told with both widths', () => {
    // 21 CFR 101.7(h)(1) asks for no more than 3:1 (from memory): 1.5875 mm tall wants 0.529167 mm; 0.2 of a type of 2.267857 is 0.453571
    const found = fitText({ ...text, font: { ...font, capitalN: 0.2 }, panel: small, netWeightOf: 'US' })
    const [told] = found.findings
    expect(told?.code).toBe('label-letters-too-narrow')
    expect(Number(told?.values.needed) * 1000).toBeCloseTo(0.529167, 6)
    expect(Number(told?.values.is) * 1000).toBeCloseTo(0.453571, 6)
  })

  test('elsewhere no space is asked for', () => {
    const found = fitText({ ...text, panel: small })
    expect(found.widthNeeded).toBe(found.width)
    expect(found.heightNeeded).toBe(found.height)
    // 60 / 1.133929 = 52.9
    expect(found.lettersALine).toBe(52)
  })

  test('above 5 square inches it stands in the lowest 30 %', () => {
    // 80 mm · 50 mm = 6.2 in²: 15 mm; 14 lines: 1.5875 + 13 · 2.721429 = 36.97 mm
    const panel = { width: 0.08, height: 0.05 }
    const found = fitText({ ...text, panel, lines: Array(14).fill(5), netWeightOf: 'US' })
    expect(found.zone).toBeCloseTo(0.015, 12)
    expect(found.findings.map(({ code }) => code)).toEqual(['label-text-above-zone'])
    expect(codes({ ...text, panel, lines: Array(14).fill(5), netWeightOf: 'EU' })).toEqual([])
  })

  test('too wide, too tall, too narrow', () => {
    expect(codes({ ...text, panel: { width: 0.029, height: 0.04 }, netWeightOf: 'US' })).toEqual([
      'label-text-too-wide',
    ])
    expect(codes({ ...text, panel: { width: 0.06, height: 0.0074 }, netWeightOf: 'US' })).toEqual([
      'label-text-too-tall',
    ])
    expect(codes({ ...text, panel: { width: 0.02903, height: 0.0075 }, netWeightOf: 'US' })).toEqual([])
    // 0.7 / 3 = 0.2333
    const narrow = { ...font, capitalN: 0.23 }
    expect(codes({ ...text, font: narrow, panel: small, netWeightOf: 'US' })).toEqual([
      'label-letters-too-narrow',
    ])
    expect(codes({ ...text, font: { ...font, capitalN: 0.24 }, panel: small, netWeightOf: 'US' })).toEqual([])
  })

  test('lines are broken between words', () => {
    expect(breakLines('Sodium Olivate, Aqua,  Glycerin', 15)).toEqual(['Sodium Olivate,', 'Aqua, Glycerin'])
    expect(breakLines('Sodium Olivate, Aqua,  Glycerin', 14)).toEqual([
      'Sodium',
      'Olivate, Aqua,',
      'Glycerin',
    ])
    expect(breakLines('', 10)).toEqual([])
  })
})
