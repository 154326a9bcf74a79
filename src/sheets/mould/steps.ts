/** What is done in which order: building the mould, trying it with water, opening it round a block, closing it again. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { BlockMould } from '../../fixtures/block-mould.ts'
import type { Frame } from '../frame.ts'
import type { Step, Value } from '../model.ts'

/** kg/m3, at the room's temperature (from memory) */
const WATER = 998

/** m; what a coat of finish may take from a fit (common practice) */
const COAT = 0.0001
/** m; an arm at which a hand can hang a weight on a spanner */
const ARM = 0.1
const GRAVITY = 9.80665 // m/s2, exact

export const assemblySteps = ({ say, show }: Frame, { mould, loads }: BoundMould): Step[] => {
  const { panels, base, dado, lip } = mould.input
  const millimetres = (name: string, length: number) => show.millimetres(name, length)
  return [
    {
      text: say('mould.assembly.measure'),
      why: say('mould.assembly.measure-why'),
      blanks: [{ label: say('mould.assembly.thickness'), after: say('blank.millimetres') }],
    },
    {
      text: say('mould.assembly.plastics', {
        lining: millimetres('lining.most', base.clearance - COAT),
        least: millimetres('filler.least', base.grooveWidth - mould.input.limits.fillerPlay),
        most: millimetres('filler.most', base.grooveWidth - COAT),
      }),
    },
    { text: say('mould.assembly.cut') },
    {
      text: say('mould.assembly.dado', {
        lip: show.length('mould.lip', lip),
        width: millimetres('dado.width', panels.end.thickness + dado.fitAllowance),
        most: millimetres('dado.most', DADO_OVER),
      }),
      why: say('mould.assembly.dado-why'),
    },
    { text: say('mould.assembly.holes') },
    {
      text: say('mould.assembly.dry', {
        diagonal: show.length('mould.inside.diagonal', Math.hypot(mould.inside.length, mould.inside.width)),
        length: show.length('mould.inside.length', mould.inside.length),
        width: show.length('mould.inside.width', mould.inside.width),
      }),
      blanks: [
        { label: say('mould.assembly.diagonal-1') },
        { label: say('mould.assembly.diagonal-2') },
        { label: say('mould.assembly.inside-length'), after: say('blank.millimetres') },
        { label: say('mould.assembly.inside-width'), after: say('blank.millimetres') },
      ],
    },
    {
      text: say('mould.assembly.base-size', { less: millimetres('inspection.fitted', 2 * base.clearance) }),
      why: say('mould.assembly.base-size-why', {
        gap: millimetres('mould.base.clearance', base.clearance),
        lining: millimetres('mould.lining', panels.lining.thickness),
      }),
    },
    { text: say('mould.assembly.grooves', { width: millimetres('groove.width.exact', base.grooveWidth) }) },
    { text: say('mould.assembly.fillers'), why: say('mould.assembly.fillers-why') },
    { text: say('mould.assembly.strips') },
    { text: say('mould.assembly.base') },
    { text: say('mould.assembly.seal'), why: say('mould.assembly.seal-why') },
    {
      text: say('mould.assembly.lining', { height: show.length('mould.rimAboveBench', mould.rimAboveBench) }),
    },
    {
      text: say('mould.assembly.together', {
        torque: show.torque('loads.torqueMost', loads.torqueMost),
        hung: show.heavy('loads.hung', loads.torqueMost / ARM / GRAVITY),
        arm: show.length('loads.arm', ARM),
      }),
    },
    {
      text: say('mould.assembly.line', { freeboard: show.length('mould.freeboard', mould.input.freeboard) }),
      why: say('mould.assembly.line-why'),
    },
    { text: say('mould.assembly.letters') },
  ]
}

/** m; a dado wider than asked by more than this leaves an end loose (common practice) */
const DADO_OVER = 0.0002

/** The run that finds leaks, and how much the mould really holds. */
export const waterSteps = ({ say, show }: Frame, { mould }: BoundMould): Step[] => {
  const height = mould.rimAboveBase - mould.input.freeboard
  return [
    { text: say('mould.water.close') },
    {
      text: say('mould.water.fill', {
        below: show.length('mould.freeboard', mould.input.freeboard),
        mass: show.weight('mould.water.mass', mould.insideArea * height * WATER, 0.001),
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
}

const strips = ({ show }: Frame, { parts }: BlockMould): Record<'long' | 'short', Value> => {
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
export const openingSteps = (frame: Frame, { mould }: BoundMould): Step[] => {
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
