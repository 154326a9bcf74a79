/** What is done in which order: building the mould, trying it with water, opening it round a block, closing it again. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { BlockMould } from '../../fixtures/block-mould.ts'
import type { Fill } from '../compose.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { boardOff } from '../fixture/inspection.ts'
import type { Frame } from '../frame.ts'
import type { Step, Value } from '../model.ts'
import { GRAVITY } from '../shown.ts'
import { DADO_OVER, PLAY } from './inspection.ts'

/** m; what all coats together may add to a face (common practice) */
export const COAT = 0.00005
/** m; a lining thinner than its sheet by this still closes the gap; a strip thinner than its groove by this still slides in
 * it when both are coated (common practice) */
const LINING_UNDER = 0.0001
const FILLER_PLAY = 0.00015
/** m; an arm at which a hand can hang a weight on a spanner */
const ARM = 0.1

/** The steps of building, in their order. */
const BUILDING = [
  'measure', 'plastics', 'cut', 'dado', 'holes', 'dry', 'base-size', 'grooves', 'fillers', 'strips', 'base', 'seal',
  'lining', 'together', 'line',
] as const // biome-ignore format: a list

type BuildingStep = (typeof BUILDING)[number]

/** The step in which a part is cut that has to wait for others; the rest is cut when the list is reached. */
export const laterStep = (key: string): 'base-size' | 'fillers' | 'lining' | undefined => {
  if (key === 'base-top' || key === 'rail') return 'base-size'
  if (key.startsWith('groove-strip') || key.startsWith('edge-bar')) return 'fillers'
  return key === 'lining' ? 'lining' : undefined
}

/** Its number. */
export const cutLater = (key: string): number | undefined => {
  const step: BuildingStep | undefined = laterStep(key)
  return step && BUILDING.indexOf(step) + 1
}

export const assemblySteps = (frame: Frame, { mould, loads, panelNames }: BoundMould): Step[] => {
  const { say, show } = frame
  const { panels, base, dado, lip } = mould.input
  const millimetres = (name: string, length: number) => show.millimetres(name, length)
  const inside = {
    length: show.exactLength('mould.inside.length', mould.inside.length),
    width: show.exactLength('mould.inside.width', mould.inside.width),
  }
  const boards = [panels.side, panels.end, panels.baseTop, panels.rail, panels.strip, panels.lid]
  const more: Readonly<Partial<Record<BuildingStep, Partial<Step>>>> = {
    measure: {
      why: say('mould.assembly.measure-why'),
      blanks: [...new Set(boards.map(({ material }) => material))].map((material) => ({
        label: say('mould.assembly.thickness', { board: panelNames.get(material) ?? material }),
        after: say('blank.millimetres'),
      })),
    },
    dado: { why: say('mould.assembly.dado-why') },
    dry: {
      blanks: [
        { label: say('mould.assembly.diagonal-1') },
        { label: say('mould.assembly.diagonal-2') },
        { label: say('mould.assembly.inside-length'), after: say('blank.millimetres') },
        { label: say('mould.assembly.inside-width'), after: say('blank.millimetres') },
      ],
    },
    'base-size': {
      why: say('mould.assembly.base-size-why', {
        gap: millimetres('mould.base.clearance', base.clearance),
        lining: millimetres('lining.thickness', panels.lining.thickness),
      }),
    },
    fillers: { why: say('mould.assembly.fillers-why') },
    seal: { why: say('mould.assembly.seal-why') },
    line: { why: say('mould.assembly.line-why') },
  }
  const fill: Readonly<Partial<Record<BuildingStep, Fill>>> = {
    measure: boardOff(frame),
    plastics: {
      thinnest: millimetres('lining.least', panels.lining.thickness - LINING_UNDER),
      lining: millimetres('lining.most', base.clearance - PLAY),
      least: millimetres('filler.least', base.grooveWidth - mould.input.limits.fillerPlay),
      most: millimetres('filler.most', base.grooveWidth - FILLER_PLAY),
    },
    dado: {
      lip: show.exactLength('mould.lip', lip),
      fit: millimetres('dado.fit', dado.fitAllowance),
      width: millimetres('dado.width', panels.end.thickness + dado.fitAllowance),
      most: millimetres('dado.most', DADO_OVER),
    },
    dry: {
      ...inside,
      diagonal: show.exactLength(
        'mould.inside.diagonal',
        Math.hypot(mould.inside.length, mould.inside.width),
      ),
    },
    'base-size': {
      less: millimetres('inspection.fitted', 2 * base.clearance),
      over: millimetres('base.over', PLAY),
    },
    grooves: { width: millimetres('groove.width.exact', base.grooveWidth) },
    cut: {
      rods: show.count('rod.count', mould.rods.count),
      rod: show.exactLength('rod.cut', mould.rods.length),
    },
    seal: { coat: show.hundredths('seal.coat', COAT) },
    lining: {
      height: show.exactLength('mould.rim.height', mould.rimAboveBench),
      thickness: millimetres('lining.thickness', panels.lining.thickness),
      thrice: millimetres('lining.thrice', 3 * panels.lining.thickness),
      trim: millimetres('lining.trim', LINING_TRIM),
    },
    together: spannerFill(frame, loads),
    line: { freeboard: show.exactLength('mould.freeboard', mould.input.freeboard) },
  }
  return BUILDING.map((key) => ({ text: say(`mould.assembly.${key}`, fill[key] ?? {}), ...more[key] }))
}

/** m; a lining is cut longer by this, and trimmed to the walls (common practice) */
const LINING_TRIM = 0.003

/** The run that finds leaks, and how much the mould really holds. */
export const waterSteps = ({ say, show }: Frame, { mould, waterToLine }: BoundMould): Step[] => [
  { text: say('mould.water.close') },
  {
    text: say('mould.water.fill', {
      below: show.exactLength('mould.freeboard', mould.input.freeboard),
      mass: show.weight('mould.water.mass', waterToLine, 0.001),
    }),
    blanks: [
      { label: say('mould.water.weighed'), after: say('blank.kilograms') },
      { label: say('mould.water.stood') },
    ],
  },
  { text: say('mould.water.wait'), hold: true },
  { text: say('mould.water.type'), why: say('mould.water.type-why') },
  { text: say('mould.water.dry') },
]

/** A pull that nobody has a wrench for: what hangs on a spanner, and how far out. */
export const spannerFill = ({ show }: Frame, { torqueMost }: BoundMould['loads']) => ({
  torque: show.torque('loads.torqueMost', torqueMost),
  hung: show.heavy('loads.hung', torqueMost / ARM / GRAVITY),
  arm: show.length('loads.arm', ARM),
})

/** Strips and bars that fill the grooves, counted: what is drawn out must be as many as went in. */
export const strips = ({ show }: Frame, { parts }: BlockMould): Record<'long' | 'short', Value> => {
  const count = (which: string): number =>
    parts
      .filter(({ key }) => key.includes(`-${which}`) && !key.startsWith('lining'))
      .reduce((sum, part) => sum + part.count, 0)
  return {
    long: show.count('strips.long', count('long')),
    short: show.count('strips.short', count('short')),
  }
}

/** Round a block that has set; the reader of these steps is at the bench with fresh soap. */
export const openingSteps = (frame: Frame, { mould }: BoundMould, { gridCutter }: FixtureNumbers): Step[] => {
  const { say } = frame
  const fill = strips(frame, mould)
  return [
    { text: say('mould.opening.gear'), why: say('mould.opening.gear-why') },
    { text: say('mould.opening.lid') },
    { text: say('mould.opening.rods') },
    { text: say('mould.opening.sides'), why: say('mould.opening.sides-why') },
    { text: say('mould.opening.ends') },
    { text: say('mould.opening.lining') },
    { text: say('mould.opening.long', fill) },
    { text: say('mould.opening.short', fill), why: say('mould.opening.short-why') },
    ...(gridCutter ? [{ text: say('mould.opening.next', { sheet: gridCutter }) }] : []),
  ]
}

export const closingSteps = (frame: Frame, { mould, loads }: BoundMould): Step[] => {
  const { say, show } = frame
  const fill = strips(frame, mould)
  return [
    { text: say('mould.closing.clean') },
    { text: say('mould.closing.strips', fill) },
    { text: say('mould.closing.walls') },
    { text: say('mould.closing.rods', { torque: show.torque('loads.torqueMost', loads.torqueMost) }) },
    { text: say('mould.closing.lining') },
    { text: say('mould.closing.bead'), why: say('mould.closing.bead-why') },
    { text: say('mould.closing.level') },
  ]
}
