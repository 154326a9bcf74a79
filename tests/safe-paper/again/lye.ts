/** How hot a pail of lye gets, from what is weighed into it; the high end of what is known of its heat. Temperatures in °C. */
import { lyeDensity, lyeEnthalpy, lyeHeat, MOLAR, waterHeat } from './works.ts'

export interface Pail {
  /** kg of pure alkali; of what came with it; of all that is liquid, water of acids and stock with it; of ice */
  readonly soda: number
  readonly potash: number
  readonly salts: number
  readonly water: number
  readonly ice: number
  /** mol of acid groups in the water */
  readonly acids: number
  readonly waterAt: number
  readonly room: number
}

/** What is known of the heat of potash is that of endless dilution, or, falling off as that of soda does, less. */
type End = 'most' | 'least'

/** J of all that has dissolved, at 25 °C: for soda 1.6 + 0.4 kJ/mol above the older tables at most */
const given = ({ soda, potash, water, ice, acids }: Pail, end: End = 'most'): number => {
  const strength = Math.max(0.05, (soda + potash) / (soda + potash + water + ice))
  const older =
    42_100 -
    ((lyeEnthalpy(strength, 25) - (1 - strength) * lyeEnthalpy(0, 25)) / strength) * (MOLAR.NaOH / 1000)
  const moles = (1000 * soda) / MOLAR.NaOH
  const others = (1000 * potash) / MOLAR.KOH
  const met = Math.min(acids, moles + others)
  return end === 'most'
    ? moles * (older + 2_000) + others * 57_800 + met * 57_000
    : moles * (older - 400) + others * 57_800 * Math.min(1, older / 42_890) + met * 48_000
}

/** J that the finished lye holds above 25 °C */
const held = ({ soda, potash, salts, water, ice }: Pail, t: number): number => {
  const mass = soda + potash + water + ice
  return mass * lyeHeat(soda / mass, potash / mass, t) + salts * 1_000 * (t - 25)
}

const temperatureOf = (pail: Pail, heat: number): number => {
  let [low, high] = [-20, 200]
  for (let step = 0; step < 34; step += 1) {
    const middle = (low + high) / 2
    if (held(pail, middle) < heat) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** J of dry alkali as warm as the room */
const dry = (soda: number, potash: number, salts: number, room: number): number =>
  ((soda + potash) * 1_490 + salts * 1_000) * (room - 25)

/** 0 °C: heat of fusion and the warming of its water to 25 °C */
const iceHeat = waterHeat(0) - 333_550

/** Everything in the pail at once. */
export const allAtOnce = (pail: Pail): number =>
  temperatureOf(
    pail,
    pail.water * waterHeat(pail.waterAt) +
      pail.ice * iceHeat +
      dry(pail.soda, pail.potash, pail.salts, pail.room) +
      given(pail),
  )

/** Alkali in portions: each goes in when the lye has come down to what the shop waits for, or was never so warm. */
export const portionPeaks = (
  pail: Pail,
  portions: readonly { readonly soda: number; readonly potash: number; readonly salts: number }[],
  waitFor: number,
): number[] => {
  const peaks: number[] = []
  let before: Pail | undefined
  for (const portion of portions) {
    const after: Pail = {
      ...pail,
      soda: (before?.soda ?? 0) + portion.soda,
      potash: (before?.potash ?? 0) + portion.potash,
      salts: (before?.salts ?? 0) + portion.salts,
    }
    const last = peaks.at(-1)
    if (!before || last === undefined) peaks.push(Math.max(0, allAtOnce(after)))
    else {
      const start = Math.min(Math.max(waitFor, pail.room), Math.max(last, pail.room))
      const heat =
        held(before, start) +
        dry(portion.soda, portion.potash, portion.salts, pail.room) +
        given(after) -
        given(before)
      peaks.push(Math.max(0, temperatureOf(after, heat)))
    }
    before = after
  }
  return peaks
}

/** A stock lye as warm as the room into its water: only the heat of thinning is left, at whichever end leaves more. */
export const thinnedPeak = (pail: Pail, stockWater: number): number => {
  const stock: Pail = { ...pail, water: stockWater, ice: 0, acids: 0 }
  const at = (end: End): number =>
    temperatureOf(
      pail,
      (pail.water - stockWater) * waterHeat(pail.waterAt) +
        pail.ice * iceHeat +
        held(stock, pail.room) +
        given(pail, end) -
        given(stock, end),
    )
  return Math.max(at('most'), at('least'))
}

/** m3 of such a lye */
export const lyeVolume = (mass: number, soda: number, potash: number, t: number): number =>
  mass / lyeDensity(soda / mass, potash / mass, Math.min(t, 120))
