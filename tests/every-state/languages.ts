/** No word of one language is left on a sheet of the other, in any state of a binder. */
import { beforeAll, describe, expect, it } from 'vitest'
import { frameFor, sheetsIn } from '../../src/commands/compose.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import type { Catalogue } from '../../src/text/catalogue.ts'
import { words as english, everyState, PATIENCE } from './composed.ts'

const spanish = readCatalogue('es')

/** What sheets say in words of the program: phrases, values, lettering of drawings; nothing that a maker typed. */
const saidOn = (sheets: readonly Sheet[], said: Set<string>): void => {
  const seen = new Set<unknown>()
  const walk = (thing: unknown): void => {
    if (typeof thing !== 'object' || thing === null || seen.has(thing)) return
    seen.add(thing)
    if (Array.isArray(thing) || thing instanceof Map) {
      for (const one of thing.values()) walk(one)
      return
    }
    for (const [key, one] of Object.entries(thing)) {
      if (typeof one !== 'string') walk(one)
      else if (key === 'text' && 'fill' in thing) said.add(one)
      else if (key === 'template' || key === 'shown') said.add(one)
      else if (key === 'svg') for (const text of lettering(one)) said.add(text)
    }
  }
  walk(sheets)
}

/** Words of a drawing and what it is called for those who do not see it. */
const lettering = (svg: string): readonly string[] =>
  [...svg.matchAll(/<text class="([^"]*)"[^>]*>(.*?)<\/text>|aria-label="([^"]*)"/gs)]
    .filter(([, kind = '']) => !/\bmaker\b/.test(kind))
    .map(([, , text, label]) =>
      (text ?? label ?? '').replace(/<tspan class="maker".*?<\/tspan>|<[^>]*>/g, ' '),
    )

/** Pieces of text that show which language it is: two words at least, or a long one. */
const piecesOf = (catalogue: Catalogue): ReadonlySet<string> =>
  new Set(
    [
      ...catalogue.keys.map(catalogue.phrase),
      ...catalogue.sheets.map(catalogue.template),
      ...ownWords(catalogue),
    ]
      .flatMap((text) => text.split(/\[\[[^\]]*\]\]|\{[a-z]\}|\*\*|\n|^#+ /m))
      .map((piece) => piece.replace(/^[\s\p{P}\d]+|[\s\p{P}\d]+$/gu, ''))
      .filter((piece) => /\p{L}{2,}[^\p{L}]+\p{L}{2,}|\p{L}{6,}/u.test(piece)),
  )

const ownWords = ({ locale }: Catalogue): readonly string[] => [
  ...locale.months,
  ...Object.values(locale.units),
  locale.noon,
  locale.midnight,
]

const isLetter = (character: string | undefined): boolean =>
  character !== undefined && /\p{L}/u.test(character)

/** Whether a piece stands in a text, and not within longer words. */
const stands = (text: string, piece: string): boolean => {
  for (let at = text.indexOf(piece); at >= 0; at = text.indexOf(piece, at + 1))
    if (!isLetter(text[at - 1]) && !isLetter(text[at + piece.length])) return true
  return false
}

/** Pieces of one language in texts of the other, but those that the other has as well. */
const strangers = (texts: Iterable<string>, foreign: Catalogue, own: Catalogue): readonly string[] => {
  const text = [...texts].join('\n').replace(/\[\[[^\]]*\]\]/g, ' ')
  const ownText = [
    ...own.keys.map(own.phrase),
    ...own.sheets.map(own.template),
    ...ownWords(own),
    own.locale.name,
  ].join('\n')
  return [...piecesOf(foreign)].filter((piece) => stands(text, piece) && !stands(ownText, piece))
}

const inEnglish = new Set<string>()
const inSpanish = new Set<string>()

beforeAll(async () => {
  for (const binder of (await everyState()).values()) {
    saidOn(binder.sheets, inEnglish)
    // what is bound is the same in every language
    const { sheets } = sheetsIn(frameFor(binder.content, spanish, spanish), binder.bound)
    saidOn(sheets, inSpanish)
  }
}, PATIENCE)

describe('by hand: one language a sheet', () => {
  it('has no English in a Spanish binder', () => {
    expect(inSpanish.size).toBeGreaterThan(3000)
    expect(strangers(inSpanish, english, spanish)).toEqual([])
  })

  it('has no Spanish in an English one', () => {
    expect(inEnglish.size).toBeGreaterThan(3000)
    expect(strangers(inEnglish, spanish, english)).toEqual([])
  })

  it('would notice words, a month, a word in a drawing', () => {
    const phrase = english.phrase('frame.not-printed')
    const drawn = lettering(`<text class="note-text" x="1">${phrase}</text><text class="a maker">Shed</text>`)
    expect(strangers(drawn, english, spanish)).toContain(phrase)
    expect(strangers(['14 March 2027'], english, spanish)).toEqual(['March'])
    expect(drawn.join('')).not.toContain('Shed')
  })
})
