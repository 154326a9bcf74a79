/** How much ice a lye needs on a cold day and on a hot one, when all its alkali goes in at once. */
import { iceFor } from './lye-portions.ts'
import { type LyeMixing, peakTemperature } from './solution-heat.ts'

export interface IceByWater {
  /** [K] */
  readonly waterTemperature: number
  /** without any ice, high end [K] */
  readonly peakWithoutIce: number
  /** without ice it would come to its boiling point */
  readonly boilsWithoutIce: boolean
  /** least ice in all the water, a whole percent [–]; undefined where even all ice is too little */
  readonly share: number | undefined
  /** with that share, or with all ice where that is too little, high end [K] */
  readonly peak: number
}

/**
 * Least whole percent of ice with which all alkali may go in at once, for each temperature of the water.
 *
 *     share = ⌈100 ice / water⌉ / 100, ice as iceFor;  raised until peak ≤ limit and below the boiling point
 *
 * The alkali counts as warm as the water where the water is the warmer: both stand in the same room. A peak is cut off at
 * the boiling point, so a limit above that point would be kept by a lye that boils: that does not count as kept.
 *
 * Valid for water of 0 to 100 °C and as peakTemperature; limits that cannot be kept have no share.
 *
 * @param mixing  the lye [kg, K]; its ice counts as water, its ice temperature is that of the ice
 * @param hottest allowed [K]
 * @param waterTemperatures one for each row [K]
 * @returns rows in the order of the temperatures: peaks [K], shares [–]
 * @source olsson1997
 */
export const iceByWater = (
  mixing: LyeMixing,
  hottest: number,
  waterTemperatures: readonly number[],
): readonly IceByWater[] =>
  waterTemperatures.map((waterTemperature): IceByWater => {
    const allWater = mixing.water + (mixing.ice ?? 0)
    const liquid: LyeMixing = {
      ...mixing,
      water: allWater,
      ice: 0,
      waterTemperature,
      alkaliTemperature: Math.max(mixing.alkaliTemperature, waterTemperature),
    }
    const withIce = (percent: number) => {
      const ice = (allWater * percent) / 100
      return peakTemperature({ ...liquid, water: allWater - ice, ice })
    }
    // Starts below what is needed, so that a share that is a whole percent already is not raised by its last bit.
    let percent = Math.floor(100 * iceFor(liquid, hottest, mixing.iceTemperature).share)
    for (; percent <= 100; percent++) {
      const { temperature, boilingPoint } = withIce(percent)
      if (temperature.high <= hottest && temperature.high < boilingPoint) break
    }
    const without = withIce(0)
    return {
      waterTemperature,
      peakWithoutIce: without.temperature.high,
      boilsWithoutIce: without.temperature.high >= without.boilingPoint,
      share: percent > 100 ? undefined : percent / 100,
      peak: withIce(Math.min(percent, 100)).temperature.high,
    }
  })
