/** Proof that a trial frame goes together, and goes down over test block and base until its wires are through. */
import type { Finding } from '../findings.ts'
import { isTrialFramePart } from '../fixtures/trial-frame/parts.ts'
import type { TrialFrame } from '../fixtures/trial-frame/types.ts'
import type { Box } from '../geometry/placement.ts'
import {
  contactsOf,
  deepestOfPairs,
  type Face,
  overlapsOf,
  type Placed,
  type Proved,
  placedParts,
  placedRounds,
  sharedDepth,
  stretched,
  TOLERANCE,
} from './proof-pieces.ts'
import type { Solids } from './solids.ts'
import {
  HOLE_ROOM,
  intoGroove,
  provedOf,
  TURNS_IN,
  throughHoles,
  turningButtons,
  wirePieces,
} from './strung-frame.ts'

export interface TrialFrameProof {
  /** pairs of solids that were held against each other */
  readonly pairs: number
  /** faces that have to touch and do */
  readonly contacts: number
  /** least room of the frame beside block and base over the whole stroke, frame in the middle [m] */
  readonly clearance: number
  /** least room of a wire in its groove, at rest and loaded, frame in the middle [m] */
  readonly grooveClearance: number
  /** least room of a straight wire beside the wood of the frame, from peg to anchor [m] */
  readonly holeClearance: number
  /** least room round a button that is turned [m] */
  readonly buttonClearance: number
  readonly findings: readonly Finding[]
}

/** m; a gap is looked for as far as this */
const SEARCH = 0.01
/** m; until the lower edge is above the block (common practice) */
const LIFT = 0.005
/**
 * Proves one trial frame.
 *
 *     no two solids share volume; what is screwed, glued or stopped touches;
 *     wood and metal of the frame sweep past block and base from above the block to the feet that stop them;
 *     every wire, at rest and bowed, moved aside as far as frame and block may stand, goes into its groove;
 *     every wire is free in its holes, every button turns
 *
 * @param trial  as designed [m]
 * @param solids the workshop that makes and compares solids
 * @returns what was proved [m], and a stop for each pair that fails
 * @source common practice
 */
export function proveTrialFrame(trial: TrialFrame, solids: Solids): TrialFrameProof {
  const wood = placedParts(trial.parts.filter(isTrialFramePart), solids)
  const metal = placedRounds(trial.rounds, solids)
  const base = placedParts(
    trial.parts.filter((part) => !isTrialFramePart(part)),
    solids,
  )
  const all = [...wood, ...metal, ...base]
  const overlaps = overlapsOf(all, solids, meantToMeet)
  const touching = contactsOf(facesOf(trial), all, solids)
  const stroke = strokeOf(trial, [...wood, ...metal], base)
  const grooves = groovesOf(trial, base, solids)
  const holes = holesOf(trial, wood, solids)
  const buttons = buttonsOf([...wood, ...metal], solids)
  solids.free()
  return {
    pairs: (all.length * (all.length - 1)) / 2,
    contacts: touching.count,
    clearance: stroke.clearance,
    grooveClearance: grooves.clearance,
    holeClearance: holes.clearance,
    buttonClearance: buttons.clearance,
    findings: [
      ...overlaps,
      ...touching.findings,
      ...stroke.findings,
      ...grooves.findings,
      ...holes.findings,
      ...buttons.findings,
    ],
  }
}

/** A screw bites into its pilot hole, a pin is driven into its own. */
const meantToMeet = (one: string, other: string): boolean =>
  [one, other].some((key) => key.startsWith('anchor-')) &&
  [one, other].some((key) => key.startsWith('trial-shelf') || key.startsWith('anchor-'))

/** Share of a face that kerf and screw holes leave */
const SEATED = 0.9

const facesOf = ({ input, outside, base, parts }: TrialFrame): readonly Face[] => {
  const { panels, peg } = input
  const shelves = parts.filter(({ key }) => key.startsWith('trial-shelf')).map(({ key }) => key)
  const ring = (Math.PI / 4) * (peg.body.diameter ** 2 - peg.bore ** 2)
  return [
    ['trial-spreader', 'trial-cheek', 'y', SEATED * panels.spreader.thickness * outside.height],
    ...shelves.map((key): Face => [key, 'trial-cheek', 'y', outside.length * panels.shelf.thickness]),
    ['trial-foot', 'trial-top', 'z', panels.foot.thickness * base.width],
    ['trial-cheek', 'trial-foot', 'z', panels.foot.thickness * panels.cheek.thickness],
    ['peg-body', shelves, 'z', ring],
  ]
}

/** From above the block down to the feet: boxes that move along one axis sweep longer boxes. */
function strokeOf(trial: TrialFrame, frame: readonly Placed[], base: readonly Placed[]): Proved {
  const { block } = trial.input
  const top = trial.base.height + block.height
  const soap: Box = {
    min: { x: -block.length / 2, y: -block.width / 2, z: trial.base.height },
    max: { x: block.length / 2, y: block.width / 2, z: top },
  }
  const up = top - trial.edgeAtEnd + LIFT
  const obstacles: readonly { readonly key: string; readonly box: Box }[] = [
    { key: 'block', box: soap },
    ...base.flatMap(({ key, boxes }) => boxes.map((box) => ({ key, box }))),
  ]
  const findings: Finding[] = []
  let clearance = SEARCH
  for (const { key: one, boxes } of frame)
    for (const own of boxes)
      for (const { key: other, box } of obstacles) {
        const swept = stretched(own, 'z', up)
        const depth = sharedDepth(swept, box)
        if (swept.max.z > box.min.z + TOLERANCE && swept.min.z < box.max.z - TOLERANCE)
          clearance = Math.min(clearance, -depth)
        if (depth > TOLERANCE)
          findings.push({
            code: 'trial-frame-meets-block',
            severity: 'stop',
            values: { one, other, overlap: depth },
          })
      }
  return { clearance, findings: deepestOfPairs(findings) }
}

function groovesOf(trial: TrialFrame, base: readonly Placed[], solids: Solids): Proved {
  const { clearance: play, limits } = trial.input
  const aside = play + limits.wander
  const ways = trial.wires.map((own) => {
    const wire = { ...own, runs: 'width' as const }
    const [rest, loaded] = [wirePieces(wire, 0, solids), wirePieces(wire, 1, solids)]
    const up = trial.base.height + LIFT - wire.height
    return {
      one: 'wire',
      ...intoGroove({ ...wire, rest, loaded, up }, base, { aside, search: SEARCH }, solids),
    }
  })
  return provedOf(
    ways,
    SEARCH,
    (one, { key, by }): Finding => ({
      code: 'trial-wire-meets-base',
      severity: 'stop',
      values: { one, other: key, overlap: by },
    }),
  )
}

function holesOf(trial: TrialFrame, wood: readonly Placed[], solids: Solids): Proved {
  const reach = trial.outside.width / 2 + trial.input.shelfDepth / 2
  const ways = trial.wires.map((wire) => ({
    one: 'wire',
    ...throughHoles({ ...wire, runs: 'width' }, reach, wood, SEARCH, solids),
  }))
  return provedOf(
    ways,
    SEARCH,
    (one, { key, by }): Finding => ({
      code: 'trial-wire-meets-frame',
      severity: 'stop',
      values: { one, other: key, is: by, needed: HOLE_ROOM },
    }),
  )
}

function buttonsOf(frame: readonly Placed[], solids: Solids): Proved {
  const ways = [{ one: 'peg-button', ...turningButtons(frame, SEARCH, solids) }]
  return provedOf(
    ways,
    SEARCH,
    (one, { key, by }): Finding => ({
      code: 'trial-peg-cannot-turn',
      severity: 'stop',
      values: { one, other: key, is: by, needed: TURNS_IN },
    }),
  )
}
