/** How the longest wire lies while it cuts, against the top of the base and the bottom of its groove. */
import type { BoundWires } from '../../binder/bind-wires.ts'
import { axisTicks, chart } from '../../drawing/chart.ts'
import { inlineWords, nothing } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block } from '../model.ts'

/** mm */
const CHART = { width: 165, height: 62 } as const
const MILLIMETRE = 1000
/** mm between the lines of the chart */
const STEP = { along: 20, up: 2 } as const

/** Heights above the ends of the wire, which lie below the top of the base by the over-travel. */
export const lagFigure = (
  frame: Frame,
  { groups }: BoundWires,
  overTravel: (key: string) => number | undefined,
): Block => {
  const { say, show } = frame
  const [group] = [...groups].sort((a, b) => b.chosen.loaded.usual.lag - a.chosen.loaded.usual.lag)
  const below = group && overTravel(group.key)
  if (!group || below === undefined) return nothing
  const named = (key: string): string => inlineWords(say(`wires.lag.${key}`))
  const { fresh, usual } = group.chosen.loaded
  const half = (group.length / 2) * MILLIMETRE
  const reach = Math.ceil(half / STEP.along) * STEP.along
  const top = Math.ceil((Math.max(usual.lag, below) * MILLIMETRE + 1) / STEP.up) * STEP.up
  const curve = (shape: typeof usual.shape) =>
    shape.map(({ fromMiddle, above }) => ({ x: fromMiddle * MILLIMETRE, y: above * MILLIMETRE }))
  const drawn = chart({
    name: 'wire-lag',
    label: named('label'),
    ...CHART,
    x: { title: named('along'), ticks: axisTicks(-reach, reach, STEP.along * 2, show.plainNumber) },
    y: { title: named('up'), ticks: axisTicks(0, top, STEP.up, show.plainNumber) },
    curves: [
      { name: named('usual'), kind: 'visible', points: curve(usual.shape) },
      { name: named('fresh'), kind: 'hidden', points: curve(fresh.shape) },
    ],
    levels: [{ at: below * MILLIMETRE, name: named('base') }],
    moments: [
      { at: (-group.soapWidth / 2) * MILLIMETRE, name: named('soap') },
      { at: (group.soapWidth / 2) * MILLIMETRE, name: named('soap') },
    ],
  })
  return {
    kind: 'figure',
    svg: drawn.svg,
    caption: say('wires.lag.caption', { group: say(`wires.group.${group.key}`) }),
    values: [],
  }
}
