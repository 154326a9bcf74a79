/** Density of lye. */
import type { Alkali } from './alkali.ts'
import { waterDensity } from './density.ts'

/** Pure alkali in a lye [–] by mass of the lye; the rest is water. */
export type LyeComposition = Readonly<Partial<Record<Alkali, number>>>

/** Parameters c₀ to c₄ of the apparent density, read. */
const APPARENT_DENSITY: Readonly<Record<Alkali, readonly [number, number, number, number, number]>> = {
  NaOH: [319.020509469838, 528.592358475315, -0.102197896602724, 0.000350420706415566, 765.970470238438],
  KOH: [821.119043254761, 1043.20173374381, 0.112873330222752, 0.00124023636407386, 539.630388368877],
}

/**
 * Density of a lye of sodium hydroxide, potassium hydroxide or both.
 *
 *     1/ρ = (1 − w)/ρ_water + Σ wᵢ/ρᵢ;   ρᵢ = (c₀ w + c₁) exp(10⁻⁶ (t + c₄)²) / (w + c₂ + c₃ t),   t in °C
 *
 * Valid 4 to 95 °C, w up to 0.50 (NaOH) or 0.52 (KOH). Against other tables and
 * models within 0.5 %, 0.8 % above 45 %, as far as 40 °C; from 35 % on within 1 % at 60 °C and 1.5 % at 80 °C.
 *
 * @param lye         share of each pure alkali [–]
 * @param temperature [K]
 * @returns density [kg/m3]
 * @source laliberte2009
 */
export function lyeDensity(lye: LyeComposition, temperature: number): number {
  const t = temperature - 273.15
  const sodium = lye.NaOH ?? 0
  const potassium = lye.KOH ?? 0
  const w = sodium + potassium
  const volume =
    (1 - w) / waterDensity(temperature) +
    sodium * apparentVolume('NaOH', w, t) +
    potassium * apparentVolume('KOH', w, t)
  return 1 / volume
}

/** Kept as a volume: the apparent density itself passes through infinity near 10 % NaOH. */
function apparentVolume(alkali: Alkali, w: number, t: number): number {
  const [c0, c1, c2, c3, c4] = APPARENT_DENSITY[alkali]
  return (w + c2 + c3 * t) / ((c0 * w + c1) * Math.exp(1e-6 * (t + c4) ** 2))
}
