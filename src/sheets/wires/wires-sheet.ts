/** The wires of both cutters on one sheet: what to buy, how to tune, what they bear, how hard they are pushed. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import type { BoundWires } from '../../binder/bind-wires.ts'
import { finishSheet, number, pickSources, words } from '../compose.ts'
import { fact } from '../fixture/build-sheet.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline, Sheet } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { groupName, wireKey, wireName } from './groups.ts'
import { lagFigure } from './lag-figure.ts'
import { limitTable, loadedTable, marginTable } from './loaded.ts'
import { optionTable } from './option.ts'
import { harderSteps, pushFacts, pushFigure, pushTable } from './push.ts'
import { cutTable, tuningTable } from './tuning.ts'

export const wiresSheet = (
  frame: Frame,
  wires: BoundWires,
  grid: BoundGridCutter | undefined,
  numbers: FixtureNumbers,
): Sheet => {
  const { say } = frame
  const overTravel = (key: string) =>
    grid?.cutter.layers.find(({ layer }) => `grid-${layer}` === key)?.overTravel
  return finishSheet({
    ...frame.sheet(
      'fixture',
      `wires/${wires.key}`,
      say('section.fixture'),
      numbers.wires ?? '',
      say('wires.title', { title: wires.title }),
    ),
    template: frame.template('wires'),
    fill: {
      cutters: cutterWords(frame, numbers),
    },
    blocks: {
      'at-a-glance': atAGlance(frame, wires),
      snap: {
        kind: 'cautions',
        signal: 'warning',
        heading: say('wires.snap.heading'),
        items: ['goggles', 'plane', 'cover', 'ends', 'pegs'].map((key) => say(`wires.snap.${key}`)),
      },
      said: said(frame, wires),
      cut: cutTable(frame, wires),
      tune: tuningTable(frame, wires),
      tuning: steps(frame, 'tuning', ['pluck', 'order', 'again', 'day', 'before']),
      loaded: loadedTable(frame, wires, numbers.trial),
      lag: lagFigure(frame, wires, overTravel),
      margins: marginTable(frame, wires),
      limits: limitTable(frame, wires),
      'push-figure': pushFigure(frame, wires),
      push: pushTable(frame, wires),
      'push-facts': pushFacts(frame, wires),
      harder: harderSteps(frame, wires.gridPush, numbers),
      option: optionTable(frame, wires),
    },
    sources: pickSources(frame.sources, [
      'astm-a228',
      'astm-a313',
      'spring-wire-modulus',
      'music-wire-gauge',
      'mersenne1636',
      'fletcher-rossing',
      'iso-16',
      'irvine-cables',
      'kamyab1998',
      'przemieniecki',
      'drillis-contini',
      'common-practice',
    ]),
  })
}

const cutterWords = ({ say }: Frame, { gridCutter, barCutter }: FixtureNumbers): Inline => {
  if (gridCutter === undefined) return say('wires.cutters.bar', { bar: barCutter ?? '' })
  if (barCutter === undefined) return say('wires.cutters.grid', { grid: gridCutter })
  return say('wires.cutters.both', { grid: gridCutter, bar: barCutter })
}

const atAGlance = (frame: Frame, wires: BoundWires): Block => {
  const { say, show } = frame
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      ...wires.groups.map((group) => ({
        label: say('wires.glance.group', { group: groupName(frame, group) }),
        cell: words(
          say('wires.glance.tuned', {
            count: show.count(`wire.${group.key}.count`, group.count),
            tension: show.force(`wire.${group.key}.tension`, group.tension),
          }),
        ),
      })),
      ...wires.buy.map((kind) => ({
        label: say('wires.glance.buy', {
          wire: wireName(frame, kind),
        }),
        cell: number(show.coil(`${wireKey(kind)}.length`, kind.length)),
      })),
      ...(wires.gridLoadOfGrooves === undefined
        ? []
        : [fact(say('wires.glance.grooves'), show.perMetre('wire.grooves.load', wires.gridLoadOfGrooves))]),
    ],
  }
}

/** What was found that does not stop: warnings and holds, in the words of findings. */
const said = (frame: Frame, { findings }: BoundWires): Block => ({
  kind: 'cautions',
  signal: 'notice',
  heading: frame.say('wires.said.heading'),
  items: findingsWords(
    frame,
    findings.filter(({ severity }) => severity !== 'stop'),
  ),
})

const steps = ({ say }: Frame, group: string, keys: readonly string[]): Block => ({
  kind: 'steps',
  first: 1,
  items: keys.map((key) => ({ text: say(`wires.${group}.${key}`) })),
})
