/** The sheet of a lever press: how it works and with what forces, its parts, and how one person pushes a hard block with it. */
import type { BoundLeverPress } from '../../binder/bind-lever-press.ts'
import { type PressWords, pressDrawings, pressUse } from '../../drawing/lever-press/press-drawings.ts'
import type { Projection } from '../../drawing/types.ts'
import { type Fill, inlineWords, nothing } from '../compose.ts'
import { buildSheet } from '../fixture/build-sheet.ts'
import { drawingPages, drawingWordsOf, fixtureWords } from '../fixture/drawing-pages.ts'
import { channelTable, holeSchedule } from '../fixture/features.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { inspectionTable, plusMinus } from '../fixture/inspection.ts'
import { cutList, partsTable } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Figure, Sheet } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { checkTable, forceFacts, pressGlance, pressProof, stageTable, stepTable } from './forces.ts'
import { pressBuyTable, pressHardwareRows, pressPartList, SCREW } from './parts.ts'

/** Long parts have their holes on one middle line: a rule sets them out better than tiles. */
const TEMPLATED: ReadonlySet<string> = new Set(['press-link', 'press-packer'])

const GROUPS = {
  build: ['lumber', 'cut', 'holes', 'slots', 'stand', 'posts', 'board', 'bridge', 'link', 'lever', 'try'],
  use: ['place', 'cutter', 'bridge', 'pin', 'where', 'press', 'move', 'last', 'loaves'],
  care: ['before', 'oil', 'replace', 'store'],
} as const

/** What one person does in another way than two. */
const FOR_TWO: ReadonlySet<string> = new Set(['bystander', 'where', 'press', 'move'])
const byHands = (key: string, alone: boolean): string => (alone && FOR_TWO.has(key) ? `${key}-alone` : key)

/** @param numbers of the sheets of its fixture, as they stand in the binder */
export const pressSheet = (
  frame: Frame,
  bound: BoundLeverPress,
  numbers: FixtureNumbers,
  projection: Projection,
): Sheet => {
  const { say } = frame
  const { press } = bound
  const list = pressPartList(bound)
  const number = numbers.press ?? ''
  const fill = fillOf(frame, bound)
  const steps = (group: keyof typeof GROUPS): Block => ({
    kind: 'steps',
    first: 1,
    items: GROUPS[group].map((key) => ({
      text: say(`press.${group}.${byHands(key, press.input.alone)}`, fill),
    })),
  })
  return buildSheet(frame, {
    numbers,
    template: 'lever-press',
    id: `lever-press/${bound.key}`,
    number,
    title: say('press.title', { title: bound.title }),
    parts: press.parts,
    templated: press.parts.filter(({ key }) => TEMPLATED.has(key)),
    drawings: drawingPages(frame, {
      kind: 'lever-press',
      of: press,
      title: inlineWords(say('press.title', { title: bound.title })),
      sheetNumber: number,
      projection,
      words: wordsOf(frame, bound),
      draw: pressDrawings,
    }),
    blocks: {
      use: useFigure(frame, bound),
      'at-a-glance': pressGlance(frame, bound),
      cautions: {
        kind: 'cautions',
        signal: 'warning',
        heading: say('press.cautions.heading'),
        items: ['flies', 'pinch', 'foot', 'snap', 'bystander', 'lye'].map((key) =>
          say(`press.cautions.${byHands(key, press.input.alone)}`),
        ),
      },
      said: said(frame, bound),
      parts: partsTable(frame, list, pressHardwareRows(frame, bound)),
      hardware: pressBuyTable(frame, bound),
      cuts: cutList(frame, list),
      channels: channelTable(frame, press.parts),
      holes: holeSchedule(frame, press.parts),
      proof: pressProof(frame, bound),
      forces: forceFacts(frame, bound),
      checks: checkTable(frame, bound),
      build: steps('build'),
      steps: stepTable(frame, bound),
      using: steps('use'),
      stages: stageTable(frame, bound),
      'stage-steps': stageSteps(frame, bound),
      care: steps('care'),
      inspection: inspection(frame, bound),
    },
    fill: {
      ...fill,
      need: say(`press.need.${press.need}`, fill),
      cutter:
        numbers.gridCutter === undefined
          ? say('press.cutter')
          : say('press.cutter-on', { sheet: numbers.gridCutter }),
      wires: numbers.wires ?? '',
    },
    sources: [
      'kamyab1998',
      'shigley-beams',
      'nds-dowel',
      'wood-handbook-1974',
      'wood-variation',
      'astm-d245',
      'apa-plywood',
      'drillis-contini',
    ],
  })
}

const fillOf = ({ show }: Frame, { press, load }: BoundLeverPress): Fill => {
  const { geometry, forces, input, standHeight } = press
  const first = geometry.steps[0]
  const bolts = press.hardware.filter(({ key }) => key === 'press-bolt')
  return {
    push: show.press('press.push', forces.push),
    hand: show.press('press.hand', forces.hand),
    person: show.press('press.by-hand', input.onePerson),
    both: show.press('press.by-two', 2 * input.onePerson),
    ratio: show.times('press.ratio', geometry.ratio),
    load: show.perMetre('press.load', load),
    holes: show.count('press.holes', geometry.steps.length),
    lever: show.exactLength('press.lever', geometry.lever),
    arm: show.exactLength('press.arm', geometry.arm),
    pitch: show.exactLength('press.pitch', geometry.pitch),
    link: show.exactLength('press.link', geometry.link),
    first: show.exactLength('press.step.1.pin', first?.pin ?? 0),
    start: show.length('press.step.1.start', first?.hands.start ?? 0),
    under: show.exactLength('press.under', Math.max(0, geometry.standTop - standHeight)),
    clamps: show.press('press.clamps', forces.clampNeeded),
    clear: show.exactLength('press.bridge.clear', geometry.bridgeClear),
    thin: show.wholeSize('press.screw.thin', SCREW * input.panel.thickness),
    thick: show.wholeSize('press.screw.thick', 2 * input.lumber.thickness),
    short: show.exactLength('press.bolt.short', bolts[0]?.length ?? 0),
    long: show.exactLength('press.bolt.long', bolts.at(-1)?.length ?? 0),
  }
}

const DRAWINGS = ['assembly', 'exploded', 'use'].map((key) => `press-${key}`)
const USE = ['start', 'step', 'end', 'pin'] as const

const wordsOf = (frame: Frame, { press }: BoundLeverPress): PressWords => ({
  ...fixtureWords(
    frame,
    press.parts.map(({ key }) => key),
    DRAWINGS,
  ),
  topView: inlineWords(frame.say('drawing.top-view-plain')),
  use: drawingWordsOf(frame, 'press-use', USE),
})

/** mm that a figure stays narrower than the page: lengths are cut to pixels */
const BESIDE = 1

const useFigure = (frame: Frame, bound: BoundLeverPress): Figure => {
  const { show, say } = frame
  const { svg, dimensions } = pressUse(bound.press, wordsOf(frame, bound), {
    width: frame.room.width - BESIDE,
    format: (metres) => ({ shown: show.bareSize(metres) }),
  })
  return {
    kind: 'figure',
    svg,
    caption: say(`press.use.caption-${show.lengthUnit}`),
    values: dimensions.map(({ name, value, shown }) => ({
      name: `drawing.${name}`,
      value,
      unit: 'm',
      shown,
    })),
  }
}

const said = (frame: Frame, { findings }: BoundLeverPress): Block => {
  const items = findings.filter(({ severity }) => severity !== 'stop')
  if (items.length === 0) return nothing
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: frame.say('press.said.heading'),
    items: findingsWords(frame, items),
  }
}

const stageSteps = ({ say }: Frame, { stages }: BoundLeverPress): Block => {
  if (!stages) return nothing
  return {
    kind: 'steps',
    first: 1,
    items: stages.stages.flatMap(({ layer, steps }) =>
      steps.map((step) => {
        const key = step === 'press' ? `press-${layer}` : step
        return { text: say(`press.stage-step.${key}`) }
      }),
    ),
  }
}

const inspection = (frame: Frame, { press }: BoundLeverPress): Block => {
  const { say } = frame
  const { geometry, input } = press
  const row = (key: string, wanted: number, allowed: 'outline' | 'joint') => ({
    what: say(`press.inspection.${key}`),
    name: `press.inspection.${key}`,
    wanted,
    allowed: plusMinus(frame, allowed),
  })
  return inspectionTable(frame, say('press.inspection.caption'), [
    row('arm', geometry.arm, 'outline'),
    row('lever', geometry.lever, 'outline'),
    row('link', geometry.link, 'joint'),
    row('pitch', geometry.pitch, 'joint'),
    row('legs', input.frame.endToEnd, 'outline'),
    row('clear', geometry.bridgeClear, 'outline'),
  ])
}
