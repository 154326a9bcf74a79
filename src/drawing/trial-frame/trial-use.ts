/** The trial in three sections along the middle wire: before it touches, half way, at the stop. */
import type { TrialFrame } from '../../fixtures/trial-frame/types.ts'
import { cutSceneAt } from '../cut-scene.ts'
import type { DimensionRequest, LeaderRequest } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import { type RowOfViews, rowOfViews } from '../row-of-views.ts'
import type { LengthFormatter, Point } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import { blockOutline, isOfBase, trialScene, wireFromRight } from './trial-scene.ts'
import type { TrialWords } from './trial-words.ts'

/** m; height of a scale's pan, drawn so that it is seen */
const PAN = 0.012
/** m; until the wires touch */
const OVER = 0.004

/**
 * Three sections side by side.
 *
 * Formula: the frame lifted by what is left of its stroke; wires straight before they touch, then bowed by the largest lag
 * of the trial. Validity: an odd number of wires, a level frame.
 * @param trial as designed [m]
 * @param words titles and notes
 * @param options width of the row [mm], and how lengths are written
 * @returns an svg, and the sizes that it shows
 * @source common practice
 */
export function trialUse(
  trial: TrialFrame,
  words: TrialWords,
  { width, format }: { readonly width: number; readonly format: LengthFormatter },
): RowOfViews {
  const { stroke, outside, edgeAtEnd, base, input } = trial
  const top = (lift: number): number => edgeAtEnd + outside.height + lift
  const half = stroke - input.block.height / 2
  const hands = (lift: number): LeaderRequest =>
    note('hands', { x: input.block.width / 4, y: top(lift) }, words.use.hands ?? '')
  const views = [
    moment(trial, {
      name: 'start',
      title: words.use.start ?? '',
      lift: stroke + OVER,
      share: 0,
      dimensions: [
        hands(stroke + OVER),
        ...(input.scale.place === 'under-block'
          ? [note('scale', { x: base.width / 2, y: -PAN / 2 }, words.use.scale ?? '')]
          : []),
      ],
    }),
    moment(trial, {
      name: 'half',
      title: words.use.half ?? '',
      lift: half,
      share: 1,
      dimensions: [
        note(
          'window',
          {
            x: (input.block.width / 2 + trial.inside.width / 2) / 2,
            y: (trial.wires[0]?.height ?? 0) + half,
          },
          words.use.window ?? '',
        ),
      ],
    }),
    moment(trial, {
      name: 'end',
      title: words.use.end ?? '',
      lift: 0,
      share: 1,
      dimensions: [note('stop', { x: outside.width / 2 - 0.005, y: edgeAtEnd }, words.use.stop ?? '')],
    }),
  ]
  return rowOfViews(views, {
    name: 'trial-use',
    label: words.labels['trial-use'] ?? '',
    width,
    height: 95,
    format,
  })
}

const note = (name: string, at: Point, text: string): LeaderRequest => ({
  kind: 'leader',
  name: `trial-use.${name}`,
  at,
  text: [{ words: text }],
})

interface Moment {
  readonly name: string
  readonly title: string
  readonly lift: number
  /** of the largest lag */
  readonly share: number
  readonly dimensions: readonly DimensionRequest[]
}

function moment(trial: TrialFrame, { name, title, lift, share, dimensions }: Moment): ViewRequestOnPaper {
  const middle = trial.wires[Math.floor(trial.wires.length / 2)]
  const cut = cutSceneAt(trialScene(trial, lift, false), middle?.at ?? 0)
  const lines = projectScene({ scene: cut.scene, viewpoint: 'right', showHidden: [] })
  const wood = (base: boolean) =>
    cut.wood.filter(({ key }) => isOfBase(key) === base).flatMap(({ rects }) => rects)
  const { outline } = lines
  const top = Math.max(
    outline.y + outline.height,
    trial.base.height + trial.input.block.height + trial.outside.height,
  )
  const pan = trial.input.scale.place === 'under-block' ? PAN : 0
  return {
    name,
    title,
    lines: { ...lines, outline: { ...outline, y: -pan, height: top + pan } },
    hatched: [wood(false), wood(true)],
    extras: [
      ...floor(trial, pan),
      ...blockOutline(trial, 'width'),
      ...(middle ? wireFromRight(trial, middle, share * middle.lag, lift) : []),
    ],
    dimensions,
  }
}

/** The pan of the scale under the feet, or the bench. */
const floor = ({ outside }: TrialFrame, pan: number): readonly ViewExtra[] => {
  const half = 0.56 * outside.width
  const line = (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: 'visible', a, b })
  const up = line({ x: -half, y: 0 }, { x: half, y: 0 })
  if (pan === 0) return [up]
  return [
    up,
    line({ x: half, y: 0 }, { x: half, y: -pan }),
    line({ x: half, y: -pan }, { x: -half, y: -pan }),
    line({ x: -half, y: -pan }, { x: -half, y: 0 }),
  ]
}
