/** A lever at any angle, and the room that it swings through. */
import type { LeverPress } from '../fixtures/lever-press/types.ts'
import type { Box, Vec3 } from '../geometry/placement.ts'
import type { Solid, Solids } from './solids.ts'

/** Where the link's upper bolt is for an angle of the lever: x along it, z up [m]. */
export type Along = (angle: number) => { readonly x: number; readonly z: number }

/** Small swings that a swing is cut into */
const SWINGS = 12

/** Corners of the lever and its bar for the hands at an angle, the far end up for angles above 0 [m]. */
export const leverAt = (
  press: LeverPress,
  angle: number,
  link: { readonly x: number; readonly z: number },
): { readonly corners: readonly Vec3[]; readonly bar: Box } => {
  const { arm, lever } = press.geometry
  const part = press.parts.find(({ key }) => key === 'press-lever')
  const placement = part?.placements[0]
  const near = placement ? placement.origin.x : -arm
  const far = near + (part?.length ?? lever)
  const half = (part?.width ?? 0) / 2
  const thick = (part?.thickness ?? 0) / 2
  const turned = (along: number, up: number, y: number): Vec3 => ({
    x: link.x + along * Math.cos(angle) - up * Math.sin(angle),
    y,
    z: link.z + along * Math.sin(angle) + up * Math.cos(angle),
  })
  const corners = [near, far].flatMap((along) =>
    [-half, half].flatMap((up) => [-thick, thick].map((y) => turned(along, up, y))),
  )
  const round = press.rounds.find(({ key }) => key === 'hand-bar')
  const middle = turned(lever - arm, 0, 0)
  const radius = (round?.diameter ?? 0) / 2
  return {
    corners,
    bar: {
      min: { x: middle.x - radius, y: round?.from ?? 0, z: middle.z - radius },
      max: { x: middle.x + radius, y: round?.to ?? 0, z: middle.z + radius },
    },
  }
}

/**
 * The lever's way from one end of its swing to the other, in hulls.
 *
 * Each holds both ends of a small swing and, but for an arc of r (1 - cos(step/2)), all between.
 *
 * @param press  as designed [m]
 * @param along  where the link's upper bolt is
 * @param solids the workshop
 * @returns hulls, and the arc that they leave out [m]
 */
export const swingPieces = (
  press: LeverPress,
  along: Along,
  solids: Solids,
): readonly { readonly solid: Solid; readonly arc: number }[] => {
  const { angle, lever } = press.geometry
  const step = (2 * angle) / SWINGS
  const arc = (lever + 0.2) * (1 - Math.cos(step / 2))
  return Array.from({ length: SWINGS }, (_, index) => {
    const ends = [index, index + 1].map((at) => -angle + at * step)
    const points = ends.flatMap((at) => leverAt(press, at, along(at)).corners)
    return { solid: solids.hullOf(points), arc }
  })
}

/** A box with room all round [m]. */
export const grown = ({ min, max }: Box, by: number): Box => ({
  min: { x: min.x - by, y: min.y - by, z: min.z - by },
  max: { x: max.x + by, y: max.y + by, z: max.z + by },
})
