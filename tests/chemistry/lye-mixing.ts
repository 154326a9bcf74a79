import type { LyeMixing } from '../../src/chemistry/solution-heat.ts'

export const celsius = (t: number): number => t + 273.15

/** One kilogram of lye made at one temperature. */
export const lye = (massFraction: number, t = 20): LyeMixing => ({
  sodiumHydroxide: massFraction,
  potassiumHydroxide: 0,
  impurities: 0,
  water: 1 - massFraction,
  waterTemperature: celsius(t),
  alkaliTemperature: celsius(t),
})
