/** Fragrance allergens: which of them a label must name. */
import type { Finding } from '../findings.ts'
import { followsEurope, type Region } from './regions.ts'

/** One substance of a fragrance, as its supplier declares it. */
export interface DeclaredAllergen {
  /** as the list of the law calls it */
  readonly name: string
  /** of the fragrance, the most that the declaration allows [–] */
  readonly share: number
  /** one of those that Regulation (EU) 2023/1545 added */
  readonly addedIn2023?: boolean
}

export interface DeclaredFragrance {
  readonly name: string
  /** that goes in [kg] */
  readonly mass: number
  /** undefined: nobody has declared it; an empty list: declared to hold none */
  readonly composition: readonly DeclaredAllergen[] | undefined
}

export interface AllergenInput {
  readonly region: Region
  readonly fragrances: readonly DeclaredFragrance[]
  /** what all that went in weighs as finished bars [kg] */
  readonly finishedMass: number
  /** soap is rinsed off */
  readonly use?: 'rinse-off' | 'leave-on'
  /** day on which the bars are first sold, 2027-03-14 */
  readonly placedOnMarket?: string
}

export interface AllergenLine {
  readonly name: string
  /** in all the bars [kg] */
  readonly mass: number
  /** of the finished bar [–] */
  readonly share: number
  /** to be named; below the limit; named only when sold after the old list's last day; asked by no rule known here */
  readonly verdict: 'named' | 'below-limit' | 'not-yet' | 'no-rule'
}

export interface Allergens {
  /** by mass, the most first; equal ones by name */
  readonly lines: readonly AllergenLine[]
  /** above which a substance is named [–]; undefined: this program knows no rule of the region */
  readonly limit: number | undefined
  readonly findings: readonly Finding[]
}

/** Of the finished product [–], read. */
const LIMITS = { 'rinse-off': 1e-4, 'leave-on': 1e-5 } as const

/** Last day on which bars with the old list alone may be placed on the market, read. */
const OLD_LIST_UNTIL = '2026-07-31'

/** So that 0.0100 % is not taken for more by its last bit [–]. */
const SLACK = 1e-9

/**
 * Fragrance allergens of a bar, and which are named on its label.
 *
 *     share of the bar = Σ fragrance · share of the fragrance / finished mass;   named when above the limit
 *     limit: 0.01 % of what is rinsed off, 0.001 % of what stays on the skin
 *
 * Of the finished bar, not of the batter: water dries and scent is counted to stay, so that a share is rather too
 * large. A fragrance that nobody has declared leaves the list open: it cannot be printed in Europe. The substances
 * that were added in 2023 are named on what is placed on the market after 2026-07-31; where no day is given, they are.
 * For Great Britain they are named alike, whatever its own list says by then: to name more is no fault.
 *
 * @param input region, fragrances [kg] with their declared shares [–], finished mass [kg]
 * @returns substances with masses [kg] and shares [–], the limit [–], findings
 * @source eu-2023-1545
 */
export function fragranceAllergens(input: AllergenInput): Allergens {
  const { region, fragrances, finishedMass } = input
  const limit = followsEurope(region) ? LIMITS[input.use ?? 'rinse-off'] : undefined
  const masses = new Map<string, { name: string; mass: number; added: boolean }>()
  for (const { mass, composition } of fragrances)
    for (const { name, share, addedIn2023 } of composition ?? []) {
      const key = name.trim().toLowerCase()
      const before = masses.get(key)
      masses.set(key, {
        name: before?.name ?? name.trim(),
        mass: (before?.mass ?? 0) + mass * share,
        added: addedIn2023 === true && before?.added !== false,
      })
    }
  const oldList = input.placedOnMarket !== undefined && input.placedOnMarket <= OLD_LIST_UNTIL
  const verdict = (share: number, added: boolean): AllergenLine['verdict'] => {
    if (limit === undefined) return 'no-rule'
    if (share <= limit * (1 + SLACK)) return 'below-limit'
    return added && oldList ? 'not-yet' : 'named'
  }
  const lines = [...masses.values()]
    .map(({ name, mass, added }) => {
      const share = mass / finishedMass
      return { name, mass, share, verdict: verdict(share, added) }
    })
    .sort((a, b) => b.mass - a.mass || (a.name < b.name ? -1 : 1))
  return { lines, limit, findings: allergenFindings(input, limit) }
}

function allergenFindings(
  { region, fragrances, finishedMass }: AllergenInput,
  limit: number | undefined,
): Finding[] {
  const found: Finding[] = []
  if (!(finishedMass > 0))
    found.push({ code: 'allergen-bar-mass', severity: 'stop', values: { mass: finishedMass } })
  for (const { name, composition } of fragrances) {
    const severity = limit === undefined ? 'warn' : 'stop'
    if (composition === undefined)
      found.push({ code: 'fragrance-undeclared', severity, values: { fragrance: name, region } })
    const sum = (composition ?? []).reduce((total, { share }) => total + share, 0)
    if (sum > 1 + SLACK)
      found.push({ code: 'fragrance-above-whole', severity: 'stop', values: { fragrance: name, share: sum } })
  }
  if (limit === undefined && fragrances.length > 0)
    found.push({ code: 'allergen-rule-unknown', severity: 'warn', values: { region } })
  return found
}
