/** Reads the text catalogue of one language, and the program's own bibliography, from src/text. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { z } from 'zod'
import { type Diagnostic, pointer, type SourceDocument } from '../diagnostics.ts'
import { type Catalogue, catalogue } from '../text/catalogue.ts'
import type { Locale } from '../text/locale.ts'
import { type LanguageText, lacking, type TextEntry, type TextFile } from './compare-languages.ts'
import { decode } from './decode.ts'
import { localeFile, localeOf } from './locale-file.ts'
import { sourcesFile } from './sources.ts'
import { decodeText } from './text-bytes.ts'
import { inLanguage } from './translations.ts'
import { readYaml } from './yaml.ts'

/** One folder of it is a language. */
export const TEXT_FOLDER = fileURLToPath(new URL('../text/', import.meta.url))
/** How messages name it. */
const SHOWN = 'src/text'
/** What every language has is what this one has. */
export const FIRST_LANGUAGE = 'en'

/** @param texts folders with a folder for each language; a language has to be in all of them */
export const languagesIn = (texts: readonly string[] = [TEXT_FOLDER]): readonly string[] => {
  const [first = [], ...others] = texts.map((text) =>
    readdirSync(text, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ name }) => name),
  )
  return first.filter((name) => others.every((names) => names.includes(name))).sort()
}

export interface ReadLanguage {
  /** missing when anything is wrong */
  readonly catalogue?: Catalogue
  readonly diagnostics: readonly Diagnostic[]
  readonly documents: ReadonlyMap<string, SourceDocument>
}

interface ReadText extends ReadLanguage {
  readonly text: LanguageText
  readonly locale?: Locale
}

/**
 * The words of a language, held against those of English.
 * @param language one of `languagesIn`
 * @param texts    folders of all languages: that of the engine, then those with more words
 * @returns the catalogue, or everything that is wrong with it, each with its place
 * @source common practice
 */
export const readLanguage = (language: string, texts: readonly string[] = [TEXT_FOLDER]): ReadLanguage => {
  const { diagnostics: own, ...read } = readText(language, texts)
  const first = language === FIRST_LANGUAGE ? undefined : readText(FIRST_LANGUAGE, texts)
  const diagnostics = [...own, ...(first ? [...first.diagnostics, ...lacking(read.text, first.text)] : [])]
  const { locale, documents } = read
  if (!locale || diagnostics.length > 0) return { diagnostics, documents }
  return {
    catalogue: catalogue(locale, textsOf(read.text.phrases), textsOf(read.text.templates)),
    diagnostics,
    documents,
  }
}

/**
 * @param language a folder of src/text, such as `en`
 * @throws Error when our own files are not as they should be: a broken installation
 */
export const readCatalogue = (language: string): Catalogue => {
  const { catalogue: read, diagnostics } = readLanguage(language)
  if (!read) throw new Error(`${diagnostics[0]?.file}: ${diagnostics[0]?.message}`)
  return read
}

const textsOf = (entries: ReadonlyMap<string, TextEntry>): ReadonlyMap<string, string> =>
  new Map([...entries].map(([key, { text }]) => [key, text]))

const phrasesFile = z.record(z.string(), z.string())

/** All of a language's folder; a key that stands in two files is told. */
const readText = (language: string, texts: readonly string[]): ReadText => {
  const diagnostics: Diagnostic[] = []
  const documents = new Map<string, SourceDocument>()
  const files: TextFile[] = []
  const shown = `${SHOWN}/${language}`
  /** files of a part, each with the folder that it lies in */
  const inFolder = (part: 'phrases' | 'sheets', ending: string): readonly (readonly [string, string])[] =>
    texts.flatMap((text) => {
      const folder = join(text, language, part)
      if (!existsSync(folder)) return []
      return readdirSync(folder)
        .filter((name) => name.endsWith(ending))
        .sort()
        .map((name) => [text, name] as const)
    })
  const yamlOf = <T>(
    text: string,
    below: string,
    schema: z.ZodType<T>,
  ): { value?: T; document?: SourceDocument } => {
    const file = `${shown}/${below}`
    const {
      document,
      source,
      diagnostics: unreadable,
    } = readYaml(file, readFileSync(join(text, language, below)))
    documents.set(file, document ?? source)
    diagnostics.push(...unreadable)
    if (!document) return {}
    const { value, diagnostics: wrong } = decode(document, schema)
    diagnostics.push(...wrong)
    return value === undefined ? { document } : { value, document }
  }

  const phrases = new Map<string, TextEntry>()
  for (const [text, name] of inFolder('phrases', '.yaml')) {
    const { value, document } = yamlOf(text, `phrases/${name}`, phrasesFile)
    files.push({ below: `phrases/${name}`, isRead: value !== undefined })
    for (const [key, phrase] of Object.entries(value ?? {})) {
      const file = `${shown}/phrases/${name}`
      const path = pointer([key])
      const before = phrases.get(key)
      if (before)
        diagnostics.push({
          severity: 'error',
          code: 'text-twice',
          file,
          path,
          at: 'key',
          message: `"${key}" has words in another file, too`,
          advice: 'Take one of them out.',
          related: [{ file: before.file, path, at: 'key', message: 'first said here' }],
        })
      else if (document) phrases.set(key, { text: phrase, file, below: `phrases/${name}`, path })
    }
  }
  const templates = new Map<string, TextEntry>()
  for (const [text, name] of inFolder('sheets', '.md')) {
    const file = `${shown}/sheets/${name}`
    const read = decodeText(file, readFileSync(join(text, language, 'sheets', name)))
    diagnostics.push(...read.diagnostics)
    documents.set(file, { file, text: read.text, placeOf: () => undefined })
    files.push({ below: `sheets/${name}`, isRead: read.diagnostics.length === 0 })
    templates.set(name.slice(0, -3), { text: read.text, file, below: `sheets/${name}`, path: '' })
  }
  const of: LanguageText = { language, shown, files, phrases, templates }
  const locale = texts.find((text) => existsSync(join(text, language, LOCALE)))
  if (locale === undefined) {
    diagnostics.push({
      severity: 'error',
      code: 'text-missing',
      file: `${shown}/${LOCALE}`,
      path: '',
      message: 'This file is missing: it says how the language writes numbers and dates',
      advice: `Copy ${SHOWN}/${FIRST_LANGUAGE}/${LOCALE} there and change it.`,
    })
    return { text: of, diagnostics, documents }
  }
  const { value } = yamlOf(locale, LOCALE, localeFile)
  return { text: of, diagnostics, documents, ...(value ? { locale: localeOf(language, value) } : {}) }
}

const LOCALE = 'locale.yaml'

export interface BibliographyEntry {
  readonly title: string
  readonly where?: string
  readonly evidence: 'read' | 'recalled' | 'computed' | 'common-practice'
}

/**
 * The sources of the program's own constants, by the key that docstrings name. Titles of works stay as they are; what
 * is said of a work in our own words may be given in several languages, as a maker's words are.
 * @param language of the binder
 * @throws Error when our own file cannot be read: a broken installation
 */
export const readBibliography = (language = FIRST_LANGUAGE): ReadonlyMap<string, BibliographyEntry> => {
  const name = 'bibliography.yaml'
  const { document: typed, diagnostics } = readYaml(name, readFileSync(join(TEXT_FOLDER, name)))
  if (!typed) throw new Error(`${name}: ${diagnostics[0]?.message ?? 'cannot be read'}`)
  const { document } = inLanguage(typed, sourcesFile, language, languagesIn())
  const { sources } = document.data as unknown as { sources: Record<string, BibliographyEntry> }
  return new Map(Object.entries(sources))
}
