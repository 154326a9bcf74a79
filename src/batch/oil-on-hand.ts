/** How many whole bars the oils on hand make, and which of them runs out first. */
import type { Finding } from '../findings.ts'
import { type Fill, type FillSetting, oilsForFillHeight, setHeightPerOil } from './fill.ts'

export interface OilOnHand {
  readonly name: string
  /** kg */
  readonly mass: number
}

export interface BarsOnHand {
  /** the largest batch of whole slices; undefined when not one slice can be filled */
  readonly fill: Fill | undefined
  /** name of the fat that runs out first; undefined when nothing limits */
  readonly limitingFat: string | undefined
  /** kg of oils that could be mixed before the limiting fat runs out; undefined when nothing limits */
  readonly oilMassPossible: number | undefined
  /** kg of each listed fat that is left over */
  readonly leftOver: readonly OilOnHand[]
  readonly findings: readonly Finding[]
}

/**
 * The largest batch of whole slices that the oils on hand can make in this mould.
 *
 *     m_max = min(stockᵢ / shareᵢ)      slices = ⌊(m_max · h_set per kg − trim) / pitch⌋, at most those of the mould
 *
 * A fat that is not listed as on hand is taken as bought in as needed.
 *
 * @param setting  batter, mould, cuts (slices = the most the mould takes) and allowances
 * @param onHand   fats by the name they bear in the batter [kg]; the same name twice counts together
 * @returns the batch, the fat that limits it and what is left over [kg]
 * @source common practice
 */
export const barsForOilOnHand = (setting: FillSetting, onHand: readonly OilOnHand[]): BarsOnHand => {
  const stock = new Map<string, number>()
  for (const oil of onHand) stock.set(oil.name, (stock.get(oil.name) ?? 0) + oil.mass)

  let limitingFat: string | undefined
  let oilMassPossible: number | undefined
  const shares = new Map<string, number>()
  for (const part of setting.parts) {
    if (part.kind === 'fat') shares.set(part.name, (shares.get(part.name) ?? 0) + part.massPerOil)
  }
  for (const [name, share] of shares) {
    const mass = stock.get(name)
    if (mass === undefined || share <= 0) continue
    const possible = mass / share
    if (oilMassPossible === undefined || possible < oilMassPossible) {
      limitingFat = name
      oilMassPossible = possible
    }
  }

  const perOil = setHeightPerOil(setting)
  const height = oilMassPossible === undefined ? Number.POSITIVE_INFINITY : oilMassPossible * perOil
  // a hair is added so that stock of exactly the needed mass is not lost to the last bit of a division
  const fitting = Math.floor((height - setting.cuts.topTrim) / setting.cuts.slicePitch + 1e-9)
  const slices = Math.max(0, Math.min(setting.cuts.slices, fitting))
  const leftAfter = (oilMass: number): OilOnHand[] =>
    [...stock].map(([name, mass]) => ({
      name,
      mass: Math.max(0, mass - oilMass * (shares.get(name) ?? 0)),
    }))

  if (slices === 0) {
    const findings: Finding[] = [
      {
        code: 'no-whole-slice',
        severity: 'stop',
        values: {
          fat: limitingFat ?? '',
          oilMass: oilMassPossible ?? 0,
          oilMassNeeded: perOil > 0 ? (setting.cuts.slicePitch + setting.cuts.topTrim) / perOil : 0,
        },
      },
    ]
    return { fill: undefined, limitingFat, oilMassPossible, leftOver: leftAfter(0), findings }
  }
  const fill = oilsForFillHeight({ ...setting, cuts: { ...setting.cuts, slices } })
  return { fill, limitingFat, oilMassPossible, leftOver: leftAfter(fill.oilMass), findings: fill.findings }
}
