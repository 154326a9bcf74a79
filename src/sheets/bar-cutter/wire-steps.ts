/** Stringing the bar cutter, keeping it, and changing a wire. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import { barStretch, GEAR } from '../../binder/judged-wires.ts'
import { isHole } from '../../geometry/part.ts'
import type { Fill } from '../compose.ts'
import { empty, number } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Step, Table } from '../model.ts'

/** m; what the closed wire may be deeper than drawn, of the room that its groove has for crumbs */
const DEEPER_SHARE = 0.5
/** m; between a clamp and what comes down over it (common practice) */
const CLAMP_FREE = 0.005
/** Blocks after which all wires are new, and rows of the log (common practice) */
const BLOCKS = 20
const LOG_ROWS_MORE = 5
const NO_ENTRY: readonly Cell[] = [empty, empty, empty, empty]

/** What a steel rule that stands on a closed wire may read at the platform's top [m]: to the top of the wire. */
export const wireReading = ({ wire, platform, input }: BoundBarCutter['cutter']) => {
  const radius = input.wire.diameter / 2
  return {
    wanted: wire.depth - radius,
    least: input.wire.lag + input.limits.cutThrough - radius,
    most: platform.grooveDepth - 2 * radius - DEEPER_SHARE * input.limits.grooveRoom,
  }
}

/** m; above the base board, for the jaw of a clamp at its front edge: below all that hangs from the closed front rail. */
export const clampRoom = ({ rounds, frame, input }: BoundBarCutter['cutter']): number =>
  Math.min(
    frame.bottom,
    ...rounds
      .filter(({ centre, axis }) => axis === 'z' && centre[1] > frame.frontRail[0])
      .map(({ from }) => from),
  ) -
  input.panels.base.thickness -
  CLAMP_FREE

/** Wires that are lost with the first and the last: of a pair both. */
const firstCosts = ({ strings, wires }: BoundBarCutter['cutter']): number =>
  strings
    .filter((one) => one.wires.includes(0) || one.wires.includes(wires.length - 1))
    .reduce((sum, one) => sum + one.wires.length, 0)

/** m; across the handle of a driver that goes up beside the edge of a bench (common practice) */
const DRIVER = 0.04

/** m; so far over the edge of the bench all screws of the rests are reached by an upright driver. */
export const restsOver = ({ parts, base }: BoundBarCutter['cutter']): number => {
  const board = parts.find(({ key }) => key === 'cutter-base')
  const screws = (board?.features ?? [])
    .filter(isHole)
    .filter(({ name }) => name.startsWith('screw-cutter-rest-'))
    .map(({ v }) => v)
  return base.y[1] - base.y[0] - Math.min(...screws, board?.width ?? 0) + DRIVER / 2
}

/** What happens with the wires of an odd number, or that there is none left. */
export const oddWire = ({ say }: Frame, { cutter }: BoundBarCutter): Inline => {
  if (!cutter.strings.some(({ kind }) => kind === 'single')) return say('bar-cutter.even')
  return say(cutter.input.block.trim.height.end > 0 ? 'bar-cutter.odd' : 'bar-cutter.odd-bars')
}

export const stringingSteps = ({ say, show }: Frame, { cutter, wires }: BoundBarCutter): readonly Step[] => {
  const { input, strings, staggered, winding } = cutter
  const mm = show.millimetres
  const lengthOf = (kind: 'pair' | 'single'): number =>
    Math.max(0, ...strings.filter((one) => one.kind === kind).map(({ length }) => length))
  const has = (kind: 'pair' | 'single'): boolean => strings.some((one) => one.kind === kind)
  const { wanted, least, most } = wireReading(cutter)
  const chosen = wires.groups[0]?.chosen
  const wound = {
    back: mm('wire.let-back', winding.letBack),
    turns: show.count('wire.turns', winding.turns),
  }
  const step = (key: string, fill = {}): Step => ({ text: say(`bar-cutter.string.${key}`, fill) })
  const rod = input.anchor.key === 'pin' ? '-pin' : ''
  const hung: Fill = rod ? {} : { out: mm('anchor.out', input.anchor.reach) }
  return [
    { ...step('gear'), why: say('bar-cutter.string.gear-why') },
    step('open'),
    step('limit'),
    ...(has('pair')
      ? [
          step('cut-pair', { length: show.length('wire.pair-length', lengthOf('pair')) }),
          { ...step('pair', wound), why: say('bar-cutter.string.pair-why') },
        ]
      : []),
    ...(has('single')
      ? [
          step(`single${rod}`, {
            length: show.length('wire.single-length', lengthOf('single')),
            eye: mm('wire.eye', winding.eye),
            ...hung,
          }),
        ]
      : []),
    ...(staggered
      ? [{ text: say(rod ? 'bar-cutter.string.staggered-pin' : 'bar-cutter.string.staggered', hung) }]
      : []),
    step('height', { gauge: mm('wire.gauge', input.frame.wireDrop - input.wire.diameter / 2) }),
    {
      ...step('first', { wander: mm('slot.wander', input.limits.wander) }),
      why: say('bar-cutter.string.first-why', { costs: show.count('wire.first-costs', firstCosts(cutter)) }),
    },
    {
      ...step('axis', {
        wanted: mm('wire.reads', wanted),
        least: mm('wire.reads-least', least),
        most: mm('wire.reads-most', most),
        back: show.percent('hinge.follows', cutter.fitting.follows.back, 0),
        front: show.percent('rests.follow', cutter.fitting.follows.front, 0),
      }),
      why: say('bar-cutter.string.axis-why'),
      blanks: (['back', 'front'] as const).map((key) => ({
        label: say(`bar-cutter.string.axis-${key}`),
        after: say('blank.millimetres'),
      })),
    },
    step('rests', { over: mm('rests.over', restsOver(cutter)), driver: mm('rests.driver', DRIVER) }),
    {
      ...(chosen
        ? step('tune', {
            third: show.frequency('wire.pitch-third', chosen.pitch * Math.sqrt(1 / 3)),
            'two-thirds': show.frequency('wire.pitch-two-thirds', chosen.pitch * Math.sqrt(2 / 3)),
          })
        : step('tune-plain')),
      why: chosen
        ? say('bar-cutter.string.tune-why', {
            stretch: mm('wire.stretch', barStretch(cutter, chosen)),
            takes: mm('peg.takes', winding.letBack / winding.turns / GEAR),
            gear: show.count('peg.gear', GEAR),
          })
        : say('bar-cutter.string.tune-plain-why'),
    },
    step('tails'),
    { ...step('next-day'), hold: true },
  ]
}

export const careSteps = ({ say, show }: Frame, { cutter }: BoundBarCutter): readonly Step[] => [
  { text: say('bar-cutter.care.wash') },
  {
    text: say(
      cutter.input.wire.material === 'stainless-302' ? 'bar-cutter.care.dry' : 'bar-cutter.care.dry-oil',
    ),
    why: say('bar-cutter.care.dry-why'),
  },
  { text: say('bar-cutter.care.slack'), why: say('bar-cutter.care.slack-why') },
  { text: say('bar-cutter.care.look', { blocks: show.count('care.blocks', BLOCKS) }) },
]

export const changingSteps = ({ say }: Frame): readonly Step[] =>
  ['slack', 'off', 'sharp', 'new', 'neighbours', 'log'].map((key) => ({
    text: say(`bar-cutter.change.${key}`),
  }))

/** One row a wire as it is strung, and some for later. */
export const wireLog = ({ say, show }: Frame, { cutter }: BoundBarCutter): Table => ({
  kind: 'table',
  style: 'log',
  caption: say('bar-cutter.log.caption'),
  columns: [
    { head: say('bar-cutter.log.wire'), align: 'left', width: 20 },
    { head: say('bar-cutter.log.date'), align: 'left', width: 20 },
    { head: say('bar-cutter.log.from'), align: 'left', width: 20 },
    { head: say('bar-cutter.log.blocks'), align: 'left', width: 14 },
    { head: say('bar-cutter.log.why'), align: 'left' },
  ],
  rows: [
    ...cutter.wires.map((_, index): Cell[] => [
      number(show.count(`log.wire-${index + 1}`, index + 1)),
      ...NO_ENTRY,
    ]),
    ...Array.from({ length: LOG_ROWS_MORE }, (): Cell[] => [empty, ...NO_ENTRY]),
  ],
})
