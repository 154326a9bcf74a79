/** The drawings of a trial frame: pages with a title block, and the pictures among the text. */
import type { BoundTrialFrame } from '../../binder/bind-trial-frame.ts'
import { axisTicks, chart } from '../../drawing/chart.ts'
import { trialDrawings } from '../../drawing/trial-frame/trial-drawings.ts'
import { trialUse } from '../../drawing/trial-frame/trial-use.ts'
import type { TrialWords } from '../../drawing/trial-frame/trial-words.ts'
import type { Projection } from '../../drawing/types.ts'
import { inlineWords } from '../compose.ts'
import { drawingPages, drawingWordsOf, fixtureWords } from '../fixture/drawing-pages.ts'
import type { Frame } from '../frame.ts'
import type { Figure } from '../model.ts'

/** mm that a figure stays narrower than the page: lengths are cut to pixels */
const BESIDE = 1
const DRAWINGS = ['assembly', 'exploded', 'wire-end', 'in-groove', 'use'].map((key) => `trial-${key}`)
const DETAILS = ['peg', 'anchor', 'groove', 'rod', 'post', 'eye', 'shelf', 'middle', 'top'] as const
const USE = ['start', 'half', 'end', 'hands', 'scale', 'window', 'stop'] as const

const wordsOf = (frame: Frame, { trial }: BoundTrialFrame): TrialWords => ({
  ...fixtureWords(
    frame,
    trial.parts.map(({ key }) => key),
    DRAWINGS,
  ),
  // this one has no lid
  topView: inlineWords(frame.say('drawing.top-view-plain')),
  details: drawingWordsOf(frame, 'trial-detail', DETAILS),
  use: drawingWordsOf(frame, 'trial-use', USE),
})

export const trialDrawingPages = (
  frame: Frame,
  bound: BoundTrialFrame,
  sheetNumber: string,
  projection: Projection,
): readonly Figure[] =>
  drawingPages(frame, {
    kind: 'trial-frame',
    of: bound.trial,
    title: inlineWords(frame.say('trial.title', { title: bound.title })),
    sheetNumber,
    projection,
    words: wordsOf(frame, bound),
    draw: trialDrawings,
  })

/** The trial in three sections. */
export const trialFigure = (frame: Frame, bound: BoundTrialFrame): Figure => {
  const { show, say } = frame
  const { svg, dimensions } = trialUse(bound.trial, wordsOf(frame, bound), {
    width: frame.room.width - BESIDE,
    format: (metres) => ({ shown: show.bareSize(metres) }),
  })
  return {
    kind: 'figure',
    svg,
    caption: say('trial.use.caption'),
    values: dimensions.map(({ name, value, shown }) => ({
      name: `drawing.${name}`,
      value,
      unit: 'm',
      shown,
    })),
  }
}

const CHART = { width: 165, height: 56 } as const // mm
const MILLIMETRE = 1000
const STEP = { along: 20, up: 1 } as const // mm between lines

/** The middle wire as a ruler finds it: rise outside of the block, arc within. */
export const rulerFigure = (frame: Frame, { trial, ruler }: BoundTrialFrame): Figure => {
  const { say, show } = frame
  const named = (key: string): string => inlineWords(say(`trial.ruler.chart.${key}`))
  const half = (trial.strung.length / 2) * MILLIMETRE
  const face = (trial.input.block.width / 2) * MILLIMETRE
  const [first, usual] = [ruler[0], ruler.find(({ load }) => load >= 100) ?? ruler.at(-1)]
  const reach = Math.ceil(half / STEP.along) * STEP.along
  const top = Math.ceil((usual?.lag ?? 0) * MILLIMETRE + 0.5)
  const curve = (one: typeof usual) => {
    const [rise, arc] = [(one?.rise ?? 0) * MILLIMETRE, (one?.arc ?? 0) * MILLIMETRE]
    const within = Array.from({ length: 21 }, (_, index) => {
      const x = face * (index / 10 - 1)
      return { x, y: rise + arc * (1 - (x / face) ** 2) }
    })
    return [{ x: -half, y: 0 }, ...within, { x: half, y: 0 }]
  }
  const drawn = chart({
    name: 'trial-ruler',
    label: named('label'),
    ...CHART,
    x: { title: named('along'), ticks: axisTicks(-reach, reach, STEP.along, show.plainNumber) },
    y: { title: named('up'), ticks: axisTicks(0, top, STEP.up, show.plainNumber) },
    curves: [
      { name: named('usual'), kind: 'visible', points: curve(usual) },
      { name: named('fresh'), kind: 'hidden', points: curve(first) },
    ],
    levels: [{ at: (usual?.rise ?? 0) * MILLIMETRE, name: named('rise') }],
    moments: [
      { at: -face, name: named('face') },
      { at: face, name: named('face') },
    ],
  })
  return { kind: 'figure', svg: drawn.svg, caption: say('trial.ruler.chart.caption'), values: [] }
}
