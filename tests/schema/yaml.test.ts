import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { renderDiagnostics } from '../../src/diagnostics.ts'
import { readYaml } from '../../src/schema/yaml.ts'
import { leastProcessorTime } from '../processor-time.ts'

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)
const read = (text: string) => readYaml('a.yaml', bytes(text))
/** code and what is marked, of every diagnostic */
const complaints = (text: string): string[][] =>
  read(text).diagnostics.map(({ code, range, path, at }) => {
    const place = range ?? read(text).source.placeOf(path, at ?? 'value')
    return [code, place === undefined ? '' : text.replace(/^\ufeff/, '').slice(...place)]
  })

describe('by hand: data', () => {
  test('scalars stay as they were typed', () => {
    const text =
      'a: 08\nb: 1.10\nc: 1e3\nd: no\ne: 2027-03-14\nf: 0x1F\ng: 1_000\nh: 2 1/4"\ni: "1"\nj: 1:30\n'
    expect(read(text).document?.data).toEqual({
      a: '08',
      b: '1.10',
      c: '1e3',
      d: 'no',
      e: '2027-03-14',
      f: '0x1F',
      g: '1_000',
      h: '2 1/4"',
      i: '1',
      j: '1:30',
    })
    expect(read(text).diagnostics).toEqual([])
  })
  test('lists, maps, flow forms, block texts', () => {
    const text =
      'a:\n  - x: 1\n    y: [2, three]\n  - {z: 4}\nb: |\n  two\n  lines\nc: >-\n  one\n  line\nd: two\n  words\n'
    expect(read(text).document?.data).toEqual({
      a: [{ x: '1', y: ['2', 'three'] }, { z: '4' }],
      b: 'two\nlines\n',
      c: 'one line',
      d: 'two words',
    })
  })
  test('how a text was written can be asked', () => {
    const { document } = read('a: 1\nb: "1"\nc: \'1\'\nd: |\n  1\ne: []\n')
    expect(['/a', '/b', '/c', '/d', '/e', '/f'].map((path) => document?.styleOf(path))).toEqual([
      'plain',
      'quoted',
      'quoted',
      'block',
      undefined,
      undefined,
    ])
  })
  test('nothing, ~ and null are nothing; in quotes they are text', () => {
    const { document } = read('a:\nb: ~\nc: null\nd: ""\ne: "~"\nf:\n  - x\n  -\n')
    expect(document?.emptyPaths).toEqual(['/a', '/b', '/c', '/f/1'])
    expect(document?.data).toEqual({
      a: undefined,
      b: undefined,
      c: undefined,
      d: '',
      e: '~',
      f: ['x', undefined],
    })
  })
  test('maps have no inherited names', () => {
    const { data } = read('a: 1\n').document ?? {}
    expect('toString' in Object(data)).toBe(false)
    expect(read('toString: 1\n').document?.data).toEqual(
      Object.assign(Object.create(null), { toString: '1' }),
    )
  })
})

describe('by hand: places', () => {
  test.each([
    ['/name', 'key', 'name'],
    ['/name', 'value', 'Plain soap'],
    ['/note', 'value', 'quoted'],
    ['/fats/0/mass', 'value', '450 g'],
    ['/fats/1/mass', 'key', 'mass'],
    ['/fats/1/mass', 'value', '50 g'],
    ['/fats/1', 'value', 'fat: lard\n    mass: 50 g'],
    ['/flow/1/b', 'value', '2'],
    ['/odd~1name/0', 'value', 'x'],
  ] as const)('%s (%s)', (path, at, marked) => {
    const plain =
      'name: Plain soap\nnote: "quoted"\nfats:\n  - fat: olive-oil\n    mass: 450 g\n  - fat: lard\n    mass: 50 g\nflow: [1, {b: 2}]\nodd/name: [x]\n'
    // places are the same with Windows line ends, a byte-order mark, and characters outside the basic plane before
    for (const text of [plain, plain.replaceAll('\n', '\r\n'), `\ufeff${plain}`, `# 😀\n${plain}`]) {
      const { document } = read(text)
      const place = document?.placeOf(path, at)
      expect(place && document?.text.slice(...place).replaceAll('\r\n', '\n')).toBe(marked)
    }
  })
  test('a place that is not there is not made up', () => {
    const { document } = read('a: 1\nb:\n')
    expect(document?.placeOf('/c', 'value')).toBeUndefined()
    expect(document?.placeOf('/b', 'value')).toBeUndefined()
    expect(document?.placeOf('/b', 'key')).toEqual([5, 6])
    expect(document?.placeOf('/constructor', 'value')).toBeUndefined()
  })
})

describe('by hand: what is wrong, and where', () => {
  test.each([
    // text, code, what is marked
    ['a:\n\tb: 1\n', 'tab-indent', '\t'],
    ['a:\n  b: 1\n\tc: 2\n', 'tab-indent', '\t'],
    ['a:\n  b: 1\n  \tc: 2\n', 'tab-indent', '\t'],
    ['fats:\n  oil:450 g\n  tallow: 3 g\n', 'space-after-colon', ':'],
    ['name:Plain\nbars: 3\n', 'space-after-colon', ':'],
    ['name: soap: plain\n', 'colon-in-text', ':'],
    ['name: soap #3\n', 'hash-in-text', 'soap'],
    ['name: “soap”\n', 'curly-quotes', '“soap”'],
    ['name: ‘soap’\n', 'curly-quotes', '‘soap’'],
    ['a: 1\nb: 2\na: 3\n', 'duplicate-name', 'a'],
    ['{a: 1, a: 2}', 'duplicate-name', 'a'],
    ['a: 1\n---\nb: 2\n', 'second-document', '---'],
    ['', 'file-empty', ''],
    ['# only a remark\n', 'file-empty', ''],
    ['a: !!int 3\n', 'tag-not-allowed', '!!int'],
    ['a: !x 3\n', 'tag-not-allowed', '!x'],
    ['!!map {a: 1}\n', 'tag-not-allowed', '!!map'],
    ['a: &x 1\nb: *x\n', 'reference-not-allowed', '&x'],
    ['a: *x\n', 'reference-not-allowed', '*x'],
    ['__proto__: 1\n', 'name-forbidden', '__proto__'],
    ['constructor: {prototype: 1}\n', 'name-forbidden', 'constructor'],
    ['? [a]\n: b\n', 'name-not-text', '['],
    [': 1\n', 'name-missing', ':'],
    ['\u00a0a: 1\n', 'odd-space', '\u00a0a'],
    ['a: "x\nb: 1\n', 'quote-not-closed', '"'],
    ['a: "2 1/4" in\n', 'text-after-quote', 'in'],
    ['a: "\\q"\n', 'backslash', '\\q'],
    ['a: [1, 2\nb: 3\n', 'bracket-not-closed', '['],
    ['a: {b: 1 c: 2}\n', 'comma-missing', ':'],
    ['a: @x\n', 'quotes-needed', '@'],
    ['a: %x\n', 'quotes-needed', '%'],
    ['a: `x`\n', 'quotes-needed', '`'],
    ['a: 1\n  b: 2\n', 'indentation', 'b: 2'],
    ['a:\n    b: 1\n  c: 2\n', 'indentation', 'c: 2'],
    ['a:\n- b\n - c\n', 'list-indent', 'b\n - c'],
    ['a: 1\nplain words\nb: 2\n', 'colon-missing', 'plain words'],
    ['a: "\u0007"\n', 'control-character', '\u0007'],
    ['a: x\u001b[31m\n', 'control-character', '\u001b'],
    ['a: x\u0000\n', 'control-character', '\u0000'],
    [`a: ${'['.repeat(30)}${']'.repeat(30)}\n`, 'nested-too-deep', '['],
  ])('%j is %s', (text, code, marked) => {
    expect(complaints(text)).toEqual([[code, marked]])
    for (const each of read(text).diagnostics) expect(each.advice.length).toBeGreaterThan(5)
  })

  test('a byte-order mark is no mistake', () => {
    expect(read('\ufeffa: 1\n')).toMatchObject({ diagnostics: [], document: { data: { a: '1' } } })
  })
  test('remarks and quotes marks inside a text are no mistake', () => {
    expect(
      complaints(`a: 450 g # weigh\nb: it's "so"\nc: 1" # pin\nd: a#b\ne: x – y\nf: https://a.b\n`),
    ).toEqual([])
  })
  test('bytes that are no text are told with their place', () => {
    const file = readYaml('a.yaml', new Uint8Array([...bytes('a: é\nb: '), 0xe9, 0x0a]))
    expect(file.document).toBeUndefined()
    expect(file.diagnostics).toMatchObject([{ code: 'not-utf-8', range: [8, 9] }])
    expect(file.source.text.slice(0, 8)).toBe('a: é\nb: ')
    // cut off in the middle of a character
    expect(readYaml('a.yaml', bytes('a: é').slice(0, -1)).diagnostics).toMatchObject([{ code: 'not-utf-8' }])
    expect(readYaml('a.yaml', new Uint8Array([0xff, 0xfe, 0x61, 0])).diagnostics).toMatchObject([
      { code: 'not-utf-8', message: expect.stringContaining('UTF-16') },
    ])
  })
  test('a million bytes are read, one more is not', () => {
    const text = `a: ${'x'.repeat(999_997)}`
    expect(read(text).document).toBeDefined()
    expect(read(`${text}x`).diagnostics).toMatchObject([{ code: 'file-too-large' }])
  })
  test('an alias bomb is one error and a moment', () => {
    const lines = Array.from(
      { length: 30 },
      (_, index) => `l${index + 1}: &l${index + 1} [*l${index}, *l${index}]`,
    )
    const took = leastProcessorTime(500, 3, () => {
      const { diagnostics } = read(['l0: &l0 x', ...lines].join('\n'))
      expect(diagnostics.map(({ code }) => code)).toEqual(['reference-not-allowed'])
    })
    expect(took).toBeLessThan(500)
  })
  test('a hostile million of brackets takes time in proportion', () => {
    const took = leastProcessorTime(5000, 2, () => read(`a: [${'[],'.repeat(300_000)}]`))
    expect(took).toBeLessThan(5000)
  })
  test('mistakes of structure are all told in one run', () => {
    expect(complaints('a: 1\na: 2\n__proto__: 3\nb: !!int 4\nc: “x”\n').map(([code]) => code)).toEqual([
      'duplicate-name',
      'name-forbidden',
      'tag-not-allowed',
      'curly-quotes',
    ])
  })
  test('what stands twice names the first place', () => {
    expect(read('a:\n  b: 1\n  b: 2\n').diagnostics[0]?.related).toEqual([
      { file: 'a.yaml', path: '/a/b', message: 'first given here', at: 'key' },
    ])
  })
  test('a part that is left out does not shift what follows', () => {
    expect(read('__proto__: {a: [1, {b: 2}]}\n? {x: [1]}\n: [2]\nc: 3\n').document?.data).toEqual({ c: '3' })
  })
  test('nothing makes it throw, and everything it says can be rendered', () => {
    const pieces = fc.constantFrom(
      ...[
        'a',
        'b',
        ': ',
        ':',
        '- ',
        '-',
        '\n',
        '\n  ',
        '\n    ',
        '\t',
        '"',
        "'",
        '[',
        ']',
        '{',
        '}',
        ',',
        '#',
        ' #',
        '&x ',
        '*x',
      ],
      ...[
        '!',
        '!!str ',
        '|',
        '>',
        '? ',
        '---',
        '...',
        '%',
        '@',
        '`',
        '\\',
        '\u0000',
        '\u001b',
        '😀',
        'é',
        '“',
        '\r\n',
        '__proto__',
        '~',
      ],
    )
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 40 }), (all) => {
        const result = read(all.join(''))
        if (result.diagnostics.length === 0) expect(result.document).toBeDefined()
        renderDiagnostics(result.diagnostics, new Map([['a.yaml', result.source]]), { colour: false })
      }),
      { seed: 20270314, numRuns: 3000 },
    )
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (raw) => {
        expect(readYaml('a.yaml', raw).source.file).toBe('a.yaml')
      }),
      { seed: 20270314, numRuns: 500 },
    )
  })
})
