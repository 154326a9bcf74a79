/** What is done in which order: building the mould, trying it with water, opening it round a block, closing it again. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { BlockMould } from '../../fixtures/block-mould.ts'
import type { Frame } from '../frame.ts'
import type { Step, Value } from '../model.ts'

/** kg/m3, at the room's temperature (from memory) */
const WATER = 998

export const assemblySteps = ({ say, show }: Frame, { mould, loads }: BoundMould): Step[] => [
  {
    text: say('mould.assembly.measure'),
    why: say('mould.assembly.measure-why'),
    blanks: [{ label: say('mould.assembly.thickness'), after: say('blank.millimetres') }],
  },
  { text: say('mould.assembly.cut') },
  { text: say('mould.assembly.dado'), why: say('mould.assembly.dado-why') },
  { text: say('mould.assembly.holes') },
  { text: say('mould.assembly.grooves') },
  { text: say('mould.assembly.fillers'), why: say('mould.assembly.fillers-why') },
  { text: say('mould.assembly.strips') },
  { text: say('mould.assembly.base') },
  { text: say('mould.assembly.seal'), why: say('mould.assembly.seal-why') },
  { text: say('mould.assembly.lining', { height: show.length('mould.rimAboveBench', mould.rimAboveBench) }) },
  {
    text: say('mould.assembly.together', {
      torque: show.torque('loads.torqueMost', loads.torqueMost),
      diagonal: show.length('mould.inside.diagonal', Math.hypot(mould.inside.length, mould.inside.width)),
    }),
    blanks: [{ label: say('mould.assembly.diagonal-1') }, { label: say('mould.assembly.diagonal-2') }],
  },
  {
    text: say('mould.assembly.inside', {
      length: show.length('mould.inside.length', mould.inside.length),
      width: show.length('mould.inside.width', mould.inside.width),
    }),
  },
  {
    text: say('mould.assembly.line', { freeboard: show.length('mould.freeboard', mould.input.freeboard) }),
    why: say('mould.assembly.line-why'),
  },
  { text: say('mould.assembly.letters') },
]

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
