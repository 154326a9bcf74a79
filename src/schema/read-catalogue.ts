/** Reads the text catalogue of one language, and the program's own bibliography, from src/text. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { type Catalogue, catalogue } from '../text/catalogue.ts'
import { readYaml } from './yaml.ts'

const here = (path: string): string => fileURLToPath(new URL(`../text/${path}`, import.meta.url))

/** @throws Error when our own files cannot be read: a broken installation */
const yamlOf = (path: string): unknown => {
  const { document, diagnostics } = readYaml(path, readFileSync(here(path)))
  if (!document) throw new Error(`${path}: ${diagnostics[0]?.message ?? 'cannot be read'}`)
  return document.data
}

/** All phrases of a language: which file a key stands in says the first word of the key, and a test holds it to that. */
const phrasesOf = (language: string): ReadonlyMap<string, string> => {
  const phrases = new Map<string, string>()
  const folder = `./${language}/phrases`
  for (const name of readdirSync(here(folder)).sort()) {
    for (const [key, text] of Object.entries(yamlOf(`${folder}/${name}`) as Record<string, string>)) {
      if (phrases.has(key)) throw new Error(`${folder}/${name}: "${key}" stands in another file, too`)
      phrases.set(key, text)
    }
  }
  return phrases
}

/** @param language a folder of src/text, such as `en` */
export const readCatalogue = (language: string): Catalogue => {
  const phrases = phrasesOf(language)
  const folder = `./${language}/sheets`
  const templates = new Map(
    readdirSync(here(folder))
      .filter((name) => name.endsWith('.md'))
      .map((name) => [name.slice(0, -3), readFileSync(here(`${folder}/${name}`), 'utf8')]),
  )
  return catalogue(language, phrases, templates)
}

export interface BibliographyEntry {
  readonly title: string
  readonly where?: string
  readonly evidence: 'read' | 'recalled' | 'computed' | 'common-practice'
}

/** The sources of the program's own constants, by the key that docstrings name. */
export const readBibliography = (): ReadonlyMap<string, BibliographyEntry> =>
  new Map(
    Object.entries((yamlOf('./bibliography.yaml') as { sources: Record<string, BibliographyEntry> }).sources),
  )
