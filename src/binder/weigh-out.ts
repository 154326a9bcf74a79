/** Everything that one batch weighs, on the shop's scales and in its vessels: plans of draws, with what they found. */
import { chooseScale, type DrawPlan, repeatPlan, type Scale } from '../batch/draws.ts'
import { premix } from '../batch/fat-premix.ts'
import type { AddedAcidName } from '../chemistry/alkali.ts'
import { waterDensity } from '../chemistry/density.ts'
import { lyeDensity } from '../chemistry/solution-density.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import { sourcesOf } from './fat-figures.ts'
import type { Formula, FormulaAlkali, FormulaFat } from './formula.ts'
import { BEADS_DENSITY, containerFor, type Vessels } from './shop-tools.ts'

export interface BoundFat {
  readonly key: string
  readonly name: string
  readonly share: number
  /** as calculated [kg] */
  readonly mass: number
  /** that the certificate in use is for */
  readonly lot: string | undefined
  /** of a fat in a premix its part of the draws, which are those of the whole */
  readonly plan: DrawPlan
  /** keys of the sources of what was used */
  readonly sources: readonly string[]
}

/** What is drawn in one go: a fat, or a blend of several that was made beforehand. */
export interface OilWeighing {
  /** of the fat; of a premix `premix` */
  readonly key: string
  readonly fats: readonly { readonly key: string; readonly name: string }[]
  /** for all kettles */
  readonly plan: DrawPlan
}

export interface BoundAlkali {
  readonly key: string
  readonly name: string
  readonly kind: FormulaAlkali['kind']
  /** share of pure alkali in what is weighed [–] */
  readonly purity: number
  readonly stock: boolean
  readonly plan: DrawPlan
}

export interface BoundAddition {
  readonly key: string
  readonly name: string
  readonly role: 'acid' | 'fragrance' | 'other'
  /** of an acid: of it in what is weighed [–] */
  readonly strength: number | undefined
  /** which acid, with its hydrate */
  readonly acid: AddedAcidName | undefined
  /** of a scent, when its supplier states one [K] */
  readonly flashPoint: number | undefined
  /** the part of the batter that it is for; all of it where missing */
  readonly colour: string | undefined
  /** for all kettles */
  readonly plan: DrawPlan
}

export interface WeighedOut {
  readonly fats: readonly BoundFat[]
  readonly oils: readonly OilWeighing[]
  readonly alkalis: readonly BoundAlkali[]
  readonly additions: readonly BoundAddition[]
  readonly water: DrawPlan
  readonly ice: DrawPlan | undefined
  /** water that goes in at the first trace, for all kettles */
  readonly later: DrawPlan | undefined
  readonly findings: readonly Finding[]
}

/** Water that a stock lye brings with its alkali [kg]. */
export const stockLyeWater = ({ alkalis }: Pick<WeighedOut, 'alkalis'>): number =>
  alkalis.reduce((sum, { stock, purity, plan }) => sum + (stock ? plan.sum * (1 - purity) : 0), 0)

/** All the water of a batch: weighed for the lye, as ice, at the first trace, and what a stock lye brings [kg]. */
export const waterSum = ({
  alkalis,
  water,
  ice,
  later,
}: Pick<WeighedOut, 'alkalis' | 'water' | 'ice' | 'later'>): number =>
  water.sum + (ice?.sum ?? 0) + (later?.sum ?? 0) + stockLyeWater({ alkalis })

/** All that is weighed for a batch, as its draws make it: the batter [kg]. */
export const batterSum = ({
  fats,
  alkalis,
  additions,
  water,
  ice,
  later,
}: Omit<WeighedOut, 'oils' | 'findings'>): number =>
  [...fats, ...alkalis, ...additions].reduce((sum, { plan }) => sum + plan.sum, 0) +
  water.sum +
  (ice?.sum ?? 0) +
  (later?.sum ?? 0)

export interface WeighRequest {
  readonly content: Content
  readonly formula: Formula
  readonly vessels: Vessels
  readonly scales: readonly [Scale, ...Scale[]]
  /** all fats [kg] */
  readonly oilMass: number
  readonly kettles: number
  /** key of fats that were blended beforehand */
  readonly premix: string | undefined
  /** share of all the water that is kept back [–] */
  readonly laterShare: number
  /** share of the water of the lye that is ice [–] */
  readonly iceShare: number
}

/** kg/m3; ice in lumps, with the air between them (estimate) */
const ICE_DENSITY = 500
const ROOM = 293.15

export const weighOut = (request: WeighRequest): WeighedOut => {
  const { content, formula, vessels, scales, oilMass, kettles } = request
  const findings: Finding[] = []
  /** What a weighing was found to be, with the thing that is weighed: several may have the same trouble. */
  const noting = (key: string, name: string, plan: DrawPlan): DrawPlan => {
    findings.push(
      ...plan.findings.map((finding) => ({ ...finding, values: { ...finding.values, key, what: name } })),
    )
    return plan
  }
  const weigh = (mass: number, density: number, alkali = false): DrawPlan =>
    chooseScale(
      { mass, container: containerFor(alkali ? vessels.alkali : vessels.weighing, density), alkali },
      scales,
    ).chosen
  const forKettles = (mass: number, density: number): DrawPlan =>
    repeatPlan(weigh(mass / kettles, density), kettles)

  const blend = request.premix === undefined ? undefined : content.premixes.get(request.premix)?.value
  const inBlend = new Set(Object.keys(blend?.fats ?? {}))
  const premixed = formula.fats.filter(({ key }) => inBlend.has(key))
  if (blend)
    findings.push(
      ...premix(
        formula.fats.map(({ key, share }) => ({ key, mass: share * oilMass })),
        new Set(premixed.map(({ key }) => key)),
        new Map(Object.entries(blend.fats)),
      ).findings,
    )
  const groups: readonly (readonly FormulaFat[])[] = [
    ...(premixed.length > 0 ? [premixed] : []),
    ...formula.fats.filter((fat) => !premixed.includes(fat)).map((fat) => [fat]),
  ]
  const drawn = groups.map((fats) => {
    const share = fats.reduce((sum, fat) => sum + fat.share, 0)
    const density = share / fats.reduce((sum, fat) => sum + fat.share / fat.density, 0)
    const key = blend && fats === premixed ? PREMIX : (fats[0]?.key ?? '')
    const plan = noting(key, fats.map(({ name }) => name).join(', '), forKettles(share * oilMass, density))
    return { key, fats, share, plan }
  })
  const fats = formula.fats.map((fat): BoundFat => {
    const group = drawn.find((one) => one.fats.includes(fat))
    if (!group) throw new Error(`Nothing draws ${fat.key}.`)
    return {
      key: fat.key,
      name: fat.name,
      share: fat.share,
      mass: fat.share * oilMass,
      lot: fat.certificate?.lot,
      plan: partOf(group.plan, fat.share / group.share),
      sources: sourcesOf(fat.entry),
    }
  })
  const alkalis = formula.alkalis.map(
    (alkali): BoundAlkali => ({
      key: alkali.key,
      name: alkali.name,
      kind: alkali.kind,
      purity: alkali.purity.nominal,
      stock: alkali.stock,
      plan: noting(
        alkali.key,
        alkali.name,
        weigh(
          alkali.weighed * oilMass,
          alkali.stock ? lyeDensity({ [alkali.kind]: alkali.purity.nominal }, ROOM) : BEADS_DENSITY,
          true,
        ),
      ),
    }),
  )
  const additions = formula.additions.map((addition): BoundAddition => {
    const mass = addition.mass * oilMass
    // Acids go into the one lye; all else goes into each kettle.
    const plan = addition.role === 'acid' ? weigh(mass, addition.density) : forKettles(mass, addition.density)
    return {
      key: addition.key,
      name: addition.name,
      role: addition.role,
      strength: addition.acid?.strength,
      acid: addition.acid?.acid,
      flashPoint: content.fragrances.get(addition.material)?.value['flash-point'],
      colour: addition.colour,
      plan: noting(addition.key, addition.name, plan),
    }
  })

  // Rounding of the alkali is taken up by nothing: the water stays what the strength asks for.
  const laterMass = formula.waterInAll * oilMass * request.laterShare
  const lyeWater = formula.water * oilMass - laterMass
  if (lyeWater < 0) findings.push({ code: 'no-water-left-for-lye', severity: 'stop', values: {} })
  const water = Math.max(0, lyeWater)
  const density = waterDensity(ROOM)
  // Water has no name of the maker's: the sheet says it.
  const ofWater = (plan: DrawPlan): DrawPlan => noting('water', '', plan)
  return {
    fats,
    oils: drawn.map(({ key, fats, plan }) => ({
      key,
      fats: fats.map((fat) => ({ key: fat.key, name: fat.name })),
      plan,
    })),
    alkalis,
    additions,
    water: ofWater(weigh(water * (1 - request.iceShare), density)),
    ice: request.iceShare > 0 ? ofWater(weigh(water * request.iceShare, ICE_DENSITY)) : undefined,
    later: laterMass > 0 ? ofWater(forKettles(laterMass, density)) : undefined,
    findings,
  }
}

/** Key of what was blended beforehand: a batch has one such blend at most. */
export const PREMIX = 'premix'

/** A part of what is drawn together: its share of every mass and error. */
const partOf = (plan: DrawPlan, share: number): DrawPlan =>
  share === 1
    ? plan
    : {
        ...plan,
        sum: plan.sum * share,
        roundingError: plan.roundingError * share,
        worstError: plan.worstError * share,
        typicalError: plan.typicalError * share,
        draws: plan.draws.map((draw) => ({
          ...draw,
          target: draw.target * share,
          runningTotal: draw.runningTotal * share,
        })),
      }
