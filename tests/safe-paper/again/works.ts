/**
 * What published works say of water, lye and fats, written down once more: coefficients are those of the papers that the
 * sheets name, everything around them is this folder's own.
 */

/** g/mol: C 12.011, H 1.008, O 15.999, Na 22.98976928, K 39.0983 (IUPAC, abridged) */
export const MOLAR = {
  NaOH: 22.98976928 + 15.999 + 1.008,
  KOH: 39.0983 + 15.999 + 1.008,
  water: 2 * 1.008 + 15.999,
} as const
export type Kind = 'NaOH' | 'KOH'

/** Groups of an acid, g/mol, waters of its crystals. */
const carbonAcid = (c: number, h: number, o: number): number => c * 12.011 + h * 1.008 + o * 15.999
export const ACIDS: Readonly<Record<string, { groups: number; molar: number; waters: number }>> = {
  'citric-acid': { groups: 3, molar: carbonAcid(6, 8, 7), waters: 0 },
  'citric-acid-monohydrate': { groups: 3, molar: carbonAcid(6, 10, 8), waters: 1 },
  'lactic-acid': { groups: 1, molar: carbonAcid(3, 6, 3), waters: 0 },
  'acetic-acid': { groups: 1, molar: carbonAcid(2, 4, 2), waters: 0 },
}

/** g/mol of a fatty acid by its short name: CnH2nO2, two hydrogens less for each double bond, an oxygen more for OH. */
export const fattyAcid = (name: string): number => {
  const [, c = '0', d = '0'] = /^C(\d+):(\d)/.exec(name) ?? []
  return carbonAcid(Number(c), 2 * Number(c) - 2 * Number(d), 2 + (name.includes('OH') ? 1 : 0))
}
/** g/mol that three fatty acids gain in becoming a fat: C3H8O3 less three waters */
export const GLYCERYL = carbonAcid(3, 8, 3) - 3 * MOLAR.water

const series = (powers: readonly number[], x: number): number =>
  powers.reduce((sum, factor, power) => sum + factor * x ** power, 0)

/** J/kg of sodium lye at t °C; Olsson, Jernqvist and Aly 1997, in the share of water. */
export const lyeEnthalpy = (share: number, t: number): number => {
  const water = 1 - share
  const c1 =
    series([1288.4485, -4387.8908, 4938.2298, -1841.189], water) /
    series([1, -0.49649131, -4.0915144, 7.2887292, -3.0202651], water)
  const c2 = series(
    [2.3087919, -9.0004252, 167.59914, -1051.6368, 3394.3378, -6115.0986, 6220.8249, -3348.8098, 743.87432],
    water,
  )
  const c3 = series(
    [0.0230286, -0.37866056, 2.4529593, -8.2693542, 15.728833, -16.944427, 9.6254192, -2.2410628],
    water,
  )
  const c4 = series(
    [-8.5131313, 136.52823, -875.68741, 2920.0398, -5488.2983, 5841.8034, -3278.7483, 754.45993].map(
      (one) => one * 1e-5,
    ),
    water,
  )
  return 1000 * (c1 + c2 * t + c3 * t * t + c4 * t * t * t)
}

/** J/kg that water takes up from 25 °C to t °C; Choi and Okos. */
export const waterHeat = (t: number): number => {
  const upTo = (x: number): number => 4176.2 * x - (9.0864e-2 * x * x) / 2 + (5.4731e-3 * x ** 3) / 3
  return upTo(t) - upTo(25)
}

/** J/(kg K) of potash lye; Laliberté 2009 for what is dissolved, Choi and Okos for its water. */
const potashCapacity = (share: number, t: number): number => {
  const alpha = -0.0454225316920391 * t + 1.87598005977999 * Math.exp(0.01 * t) - 5.62731016809735 * share
  const dissolved = -0.612709529812129 * Math.exp(alpha) + 2.42547035549534 * share ** 1.24500822569176
  const water = 4176.2 - 9.0864e-2 * t + 5.4731e-3 * t * t
  return (1 - share) * water + share * 1000 * dissolved
}

/** J/kg that a lye takes up from 25 °C to t °C, by shares of the two alkalis. */
export const lyeHeat = (soda: number, potash: number, t: number): number => {
  const all = soda + potash
  const asSoda = lyeEnthalpy(all, t) - lyeEnthalpy(all, 25)
  if (potash === 0) return asSoda
  const steps = 20
  const width = (t - 25) / steps
  let asPotash = 0
  for (let i = 0; i < steps; i += 1) asPotash += potashCapacity(all, 25 + (i + 0.5) * width) * width
  return (soda * asSoda + potash * asPotash) / all
}

/** J/(kg K) at t °C */
export const lyeCapacity = (soda: number, potash: number, t: number): number =>
  (lyeHeat(soda, potash, t + 0.5) - lyeHeat(soda, potash, t - 0.5)) / 1

/** kg/m3; Kell 1975 */
export const waterDensity = (t: number): number =>
  (999.83952 +
    16.945176 * t -
    7.9870401e-3 * t ** 2 -
    46.170461e-6 * t ** 3 +
    105.56302e-9 * t ** 4 -
    280.54253e-12 * t ** 5) /
  (1 + 16.87985e-3 * t)

/** kg/m3; Laliberté 2009 */
export const lyeDensity = (soda: number, potash: number, t: number): number => {
  const all = soda + potash
  const volume = (c: readonly [number, number, number, number, number]): number =>
    (all + c[2] + c[3] * t) / ((c[0] * all + c[1]) * Math.exp(1e-6 * (t + c[4]) ** 2))
  return (
    1 /
    ((1 - all) / waterDensity(t) +
      soda *
        volume([
          319.020509469838, 528.592358475315, -0.102197896602724, 0.000350420706415566, 765.970470238438,
        ]) +
      potash *
        volume([
          821.119043254761, 1043.20173374381, 0.112873330222752, 0.00124023636407386, 539.630388368877,
        ]))
  )
}

/** J/kg of fat between two temperatures in °C; Choi and Okos */
export const fatHeat = (from: number, to: number): number => {
  const steps = 10
  const width = (to - from) / steps
  let sum = 0
  for (let i = 0; i < steps; i += 1) {
    const t = from + (i + 0.5) * width
    sum += (1984.2 + 1.4733 * t - 0.0048008 * t * t) * width
  }
  return sum
}

/** Share of alkali in a saturated lye at t °C, straight between what tables give. */
export const saturated = (kind: Kind, t: number): number => {
  const points: readonly (readonly [number, number])[] =
    kind === 'NaOH'
      ? [[0, 42 / 142], [10, 51.5 / 151.5], [20, 0.522], [30, 119 / 219], [40, 129 / 229], [50, 145 / 245]]
      : [[0, 97 / 197], [25, 0.517]] // biome-ignore format: a table
  if (t <= 0) return points[0]?.[1] ?? 0
  for (let i = 1; i < points.length; i += 1) {
    const [before = [0, 0], after = [0, 0]] = [points[i - 1], points[i]]
    if (t <= after[0]) return before[1] + ((after[1] - before[1]) * (t - before[0])) / (after[0] - before[0])
  }
  return points.at(-1)?.[1] ?? 0
}
