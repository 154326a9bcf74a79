/** The catalogue, and the made-up language that shows where words do not come from it. */
import { describe, expect, it } from 'vitest'
import { catalogue, pseudo, pseudoCatalogue } from '../../src/text/catalogue.ts'
import { english } from './in-english.ts'

const real = catalogue(
  english,
  new Map([['a.b', 'weigh [[mass]]']]),
  new Map([['page', '# Title\n\n[[table]]\n\n::: danger\n**Stop** here.\n:::\n']]),
)

describe('by hand: a catalogue', () => {
  it('gives phrases and templates by key', () => {
    expect(real.phrase('a.b')).toBe('weigh [[mass]]')
    expect(real.template('page')).toContain('[[table]]')
    expect(real.has('a.b')).toBe(true)
    expect(real.has('a')).toBe(false)
    expect(real.keys).toEqual(['a.b'])
  })

  it('throws for what it lacks, naming language and key', () => {
    expect(() => real.phrase('a.c')).toThrow('The en text catalogue has no phrase "a.c".')
    expect(() => real.template('other')).toThrow('no sheet template "other"')
    expect(() => real.phrase('constructor')).toThrow('no phrase')
  })
})

describe('by hand: the made-up language', () => {
  it.each([
    ['weigh', 'wéígh·'],
    ['Add 2 kg', 'Ádd· 2 kg·'],
    ["the maker's own", "thé· mákér·'š· ówñ·"],
    ['[[mass]] of [[what-ever]]', '[[mass]] óf· [[what-ever]]'],
    ['page {x} of {y}', 'págé· {x} óf· {y}'],
    ['**Hold.** Two', '**Hóld·.** Twó·'],
    ['± [[size]]', '± [[size]]'],
    ['–', '–'],
    ['', ''],
  ])('%s becomes %s', (before, after) => {
    expect(pseudo(before)).toBe(after)
  })

  it('keeps the frame of a box, and marks its words', () => {
    const page = pseudoCatalogue(real).template('page')
    expect(page).toBe('# Títlé·\n\n[[table]]\n\n::: danger\n**Stóp·** héré·.\n:::\n')
  })

  it('has another name, and the same keys', () => {
    const made = pseudoCatalogue(real)
    expect(made.language).toBe('en-x-pseudo')
    expect(made.phrase('a.b')).toBe('wéígh· [[mass]]')
    expect(made.keys).toEqual(real.keys)
    expect(() => made.phrase('none')).toThrow('no phrase')
  })
})
