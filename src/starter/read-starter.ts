/** Reads what a new folder is made of: our own templates, and entries of the demo that every binder needs alike. */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { readYaml, type YamlDocument } from '../schema/yaml.ts'

const own = (below: string): string => readFileSync(fileURLToPath(new URL(below, import.meta.url)), 'utf8')

const document = (below: string): YamlDocument => {
  const { document: read } = readYaml(below, new TextEncoder().encode(own(below)))
  if (!read) throw new Error(`${below} of this program cannot be read`)
  return read
}

export const TEMPLATES = [
  'shop', 'sources', 'alkalis', 'fats', 'panels', 'recipe', 'fixture', 'batch',
] as const // biome-ignore format: one line reads better

export interface Starter {
  readonly templates: Readonly<Record<(typeof TEMPLATES)[number], string>>
  /** names that a maker would have given, in the language of the binder */
  readonly words: (language: string) => Readonly<Record<string, string>>
  /** the figures of fats and boards and where they come from: known in one place, the demo */
  readonly fats: YamlDocument
  readonly panels: YamlDocument
  readonly sources: YamlDocument
}

/** By language. */
export const starterWords = (): Readonly<Record<string, Readonly<Record<string, string>>>> =>
  document('words.yaml').data as Readonly<Record<string, Readonly<Record<string, string>>>>

export const readStarter = (): Starter => {
  const words = starterWords()
  return {
    templates: Object.fromEntries(
      TEMPLATES.map((name) => [name, own(`${name}.yaml`)]),
    ) as Starter['templates'],
    words: (language) => ({ ...words.en, ...words[language] }),
    fats: document('../../content/materials/fats.yaml'),
    panels: document('../../content/materials/panels.yaml'),
    sources: document('../../content/sources.yaml'),
  }
}
