/** The sheet of a trial frame: built first, pushed through a test block, and what it says typed into the fixture's file. */
import type { BoundTrialFrame } from '../../binder/bind-trial-frame.ts'
import type { Projection } from '../../drawing/types.ts'
import { words } from '../compose.ts'
import { belowFolder } from '../file-places.ts'
import { buildSheet, fact } from '../fixture/build-sheet.ts'
import { channelTable, holeSchedule } from '../fixture/features.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { inspectionTable, plusMinus } from '../fixture/inspection.ts'
import { cutList, partsTable } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Sheet } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { rulerFigure, trialDrawingPages, trialFigure } from './drawings.ts'
import { trialBuyTable, trialHardwareRows, trialPartList } from './parts.ts'
import { trialProof, trialReckoned } from './proof.ts'
import { limitTable, predictedTable, readingLog, resultBlock, rulerTable, typedTable } from './readings.ts'
import { trialSteps } from './steps.ts'

/** @param numbers of the sheets of its fixture, as they stand in the binder */
export const trialSheet = (
  frame: Frame,
  bound: BoundTrialFrame,
  numbers: FixtureNumbers,
  projection: Projection,
): Sheet => {
  const { say, show } = frame
  const { trial } = bound
  const list = trialPartList(bound)
  const steps = trialSteps(frame, bound)
  const number = numbers.trial ?? ''
  return buildSheet(frame, {
    numbers,
    template: 'trial-frame',
    id: `trial-frame/${bound.key}`,
    number,
    title: say('trial.title', { title: bound.title }),
    parts: trial.parts,
    templated: trial.parts,
    drawings: trialDrawingPages(frame, bound, number, projection),
    blocks: {
      use: trialFigure(frame, bound),
      'at-a-glance': atAGlance(frame, bound),
      cautions: cautions(frame),
      said: said(frame, bound),
      parts: partsTable(frame, list, trialHardwareRows(frame, bound)),
      hardware: trialBuyTable(frame, bound),
      cuts: cutList(frame, list),
      channels: channelTable(frame, trial.parts),
      holes: holeSchedule(frame, trial.parts),
      proof: trialProof(frame, bound),
      reckoned: trialReckoned(frame, bound),
      build: steps.build,
      string: steps.string,
      block: steps.block,
      push: steps.push,
      predicted: predictedTable(frame, bound),
      log: readingLog(frame),
      limits: limitTable(frame, bound),
      typed: typedTable(frame, bound),
      result: resultBlock(frame, bound),
      'ruler-steps': steps.ruler,
      'ruler-figure': rulerFigure(frame, bound),
      ruler: rulerTable(frame, bound),
      after: steps.after,
      inspection: inspection(frame, bound),
    },
    fill: {
      mass: show.weight('trial.block.mass', trial.blockMass, 0.01),
      cutter:
        numbers.gridCutter === undefined
          ? say('trial.cutter')
          : say('trial.cutter-on', { sheet: numbers.gridCutter }),
      wires: numbers.wires ?? '',
      stop: show.heavy('trial.stop.shown', trial.limits.find(({ key }) => key === 'trial-wire')?.shown ?? 0),
      file: belowFolder(bound.file.document.file),
    },
    sources: [
      'kamyab1998',
      'irvine-cables',
      'astm-a228',
      'astm-a313',
      'przemieniecki',
      'drillis-contini',
      'birch-datasheet',
    ],
  })
}

const atAGlance = (frame: Frame, { trial, scaleName, coarsest }: BoundTrialFrame): Block => {
  const { say, show } = frame
  const { input, outside, limits } = trial
  const own = limits.find(({ key }) => key === 'trial-wire')
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('trial.glance.block'),
        cell: words(
          say('trial.glance.block-size', {
            length: show.size('trial.block.length.size', input.block.length),
            width: show.size('trial.block.width.size', input.block.width),
            height: show.size('trial.block.height.size', input.block.height),
          }),
        ),
      },
      fact(say('trial.glance.block-mass'), show.weight('trial.block.mass', trial.blockMass, 0.01)),
      {
        label: say('trial.glance.wires'),
        cell: words(
          say('trial.glance.wires-are', {
            count: show.count('trial.wires', input.wires),
            diameter: show.thousandths('trial.wire.diameter', input.wire.diameter),
            tension: show.force('trial.tension', input.restTension),
          }),
        ),
      },
      {
        label: say('trial.glance.scale'),
        cell: words(
          say('trial.glance.scale-is', {
            capacity: show.heavy('trial.scale.capacity', trial.capacityNeeded),
            division: show.weight('trial.scale.division', coarsest, 0.001),
          }),
        ),
        ...(scaleName === undefined
          ? {}
          : { note: say('trial.glance.scale-note', { scale: frame.scaleName(scaleName) }) }),
      },
      fact(say('trial.glance.stop'), show.heavy('trial.stop.shown', own?.shown ?? 0)),
      fact(say('trial.glance.outside'), show.exactLength('trial.outside.width', outside.width)),
      fact(say('trial.glance.mass'), show.weight('trial.frame.mass', trial.mass, 0.01)),
    ],
  }
}

const cautions = ({ say }: Frame): Block => ({
  kind: 'cautions',
  signal: 'warning',
  heading: say('trial.cautions.heading'),
  items: ['snap', 'plane', 'feet', 'lye', 'scale'].map((key) => say(`trial.cautions.${key}`)),
})

/** Warnings in the words of findings. */
const said = (frame: Frame, { findings }: BoundTrialFrame): Block => ({
  kind: 'cautions',
  signal: 'notice',
  heading: frame.say('trial.said.heading'),
  items: findingsWords(
    frame,
    findings.filter(({ severity }) => severity !== 'stop'),
  ),
})

const inspection = (frame: Frame, { trial }: BoundTrialFrame): Block => {
  const { say } = frame
  const { input, inside, plane, groove, base, edgeAtEnd } = trial
  const row = (key: string, wanted: number, allowed: 'outline' | 'joint') => ({
    what: say(`trial.inspection.${key}`),
    name: `trial.inspection.${key}`,
    wanted,
    allowed: plusMinus(frame, allowed),
  })
  return inspectionTable(frame, say('trial.inspection.caption'), [
    row('inside-length', inside.length, 'joint'),
    row('inside-width', inside.width, 'joint'),
    row('spacing', input.spacing, 'joint'),
    row('plane', plane, 'joint'),
    row('feet', edgeAtEnd, 'joint'),
    row('base', base.height, 'joint'),
    row('groove', groove.depth, 'joint'),
    row('groove-width', groove.width, 'outline'),
  ])
}
