/** How often a layout is sawn. */
import type { Board, Region, SheetLayout } from '../sheet-stock/types.ts'

/** @returns cuts in the tree below a region */
const cutsIn = (region: Region): number =>
  region.kind === 'cut' ? 1 + cutsIn(region.first) + (region.second ? cutsIn(region.second) : 0) : 0

/** Edges of a board that are trimmed. */
const EDGES = 4

/**
 * Saw cuts of a layout.
 *
 * Formula: one for each cut of its tree, and four for the edges of every board that is trimmed. Validity: every cut right
 * through what lies on the saw.
 * @param layout boards with their trees
 * @param boards that it was made of
 * @returns number of cuts
 * @source common practice
 */
export const sawCuts = (layout: SheetLayout, boards: readonly Board[]): number =>
  layout.boards.reduce((sum, { board, region }) => {
    const trimmed = (boards.find(({ key }) => key === board)?.trim ?? 0) > 0
    return sum + cutsIn(region) + (trimmed ? EDGES : 0)
  }, 0)
