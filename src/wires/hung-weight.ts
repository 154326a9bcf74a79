/** How a wire is judged by hand: how far a weight draws its middle down, and how little it stretches. */
import { risingRoot } from '../numerics/root.ts'

export interface HungWire {
  /** between what holds it to either side of the weight [m], > 0 */
  readonly length: number
  /** that stretches: from end to end, where it slides over what holds it [m], > 0 */
  readonly whole: number
  /** without the weight [N], > 0 */
  readonly tension: number
  /** E A [N] */
  readonly axialStiffness: number
}

/** m; far below what a rule shows */
const TOLERANCE = 1e-8

/**
 * How far a weight at its middle draws a stretched wire down.
 *
 *     F = 4 T′ s/√(L² + 4 s²),   T′ = T + E A (√(L² + 4 s²) − L)/whole;   for small weights s = F L/(4 T)
 *
 * Validity: a thin wire that does not resist bending, and slides over what holds it without friction; by bisection, s up to
 * half of the length.
 * @param wire lengths [m], tension and stiffness [N]
 * @param force weight [N], ≥ 0
 * @returns sag of the middle [m]
 * @source common practice
 */
export function hungSag({ length, whole, tension, axialStiffness }: HungWire, force: number): number {
  const heldUp = (sag: number): number => {
    const stretched = Math.hypot(length, 2 * sag)
    return ((tension + (axialStiffness * (stretched - length)) / whole) * 4 * sag) / stretched
  }
  return risingRoot(heldUp, force, { low: 0, high: length / 2, tolerance: TOLERANCE })
}

/**
 * How much longer a wire is at its tension than slack.
 *
 *     stretch = T · length/(E A)
 *
 * @param wire its whole length [m], tension and stiffness [N]
 * @returns stretch [m]
 * @source common practice
 */
export const stretchTo = ({
  whole,
  tension,
  axialStiffness,
}: Pick<HungWire, 'whole' | 'tension' | 'axialStiffness'>): number => (tension * whole) / axialStiffness
