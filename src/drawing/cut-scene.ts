/**
 * Cuts a whole scene with an upright plane and keeps what lies behind it, for a section view.
 */
import type { Scene } from './scene.ts'
import { borders } from './section.ts'
import type { Rect } from './types.ts'

export interface CutScene {
  readonly scene: Scene
  /** cut wood by part, as seen from the right: x along the scene's y, y along its z [m] */
  readonly wood: readonly { readonly key: string; readonly rects: readonly Rect[] }[]
}

/**
 * The scene to the left of a plane across the length.
 *
 * Formula: boxes and edges clipped at the plane; each cut face gets its own outline. Validity: hardware is kept
 * when its middle is behind the plane, as rods are not sectioned along their axis.
 * @param scene to be cut [m]
 * @param x of the plane [m]
 * @returns the rest of the scene and the cut faces [m]
 * @source common practice
 */
export function cutSceneAt(scene: Scene, x: number): CutScene {
  const keys = [...new Set(scene.boxes.map((box) => box.key))]
  const wood = keys.flatMap((key) => {
    const rects = scene.boxes
      .filter((box) => box.key === key && box.min.x < x && box.max.x > x)
      .map(({ min, max }): Rect => ({ x: min.y, y: min.z, width: max.y - min.y, height: max.z - min.z }))
    return rects.length > 0 ? [{ key, rects }] : []
  })
  const faces = wood.flatMap(({ key, rects }) =>
    borders(rects, () => false).map(({ a, b }) => ({
      key,
      a: { x, y: a.x, z: a.y },
      b: { x, y: b.x, z: b.y },
    })),
  )
  return {
    wood,
    scene: {
      boxes: scene.boxes
        .filter((box) => box.min.x < x)
        .map((box) => ({ ...box, max: { ...box.max, x: Math.min(x, box.max.x) } })),
      edges: [
        ...scene.edges
          .filter(({ a, b }) => Math.min(a.x, b.x) < x)
          .map(({ key, a, b }) => ({
            key,
            a: { ...a, x: Math.min(x, a.x) },
            b: { ...b, x: Math.min(x, b.x) },
          })),
        ...faces,
      ],
      bores: scene.bores.filter(({ a }) => a.x < x),
      rounds: scene.rounds.filter(({ centre }) => centre[0] < x),
    },
  }
}
