/** What a jug of balm weighs, how hot it gets, and how much room it takes. Pure functions, SI. */
import type { Finding } from '../../../src/findings.ts'

/** A material as it is melted. */
export interface Melted {
  /** kg/m3, lowest and highest that is published, at a temperature [K] */
  readonly density: { readonly from: number; readonly to: number; readonly at: number }
  /** K; none of what is liquid in the room */
  readonly melting?: { readonly from: number; readonly to: number } | undefined
}

/** kg/(m3 K); what melted fat loses of its density with each degree */
const DENSITY_SLOPE = 0.66

/**
 * Density of a melted fat or wax.
 *
 *     ρ = (ρ₁ + ρ₂) / 2 − 0.66 (T − T₀)
 *
 * Validity: melted, within some 70 K of T₀.
 * @param temperature [K]
 * @returns [kg/m3]
 * @source choi-okos
 */
export const densityAt = ({ density: { from, to, at } }: Melted, temperature: number): number =>
  (from + to) / 2 - DENSITY_SLOPE * (temperature - at)

/**
 * Density of a mixture of liquids that keep their volumes.
 *
 *     ρ = 1 / Σ (w / ρ)
 *
 * @param parts       shares of the weight, 1 in all
 * @param temperature [K]
 * @returns [kg/m3]
 * @source common practice
 */
export const mixtureDensity = (
  parts: readonly { readonly share: number; readonly material: Melted }[],
  temperature: number,
): number =>
  1 / parts.reduce((volume, { share, material }) => volume + share / densityAt(material, temperature), 0)

/**
 * The temperature above which nothing of a mixture is solid: the highest melting point of any part. In truth wax
 * dissolved in oil is liquid sooner, so that this errs to the hot side.
 *
 * @returns [K]; of a mixture that is liquid in the room the room's
 * @source common practice
 */
export const allMelted = (materials: readonly Melted[], room: number): number =>
  Math.max(room, ...materials.flatMap(({ melting }) => (melting ? [melting.to] : [])))

export interface Scale {
  readonly key: string
  /** kg */
  readonly division: number
  readonly least: number
  readonly capacity: number
}

/**
 * The finest scale that takes a mass with the cup that it lies in, and the mass to its division.
 *
 * @param mass [kg]
 * @param cup  [kg]
 * @returns nothing where no scale takes it
 * @source common practice
 */
export const weighing = (
  mass: number,
  cup: number,
  scales: readonly Scale[],
): { readonly scale: Scale; readonly mass: number } | undefined => {
  const [scale] = scales
    .filter(({ least, capacity }) => mass >= least && mass + cup <= capacity)
    .sort((one, other) => one.division - other.division)
  return scale && { scale, mass: Math.round(mass / scale.division) * scale.division }
}

export interface Jug {
  readonly key: string
  /** m3 */
  readonly volume: number
  /** share of it that may be filled */
  readonly fullTo: number
}

export interface BatchSetting {
  readonly parts: readonly { readonly key: string; readonly share: number; readonly material: Melted }[]
  readonly tins: number
  /** m3 poured into each, hot */
  readonly tinVolume: number
  /** share of what is melted that never reaches a tin */
  readonly loss: number
  readonly jug: Jug
  readonly scales: readonly Scale[]
  /** kg; what a part lies in on its scale */
  readonly cup: number
  /** K */
  readonly room: number
  readonly hottest: number
  /** K above the temperature at which all is melted */
  readonly meltAbove: number
  readonly pourAbove: number
}

export interface BatchFigures {
  /** K */
  readonly allMelted: number
  readonly meltTo: number
  readonly pourAt: number
  /** kg/m3 as it is poured */
  readonly density: number
  /** kg in a tin, and in the jug */
  readonly tinMass: number
  readonly jugMass: number
  /** kg of it that never reaches a tin */
  readonly leftMass: number
  /** m3 in the jug at its hottest */
  readonly hotVolume: number
  readonly parts: readonly { readonly key: string; readonly mass: number; readonly scale: Scale }[]
  readonly findings: readonly Finding[]
}

/**
 * A batch from its tins back to what is weighed.
 *
 *     m_tin = V ρ(T_pour)      m_jug = n m_tin / (1 − loss)      V_hot = m_jug / ρ(T_melt)
 *
 * @returns masses [kg], temperatures [K], volume [m3]; it stops where the jug would overflow, what it is melted to is
 *   hotter than the shop allows, or no scale takes a part
 * @source common practice
 */
export const batchFigures = (setting: BatchSetting): BatchFigures => {
  const { parts, tins, tinVolume, loss, jug, scales } = setting
  const melted = allMelted(
    parts.map(({ material }) => material),
    setting.room,
  )
  const meltTo = melted + setting.meltAbove
  const pourAt = melted + setting.pourAbove
  const density = mixtureDensity(parts, pourAt)
  const tinMass = tinVolume * density
  const jugMass = (tins * tinMass) / (1 - loss)
  const hotVolume = jugMass / mixtureDensity(parts, meltTo)
  const weighed = parts.map(({ key, share }) => ({ key, of: weighing(share * jugMass, setting.cup, scales) }))
  const volumeAllowed = jug.volume * jug.fullTo
  const findings: Finding[] = [
    ...(hotVolume > volumeAllowed
      ? [
          {
            code: 'balm-jug-overflows',
            severity: 'stop',
            values: { vessel: jug.key, volumeNeeded: hotVolume, volumeAllowed },
          } as const,
        ]
      : []),
    ...(Math.max(meltTo, pourAt) > setting.hottest
      ? [
          {
            code: 'balm-too-hot',
            severity: 'stop',
            values: { temperature: Math.max(meltTo, pourAt), temperatureAllowed: setting.hottest },
          } as const,
        ]
      : []),
    ...weighed
      .filter(({ of }) => of === undefined)
      .map(({ key }) => ({ code: 'balm-no-scale', severity: 'stop', values: { key } }) as const),
  ]
  return {
    allMelted: melted,
    meltTo,
    pourAt,
    density,
    tinMass,
    jugMass,
    leftMass: jugMass - tins * tinMass,
    hotVolume,
    parts: weighed.flatMap(({ key, of }) => (of ? [{ key, ...of }] : [])),
    findings,
  }
}
