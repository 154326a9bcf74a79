/** What is done in which order: building the trial frame, stringing it, pouring its block, the trial, the ruler, after it. */
import type { BoundTrialFrame } from '../../binder/bind-trial-frame.ts'
import type { Fill } from '../compose.ts'
import { boardOff } from '../fixture/inspection.ts'
import type { Frame } from '../frame.ts'
import type { Block, Step } from '../model.ts'

/** m; dado of a shelf over its board (common practice) */
const SHELF_FIT = 0.0003
/** m; how far a block may be from its width (common practice) */
const BLOCK_OFF = 0.002
/** Time for one push, from the first touch to the stop [s] (common practice) */
const PUSH_TIME = 15

const GROUPS = {
  build: ['measure', 'cut', 'cheeks', 'holes', 'grooves', 'ring', 'base', 'seal', 'hardware', 'fits'],
  string: ['cut', 'hang', 'tune', 'check'],
  block: ['box', 'pour', 'keep', 'turn-out', 'mark'],
  push: ['gear', 'scale', 'stand', 'frame', 'zero', 'push', 'read', 'stop', 'write', 'again'],
  ruler: ['half', 'rise', 'out', 'arc', 'table', 'agree'],
  after: ['apart', 'wipe', 'pegs', 'keep'],
} as const

const WHY: ReadonlySet<string> = new Set([
  'build.ring', 'build.seal', 'block.keep', 'block.pour', 'push.frame', 'push.push', 'push.stop', 'ruler.half',
]) // biome-ignore format: a list

/** One block of steps for each thing that is done. */
export const trialSteps = (
  frame: Frame,
  bound: BoundTrialFrame,
): Readonly<Record<keyof typeof GROUPS, Block>> => {
  const { say } = frame
  const fill = fillOf(frame, bound)
  const stepsOf = (group: keyof typeof GROUPS): Block => ({
    kind: 'steps',
    first: 1,
    items: keysOf(group, bound).map(
      (key): Step => ({
        text: say(`trial.${group}.${key}`, fill),
        ...(WHY.has(`${group}.${key}`) ? { why: say(`trial.${group}.${key}-why`, fill) } : {}),
        ...(key === 'fits' ? { blanks: blanks(frame) } : {}),
      }),
    ),
  })
  return {
    build: stepsOf('build'),
    string: stepsOf('string'),
    block: stepsOf('block'),
    push: stepsOf('push'),
    ruler: stepsOf('ruler'),
    after: stepsOf('after'),
  }
}

/** A scale that hangs on the frame wants other steps than one under the block. */
const keysOf = (group: keyof typeof GROUPS, { trial }: BoundTrialFrame): readonly string[] =>
  trial.input.scale.place === 'under-block'
    ? GROUPS[group]
    : GROUPS[group].map((key) =>
        group === 'push' && ['scale', 'stand', 'zero', 'push'].includes(key) ? `${key}-pulled` : key,
      )

const blanks = ({ say }: Frame): Step['blanks'] => [
  { label: say('trial.build.diagonal-1') },
  { label: say('trial.build.diagonal-2') },
]

const fillOf = (frame: Frame, { trial, loads, coarsest, pitch, note }: BoundTrialFrame): Fill => {
  const { show } = frame
  const { input, inside, groove } = trial
  const { block } = input
  const stop = trial.limits.find(({ key }) => key === 'trial-wire')
  return {
    ...boardOff(frame),
    'block-off': show.millimetres('trial.block.off', BLOCK_OFF),
    kerf: show.size('trial.kerf', kerfOf(trial)),
    dado: show.millimetres('trial.dado', input.panels.shelf.thickness + SHELF_FIT),
    groove: show.size('trial.groove.size', groove.width),
    'groove-depth': show.millimetres('trial.groove.depth', groove.depth),
    'inside-length': show.exactLength('trial.inside.length', inside.length),
    'inside-width': show.exactLength('trial.inside.width', inside.width),
    diagonal: show.exactLength('trial.inside.diagonal', Math.hypot(inside.length, inside.width)),
    clearance: show.millimetres('trial.clearance', input.clearance),
    tension: show.force('trial.tension', input.restTension),
    pitch: show.frequency('trial.pitch', pitch),
    note: show.note('trial.note', note),
    cents: show.cents('trial.cents', note.cents),
    wires: show.count('trial.wires', input.wires),
    piece: show.exactLength('trial.wire.cut', trial.wireLength),
    length: show.exactLength('trial.block.length', block.length),
    width: show.exactLength('trial.block.width', block.width),
    height: show.exactLength('trial.block.height', block.height),
    mass: show.weight('trial.block.mass', trial.blockMass, 0.01),
    middle: show.exactLength('trial.block.middle', block.length / 2),
    quarter: show.exactLength('trial.block.quarter', block.height / 4),
    half: show.exactLength('trial.block.half', block.height / 2),
    'three-quarters': show.exactLength('trial.block.three-quarters', (3 * block.height) / 4),
    capacity: show.heavy('trial.scale.capacity', trial.capacityNeeded),
    division: show.weight('trial.scale.division', coarsest, 0.001),
    fresh: show.perMetre('trial.fresh', loads.at.fresh),
    late: show.perMetre('trial.late', loads.at.late),
    stop: show.heavy('trial.stop.shown', stop?.shown ?? 0),
    seconds: show.count('trial.push.seconds', PUSH_TIME),
    frame: show.weight('trial.frame.mass', trial.mass, 0.01),
  }
}

const kerfOf = ({ parts }: BoundTrialFrame['trial']): number => {
  const cheek = parts.find(({ key }) => key === 'trial-cheek')
  const kerf = cheek?.features.find(({ name }) => name === 'rod-kerf')
  return kerf && 'size' in kerf ? kerf.size : 0
}
