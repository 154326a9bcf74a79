/**
 * The files of a folder, each decoded by its kind: what they say, and every mistake in them. What one kind means to
 * another is for whoever asks.
 */
import type { z } from 'zod'
import { type Diagnostic, hasErrors, type SourceDocument } from '../diagnostics.ts'
import { keptOrMade } from '../kept-or-made.ts'
import { decode } from './decode.ts'
import type { FileKind } from './file-kind.ts'
import type { ReadFile } from './look-up.ts'
import { NAME } from './names.ts'
import { readPage } from './page.ts'
import type { PageFile, Placed } from './placed.ts'
import type { TypedFile } from './prices.ts'
import { FIRST_LANGUAGE } from './read-catalogue.ts'
import type { FolderFile } from './read-folder.ts'
import { valueBelow } from './schema-walk.ts'
import { type InLanguage, inLanguage } from './translations.ts'
import { readYaml, type YamlDocument } from './yaml.ts'

export interface LoadedFolder<Content> {
  /** of the binder; English where the shop names none that there is */
  readonly language: string
  /** of labels; that of the binder where there are none */
  readonly labelLanguage: string
  /** missing when anything is wrong */
  readonly content?: Content
  readonly diagnostics: readonly Diagnostic[]
  /** every document by the name that messages use, for showing the line at fault */
  readonly documents: ReadonlyMap<string, SourceDocument>
}

/** Which words stand on labels, whose readers may have another language than those of the binder. */
export interface LabelWords {
  /** by the shop's file as it was typed */
  readonly languageOf: (shop: unknown, binder: string) => string
  /** files, by their paths below the folder, and what of them stands on labels, and on nothing else */
  readonly isOn: (below: string) => boolean
  readonly paths: RegExp
  readonly onlyPaths: RegExp
}

export interface ReadFiles {
  readonly spoken: SpokenBy
  /** grows as files are read */
  readonly diagnostics: Diagnostic[]
  /** every document by the name that messages use, for showing the line at fault */
  readonly documents: ReadonlyMap<string, SourceDocument>
  readonly readFiles: readonly ReadFile[]
  readonly typedFiles: readonly TypedFile[]
  /** folders with files that are no YAML, or that could not be read: what they would have named is not missed on top */
  readonly unread: ReadonlySet<string>
  /** by the names of their files: what labels take their words from */
  readonly labelled: ReadonlyMap<string, unknown>
  /** the one file of its kind, which every folder has; told where it is missing */
  readonly one: <T>(kind: OneFile<T>) => Placed<T> | undefined
  readonly optional: <T>(kind: OneFile<T>) => Placed<T> | undefined
  /** all files of a folder by their names */
  readonly folder: <T>(kind: ManyFiles<T>) => Map<string, Placed<T>>
  /** the maker's own, in the language of the binder */
  readonly pages: () => PageFile[]
}

/**
 * @param files     as read by read-folder.ts
 * @param shown     how messages name the folder
 * @param languages that this program has words in
 * @param labels    of a process that has labels
 */
export const openFiles = (
  files: readonly FolderFile[],
  shown: string,
  languages: readonly string[],
  labels?: LabelWords,
): ReadFiles => {
  const spoken = spokenBy(files, languages, labels)
  const reading: Reading = { spoken, languages, labels }
  const diagnostics: Diagnostic[] = []
  const documents = new Map<string, SourceDocument>()
  const readFiles: ReadFile[] = []
  const typedFiles: TypedFile[] = []
  // What a file that is no YAML would have named is not reported missing on top of it.
  const unread = new Set<string>()

  for (const { below, refused } of files) if (refused) unread.add(below.replace(/\/.*$/, ''))

  const read = <T>(file: FolderFile, schema: z.ZodType<T>): Placed<T> | undefined => {
    if (file.refused) return undefined
    const { document, source, value, labelValue, diagnostics: found } = readOnce(file, schema, reading)
    diagnostics.push(...found)
    const folder = file.below.replace(/\/.*$/, '')
    if (document) {
      readFiles.push({ folder, key: keyOf(file), document })
      typedFiles.push({ document, schema })
    } else unread.add(folder)
    documents.set(file.file, source)
    if (!document || value === undefined) return undefined
    if (labelValue !== undefined) labelled.set(file.below, labelValue)
    return { key: keyOf(file), value, document, path: '' }
  }
  /** By the names of their files: what labels take their words from. */
  const labelled = new Map<string, unknown>()
  const optional = <T>({ place, schema }: OneFile<T>): Placed<T> | undefined => {
    const file = files.find((candidate) => candidate.below === place.file)
    return file && read(file, schema)
  }
  const one = <T>(kind: OneFile<T>): Placed<T> | undefined => {
    const name = kind.place.file
    if (files.some((candidate) => candidate.below === name)) return optional(kind)
    diagnostics.push({
      severity: 'error',
      code: 'file-missing',
      file: `${shown}/${name}`,
      path: '',
      message: `There is no ${name} in this folder`,
      advice: `Every binder has one. Copy content/${name} of this program and change it, or point at the folder that holds it.`,
    })
    return undefined
  }
  const wellNamed = (file: FolderFile, key = keyOf(file)): boolean => {
    if (file.refused || NAME.test(key)) return true
    unread.add(file.below.replace(/\/.*$/, ''))
    diagnostics.push({
      severity: 'error',
      code: 'file-name',
      file: file.file,
      path: '',
      message: `"${key}" cannot be the name of a file here: other files point to it by this name`,
      advice: 'Use small letters, digits and single hyphens, for example hearth-bar.yaml.',
    })
    return false
  }
  const folder = <T>({ place, schema }: ManyFiles<T>): Map<string, Placed<T>> => {
    const found = new Map<string, Placed<T>>()
    for (const file of files.filter((candidate) => candidate.below.startsWith(`${place.folder}/`))) {
      if (!wellNamed(file)) continue
      const placed = read(file, schema)
      if (placed) found.set(placed.key, placed)
    }
    return found
  }

  const pages = (): PageFile[] =>
    readPages(
      files.filter(({ below, refused }) => below.startsWith('pages/') && !refused),
      { language: spoken.binder, languages, wellNamed, diagnostics, documents },
    )
  return {
    spoken,
    diagnostics,
    documents,
    readFiles,
    typedFiles,
    unread,
    labelled,
    one,
    optional,
    folder,
    pages,
  }
}

interface Reading {
  readonly spoken: SpokenBy
  readonly languages: readonly string[]
  readonly labels: LabelWords | undefined
}

type OneFile<T> = FileKind<T> & { readonly place: { readonly file: string } }
type ManyFiles<T> = FileKind<T> & { readonly place: { readonly folder: string } }

export interface SpokenBy {
  readonly binder: string
  readonly label: string
}

/** What a file says by itself, whatever stands in the others. */
interface ReadAlone<T> {
  /** in the words of the binder; missing where the text could not be taken apart */
  readonly document?: YamlDocument
  readonly source: SourceDocument
  /** missing when anything is wrong */
  readonly value?: T
  /** of a file that labels take words from: in those of the label */
  readonly labelValue?: T
  readonly diagnostics: readonly Diagnostic[]
}

const silent = ({ file }: YamlDocument): Diagnostic[] => [
  {
    severity: 'error',
    code: 'value-not-allowed',
    file,
    path: '',
    message: 'Something in this file has no value that can be taken',
    advice: 'Look for braces or brackets with nothing between them, and for names without a value.',
  },
]

const readAlone = <T>(
  file: FolderFile,
  schema: z.ZodType<T>,
  { spoken, languages, labels }: Reading,
): ReadAlone<T> => {
  const { document: typed, source, diagnostics: unreadable } = readYaml(file.file, file.bytes)
  if (!typed) return { source, diagnostics: unreadable }
  const picked = inLanguage(typed, schema, spoken.binder, languages)
  const { document } = picked
  const { value, diagnostics: wrong } = decode(document, schema)
  // A line that YAML could not place is not reported missing on top of it.
  const lost = unreadable.some(({ code }) => LOSES_LINES.has(code))
  const found = [
    ...unreadable,
    ...picked.diagnostics.filter((one) => !isOnlyOnLabels(file, one, labels)),
    ...otherTexts(typed, schema, picked, spoken.binder, languages),
    ...wrong.filter(({ code }) => !lost || !MISSED.has(code)),
  ]
  // nothing is left out in silence: a file that says nothing wrong and cannot be taken is told all the same
  const isSilent = value === undefined && !hasErrors(found)
  const diagnostics = isSilent ? [...found, ...picked.diagnostics, ...silent(document)] : found
  const read = { document, source: document, diagnostics }
  if (value === undefined) return read
  if (!labels?.isOn(file.below)) return { ...read, value }
  if (spoken.label === spoken.binder) return { ...read, value, labelValue: value }
  const onLabel = inLanguage(typed, schema, spoken.label, languages)
  return {
    ...read,
    value,
    labelValue: decode(onLabel.document, schema).value ?? value,
    diagnostics: [
      ...diagnostics,
      ...onLabel.diagnostics.filter(
        ({ code, path }) => code === 'translation-missing' && labels.paths.test(path),
      ),
    ],
  }
}

/** Files of a kind that are kept as they were read: some folders' worth. */
const MOST_READ = 256
const known = new WeakMap<z.ZodType, Map<string, unknown>>()

/** The same, from the second time on without reading it: of a folder that is edited all files are the same but one. */
const readOnce = <T>(file: FolderFile, schema: z.ZodType<T>, reading: Reading): ReadAlone<T> => {
  const ofKind = (known.get(schema) ?? new Map()) as Map<string, ReadAlone<T>>
  known.set(schema, ofKind)
  const input = JSON.stringify([file.file, file.below, reading.spoken, reading.languages])
  // a character for each byte: two files that are no UTF-8 stay two
  const bytes = Buffer.from(file.bytes).toString('latin1')
  return keptOrMade(ofKind, MOST_READ, `${input} ${bytes}`, () => readAlone(file, schema, reading))
}

/** Which languages a shop asks for, of those that there are; from its file as it was typed, before any of it is decoded. */
const spokenBy = (
  files: readonly FolderFile[],
  languages: readonly string[],
  labels: LabelWords | undefined,
): SpokenBy => {
  const shop = files.find(({ below, refused }) => below === SHOP && !refused)
  const data = shop ? readYaml(shop.file, shop.bytes).document?.data : undefined
  const known = (language: string | undefined): string =>
    language !== undefined && languages.includes(language) ? language : FIRST_LANGUAGE
  const binder = known(textIn(data, 'language'))
  return { binder, label: labels ? known(labels.languageOf(data, binder)) : binder }
}
const SHOP = 'shop.yaml'

/** A text as it was typed, below some keys; nothing where none stands there. */
export const textIn = (data: unknown, ...keys: readonly string[]): string | undefined => {
  const found = keys.reduce(valueBelow, data)
  return typeof found === 'string' ? found.trim() : undefined
}

/** A language that nobody has written is told where it is asked for. */
export const languageKnown = (
  file: string,
  path: string,
  language: string | undefined,
  languages: readonly string[],
): Diagnostic[] =>
  language === undefined || languages.includes(language)
    ? []
    : [
        {
          severity: 'error',
          code: 'language-unknown',
          file,
          path,
          at: 'value',
          message: `This program has no words in "${language}"`,
          advice: `It has them in: ${languages.join(', ')}. Each is a folder of src/text.`,
        },
      ]

/** `pages/NAME.md`; a `pages/NAME.es.md` beside it takes its place in that language. */
const readPages = (
  files: readonly FolderFile[],
  {
    language,
    languages,
    wellNamed,
    diagnostics,
    documents,
  }: {
    readonly language: string
    readonly languages: readonly string[]
    readonly wellNamed: (file: FolderFile, key: string) => boolean
    readonly diagnostics: Diagnostic[]
    readonly documents: Map<string, SourceDocument>
  },
): PageFile[] => {
  /** by their names, each by the language that it is in; under none of them for all languages */
  const found = new Map<string, Map<string | undefined, PageFile>>()
  for (const file of files) {
    const name = keyOf(file)
    const [, base = name, given] = /^(.*)\.([a-z]{2}(?:-[A-Za-z]+)?)$/.exec(name) ?? []
    if (!wellNamed(file, base)) continue
    if (given !== undefined && !languages.includes(given)) {
      diagnostics.push({
        severity: 'error',
        code: 'translation-unknown',
        file: file.file,
        path: '',
        message: `"${given}" is no language of this program`,
        advice: `Name the page ${base}.md, or after one of: ${languages.join(', ')}.`,
      })
      continue
    }
    const page = readPage(file, base)
    diagnostics.push(...page.diagnostics)
    if (page.document) documents.set(file.file, page.document)
    const versions = found.get(base) ?? new Map<string | undefined, PageFile>()
    found.set(base, versions)
    if (page.page) versions.set(given, page.page)
  }
  return [...found.values()].flatMap((versions): PageFile[] => {
    const page = versions.get(language) ?? versions.get(undefined)
    if (page) return [page]
    const [other] = versions.values()
    if (other)
      diagnostics.push({
        severity: 'error',
        code: 'translation-missing',
        file: other.file,
        path: '',
        message: `This page is not there in ${language}, the language of the binder`,
        advice: `Put a page ${other.key}.${language}.md beside it, or name it ${other.key}.md, which stands for all languages.`,
      })
    return []
  })
}

const isOnlyOnLabels = (
  { below }: FolderFile,
  { code, path }: Diagnostic,
  labels: LabelWords | undefined,
): boolean =>
  code === 'translation-missing' && labels !== undefined && labels.isOn(below) && labels.onlyPaths.test(path)

/** A text of a language that is not printed today is read all the same: it will be tomorrow. */
const otherTexts = <T>(
  typed: YamlDocument,
  schema: z.ZodType<T>,
  picked: InLanguage,
  language: string,
  languages: readonly string[],
): Diagnostic[] =>
  [...picked.given]
    .filter((other) => other !== language)
    .flatMap((other) => {
      const { document } = inLanguage(typed, schema, other, languages)
      return decode(document, schema).diagnostics.flatMap((one) => {
        const range = document.placeOf(one.path, 'value')
        const isOther =
          picked.translated.has(one.path) && range !== picked.document.placeOf(one.path, 'value')
        return isOther && range ? [{ ...one, range }] : []
      })
    })

/** What is wrong with a file whose other lines may hold what seems to be missing. */
const LOSES_LINES: ReadonlySet<string> = new Set([
  'second-document',
  'name-missing',
  'odd-space',
  'name-forbidden',
  'name-not-text',
  'reference-not-allowed',
])
const MISSED: ReadonlySet<string> = new Set(['name-missing', 'none-of-several', 'nothing-listed'])

const keyOf = (file: FolderFile): string => file.below.replace(/^.*\//, '').replace(/\.[^.]*$/, '')
