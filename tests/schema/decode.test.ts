import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { decode } from '../../src/schema/decode.ts'
import { count, name, oneOf, quantity, report, share, words } from '../../src/schema/fields.ts'
import { readYaml } from '../../src/schema/yaml.ts'

const SCHEMA = z
  .strictObject({
    title: words(),
    fats: z
      .array(z.strictObject({ fat: name(), mass: quantity('mass', { max: '50 kg' }) }))
      .min(1)
      .max(3),
    superfat: share().optional(),
    alkali: oneOf(['sodium-hydroxide', 'potassium-hydroxide']).optional(),
    tools: z.record(name(), quantity('length')).optional(),
    water: z.union([quantity('mass'), z.strictObject({ measured: quantity('mass') })]).optional(),
    cut: z
      .discriminatedUnion('by', [
        z.strictObject({ by: z.literal('wire'), gauge: count() }),
        z.strictObject({ by: z.literal('knife'), edge: quantity('length') }),
      ])
      .optional(),
  })
  .superRefine(({ fats }, context) => {
    const again = fats.findIndex(({ fat }, index) => fats.findIndex((each) => each.fat === fat) < index)
    if (again >= 0)
      report(context, {
        code: 'fat-twice',
        message: 'twice',
        advice: 'Add them up.',
        path: ['fats', again, 'fat'],
        at: 'value',
      })
  })

const GOOD = 'title: Plain\nfats:\n  - fat: lard\n    mass: 450 g\n'
const run = (text: string) => {
  const { document, diagnostics } = readYaml('a.yaml', new TextEncoder().encode(text))
  if (document === undefined) throw new Error(diagnostics[0]?.message)
  return { document, ...decode(document, SCHEMA) }
}
const found = (text: string): string[] =>
  run(text).diagnostics.map(({ code, path, at }) => `${code} ${path} ${at}`)
const adviceOn = (text: string): string | undefined => run(text).diagnostics[0]?.advice

describe('by hand', () => {
  test('a good file gives values in SI units and nothing to say', () => {
    expect(
      run(`${GOOD}superfat: 5 %\nwater:\n  measured: 1 kg\ncut: {by: knife, edge: 3 mm}\n`),
    ).toMatchObject({
      value: {
        title: 'Plain',
        fats: [{ fat: 'lard', mass: 0.45 }],
        superfat: 0.05,
        water: { measured: 1 },
        cut: { by: 'knife', edge: 0.003 },
      },
      diagnostics: [],
    })
  })
  test.each([
    // added to a good file, what is found
    [
      'titel: x\n', // the near one is there already
      'name-unknown /titel key',
      'Names known here: title, fats, superfat, alkali, tools, water, cut.',
    ],
    ['superfatt: 5 %\n', 'name-unknown /superfatt key', 'Did you mean "superfat"?'],
    [
      'colour: red\n',
      'name-unknown /colour key',
      'Names known here: title, fats, superfat, alkali, tools, water, cut.',
    ],
    [
      'superfat: [5 %]\n',
      'text-expected /superfat value',
      'Write one value after the colon, for example "5 %".',
    ],
    ['superfat:\n', 'value-missing /superfat key', undefined],
    ['superfat: ~\n', 'value-missing /superfat key', undefined],
    ['superfat: 5\n', 'unit-missing /superfat value', undefined],
    [
      'alkali: sodium-hydroxid\n',
      'word-not-allowed /alkali value',
      'Did you mean "sodium-hydroxide"? Allowed: sodium-hydroxide, potassium-hydroxide.',
    ],
    ['alkali: [a]\n', 'text-expected /alkali value', undefined],
    ['tools: 3 mm\n', 'names-expected /tools value', undefined],
    ['tools: {Saw Blade: 3 mm}\n', 'not-a-name /tools/Saw Blade key', undefined],
    ['tools: {saw: 3 g}\n', 'unit-wrong-kind /tools/saw value', undefined],
    ['water: 3 mm\n', 'unit-wrong-kind /water value', undefined],
    ['water:\n  measured: 3\n', 'unit-missing /water/measured value', undefined],
    ['water:\n  mesured: 3 g\n', 'name-unknown /water/mesured key', 'Did you mean "measured"?'],
    ['water:\n  measured:3 g\n', 'not-a-number /water value', undefined],
    ['cut: {by: laser}\n', 'word-not-allowed /cut/by value', 'Allowed: wire, knife.'],
    ['cut: {by: wire}\n', 'name-missing /cut key', 'Add a line such as "gauge: 1".'],
    [
      'cut: {by: knife, edge: 3 mm, gauge: 3}\n',
      'name-unknown /cut/gauge key',
      'Names known here: by, edge.',
    ],
    ['cut: knife\n', 'names-expected /cut value', undefined],
    ['cut: {by: }\n', 'value-missing /cut/by key', undefined],
    ['__extra: {a: {b: }}\n', 'name-unknown /__extra key', undefined],
  ])('%j', (text, expected, advice) => {
    expect(found(GOOD + text)).toEqual([expected])
    if (advice !== undefined) expect(adviceOn(GOOD + text)).toBe(advice)
    expect(run(GOOD + text).value).toBeUndefined()
  })
  test.each([
    ['hello\n', ['names-expected  value']],
    ['- a\n', ['names-expected  value']],
    ['title:Plain\n', ['space-after-colon  value']],
    ['fats: [{fat: lard, mass: 1 kg}]\n', ['name-missing  key']],
    ['title: x\nfats: lard\n', ['list-expected /fats value']],
    ['title: x\nfats:\n  -lard\n', ['list-expected /fats value']],
    ['title: x\nfats: {lard: 3 g}\n', ['list-expected /fats value']],
    ['title: x\nfats: []\n', ['too-few /fats value']],
    ['title: x\nfats:\n', ['value-missing /fats key']],
    ['title: x\nfats:\n  -\n', ['value-missing /fats/0 key']],
    ['title: x\nfats:\n  - lard\n', ['names-expected /fats/0 value']],
    ['title: x\nfats:\n  - fat: lard\n', ['name-missing /fats/0 key']],
    ['title: x\nfats:\n  - fat: lard\n    mas: 3 kg\n', ['name-unknown /fats/0/mas key']],
    ['title: x\nfats:\n  - fat: lard\n    mass: 51 kg\n', ['out-of-range /fats/0/mass value']],
    [
      `title: x\nfats:\n${'  - {fat: a, mass: 1 g}\n'.repeat(4)}`, // the check of the whole does not run then
      ['too-many /fats value'],
    ],
    [`title: x\nfats:\n${'  - {fat: a, mass: 1 g}\n'.repeat(2)}`, ['fat-twice /fats/1/fat value']],
  ])('%j', (text, expected) => {
    expect(found(text)).toEqual(expected)
  })
  test('all mistakes of a file in one run', () => {
    expect(found('fats:\n  - fat: Lard\n    mass: 3\nsuperfat: 5\nextra: 1\n')).toEqual([
      'name-missing  key',
      'not-a-name /fats/0/fat value',
      'unit-missing /fats/0/mass value',
      'unit-missing /superfat value',
      'name-unknown /extra key',
    ])
  })
  test('an example of a missing line is given', () => {
    expect(adviceOn('title: x\nfats:\n  - fat: lard\n')).toBe('Add a line such as "mass: 450 g".')
  })
  test('a text that swallowed its dashes or colons says how to mend it', () => {
    expect(adviceOn('title: x\nfats:\n  -lard\n')).toBe('Put a space after each dash.')
    expect(adviceOn('title:Plain\n')).toContain('space between the colon and the value')
  })
  test('what readYaml has refused is not reported again', () => {
    expect(found('title: x\nfats: &f\n  - fat: lard\n    mass: *f\n')).toEqual([])
    expect(run('title: x\nfats: &f\n  - fat: lard\n    mass: *f\n').value).toBeUndefined()
  })
})
