/** That the mutators make the faults that they say, and that a text with all of them in it is the text when none is chosen. */
import { transformSync } from 'esbuild'
import { describe, expect, test } from 'vitest'
import { MUTATOR_NAMES, mutantsOf } from './mutators.ts'
import { CHOSEN, switchable } from './switchable.ts'

const of = (text: string): string[] =>
  mutantsOf(text).map(({ mutator, start, end, put }) => `${mutator}: ${text.slice(start, end)} → ${put}`)

/** What the text exports as `result` with one mutant of it, or none. */
const run = (text: string, chosen: number): unknown => {
  const { code } = transformSync(switchable(text, mutantsOf(text), 1), { loader: 'ts', format: 'cjs' })
  const module = { exports: {} as { result?: unknown } }
  new Function('module', CHOSEN, code)(module, (number: number) => number === chosen)
  return module.exports.result
}

const each = (text: string): unknown[] => mutantsOf(text).map((_, index) => run(text, index + 1))

describe('by hand: places of faults', () => {
  test('a literal, a hundredth larger; nought stays nought, names and types are none', () => {
    expect(of('const x = 200')).toEqual(['literal: 200 → 202'])
    expect(of('const x = -0.35')).toEqual(['literal: 0.35 → 0.3535'])
    expect(of('const x: 3 | 4 = y as 3; const z = { 5: 0, a: 10n }')).toEqual([])
  })

  test('a sum: minus for plus, and each term dropped', () => {
    expect(of('const x = a + b').sort()).toEqual([
      'plus: a + b → (a) - (b)',
      'term: a + b → a',
      'term: a + b → b',
    ])
    expect(of('const x = a - b')).toEqual(['term: a - b → a', 'term: a - b → -(b)'])
  })

  test('a product: divided by, and each factor dropped', () => {
    expect(of('const x = a * b').sort()).toEqual([
      'term: a * b → a',
      'term: a * b → b',
      'times: a * b → (a) / (b)',
    ])
    expect(of('const x = 1 / b').sort()).toEqual(['literal: 1 → 1.01', 'term: 1 / b → 1'])
    expect(of('const x = a / b')).toEqual(['term: a / b → a', 'term: a / b → 1 / (b)'])
  })

  test('of three terms each is dropped once', () => {
    const terms = of('const x = a - b - c').filter((line) => line.startsWith('term'))
    expect(terms.sort()).toEqual(['term: a - b - c → a - b', 'term: a - b → -(b)', 'term: a - b → a'])
  })

  test('what is added to a variable', () => {
    expect(of('x += a').sort()).toEqual(['plus: x += a → x -= a', 'term: x += a → x'])
    expect(of('x *= a').sort()).toEqual(['term: x *= a → x', 'times: x *= a → x /= a'])
  })

  test('text that is joined is no sum', () => expect(of("const x = 'a' + b + `c`")).toEqual([]))

  test('comparisons with their edge, and without', () =>
    expect(of('const x = [a < b, a <= b, a > b, a >= b, a === b]')).toEqual([
      'comparison: a < b → (a) <= (b)',
      'comparison: a <= b → (a) < (b)',
      'comparison: a > b → (a) >= (b)',
      'comparison: a >= b → (a) > (b)',
    ]))

  test('two arguments beside each other, unless no order matters or the types would tell', () => {
    expect(of('f(a, b, c)').sort()).toEqual(['arguments: a, b, c → a, c, b', 'arguments: a, b, c → b, a, c'])
    expect(of("Math.max(a, b); f(a, a); f(a, ...b); f(a, () => b); f(list, [a], { b }, 'c')")).toEqual([
      "arguments: list, [a], { b }, 'c' → [a], list, { b }, 'c'",
    ])
  })

  test('known by function and text, not by line', () => {
    const text = 'const area = (w: number, h: number) => {\n  const half = w / 2\n  return half * h\n}'
    const moved = `// a remark\n\n${text}`
    const known = (from: string) => mutantsOf(from).map(({ place, before, after }) => [place, before, after])
    expect(known(moved)).toEqual(known(text))
    expect(known(text)).toContainEqual(['area.half', 'half = w / 2', 'half = w / 2.02'])
  })

  test('every mutator has a name', () =>
    expect(Object.values(MUTATOR_NAMES).every((name) => name.length > 0)).toBe(true))
})

describe('by hand: a text with all of its mutants', () => {
  test('3 + 4 · 5 is 23; and each fault of it', () => {
    const text = 'const [a, b, c] = list\nexport const result = a + b * c\n'.replace('list', "'345'")
    // minus: 3 − 20; terms: '3', 20; over: 3 + 4/5; factors: 3 + 4, 3 + 5 (as text joins: digits side by side)
    const numbers = text.replace("'345'", '[three(), four(), five()]')
    const whole = `function three() { return 3 }\nfunction four() { return 4 }\nfunction five() { return 5 }\n${numbers}`
    expect(run(whole, 0)).toBe(23)
    expect(each(whole)).toEqual(
      expect.arrayContaining([-17, 3, 20, 3.8, 7, 8, 3 + 4.04 * 5, 3.03 + 20, 3 + 4 * 5.05]),
    )
  })

  test('lines without semicolons, lists of arguments, calls of what may not be there', () => {
    const text = [
      'let sum = 10',
      'const maker = { take: (one: number, other: number) => one - other }',
      'const nobody = undefined as typeof maker | undefined',
      'for (const each of [7])',
      '  sum += maker.take(each, sum)',
      'sum -= 1',
      'export const result = [sum, nobody?.take(sum, 1)]',
    ].join('\n')
    // 10 + (7 − 10) − 1
    expect(run(text, 0)).toEqual([6, undefined])
    // 10 − (7 − 10) − 1; 10 − 1; 10 + (10 − 7) − 1; 7 alone
    for (const sum of [12, 9, 12, 7]) expect(each(text)).toContainEqual([sum, undefined])
  })
})
