/** How hard the frames are pushed, who can do it, and where to stop. */
import type { BoundWires } from '../../binder/bind-wires.ts'
import { CUT_TIMES } from '../../binder/cutting-loads.ts'
import type { GridPush } from '../../binder/grid-wires.ts'
import { axisTicks, chart } from '../../drawing/chart.ts'
import { inlineWords, nothing, number, words } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell } from '../model.ts'

/** mm; across a page, low enough that chart and table stand on one page */
const CHART = { width: 165, height: 70 } as const
/** N/m and N between the lines of the chart */
const STEP = { load: 50, push: 100 } as const

/** Push of the grid cutter over what the soap resists with, against what hands can press. */
export const pushFigure = (frame: Frame, { gridPush, loads }: BoundWires): Block => {
  if (!gridPush) return nothing
  const { say, show } = frame
  const named = (key: string): string => inlineWords(say(`wires.push.chart.${key}`))
  const { at, held } = gridPush
  const last = Math.ceil(Math.max(loads.at.late, held.load) / STEP.load) * STEP.load
  const { wireLength, onePerson } = at.late
  // The same straight line as the plans: resistance less the frame's weight.
  const weight = at.late.resistance - at.late.push
  const pushAt = (load: number): number => Math.max(0, load * wireLength - weight)
  const bear = Math.min(last, held.load)
  const line = (loads: readonly number[]) =>
    loads.filter((load) => load <= last).map((load) => ({ x: load, y: pushAt(load) }))
  const top = Math.ceil(Math.max(pushAt(last), 2 * onePerson) / STEP.push) * STEP.push
  const drawn = chart({
    name: 'grid-push',
    label: named('label'),
    ...CHART,
    x: { title: named('load'), ticks: axisTicks(0, last, STEP.load, show.plainNumber) },
    y: { title: named('push'), ticks: axisTicks(0, top, STEP.push, show.plainNumber) },
    curves: [
      { name: named('curve'), kind: 'visible', points: line([0, weight / wireLength, bear]) },
      { name: named('beyond'), kind: 'hidden', points: line([bear, last]) },
    ],
    levels: [
      { at: onePerson, name: named('one') },
      { at: 2 * onePerson, name: named('two') },
    ],
    moments: [
      { at: loads.at.usual, name: named('usual') },
      { at: bear, name: named('held') },
    ],
  })
  return { kind: 'figure', svg: drawn.svg, caption: say('wires.push.chart.caption'), values: [] }
}

/** Push at the three loads and at the most that the wires bear, for both cutters. */
export const pushTable = (frame: Frame, { gridPush, barPush, loads }: BoundWires): Block => {
  if (!gridPush && !barPush) return nothing
  const { say, show } = frame
  const heads = CUT_TIMES.map((time) => ({
    head: say(`wires.loaded.${time}`, { load: show.perMetre(`load.${time}`, loads.at[time]) }),
    align: 'right' as const,
  }))
  const row = (key: string, plans: readonly { readonly push: number }[]): Cell[] => [
    words(say(`wires.push.${key}`)),
    ...plans.map(({ push }, index) => number(show.press(`push.${key}.${CUT_TIMES[index]}`, push))),
  ]
  return {
    kind: 'table',
    caption: say('wires.push.caption'),
    columns: [{ head: say('wires.push.what'), align: 'left', width: 34 }, ...heads],
    rows: [
      ...(gridPush
        ? [
            row(
              'grid',
              CUT_TIMES.map((time) => gridPush.at[time]),
            ),
            [
              words(say('wires.push.by')),
              ...CUT_TIMES.map((time) => {
                const { by } = gridPush.at[time]
                const who = loads.at[time] > gridPush.held.load ? 'nobody' : by
                return words(say(`wires.push.by.${who}`))
              }),
            ],
          ]
        : []),
      ...(barPush
        ? [
            row(
              'bar',
              CUT_TIMES.map((time) => barPush.at[time]),
            ),
          ]
        : []),
    ],
  }
}

/** What one person presses, and the push beyond which nobody goes on. */
export const pushFacts = (frame: Frame, { gridPush, barPush }: BoundWires): Block => {
  const { say, show } = frame
  const items = [
    ...(gridPush
      ? [
          {
            label: say('wires.push.one-person'),
            cell: number(show.press('push.one-person', gridPush.at.usual.onePerson)),
            note: say('wires.push.one-person-note', {
              hands: show.length('push.hands', gridPush.handHeight),
              stand: show.length('push.stand', gridPush.standHeight),
            }),
          },
          {
            label: say('wires.push.stop-grid'),
            cell: number(show.pressAtMost('push.grid.most', gridPush.held.plan.push)),
            note: say('wires.push.stop-note', { load: show.perMetre('push.grid.held', gridPush.held.load) }),
          },
        ]
      : []),
    ...(barPush
      ? [
          {
            label: say('wires.push.stop-bar'),
            cell: number(show.pressAtMost('push.bar.most', barPush.stop.push)),
            note: say(barPush.stop.by === 'tips' ? 'wires.push.stop-tips' : 'wires.push.stop-note', {
              load: show.perMetre('push.bar.held', barPush.held.load),
            }),
          },
        ]
      : []),
  ]
  return { kind: 'facts', size: 'plain', items }
}

/**
 * What is done when it goes too hard: in the order in which it is tried.
 * @param grid, press numbers of the sheets of the grid cutter and of the lever press, where there is one
 */
export const harderSteps = (
  frame: Frame,
  gridPush: GridPush | undefined,
  { gridCutter, press }: Pick<FixtureNumbers, 'gridCutter' | 'press'>,
): Block => {
  if (!gridPush) return nothing
  const { say, show } = frame
  const { held, at } = gridPush
  const { onePerson, stagePush } = at.usual
  const most = held.plan.push
  // Help to push harder is of use only as far as the wires bear it.
  const ways = [
    'stop',
    ...(most > onePerson ? ['two'] : []),
    'free',
    'sooner',
    ...(most > onePerson ? ['stages'] : ['stronger']),
    ...(press !== undefined ? ['press-on'] : most > 2 * onePerson ? ['press'] : []),
  ]
  const fill = {
    most: show.pressAtMost('push.grid.most', most),
    push: show.press('push.two', Math.min(most, 2 * onePerson)),
    stage: show.press('push.stage', stagePush),
    press: press ?? '',
    grid: gridCutter ?? '',
    row: say('grid.trouble.still'),
  }
  return {
    kind: 'steps',
    first: 1,
    items: ways.map((key) => ({ text: say(`wires.harder.${key}`, fill) })),
  }
}
