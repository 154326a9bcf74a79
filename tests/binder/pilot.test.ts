/** A pilot loaf keeps the rules of a batch: small is not harmless. */
import { describe, expect, test } from 'vitest'
import { bindAndCompose, contentOf, type Edit, editedFiles, smallBinderFiles } from '../sites/small-binder.ts'

const TRIED = 'tried: { where: loaf 1, oils: 700 g, minutes-to-thick: 20, behaviour: calm }'

const pilot = (...edits: readonly Edit[]) => {
  const content = contentOf(editedFiles(['recipes/plain.yaml', TRIED, ''], ...edits))
  const sheet = bindAndCompose(content).sheets.find(({ id }) => id === 'pilot/plain')
  if (!sheet) throw new Error('no pilot')
  const weights = [...sheet.values.values()].filter(
    ({ unit, name }) => unit === 'kg' && !name.startsWith('finding.'),
  )
  return { sheet, weights, stops: (sheet.stopped ?? []).map(({ code }) => code) }
}

describe('by hand: a loaf of a recipe that nobody has tried', () => {
  test('has weights when nothing is wrong: 700 g of fats, 70 and 30 %', () => {
    const { sheet, stops } = pilot()
    expect(stops).toEqual([])
    expect(sheet.values.get('pilot.fat.olive.mass')?.value).toBeCloseTo(0.49, 9)
    expect(sheet.values.get('pilot.fat.coconut.mass')?.value).toBeCloseTo(0.21, 9)
  })

  test.each([
    ['superfat-under-floor', ['recipes/plain.yaml', 'superfat: 6 %', 'superfat: 0.5 %']],
    [
      'vessel-material-not-allowed',
      ['shop.yaml', 'use: lye, material: stainless-304', 'use: lye, material: aluminium'],
    ],
    ['vessel-too-full', ['shop.yaml', 'volume: 6 l, empty-mass: 1 kg', 'volume: 300 ml, empty-mass: 1 kg']],
    ['tray-missing', ['shop.yaml', ', tray: 12 l', '']],
    ['purity-too-low', ['materials/all.yaml', 'purity: 99 %', 'purity: 55 %']],
    // 97 g of alkali to 1 % is less than half of a step of 2 g, and rounding
    ['scale-too-coarse', ['shop.yaml', 'division: 1 g', 'division: 2 g']],
  ] as const)('has none with %s', (code, edit) => {
    const { stops, weights } = pilot(edit)
    expect(stops).toContain(code)
    expect(weights).toEqual([])
  })
})

describe('by hand: a certificate that cannot be of its fat', () => {
  const states = (value: number) => {
    const files = smallBinderFiles()
    files.set('materials/papers.yaml', `certificates:\n  olive: { saponification-value: ${value}, lot: A }\n`)
    return bindAndCompose(contentOf(files)).binder.batches[0]?.state
  }

  test('olive oil is 184 to 196: 380, 257 and 170 are other things, 198 is held, 192 goes', () => {
    expect([380, 257, 170].map(states)).toEqual(['stop', 'stop', 'stop'])
    // 196 · 1.03 = 201.9
    expect(states(198)).toBe('hold')
    expect(states(192)).toBe('go')
  })
})
