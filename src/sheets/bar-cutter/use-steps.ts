/** A dry trial of the bar cutter, a loaf from platform to bars, and what is done when it will not go. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import type { Fill } from '../compose.ts'
import { plusMinus } from '../fixture/inspection.ts'
import type { Frame } from '../frame.ts'
import type { Block, Step, Value } from '../model.ts'
import { GRAVITY } from '../shown.ts'
import { clampRoom, wireReading } from './wire-steps.ts'

/** Where hands stop, on both sheets the same; without wires what tips the cutter. */
export const stopForce = ({ show }: Frame, { cutter, wires }: BoundBarCutter): Value =>
  show.pressAtMost('push.bar.most', wires.push?.stop.push ?? cutter.balance.tippingPressEnd)

export const trialSteps = (frame: Frame, bound: BoundBarCutter): readonly Step[] => {
  const { say, show } = frame
  const { cutter } = bound
  const { input, balance } = cutter
  const { limits } = input
  const { least, most } = wireReading(cutter)
  const { thinnest, thickest } = cutter.fitting.slices
  const onScale = (name: string, force: number) => show.heavy(name, force / GRAVITY)
  const step = (key: string, fill: Fill = {}, more: Partial<Step> = {}): Step => ({
    text: say(`bar-cutter.trial.${key}`, fill),
    ...more,
  })
  return [
    step('place'),
    step('close', {}, { why: say('bar-cutter.trial.close-why') }),
    step('rests'),
    step(
      'depth',
      {
        least: show.millimetres('wire.reads-least', least),
        most: show.millimetres('wire.reads-most', most),
      },
      {
        blanks: (['first', 'last'] as const).map((key) => ({
          label: say(`bar-cutter.trial.depth-${key}`),
          after: say('blank.millimetres'),
        })),
      },
    ),
    step('press', {
      press: onScale('trial.press', limits.press),
      tips: onScale('trial.press-tips', balance.tippingPressEnd),
    }),
    step('knock', {
      knock: onScale('trial.knock', limits.knock),
      tips: onScale('trial.knock-tips', balance.tippingPush),
    }),
    step('feel', { most: stopForce(frame, bound) }, { why: say('bar-cutter.trial.feel-why') }),
    step(
      'clay',
      {
        most: stopForce(frame, bound),
        thinnest: show.millimetres('slice.thinnest', thinnest),
        thickest: show.millimetres('slice.thickest', thickest),
        allowed: plusMinus(frame, 'joint'),
      },
      {
        blanks: (['thinnest', 'thickest'] as const).map((key) => ({
          label: say(`bar-cutter.trial.${key}`),
          after: say('blank.millimetres'),
        })),
      },
    ),
  ]
}

const USING = [
  'gear', 'place', 'open', 'check', 'loaf', 'catch', 'hands', 'down', 'through', 'end', 'bars', 'up', 'next',
] as const // biome-ignore format: a list
const WITH_REASON: readonly string[] = [
  'gear',
  'place',
  'loaf',
  'catch',
  'hands',
  'down',
  'through',
  'bars',
  'up',
]

export const usingSteps = ({ say, show }: Frame, { cutter }: BoundBarCutter): readonly Step[] => {
  const { input, loaf, frame, platform } = cutter
  const trimmed =
    loaf.length > Math.max(0, ...cutter.wires.map(({ x }) => x)) && input.block.trim.height.end > 0
  const buttons = cutter.rounds
    .filter(({ key }) => key === 'peg-button')
    .map(({ to }) => to - frame.frontRail[1])
  const fill: Readonly<Record<string, Fill>> = {
    place: {
      over: show.length('use.over-edge', frame.end - cutter.base.y[1]),
      jaw: show.millimetres('clamp.jaw', clampRoom(cutter)),
    },
    loaf: {
      wide: show.exactLength('loaf.width', loaf.width),
      high: show.exactLength('loaf.height', loaf.height),
    },
    hands: {
      apart: show.length('use.hands-apart', cutter.grip.apart),
      buttons: show.millimetres('use.buttons', Math.max(0, ...buttons)),
    },
    through: { depth: show.millimetres('wire.depth', cutter.wire.depth) },
    bars: {
      bars: show.count('use.bars', input.block.slices),
      room: show.millimetres('use.room-left', platform.x[1] - loaf.longest),
    },
    next: { loaves: show.count('use.loaves', input.block.columns * input.block.rows) },
  }
  return USING.filter((key) => key !== 'end' || trimmed).map((key) => ({
    text: say(`bar-cutter.using.${key}`, fill[key] ?? {}),
    ...(WITH_REASON.includes(key) ? { why: say(`bar-cutter.using.${key}-why`, fill[key] ?? {}) } : {}),
  }))
}

/** What is done when the frame stops before its rests. */
export const stuckNotes = (frame: Frame, bound: BoundBarCutter): Block => {
  const { say, show } = frame
  const { balance, wires } = bound.cutter
  return {
    kind: 'cautions',
    signal: 'caution',
    heading: say('bar-cutter.stuck.heading'),
    items: [
      say('bar-cutter.stuck.press', {
        press: stopForce(frame, bound),
        tips: show.force('balance.press-end', balance.tippingPressEnd),
      }),
      say('bar-cutter.stuck.look'),
      say('bar-cutter.stuck.back', {
        pegs: show.count('stuck.pegs', wires.filter(({ front }) => front === 'peg').length),
      }),
      ...['hand', 'write'].map((key) => say(`bar-cutter.stuck.${key}`)),
    ],
  }
}
