/** A soap maker's folder to typed content: every file decoded, every name looked up, every mistake found in one run. */
import type { Diagnostic } from '../diagnostics.ts'
import { checkBuilds } from './builds.ts'
import type { Content } from './content.ts'
import { FILE_KINDS } from './file-kinds.ts'
import { FORMAT, formatFault, formatOf } from './format.ts'
import { entries, merged } from './listed.ts'
import type { ReadFile } from './look-up.ts'
import { checkMade } from './made-checks.ts'
import type { Placed } from './placed.ts'
import { checkPrices } from './prices.ts'
import { languagesIn } from './read-catalogue.ts'
import { type LabelWords, type LoadedFolder, languageKnown, openFiles, textIn } from './read-files.ts'
import type { FolderFile } from './read-folder.ts'
import type { RecipeFile } from './recipe.ts'
import { sharesNotWhole } from './recipe-sums.ts'
import { checkReferences } from './references.ts'
import { labelLanguage } from './selling.ts'
import type { ShopFile } from './shop.ts'
import { checkThin, checkTrim } from './stock.ts'
import { checkSupply } from './supply-checks.ts'
import { hasOldLines } from './upgrade/upgrade.ts'

export type Loaded = LoadedFolder<Content>

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
  const format = formatOf(files)
  const open = openFiles(files, shown, languages, LABEL_WORDS)
  const { spoken, diagnostics, documents, readFiles, typedFiles, unread, labelled } = open
  const { one, optional, folder } = open
  const unreadable = formatFault(format)
  if (unreadable && format.document)
    return {
      language: spoken.binder,
      labelLanguage: spoken.label,
      diagnostics: [unreadable],
      documents: new Map([[format.document.file, format.document]]),
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
  const pages = open.pages()

  const sources = entries(sourcesPlaced, 'sources', sourcesPlaced?.value.sources)
  const fats = merged(materials, 'fats', (file) => file.fats, diagnostics)
  const alkalis = merged(materials, 'alkalis', (file) => file.alkalis, diagnostics)
  const stockLyes = merged(materials, 'stock-lyes', (file) => file['stock-lyes'], diagnostics)
  const premixes = merged(materials, 'premixes', (file) => file.premixes, diagnostics)
  const certificates = merged(materials, 'certificates', (file) => file.certificates, diagnostics)
  const additives = merged(materials, 'additives', (file) => file.additives, diagnostics)
  const fragrances = merged(materials, 'fragrances', (file) => file.fragrances, diagnostics)
  const liquids = merged(materials, 'liquids', (file) => file.liquids, diagnostics)
  const panels = merged(materials, 'panels', (file) => file.panels, diagnostics)
  const suppliers = merged(materials, 'suppliers', (file) => file.suppliers, diagnostics)
  const packs = merged(materials, 'packs', (file) => file.packs, diagnostics)
  const packaging = merged(materials, 'packaging', (file) => file.packaging, diagnostics)

  const hardware = merged(materials, 'hardware', (file) => given(file.hardware), diagnostics)

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
  diagnostics.push(...checkThin(fixtures, panels))
  for (const recipe of recipes.values()) {
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
  }
  diagnostics.push(
    ...sharesNotWhole(
      readFiles.filter(({ folder: own }) => own === 'recipes'),
      diagnostics,
    ),
  )

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

/** Paths of the shop's file and of recipes that stand on labels, and on nothing else. */
const LABEL_WORDS: LabelWords = {
  languageOf: (shop, binder) =>
    labelLanguage(textIn(shop, 'selling', 'region'), textIn(shop, 'selling', 'label-language'), binder),
  isOn: (below) => below === 'shop.yaml' || below.startsWith('recipes/'),
  paths:
    /^\/title$|^\/label-words\/|^\/selling\/(identity$|words\/)|^(\/selling)?\/entered\/(maker-name-and-place|responsible-person|domestic-contact|durability|precautions)\//,
  onlyPaths: /^\/label-words\/|^\/selling\/(identity$|words\/)/,
}

const languagesNamed = (
  { value, document }: Placed<ShopFile>,
  languages: readonly string[],
): Diagnostic[] => [
  ...languageKnown(document.file, '/language', value.language, languages),
  ...languageKnown(document.file, '/selling/label-language', value.selling?.['label-language'], languages),
]

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

/** The entries of a map that are there. */
const given = <T>(map: Readonly<Record<string, T | undefined>> | undefined): Record<string, T> =>
  Object.fromEntries(
    Object.entries(map ?? {}).flatMap(([key, value]) => (value === undefined ? [] : [[key, value] as const])),
  )
