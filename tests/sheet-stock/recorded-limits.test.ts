/**
 * Recorded on 27 November 2026: which faults of a layout were told and how boards were sawn as sizes and limits became
 * others, so that nobody changes unseen where a limit is. Whether it is right is asked elsewhere.
 */
import fc from 'fast-check'
import { describe, test } from 'vitest'
import { checkLayout } from '../../src/sheet-stock/check-layout.ts'
import { layOut } from '../../src/sheet-stock/lay-out.ts'
import { isKept, sawPlan, usualSawLimits } from '../../src/sheet-stock/saw-plan.ts'
import type { LayoutProblem, SheetLayout } from '../../src/sheet-stock/types.ts'
import { asNumbersChange, expectRecorded } from '../recorded.ts'
import { newLines } from '../recorded-changes.ts'
import { blank } from './millimetres.ts'
import { randomLayout } from './random-trees.ts'
import { planTold } from './told.ts'

const HASTY = { looks: 2e4, joins: 1e4, steps: 5e4 }

describe('recorded: faults as a layout changes', () => {
  const problem: LayoutProblem = {
    blanks: [blank('side', 480, 270, 2), blank('rail', 286, 64, 2, true)],
    boards: [{ key: 'sheet', length: 1, width: 0.6, count: 1, cost: 1, trim: 0.01 }],
    kerf: 0.0032,
  }
  const told = ({ asked, layout }: { asked: LayoutProblem; layout: SheetLayout }): readonly string[] =>
    checkLayout(asked, layout).map(({ code, board, key }) => [code, board, key].join(' '))
  test('by a thousandth and by a fifth', () =>
    expectRecorded(
      newLines(
        { asked: problem, layout: layOut(problem, HASTY) },
        told,
        [0, 0.8, 0.999, 1.001, 1.2],
        new Set(['cost']),
      ),
      'faults-as-numbers-change',
      import.meta.url,
    ))
})

/** Long and narrow, heavy and light, with pairs of one size and with blanks that are cut to size later. */
const problem: LayoutProblem = {
  blanks: [
    blank('side', 480, 270, 2),
    blank('rail', 1286, 64, 2),
    blank('strip', 330, 38, 3),
    blank('lid', 360, 260, 1),
    blank('post', 120, 60, 2),
    blank('thin', 900, 9, 2),
  ],
  boards: [{ key: 'sheet', length: 1.5, width: 1.1, count: 3, cost: 60, trim: 0.005 }],
  kerf: 0.0032,
}

describe('recorded: plans as limits change', () => {
  test('of one board', () => {
    const { boards } = layOut(problem, HASTY)
    const [board] = problem.boards
    const { region } = boards[0]!
    expectRecorded(
      newLines(
        { limits: usualSawLimits, massPerArea: 9, kerf: problem.kerf, board: board!, later: 1 },
        (given) => {
          const oversize = new Set(given.later === 1 ? ['lid', 'strip'] : ['thin', 'post'])
          return planTold(sawPlan({ ...given, region, oversize }))
        },
        [0.3, 0.8, 1.25, 3],
        new Set(['cost', 'count']),
      ),
      'plan-as-limits-change',
      import.meta.url,
    )
  })

  test('of trees by chance', () => {
    const drawn = fc.sample(randomLayout, { seed: 31, numRuns: 40 })
    const plans = drawn.flatMap(({ problem: asked, layout }, at) =>
      layout.boards.slice(0, 1).map(({ region }): [string, readonly string[]] => {
        const keys = asked.blanks.map(({ key }) => key)
        const oversize = new Set(keys.filter((_, index) => (index + at) % 3 === 0))
        const request = {
          region,
          board: asked.boards[0]!,
          kerf: asked.kerf,
          massPerArea: 9,
          limits: usualSawLimits,
        }
        return [`tree ${at + 1}`, planTold(sawPlan({ ...request, oversize }))]
      }),
    )
    expectRecorded(
      Object.fromEntries(plans.filter(([, told]) => told.length < 24)),
      'plans-by-chance',
      import.meta.url,
    )
  })

  test('what is kept', () =>
    expectRecorded(
      asNumbersChange(
        usualSawLimits,
        (limits) =>
          [
            [0.16, 0.16],
            [0.14, 0.7],
            [0.04, 0.62],
            [0.62, 0.04],
            [0.036, 0.9],
            [0.05, 0.58],
          ].map(([length, width]) => isKept({ length: length!, width: width! }, limits)),
        [0.9, 1, 1.1],
        new Set([
          'fenceReach',
          'shortestOnFence',
          'table',
          'sledTravel',
          'sledSide',
          'stopReach',
          'handRoom',
          'thin',
        ]),
      ),
      'kept-as-limits-change',
      import.meta.url,
    ))
})
