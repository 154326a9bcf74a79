/**
 * Recorded on 27 November 2026: where blanks lay on their boards and how these were sawn, so that nobody changes unseen what
 * stands on a page in a shop. That a layout is right, and how good it is, is asked elsewhere; another one has to be meant.
 */
import { describe, test } from 'vitest'
import { layOut } from '../../src/sheet-stock/lay-out.ts'
import { mostValue, shortestPiece, THOROUGH } from '../../src/sheet-stock/one-board.ts'
import { alikeBoards, sawPlan, sheetShares, usualSawLimits } from '../../src/sheet-stock/saw-plan.ts'
import type { Board, LayoutProblem } from '../../src/sheet-stock/types.ts'
import { expectRecorded } from '../recorded.ts'
import { blank } from './millimetres.ts'

const sheet: Board = {
  key: 'sheet',
  length: 2.44,
  width: 1.22,
  count: Number.POSITIVE_INFINITY,
  cost: 60,
  trim: 0.005,
}
const half: Board = { ...sheet, key: 'half', length: 1.22, cost: 34 }
const shop: Board = { ...sheet, key: 'shop', length: 0.9, width: 0.4, count: 1, cost: 0, trim: 0 }
const HASTY = { looks: 2e5, joins: 1e5, steps: 5e5 }

/** A mould and two cutters of 18 mm board [mm]. */
const cutters: LayoutProblem = {
  blanks: [
    blank('side', 480, 270, 2),
    blank('end', 222, 250, 2),
    blank('base', 286, 209, 1),
    blank('rail', 286, 64, 3),
    blank('strip', 330, 38, 4),
    blank('lid', 360, 260, 1),
    blank('frame-side', 340, 90, 2),
    blank('frame-end', 300, 90, 2),
    blank('platform', 420, 180, 1),
    blank('fence', 420, 75, 1),
    blank('post', 120, 60, 2),
  ],
  boards: [sheet, half, shop],
  kerf: 0.0032,
}
const plastic: LayoutProblem = {
  blanks: [
    blank('floor', 300, 210, 3, true),
    blank('wall', 640, 55, 5, true),
    blank('filler', 210, 9, 14, true),
  ],
  boards: [{ ...half, key: 'plastic', length: 0.8, width: 0.6, cost: 12, trim: 0 }],
  kerf: 0.0025,
}

describe('recorded: layouts and plans', () => {
  test.each([
    ['cutters', cutters],
    ['plastic', plastic],
  ])('%s', (name, problem) => {
    const layout = layOut(problem, HASTY)
    const plans = layout.boards.map(({ board, region }) =>
      sawPlan({
        region,
        board: problem.boards.find(({ key }) => key === board) ?? sheet,
        kerf: problem.kerf,
        massPerArea: 12,
        limits: usualSawLimits,
        oversize: new Set(['fence']),
      }),
    )
    const shares = sheetShares(plans.map((plan) => ({ plan, count: 1 })))
    expectRecorded({ layout, plans, alike: alikeBoards(layout.boards), shares }, name, import.meta.url)
  })

  test('one board', () => {
    const valued = cutters.blanks.map((one) => ({ ...one, value: one.length * one.width }))
    expectRecorded(
      {
        most: mostValue(valued, { length: 1, width: 0.6 }, 0.003, { ...THOROUGH, ...HASTY }),
        shortest: shortestPiece(cutters.blanks, 0.3, 0.003, HASTY),
      },
      'one-board',
      import.meta.url,
    )
  })
})
