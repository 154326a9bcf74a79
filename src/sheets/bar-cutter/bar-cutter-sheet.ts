/** The build sheet of a bar cutter: for a woodworker who has nothing else, and for a helper on the first day. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import type { BoundWires } from '../../binder/bind-wires.ts'
import type { Projection } from '../../drawing/types.ts'
import { isChannel, isHole, isNotch, type Part } from '../../geometry/part.ts'
import { nothing } from '../compose.ts'
import { asBuiltLink, buildSheet, fact } from '../fixture/build-sheet.ts'
import { channelTable, holeSchedule } from '../fixture/features.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { cutList, exactFirst, partsTable } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline, Sheet } from '../model.ts'
import { tuningTable } from '../wires/tuning.ts'
import { buildSteps } from './build-steps.ts'
import { barCutterDrawingPages, useFigure } from './drawings.ts'
import { barCutterInspection } from './inspection.ts'
import {
  barCutterBuyTable,
  barCutterHardwareRows,
  barCutterPartList,
  placedTable,
  screwTable,
} from './parts.ts'
import { fallingPush, proofFacts, reckonedFacts } from './proof.ts'
import { stuckNotes, trialSteps, usingSteps } from './use-steps.ts'
import { careSteps, changingSteps, oddWire, stringingSteps, wireLog } from './wire-steps.ts'

/** @param numbers of this fixture's sheets, which send readers to each other */
export const barCutterSheet = (
  frame: Frame,
  bound: BoundBarCutter,
  wires: BoundWires | undefined,
  numbers: FixtureNumbers,
  projection: Projection,
): Sheet => {
  const { say, show } = frame
  const { cutter } = bound
  const { input } = cutter
  const own = numbers.barCutter ?? ''
  const list = barCutterPartList(bound)
  const drills = drillsOf(frame, cutter.parts)
  return buildSheet(frame, {
    numbers,
    template: 'bar-cutter',
    id: `bar-cutter/${bound.key}`,
    number: own,
    title: say('bar-cutter.title', { title: bound.title }),
    parts: cutter.parts,
    templated: cutter.parts.filter(isTemplated),
    drawings: barCutterDrawingPages(frame, bound, own, projection),
    blocks: {
      use: useFigure(frame, bound),
      'at-a-glance': glance(frame, bound),
      dangers: dangers(frame, bound),
      parts: partsTable(frame, list, barCutterHardwareRows(frame, bound)),
      hardware: barCutterBuyTable(frame, bound, gaugeOf(wires)),
      cuts: cutList(frame, list),
      channels: channelTable(frame, cutter.parts, OWN_WORDS, exactFirst),
      holes: holeSchedule(frame, cutter.parts, OWN_WORDS, exactFirst),
      placed: placedTable(frame, bound),
      screws: screwTable(frame, bound),
      proof: proofFacts(frame, bound),
      reckoned: reckonedFacts(frame, bound),
      assembly: { kind: 'steps', first: 1, items: buildSteps(frame, bound, numbers) },
      'wire-table': wires ? tuningTable(frame, wires, 'bar-cutter') : nothing,
      stringing: { kind: 'steps', first: 1, items: stringingSteps(frame, bound) },
      trial: { kind: 'steps', first: 1, items: trialSteps(frame, bound) },
      using: { kind: 'steps', first: 1, items: usingSteps(frame, bound) },
      stuck: stuckNotes(frame, bound),
      care: { kind: 'steps', first: 1, items: careSteps(frame, bound) },
      changing: { kind: 'steps', first: 1, items: changingSteps(frame) },
      'wire-log': wireLog(frame, bound),
      inspection: barCutterInspection(frame, bound),
    },
    fill: {
      'readings-sheet': asBuiltLink(bound.key, numbers),
      besides: numbers.gauge
        ? say('bar-cutter.besides', { gauge: numbers.gauge })
        : say('bar-cutter.besides-none'),
      related: related(frame, numbers),
      'pegs-metal': say('bar-cutter.pegs-metal'),
      ...setUpSizes(frame, bound),
      'odd-wire': oddWire(frame, bound),
      'dado-width': show.millimetres('dado.width', dadoWidth(cutter.parts, input.panels.upright.thickness)),
      'groove-width': show.millimetres('groove.width', input.platform.grooveWidth),
      ...drills,
    },
    sources: ['music-wire-gauge', 'irvine-cables'],
  })
}

/** A board of a cutter has no inside; a peg is let in from below, where no washer is. */
const OWN_WORDS = {
  caption: 'bar-cutter.feature.caption',
  holes: 'bar-cutter.feature.holes',
  'dado.upper.length': 'bar-cutter.feature.dado-along',
  'dado.upper.width': 'bar-cutter.feature.dado-across',
  'notch.far': 'bar-cutter.feature.slot',
  'recess-head': 'bar-cutter.feature.recess-head',
  'recess.lower': 'bar-cutter.feature.recess-lower',
  'recess.upper': 'bar-cutter.feature.recess-upper',
}

/** Parts with something to mark that has to be true: a plain board has its size from the list. */
const isTemplated = ({ features }: Part): boolean =>
  features.some(
    (one) => (isHole(one) && isPlaced(one.name)) || isNotch(one) || (isChannel(one) && one.kind === 'groove'),
  )

/** Screws and hooks may stand a little beside their place; pins, pegs and anchors may not. */
const isPlaced = (hole: string): boolean => /^(pin|peg|anchor|wire)-/.test(hole)

/** The wire of this cutter, as it is asked for in a shop. */
const gaugeOf = (wires: BoundWires | undefined): string | undefined =>
  wires?.buy.find(({ pieces }) => pieces.some(({ group }) => group === 'bar'))?.gauge

const dadoWidth = (parts: readonly Part[], board: number): number =>
  parts.flatMap(({ features }) => features.filter(isChannel)).find(({ kind }) => kind === 'dado')?.size ??
  board

const drillsOf = ({ say, show }: Frame, parts: readonly Part[]) => {
  const holes = parts.flatMap(({ features }) => features.filter(isHole))
  const drill = (name: string, starts: string) =>
    show.exactLength(name, holes.find((hole) => hole.name.startsWith(starts))?.diameter ?? 0)
  const recesses = [...new Set(holes.flatMap(({ counterbore }) => counterbore?.diameter ?? []))].sort(
    (a, b) => a - b,
  )
  const bits = Object.fromEntries(
    recesses.map((size, index) => [`size-${index + 1}`, show.exactLength(`recess.bit-${index + 1}`, size)]),
  )
  return {
    'recess-drills': recesses.length === 0 ? '' : say(`bar-cutter.recess-bits-${recesses.length}`, bits),
    'peg-drill': drill('peg.hole', 'peg-'),
    'pin-drill': drill('pin.hole', 'pin-'),
  }
}

/** What is cut to a size for setting up. */
const setUpSizes = ({ show }: Frame, { cutter }: BoundBarCutter) => ({
  strip: show.millimetres('wire.gauge', cutter.input.frame.wireDrop - cutter.input.wire.diameter / 2),
  spacer: show.millimetres('frame.clearance', cutter.input.frame.clearance),
})

/** Where the loaf comes from, and the sheets that say so. */
const related = ({ say }: Frame, { mould, gridCutter, wires }: FixtureNumbers): Inline =>
  gridCutter === undefined
    ? say('bar-cutter.related-mould', { mould, wires: wires ?? '' })
    : say('bar-cutter.related-both', { mould, grid: gridCutter, wires: wires ?? '' })

const glance = ({ say, show }: Frame, { cutter }: BoundBarCutter): Block => {
  const { loaf, input, swing, base, frame } = cutter
  const { block } = input
  const item = (key: string, value: ReturnType<typeof show.count>) =>
    fact(say(`bar-cutter.glance.${key}`), value)
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      item('loaf-length', show.exactLength('loaf.length', loaf.length)),
      item('loaf-width', show.exactLength('loaf.width', loaf.width)),
      item('loaf-height', show.exactLength('loaf.height', loaf.height)),
      item('bars', show.count('cutter.bars', block.slices)),
      item('wires', show.count('wire.count', cutter.wires.length)),
      item('platform', show.exactLength('platform.top', cutter.platform.top)),
      item('bench-width', show.length('cutter.width', frame.x[1] - frame.x[0])),
      item('bench-depth', show.length('cutter.depth', base.y[1] - base.y[0])),
      item('open-height', show.length('cutter.open-height', swing.heightMost)),
      item('over-edge', show.length('use.over-edge', frame.end - base.y[1])),
      item('mass', show.heavy('cutter.mass', cutter.mass)),
      item('frame-mass', show.heavy('cutter.frame-mass', cutter.frameMass)),
    ],
  }
}

const dangers = ({ say, show }: Frame, { cutter }: BoundBarCutter): Block => ({
  kind: 'cautions',
  signal: 'warning',
  heading: say('bar-cutter.danger.heading'),
  items: [
    say('bar-cutter.danger.wire'),
    say('bar-cutter.danger.fingers'),
    say('bar-cutter.danger.pinch', {
      room: show.millimetres('frame.clearance', cutter.input.frame.clearance),
    }),
    say('bar-cutter.danger.falls', { push: show.force('balance.falls', fallingPush(cutter)) }),
    say('bar-cutter.danger.tips', {
      press: show.force('balance.press-end', cutter.balance.tippingPressEnd),
      knock: show.force('balance.knock', cutter.balance.tippingPush),
    }),
    say('bar-cutter.danger.soap'),
  ],
})
