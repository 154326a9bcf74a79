/** Temperature of the pot when heated fats, cold oils, lye and liquids meet, and how hot the fats must be for it. */
import type { Finding } from '../findings.ts'
import { risingRoot } from '../numerics/root.ts'
import { fatHeat, fatSpecificHeat } from './fat-heat.ts'

export interface Stream {
  readonly name: string
  /** kg, ≥ 0 */
  readonly mass: number
  /** K */
  readonly temperature: number
  /** J/kg/K; 'fat' takes the specific heat of a fat against temperature */
  readonly specificHeat: number | 'fat'
  /** a fat that can be solid: melting point and heat of melting */
  readonly melting?: Melting
}

export interface Melting {
  /** K, above which nothing of it stays solid */
  readonly point: number
  /** J/kg of solid */
  readonly heat: number
  /** share that is solid when it goes in; 0 for a melted fat */
  readonly solidShare: number
  /** K, below which it seeds in the pot: false trace; the melting point less 4 K unless stated */
  readonly seedingPoint?: number
}

export interface Mix {
  /** K, before any of the melted fat seeds and before the lye begins to react */
  readonly temperature: number
  /** K by which the pot would warm if all melted hard fat that is below its seeding point set; at most */
  readonly riseIfFatsSet: number
  /** kg of solid fat that stays unmelted */
  readonly unmelted: number
  /** K, highest seeding point of the fats in it; undefined without hard fats */
  readonly seedingPoint: number | undefined
  readonly findings: readonly Finding[]
}

/**
 * Temperature of a mixture from its parts.
 *
 *     Σ mᵢ · ∫ cᵢ dT (from Tᵢ to T) + Σ m_solid · L · (1 where T > melting point) = 0
 *
 * No heat is lost to the pot unless the pot is given as a part. Solid fat takes its heat of melting; melted fat
 * is taken to stay liquid for the moment of mixing, since it sets slowly, and the warming if it did set is given
 * apart. Heat of reaction comes later and is not counted.
 *
 * @param streams  masses [kg], temperatures [K], specific heats [J/kg/K]; at least one with mass
 * @returns temperature [K], unmelted mass [kg], with findings
 * @source choi-okos, common practice
 */
export const mixTemperature = (streams: readonly [Stream, ...Stream[]]): Mix => {
  const temperatures = streams.map((stream) => stream.temperature)
  const temperature = risingRoot((t) => streams.reduce((sum, stream) => sum + heatTo(stream, t), 0), 0, {
    low: Math.min(...temperatures) - BELOW_COLDEST,
    high: Math.max(...temperatures),
    tolerance: TOLERANCE,
  })
  // at the melting point only what the balance pays for melts
  const shortfall = -streams.reduce((sum, stream) => sum + heatTo(stream, temperature - STEP), 0)
  let heatLeft = Math.max(0, shortfall)
  let unmelted = 0
  for (const { mass, melting } of streams) {
    if (!melting || melting.solidShare === 0) continue
    const solid = mass * melting.solidShare
    if (temperature > melting.point + STEP) continue
    const melted = temperature > melting.point - STEP ? Math.min(solid, heatLeft / melting.heat) : 0
    heatLeft -= melted * melting.heat
    unmelted += solid - melted
  }

  const hard = streams.flatMap((stream) =>
    stream.melting && stream.mass > 0 ? [{ ...stream, melting: stream.melting }] : [],
  )
  const seedingPoints = hard.map(({ melting }) => seedingPointOf(melting))
  const seedingPoint = hard.length > 0 ? Math.max(...seedingPoints) : undefined
  const setting = hard.filter(({ melting }) => temperature < seedingPointOf(melting))
  const heatOfSetting = setting.reduce(
    (sum, { mass, melting }) => sum + mass * (1 - melting.solidShare) * melting.heat,
    0,
  )
  const capacity = streams.reduce((sum, { mass, specificHeat }) => {
    return sum + mass * (specificHeat === 'fat' ? fatSpecificHeat(temperature) : specificHeat)
  }, 0)

  const findings: Finding[] = []
  if (unmelted > UNMELTED_TOLERANCE) {
    findings.push({ code: 'hard-fat-not-melted', severity: 'hold', values: { temperature, unmelted } })
  }
  if (setting.length > 0) {
    findings.push({
      code: 'below-seeding-point',
      severity: 'warn',
      values: {
        temperature,
        seedingPoint: Math.max(...setting.map(({ melting }) => seedingPointOf(melting))),
        names: setting.map((stream) => stream.name).join(', '),
      },
    })
  }
  return {
    temperature,
    riseIfFatsSet: capacity > 0 ? heatOfSetting / capacity : 0,
    unmelted,
    seedingPoint,
    findings,
  }
}

export interface HeatingPlan {
  /** K to heat the hard fats to */
  readonly heatTo: number
  /** K of the pot when all is in */
  readonly potTemperature: number
  /** K that was asked for */
  readonly wanted: number
  readonly findings: readonly Finding[]
}

/**
 * How hot the hard fats must be, so that the pot comes to a wanted temperature when the cold parts are in.
 *
 *     Σ_hard m · ∫ c dT (X → Y) = − Σ_cold m · ∫ c dT (T → Y)      for X
 *
 * The fats are melted at X in any case, at least 5 K above their melting point; if that makes the pot hotter than
 * wanted, the temperature it really comes to is given. X is held below a scorching limit, and what that leaves of
 * the wish is given.
 *
 * @param input  hard fats (their own temperature is not used), all other parts, wanted temperature [K], limit [K]
 * @returns X and the temperature of the pot [K], with findings
 * @source choi-okos, common practice
 */
export const heatHardFatsTo = (input: {
  readonly hardFats: readonly [Stream, ...Stream[]]
  readonly others: readonly Stream[]
  readonly wanted: number
  /** K; 353.15 (80 °C) unless stated */
  readonly hottest?: number
}): HeatingPlan => {
  const { hardFats, others, wanted } = input
  const hottest = input.hottest ?? DEFAULT_HOTTEST
  const melted = hardFats.map((fat): Stream => {
    return fat.melting ? { ...fat, melting: { ...fat.melting, solidShare: 0 } } : fat
  })
  const meltedBy = Math.max(...hardFats.map((fat) => (fat.melting ? fat.melting.point + MELTING_MARGIN : 0)))
  const demand = others.reduce((sum, stream) => sum + heatTo(stream, wanted), 0)
  const ideal = risingRoot(
    (x) => melted.reduce((sum, fat) => sum - heatTo({ ...fat, temperature: x }, wanted), -demand),
    0,
    { low: SEARCH_LOW, high: SEARCH_HIGH, tolerance: TOLERANCE },
  )
  const heatFatsTo = Math.max(meltedBy, Math.min(hottest, ideal))
  const heated = melted.map((fat) => ({ ...fat, temperature: heatFatsTo }))
  const mix = mixTemperature([heated[0]!, ...heated.slice(1), ...others])

  const findings: Finding[] = [...mix.findings]
  const values = { heatTo: heatFatsTo, potTemperature: mix.temperature, wantedTemperature: wanted }
  if (ideal > hottest) findings.push({ code: 'pot-colder-than-wanted', severity: 'warn', values })
  if (meltedBy > hottest)
    findings.push({ code: 'melting-above-heating-limit', severity: 'hold', values: { ...values, hottest } })
  if (ideal < meltedBy - 0.01) findings.push({ code: 'pot-hotter-than-wanted', severity: 'warn', values })
  return { heatTo: heatFatsTo, potTemperature: mix.temperature, wanted, findings }
}

const DEFAULT_HOTTEST = 353.15 // K, 80 °C; estimate, common practice
const MELTING_MARGIN = 5 // K above the melting point, so that no crystals are left; common practice
const SEEDING_MARGIN = 4 // K below the melting point; estimate: fats supercool a little
const SEARCH_LOW = 150 // K
const SEARCH_HIGH = 900 // K
const TOLERANCE = 1e-10 // K, well below the step
const BELOW_COLDEST = 200 // K; room for a solid part that was given above its melting point
const STEP = 1e-6 // K, either side of a melting point
const UNMELTED_TOLERANCE = 1e-6 // kg

const seedingPointOf = (melting: Melting): number => melting.seedingPoint ?? melting.point - SEEDING_MARGIN

/** J that a part takes up on its way to a temperature, melting included */
const heatTo = (stream: Stream, temperature: number): number => {
  const sensible =
    stream.specificHeat === 'fat'
      ? fatHeat(stream.temperature, temperature)
      : stream.specificHeat * (temperature - stream.temperature)
  const { melting } = stream
  const melts = melting && temperature > melting.point ? melting.solidShare * melting.heat : 0
  return stream.mass * (sensible + melts)
}
