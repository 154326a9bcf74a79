/** What a press goes down over, and which of its pieces do. */
import type { GridCutter } from '../fixtures/grid-cutter/types.ts'
import { pressLevels } from '../fixtures/lever-press/parts.ts'
import type { LeverPress } from '../fixtures/lever-press/types.ts'
import type { Box, Vec3 } from '../geometry/placement.ts'
import { type Placed, placedParts, placedRounds } from './proof-pieces.ts'
import type { Solids } from './solids.ts'

export const isBridge = (key: string): boolean => key === 'press-beam' || key === 'press-bridge-end'
export const isStand = (key: string): boolean => /^press-(post|spine|foot|packer|board|cleat)/.test(key)

/** The frame half a step above its end, under the level lever. */
export const frameOf = (press: LeverPress, solids: Solids, cutter?: GridCutter): readonly Placed[] => {
  const { frame } = press.input
  const { frameTop } = pressLevels(press.input, press.geometry)
  const up: Vec3 = { x: 0, y: 0, z: frameTop - frame.topAtEnd }
  if (cutter)
    return [
      ...placedParts(
        cutter.parts.filter(({ key }) => !cutter.standing.includes(key)),
        solids,
      ),
      ...placedRounds(cutter.rounds, solids),
    ].map(({ key, solid, boxes }) => ({
      key,
      solid: solids.moved(solid, up),
      boxes: boxes.map((box) => shifted(box, up.z)),
    }))
  const bottom = frameTop - (frame.topAtEnd - frame.edgeAtEnd)
  const [x, y] = [frame.endToEnd / 2, frame.width / 2]
  const box = (key: string, one: readonly [number, number], other: readonly [number, number]): Placed => {
    const made: Box = {
      min: { x: one[0], y: one[1], z: bottom },
      max: { x: other[0], y: other[1], z: frameTop },
    }
    return { key, solid: solids.box(made), boxes: [made] }
  }
  const over = x + frame.handle
  return [
    box('cutter-side', [-over, y - frame.side], [over, y]),
    box('cutter-side', [-over, -y], [over, -y + frame.side]),
    box('cutter-end', [x - frame.side, -y + frame.side], [x, y - frame.side]),
    box('cutter-end', [-x, -y + frame.side], [-x + frame.side, y - frame.side]),
  ]
}

export const shifted = ({ min, max }: Box, z: number): Box => ({
  min: { ...min, z: min.z + z },
  max: { ...max, z: max.z + z },
})

/** The block as large as the frame's inside: it is smaller. */
export const blockBox = ({ input: { frame } }: LeverPress): Box => {
  const [x, y] = [frame.endToEnd / 2 - frame.side, frame.width / 2 - frame.side]
  return { min: { x: -x, y: -y, z: 0 }, max: { x, y, z: frame.blockTop } }
}
