/** Proof that a trial frame goes together, and goes down over test block and base until its wires are through. */
import type { Finding } from '../findings.ts'
import { isTrialFramePart } from '../fixtures/trial-frame/parts.ts'
import type { TrialFrame, TrialWire } from '../fixtures/trial-frame/types.ts'
import type { Box, Vec3 } from '../geometry/placement.ts'
import {
  contactsOf,
  deepestOfPairs,
  depthOf,
  type Face,
  overlapsOf,
  type Placed,
  placedParts,
  placedRounds,
  sharedDepth,
  stretched,
  TOLERANCE,
} from './proof-pieces.ts'
import type { Solid, Solids } from './solids.ts'

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
/** m; a button that comes nearer scrapes, a wire that lies nearer saws wood when it is tuned (common practice) */
const TURNS_IN = 0.0005
const HOLE_ROOM = 0.0002
/** m; until the lower edge is above the block (common practice) */
const LIFT = 0.005
/** Pieces that stand for a bowed wire; corners of their prisms stand out by this share of the diameter */
const PIECES = 8
const CORNERS = 0.03

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

interface Proved {
  readonly clearance: number
  readonly findings: readonly Finding[]
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

/** Pieces of a wire that is bowed up by a share of its lag: straight outside of the soap is less, a parabola holds it. */
const piecesOf = ({ at, height, half, diameter, lag }: TrialWire, share: number, solids: Solids): Solid[] => {
  const points = Array.from({ length: PIECES + 1 }, (_, index): Vec3 => {
    const along = (2 * index) / PIECES - 1
    return { x: at, y: along * half, z: height + share * lag * (1 - along ** 2) }
  })
  return points.slice(1).map((point, index) => solids.capsule(points[index] ?? point, point, diameter))
}

function groovesOf(trial: TrialFrame, base: readonly Placed[], solids: Solids): Proved {
  const { clearance: play, limits } = trial.input
  const aside = play + limits.wander
  const findings: Finding[] = []
  let clearance = SEARCH
  for (const wire of trial.wires) {
    const loaded = piecesOf(wire, 1, solids)
    const up = trial.base.height + LIFT - wire.height
    for (const [index, lowest] of piecesOf(wire, 0, solids).entries()) {
      const way = solids.hull([lowest, solids.moved(loaded[index] ?? lowest, { x: 0, y: 0, z: up })])
      // one side at a time: what is shared at both walls would look as wide as the groove
      const strayed = [-aside, aside].map((x) => solids.hull([way, solids.moved(way, { x, y: 0, z: 0 })]))
      for (const { key, solid } of base) {
        clearance = Math.min(clearance, solids.gap(way, solid, SEARCH))
        for (const one of strayed) {
          const shared = solids.overlap(one, solid)
          if (shared && depthOf(shared.bounds) > CORNERS * wire.diameter)
            findings.push({
              code: 'trial-wire-meets-base',
              severity: 'stop',
              values: { one: 'wire', other: key, overlap: depthOf(shared.bounds) },
            })
        }
      }
    }
  }
  return { clearance, findings: deepestOfPairs(findings) }
}

function holesOf(trial: TrialFrame, wood: readonly Placed[], solids: Solids): Proved {
  const findings: Finding[] = []
  let clearance = SEARCH
  const reach = trial.outside.width / 2 + trial.input.shelfDepth / 2
  for (const { at: x, height: z, diameter } of trial.wires) {
    const wire = solids.capsule({ x, y: -reach, z }, { x, y: reach, z }, diameter)
    for (const { key, solid } of wood) {
      const gap = solids.gap(wire, solid, SEARCH)
      clearance = Math.min(clearance, gap)
      if (gap < HOLE_ROOM)
        findings.push({
          code: 'trial-wire-meets-frame',
          severity: 'stop',
          values: { one: 'wire', other: key, is: gap, needed: HOLE_ROOM },
        })
    }
  }
  return { clearance, findings: deepestOfPairs(findings) }
}

function buttonsOf(frame: readonly Placed[], solids: Solids): Proved {
  const findings: Finding[] = []
  let clearance = SEARCH
  for (const button of frame.filter(({ key }) => key === 'peg-button'))
    for (const other of frame) {
      if (other === button) continue
      const gap = solids.gap(button.solid, other.solid, SEARCH)
      // a housing carries its own button
      if (other.key === 'peg-body' && gap < TURNS_IN) continue
      clearance = Math.min(clearance, gap)
      if (gap < TURNS_IN)
        findings.push({
          code: 'trial-peg-cannot-turn',
          severity: 'stop',
          values: { one: button.key, other: other.key, is: gap, needed: TURNS_IN },
        })
    }
  return { clearance, findings: deepestOfPairs(findings) }
}
