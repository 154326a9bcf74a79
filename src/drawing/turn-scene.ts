/**
 * Turns what is drawn half round, so that the side a person stands at is the front of the drawing.
 */
import type { Round } from '../geometry/part.ts'
import type { Box, Vec3 } from '../geometry/placement.ts'
import type { Scene } from './scene.ts'

const turnedPoint = ({ x, y, z }: Vec3): Vec3 => ({ x: -x, y: -y, z })

const turnedBox = ({ min, max }: Box): Box => ({
  min: { x: -max.x, y: -max.y, z: min.z },
  max: { x: -min.x, y: -min.y, z: max.z },
})

const turnedRound = (round: Round): Round => {
  const [p, q] = round.centre
  if (round.axis === 'z') return { ...round, centre: [-p, -q] }
  return { ...round, centre: [-p, q], from: -round.to, to: -round.from }
}

/**
 * A scene turned half round about an upright axis through the origin.
 *
 * Formula: x and y change their signs. Validity: any scene.
 * @param scene [m]
 * @returns the scene [m]
 * @source common practice
 */
export const turned = (scene: Scene): Scene => ({
  boxes: scene.boxes.map((box) => ({ ...box, ...turnedBox(box) })),
  edges: scene.edges.map(({ key, a, b }) => ({ key, a: turnedPoint(a), b: turnedPoint(b) })),
  bores: scene.bores.map((bore) => ({ ...bore, a: turnedPoint(bore.a), b: turnedPoint(bore.b) })),
  rounds: scene.rounds.map(turnedRound),
})
