/** What is not understood from the parts alone: a wire at its peg, at its anchor, and in its groove. */
import type { TrialFrame, TrialWire } from '../../fixtures/trial-frame/types.ts'
import type { Round } from '../../geometry/part.ts'
import { clippedCut, clippedSection, noteAt } from '../clipped-section.ts'
import type { DimensionRequest } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import type { SheetViews } from '../sheet.ts'
import type { Rect } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import { trialScene, wireFromRight } from './trial-scene.ts'
import type { TrialWords } from './trial-words.ts'

/** m; what is drawn of the inside, and above and below what is shown */
const ROOM = 0.012

/**
 * Both ends of the middle wire.
 *
 * Formula: sections along the wire. Validity: an odd number of wires.
 * @param trial as designed [m]
 * @param words of the drawing
 * @returns enlarged views with notes
 * @source common practice
 */
export function wireEnds(trial: TrialFrame, words: TrialWords): SheetViews {
  const wire = trial.wires[Math.floor(trial.wires.length / 2)]
  if (!wire) return { details: [] }
  const cheeks = [0, 1] as const
  const pegFirst = [...cheeks].sort((a, b) => Number(wire.ends[b] === 'peg') - Number(wire.ends[a] === 'peg'))
  return {
    details: pegFirst.map((cheek) => endView(trial, words, wire, cheek)),
  }
}

/**
 * The middle wire at the end of the push, in the hardest soap of the trial.
 *
 * Formula: section along the wire. Validity: an odd number of wires.
 * @param trial as designed [m]
 * @param words of the drawing
 * @returns an enlarged view with notes
 * @source common practice
 */
export function inGroove(trial: TrialFrame, words: TrialWords): SheetViews {
  const wire = trial.wires[Math.floor(trial.wires.length / 2)]
  return { details: wire ? [grooveView(trial, words, wire)] : [] }
}

/** The hardware of this end of the wire: what of each kind stands nearest to it. */
const hardwareOf = (trial: TrialFrame, wire: TrialWire, cheek: 0 | 1): readonly Round[] => {
  const sign = cheek === 0 ? -1 : 1
  const sideOf = ({ axis, centre, from, to }: Round): number =>
    Math.sign(axis === 'y' ? from + to : axis === 'x' ? centre[0] : centre[1])
  const keys =
    wire.ends[cheek] === 'peg'
      ? ['bridge-rod', 'peg-post', 'peg-body', 'peg-button']
      : ['bridge-rod', 'anchor-screw', 'anchor-pin', 'anchor-head']
  return keys.flatMap((key) =>
    trial.rounds
      .filter((round) => round.key === key && sideOf(round) === sign)
      .toSorted((a, b) =>
        a.axis === 'x' ? 0 : Math.abs(a.centre[0] - wire.at) - Math.abs(b.centre[0] - wire.at),
      )
      .slice(0, 1),
  )
}

function endView(trial: TrialFrame, words: TrialWords, wire: TrialWire, cheek: 0 | 1): ViewRequestOnPaper {
  const { inside, outside, input, edgeAtEnd } = trial
  const end = wire.ends[cheek]
  const sign = cheek === 0 ? -1 : 1
  const near = inside.width / 2 - ROOM
  const far = outside.width / 2 + input.shelfDepth + (end === 'peg' ? input.peg.button.to : ROOM)
  const rounds = hardwareOf(trial, wire, cheek)
  const post = rounds.find(({ key }) => key === 'peg-post' || key === 'anchor-screw' || key === 'anchor-pin')
  const rod = rounds.find(({ key }) => key === 'bridge-rod')
  const out = post?.centre[1] ?? sign * (outside.width / 2)
  const shelf = wire.height + input.peg.post.wrap
  const region: Rect = {
    x: sign < 0 ? -far : near,
    y: edgeAtEnd - ROOM / 4,
    width: far - near,
    height: shelf + input.panels.shelf.thickness + input.peg.body.height + 2 * ROOM - edgeAtEnd,
  }
  const scene = trialScene(trial, 0, false)
  const bore = Math.max(post?.diameter ?? 0, end === 'peg' ? input.peg.bore : 0)
  const drilled = trial.parts
    .filter(({ key }) => key.startsWith('trial-shelf'))
    .map(({ key }) => ({
      key,
      rect: { x: out - bore / 2, y: region.y, width: bore, height: region.height },
    }))
  const about = (name: string, x: number, y: number): DimensionRequest =>
    noteAt(`trial-detail.${end}.${name}`, { x, y }, words.details[name] ?? '')
  return clippedSection(clippedCut(scene, wire.at, region, drilled), {
    name: end,
    title: words.details[end] ?? '',
    slants: [['trial-cheek'], ['trial-shelf', 'trial-shelf-2']],
    lines: projectScene({
      scene: { boxes: [], edges: [], bores: [], rounds },
      viewpoint: 'right',
      showHidden: [],
    }),
    extras: [
      {
        kind: 'line',
        class: 'dimension',
        a: { x: sign * near, y: wire.height },
        b: { x: out, y: wire.height },
      },
    ],
    dimensions: [
      {
        kind: 'linear',
        name: `trial-detail.${end}.plane`,
        side: sign < 0 ? 'right' : 'left',
        from: { x: sign * near, y: edgeAtEnd },
        to: { x: sign * near, y: wire.height },
      },
      {
        kind: 'linear',
        name: `trial-detail.${end}.out`,
        side: 'below',
        from: { x: sign * (outside.width / 2), y: edgeAtEnd },
        to: { x: out, y: edgeAtEnd },
      },
      about('rod', rod?.centre[0] ?? 0, rod?.centre[1] ?? 0),
      about(end === 'peg' ? 'post' : 'eye', out, wire.height),
      about('shelf', sign * (outside.width / 2 + 0.006), shelf + input.panels.shelf.thickness / 2),
    ],
  })
}

/** The loaded wire over the whole width of the base: its ends below the top, its middle just through. */
function grooveView(trial: TrialFrame, words: TrialWords, wire: TrialWire): ViewRequestOnPaper {
  const { base, groove, input } = trial
  const half = base.width / 2 + 0.004
  const region: Rect = {
    x: -half,
    y: base.height - input.panels.top.thickness,
    width: 2 * half,
    height: input.panels.top.thickness + ROOM / 2,
  }
  const about = (name: string, x: number, y: number): DimensionRequest =>
    noteAt(`trial-detail.groove.${name}`, { x, y }, words.details[name] ?? '')
  return clippedSection(clippedCut(trialScene(trial, 0, false), wire.at, region), {
    name: 'groove',
    title: words.details.groove ?? '',
    slants: [['trial-top']],
    extras: [
      {
        kind: 'line',
        class: 'phantom',
        a: { x: -base.width / 2, y: base.height },
        b: { x: base.width / 2, y: base.height },
      },
      ...wireFromRight(trial, wire, wire.lag, 0).filter(
        (extra) => extra.kind === 'line' && Math.max(Math.abs(extra.a.x), Math.abs(extra.b.x)) < half,
      ),
    ],
    dimensions: [
      {
        kind: 'linear',
        name: 'trial-detail.groove.depth',
        side: 'right',
        from: { x: base.width / 2, y: base.height - groove.depth },
        to: { x: base.width / 2, y: base.height },
      },
      about('middle', 0, wire.height + wire.lag),
      about('top', -base.width / 4, base.height),
    ],
  })
}
