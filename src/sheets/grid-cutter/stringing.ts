/** Stringing the frame, and the trial with no soap that follows. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { standFor } from '../../binder/grid-stand.ts'
import { GEAR, windings } from '../../binder/judged-wires.ts'
import type { Fill } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Step } from '../model.ts'
import { hangApart } from './care.ts'
import { hungOn } from './judged.ts'

/** m; from the end of a wire to where it is bent for its eye: half of the loop, six turns of twist, four of winding, and what
 * pliers hold (common practice) */
const EYE_BEND = 0.08

/** m; to which a sag is read with a straight edge and callipers: less than half of what tells a wire off its rods (common practice) */
const NEAR = 0.0004

const STRINGING = [
  'gear', 'cut', 'eye', 'thread', 'hang', 'post', 'slack', 'pick', 'first', 'tune', 'settle', 'tails', 'check', 'weigh',
] as const // biome-ignore format: a list
const STRINGING_REASONS: readonly string[] = [
  'gear',
  'eye',
  'hang',
  'post',
  'pick',
  'first',
  'tune',
  'settle',
  'weigh',
]

/** What is told another way of a wire that serves two cuts, and of an anchor that an eye is hung over. */
const stringingKey = (key: string, { wire, anchor }: BoundGridCutter['cutter']['input']): string => {
  if (key === 'thread' && wire.looped) return 'grid.string.thread-loop'
  return key === 'hang' && anchor.key === 'pin' ? 'grid.string.hang-pin' : `grid.string.${key}`
}

export const stringingSteps = (frame: Frame, bound: BoundGridCutter): Step[] => {
  const { say, show } = frame
  const { cutter } = bound
  const { wires, input, wireLengths } = cutter
  const wound = windings(cutter)
  const takes = {
    takes: show.millimetres('peg.takes', wound.takes),
    gear: show.count('peg.gear', GEAR),
  }
  const fill: Readonly<Record<string, Fill>> = {
    cut: {
      pieces: show.count(
        'wires.pieces',
        wireLengths.reduce((sum, { count }) => sum + count, 0),
      ),
    },
    eye: {
      across: show.millimetres('anchor.diameter', input.anchor.diameter),
      bend: show.millimetres('eye.bend', EYE_BEND),
    },
    pick: { out: show.millimetres('pick.out', wound.pickOut) },
    hang: { reach: show.millimetres('anchor.reach', input.anchor.reach) },
    post: {
      wrap: show.millimetres('peg.wrap', input.peg.post.wrap),
      slack: show.millimetres('peg.winding', wound.length),
      three: show.millimetres('peg.hole.close', wound.hole.close),
    },
    check: { lines: show.count('wires.lines', wires.length) },
    weigh: {
      mass: show.heavy('judged.mass', hungOn(bound)),
      near: show.millimetres('judged.near', NEAR),
      apart: hangApart(frame, cutter),
    },
  }
  return STRINGING.map((key): Step => {
    const told = stringingKey(key, input)
    return {
      text: say(told, fill[key] ?? {}),
      ...(STRINGING_REASONS.includes(key) && told !== 'grid.string.hang-pin'
        ? { why: say(`grid.string.${key}-why`, key === 'first' ? takes : {}) }
        : {}),
    }
  })
}

/** One at each end of the frame. */
export const PEOPLE = 2

/** What each of the people at the frame presses. */
export const pushOfEach = ({ show }: Frame, { push }: BoundGridCutter['wires']) => ({
  usual: show.press('push.half.usual', (push?.at.usual.push ?? 0) / PEOPLE),
  most: show.pressAtMost('push.half.most', (push?.held.plan.push ?? 0) / PEOPLE),
})

const TRIAL = ['height', 'base', 'lower', 'stops', 'lines', 'depth', 'aside', 'box', 'feel', 'hands'] as const
const TRIAL_REASONS: readonly string[] = ['aside', 'height', 'feel']

export const trialSteps = (frame: Frame, { cutter, wires }: BoundGridCutter): Step[] => {
  const { say, show } = frame
  const { layers, edgeAtEnd, guide, hands, input } = cutter
  const { lined } = input.mould
  const range = standFor(cutter)
  const fill: Readonly<Record<string, Fill>> = {
    stops: { edge: show.exactLength('knuckles', edgeAtEnd) },
    aside: {
      length: show.millimetres('play.length', guide.play.length),
      width: show.millimetres('play.width', guide.play.width),
    },
    box: {
      length: show.exactLength('block.length', lined.length),
      width: show.exactLength('block.width', lined.width),
    },
    height: {
      start: show.exactLength('hands.start', hands.start),
      low: show.exactLength('hands.low', range.belowWrist),
      tall: show.distance('push.tall', range.tall),
      from: show.distance('stand.low', range.low),
      to: show.distance('stand.high', range.high),
      stand: show.length('push.stand', wires.push?.standHeight ?? 0),
    },
    feel: pushOfEach(frame, wires),
  }
  const millimetres = say('blank.millimetres')
  const blanks: Readonly<Record<string, Step['blanks']>> = {
    stops: ['A', 'B', 'C', 'D'].map((corner) => ({
      label: say('grid.build.corner', { corner }),
      after: millimetres,
    })),
    depth: layers.map(({ layer, overTravel }) => ({
      label: say(`grid.trial.depth-${layer}`, {
        depth: show.millimetres(`overTravel.${layer}.is`, overTravel),
      }),
      after: millimetres,
    })),
    height: ['elbow', 'stand', 'wrist', 'stand-least'].map((key) => ({ label: say(`grid.trial.${key}`) })),
  }
  return TRIAL.map(
    (key): Step => ({
      text: say(`grid.trial.${key}`, fill[key] ?? {}),
      ...(TRIAL_REASONS.includes(key) ? { why: say(`grid.trial.${key}-why`) } : {}),
      ...(blanks[key] ? { blanks: blanks[key] } : {}),
    }),
  )
}
