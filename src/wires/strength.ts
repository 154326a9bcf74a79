/** How strong, how stiff and how heavy spring wire is. */

export type WireMaterial = 'music-wire' | 'stainless-302'

/** A wire by what it is made of and how thick it is [m]. */
export interface Wire {
  readonly material: WireMaterial
  readonly diameter: number
}

export interface WireFigures {
  /** [m2] */
  readonly area: number
  /** least tensile strength [Pa] and the pull that it stands for [N] */
  readonly strength: number
  readonly breakingLoad: number
  /** [Pa] */
  readonly modulus: number
  /** pull that would double its length, were it elastic so far [N] */
  readonly axialStiffness: number
  /** [kg/m3], [kg/m] */
  readonly density: number
  readonly massPerLength: number
}

const INCH = 0.0254 // m, exact by the definition of the international inch (read)
/** Pa of a thousand pounds on the square inch; from the pound-force, exact by definition (from memory) */
const KSI = 6.894757e6

type Row = readonly [inches: number, least: number, most: number]

/**
 * Music wire, ASTM A228: diameter [in], least and most tensile strength [ksi]; read in a wire maker's data sheet. The sheet
 * prints 255 as the most at 0.036 in; its neighbours, 358 and 352, show that 355 is meant.
 */
export const MUSIC_WIRE: readonly Row[] = [
  [0.01, 387, 428], [0.011, 382, 422], [0.012, 377, 417], [0.013, 373, 412], [0.014, 369, 408], [0.015, 365, 404],
  [0.016, 362, 400], [0.018, 356, 393], [0.02, 350, 387], [0.022, 345, 382], [0.024, 341, 377], [0.026, 337, 373],
  [0.028, 333, 368], [0.03, 330, 365], [0.032, 327, 361], [0.034, 324, 358], [0.036, 321, 355], [0.038, 318, 352],
  [0.04, 315, 349], [0.042, 313, 346], [0.045, 309, 342], [0.048, 306, 339], [0.051, 303, 335], [0.055, 300, 331],
  [0.059, 296, 327], [0.063, 293, 324],
] // biome-ignore format: a table

/**
 * Stainless spring wire, ASTM A313, type 302 class 1: a row holds from the row before it up to its own diameter [in]; least
 * and most tensile strength [ksi]; read in a wire maker's data sheet. The sheet prints 324 as the least at 0.013 in;
 * its neighbours, 316 and 312, and the most, 344, show that 314 is meant.
 */
export const STAINLESS_302: readonly Row[] = [
  [0.01, 320, 350], [0.011, 318, 348], [0.012, 316, 346], [0.013, 314, 344], [0.014, 312, 342], [0.015, 310, 340],
  [0.016, 308, 338], [0.017, 306, 336], [0.018, 304, 334], [0.02, 300, 330], [0.022, 296, 326], [0.024, 292, 322],
  [0.026, 291, 320], [0.028, 289, 318], [0.031, 285, 315], [0.034, 282, 310], [0.037, 280, 308], [0.041, 275, 304],
  [0.045, 272, 300], [0.05, 267, 295], [0.054, 265, 293], [0.058, 261, 289], [0.063, 258, 285],
] // biome-ignore format: a table

/** kg/m3; carbon steel 7850 and type 302 7920, handbook values (from memory) */
const DENSITY: Readonly<Record<WireMaterial, number>> = { 'music-wire': 7850, 'stainless-302': 7920 }
/** Pa; music wire up to 0.0325 in and above (from memory), type 302 28 Mpsi (read) */
const MODULUS = { thin: 203.4e9, thick: 200e9, stainless: 28e3 * KSI } as const
const THIN = 0.0325 * INCH

/** Thinnest and thickest wire that the tables hold [m]. */
export const WIRE_RANGE = { low: 0.01 * INCH, high: 0.063 * INCH } as const

/**
 * Least tensile strength that the standard of a wire asks for.
 *
 *     music wire: on straight lines between the rows of its table
 *     stainless:  the row whose step the diameter falls into
 *
 * Interpolation is what A228 allows between its sizes (from memory). The formula A/d^m of handbooks runs one to two per cent
 * above the table and is not used: a margin against breaking takes the least.
 *
 * @param wire material and diameter [m], 0.254 to 1.6 mm
 * @returns strength [Pa]
 * @throws RangeError for a diameter outside of the table
 * @source astm-a228, astm-a313
 */
export function tensileStrength(wire: Wire): number {
  const inches = wire.diameter / INCH
  const rows = wire.material === 'music-wire' ? MUSIC_WIRE : STAINLESS_302
  // a diameter that was reckoned from inches may miss a row by a rounding
  const slack = 1e-9
  const at = rows.findIndex(([row]) => inches <= row * (1 + slack))
  const row = rows[at]
  const first = rows[0]
  if (!row || !first || !(inches >= first[0] * (1 - slack)))
    throw new RangeError(`no strength is known of a wire of ${wire.diameter} m`)
  const before = rows[at - 1]
  if (wire.material === 'stainless-302' || !before) return row[1] * KSI
  const share = (inches - before[0]) / (row[0] - before[0])
  return (before[1] + Math.min(1, share) * (row[1] - before[1])) * KSI
}

/**
 * What strings and springs are reckoned from.
 *
 *     A = π d²/4;   breaking load = S A;   stiffness = E A;   mass a metre = ρ A
 *
 * @param wire material and diameter [m], 0.254 to 1.6 mm
 * @returns area [m2], strength [Pa], breaking load [N], modulus [Pa], E A [N], density [kg/m3], mass a metre [kg/m]
 * @throws RangeError for a diameter outside of the table
 * @source astm-a228, astm-a313, shigley-springs, spring-wire-modulus
 */
export function wireFigures(wire: Wire): WireFigures {
  const area = (Math.PI * wire.diameter ** 2) / 4
  const strength = tensileStrength(wire)
  const thin = wire.diameter <= THIN ? MODULUS.thin : MODULUS.thick
  const modulus = wire.material === 'music-wire' ? thin : MODULUS.stainless
  const density = DENSITY[wire.material]
  return {
    area,
    strength,
    breakingLoad: strength * area,
    modulus,
    axialStiffness: modulus * area,
    density,
    massPerLength: density * area,
  }
}
