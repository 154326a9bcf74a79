/** A trial frame, its base and its block at any moment of the push. */
import type { TrialFrame, TrialWire } from '../../fixtures/trial-frame/types.ts'
import type { Part, Round } from '../../geometry/part.ts'
import { shifted } from '../exploded/apart.ts'
import { assemblyScene, type Scene } from '../scene.ts'
import type { Point } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'

/** What stands still while the frame goes down. */
export const isOfBase = (key: string): boolean => /^trial-(top|foot)/.test(key)

/** @param lift of the frame above its end [m] */
export const trialScene = (
  { parts, rounds }: Pick<TrialFrame, 'parts' | 'rounds'>,
  lift: number,
  hardware = true,
): Scene => {
  const lifted = (part: Part): Part => ({
    ...part,
    placements: part.placements.map((one) => shifted(one, { x: 0, y: 0, z: isOfBase(part.key) ? 0 : lift })),
  })
  const raised = (round: Round): Round => {
    if (round.axis === 'z') return { ...round, from: round.from + lift, to: round.to + lift }
    return { ...round, centre: [round.centre[0], round.centre[1] + lift] }
  }
  return assemblyScene(parts.map(lifted), hardware ? rounds.map(raised) : [])
}

/** Outline of the block from the right or from the front. */
export const blockOutline = (
  { input, base }: TrialFrame,
  along: 'width' | 'length',
): readonly ViewExtra[] => {
  const half = input.block[along] / 2
  const [low, high] = [base.height, base.height + input.block.height]
  const corners: readonly Point[] = [
    { x: -half, y: low },
    { x: -half, y: high },
    { x: half, y: high },
    { x: half, y: low },
  ]
  return corners.map((a, index) => ({
    kind: 'line',
    class: 'phantom',
    a,
    b: corners[(index + 1) % corners.length] ?? a,
  }))
}

/** Straight pieces that a curve is drawn with */
const PIECES = 24

/**
 * A wire from the right, from post to anchor: straight outside of the soap, a parabola in it.
 *
 * @param lag of its middle above its pins [m]; none before it touches
 */
export const wireFromRight = (
  { input, strung, rounds }: TrialFrame,
  { height, half }: TrialWire,
  lag: number,
  lift: number,
): readonly ViewExtra[] => {
  const soap = input.block.width / 2
  // slope at the face: rise over what is free, and the same slope bends to nothing in the middle
  const free = strung.length / 2 - soap
  const slope = lag / (free + soap / 2)
  const above = (y: number): number => {
    const from = Math.abs(y)
    if (from >= half) return 0
    return from >= soap ? slope * (half - from) : lag - (slope * from ** 2) / (2 * soap)
  }
  const out = Math.max(
    half,
    ...rounds.filter(({ axis }) => axis === 'z').map(({ centre }) => Math.abs(centre[1])),
  )
  const stations = [
    -out,
    ...Array.from({ length: PIECES + 1 }, (_, index) => -half + (2 * half * index) / PIECES),
    out,
  ]
  return stations.slice(1).map((y, index) => {
    const before = stations[index] ?? y
    const at = (one: number): Point => ({ x: one, y: height + lift + above(one) })
    return { kind: 'line', class: 'dimension', a: at(before), b: at(y) }
  })
}
