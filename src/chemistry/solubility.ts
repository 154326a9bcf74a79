/** How strong a lye can be at a temperature before it crystallises. */
import type { Finding } from '../findings.ts'
import type { LyeComposition } from './solution-density.ts'

/** Temperature [K] and mass share of NaOH in a saturated lye [–]. */
type SaturationPoint = readonly [temperature: number, share: number]

/**
 * 20, 80 and 90 °C read; from memory, in g for 100 g of water: 42 at 0, 51.5 at 10, 119 at 30, 129 at 40, 145 at 50 and
 * 174 at 60 °C.
 */
const SODIUM_SATURATION: readonly [SaturationPoint, ...SaturationPoint[]] = [
  [273.15, 42 / 142],
  [283.15, 51.5 / 151.5],
  [293.15, 0.522],
  [303.15, 119 / 219],
  [313.15, 129 / 229],
  [323.15, 145 / 245],
  [333.15, 174 / 274],
  [353.15, 0.758],
  [363.15, 0.7628],
]

/** 25 °C: 14.1 mol/L, read, over its computed density of 1530 kg/m3. 0 °C from memory: 97 g for 100 g of water. */
const POTASSIUM_SATURATION: readonly [SaturationPoint, ...SaturationPoint[]] = [
  [273.15, 97 / 197],
  [298.15, 0.517],
]

/** Closer to saturation than this, a cool night makes crystals [– of the lye], estimate. */
const MARGIN = 0.02

/**
 * Share of sodium hydroxide in a saturated lye.
 *
 *     straight lines between 0, 10, 20, 30, 40, 50, 60, 80 and 90 °C
 *
 * Valid 0 to 90 °C, the end values outside. Between 10 and 20 °C the solid changes and the true curve jumps: the
 * straight line keeps 50 % lye from crystallising above 19 °C, on the safe side of the 12 to 15 °C that is met.
 *
 * @param temperature [K]
 * @returns mass share of NaOH [–]
 * @source encyclopedia-naoh, acs-omega-2020, perry-recalled
 */
export const sodiumHydroxideSolubility = (temperature: number): number =>
  between(SODIUM_SATURATION, temperature)

/**
 * Share of potassium hydroxide in a saturated lye.
 *
 *     a straight line between 0 and 25 °C, above 25 °C as at 25 °C
 *
 * @param temperature [K]
 * @returns mass share of KOH [–]
 * @source sipos2000, perry-recalled
 */
export const potassiumHydroxideSolubility = (temperature: number): number =>
  between(POTASSIUM_SATURATION, temperature)

function between(points: readonly [SaturationPoint, ...SaturationPoint[]], temperature: number): number {
  let before: SaturationPoint = points[0]
  for (const point of points) {
    if (temperature <= point[0]) {
      const width = point[0] - before[0]
      return width === 0 ? point[1] : before[1] + ((point[1] - before[1]) * (temperature - before[0])) / width
    }
    before = point
  }
  return before[1]
}

/** What the solubility of a lye allows. */
export interface SolubilityCheck {
  readonly massFraction: number
  /** largest share at that temperature [–] */
  readonly limit: number
  readonly findings: readonly Finding[]
}

/**
 * Whether a lye stays clear at the coolest temperature that it meets.
 *
 *     stop: w > limit;  warn: w > limit − 0.02;  a mixed lye has the limit of its parts, by mass
 *
 * @param lye         share of each pure alkali [–]
 * @param temperature coolest that the lye gets before use [K]
 * @returns share, limit [–], findings
 * @source sipos2000, encyclopedia-naoh
 */
export function checkSolubility(lye: LyeComposition, temperature: number): SolubilityCheck {
  const sodium = lye.NaOH ?? 0
  const potassium = lye.KOH ?? 0
  const massFraction = sodium + potassium
  const limit =
    massFraction === 0
      ? 1
      : (sodium * sodiumHydroxideSolubility(temperature) +
          potassium * potassiumHydroxideSolubility(temperature)) /
        massFraction
  const values = { massFraction, limit, temperature }
  const findings: Finding[] = []
  if (massFraction > limit) findings.push({ code: 'lye-beyond-solubility', severity: 'stop', values })
  else if (massFraction > limit - MARGIN)
    findings.push({ code: 'lye-near-crystallising', severity: 'warn', values })
  return { massFraction, limit, findings }
}
