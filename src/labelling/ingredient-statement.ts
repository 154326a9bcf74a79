/** The list of ingredients on a label: what went in, or what the finished bar is made of. */
import { type AddedAcid, type AddedAcidName, type Alkali, waterWithAcid } from '../chemistry/alkali.ts'
import { type ReactingFat, reactionProducts } from '../chemistry/mass-balance.ts'
import type { Finding } from '../findings.ts'
import { followsEurope, type Region } from './regions.ts'
import { type SaltNames, saltNamesOf } from './salt-names.ts'

/** Both are in use; a label keeps to one of them. */
export type Convention = 'as-put-in' | 'as-finished'

export interface LabelledFat extends ReactingFat {
  readonly inci: string
  /** in place of the list of this program */
  readonly salts?: SaltNames
}

/** What goes in beside fats, lye and acids. */
export interface LabelledAddition {
  /** as the maker calls it */
  readonly name: string
  /** undefined: nobody has said */
  readonly inci: string | undefined
  readonly kind: 'plain' | 'fragrance' | 'colour'
  /** as weighed [kg] */
  readonly mass: number
  /** of that, water that dries with the bar [kg] */
  readonly water?: number
  /** a colour that some bars of the line have and others lack */
  readonly inSomeBars?: boolean
  readonly nano?: boolean
}

export interface StatementInput {
  readonly region: Region
  readonly fats: readonly LabelledFat[]
  /** pure alkali [kg] */
  readonly alkali: Readonly<Record<Alkali, number>>
  /** water as weighed, with that of a stock lye [kg] */
  readonly water: number
  readonly acids?: readonly AddedAcid[]
  readonly additions?: readonly LabelledAddition[]
  /** fragrance allergens that must be named, with their mass, which the fragrance holds already [kg] */
  readonly allergens?: readonly { readonly name: string; readonly mass: number }[]
  /** what all that went in weighs as finished bars, trim and all; for the finished bar only [kg] */
  readonly finishedMass?: number
}

export interface StatementLine {
  readonly name: string
  /** [kg] */
  readonly mass: number
  /** of all that is listed [–] */
  readonly share: number
  /** what must descend, what may follow in any order, and colours after all others */
  readonly group: 'descending' | 'any-order' | 'colours'
}

/** What the masses of a statement rest on; words are the sheet's. */
export type StatementAssumption =
  | 'alkali-counts-pure'
  | 'every-fat-stays-free-by-one-share'
  | 'unsaponifiable-counts-with-its-fat'
  | 'nothing-leaves-but-water'

export interface IngredientStatement {
  readonly convention: Convention
  readonly lines: readonly StatementLine[]
  /** colours that some bars have, after "may contain" */
  readonly mayContain: readonly string[]
  /** of all lines but allergens, which are part of the fragrance [kg] */
  readonly total: number
  readonly assumptions: readonly StatementAssumption[]
  readonly findings: readonly Finding[]
}

/** EU and Great Britain by the Latin or French name, the United States in English (from memory). */
const names = (region: Region) =>
  region === 'US' ? { water: 'Water', fragrance: 'Fragrance' } : { water: 'Aqua', fragrance: 'Parfum' }

const ALKALI_NAMES: Readonly<Record<Alkali, string>> = {
  NaOH: 'Sodium Hydroxide',
  KOH: 'Potassium Hydroxide',
}

/** From memory. */
const ACID_NAMES: Readonly<Record<AddedAcidName, { acid: string; salt: string }>> = {
  'citric-acid': { acid: 'Citric Acid', salt: 'Citrate' },
  'citric-acid-monohydrate': { acid: 'Citric Acid', salt: 'Citrate' },
  'lactic-acid': { acid: 'Lactic Acid', salt: 'Lactate' },
  'acetic-acid': { acid: 'Acetic Acid', salt: 'Acetate' },
}

/** Above this ingredients descend [–]; at it exactly the two laws differ. */
const ONE_PERCENT = 0.01

/** Masses nearer than this part of all are one mass: sums in another order must not change a label. */
const SAME = 1e-9

/** Less than this part of all is rounding, and no ingredient. */
const TRACE = 1e-6

/** Of the finished bar: water that comes out this far below nothing is rounding [–]. */
const SLACK = 1e-9

/** "CI" and five figures. */
const INDEX_NUMBER = /^CI \d{5}(:\d)?$/

interface Entry {
  readonly name: string
  readonly mass: number
  readonly colour?: boolean
}

/**
 * Ingredients in the order of a label.
 *
 *     as put in:  fats, alkali, acids, water, additions
 *     finished:   soap of each fat, free fat, glycerol, salts of acids, additions without their water,
 *                 water = finished mass − all of these
 *     descending by mass; under 1 % (US: 1 % and less) in any order after them; colours last
 *
 * Equal names become one line. Equal masses stand by name. What may stand in any order descends, too. Free fat is what
 * the alkali did not reach: every fat keeps one and the same share, since nobody measures which one the lye took; its
 * unsaponifiable part counts with it, the alcohol of a wax with the wax. Impurities of the alkali are not listed; in the
 * finished bar they are part of the water. Colours in some bars only may be named after "may contain" in the United
 * States; Europe keeps that for make-up in several shades.
 *
 * @param convention what the masses are those of
 * @param input region, what went in [kg], mass as finished bars [kg]
 * @returns lines with masses [kg] and shares [–], what they rest on, and findings
 * @source cfr-21-701-3, ec-1223-2009, inci-names, iupac-atomic-weights
 */
export function ingredientStatement(convention: Convention, input: StatementInput): IngredientStatement {
  const { region } = input
  const findings: Finding[] = []
  if (region === 'CA')
    findings.push({ code: 'label-rules-unknown', severity: 'hold', values: { region, what: 'ingredients' } })
  const additions = input.additions ?? []
  findings.push(...additions.flatMap((one) => additionFindings(one, region)))
  const certain = additions.filter((one) => one.inSomeBars !== true || region !== 'US')
  const entries = convention === 'as-put-in' ? putIn(input, certain) : asFinished(input, certain, findings)
  const total = entries.reduce((sum, { mass }) => sum + mass, 0)
  const allergens = joined(input.allergens ?? [])
  const known = new Set(entries.map(({ name }) => sameName(name)))
  const lines = [...joined(entries), ...allergens.filter(({ name }) => !known.has(sameName(name)))]
    .filter(({ mass }) => mass > TRACE * total)
    .map((entry) => lineOf(entry, total, region))
    .sort((a, b) => place(a) - place(b) || byMass(a, b, total) || byName(a, b))
  const mayContain = additions
    .filter((one) => one.inSomeBars === true && region === 'US')
    .map((one) => labelName(one, region))
    .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0))
  return {
    convention,
    lines,
    mayContain: [...new Set(mayContain)],
    total,
    assumptions:
      convention === 'as-put-in'
        ? ['alkali-counts-pure']
        : [
            'alkali-counts-pure',
            'every-fat-stays-free-by-one-share',
            'unsaponifiable-counts-with-its-fat',
            'nothing-leaves-but-water',
          ],
    findings,
  }
}

function putIn(input: StatementInput, additions: readonly LabelledAddition[]): Entry[] {
  const { region, alkali } = input
  return [
    ...input.fats.map(({ inci, mass }) => ({ name: inci, mass })),
    { name: ALKALI_NAMES.NaOH, mass: alkali.NaOH },
    { name: ALKALI_NAMES.KOH, mass: alkali.KOH },
    { name: names(region).water, mass: input.water },
    ...(input.acids ?? []).flatMap((acid) => [
      { name: ACID_NAMES[acid.acid].acid, mass: acid.mass - waterWithAcid(acid) },
      { name: names(region).water, mass: waterWithAcid(acid) },
    ]),
    ...additions.map((one) => ({
      name: labelName(one, region),
      mass: one.mass,
      colour: one.kind === 'colour',
    })),
  ]
}

function asFinished(
  input: StatementInput,
  additions: readonly LabelledAddition[],
  findings: Finding[],
): Entry[] {
  const { region, fats } = input
  const acids = input.acids ?? []
  const products = reactionProducts({ fats, alkali: input.alkali, acids })
  findings.push(...products.findings)
  const soaps = fats.flatMap((fat, at): Entry[] => {
    const { sodiumSoap, potassiumSoap, unreactedFat, unsaponifiable, waxAlcohol } = products.byFat[at]!
    const salts = fat.salts ?? saltNamesOf(fat.inci)
    if (!salts) findings.push({ code: 'soap-name-unknown', severity: 'stop', values: { fat: fat.inci } })
    else if (!salts.certain)
      findings.push({
        code: 'soap-name-unsure',
        severity: 'warn',
        values: { fat: fat.inci, soap: sodiumSoap > 0 ? salts.sodium : salts.potassium },
      })
    return [
      { name: salts?.sodium ?? fat.inci, mass: sodiumSoap },
      { name: salts?.potassium ?? fat.inci, mass: potassiumSoap },
      { name: fat.inci, mass: unreactedFat + unsaponifiable + waxAlcohol },
    ]
  })
  const { NaOH, KOH } = input.alkali
  const free = NaOH + KOH > 0 ? products.freeAlkali / (NaOH + KOH) : 0
  const solid: Entry[] = [
    ...soaps,
    { name: 'Glycerin', mass: products.glycerol },
    ...acids.flatMap(({ acid }, at) => [
      { name: `Sodium ${ACID_NAMES[acid].salt}`, mass: products.byAcid[at]!.sodiumSalt },
      { name: `Potassium ${ACID_NAMES[acid].salt}`, mass: products.byAcid[at]!.potassiumSalt },
    ]),
    { name: ALKALI_NAMES.NaOH, mass: free * NaOH },
    { name: ALKALI_NAMES.KOH, mass: free * KOH },
    ...additions.map((one) => ({
      name: labelName(one, region),
      mass: one.mass - (one.water ?? 0),
      colour: one.kind === 'colour',
    })),
  ]
  const dry = solid.reduce((sum, { mass }) => sum + mass, 0)
  const brought = additions.reduce((sum, one) => sum + (one.water ?? 0), 0)
  const wet = dry + input.water + products.waterFormed + products.waterWithAcids + brought
  const { finishedMass } = input
  if (finishedMass === undefined)
    findings.push({ code: 'finished-mass-missing', severity: 'hold', values: { mass: wet } })
  else if (finishedMass < dry * (1 - SLACK))
    findings.push({ code: 'finished-mass-below-dry', severity: 'stop', values: { mass: finishedMass, dry } })
  else if (finishedMass > wet * (1 + SLACK))
    findings.push({ code: 'finished-mass-above-wet', severity: 'stop', values: { mass: finishedMass, wet } })
  return [...solid, { name: names(region).water, mass: Math.max(0, (finishedMass ?? wet) - dry) }]
}

function additionFindings(one: LabelledAddition, region: Region): Finding[] {
  const { name } = one
  const found: Finding[] = []
  if (one.kind !== 'fragrance' && !one.inci?.trim())
    found.push({ code: 'ingredient-name-missing', severity: 'stop', values: { name } })
  else if (one.kind === 'colour' && followsEurope(region) && !INDEX_NUMBER.test(one.inci ?? ''))
    found.push({ code: 'colour-number-missing', severity: 'warn', values: { name, inci: one.inci ?? '' } })
  if (one.inSomeBars === true && region !== 'US')
    found.push({ code: 'may-contain-not-allowed', severity: 'hold', values: { name, region } })
  return found
}

const labelName = (one: LabelledAddition, region: Region): string => {
  const plain = one.inci?.trim() || (one.kind === 'fragrance' ? names(region).fragrance : one.name)
  return one.nano === true && followsEurope(region) ? `${plain} [nano]` : plain
}

const sameName = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase()

/** One entry a name, spelled as it came first; a colour only if all of it is. */
function joined(entries: readonly Entry[]): Entry[] {
  const found = new Map<string, Entry>()
  for (const entry of entries) {
    const key = sameName(entry.name)
    const before = found.get(key)
    found.set(key, {
      name: before?.name ?? entry.name.trim(),
      mass: (before?.mass ?? 0) + entry.mass,
      colour: entry.colour === true && before?.colour !== false,
    })
  }
  return [...found.values()]
}

function lineOf({ name, mass, colour }: Entry, total: number, region: Region): StatementLine {
  const share = mass / total
  const small = region === 'US' ? share <= ONE_PERCENT * (1 + SAME) : share < ONE_PERCENT * (1 - SAME)
  return { name, mass, share, group: colour ? 'colours' : small ? 'any-order' : 'descending' }
}

const PLACES = ['descending', 'any-order', 'colours'] as const
const place = ({ group }: StatementLine): number => PLACES.indexOf(group)

/** Counted in steps, so that what is equal to one is equal to all. */
const byMass = (a: StatementLine, b: StatementLine, total: number): number =>
  Math.round(b.mass / (SAME * total)) - Math.round(a.mass / (SAME * total))

const byName = (a: StatementLine, b: StatementLine): number =>
  a.name < b.name ? -1 : a.name > b.name ? 1 : 0
