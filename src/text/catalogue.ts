/** The words that readers see, one folder a language: short phrases in phrases/*.yaml, long text in sheets/*.md. */
import type { Locale } from './locale.ts'

export interface Catalogue {
  readonly language: string
  /** how it writes numbers and dates */
  readonly locale: Locale
  /** the phrase under a key, with `[[placeholders]]` */
  readonly phrase: (key: string) => string
  readonly has: (key: string) => boolean
  readonly keys: readonly string[]
  /** kinds of sheets that it has a template of */
  readonly sheets: readonly string[]
  /** the Markdown template of a kind of sheet */
  readonly template: (name: string) => string
}

/**
 * Builds a catalogue from what was read from one language's folder.
 * @throws Error from `phrase` or `template` for a key that is not there: a bug, since tests hold keys and code together
 */
export const catalogue = (
  locale: Locale,
  phrases: ReadonlyMap<string, string>,
  templates: ReadonlyMap<string, string>,
): Catalogue => {
  const { language } = locale
  const found = (map: ReadonlyMap<string, string>, key: string, what: string): string => {
    const text = map.get(key)
    if (text === undefined) throw new Error(`The ${language} text catalogue has no ${what} "${key}".`)
    return text
  }
  return {
    language,
    locale,
    phrase: (key) => found(phrases, key, 'phrase'),
    has: (key) => phrases.has(key),
    keys: [...phrases.keys()],
    sheets: [...templates.keys()],
    template: (name) => found(templates, name, 'sheet template'),
  }
}

const ACCENTED: Readonly<Record<string, string>> = {
  a: 'á', e: 'é', i: 'í', o: 'ó', u: 'ú', A: 'Á', E: 'É', I: 'Í', O: 'Ó', U: 'Ú', n: 'ñ', c: 'ç', s: 'š', y: 'ý',
} // biome-ignore format: a table reads better in rows

/**
 * The same catalogue in a made-up language: every word is marked, so that a word on a page which did not come
 * from the catalogue stands out. Placeholders, Markdown marks and HTML entities stay as they are.
 */
export const pseudoCatalogue = (real: Catalogue): Catalogue => ({
  ...real,
  language: 'en-x-pseudo',
  phrase: (key) => pseudo(real.phrase(key)),
  template: (name) => pseudo(real.template(name)),
})

/** Words between placeholders with their vowels accented and a mark at the end of each: `weigh` → `wéígh·`. */
export const pseudo = (text: string): string =>
  text
    .split(/(\[\[[^\]]*\]\]|^:::.*$|\{[a-z]\})/m)
    .map((piece, index) => (index % 2 === 1 ? piece : piece.replace(/[A-Za-z]+/g, pseudoWord)))
    .join('')

const pseudoWord = (word: string): string =>
  `${[...word].map((letter) => ACCENTED[letter] ?? letter).join('')}·`
