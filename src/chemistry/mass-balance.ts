/** What the fats and the alkali become: soap, glycerol, water, and what is left over. */
import type { Finding } from '../findings.ts'
import { type AddedAcid, type Alkali, hydroxideOfAcid, waterWithAcid } from './alkali.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import { type FatKind, plausibleSaponificationValue } from './saponification-value.ts'

export interface ReactingFat {
  readonly kind: FatKind
  readonly mass: number
  /** kg KOH per kg fat */
  readonly saponificationValue: number
  /** the part of it that free acid takes [kg KOH per kg fat] */
  readonly acidValue?: number
  /** share that never turns to soap [–] */
  readonly unsaponifiable?: number
  /** mean molar mass of the fatty acids [kg/mol]; needed for a wax only, a wax of unknown acids counts as C16:0 */
  readonly fattyAcidMolarMass?: number
}

export interface ReactionInput {
  readonly fats: readonly ReactingFat[]
  /** pure alkali [kg] */
  readonly alkali: Readonly<Record<Alkali, number>>
  readonly acids?: readonly AddedAcid[]
}

/** All masses [kg]. */
export interface ReactionProducts {
  readonly soap: number
  readonly glycerol: number
  /** from free fatty acid and added acid */
  readonly waterFormed: number
  readonly waterWithAcids: number
  /** salts of the added acids */
  readonly acidSalts: number
  /** long-chain alcohol that waxes leave */
  readonly waxAlcohol: number
  readonly unsaponifiable: number
  /** fat that found no alkali */
  readonly unreactedFat: number
  /** pure alkali that found no fat, by the mix that went in */
  readonly freeAlkali: number
  readonly massIn: number
  readonly massOut: number
  /** share of the fats' demand that is left without alkali [–]; below 0 where alkali is left */
  readonly superfat: number
  /** the same, of each fat and of each added acid, in the order that they were given in */
  readonly byFat: readonly FatProducts[]
  readonly byAcid: readonly AcidProducts[]
  readonly findings: readonly Finding[]
}

/** What one fat becomes [kg]. */
export interface FatProducts {
  readonly sodiumSoap: number
  readonly potassiumSoap: number
  readonly glycerol: number
  readonly waxAlcohol: number
  readonly unsaponifiable: number
  readonly unreactedFat: number
}

/** Salts of one added acid [kg]; where alkali was short, acid that found none counts with them. */
export interface AcidProducts {
  readonly sodiumSalt: number
  readonly potassiumSalt: number
}

/** Palmitic acid [kg/mol], computed: the commonest acid of beeswax. */
const WAX_ACID = 0.25643

/**
 * Products of complete reaction.
 *
 *     fat + 3 MOH → glycerol + 3 soap;   acid + MOH → soap + water;   wax + MOH → alcohol + soap
 *
 * Added acids take their alkali first, free fatty acids next, esters last; every fat keeps the same share unreacted.
 * Fatty acids are found from the saponification value itself, so that mass is kept. Two or more acid groups count
 * as fully neutralised.
 *
 * @param input fats [kg], their values [kg KOH per kg], pure alkali [kg], added acids [kg]
 * @returns masses in and out [kg], superfat [–], findings
 * @source iupac-atomic-weights
 */
export function reactionProducts(input: ReactionInput): ReactionProducts {
  const acids = input.acids ?? []
  const sodium = input.alkali.NaOH / MOLAR_MASS.NaOH
  const potassium = input.alkali.KOH / MOLAR_MASS.KOH
  const hydroxide = sodium + potassium
  // What a soap gains over its acid: the metal in place of hydrogen, mixed as the alkali was.
  const metalGain =
    hydroxide === 0
      ? 0
      : (sodium * MOLAR_MASS.sodium + potassium * MOLAR_MASS.potassium) / hydroxide - MOLAR_MASS.hydrogen
  const sodiumShare = hydroxide === 0 ? 1 : sodium / hydroxide
  const sodiumGain = MOLAR_MASS.sodium - MOLAR_MASS.hydrogen
  const potassiumGain = MOLAR_MASS.potassium - MOLAR_MASS.hydrogen
  const acidGroups = acids.reduce((sum, acid) => sum + hydroxideOfAcid(acid), 0)
  const forAcids = Math.min(acidGroups, hydroxide)
  const demands = input.fats.map(sites)
  const freeAcid = demands.reduce((sum, fat) => sum + fat.freeAcid, 0)
  const ester = demands.reduce((sum, fat) => sum + fat.ester, 0)
  const forFats = Math.min(hydroxide - forAcids, freeAcid + ester)
  const acidShare = freeAcid === 0 ? 0 : Math.min(1, forFats / freeAcid)
  const esterShare = ester === 0 ? 0 : Math.max(0, forFats - freeAcid) / ester
  const out = { soap: 0, glycerol: 0, waxAlcohol: 0, unsaponifiable: 0, unreactedFat: 0 }
  let water = forAcids * MOLAR_MASS.water
  const byFat = demands.map((fat): FatProducts => {
    const acidsReacted = fat.freeAcid * acidShare
    const estersReacted = fat.ester * esterShare
    const reacted = acidsReacted + estersReacted
    const one = {
      sodiumSoap: reacted * sodiumShare * (fat.acidMolarMass + sodiumGain),
      potassiumSoap: reacted * (1 - sodiumShare) * (fat.acidMolarMass + potassiumGain),
      glycerol: fat.glycerolPerEster * estersReacted * MOLAR_MASS.glycerol,
      waxAlcohol: estersReacted * fat.alcoholPerEster,
      unsaponifiable: fat.unsaponifiable,
      unreactedFat:
        (fat.freeAcid - acidsReacted) * fat.acidMolarMass + (fat.ester - estersReacted) * fat.esterMass,
    }
    out.soap += reacted * (fat.acidMolarMass + metalGain)
    water += acidsReacted * MOLAR_MASS.water
    out.glycerol += one.glycerol
    out.waxAlcohol += one.waxAlcohol
    out.unsaponifiable += one.unsaponifiable
    out.unreactedFat += one.unreactedFat
    return one
  })
  const neutralised = acidGroups === 0 ? 0 : forAcids / acidGroups
  const byAcid = acids.map((acid): AcidProducts => {
    const dry = acid.mass - waterWithAcid(acid)
    const groups = hydroxideOfAcid(acid) * neutralised
    return {
      sodiumSalt: sodiumShare * (dry + groups * sodiumGain),
      potassiumSalt: (1 - sodiumShare) * (dry + groups * potassiumGain),
    }
  })
  const waterWithAcids = acids.reduce((sum, acid) => sum + waterWithAcid(acid), 0)
  const acidMass = acids.reduce((sum, acid) => sum + acid.mass, 0) - waterWithAcids
  const free = hydroxide - forAcids - forFats
  const freeAlkali = hydroxide === 0 ? 0 : (free / hydroxide) * (input.alkali.NaOH + input.alkali.KOH)
  const acidSalts = acidMass + forAcids * metalGain
  const massIn =
    input.fats.reduce((sum, fat) => sum + fat.mass, 0) +
    input.alkali.NaOH +
    input.alkali.KOH +
    acids.reduce((sum, acid) => sum + acid.mass, 0)
  const massOut =
    out.soap +
    out.glycerol +
    water +
    waterWithAcids +
    acidSalts +
    out.waxAlcohol +
    out.unsaponifiable +
    out.unreactedFat +
    freeAlkali
  const demand = freeAcid + ester
  const superfat = demand === 0 ? 0 : 1 - (hydroxide - acidGroups) / demand
  const findings: Finding[] =
    free > 1e-9 * hydroxide
      ? [{ code: 'alkali-left-over', severity: 'stop', values: { mass: freeAlkali, superfat } }]
      : []
  return {
    ...out,
    waterFormed: water,
    waterWithAcids,
    acidSalts,
    freeAlkali,
    massIn,
    massOut,
    superfat,
    byFat,
    byAcid,
    findings,
  }
}

/** Places where alkali can act in one fat [mol] and what they weigh. */
interface Sites {
  readonly freeAcid: number
  readonly ester: number
  readonly acidMolarMass: number
  /** mass of fat to one ester group [kg/mol] */
  readonly esterMass: number
  readonly glycerolPerEster: number
  readonly alcoholPerEster: number
  readonly unsaponifiable: number
}

function sites(fat: ReactingFat): Sites {
  const total = (fat.mass * fat.saponificationValue) / MOLAR_MASS.KOH
  const freeAcid =
    fat.kind === 'fatty-acid' ? total : Math.min(total, (fat.mass * (fat.acidValue ?? 0)) / MOLAR_MASS.KOH)
  const ester = total - freeAcid
  const unsaponifiable = fat.mass * (fat.unsaponifiable ?? 0)
  const active = fat.mass - unsaponifiable
  if (fat.kind === 'wax') {
    const acidMolarMass = fat.fattyAcidMolarMass ?? WAX_ACID
    // The alcohol of a wax is counted in `unsaponifiable` by published figures; here it comes from the balance.
    const esterMass = ester === 0 ? 0 : (fat.mass - freeAcid * acidMolarMass) / ester
    return {
      freeAcid,
      ester,
      acidMolarMass,
      esterMass,
      glycerolPerEster: 0,
      alcoholPerEster: esterMass + MOLAR_MASS.water - acidMolarMass,
      unsaponifiable: 0,
    }
  }
  const residue = MOLAR_MASS.glycerol / 3 - MOLAR_MASS.water
  const acidMolarMass = total === 0 ? 0 : (active - ester * residue) / total
  return {
    freeAcid,
    ester,
    acidMolarMass,
    esterMass: acidMolarMass + residue,
    glycerolPerEster: 1 / 3,
    alcoholPerEster: 0,
    unsaponifiable,
  }
}

/**
 * Whether figures given for one saponification can belong together.
 *
 *     SV = n(NaOH) M(KOH) / m(fat) ≤ that of tributyrin;   m(glycerol) = n / 3 · M(glycerol) within 2 %
 *
 * @param given fat [kg], NaOH that reacted [kg], glycerol that formed [kg], where given
 * @returns findings: a saponification value no fat has, or glycerol that the alkali cannot have made
 * @source iupac-atomic-weights
 */
export function consistentSaponification(given: {
  readonly fat: number
  readonly sodiumHydroxide: number
  readonly glycerol?: number
}): {
  readonly saponificationValue: number
  readonly glycerol: number
  readonly findings: readonly Finding[]
} {
  const hydroxide = given.sodiumHydroxide / MOLAR_MASS.NaOH
  const saponificationValue = (hydroxide * MOLAR_MASS.KOH) / given.fat
  const glycerol = (hydroxide / 3) * MOLAR_MASS.glycerol
  const findings: Finding[] = [...plausibleSaponificationValue('triglyceride', saponificationValue)]
  if (given.glycerol !== undefined && Math.abs(given.glycerol - glycerol) > 0.02 * glycerol) {
    findings.push({
      code: 'glycerol-does-not-match-alkali',
      severity: 'stop',
      values: { given: given.glycerol, expected: glycerol },
    })
  }
  return { saponificationValue, glycerol, findings }
}
