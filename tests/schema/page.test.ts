import { describe, expect, test } from 'vitest'
import { readPage } from '../../src/schema/page.ts'
import { leastProcessorTime } from '../processor-time.ts'

const read = (text: string | Uint8Array) =>
  readPage(
    {
      file: 'binder/pages/note.md',
      below: 'pages/note.md',
      bytes: typeof text === 'string' ? new TextEncoder().encode(text) : text,
    },
    'note',
  )
const told = (text: string): string[] =>
  read(text).diagnostics.map(({ code, range }) => `${code} ${range?.join('-')}`)

describe('by hand: a page of the maker’s own', () => {
  test('its first line is the title, the rest is the page', () => {
    expect(read('# Before we start\n\nRead it all.\n').page).toEqual({
      key: 'note',
      file: 'binder/pages/note.md',
      title: 'Before we start',
      text: '# Before we start\n\nRead it all.\n',
      markdown: '\n\nRead it all.\n',
    })
  })

  test('empty lines above, line ends of another system, a byte-order mark and no last line end make no difference', () => {
    for (const text of ['\n\n  \n# Note\nText', '# Note\r\nText', '\ufeff# Note\nText', '#   Note  \nText'])
      expect(read(text).page).toMatchObject({ title: 'Note', markdown: '\nText' })
    expect(read('# Note').page).toMatchObject({ title: 'Note', markdown: '' })
  })

  test.each([
    ['nothing', ''],
    ['only empty lines', '\n \n\t\n'],
    ['text above the title', 'Text\n# Note\n'],
    ['a smaller heading', '## Note\n'],
    ['no space after the sign', '#Note\n'],
    ['a sign and nothing', '# \nText\n'],
  ])('%s is no title', (_, text) => {
    expect(told(text)).toEqual(['page-title 0-0'])
    expect(read(text).page).toBeUndefined()
  })

  test('a title has 60 characters at most, and the whole line is marked', () => {
    expect(told(`# ${'a'.repeat(60)}\n`)).toEqual([])
    expect(told(`\n# ${'a'.repeat(61)}\nText`)).toEqual(['page-title 1-64'])
  })

  test('each character that the letters lack is told once, where it first stands', () => {
    expect(told('# Note\n→ and → and ☃\n\tA tab is a space.\n')).toEqual([
      'unprintable 7-8',
      'unprintable 19-20',
    ])
  })

  test('a page that is no text says so and has no more to say', () => {
    const { page, diagnostics } = read(new Uint8Array([0x23, 0x20, 0xe9, 0x0a]))
    expect(page).toBeUndefined()
    expect(diagnostics.map(({ code }) => code)).toEqual(['not-utf-8'])
  })

  test('a hostile megabyte takes time in proportion', () => {
    const long = 999_000
    const took = leastProcessorTime(1500, 3, () => {
      read('\n'.repeat(long))
      read(`# a${' '.repeat(long)}b`)
      read(`# a\n${'# \n'.repeat(long / 3)}`)
    })
    // a tenth of this is enough on a busy machine; a pattern that tries every way takes minutes
    expect(took).toBeLessThan(1500)
  })
})
