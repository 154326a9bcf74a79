/** The drawings of a trial frame: put together on its base, drawn apart, a wire at its two ends and in its groove, parts. */
import type { TrialFrame } from '../../fixtures/trial-frame/types.ts'
import { cutSceneAt } from '../cut-scene.ts'
import type { LinearRequest, Side } from '../dimension-types.ts'
import type { FixtureDrawingOptions } from '../part-words.ts'
import { projectScene } from '../projection.ts'
import type { SheetViews } from '../sheet.ts'
import type { Move, Moves } from '../small/small-apart.ts'
import { smallFixtureDrawings } from '../small/small-fixture.ts'
import type { Drawing } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'
import { inGroove, wireEnds } from './trial-details.ts'
import { blockOutline, isOfBase, trialScene, wireFromRight } from './trial-scene.ts'
import type { TrialWords } from './trial-words.ts'

/** Hardware by what its number stands at: a peg at its housing, an anchor at its shank. */
export const TRIAL_NUMBERED = ['bridge-rod', 'peg-body', 'anchor-screw', 'anchor-pin'] as const

/**
 * Draws it.
 *
 * Formula: as small fixtures are. Validity: as designed.
 * @param trial   as designed [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `trial.assembly`, `exploded`, `trial.wire-end`, `trial.in-groove`, `part.PART` …
 * @source common practice
 */
export const trialDrawings = (
  trial: TrialFrame,
  options: FixtureDrawingOptions<TrialWords>,
): readonly Drawing[] =>
  smallFixtureDrawings(
    {
      key: 'trial',
      parts: trial.parts,
      rounds: trial.rounds,
      assembly: assembly(trial, options.words),
      enlarged: {
        'wire-end': wireEnds(trial, options.words),
        'in-groove': inGroove(trial, options.words),
      },
      moves: movesOf(trial),
      numbered: TRIAL_NUMBERED,
    },
    options,
  )

type Place = readonly [number, number]

const linear = (name: string, side: Side, [x, y]: Place, [toX, toY]: Place): LinearRequest => ({
  kind: 'linear',
  name: `trial.${name}`,
  side,
  from: { x, y },
  to: { x: toX, y: toY },
})

function assembly(trial: TrialFrame, words: TrialWords): SheetViews {
  const { outside, inside, base, edgeAtEnd, wires, input } = trial
  const scene = trialScene(trial, 0)
  const middle = wires[Math.floor(wires.length / 2)]
  const cut = cutSceneAt(scene, middle?.at ?? 0)
  const [left, inner] = [-outside.length / 2, inside.width / 2]
  const out = outside.width / 2 + input.shelfDepth
  const top = edgeAtEnd + outside.height
  const across = wires.map(
    ({ at }): ViewExtra => ({
      kind: 'line',
      class: 'dimension',
      a: { x: at, y: -inner },
      b: { x: at, y: inner },
    }),
  )
  return {
    front: {
      name: 'front',
      title: words.frontView,
      lines: projectScene({ scene, viewpoint: 'front', showHidden: [] }),
      extras: middle ? [{ kind: 'plane', x: middle.at, letter: 'A' }] : [],
      dimensions: [linear('length', 'above', [left, top], [-left, top])],
    },
    top: {
      name: 'top',
      title: words.topView,
      lines: projectScene({ scene, viewpoint: 'top', showHidden: [] }),
      extras: across,
      dimensions: [
        linear('inside-length', 'above', [-inside.length / 2, out], [inside.length / 2, out]),
        linear('width', 'left', [left, -outside.width / 2], [left, outside.width / 2]),
        linear('shelves', 'left', [left, -out], [left, out]),
        linear('inside-width', 'right', [-left, -inner], [-left, inner]),
      ],
    },
    side: {
      name: 'section',
      title: `${words.section} A–A`,
      lines: projectScene({ scene: cut.scene, viewpoint: 'right', showHidden: [] }),
      hatched: [false, true].map((ofBase) =>
        cut.wood.filter(({ key }) => isOfBase(key) === ofBase).flatMap(({ rects }) => rects),
      ),
      extras: [...blockOutline(trial, 'width'), ...(middle ? wireFromRight(trial, middle, 0, 0) : [])],
      dimensions: [
        linear('feet', 'left', [-out, 0], [-out, edgeAtEnd]),
        linear('wire', 'right', [out, 0], [out, middle?.height ?? 0]),
        linear('base', 'right', [out, 0], [out, base.height]),
        linear('height', 'right', [out, 0], [out, top]),
      ],
    },
    details: [],
  }
}

/** Frame over base; cheeks out with their shelves, what sits in a shelf up or down out of it. */
const movesOf = ({ outside, base }: TrialFrame): Moves => {
  const lift = { z: base.height + outside.height * 1.6 }
  const cheek = outside.width * 0.4
  const shelf = outside.width * 0.34
  return (key, side): Move => {
    const onShelf = { ...lift, y: side.y * (cheek + shelf) }
    if (key === 'trial-cheek') return { carried: lift, apart: { y: side.y * cheek } }
    if (key.startsWith('trial-shelf'))
      return { carried: { ...lift, y: side.y * cheek }, apart: { y: side.y * shelf } }
    if (key === 'trial-spreader') return { carried: lift, apart: { x: side.x * outside.length * 0.3 } }
    if (key === 'bridge-rod')
      return { carried: { ...lift, y: side.y * cheek }, apart: { y: -side.y * cheek * 0.45 } }
    if (key === 'peg-body') return { carried: onShelf, apart: { z: outside.height * 0.9 } }
    if (key.startsWith('peg-')) return { carried: { ...onShelf, z: onShelf.z + outside.height * 0.9 } }
    if (key === 'anchor-screw' || key === 'anchor-pin')
      return { carried: onShelf, apart: { z: -outside.height * 0.9 } }
    if (key.startsWith('anchor-')) return { carried: { ...onShelf, z: onShelf.z - outside.height * 0.9 } }
    if (key === 'trial-foot') return { apart: { z: -base.height * 0.8 } }
    return {}
  }
}
