/** Heat held by fats: specific heat against temperature, and the heat of melting. */
import type { Band } from './band.ts'

/**
 * Specific heat of a fat.
 *
 *     c(t) = 1984.2 + 1.4733 · t − 0.0048008 · t²,  t in °C
 *
 * Valid from −40 to 150 °C, for food fat in general; single oils differ by some per cent. Outside the range it is
 * held at its end.
 *
 * @param temperature  [K]
 * @returns specific heat [J/kg/K]
 * @source choi-okos
 */
export const fatSpecificHeat = (temperature: number): number => {
  const t = clampCelsius(temperature)
  return 1984.2 + 1.4733 * t - 0.0048008 * t ** 2
}

/**
 * Heat to bring a kilogram of fat from one temperature to another, without melting.
 *
 *     q = ∫ c dt = [1984.2 · t + 1.4733 · t²/2 − 0.0048008 · t³/3]
 *
 * @param from  [K]
 * @param to    [K]
 * @returns heat [J/kg], negative when cooling
 * @source choi-okos
 */
export const fatHeat = (from: number, to: number): number => fatEnthalpy(to) - fatEnthalpy(from)

/** Heat of melting of hard fats [J/kg], all from memory: handbook ranges and their middle. */
export const HEAT_OF_MELTING: Readonly<Record<'coconut' | 'tallow' | 'other', Band>> = {
  coconut: { low: 100e3, nominal: 110e3, high: 120e3 },
  tallow: { low: 100e3, nominal: 130e3, high: 160e3 },
  other: { low: 100e3, nominal: 125e3, high: 160e3 }, // estimate: both of the above
}

const LOWEST = -40 // °C, Choi and Okos
const HIGHEST = 150 // °C, Choi and Okos

const clampCelsius = (temperature: number): number =>
  Math.min(HIGHEST, Math.max(LOWEST, temperature - 273.15))

/** J/kg above 0 °C; beyond the range it goes on with the specific heat of the end */
const fatEnthalpy = (temperature: number): number => {
  const t = clampCelsius(temperature)
  const beyond = temperature - 273.15 - t
  return 1984.2 * t + (1.4733 * t ** 2) / 2 - (0.0048008 * t ** 3) / 3 + beyond * fatSpecificHeat(temperature)
}
