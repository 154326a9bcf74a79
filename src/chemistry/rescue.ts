/** What one mistake at the scale does to a batch, and what puts it right before the batter sets. */
import { type Alkali, hydroxideDemand } from './alkali.ts'
import { MOLAR_MASS } from './atomic-weights.ts'

export interface RescueFat {
  readonly key: string
  /** all draws together [kg] */
  readonly mass: number
  /** kg KOH per kg fat */
  readonly saponificationValue: number
  /** each draw, in the order in which they are weighed [kg] */
  readonly draws: readonly number[]
}

export interface RescueAlkali {
  readonly alkali: Alkali
  /** as weighed, all portions together [kg] */
  readonly mass: number
  /** nominal share of the pure alkali [–] */
  readonly purity: number
  /** each portion, in the order in which they are weighed [kg] */
  readonly portions: readonly number[]
}

export interface RescueInput {
  readonly fats: readonly RescueFat[]
  readonly alkalis: readonly RescueAlkali[]
  /** hydroxide that added acids take [mol] */
  readonly hydroxideForAcids: number
  /** alkali as weighed in all of the lye that a remedy is made with [–], above 0, below 1 */
  readonly concentration: number
  /** nominal superfats that need no remedy, this one and the next included [–] */
  readonly floor: number
  readonly softLimit: number
  /** batter that the pot still takes on top of the batch as planned [kg] */
  readonly roomLeft: number
}

export type MistakeKind =
  | 'fat-draw-missed'
  | 'fat-draw-doubled'
  | 'alkali-portion-missed'
  | 'alkali-portion-doubled'

export type Rescue =
  | { readonly kind: 'add-the-fat'; readonly mass: number }
  | {
      readonly kind: 'add-fats'
      /** all fats together, in the proportions of the recipe [kg] */
      readonly mass: number
      readonly fats: readonly { readonly key: string; readonly mass: number }[]
    }
  | {
      readonly kind: 'add-alkali'
      /** as weighed [kg] */
      readonly alkalis: readonly { readonly alkali: Alkali; readonly mass: number }[]
      /** to dissolve it in [kg] */
      readonly water: number
    }
  | { readonly kind: 'none-small' }

export interface Mistake {
  readonly kind: MistakeKind
  /** key of the fat, or the alkali */
  readonly of: string
  /** numbers of the equal draws that it can happen to, from 1 */
  readonly draws: readonly number[]
  /** of one such draw [kg] */
  readonly mass: number
  /** after the mistake [–]; above 1 where the acids get too little, undefined where no fat is left that takes alkali */
  readonly superfat: number | undefined
  readonly remedy: Rescue
  /** after the remedy [–] */
  readonly superfatAfter: number
  /** batter that the remedy adds [kg] */
  readonly addedMass: number
  /** batter after mistake and remedy less that of the batch as planned [kg]; below 0 where there is less */
  readonly overPlan: number
  /** whether that is more than the room left: then the remedy is none */
  readonly overflow: boolean
}

/**
 * Every draw left out once and weighed twice once, each with its remedy.
 *
 *     s = 1 − h / D;   D = Σ m SV / M(KOH);   h = Σ m purity / M − acids
 *     missed: itself;   fat d twice: alkali · h d SV / (M(KOH) D n);   portion p twice: fats · p purity / (M h)
 *     n = h + acids, all hydroxide;   water = alkali (1 − c) / c
 *
 * Every remedy brings the superfat back to that of the batch as planned; alkalis keep their proportions, and so do fats. A
 * portion that was left out is given with water of its own, though its share of the batch's water is in already: dry
 * alkali does not dissolve in batter. Where it is noticed in the lye pail, no water is needed. Only the nominal superfat
 * is judged: give a floor that leaves room for what weighings and purity can be off.
 *
 * Valid for one mistake at a time, noticed while the batter still takes what is stirred in. Draws of 0 are none.
 *
 * @param input masses [kg], saponification values [kg KOH per kg], purities, concentration and limits [–], acids [mol]
 * @returns mistakes: fats first, in the given order, each draw missed and then doubled
 * @throws RangeError if no hydroxide is left for the fats, no fat takes any, or the concentration is not between 0 and
 *   1: a bug upstream
 * @source iupac-atomic-weights
 */
export function rescues(input: RescueInput): readonly Mistake[] {
  const { fats, alkalis, concentration } = input
  const demand = hydroxideDemand(fats)
  const allHydroxide = alkalis.reduce((sum, one) => sum + hydroxideOf(one, one.mass), 0)
  const plan: Balance = { demand, hydroxide: allHydroxide - input.hydroxideForAcids, mass: 0 }
  if (!(plan.hydroxide > 0 && demand > 0))
    throw new RangeError('no alkali for the fats, or none that takes it')
  if (!(concentration > 0 && concentration < 1))
    throw new RangeError(`no strength of a lye: ${concentration}`)

  const fatMass = fats.reduce((sum, fat) => sum + fat.mass, 0)
  const waterFor = (alkali: number): number => (alkali * (1 - concentration)) / concentration

  const moreAlkali = (share: number): Remedy => {
    const masses = alkalis.map(({ alkali, mass }) => ({ alkali, mass: mass * share }))
    const mass = masses.reduce((sum, one) => sum + one.mass, 0)
    const water = waterFor(mass)
    return {
      remedy: { kind: 'add-alkali', alkalis: masses.filter((one) => one.mass > 0), water },
      change: { demand: 0, hydroxide: allHydroxide * share, mass: mass + water },
    }
  }
  const moreFats = (share: number): Remedy => ({
    remedy: {
      kind: 'add-fats',
      mass: fatMass * share,
      fats: fats.map(({ key, mass }) => ({ key, mass: mass * share })).filter(({ mass }) => mass > 0),
    },
    change: { demand: demand * share, hydroxide: 0, mass: fatMass * share },
  })

  const mistakes: Mistake[] = []
  const add = (
    kind: MistakeKind,
    of: string,
    { numbers, mass }: EqualDraws,
    change: Balance,
    rescue: Remedy,
  ): void => {
    const wrong = joined(plan, change)
    const superfat = takesAlkali(wrong) ? superfatOf(wrong) : undefined
    // An oil that takes no alkali moves nothing, wherever the superfat of the plan lies.
    const small =
      superfat !== undefined &&
      ((superfat >= input.floor && superfat <= input.softLimit) || superfat === superfatOf(plan))
    const { remedy, change: more } = small ? NOTHING : rescue
    const overPlan = change.mass + more.mass
    mistakes.push({
      kind,
      of,
      draws: numbers,
      mass,
      superfat,
      remedy,
      superfatAfter: superfatOf(joined(wrong, more)),
      addedMass: more.mass,
      overPlan,
      overflow: overPlan > input.roomLeft,
    })
  }

  for (const { key, saponificationValue, draws } of fats) {
    for (const equal of equalDraws(draws)) {
      const { mass } = equal
      const itself: Balance = {
        demand: hydroxideDemand([{ mass, saponificationValue }]),
        hydroxide: 0,
        mass,
      }
      add('fat-draw-missed', key, equal, less(itself), {
        remedy: { kind: 'add-the-fat', mass },
        change: itself,
      })
      const missing = (plan.hydroxide * itself.demand) / demand
      add('fat-draw-doubled', key, equal, itself, moreAlkali(missing / allHydroxide))
    }
  }
  for (const one of alkalis) {
    for (const equal of equalDraws(one.portions)) {
      const { mass } = equal
      const itself: Balance = { demand: 0, hydroxide: hydroxideOf(one, mass), mass }
      const water = waterFor(mass)
      add('alkali-portion-missed', one.alkali, equal, less(itself), {
        remedy: { kind: 'add-alkali', alkalis: [{ alkali: one.alkali, mass }], water },
        change: { ...itself, mass: mass + water },
      })
      add('alkali-portion-doubled', one.alkali, equal, itself, moreFats(itself.hydroxide / plan.hydroxide))
    }
  }
  return mistakes
}

/** A batch, or what is added to it. */
interface Balance {
  /** hydroxide that the fats could take [mol] */
  readonly demand: number
  /** hydroxide that is there for them [mol] */
  readonly hydroxide: number
  /** kg of batter */
  readonly mass: number
}

interface Remedy {
  readonly remedy: Rescue
  readonly change: Balance
}

const NOTHING: Remedy = { remedy: { kind: 'none-small' }, change: { demand: 0, hydroxide: 0, mass: 0 } }

const joined = (a: Balance, b: Balance): Balance => ({
  demand: a.demand + b.demand,
  hydroxide: a.hydroxide + b.hydroxide,
  mass: a.mass + b.mass,
})

const less = (a: Balance): Balance => ({ demand: -a.demand, hydroxide: -a.hydroxide, mass: -a.mass })

const superfatOf = ({ demand, hydroxide }: Balance): number => 1 - hydroxide / demand

/** A sum less all its parts need not be 0 to the last bit. */
const takesAlkali = ({ demand, hydroxide }: Balance): boolean => demand > 1e-12 * Math.abs(hydroxide)

const hydroxideOf = ({ alkali, purity }: RescueAlkali, mass: number): number =>
  (mass * purity) / MOLAR_MASS[alkali]

interface EqualDraws {
  readonly mass: number
  readonly numbers: readonly number[]
}

function equalDraws(draws: readonly number[]): readonly EqualDraws[] {
  const groups: { mass: number; numbers: number[] }[] = []
  draws.forEach((mass, index) => {
    if (mass <= 0) return
    // Whole divisions times their size need not agree to the last bit.
    const same = groups.find((group) => Math.abs(group.mass - mass) <= 1e-9 * mass)
    if (same) same.numbers.push(index + 1)
    else groups.push({ mass, numbers: [index + 1] })
  })
  return groups
}
