/** Green or cured: which size the maker has in mind, and what block follows; and how the batter gets into it. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { contentOf, type Edit, editedFiles } from '../sites/small-binder.ts'

const bound = (...edits: readonly Edit[]) => {
  const { moulds, batches } = bind(contentOf(editedFiles(...edits))).binder
  const [mould] = moulds
  const [batch] = batches
  if (!mould || !batch) throw new Error('nothing bound')
  return { mould, batch }
}

const CURED = ['fixtures/small.yaml', 'thickness: 25 mm', 'thickness: 25 mm, size-is: cured'] as const
const LOSS = ['shop.yaml', 'room:', 'cure: { weight-loss: 15 % }\n\nroom:'] as const

describe('by hand: bars of 60 by 70 by 25 mm, three by two by six', () => {
  test('green: the block is made of them, and dried they are 3.6 % smaller', () => {
    const { mould } = bound()
    expect(mould.mould.block.length).toBeCloseTo(0.18, 12)
    // a tenth of the weight, ∛0.89579 = 0.96398
    expect(mould.bar.cured.alongLength).toBeCloseTo(0.06 * 0.96398, 6)
  })

  test('cured: 60 / 0.96398 = 62.242 mm are cut, and the block is 186.73 mm long', () => {
    const { mould, batch } = bound(CURED)
    expect(mould.bar.green.alongLength).toBeCloseTo(0.062242, 6)
    expect(mould.bar.cured.alongLength).toBeCloseTo(0.06, 12)
    expect(mould.mould.block.length).toBeCloseTo(0.186726, 5)
    // six slices of 25.934 mm and the trim of 15 mm
    expect(batch.fill.slicedHeight).toBeCloseTo(6 * 0.025934, 5)
    expect(batch.fill.setHeight.nominal).toBeCloseTo(6 * 0.025934 + 0.015, 5)
  })

  test('bars that lose 15 %: ∛(1 − 0.15 · 1.04 / 0.998) = 0.94499', () =>
    expect(bound(CURED, LOSS).mould.bar.green.alongLength).toBeCloseTo(0.06 / 0.94499, 5))
})

describe('by hand: a kettle with a valve', () => {
  const VALVE = (stands: string) =>
    [
      'shop.yaml',
      'volume: 12 l, empty-mass: 2 kg',
      `volume: 12 l, empty-mass: 2 kg, valve: yes, stands: ${stands}`,
    ] as const

  test('pours by itself where it stands above the rim, which is at most at the elbow, 1 m', () => {
    expect(bound(VALVE('105 cm')).batch.byValve).toBe(true)
    expect(bound(VALVE('60 cm')).batch.byValve).toBe(false)
    expect(bound().batch.byValve).toBe(false)
  })

  test('else the batter goes by a jug that is never filled past four fifths: 3 l of it are 2.4 l', () => {
    const { batch } = bound()
    expect(batch.pour.jug.volume).toBeLessThanOrEqual(0.0024 + 1e-12)
    expect(batch.pour.jug.mass).toBeCloseTo(batch.pour.jug.volume * batch.fill.batterDensity, 12)
  })
})

describe('by hand: minutes to spare', () => {
  const pace = (more: string) =>
    [
      'shop.yaml',
      'room:',
      `pace: { blend: 5 min, longest-run: 30 s, rest: 10 s, jug: 30 s${more} }\n\nroom:`,
    ] as const

  test('5 min of blender in ten runs with nine rests of 10 s, and jugs of half a minute', () => {
    const { batch } = bound(pace(''))
    // 300 + 90 + 30 for each jug
    expect(batch.time?.needed).toBeCloseTo(390 + 30 * batch.pour.jug.count, 9)
    expect(batch.time?.spare?.usual).toBeCloseTo(1200 - 390 - 30 * batch.pour.jug.count, 9)
    expect(batch.time?.spare?.least).toBeCloseTo(900 - 390 - 30 * batch.pour.jug.count, 9)
  })

  test('minutes to trace of the trial count in place of the blender’s', () => {
    const { batch } = bound(pace(''), [
      'recipes/plain.yaml',
      'minutes-to-thick: 20',
      'minutes-to-trace: 4, minutes-to-thick: 20',
    ])
    expect(batch.time?.needed).toBeCloseTo(240 + 30 * batch.pour.jug.count, 9)
  })

  test('too thick before it is poured stops a shop that knows its pace, and warns one that does not', () => {
    const fast = ['recipes/plain.yaml', 'minutes-to-thick: 20', 'minutes-to-thick: 4'] as const
    const codes = (...edits: readonly Edit[]) =>
      bound(...edits).batch.findings.map(({ code, severity }) => `${severity} ${code}`)
    expect(codes(fast, pace(''))).toContain('stop thick-before-poured')
    expect(codes(fast)).toContain('warn thick-before-poured')
  })
})
