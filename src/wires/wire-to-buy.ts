/** Which wire to ask for, by size and by gauge number, and how much of it. */
import { MUSIC_WIRE, STAINLESS_302, type Wire, type WireMaterial, wireFigures } from './strength.ts'

const INCH = 0.0254 // m, exact by the definition of the international inch (read)

/**
 * Music wire gauge: number and diameter [in], read in two lists that agree. The number grows with the diameter, other
 * than that of most gauges. From 12 on the sizes lie between those of A228.
 */
export const MUSIC_WIRE_GAUGE: readonly (readonly [gauge: string, inches: number])[] = [
  ['1', 0.01], ['2', 0.011], ['3', 0.012], ['4', 0.013], ['5', 0.014], ['6', 0.016], ['7', 0.018], ['8', 0.02],
  ['9', 0.022], ['10', 0.024], ['11', 0.026], ['12', 0.029], ['13', 0.031], ['14', 0.033], ['15', 0.035],
  ['16', 0.037], ['17', 0.039], ['18', 0.041], ['19', 0.043], ['20', 0.045], ['21', 0.047], ['22', 0.049],
  ['23', 0.051], ['24', 0.055], ['25', 0.059], ['26', 0.063],
] // biome-ignore format: a table

/** A wire that is sold. */
export interface WireSize {
  /** [m] */
  readonly diameter: number
  /** [in] */
  readonly inches: number
  /** music wire gauge, where the size has a number */
  readonly gauge?: string
  /** a size of the material's own standard */
  readonly preferred: boolean
}

/** Two diameters within this of each other are one size [m]; half of the tightest tolerance of A228 (read). */
const SAME = 0.0001 * INCH

/**
 * Diameter of a music wire gauge number.
 *
 * @param gauge '1' to '26'
 * @returns diameter [m], undefined for a number that is not in the list
 * @source music-wire-gauge
 */
export function gaugeDiameter(gauge: string): number | undefined {
  const inches = MUSIC_WIRE_GAUGE.find(([number]) => number === gauge)?.[1]
  return inches === undefined ? undefined : inches * INCH
}

/**
 * Music wire gauge number of a diameter.
 *
 * @param diameter [m]
 * @returns number, undefined when no number lies within 0.0001 in
 * @source music-wire-gauge
 */
export const gaugeOf = (diameter: number): string | undefined =>
  MUSIC_WIRE_GAUGE.find(([, inches]) => Math.abs(inches * INCH - diameter) <= SAME)?.[0]

/**
 * All sizes in which a wire is sold, thinnest first: those of its standard, and for music wire those of its gauge.
 *
 * @param material of the wire
 * @returns sizes [m, in] with their gauge numbers
 * @source astm-a228, astm-a313, music-wire-gauge
 */
export function wireSizes(material: WireMaterial): WireSize[] {
  const standard = (material === 'music-wire' ? MUSIC_WIRE : STAINLESS_302).map(([inches]) => inches)
  const numbered = material === 'music-wire' ? MUSIC_WIRE_GAUGE.map(([, inches]) => inches) : []
  return [...new Set([...standard, ...numbered])]
    .sort((a, b) => a - b)
    .map((inches) => {
      const gauge = material === 'music-wire' ? gaugeOf(inches * INCH) : undefined
      const preferred = standard.includes(inches)
      return { diameter: inches * INCH, inches, ...(gauge === undefined ? {} : { gauge }), preferred }
    })
}

/**
 * Sizes that are sold next to a wanted diameter.
 *
 * @param wire material and wanted diameter [m]
 * @returns the thickest that is no thicker, the thinnest that is no thinner, and the nearer of the two; what lies outside
 *   of all sizes is undefined
 * @source astm-a228, astm-a313, music-wire-gauge
 */
export function nearestSizes(wire: Wire): {
  readonly thinner?: WireSize
  readonly thicker?: WireSize
  readonly nearest: WireSize
} {
  const sizes = wireSizes(wire.material)
  const thinner = sizes.filter(({ diameter }) => diameter <= wire.diameter + SAME).at(-1)
  const thicker = sizes.find(({ diameter }) => diameter >= wire.diameter - SAME)
  const distance = (size: WireSize): number => Math.abs(size.diameter - wire.diameter)
  const nearest = sizes.reduce((best, size) => (distance(size) < distance(best) ? size : best))
  return { ...(thinner ? { thinner } : {}), ...(thicker ? { thicker } : {}), nearest }
}

/**
 * The thinnest wire of its standard's sizes that holds a pull with a margin.
 *
 *     breaking load ≥ margin · pull
 *
 * @param material of the wire
 * @param pull     [N]
 * @param margin   [–], above 1
 * @returns size, undefined when none holds it
 * @source astm-a228, astm-a313
 */
export const thinnestFor = (material: WireMaterial, pull: number, margin: number): WireSize | undefined =>
  wireSizes(material).find(
    ({ preferred, diameter }) =>
      preferred && wireFigures({ material, diameter }).breakingLoad >= margin * pull,
  )

/** m of wire beyond the pins (common practice): a twisted eye, and three turns on a post of 6 mm with an end to hold. */
export const WIRE_TAILS = { anchor: 0.06, peg: 0.09 } as const

export interface WirePieces {
  /** wires that one length makes: 1, or 2 where it runs out round an anchor and back beside itself */
  readonly perPiece: 1 | 2
  /** pieces of full count, and whether one wire is left over that has a piece of its own */
  readonly full: number
  readonly single: boolean
  /** cut lengths [m] of the one and of the other */
  readonly fullLength: number
  readonly singleLength: number
  /** of all pieces with the spare ones [m] */
  readonly total: number
}

/**
 * Cut lengths of a set of like wires.
 *
 *     single: L + anchor + peg;   pair: 2 L + spacing + 2 peg
 *
 * A pair runs from a peg over a wire's length, round a pin to the place of the next wire, and back to a peg of its own.
 * An odd number leaves one wire that is anchored by an eye. Spare pieces are full ones where there are any.
 *
 * @param wires length from pin to pin [m], how many [1 or more], distance of neighbours [m], wires a piece, spare pieces
 * @returns pieces and lengths [m]
 * @source common practice
 */
export function wirePieces(wires: {
  readonly length: number
  readonly count: number
  readonly spacing: number
  readonly perPiece: 1 | 2
  readonly spare: number
}): WirePieces {
  const { length, count, spacing, perPiece, spare } = wires
  const singleLength = length + WIRE_TAILS.anchor + WIRE_TAILS.peg
  const fullLength = perPiece === 1 ? singleLength : 2 * length + spacing + 2 * WIRE_TAILS.peg
  const full = Math.floor(count / perPiece)
  const single = count % perPiece === 1
  const longest = full > 0 ? fullLength : singleLength
  const total = full * fullLength + (single ? singleLength : 0) + spare * longest
  return { perPiece, full, single, fullLength, singleLength, total }
}
