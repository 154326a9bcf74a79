/** How fast batter turns to soap in the mould, what heat that gives, and where it gels. */
import type { HeatSource } from '../numerics/conduction.ts'
import type { Band } from './band.ts'

/** Form of the rate: the usual one, and the two that bound it. */
export type RateForm = 'autocatalytic' | 'first-order' | 'all-at-once'

export interface Reaction {
  /** J for each kg of batter, of all that reacts from the first drop of lye to the end */
  readonly heat: Band
  /** rate constant at 40 °C [1/s] */
  readonly rate: Band
  /** J/mol */
  readonly activationEnergy: number
  /** share that has reacted at trace, 0 < share < 1 */
  readonly started: number
  readonly form?: RateForm
}

/**
 * J for each mol of ester: the range of what was found. No fat was measured: 49 and 54 kJ are those of simple esters from
 * tables, 80 kJ is recalled of fats; the nominal value is an estimate between, nearer to what was read.
 */
export const HEAT_PER_MOLE: Band = { low: 50e3, nominal: 60e3, high: 80e3 }

/**
 * Rate of a batter that nobody has logged yet. All estimates: the rate is set so that a block of some 13 kg peaks some
 * hours after its pour, twice and half of it are its range; the activation energy is near that of simple esters.
 */
export const USUAL_RATE = {
  rate: { low: 0.9e-4, nominal: 1.8e-4, high: 3.6e-4 },
  activationEnergy: 55e3,
  started: 0.03,
} as const

/** K, where the rate constant is given */
const REFERENCE = 313.15
/** J/(mol K), exact since 2019 to the digits given */
const GAS_CONSTANT = 8.314462618

/**
 * Heat of saponification of a batter.
 *
 *     Q = n · ΔH
 *
 * @param moles ester that reacts, no more than there is alkali for [mol/kg batter]
 * @returns heat [J/kg batter], with the range of the published figures
 * @source crc-thermo, soap-handbook
 */
export const batterHeat = (moles: number): Band => ({
  low: moles * HEAT_PER_MOLE.low,
  nominal: moles * HEAT_PER_MOLE.nominal,
  high: moles * HEAT_PER_MOLE.high,
})

/**
 * Temperature at which soap in the block turns to gel.
 *
 *     T = 63 °C + 140 K · (0.25 − w) ± 5 K,   kept within 50 to 90 °C
 *
 * An estimate, a straight line through what makers report: about 63 °C with much water (a quarter of the batter) and
 * about 77 °C with little (0.15 of it).
 *
 * @param waterShare water in the batter [–], 0.1 to 0.35
 * @returns temperature [K]
 * @source common practice
 */
export const gelTemperature = (waterShare: number): Band => {
  const nominal = Math.min(363.15, Math.max(323.15, 336.15 + 140 * (0.25 - waterShare)))
  return { low: nominal - 5, nominal, high: nominal + 5 }
}

/**
 * Rate constant.
 *
 *     k(T) = k₄₀ · exp(E/R · (1/313.15 − 1/T))
 *
 * @param rate             at 40 °C [1/s]
 * @param activationEnergy [J/mol]
 * @param temperature      [K], > 0
 * @returns rate constant [1/s]
 * @source arrhenius
 */
export const rateConstant = (rate: number, activationEnergy: number, temperature: number): number =>
  rate * Math.exp((activationEnergy / GAS_CONSTANT) * (1 / REFERENCE - 1 / temperature))

/**
 * When a batter that is kept at one temperature reacts fastest.
 *
 *     t = ln(1/x₀) / (k (1 + x₀)),   then x = (1 − x₀)/2
 *
 * From dx/dt = k (x₀ + x)(1 − x), whose solution has (x₀ + x)/(1 − x) = x₀ exp(k (1 + x₀) t).
 *
 * @param rate    rate constant at that temperature [1/s]
 * @param started share reacted at trace x₀ [–], 0 < x₀ < 1
 * @returns time from trace [s]
 * @source logistic
 */
export const fastestAt = (rate: number, started: number): number =>
  Math.log(1 / started) / (rate * (1 + started))

/** One end or the middle of a reaction: numbers instead of bands. */
export interface ReactionCase {
  /** J/kg batter */
  readonly heat: number
  /** 1/s at 40 °C */
  readonly rate: number
  readonly activationEnergy: number
  readonly started: number
  readonly form: RateForm
}

export interface ReactingCells {
  /** of what had not reacted at trace, for each cell [–] */
  readonly reacted: Float64Array
  /** least of them */
  readonly least: () => number
  /** fastest rate that a cell still has to go through [1/s], 0 when all is done */
  readonly fastest: (above: Float64Array) => number
  readonly source: HeatSource
}

/** K between the entries of the table of rates: its straight pieces miss the curve by 3 parts in 100,000 */
const TABLE_STEP = 0.25
const TABLE_FROM = 243.15
const TABLE_SIZE = 801
/** of a cell, after which nothing more is reckoned: what is left warms by less than 0.01 K */
const DONE = 1e-4

/**
 * Soap that reacts in every cell by its own temperature.
 *
 *     dx/dt = k(T) (x₀ + x)(1 − x)   or, as the bound, k(T)(1 − x);   ρc dT = ρ Q (1 − x₀) dx
 *
 * x is the share of what had not reacted at trace, whose heat is already in the pour temperature. Each step takes the
 * rate at its middle. All at once: everything has reacted before the first step.
 *
 * @param reaction     one case
 * @param cells        how many
 * @param room         temperature of the surroundings [K]
 * @param density      [kg/m3]
 * @param heatCapacity [J/(kg K)]
 * @returns cells whose source releases heat and advances them
 * @source arrhenius, logistic
 */
export function reactingCells(
  reaction: ReactionCase,
  cells: number,
  room: number,
  density: number,
  heatCapacity: number,
): ReactingCells {
  const { form } = reaction
  const reacted = new Float64Array(cells)
  // first order is the same law with a first factor that is always one
  const offset = form === 'first-order' ? 1 : reaction.started
  const slope = form === 'first-order' ? 0 : 1
  const rates = new Float64Array(TABLE_SIZE + 1)
  for (let i = 0; i <= TABLE_SIZE; i += 1)
    rates[i] = rateConstant(reaction.rate, reaction.activationEnergy, TABLE_FROM + i * TABLE_STEP)
  const shift = (room - TABLE_FROM) / TABLE_STEP
  const rateAt = (above: number): number => {
    const position = Math.min(TABLE_SIZE - 1, Math.max(0, above / TABLE_STEP + shift))
    const entry = position | 0
    const low = rates[entry]!
    return low + (rates[entry + 1]! - low) * (position - entry)
  }
  const warming = (reaction.heat * (1 - reaction.started)) / heatCapacity
  const perKelvin = density * heatCapacity
  const open = 1 - DONE

  const source: HeatSource = (above, time) => {
    let change = 0
    for (let i = 0; i < cells; i += 1) {
      const x = reacted[i]!
      if (x >= open) continue
      const warm = above[i]!
      const half = Math.min(1, x + (time / 2) * rateAt(warm) * (offset + slope * x) * (1 - x))
      const rate = rateAt(warm + warming * (half - x)) * (offset + slope * half) * (1 - half)
      const next = Math.min(1, x + time * rate)
      reacted[i] = next
      above[i] = warm + warming * (next - x)
      change += next - x
    }
    return change * warming * perKelvin
  }
  return {
    reacted,
    source,
    least: () => {
      let least = 1
      for (let i = 0; i < cells; i += 1) if (reacted[i]! < least) least = reacted[i]!
      return least
    },
    fastest: (above) => {
      let hottest = -Infinity
      for (let i = 0; i < cells; i += 1) if (reacted[i]! < open && above[i]! > hottest) hottest = above[i]!
      return hottest === -Infinity
        ? 0
        : rateAt(hottest) * (1 + (form === 'first-order' ? 0 : reaction.started))
    },
  }
}
