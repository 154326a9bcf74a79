/** The cut itself: what may hurt, the marks, the steps from an open mould to loaves apart, and what to do when it will not go. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { type Fill, number, words } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Step, Table, Value } from '../model.ts'
import { levelMarks, standingOf } from './proof.ts'
import { pushOfEach } from './stringing.ts'

const CAUTIONS = ['snap', 'plane', 'fingers', 'falls', 'soap', 'children'] as const

export const gridCautions = ({ say, show }: Frame, { cutter }: BoundGridCutter): Block => ({
  kind: 'cautions',
  signal: 'warning',
  heading: say('grid.caution.heading'),
  items: CAUTIONS.map((key) =>
    say(
      `grid.caution.${key}`,
      key === 'fingers'
        ? { edge: show.exactLength('knuckles', cutter.edgeAtEnd) }
        : key === 'falls'
          ? { mass: show.heavy('grid.mass', cutter.mass) }
          : {},
    ),
  ),
})

/** Heights of the lines on the mark sticks. */
export const marksTable = ({ say, show }: Frame, { cutter }: BoundGridCutter): Table => ({
  kind: 'table',
  caption: say('grid.marks.caption'),
  columns: [
    { head: say('grid.marks.mark'), align: 'right', width: 8 },
    { head: say('grid.marks.travel'), align: 'right', width: 25 },
    { head: say('grid.marks.height'), align: 'right' },
    { head: say('grid.marks.stick'), align: 'right' },
  ],
  rows: cutter.marks.map(({ travel, height }, index): Cell[] => {
    const name = `marks.${index + 1}`
    return [
      number(show.count(`${name}.number`, index + 1)),
      number(show.exactLength(`${name}.travel`, travel)),
      number(show.exactLength(`${name}.height`, height)),
      number(show.exactLength(`${name}.stick`, height + cutter.stand.board.thickness)),
    ]
  }),
})

const USING = [
  'window', 'gear', 'open', 'lining', 'stand', 'wires', 'lay', 'level', 'touch', 'push', 'tilt', 'end', 'down',
  'first', 'twist', 'apart', 'rest', 'off', 'wipe',
] as const // biome-ignore format: a list
const USING_REASONS: readonly string[] = [
  'gear', 'open', 'lining', 'stand', 'wires', 'lay', 'level', 'push', 'tilt', 'end', 'down', 'first', 'twist', 'apart', 'off',
] // biome-ignore format: a list
const HOLDS: readonly string[] = ['open', 'level']

/** Of the driver for the cleats: it ends below the soap, which stands on the base beside it. */
export const driverLength = ({ show }: Frame, { stand, input }: BoundGridCutter['cutter']): Value =>
  show.exactLength('driver.cleat', input.mould.base.height - stand.cleat.height)

/** @param isEstimate whether what the soap holds back with was tried by nobody */
export const usingSteps = (
  frame: Frame,
  bound: BoundGridCutter,
  numbers: FixtureNumbers,
  isEstimate: boolean,
): Step[] => {
  const { say, show } = frame
  const { cutter, wires: cutterWires } = bound
  const blanks: Readonly<Record<string, Step['blanks']>> = {
    window: ['from', 'until', 'push-test', 'push-limit'].map((key) => ({ label: say(`grid.use.${key}`) })),
  }
  const { input, stroke, edgeAtEnd, wires, railAboveBase } = cutter
  const grooves = (runs: 'width' | 'length') => wires.filter((wire) => wire.runs === runs).length
  const strips = wires.length
  const { block } = input.mould
  const fill: Readonly<Record<string, Fill>> = {
    open: {
      sheet: numbers.mould,
      strips: show.count('strips.all', strips),
      across: show.count('strips.across', grooves('width')),
      along: show.count('strips.along', grooves('length')),
    },
    wires: { lines: show.count('wires.lines', wires.length) },
    window: {
      trial:
        isEstimate && numbers.trial !== undefined
          ? say('grid.use.window-trial', {
              trial: numbers.trial,
              held: show.perMetre('push.grid.held', cutterWires.push?.held.load ?? 0),
            })
          : say('grid.use.window-first', { most: pushOfEach(frame, cutterWires).most }),
    },
    stand: { driver: driverLength(frame, cutter) },
    lay: {
      difference: show.thousandths('centred.difference', bound.centring.difference),
    },
    push: { stroke: show.exactLength('grid.stroke', stroke), ...pushOfEach(frame, cutterWires) },
    tilt: { marks: show.exactLength('level.marks', levelMarks(bound)) },
    end: { edge: show.exactLength('knuckles', edgeAtEnd) },
    first: {
      standing: show.exactLength('standing', standingOf(bound)),
      reach: show.exactLength('reach', railAboveBase),
    },
    twist: { room: show.millimetres('clearance', input.clearance) },
    rest: { loaves: show.count('grid.loaves', block.columns * block.rows) },
    wipe: { lines: show.count('wires.lines', wires.length) },
  }
  return USING.map(
    (key): Step => ({
      text: say(`grid.use.${key}`, fill[key] ?? {}),
      ...(USING_REASONS.includes(key) ? { why: say(`grid.use.${key}-why`) } : {}),
      ...(HOLDS.includes(key) ? { hold: true } : {}),
      ...(blanks[key] ? { blanks: blanks[key] } : {}),
    }),
  )
}

const TROUBLE = ['tight', 'corner', 'still', 'slow', 'wire', 'stuck', 'skin', 'ragged'] as const

/** What is seen, and what is done about it. */
export const troubleTable = (frame: Frame, { wires }: BoundGridCutter): Table => ({
  kind: 'table',
  caption: frame.say('grid.trouble.caption'),
  columns: [
    { head: frame.say('grid.trouble.seen'), align: 'left', width: 28 },
    { head: frame.say('grid.trouble.do'), align: 'left' },
  ],
  rows: TROUBLE.map((key): Cell[] => [
    words(frame.say(`grid.trouble.${key}`)),
    words(
      frame.say(`grid.trouble.${key}-do`, key === 'still' ? { most: pushOfEach(frame, wires).most } : {}),
    ),
  ]),
})
