/** A maker's folder to typed content: every file decoded, every name looked up, every mistake found in one run. */
import type { z } from 'zod'
import type { Diagnostic, SourceDocument } from '../diagnostics.ts'
import { keptOrMade } from '../kept-or-made.ts'
import { checkBuilds } from './builds.ts'
import type { Content, PageFile, Placed } from './content.ts'
import { decode } from './decode.ts'
import { FILE_KINDS } from './file-kinds.ts'
import { FORMAT, formatFault, formatOf } from './format.ts'
import { checkMade } from './made-checks.ts'
import type { MaterialsFile } from './materials.ts'
import { readPage } from './page.ts'
import { checkPrices, type TypedFile } from './prices.ts'
import { FIRST_LANGUAGE, languagesIn } from './read-catalogue.ts'
import type { FolderFile } from './read-folder.ts'
import type { RecipeFile } from './recipe.ts'
import { checkReferences, type ReadFile } from './references.ts'
import { valueBelow } from './schema-walk.ts'
import { labelLanguage } from './selling.ts'
import type { ShopFile } from './shop.ts'
import { checkTrim } from './stock.ts'
import { checkSupply } from './supply-checks.ts'
import { type InLanguage, inLanguage } from './translations.ts'
import { hasOldLines } from './upgrade/upgrade.ts'
import { readYaml, type YamlDocument } from './yaml.ts'

export interface Loaded {
  /** of the binder; English where the shop names none that there is */
  readonly language: string
  /** of labels */
  readonly labelLanguage: string
  /** missing when anything is wrong */
  readonly content?: Content
  readonly diagnostics: readonly Diagnostic[]
  /** every document by the name that messages use, for showing the line at fault */
  readonly documents: ReadonlyMap<string, SourceDocument>
}

/**
 * Decodes the files of one folder.
 * @param files  as read by read-folder.ts
 * @param shown  how messages name the folder
 * @param languages that this program has words in
 */
export const loadContent = (
  files: readonly FolderFile[],
  shown: string,
  languages: readonly string[] = languagesIn(),
): Loaded => {
  const spoken = spokenBy(files, languages)
  const format = formatOf(files)
  const unreadable = formatFault(format)
  if (unreadable && format.document)
    return {
      language: spoken.binder,
      labelLanguage: spoken.label,
      diagnostics: [unreadable],
      documents: new Map([[format.document.file, format.document]]),
    }
  const diagnostics: Diagnostic[] = []
  const documents = new Map<string, SourceDocument>()
  const readFiles: ReadFile[] = []
  const typedFiles: TypedFile[] = []
  // What a file that is no YAML would have named is not reported missing on top of it.
  const unread = new Set<string>()

  for (const { below, refused } of files) if (refused) unread.add(below.replace(/\/.*$/, ''))

  const read = <T>(file: FolderFile, schema: z.ZodType<T>): Placed<T> | undefined => {
    if (file.refused) return undefined
    const {
      document,
      source,
      value,
      labelValue,
      diagnostics: found,
    } = readOnce(file, schema, spoken, languages)
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
    if (file.refused || /^[a-z0-9]+(-[a-z0-9]+)*$/.test(key)) return true
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

  const shop = one(FILE_KINDS.shop)
  if (shop) diagnostics.push(...languagesNamed(shop, languages))
  const sourcesPlaced = optional(FILE_KINDS.sources)
  const materials = [...folder(FILE_KINDS.materials).values()]
  const recipes = folder(FILE_KINDS.recipe)
  const fixtures = folder(FILE_KINDS.fixture)
  const batches = folder(FILE_KINDS.batch)
  const markets = folder(FILE_KINDS.market)
  const builds = folder(FILE_KINDS.build)
  const ledgers = folder(FILE_KINDS.stock)
  const printed = optional(FILE_KINDS.printed)
  const pages = readPages(
    files.filter(({ below, refused }) => below.startsWith('pages/') && !refused),
    { language: spoken.binder, languages, wellNamed, diagnostics, documents },
  )

  const sources = entries(sourcesPlaced, 'sources', sourcesPlaced?.value.sources)
  const fats = merge(materials, 'fats', (file) => file.fats, diagnostics)
  const alkalis = merge(materials, 'alkalis', (file) => file.alkalis, diagnostics)
  const stockLyes = merge(materials, 'stock-lyes', (file) => file['stock-lyes'], diagnostics)
  const premixes = merge(materials, 'premixes', (file) => file.premixes, diagnostics)
  const certificates = merge(materials, 'certificates', (file) => file.certificates, diagnostics)
  const additives = merge(materials, 'additives', (file) => file.additives, diagnostics)
  const fragrances = merge(materials, 'fragrances', (file) => file.fragrances, diagnostics)
  const liquids = merge(materials, 'liquids', (file) => file.liquids, diagnostics)
  const panels = merge(materials, 'panels', (file) => file.panels, diagnostics)
  const suppliers = merge(materials, 'suppliers', (file) => file.suppliers, diagnostics)
  const packs = merge(materials, 'packs', (file) => file.packs, diagnostics)
  const packaging = merge(materials, 'packaging', (file) => file.packaging, diagnostics)

  const hardware = merge(materials, 'hardware', (file) => given(file.hardware), diagnostics)

  diagnostics.push(...checkReferences(readFiles, unread))
  diagnostics.push(...checkPrices(typedFiles))
  diagnostics.push(...checkBuilds(builds, fixtures))
  diagnostics.push(...checkMade(batches, fixtures))
  diagnostics.push(
    ...checkSupply({
      stocked: {
        fats,
        alkalis,
        'stock-lyes': stockLyes,
        premixes,
        additives,
        fragrances,
        liquids,
        packaging,
      },
      packs,
      ledgers,
    }),
  )
  if (shop) diagnostics.push(...checkTrim(shop, panels))
  for (const recipe of recipes.values()) {
    // A fat whose name cannot be read is missing from the sum as well.
    if (diagnostics.some(({ file, severity }) => file === recipe.document.file && severity === 'error'))
      continue
    const [first, second] = Object.keys(recipe.value.alkalis ?? {}).map((key) => alkalis.get(key)?.value.kind)
    if (first !== undefined && first === second)
      diagnostics.push({
        severity: 'error',
        code: 'alkalis-of-one-kind',
        file: recipe.document.file,
        path: '/alkalis',
        at: 'key',
        message: `Both alkalis are ${first}`,
        advice: 'Name one NaOH and one KOH, or one alkali with "alkali:".',
      })
    const sum = Object.values(recipe.value.fats).reduce((total, part) => total + part, 0)
    if (Math.abs(sum - 1) > SHARE_TOLERANCE)
      diagnostics.push({
        severity: 'error',
        code: 'shares-not-100',
        file: recipe.document.file,
        path: '/fats',
        at: 'key',
        message: `The fats make ${percent(sum)} %, not 100 %`,
        advice:
          sum < 1
            ? `Add ${percent(1 - sum)} % to one of them, or share it out.`
            : `Take ${percent(sum - 1)} % off one of them, or share it out.`,
      })
  }

  diagnostics.push(...marketsPast(readFiles))

  const wrong = diagnostics.some((diagnostic) => diagnostic.severity === 'error')
  if (wrong && format.document && format.format < FORMAT && hasOldLines(files))
    diagnostics.push({
      severity: 'warning',
      code: 'format-old',
      file: format.document.file,
      path: '',
      message: `This folder is of format ${format.format}, and some of its lines are written otherwise now`,
      advice: `Run "npm run upgrade -- ${shown}": it mends what it can, says what only you can know, and keeps a copy of the folder as it is.`,
    })
  const said = { language: spoken.binder, labelLanguage: spoken.label }
  if (wrong || !shop) return { ...said, diagnostics, documents }
  return {
    ...said,
    content: {
      shop,
      onLabels: {
        language: spoken.label,
        shop: labelled.get('shop.yaml') as ShopFile,
        recipes: new Map(
          [...recipes.values()].map(({ key }) => [key, labelled.get(`recipes/${key}.yaml`) as RecipeFile]),
        ),
      },
      sources,
      fats,
      alkalis,
      stockLyes,
      premixes,
      certificates,
      additives,
      fragrances,
      liquids,
      panels,
      hardware,
      suppliers,
      packs,
      packaging,
      ledgers,
      recipes,
      fixtures,
      batches,
      markets,
      builds,
      pages,
      ...(printed ? { printed } : {}),
    },
    diagnostics,
    documents,
  }
}

type OneFile<T> = { readonly place: { readonly file: string }; readonly schema: z.ZodType<T> }
type ManyFiles<T> = { readonly place: { readonly folder: string }; readonly schema: z.ZodType<T> }

interface SpokenBy {
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

const readAlone = <T>(
  file: FolderFile,
  schema: z.ZodType<T>,
  spoken: SpokenBy,
  languages: readonly string[],
): ReadAlone<T> => {
  const { document: typed, source, diagnostics: unreadable } = readYaml(file.file, file.bytes)
  if (!typed) return { source, diagnostics: unreadable }
  const picked = inLanguage(typed, schema, spoken.binder, languages)
  const { document } = picked
  const { value, diagnostics: wrong } = decode(document, schema)
  // A line that YAML could not place is not reported missing on top of it.
  const lost = unreadable.some(({ code }) => LOSES_LINES.has(code))
  const diagnostics = [
    ...unreadable,
    ...picked.diagnostics.filter((one) => !isOnlyOnLabels(file, one)),
    ...otherTexts(typed, schema, picked, spoken.binder, languages),
    ...wrong.filter(({ code }) => !lost || !MISSED.has(code)),
  ]
  const read = { document, source: document, diagnostics }
  if (value === undefined) return read
  if (!isOnLabels(file)) return { ...read, value }
  if (spoken.label === spoken.binder) return { ...read, value, labelValue: value }
  const onLabel = inLanguage(typed, schema, spoken.label, languages)
  return {
    ...read,
    value,
    labelValue: decode(onLabel.document, schema).value ?? value,
    diagnostics: [
      ...diagnostics,
      ...onLabel.diagnostics.filter(
        ({ code, path }) => code === 'translation-missing' && ON_LABELS.test(path),
      ),
    ],
  }
}

/** Files of a kind that are kept as they were read: some folders' worth. */
const MOST_READ = 256
const known = new WeakMap<z.ZodType, Map<string, unknown>>()

/** The same, from the second time on without reading it: of a folder that is edited all files are the same but one. */
const readOnce = <T>(
  file: FolderFile,
  schema: z.ZodType<T>,
  spoken: SpokenBy,
  languages: readonly string[],
): ReadAlone<T> => {
  const ofKind = (known.get(schema) ?? new Map()) as Map<string, ReadAlone<T>>
  known.set(schema, ofKind)
  const input = JSON.stringify([file.file, file.below, spoken, languages])
  // a character for each byte: two files that are no UTF-8 stay two
  const bytes = Buffer.from(file.bytes).toString('latin1')
  return keptOrMade(ofKind, MOST_READ, `${input} ${bytes}`, () => readAlone(file, schema, spoken, languages))
}

/** Which languages a shop asks for, of those that there are; from its file as it was typed, before any of it is decoded. */
const spokenBy = (files: readonly FolderFile[], languages: readonly string[]): SpokenBy => {
  const shop = files.find(({ below, refused }) => below === 'shop.yaml' && !refused)
  const data = shop ? readYaml(shop.file, shop.bytes).document?.data : undefined
  const textOf = (node: unknown, key: string): string | undefined => {
    const found = valueBelow(node, key)
    return typeof found === 'string' ? found.trim() : undefined
  }
  const known = (language: string | undefined): string =>
    language !== undefined && languages.includes(language) ? language : FIRST_LANGUAGE
  const binder = known(textOf(data, 'language'))
  const selling = valueBelow(data, 'selling')
  return {
    binder,
    label: known(labelLanguage(textOf(selling, 'region'), textOf(selling, 'label-language'), binder)),
  }
}

/** A language that nobody has written is told where it is asked for. */
const languagesNamed = ({ value, document }: Placed<ShopFile>, languages: readonly string[]): Diagnostic[] =>
  (
    [
      ['/language', value.language],
      ['/selling/label-language', value.selling?.['label-language']],
    ] as const
  ).flatMap(([path, language]): Diagnostic[] =>
    language === undefined || languages.includes(language)
      ? []
      : [
          {
            severity: 'error',
            code: 'language-unknown',
            file: document.file,
            path,
            at: 'value',
            message: `This program has no words in "${language}"`,
            advice: `It has them in: ${languages.join(', ')}. Each is a folder of src/text.`,
          },
        ],
  )

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

const isOnLabels = ({ below }: FolderFile): boolean => below === 'shop.yaml' || below.startsWith('recipes/')

/** Paths of the shop's file and of recipes that stand on labels. */
const ON_LABELS =
  /^\/title$|^\/label-words\/|^\/selling\/(identity$|words\/)|^(\/selling)?\/entered\/(maker-name-and-place|responsible-person|domestic-contact|durability|precautions)\//
/** And on nothing else. */
const ONLY_ON_LABELS = /^\/label-words\/|^\/selling\/(identity$|words\/)/

const isOnlyOnLabels = (file: FolderFile, { code, path }: Diagnostic): boolean =>
  code === 'translation-missing' && isOnLabels(file) && ONLY_ON_LABELS.test(path)

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

/** Days as typed: whatever else is wrong with either file, a market that is past is told in the same run. */
const marketsPast = (files: readonly ReadFile[]): Diagnostic[] => {
  const dayIn = ({ document: { data } }: ReadFile, name: string): string | undefined => {
    const day =
      typeof data === 'object' && data !== null
        ? Object.entries(data).find(([key]) => key === name)?.[1]
        : undefined
    return typeof day === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(day) ? day : undefined
  }
  const shop = files.find(({ folder }) => folder === 'shop.yaml')
  const edition = shop && dayIn(shop, 'edition')
  if (!shop || edition === undefined) return []
  return files
    .filter(({ folder }) => folder === 'markets')
    .flatMap((market): Diagnostic[] => {
      const day = dayIn(market, 'date')
      if (day === undefined || day > edition) return []
      return [
        {
          severity: 'error',
          code: 'market-is-past',
          file: market.document.file,
          path: '/date',
          at: 'value',
          message: `This day is past: the binder's edition is of ${edition}`,
          advice: 'Give the next date, take the file out, or set back "edition" in shop.yaml.',
          related: [
            {
              file: shop.document.file,
              path: '/edition',
              at: 'value',
              message: 'the edition stands here',
            },
          ],
        },
      ]
    })
}

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

/** Shares are typed with few digits: 33.3 + 33.3 + 33.4 is meant to be 100. */
const SHARE_TOLERANCE = 0.0005

const percent = (share: number): string => String(Math.round(share * 10_000) / 100)

const keyOf = (file: FolderFile): string => file.below.replace(/^.*\//, '').replace(/\.[^.]*$/, '')

/** The entries of a map that are there. */
const given = <T>(map: Readonly<Record<string, T | undefined>> | undefined): Record<string, T> =>
  Object.fromEntries(
    Object.entries(map ?? {}).flatMap(([key, value]) => (value === undefined ? [] : [[key, value] as const])),
  )

const entries = <T>(
  file: Placed<unknown> | undefined,
  part: string,
  values: Readonly<Record<string, T>> | undefined,
): Map<string, Placed<T>> => {
  const found = new Map<string, Placed<T>>()
  if (file)
    for (const [key, value] of Object.entries(values ?? {}))
      found.set(key, { key, value, document: file.document, path: `/${part}/${key}` })
  return found
}

/** One mapping out of all materials files; the same key twice is told with both places. */
const merge = <T>(
  files: readonly Placed<MaterialsFile>[],
  part: keyof MaterialsFile,
  within: (file: MaterialsFile) => Readonly<Record<string, T>> | undefined,
  diagnostics: Diagnostic[],
): Map<string, Placed<T>> => {
  const found = new Map<string, Placed<T>>()
  for (const file of files)
    for (const [key, placed] of entries(file, part, within(file.value))) {
      const before = found.get(key)
      if (!before) {
        found.set(key, placed)
        continue
      }
      diagnostics.push({
        severity: 'error',
        code: 'named-twice',
        file: placed.document.file,
        path: placed.path,
        at: 'key',
        message: `"${key}" is already the name of another of the ${part}`,
        advice: 'Give one of them another name, or take one out.',
        related: [{ file: before.document.file, path: before.path, at: 'key', message: 'first named here' }],
      })
    }
  return found
}
