/** What a sheet says of the stand that a shop makes for its grid cutter: its height, and the screws of its board. */
import type { GridCutter } from '../fixtures/grid-cutter/types.ts'
import { screw8 } from '../fixtures/wood-screws.ts'
import { BENT_KNEES, LIGHT_PERSON, standRange } from '../wires/push.ts'

/** By its trade number; the holes of the board are for it. */
export const STAND_SCREW = screw8.key

/** Heights of the stand for people of one height, and what is taken off the wrist of anybody for the lowest [m]. */
export const standFor = ({ hands }: Pick<GridCutter, 'hands'>) => ({
  tall: LIGHT_PERSON.height,
  belowWrist: hands.end + BENT_KNEES,
  ...standRange(hands),
})
