/** What the label of each batch says and why, whether it may be printed, and where the maker wrote what is in the way. */

import { type Finding, isStopped } from '../findings.ts'
import { type Allergens, fragranceAllergens } from '../labelling/allergens.ts'
import { type BatchCode, batchCode } from '../labelling/batch-code.ts'
import {
  type Convention,
  type IngredientStatement,
  ingredientStatement,
  type StatementInput,
} from '../labelling/ingredient-statement.ts'
import { type Gates, labelGates } from '../labelling/label-gates.ts'
import { type LabelRule, labelRules } from '../labelling/label-rules.ts'
import { type NetQuantity, type NetStatement, netQuantity, netStatement } from '../labelling/net-quantity.ts'
import { followsEurope, type Region } from '../labelling/regions.ts'
import {
  type FittedText,
  type FontMetric,
  fitText,
  leastLetterHeight,
  leastTextHeight,
  panelArea,
} from '../labelling/type-size.ts'
import type { Content } from '../schema/content.ts'
import type { Placed } from '../schema/placed.ts'
import type { RecipeFile } from '../schema/recipe.ts'
import { type GateKey, type LabelGrid, labelPaper, type SellingFile } from '../schema/selling.ts'
import { dateOf, dayNumber } from '../units/civil-day.ts'
import { barBalance } from './bar-balance.ts'
import { batchKeyOf } from './batch-keys.ts'
import type { BoundBatch } from './bind-batch.ts'
import type { BoundCure } from './bind-calendar.ts'
import { type FindingPlace, placeAt } from './finding-places.ts'
import { finishedShare, type LabelMasses, labelMasses } from './label-masses.ts'
import { scalesOf } from './shop-tools.ts'

/** Entries of the shop that stand on every label as they were typed. */
const PRINTED = [
  'maker-name-and-place', 'responsible-person', 'domestic-contact', 'durability', 'precautions',
] as const satisfies readonly GateKey[] // biome-ignore format: one line reads better

export interface BoundNet {
  /** weighed: from bars; typed or reckoned before that: only planned */
  readonly from: 'weighed' | 'typed' | 'reckoned'
  /** kg; undefined: no weight is true of these bars */
  readonly declared: number | undefined
  readonly statement: NetStatement | undefined
  /** of the bars that were weighed */
  readonly quantity: NetQuantity | undefined
  readonly bars: number
  /** of how many, if that is known */
  readonly ofBars: number | undefined
  /** day on which they were weighed, or are to be */
  readonly date: string | undefined
  /** that the scale must show of a bar that bears the declared weight [kg] */
  readonly leastReading: number | undefined
  /** that each may lose to its last day of sale, and by which the scale may show too much [kg] */
  readonly stillToLose: number
  readonly scaleError: number
  readonly lastSale: string
}

export interface BoundLabel {
  readonly batch: BoundBatch
  readonly recipe: Placed<RecipeFile>
  /** name of the bar, and what it is, in the language of the label */
  readonly title: string
  readonly identity: string | undefined
  readonly region: Region
  readonly selling: SellingFile
  /** that the label bears */
  readonly convention: Convention
  readonly statements: Readonly<Record<Convention, IngredientStatement>>
  /** all that went in, and what of it is left in the finished bar, with its range [kg, –] */
  readonly masses: LabelMasses
  readonly finished: {
    readonly low: number
    readonly middle: number
    readonly high: number
    readonly date: string
  }
  /** soap in all that is neither water nor volatile [–] */
  readonly soapShare: number
  readonly allergens: Allergens
  readonly net: BoundNet
  /** of the side that faces a buyer [m2] */
  readonly panel: { readonly width: number; readonly height: number; readonly area: number }
  /** least height of the net weight, and of all other words [m] */
  readonly letterHeight: number | undefined
  readonly textHeight: number
  /** what that height is measured on: figures and capitals, or the small o of a text in small letters */
  readonly measures: 'figures' | 'small-letters'
  /** whether lines of these widths fit the label as its net weight [in type sizes] */
  readonly fitNet: (
    font: Omit<FontMetric, 'advance'>,
    lines: readonly number[],
    leading: number,
  ) => FittedText | undefined
  readonly code: BatchCode | undefined
  readonly gates: Gates
  readonly rules: readonly LabelRule[]
  /** as typed, of shop and recipe, that stand on the label */
  readonly printed: Readonly<Partial<Record<(typeof PRINTED)[number], string>>>
  /** a day of the last whole month in which it is still good */
  readonly bestBefore: string | undefined
  readonly words: readonly string[]
  readonly grid: LabelGrid | undefined
  /** that labels are printed on [m] */
  readonly paper: { readonly width: number; readonly height: number }
  /** who decided that its bars may go, and when; undefined: nobody has typed it in */
  readonly released: { readonly date: string; readonly by: string } | undefined
  /** labels may be sold; bear that they may not; are not printed at all */
  readonly state: 'for-sale' | 'not-for-sale' | 'none'
  readonly findings: readonly Finding[]
  readonly placesOf: (finding: Finding) => readonly FindingPlace[]
}

/** @returns a label for each batch that may be made; none where the shop does not say where it sells */
export const bindLabels = (
  content: Content,
  batches: readonly BoundBatch[],
  cures: readonly BoundCure[],
): BoundLabel[] => {
  const { selling } = content.shop.value
  if (!selling) return []
  const labels = batches.flatMap((batch) => {
    const cure = cures.find((one) => one.batch === batch)
    return batch.state === 'stop' || !cure ? [] : [bindLabel(content, selling, batch, cure)]
  })
  // Two batches of one day and one key would bear one code: nobody could call back one of them.
  const codes = labels.map(({ code }) => code?.code)
  return labels.map((label) => {
    const same = codes.filter((code) => code !== undefined && code === label.code?.code).length
    if (same < 2) return label
    return withFindings(label, [
      ...label.findings,
      { code: 'label-code-twice', severity: 'stop', values: { batchCode: label.code?.code ?? '' } },
    ])
  })
}

/** What the sheet of rules says: gates of the shop alone, and of each recipe with its own entries. */
export interface ShopRules {
  readonly selling: SellingFile
  /** for which bars are said to keep; undefined where the shop says nothing of it [d] */
  readonly keeps: number | undefined
  readonly gates: Gates
  readonly rules: readonly LabelRule[]
  readonly recipes: readonly { readonly key: string; readonly title: string; readonly gates: Gates }[]
}

/** @returns nothing for a shop that does not say where it sells */
export const bindShopRules = ({ recipes, shop }: Content): ShopRules | undefined => {
  const { selling } = shop.value
  if (!selling) return undefined
  const { region } = selling
  const gatesWith = (own?: Entered): Gates =>
    labelGates({
      region,
      soldAs: selling['sold-as'] ?? 'soap',
      entered: given(selling.entered, bestBeforeEntry(selling), own),
      wording: [],
    })
  const gates = gatesWith()
  return {
    selling,
    keeps: keptDays(selling),
    gates,
    rules: labelRules(region, gates.status),
    recipes: [...recipes.values()].map(({ key, value }) => ({
      key,
      title: value.title,
      gates: gatesWith(value.entered),
    })),
  }
}

const bindLabel = (
  content: Content,
  selling: SellingFile,
  batch: BoundBatch,
  cure: BoundCure,
): BoundLabel => {
  const recipe = content.recipes.get(batch.recipeKey)
  if (!recipe) throw new Error(`No recipe "${batch.recipeKey}".`)
  const { region } = selling
  const { entered: ofRecipe } = recipe.value
  // what stands on the label, in its language
  const { shop, recipes } = content.onLabels
  const {
    title,
    entered: saidOfRecipe,
    'label-words': recipeWords = [],
  } = recipes.get(recipe.key) ?? recipe.value
  const { identity, words: shopWords = [], entered: saidOfShop } = shop.selling ?? selling
  const convention = selling.ingredients ?? 'as-put-in'
  const wrapped = batch.file.value.made?.wrapped
  const date = wrapped?.date ?? cure.labelDays[0]?.date ?? dateOf(dayNumber(batch.date) + cure.label.until)
  const days = dayNumber(date) - dayNumber(batch.date)
  const masses = labelMasses(content, batch, region)
  const share = finishedShare(cure, days)
  const finished = {
    low: masses.all * share.low,
    middle: masses.all * share.middle,
    high: masses.all * share.high,
    date,
  }
  const allergens = fragranceAllergens({
    region,
    fragrances: masses.fragrances,
    finishedMass: finished.middle,
    placedOnMarket: date,
  })
  const input: StatementInput = {
    ...masses.statement,
    region,
    allergens: allergens.lines.filter(({ verdict }) => verdict === 'named'),
    finishedMass: finished.middle,
  }
  const statements = {
    'as-put-in': ingredientStatement('as-put-in', input),
    'as-finished': ingredientStatement('as-finished', input),
  }
  const gates = labelGates({
    region,
    soldAs: selling['sold-as'] ?? 'soap',
    entered: given(selling.entered, bestBeforeEntry(selling), ofRecipe),
    wording: [title, ...(identity === undefined ? [] : [identity]), ...shopWords, ...recipeWords],
  })
  const net = netOf(content, selling, batch, cure, date)
  const face = selling.face ?? largestFace(batch)
  const area = panelArea({ shape: 'rectangular', ...face })
  const grid = selling.labels
  const letterHeight =
    net.declared === undefined
      ? undefined
      : leastLetterHeight({
          region,
          area: Math.max(area, grid ? grid.width * grid.height : 0),
          declared: net.declared,
          kind: gates.status,
        })
  const key = batchKeyOf(batch.file.value, recipe.value)
  const read = key === undefined ? undefined : batchCode(batch.date, key)
  const printed = Object.fromEntries(
    PRINTED.flatMap((gate) => {
      const text = (saidOfRecipe?.[gate] ?? saidOfShop?.[gate])?.text
      return text === undefined ? [] : [[gate, text]]
    }),
  )
  const label: BoundLabel = {
    batch,
    recipe,
    title,
    identity,
    region,
    selling,
    convention,
    statements,
    masses,
    finished,
    soapShare: masses.soap / masses.dry,
    allergens,
    net,
    panel: { ...face, area },
    letterHeight,
    textHeight: leastTextHeight(region),
    measures: followsEurope(region) ? 'figures' : 'small-letters',
    fitNet: (font, lines, leading) =>
      letterHeight === undefined || !grid
        ? undefined
        : fitText({
            letterHeight,
            font: { ...font, advance: 1 },
            lines,
            leading,
            panel: { width: grid.width, height: grid.height },
            netWeightOf: region,
          }),
    code: read?.ok ? read.batch : undefined,
    gates,
    rules: labelRules(region, gates.status),
    printed,
    bestBefore: bestBefore(selling, batch),
    words: [...shopWords, ...recipeWords],
    grid,
    paper: labelPaper(content.shop.value),
    released: releaseOf(batch),
    state: 'none',
    findings: [],
    placesOf: (finding) => placesIn(content, batch, recipe, finding),
  }
  const other = convention === 'as-put-in' ? 'as-finished' : 'as-put-in'
  return withFindings(label, [
    ...unique([
      ...heldBack(batch),
      ...statements[convention].findings,
      // the other list stands beside it on its sheet, on no label
      ...statements[other].findings.map((one) => ({ ...one, severity: 'warn' }) as const),
    ]),
    ...orderFindings(convention, input, finished),
    ...masses.findings,
    ...allergens.findings,
    ...(net.quantity?.findings ?? []),
    ...weightFindings(batch, net),
    ...(label.soapShare > HALF || gates.status !== 'soap'
      ? []
      : [{ code: 'soap-below-half', severity: 'stop', values: { share: label.soapShare } } as const]),
    ...(label.code ? [] : [noCode(region)]),
    ...(letterHeight === undefined && net.declared !== undefined && region !== 'CA'
      ? [{ code: 'label-letters-unknown', severity: 'hold', values: { region } } as const]
      : []),
    ...gates.findings,
  ])
}

/** Of what is neither water nor volatile: soap by law is most of it [–], 21 CFR 701.20, read. */
const HALF = 0.5

const noCode = (region: Region): Finding => ({
  code: 'label-code-missing',
  severity: followsEurope(region) ? 'stop' : 'warn',
  values: { region },
})

const releaseOf = ({ file }: BoundBatch): BoundLabel['released'] => {
  const release = file.value.made?.release
  return release?.decision === 'released' ? release : undefined
}

/** What is held by its batch waits for the test; what failed it is never labelled. */
const heldBack = ({ state, file }: BoundBatch): Finding[] => {
  const test = file.value['release-test']
  if (test?.result === 'failed')
    return [{ code: 'label-test-failed', severity: 'stop', values: { on: test.date } }]
  const release = file.value.made?.release
  if (release && release.decision !== 'released')
    return [{ code: 'label-not-released', severity: 'stop', values: { on: release.date } }]
  return state === 'hold' && !test ? [{ code: 'label-batch-held', severity: 'stop', values: {} }] : []
}

/** An open gate makes labels that bear it; all else that holds or stops makes none. */
const withFindings = (label: BoundLabel, findings: readonly Finding[]): BoundLabel => {
  const held = findings.some(({ severity, code }) => severity === 'hold' && code !== 'label-gate-open')
  const isNone = isStopped(findings) || held
  const mayBeSold = label.gates.mayBeSold && label.net.from === 'weighed'
  return { ...label, findings, state: isNone ? 'none' : mayBeSold ? 'for-sale' : 'not-for-sale' }
}

const largestFace = ({ mould }: BoundBatch): { readonly width: number; readonly height: number } => {
  const { alongLength, alongWidth, thickness } = mould.bar.green
  const [width = 0, height = 0] = [alongLength, alongWidth, thickness].sort((a, b) => b - a)
  return { width, height }
}

/** In whole grams, up: below it a bar does not keep its label to its last day. */
const leastReading = (declared: number, stillToLose: number, scaleError: number): number =>
  Math.ceil((declared + stillToLose + scaleError) * 1000 - HAIR * 1000) / 1000

const netOf = (
  content: Content,
  selling: SellingFile,
  batch: BoundBatch,
  cure: BoundCure,
  date: string,
): BoundNet => {
  const { made, 'label-weight': typed } = batch.file.value
  const { region } = selling
  const poured = dayNumber(batch.date)
  const lossBetween = cure.lossBetween
  const stillToLose = Math.max(0, lossBetween(dayNumber(date) - poured, cure.label.until))
  // what is weighed by the gram is off by one division at most
  const scaleError = Math.min(...scalesOf(content.shop.value).map(({ division }) => division))
  const common = { date, stillToLose, scaleError, lastSale: dateOf(poured + cure.label.until) }
  const weights = made?.wrapped?.weights
  if (!weights) {
    const declared = typed ?? cure.label.most
    return {
      ...common,
      from: typed === undefined ? 'reckoned' : 'typed',
      declared,
      leastReading: leastReading(declared, stillToLose, scaleError),
      statement: netStatement(declared, region),
      quantity: undefined,
      bars: 0,
      ofBars: undefined,
    }
  }
  const { fit: ofBars } = barBalance(made)
  const quantity = netQuantity({
    region,
    rule: selling.weight ?? 'least',
    bars: weights,
    all: ofBars !== undefined && weights.length >= ofBars,
    stillToLose,
    scaleError,
  })
  const most = quantity.declared
  const declared = most === undefined ? undefined : Math.min(most, typed ?? most)
  return {
    ...common,
    from: 'weighed',
    declared,
    leastReading: declared === undefined ? undefined : leastReading(declared, stillToLose, scaleError),
    statement: declared === undefined ? undefined : netStatement(declared, region),
    quantity,
    bars: weights.length,
    ofBars,
  }
}

/** kg, and share of a whole [–]: a typed weight is not held against a bar's last bit */
const HAIR = 1e-9

const weightFindings = ({ file }: BoundBatch, { quantity }: BoundNet): Finding[] => {
  const typed = file.value['label-weight']
  const most = quantity?.declared
  if (typed === undefined || most === undefined || typed <= most + HAIR) return []
  return [{ code: 'label-above-bars', severity: 'stop', values: { declared: typed, labelMost: most } }]
}

/** Water stands where it stands by what dries: told where another end of its range puts it elsewhere. */
const orderFindings = (
  convention: Convention,
  input: StatementInput,
  { low, high }: BoundLabel['finished'],
): Finding[] => {
  if (convention === 'as-put-in') return []
  // of all that is listed only the water hangs on how much bars dry
  const placeIn = (finishedMass: number): number => {
    const { lines, total } = ingredientStatement(convention, { ...input, finishedMass })
    const water = lines.reduce((sum, line) => sum + (isWater(line.name) ? line.mass : 0), 0)
    return 1 + lines.filter(({ name, mass }) => !isWater(name) && mass > water + total * HAIR).length
  }
  const [placeDry, placeDamp] = [placeIn(low), placeIn(high)]
  return placeDry === placeDamp
    ? []
    : [{ code: 'label-order-unsure', severity: 'warn', values: { placeDry, placeDamp } }]
}

const isWater = (name: string): boolean => name === 'Water' || name === 'Aqua'

const unique = (findings: readonly Finding[]): Finding[] => {
  const seen = new Set<string>()
  return findings.filter(({ code, values }) => {
    const key = `${code} ${JSON.stringify(values)}`
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}

type Entered = NonNullable<SellingFile['entered']>

/** The later one goes before the earlier one: a recipe's entry is nearer to its bars than its shop's. */
const given = (...entered: readonly (Entered | undefined)[]): Parameters<typeof labelGates>[0]['entered'] => {
  const all: Record<string, { readonly text: string; readonly date?: string }> = {}
  for (const one of entered)
    for (const [gate, entry] of Object.entries(one ?? {}))
      if (entry) all[gate] = { text: entry.text, ...(entry.date === undefined ? {} : { date: entry.date }) }
  return all
}

/** A time that is reckoned for each batch is what the gate asks for. */
const bestBeforeEntry = (selling: SellingFile): Entered | undefined => {
  const days = keptDays(selling)
  return days === undefined ? undefined : ({ durability: { text: `${days} d` } } as Entered)
}

const keptDays = ({ 'best-before': keeps }: SellingFile): number | undefined =>
  keeps === undefined ? undefined : Math.round(keeps / DAY)

/** s */
const DAY = 86400

/** The last day of the last whole month. */
const bestBefore = ({ 'best-before': keeps }: SellingFile, { date }: BoundBatch): string | undefined => {
  if (keeps === undefined) return undefined
  const last = dayNumber(date) + Math.floor(keeps / DAY)
  // the first of the month after it is the day after a whole month; else the month before is the last whole one
  const [year, month] = dateOf(last + 1).split('-')
  return dateOf(dayNumber(`${year}-${month}-01`) - 1)
}

const placesIn = (
  content: Content,
  batch: BoundBatch,
  recipe: Placed<RecipeFile>,
  { code, values }: Finding,
): readonly FindingPlace[] => {
  const { shop } = content
  const at = (
    thing: Pick<Placed<unknown>, 'document' | 'path'> | undefined,
    below: string,
  ): FindingPlace[] => {
    if (!thing) return []
    const { document, path } = thing
    const place = placeAt(document, path + below) ?? (path === '' ? undefined : placeAt(document, path))
    return place ? [place] : []
  }
  const named = <T extends { readonly name: string }>(
    things: ReadonlyMap<string, Placed<T>>,
  ): Placed<T> | undefined =>
    [...things.values()].find(({ value: { name } }) => name === (values.name ?? values.fragrance))
  switch (code) {
    case 'ingredient-name-missing':
    case 'colour-number-missing':
      return at(named(content.additives) ?? named(content.liquids), '/inci')
    case 'liquid-water-unknown':
      return at(named(content.liquids), '/water')
    case 'fragrance-undeclared':
    case 'fragrance-above-whole':
      return at(named(content.fragrances), '/declares')
    case 'soap-name-unknown':
    case 'soap-name-unsure':
      return at(
        [...content.fats.values()].find(({ value }) => value.inci.name === values.fat),
        '/inci',
      )
    case 'label-gate-open':
    case 'label-task-open':
      return at({ document: shop.document, path: '/selling' }, '/entered')
    case 'label-text-too-wide':
      return at(shop, '/selling/labels/width')
    case 'label-text-too-tall':
    case 'label-text-above-zone':
      return at(shop, '/selling/labels/height')
    case 'label-code-missing':
    case 'label-code-twice':
      return [...at(batch.file, '/code'), ...at(recipe, '/code'), ...at(recipe, '/title')].slice(0, 1)
    case 'label-above-bars':
      return at(batch.file, '/label-weight')
    case 'bars-not-weighed':
    case 'bars-below-one-gram':
    case 'few-bars-weighed':
      return at(batch.file, '/made/wrapped/weights')
    case 'label-not-released':
      return at(batch.file, '/made/release')
    case 'label-test-failed':
    case 'label-batch-held':
      return [...at(batch.file, '/release-test'), ...at(batch.file, '/recipe')].slice(0, 1)
    case 'label-rules-unknown':
    case 'label-letters-unknown':
    case 'may-contain-not-allowed':
      return at(shop, '/selling/region')
    default:
      return []
  }
}
