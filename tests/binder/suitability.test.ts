/** Recipes that do not suit a tall block. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { contentOf, type Edit, editedFiles } from '../sites/small-binder.ts'

/** Codes of the small binder's batch, its recipe and materials edited. */
const codes = (edits: Readonly<Record<string, readonly (readonly [string, string])[]>>): string[] => {
  // a block of twice the length, so that it keeps its heat
  const all = Object.entries({ ...LARGE, ...edits }).flatMap(([file, pairs]) =>
    pairs.map(([before, after]): Edit => [file, before, after]),
  )
  return (bind(contentOf(editedFiles(...all))).binder.batches[0]?.findings ?? []).map(
    ({ code, severity }) => `${severity} ${code}`,
  )
}

const LARGE = { 'fixtures/small.yaml': [['columns: 3', 'columns: 6']] } as const

const ADDITIVES = [
  'alkalis:',
  'additives:\n  sea-salt: { name: Sea salt, behaves: hardens }\n  honey: { name: Honey, behaves: heats }\nliquids:\n  milk: { name: Milk, behaves: heats }\n\nalkalis:',
] as const
const ACIDS = [
  '    density: { from: 0.91, to: 0.916, at: 20 C, source: ledger, evidence: read }',
  "    density: { from: 0.91, to: 0.916, at: 20 C, source: ledger, evidence: read }\n    fatty-acids: { percent: { 'C16:0': [10, 14], 'C18:0': [2, 4], 'C18:1': [70, 80], 'C18:2': [5, 10] }, source: ledger, evidence: read }",
] as const
const all = 'materials/all.yaml'
const plain = 'recipes/plain.yaml'

describe('by hand: what a loaf forgives and a block does not', () => {
  test('nothing to say of a plain recipe', () =>
    // how far it gels is the heat's own matter
    expect(
      codes({}).filter((code) => code.includes('block-') && !code.endsWith('block-gels-in-part')),
    ).toEqual([]))

  test('all olive: 12 + 3 of 93 are saturated, 16 %', () => {
    const found = codes({ [all]: [ACIDS], [plain]: [['olive: 70 %\n  coconut: 30 %', 'olive: 100 %']] })
    expect(found).toContain('warn block-soft-for-days')
  })

  test('a fifth of salt is held; a twentieth is nothing', () => {
    const with_ = (share: string) =>
      codes({ [all]: [ADDITIVES], [plain]: [['superfat:', `additions: { sea-salt: ${share} }\nsuperfat:`]] })
    expect(with_('20 %')).toContain('hold block-hard-in-hours')
    expect(with_('5 %')).not.toContain('hold block-hard-in-hours')
  })

  test('honey, or a lye of milk, heats a block', () => {
    expect(
      codes({ [all]: [ADDITIVES], [plain]: [['superfat:', 'additions: { honey: 2 % }\nsuperfat:']] }),
    ).toContain('warn block-heats-itself')
    expect(codes({ [all]: [ADDITIVES], [plain]: [['superfat:', 'lye-liquid: milk\nsuperfat:']] })).toEqual(
      expect.arrayContaining(['warn block-heats-itself', 'hold lye-liquid-not-water']),
    )
  })

  test('a small pot of the same keeps no heat: nothing is said', () =>
    expect(
      codes({
        [all]: [ADDITIVES],
        [plain]: [['superfat:', 'additions: { honey: 2 % }\nsuperfat:']],
        'batches/2027-02-01-plain.yaml': [['fill: to the line', 'oils: 1 kg']],
      }),
    ).not.toContain('warn block-heats-itself'))
})
