/** Density of a melted fat at the temperature of the pot. */
import type { Range } from '../numerics/spread.ts'

/** Density of a fat against water, as standards print it. */
export interface RelativeDensity extends Range {
  /** temperature of the fat [K] */
  readonly temperature: number
  /** temperature of the water it is compared with [K]; 293.15 where the source does not say */
  readonly waterTemperature?: number | undefined
  /** solid at that temperature: the value does not hold for the melted fat */
  readonly solid?: boolean | undefined
}

export interface FatDensity extends Range {
  readonly nominal: number
  readonly basis: 'published' | 'food-fat-in-general'
}

/** How the density of a liquid fat falls with temperature [kg/m3 per K]: typical of triglycerides, from memory. */
const SLOPE = -0.66

/** The same for food fat in general [kg/m3 per K], read; it stands for the other end of what is known. */
const SLOPE_OF_FOOD_FAT = -0.41757

/**
 * Density of a melted fat.
 *
 *     ρ(T) = d · ρ_water(T_water) − 0.66 (T − T_d)
 *
 * Good to about 1 % between 15 and 90 °C for a liquid fat. The range holds the published limits and, at the far end,
 * the smaller slope of −0.418. A density that was measured on the solid is set aside for food fat in general, ± 2 %.
 *
 * @param density     relative density [–], its temperatures [K]
 * @param temperature of the fat [K]
 * @returns nominal, low, high [kg/m3] and what it rests on
 * @source choi-okos
 */
export function fatDensity(density: RelativeDensity, temperature: number): FatDensity {
  if (density.solid) {
    const general = foodFatDensity(temperature)
    return { nominal: general, low: general * 0.98, high: general * 1.02, basis: 'food-fat-in-general' }
  }
  const water = waterDensity(density.waterTemperature ?? 293.15)
  const difference = temperature - density.temperature
  const shifts = [SLOPE * difference, SLOPE_OF_FOOD_FAT * difference]
  return {
    nominal: ((density.low + density.high) / 2) * water + SLOPE * difference,
    low: density.low * water + Math.min(...shifts),
    high: density.high * water + Math.max(...shifts),
    basis: 'published',
  }
}

/**
 * Density of food fat in general.
 *
 *     ρ = 925.59 − 0.41757 t,   t in °C
 *
 * Valid −40 to 150 °C.
 *
 * @param temperature [K]
 * @returns density [kg/m3]
 * @source choi-okos
 */
export const foodFatDensity = (temperature: number): number =>
  925.59 + SLOPE_OF_FOOD_FAT * (temperature - 273.15)

/**
 * Density of water at ordinary pressure.
 *
 *     ρ = (999.83952 + 16.945176 t − 7.9870401e−3 t² − 46.170461e−6 t³ + 105.56302e−9 t⁴ − 280.54253e−12 t⁵)
 *         / (1 + 16.879850e−3 t),   t in °C
 *
 * Valid 0 to 150 °C. Coefficients from memory.
 *
 * @param temperature [K]
 * @returns density [kg/m3]
 * @source kell1975
 */
export function waterDensity(temperature: number): number {
  const t = temperature - 273.15
  const above =
    999.83952 +
    t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))))
  return above / (1 + 16.87985e-3 * t)
}
