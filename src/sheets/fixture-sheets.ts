/** The sheets of every fixture: its mould, then what cuts the block. What does not stand has a stop page in its place. */
import type { BoundBinder } from '../binder/bind.ts'
import type { BoundAsBuilt } from '../binder/bind-as-built.ts'
import type { BoundBarCutter } from '../binder/bind-bar-cutter.ts'
import type { BoundGridCutter } from '../binder/bind-grid-cutter.ts'
import type { BoundLeverPress } from '../binder/bind-lever-press.ts'
import type { BoundMould } from '../binder/bind-mould.ts'
import type { BoundTolerance } from '../binder/bind-tolerance.ts'
import type { BoundTrialFrame } from '../binder/bind-trial-frame.ts'
import type { BoundWires } from '../binder/bind-wires.ts'
import { placesOf } from '../binder/finding-places.ts'
import type { Projection } from '../drawing/types.ts'
import { type Finding, isStopped } from '../findings.ts'
import { asBuiltSheet } from './as-built/as-built-sheet.ts'
import { barCutterSheet } from './bar-cutter/bar-cutter-sheet.ts'
import { logNumber } from './cure/tasks.ts'
import type { FixtureNumbers, SectionNumbers } from './fixture/fixture-numbers.ts'
import type { Frame } from './frame.ts'
import { gridCutterSheet } from './grid-cutter/grid-cutter-sheet.ts'
import { pressSheet } from './lever-press/press-sheet.ts'
import type { Inline, Sheet } from './model.ts'
import { mouldSheet } from './mould/mould-sheet.ts'
import { routerSheet } from './router/router-sheet.ts'
import { stopSheet } from './stop-sheet.ts'
import { toleranceSheet } from './tolerance/tolerance-sheet.ts'
import { trialSheet } from './trial-frame/trial-sheet.ts'
import { wiresSheet } from './wires/wires-sheet.ts'

/** One sheet of a fixture, whether it stands or not. */
interface FixtureSheet {
  readonly id: string
  readonly number: string
  readonly title: Inline
  /** of all that it stands on */
  readonly findings: readonly Finding[]
  readonly make: () => Sheet
  /** hangs on batches, too, or is asked for whether its fixture stands or not: made anew each time */
  readonly isMadeAnew?: true
}

export const fixtureSheets = (
  frame: Frame,
  binder: BoundBinder,
  projection: Projection,
  { fixtures: numbered, router }: SectionNumbers,
): readonly Sheet[] => {
  const fixtures = binder.moulds.flatMap((mould) => {
    const gridCutter = binder.gridCutters.find(({ key }) => key === mould.key)
    const wires = binder.wires.find(({ key }) => key === mould.key)
    const bar = binder.barCutters.find(({ key }) => key === mould.key)
    const tolerance = binder.tolerances.find(({ key }) => key === mould.key)
    const trial = binder.trialFrames.find(({ key }) => key === mould.key)
    const asBuilt = binder.asBuilt.find(({ key }) => key === mould.key)
    const press = binder.leverPresses.find(({ key }) => key === mould.key)
    const numbers = numbered.get(mould.key)
    if (!numbers) throw new Error(`The sheets of "${mould.key}" have no numbers.`)
    const logs = Object.fromEntries(binder.cures.map((cure) => [cure.batch.key, logNumber(binder, cure)]))
    const sheets = [
      mouldOf(frame, mould, numbers, projection),
      ...(gridCutter ? [gridCutterOf(frame, mould, gridCutter, wires, numbers, projection)] : []),
      ...(bar ? [barCutterOf(frame, mould, bar, wires, numbers, projection)] : []),
      ...(wires ? [wiresOf(frame, wires, gridCutter, numbers)] : []),
      ...(tolerance ? [toleranceOf(frame, mould, gridCutter, bar, tolerance, numbers, logs)] : []),
      ...(asBuilt ? [asBuiltOf(frame, asBuilt, numbers)] : []),
      ...(trial ? [trialOf(frame, trial, numbers, projection)] : []),
      ...(press ? [pressOf(frame, mould, gridCutter, press, numbers, projection)] : []),
    ]
    const all = { mould, gridCutter, bar, wires, trial, press, numbers, projection }
    // Stop pages name lines of the maker's file, which are no part of the fixture: they are made each time.
    const standing = frame.once(
      all,
      () =>
        new Map(
          sheets
            .filter(({ findings, isMadeAnew }) => !isStopped(findings) && !isMadeAnew)
            .map(({ id, make }) => [id, make()]),
        ),
    )
    return sheets.map((sheet) => {
      if (sheet.isMadeAnew && !isStopped(sheet.findings)) return sheet.make()
      return standing.get(sheet.id) ?? stopOf(frame, sheet, mould)
    })
  })
  return [
    ...fixtures,
    ...(router === undefined ? [] : [routerSheet(frame, binder.routerSets, numbered, router)]),
  ]
}

/** Readings are asked for whether a fixture stands or not: what stops it may be what was measured. */
const asBuiltOf = (frame: Frame, asBuilt: BoundAsBuilt, numbers: FixtureNumbers): FixtureSheet => ({
  id: `as-built/${asBuilt.key}`,
  number: numbers.asBuilt ?? '',
  title: frame.say('as-built.title', { title: asBuilt.title }),
  findings: asBuilt.stops,
  make: () => asBuiltSheet(frame, asBuilt, numbers),
  isMadeAnew: true,
})

const mouldOf = (
  frame: Frame,
  mould: BoundMould,
  numbers: FixtureNumbers,
  projection: Projection,
): FixtureSheet => ({
  id: `fixture/${mould.key}`,
  number: numbers.mould,
  title: frame.say('mould.title', { title: mould.title }),
  findings: mould.findings,
  make: () => mouldSheet(frame, mould, numbers, projection),
})

/** A cutter is made for the block of its mould: what stops the one stops the other. */
const barCutterOf = (
  frame: Frame,
  mould: BoundMould,
  cutter: BoundBarCutter,
  wires: BoundWires | undefined,
  numbers: FixtureNumbers,
  projection: Projection,
): FixtureSheet => ({
  id: `bar-cutter/${cutter.key}`,
  number: numbers.barCutter ?? '',
  title: frame.say('bar-cutter.title', { title: cutter.title }),
  findings: [...mould.findings, ...cutter.findings],
  make: () => barCutterSheet(frame, cutter, wires, numbers, projection),
})

/** A cutter stands on its mould: where that is stopped, so is the cutter. */
const gridCutterOf = (
  frame: Frame,
  mould: BoundMould,
  bound: BoundGridCutter,
  wires: BoundWires | undefined,
  numbers: FixtureNumbers,
  projection: Projection,
): FixtureSheet => {
  const number = numbers.gridCutter ?? ''
  return {
    id: `grid-cutter/${bound.key}`,
    number,
    title: frame.say('grid.title', { title: bound.title }),
    findings: [...mould.findings, ...bound.findings],
    make: () => gridCutterSheet(frame, bound, wires, { ...numbers, gridCutter: number }, projection),
  }
}

const wiresOf = (
  frame: Frame,
  wires: BoundWires,
  grid: BoundGridCutter | undefined,
  numbers: FixtureNumbers,
): FixtureSheet => ({
  id: `wires/${wires.key}`,
  number: numbers.wires ?? '',
  title: frame.say('wires.title', { title: wires.title }),
  findings: wires.findings,
  make: () => wiresSheet(frame, wires, grid, numbers),
})

/** Of bars that mould and cutters make: where one of them is stopped, there are none. */
const toleranceOf = (
  frame: Frame,
  mould: BoundMould,
  grid: BoundGridCutter | undefined,
  bar: BoundBarCutter | undefined,
  tolerance: BoundTolerance,
  numbers: FixtureNumbers,
  logs: Readonly<Record<string, string>>,
): FixtureSheet => ({
  id: `tolerance/${tolerance.key}`,
  number: numbers.tolerance ?? '',
  title: frame.say('tolerance.title', { title: tolerance.title }),
  findings: [...mould.findings, ...(grid?.findings ?? []), ...(bar?.findings ?? []), ...tolerance.findings],
  make: () => toleranceSheet(frame, tolerance, numbers, logs),
  isMadeAnew: true,
})

/** Built first, it stands on its own: where mould or cutter do not, it may find out why. */
const trialOf = (
  frame: Frame,
  trial: BoundTrialFrame,
  numbers: FixtureNumbers,
  projection: Projection,
): FixtureSheet => ({
  id: `trial-frame/${trial.key}`,
  number: numbers.trial ?? '',
  title: frame.say('trial.title', { title: trial.title }),
  findings: trial.findings,
  make: () => trialSheet(frame, trial, numbers, projection),
})

/** It presses a cutter: where that or its mould is stopped, so is the press. */
const pressOf = (
  frame: Frame,
  mould: BoundMould,
  grid: BoundGridCutter | undefined,
  press: BoundLeverPress,
  numbers: FixtureNumbers,
  projection: Projection,
): FixtureSheet => ({
  id: `lever-press/${press.key}`,
  number: numbers.press ?? '',
  title: frame.say('press.title', { title: press.title }),
  findings: [...mould.findings, ...(grid?.findings ?? []), ...press.findings],
  make: () => pressSheet(frame, press, numbers, projection),
})

const stopOf = (
  frame: Frame,
  { id, number, title, findings }: Omit<FixtureSheet, 'make'>,
  { file }: BoundMould,
): Sheet =>
  stopSheet(frame, {
    kind: 'fixture',
    id,
    number,
    title,
    findings,
    placesOf: (finding) => placesOf(file, finding),
  })
