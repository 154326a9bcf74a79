/** What a tight wire holds, and how fast its end flies when it breaks. */
import { type Wire, wireFigures } from './strength.ts'

export interface WhipOfWire {
  /** [J] */
  readonly energy: number
  /** of the end that lets go [m/s] */
  readonly speed: number
}

/**
 * Energy of a tight wire, and the speed of its end when it breaks.
 *
 *     U = T² L / (2 E A)      v = σ / √(E ρ), σ = T / A
 *
 * The speed is that of the particles behind the elastic wave that unloads the wire; a wire that drags soap is slower.
 * Validity: below yield; the wire alone, without what its rails give back.
 *
 * @param wire material and diameter [m]
 * @param tension pull in it [N], ≥ 0
 * @param length between the two places that hold it [m], ≥ 0
 * @returns energy [J] and speed [m/s]
 * @throws RangeError for a diameter outside of the table of strengths
 * @source shigley, elastic-recoil
 */
export const whipOfWire = (wire: Wire, tension: number, length: number): WhipOfWire => {
  const { area, axialStiffness, modulus, density } = wireFigures(wire)
  return {
    energy: (tension ** 2 * length) / (2 * axialStiffness),
    speed: tension / area / Math.sqrt(modulus * density),
  }
}
