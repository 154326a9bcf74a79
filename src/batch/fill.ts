/** How high a batch stands in its mould, and how much oil fills a mould. */
import type { Finding } from '../findings.ts'
import type { Band } from './band.ts'
import { type BatterPart, batterPerOil } from './batter.ts'
import { DEFAULT_FILL_ALLOWANCES, type FillAllowances } from './fill-allowances.ts'

export interface MouldInside {
  /** m, between the faces that the batter touches: the lining, or bare walls */
  readonly length: number
  readonly width: number
  /** m, from the base to the rim */
  readonly height: number
  /** m2, as water found it, where that is not length × width */
  readonly area?: number
}

/** How the block is cut: a slice is one layer of columns × rows bars. */
export interface BlockCuts {
  readonly columns: number
  readonly rows: number
  readonly slices: number
  /** m of green soap for one slice, with whatever allowance the cutting wires need */
  readonly slicePitch: number
  /** m left on top to be cut away */
  readonly topTrim: number
}

export interface FillSetting {
  readonly parts: readonly BatterPart[]
  readonly mould: MouldInside
  readonly cuts: BlockCuts
  readonly allowances?: FillAllowances
}

export interface Fill {
  /** kg */
  readonly oilMass: number
  /** kg, everything that goes into the pot */
  readonly batterMass: number
  /** kg, what reaches the mould */
  readonly pouredMass: number
  /** m3, batter in the pot without air */
  readonly batterVolume: number
  /** kg/m3, without air */
  readonly batterDensity: number
  /** m2, of the mould's inside */
  readonly area: number
  /** m above the base, right after the pour */
  readonly pourHeight: Band
  /** m above the base, when set */
  readonly setHeight: Band
  /** m from the poured surface to the rim */
  readonly freeboard: number
  /** m, freeboard that the rise takes at most */
  readonly freeboardNeeded: number
  /** m of the set block that the slices take */
  readonly slicedHeight: number
  /** m that stands above the slices when set */
  readonly trim: number
  /** m that the trim must at least be, so that the last slice is whole */
  readonly trimNeeded: number
  /** m, the parts of trimNeeded */
  readonly trimParts: {
    /** fill error and the upper spreads of dish and ash, root sum of squares */
    readonly spread: number
    readonly dish: number
    readonly ash: number
    readonly outOfLevel: number
  }
  readonly slices: number
  readonly bars: number
  readonly findings: readonly Finding[]
}

/**
 * Height of a batch in its mould, from the mass of its oils.
 *
 *     h = m · ν · (1 − residue) · (1 + air) / A        A = length · width, or as measured
 *     h_set = h · (1 − shrinkage)
 *
 * The air stays in the soap. The block shrinks in height only, since it clings to the lining on its sides.
 * The band of a height is the root sum of squares of its independent parts.
 *
 * @param setting  batter, mould, cuts and allowances
 * @param oilMass  all oils together [kg], ≥ 0
 * @returns heights [m], masses [kg], trim and freeboard [m], with findings
 * @source common practice
 */
export const fillHeightForOils = (setting: FillSetting, oilMass: number): Fill => {
  const { mould, cuts } = setting
  const allowances = setting.allowances ?? DEFAULT_FILL_ALLOWANCES
  const batter = batterPerOil(setting.parts)
  const area = areaOf(mould)
  const { potResidue, air, setShrinkage, rise } = allowances

  const batterVolume = oilMass * batter.volumePerOil
  const pourNominal = oilMass * pourHeightPerOil(setting)
  const pourHeight = heightBand(pourNominal, [shareBelow(potResidue), shareAbove(air)])
  const setHeight = heightBand(pourNominal * (1 - setShrinkage.nominal), [
    shareBelow(potResidue),
    shareAbove(air),
    shareBelow(setShrinkage),
  ])

  const slicedHeight = cuts.slices * cuts.slicePitch
  const trim = setHeight.nominal - slicedHeight
  const trimParts = {
    spread: Math.hypot(
      setHeight.nominal - setHeight.low,
      upperSpread(allowances.dish),
      upperSpread(allowances.ash),
    ),
    dish: allowances.dish.nominal,
    ash: allowances.ash.nominal,
    outOfLevel: Math.tan(allowances.level) * ((mould.length + mould.width) / 2),
  }
  const trimNeeded = trimParts.spread + trimParts.dish + trimParts.ash + trimParts.outOfLevel
  const freeboard = mould.height - pourHeight.nominal
  const freeboardNeeded = pourHeight.high * (1 + rise.high) - pourHeight.nominal

  const findings: Finding[] = []
  if (pourHeight.high > mould.height) {
    findings.push({
      code: 'batter-over-rim',
      severity: 'stop',
      values: { pourHeight: pourHeight.high, mouldHeight: mould.height },
    })
  } else if (pourHeight.high * (1 + rise.nominal) > mould.height) {
    findings.push({
      code: 'rise-over-rim',
      severity: 'stop',
      values: { freeboard, freeboardNeeded, rise: rise.nominal },
    })
  } else if (freeboard < freeboardNeeded) {
    findings.push({
      code: 'freeboard-short',
      severity: 'warn',
      values: { freeboard, freeboardNeeded, rise: rise.high },
    })
  }
  if (trim < -HEIGHT_TOLERANCE) {
    findings.push({
      code: 'fill-below-slices',
      severity: 'stop',
      values: { setHeight: setHeight.nominal, slicedHeight },
    })
  } else if (trim < trimNeeded - HEIGHT_TOLERANCE) {
    findings.push({ code: 'trim-short', severity: 'warn', values: { trim, trimNeeded } })
  }

  return {
    oilMass,
    batterMass: oilMass * batter.massPerOil,
    pouredMass: oilMass * batter.massPerOil * (1 - potResidue.nominal),
    batterVolume,
    batterDensity: batter.density,
    area,
    pourHeight,
    setHeight,
    freeboard,
    freeboardNeeded,
    slicedHeight,
    trim,
    trimNeeded,
    trimParts,
    slices: cuts.slices,
    bars: cuts.columns * cuts.rows * cuts.slices,
    findings,
  }
}

/**
 * Mass of oils that makes a set block of all slices and the top trim.
 *
 *     m = (slices · pitch + trim) · A / (ν · (1 − residue) · (1 + air) · (1 − shrinkage))
 *
 * The inverse of fillHeightForOils, closed since everything is in proportion to the oils.
 *
 * @param setting  batter, mould, cuts and allowances
 * @returns the fill of that mass of oils [kg]
 * @source common practice
 */
export const oilsForFillHeight = (setting: FillSetting): Fill => {
  const wanted = setting.cuts.slices * setting.cuts.slicePitch + setting.cuts.topTrim
  const perOil = setHeightPerOil(setting)
  return fillHeightForOils(setting, perOil > 0 ? wanted / perOil : 0)
}

/**
 * A batch of so much oil, cut into as many whole slices as it fills: the rest of its height is trim.
 *
 *     slices = ⌊(h_set − trim) / pitch⌋, at most those of the mould, at least 1
 *
 * Not even one slice: the fill of one slice, with its stop.
 *
 * @param setting  batter, mould, cuts (slices = the most the mould takes) and allowances
 * @param oilMass  all oils together [kg], ≥ 0
 * @returns the fill of that mass of oils
 * @source common practice
 */
export const wholeSlicesForOils = (setting: FillSetting, oilMass: number): Fill => {
  const { cuts } = setting
  const height = oilMass * setHeightPerOil(setting)
  // a hair is added so that oils of exactly the needed mass are not short by the last bit of a division
  const fitting = Math.floor((height - cuts.topTrim) / cuts.slicePitch + HEIGHT_TOLERANCE)
  const slices = Math.max(1, Math.min(cuts.slices, fitting))
  return fillHeightForOils({ ...setting, cuts: { ...cuts, slices } }, oilMass)
}

/** m; a nanometre, far below any tape: keeps the last bit of a sum from raising a finding */
const HEIGHT_TOLERANCE = 1e-9

const areaOf = (mould: MouldInside): number =>
  mould.area ?? Math.max(0, mould.length) * Math.max(0, mould.width)

const pourHeightPerOil = (setting: FillSetting): number => {
  const { potResidue, air } = setting.allowances ?? DEFAULT_FILL_ALLOWANCES
  const area = areaOf(setting.mould)
  const volume = batterPerOil(setting.parts).volumePerOil * (1 - potResidue.nominal) * (1 + air.nominal)
  return area > 0 ? volume / area : 0
}

/**
 * Height of the set block for each kilogram of oils.
 *
 *     ν · (1 − residue) · (1 + air) · (1 − shrinkage) / A
 *
 * @param setting  batter, mould and allowances
 * @returns height [m/kg]; 0 for a mould without room
 * @source common practice
 */
export const setHeightPerOil = (setting: FillSetting): number =>
  pourHeightPerOil(setting) * (1 - (setting.allowances ?? DEFAULT_FILL_ALLOWANCES).setShrinkage.nominal)

const upperSpread = (band: Band): number => band.high - band.nominal

/** relative change of the height, down and up, at the ends of a band */
interface Spread {
  readonly down: number
  readonly up: number
}

/** a loss: more of it makes the block lower */
const shareBelow = (band: Band): Spread => ({
  down: (band.high - band.nominal) / (1 - band.nominal),
  up: (band.nominal - band.low) / (1 - band.nominal),
})

/** a gain: more of it makes the block higher */
const shareAbove = (band: Band): Spread => ({
  down: (band.nominal - band.low) / (1 + band.nominal),
  up: (band.high - band.nominal) / (1 + band.nominal),
})

const heightBand = (nominal: number, spreads: readonly Spread[]): Band => ({
  low: nominal * (1 - Math.hypot(...spreads.map((spread) => spread.down))),
  nominal,
  high: nominal * (1 + Math.hypot(...spreads.map((spread) => spread.up))),
})
