/** A maker's own words in several languages: of `{ en: …, es: … }` the one that a binder is printed in. */
import { type Diagnostic, pointer } from '../diagnostics.ts'
import { isList } from '../revisions/input-changes.ts'
import { WORDS } from './fields.ts'
import type { AnySchema } from './schema-walk.ts'
import { isMarkedAt } from './schema-walk.ts'
import type { YamlDocument, YamlNode } from './yaml.ts'

export interface InLanguage {
  /** each text in the place of its translations, and found where it stands in the file */
  readonly document: YamlDocument
  readonly diagnostics: readonly Diagnostic[]
  /** paths of all texts that are given in several languages */
  readonly translated: ReadonlySet<string>
  /** every language that such a text is given in */
  readonly given: ReadonlySet<string>
}

type Path = readonly (string | number)[]

/**
 * A document as somebody would have typed it for one language.
 *
 *     a mapping at the place of a text that may be given in several languages becomes the text of this one
 *
 * What stands in plain text stays. Where this language is not given the first text stands in, and is complained of.
 *
 * @param document  of a maker's file
 * @param schema    of the file, which knows where words stand
 * @param language  the one that is wanted
 * @param languages all that this program has
 * @returns the document and what is wrong with its translations
 * @source common practice
 */
export const inLanguage = (
  document: YamlDocument,
  schema: AnySchema,
  language: string,
  languages: readonly string[],
): InLanguage => {
  const diagnostics: Diagnostic[] = []
  const given = new Set<string>()
  /** where each text that was taken stands */
  const taken = new Map<string, string>()
  const error = (code: string, path: Path, at: 'key' | 'value', message: string, advice: string): void => {
    diagnostics.push({
      severity: 'error',
      code,
      file: document.file,
      path: pointer(path),
      at,
      message,
      advice,
    })
  }

  const oneOf = (texts: { readonly [name: string]: YamlNode }, path: Path): YamlNode => {
    for (const key of Object.keys(texts)) {
      if (languages.includes(key)) given.add(key)
      else
        error(
          'translation-unknown',
          [...path, key],
          'key',
          `"${key}" is no language of this program`,
          `Give this text in one of: ${languages.join(', ')}.`,
        )
    }
    const known = Object.keys(texts).filter((key) => languages.includes(key))
    const key = known.includes(language) ? language : known[0]
    if (key === undefined) {
      const [unknown] = Object.values(texts)
      if (Object.keys(texts).length === 0)
        error(
          'translation-missing',
          path,
          'key',
          'No text is given here, in no language',
          `Type plain text, which stands for all languages, or "${language}: …" between the braces.`,
        )
      return unknown
    }
    if (key !== language)
      error(
        'translation-missing',
        path,
        'key',
        `This text is not given in ${language}, the language that it is printed in`,
        `Add "${language}: …" beside "${key}:", or type plain text, which stands for all languages.`,
      )
    taken.set(pointer(path), pointer([...path, key]))
    return texts[key]
  }
  const data = withWords(document.data, schema, oneOf)
  const placed = (path: string): string => taken.get(path) ?? path
  return {
    document: {
      ...document,
      data,
      placeOf: (path, at) => document.placeOf(at === 'value' ? placed(path) : path, at),
      styleOf: (path) => document.styleOf(placed(path)),
    },
    diagnostics,
    translated: new Set(taken.keys()),
    given,
  }
}

/**
 * Data with a maker's words in some languages only: what a binder in these reads of it.
 *
 * Where one language is wanted its text stands in the place of the translations, as if it were the only one.
 *
 * @param data      of a file as typed
 * @param schema    of the file, which knows where words stand
 * @param languages the wanted ones
 */
export const readIn = (data: YamlNode, schema: AnySchema, languages: readonly string[]): YamlNode => {
  const picked = (texts: { readonly [name: string]: YamlNode }): YamlNode => {
    const of = new Map(
      languages.map((language) => [
        language,
        Object.hasOwn(texts, language) ? texts[language] : Object.values(texts)[0],
      ]),
    )
    const [first, ...others] = of.values()
    return others.every((one) => one === first) ? first : Object.fromEntries(of)
  }
  return withWords(data, schema, picked)
}

/** The same data with something in the place of every text that is given in several languages. */
const withWords = (
  data: YamlNode,
  schema: AnySchema,
  pick: (texts: { readonly [name: string]: YamlNode }, path: Path) => YamlNode,
): YamlNode => {
  const walk = (node: YamlNode, path: Path): YamlNode => {
    if (node === undefined || typeof node === 'string') return node
    if (isList(node)) return node.map((one, index) => walk(one, [...path, index]))
    if (isMarkedAt(schema, path, data, WORDS)) return pick(node, path)
    return Object.fromEntries(Object.entries(node).map(([key, one]) => [key, walk(one, [...path, key])]))
  }
  return walk(data, [])
}
