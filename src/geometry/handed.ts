/** Whether left and right of a part must be marked. */
import { type Feature, isChannel, isHole, isNotch, type Part } from './part.ts'

const SAME = 1e-7 // m, far below any shop tolerance

const isNear = (one: number, other: number): boolean => Math.abs(one - other) < SAME

/**
 * Whether a part turned end for end is the same part.
 *
 * Formula: every channel across it, every hole and every notch has its like at the other end. Validity: channels along
 * it, bevels, folds and scribed lines are not looked at, since they do not tell one end from the other.
 * @param shape length and features [m]
 * @returns true for a part that needs no left and right
 * @source common practice
 */
export const isSameTurned = ({ length, features }: Pick<Part, 'length' | 'features'>): boolean =>
  features.every((one) => !tellsEnds(one) || features.some((other) => isLikeAcross(one, other, length)))

const tellsEnds = (feature: Feature): boolean =>
  isHole(feature) || isNotch(feature) || (isChannel(feature) && feature.runs === 'width')

const isLikeAcross = (one: Feature, other: Feature, length: number): boolean => {
  if (isHole(one) && isHole(other))
    return isNear(one.u + other.u, length) && isNear(one.v, other.v) && one.diameter === other.diameter
  const bothNotches = isNotch(one) && isNotch(other)
  const bothChannels = isChannel(one) && isChannel(other) && other.runs === 'width'
  return (
    (bothNotches || bothChannels) &&
    isNear(one.at + other.at + other.size, length) &&
    isNear(one.depth, other.depth)
  )
}
