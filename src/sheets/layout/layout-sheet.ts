/** The saw plan on paper: which board first, what lies where, every cut in its order, what is kept of the boards. */
import type { Sawing } from '../../binder/plan-sawing.ts'
import type { SawCaution } from '../../sheet-stock/saw-plan.ts'
import { type Fill, finishSheet, nothing, pickSources } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Block, Inline, Sheet, Step } from '../model.ts'
import { PLACES } from '../places.ts'
import { cutTable } from './cut-table.ts'
import { boardFigure } from './figures.ts'
import { offcutTable, typedTable } from './offcuts.ts'
import { boardsTable, dayTable, leftWords, partTable, stockFacts } from './stock.ts'

const INCH = 0.0254 // m, exact
/** m; a triangle that shows whether a corner is square has sides of 3, 4 and 5 times one of these */
const TRIANGLES = {
  in: [8, 6, 5, 4, 3, 2, 1].map((size) => size * INCH),
  mm: [0.2, 0.15, 0.1, 0.05],
} as const
/** m; a saw cut further off than this is typed in, and the plan printed again (common practice) */
export const KERF_OFF = 0.0003
/** m; a board that much thicker or thinner no longer fits grooves that are sawn for it (common practice) */
const THICKNESS_OFF = 0.0003

const CAUTIONS: readonly SawCaution[] = [
  'heavy',
  'support',
  'support-side',
  'support-sides',
  'push-stick',
  'thin',
  'sliver',
  'clamp',
  'match',
  'measure-rest',
]

/** What a layout sheet is about, and what it leads to. */
export interface LayoutOf {
  readonly key: string
  readonly title: Inline
  readonly number: string
  readonly sawing: Sawing
  /** sheets that parts are built by, by id */
  readonly sheets: ReadonlyMap<string, Pick<Sheet, 'id' | 'number'>>
}

export const layoutSheet = (frame: Frame, of: LayoutOf): Sheet => {
  const { say, show } = frame
  const { sawing, sheets } = of
  const { materials, limits } = sawing
  const blocks: Record<string, Block> = {
    boards: boardsTable(frame, sawing),
    before: { kind: 'steps', first: 1, items: beforeSteps(frame, sawing) },
    day: dayTable(frame, materials),
    marks: markWords(frame, sawing),
    parts: partTable(frame, materials, sheets),
  }
  const fill: Record<string, Fill[string]> = {
    'keeps-from': show.length('layout.keeps-from', limits.keepsFrom),
    'strip-width': show.length('layout.strip.width', limits.stripWidth),
    'strip-length': show.length('layout.strip.length', limits.stripLength),
    borne: show.length('layout.limit.borne', 2 * limits.sledSide),
    room: show.length('layout.limit.narrow', limits.handRoom),
  }
  const sections = materials.map((material, index) => {
    const at = (name: string) => `${name}-${index + 1}`
    fill[at('material')] = material.name
    blocks[at('stock')] = stockFacts(frame, material)
    const left = leftWords(frame, material)
    blocks[at('later')] = material.isLater
      ? { kind: 'cautions', signal: 'notice', items: [say('layout.later')] }
      : nothing
    blocks[at('left')] = left.length > 0 ? { kind: 'cautions', signal: 'warning', items: left } : nothing
    blocks[at('offcuts')] = offcutTable(frame, material)
    blocks[at('typed')] = typedTable(frame, material)
    const boards = material.boards.map((boards, board) => {
      blocks[`${at('drawing')}-${board + 1}`] = boardFigure(frame, material, boards)
      blocks[`${at('cuts')}-${board + 1}`] = cutTable(frame, material, boards)
      return `[[${at('drawing')}-${board + 1}]]\n\n[[${at('cuts')}-${board + 1}]]`
    })
    return [
      `## [[${at('material')}]]`,
      `[[${at('stock')}]]`,
      `[[${at('later')}]]`,
      `[[${at('left')}]]`,
      ...boards,
      `[[${at('offcuts')}]]`,
      `[[${at('typed')}]]`,
    ].join('\n\n')
  })
  return finishSheet({
    ...frame.sheet('fixture', `layout/${of.key}`, say('section.fixture'), of.number, of.title),
    template: frame.template('layout').replace(/^\[\[materials\]\]$/m, sections.join('\n\n')),
    fill,
    blocks,
    sources: pickSources(frame.sources, ['cfr-1910-213', 'common-practice']),
  })
}

/**
 * The largest triangle that the smallest board has room for.
 *
 * Formula: three times the size along the shorter edge, four times along the longer. Validity: boards from 4 in on; the
 * smallest triangle where none fits.
 */
const triangleFor = (
  boards: readonly { readonly length: number; readonly width: number }[],
  unit: 'in' | 'mm',
) =>
  TRIANGLES[unit].find((size) =>
    boards.every(
      ({ length, width }) => 3 * size <= Math.min(length, width) && 4 * size <= Math.max(length, width),
    ),
  ) ?? TRIANGLES[unit].at(-1)!

/** Of all cuts along a straightedge [m]. */
const longestGuided = (materials: Sawing['materials']): number =>
  materials
    .flatMap(({ boards }) => boards.flatMap(({ plan }) => plan.cuts))
    .reduce((longest, { tool, length }) => (tool === 'guide' ? Math.max(longest, length) : longest), 0)

/** What is found out before the first board is sawn. */
const beforeSteps = ({ say, show }: Frame, { materials, limits }: Sawing): Step[] => {
  const kerf = materials[0]?.kerf ?? 0
  const sawn = materials.filter(({ isLater }) => !isLater)
  const triangle = triangleFor(
    (sawn.length > 0 ? sawn : materials).flatMap(({ boards }) => boards.map(({ plan }) => plan.board)),
    show.lengthUnit,
  )
  return [
    { text: say('layout.before.saw', { saw: linkTo(PLACES.saw) }) },
    {
      text: say('layout.before.has', {
        fence: show.length('layout.limit.fence', limits.fenceReach),
        travel: show.length('layout.limit.travel', limits.sledTravel),
        side: show.length('layout.limit.side', limits.sledSide),
        stop: show.length('layout.limit.stop', limits.stopReach),
        guide: show.length('layout.limit.guide', longestGuided(sawn.length > 0 ? sawn : materials)),
      }),
    },
    {
      text: say('layout.before.measure', {
        key: 'boards-in-shop:',
        off: show.millimetres('layout.thickness.off', THICKNESS_OFF),
      }),
      blanks: materials.map(({ panel, name }) => ({
        label: say('layout.before.thickness', {
          board: name,
          thickness: show.millimetres(`layout.${panel.material}.thickness`, panel.thickness),
        }),
        after: say('blank.millimetres'),
      })),
    },
    {
      text: say('layout.before.kerf', {
        kerf: show.exactLength('layout.kerf', kerf),
        off: show.millimetres('layout.kerf.off', KERF_OFF),
      }),
      why: say('layout.before.kerf-why'),
      blanks: [{ label: say('layout.before.kerf-found'), after: say('blank.millimetres') }],
    },
    { text: say('layout.before.blade') },
    {
      text: say('layout.before.square', {
        three: show.length('layout.square.three', 3 * triangle),
        four: show.length('layout.square.four', 4 * triangle),
        five: show.length('layout.square.five', 5 * triangle),
      }),
    },
    { text: say('layout.before.pencil') },
  ]
}

/** The short words that stand at cuts, each with what it asks for; those alone that some cut has. */
const markWords = ({ say, show }: Frame, { materials, limits }: Sawing): Block => {
  const found = new Set(
    materials.flatMap(({ boards }) =>
      boards.flatMap(({ plan }) => plan.cuts.flatMap(({ cautions }) => cautions)),
    ),
  )
  const fill: Fill = {
    heavy: show.heavy('layout.limit.heavy', limits.heavy),
    room: show.length('layout.limit.room', limits.handRoom),
    thin: show.length('layout.limit.thin', limits.thin),
    sliver: show.length('layout.limit.sliver', limits.sliver),
    table: show.length('layout.limit.table', limits.table),
    side: show.length('layout.limit.side', limits.sledSide),
  }
  return {
    kind: 'cautions',
    signal: 'warning',
    heading: say('layout.mark.heading'),
    items: CAUTIONS.filter((key) => found.has(key)).map((key) =>
      say(`layout.mark.${key}.do`, { ...fill, mark: say(`layout.mark.${key}`) }),
    ),
  }
}
