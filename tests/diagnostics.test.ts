import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Diagnostic, SourceDocument, Span } from '../src/diagnostics.ts'
import { hasErrors, pointer, renderDiagnostics } from '../src/diagnostics.ts'
import { leastProcessorTime } from './processor-time.ts'

const source = (file: string, text: string, places: Readonly<Record<string, Span>> = {}): SourceDocument => ({
  file,
  text,
  placeOf: (path, at) => places[`${at} ${path}`],
})
const diagnostic = (more: Partial<Diagnostic>): Diagnostic => ({
  severity: 'error',
  code: 'some-code',
  file: 'a.yaml',
  path: '',
  message: 'something is wrong',
  advice: 'Mend it.',
  ...more,
})
const render = (sources: readonly SourceDocument[], ...all: readonly Diagnostic[]): string =>
  renderDiagnostics(all, new Map(sources.map((each) => [each.file, each])), { colour: false })

describe('by hand', () => {
  test('place, code, message, lines with a mark, advice, count', () => {
    const text = 'name: plain\nfats:\n  - fat: olive-oil\n    mass: 450\nwater: 1 kg\n'
    const at = text.indexOf('450')
    const recipe = source('recipes/plain.yaml', text, { 'value /fats/0/mass': [at, at + 3] })
    const output = render(
      [recipe],
      diagnostic({
        file: 'recipes/plain.yaml',
        path: '/fats/0/mass',
        code: 'unit-missing',
        message: 'mass has no unit',
        advice: 'Write the unit after the number.',
      }),
    )
    expect(output).toBe(
      [
        'recipes/plain.yaml:4:11  error  unit-missing',
        'Mass has no unit',
        '',
        '  3 |   - fat: olive-oil',
        '  4 |     mass: 450',
        '    |           ^^^',
        '  5 | water: 1 kg',
        '',
        'Write the unit after the number.',
        '',
        '1 error. Nothing was written.',
        '',
      ].join('\n'),
    )
  })
  test('sorted by file and place, whole-file ones first, related places shown', () => {
    const b = source('b.yaml', 'one: 1\ntwo: 2\n', { 'key /one': [0, 3], 'value /two': [12, 13] })
    const a = source('a.yaml', 'x: 1\n', { 'value /x': [3, 4] })
    const output = render(
      [a, b],
      diagnostic({ file: 'b.yaml', path: '/two', code: 'third' }),
      diagnostic({ file: 'b.yaml', code: 'second', severity: 'warning' }),
      diagnostic({
        file: 'a.yaml',
        path: '/x',
        code: 'first',
        related: [{ file: 'b.yaml', path: '/one', message: 'first given here', at: 'key' }],
      }),
    )
    const heads = output.split('\n').filter((line) => / {2}(error|warning|first given here)/.test(line))
    expect(heads).toEqual([
      'a.yaml:1:4  error  first',
      'b.yaml:1:1  first given here',
      'b.yaml  warning  second',
      'b.yaml:2:6  error  third',
    ])
    expect(output.endsWith('\n2 errors, 1 warning. Nothing was written.\n')).toBe(true)
  })
  test('counts: nothing, one warning', () => {
    expect(render([])).toBe('')
    expect(render([], diagnostic({ severity: 'warning' }))).toMatch(/\n1 warning\.\n$/)
    expect(hasErrors([diagnostic({ severity: 'warning' })])).toBe(false)
    expect(hasErrors([diagnostic({})])).toBe(true)
  })
  test('a path without a place is shown at the closest parent; a range comes before all', () => {
    const a = source('a.yaml', 'fats:\n  - x: 1\n', { 'key /fats': [0, 4] })
    expect(render([a], diagnostic({ path: '/fats/0/x' }))).toContain('a.yaml:1:1  error')
    expect(render([a], diagnostic({ path: '/fats', range: [10, 11] }))).toContain('a.yaml:2:5  error')
    expect(render([a], diagnostic({ path: '/water' }))).toMatch(/^a\.yaml {2}error/)
    expect(render([], diagnostic({ path: '/water' }))).toMatch(/^a\.yaml {2}error/)
  })
  test.each([
    // text, what is marked, line and column, the marked line, the marks
    ['\tx: bad\n', 'bad', '1:5', '  1 |     x: bad', '    |        ^^^'],
    ['x: é bad\n', 'bad', '1:6', '  1 | x: é bad', '    |      ^^^'],
    ['x: 漢字 bad\n', 'bad', '1:7', '  1 | x: 漢字 bad', '    |         ^^^'], // two columns each
    ['x: 😀 bad\n', 'bad', '1:6', '  1 | x: 😀 bad', '    |       ^^^'],
    ['x: e\u0301 bad\n', 'bad', '1:7', '  1 | x: e\u0301 bad', '    |      ^^^'], // a mark of its own, no column
    ['one: 1\r\nx: bad\r\ny: 2\r\n', 'bad', '2:4', '  2 | x: bad', '    |    ^^^'],
    ['one: 1\rx: bad\ry: 2', 'bad', '2:4', '  2 | x: bad', '    |    ^^^'],
    ['x: bad', 'bad', '1:4', '  1 | x: bad', '    |    ^^^'],
    ['x: 字字\n', '字字', '1:4', '  1 | x: 字字', '    |    ^^^^'],
  ] as const)('the marks stand under the text: %j', (text, marked, place, line, marks) => {
    const at = text.indexOf(marked)
    const output = render([source('a.yaml', text)], diagnostic({ range: [at, at + marked.length] })).split(
      '\n',
    )
    expect(output[0]).toBe(`a.yaml:${place}  error  some-code`)
    expect(output).toContain(line)
    expect(output[output.indexOf(line) + 1]).toBe(marks)
  })
  test('of a mark over several lines only the first is marked', () => {
    const output = render([source('a.yaml', 'x: one\n  two\n')], diagnostic({ range: [3, 12] }))
    expect(output).toContain('  1 | x: one\n    |    ^^^\n  2 |   two\n')
  })
  test('a long line is cut round the mark', () => {
    const text = `${'a'.repeat(500)}BAD${'b'.repeat(500)}\nshort\n`
    const lines = render([source('a.yaml', text)], diagnostic({ range: [500, 503] })).split('\n')
    expect(lines[0]).toBe('a.yaml:1:501  error  some-code')
    const shown = lines.find((line) => line.includes('BAD')) ?? ''
    expect(shown.length).toBeLessThan(120)
    expect(shown).toMatch(/^ {2}1 \| …a+BADb+…$/)
    const marks = lines[lines.indexOf(shown) + 1] ?? ''
    expect(marks.trimEnd().length).toBe(shown.indexOf('BAD') + 3)
    expect(marks.indexOf('^')).toBe(shown.indexOf('BAD'))
  })
  test('a line of a million characters is cut as well, and no slower', () => {
    const text = `x: ${'a '.repeat(450_000)}BAD${' a'.repeat(50_000)}`
    const at = text.indexOf('BAD')
    let output = ''
    const took = leastProcessorTime(3000, 3, () => {
      output = render(
        [source('a.yaml', text)],
        ...Array.from({ length: 20 }, () => diagnostic({ range: [at, at + 3] })),
      )
    })
    // laid out whole, each of the 20 took half a second
    expect(took).toBeLessThan(3000)
    const lines = output.split('\n')
    const shown = lines.findIndex((line) => line.includes('BAD'))
    expect(lines[shown + 1]?.indexOf('^^^')).toBe(lines[shown]?.indexOf('BAD'))
  })
  test('nothing in a file, a name or a message steers the terminal', () => {
    const evil = 'x: \u001b[31mred\u0007\u009b2J\u202egnp\u2066\u200b\ufeff\u2028y\u007f\n'
    const output = render(
      [source('a\u001b[2J.yaml', evil)],
      diagnostic({
        file: 'a\u001b[2J.yaml',
        range: [3, 6],
        message: 'say \u001b]0;title\u0007',
        advice: 'one\ntwo\u001b[0m\u0000',
      }),
    )
    const unsafe = [...output].filter(
      (character) => character !== '\n' && /[\p{Cc}\p{Cf}\u2028\u2029]/u.test(character),
    )
    expect(unsafe).toEqual([])
    expect(output).toContain('x: ␛[31mred␇<U+009B>2J<U+202E>gnp<U+2066><U+200B><U+FEFF><U+2028>y␡')
    expect(output).toContain('one\ntwo␛[0m␀')
  })
  test('colour adds codes only', () => {
    const a = source('a.yaml', 'x: 1\n')
    const all = [diagnostic({ range: [3, 4] }), diagnostic({ severity: 'warning' })]
    const plain = renderDiagnostics(all, new Map([['a.yaml', a]]), { colour: false })
    const coloured = renderDiagnostics(all, new Map([['a.yaml', a]]), { colour: true })
    expect(coloured).not.toBe(plain)
    expect(
      coloured
        .split('\u001b')
        .map((part, index) => (index === 0 ? part : part.replace(/^\[\d+m/, '')))
        .join(''),
    ).toBe(plain)
  })
  test('names with a slash or tilde are told apart in a path', () => {
    expect(pointer(['fats', 0, 'a/b~c'])).toBe('/fats/0/a~1b~0c')
    expect(pointer([])).toBe('')
  })
  test('any text and any place can be rendered, and the mark is under its character', () => {
    const texts = fc.string({ unit: fc.constantFrom(...'ab\t\r\n字é😀\u0301\u001b: '), maxLength: 200 })
    fc.assert(
      fc.property(texts, fc.nat(220), fc.nat(220), (text, start, length) => {
        const from = Math.min(start, text.length)
        const output = render([source('a.yaml', text)], diagnostic({ range: [from, from + length] }))
        expect(
          output.split('\n').filter((line) => /^ +\| +\^+$/.test(line) || /^ +\| \^+$/.test(line)),
        ).toHaveLength(1)
      }),
      { seed: 20270314, numRuns: 500 },
    )
  })
})
