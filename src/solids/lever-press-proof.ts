/** Proof that a lever press goes together, and swings and goes down clear of stand, frame, block and hands. */
import type { Finding } from '../findings.ts'
import type { GridCutter } from '../fixtures/grid-cutter/types.ts'
import { pressLevels } from '../fixtures/lever-press/parts.ts'
import type { LeverPress } from '../fixtures/lever-press/types.ts'
import type { Vec3 } from '../geometry/placement.ts'
import { type Along, grown, leverAt, swingPieces } from './lever-swing.ts'
import { blockBox, frameOf, isBridge, isStand, shifted } from './pressed-pieces.ts'
import {
  contactsOf,
  deepestOfPairs,
  depthOf,
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
import type { Solid, Solids } from './solids.ts'

export interface LeverPressProof {
  /** pairs of solids that were held against each other */
  readonly pairs: number
  /** faces that have to touch and do */
  readonly contacts: number
  /** least room of the lever beside bridge and frame while it swings, and beside the posts, in every step [m] */
  readonly swingClearance: number
  readonly postClearance: number
  /** least room of bridge and frame beside posts and stand, and of the bridge above the block, over the stroke [m] */
  readonly strokeClearance: number
  readonly blockClearance: number
  /** least room of the hands on their bar beside everything else [m] */
  readonly handClearance: number
  readonly findings: readonly Finding[]
}

/** m; a gap is looked for as far as this */
const SEARCH = 0.03
/** m; nothing comes nearer to the swinging lever (common practice) */
const PASSES = 0.002
/** m; round the bar: a fist in a glove (common practice) */
const FIST = 0.05

/**
 * Proves one press on one frame.
 *
 *     no two solids share volume, lever level in the last hole; what is screwed, bolted or stood on touches;
 *     the lever swings its angle either way past bridge and frame, which keep below its link, and between the posts, and
 *     past the block, in every hole;   frame and bridge go down the whole stroke past block, posts and stand;
 *     a fist's room round the bar of the hands meets nothing at any angle
 *
 * A swing is cut into small ones; each is the hull of its two ends, and every gap is less by the arc that a hull cuts off.
 *
 * @param press  as designed [m]
 * @param solids the workshop that makes and compares solids
 * @param cutter that it presses: with its own parts; else four boards stand for it
 * @returns what was proved [m], and a stop for each pair that fails
 * @source common practice
 */
export function proveLeverPress(press: LeverPress, solids: Solids, cutter?: GridCutter): LeverPressProof {
  const wood = placedParts(press.parts, solids)
  const metal = placedRounds(press.rounds, solids)
  const all = [...wood, ...metal]
  const frame = frameOf(press, solids, cutter)
  const still = [...all.filter(({ key }) => key !== 'hand-bar'), ...frame]
  const overlaps = overlapsOf([...all, ...frame], solids, meantToMeet)
  const touching = contactsOf(facesOf(press, cutter), still, solids)
  const swing = swingOf(press, [...wood.filter(({ key }) => isBridge(key)), ...frame], solids)
  const posts = postsOf(press, wood, solids)
  const stroke = strokeOf(press, wood, frame)
  const block = blockOf(press, wood, solids)
  const hands = handsOf(press, [...wood.filter(({ key }) => isBridge(key)), ...frame], solids)
  const count = all.length + frame.length
  solids.free()
  return {
    pairs: (count * (count - 1)) / 2,
    contacts: touching.count,
    swingClearance: swing.clearance,
    postClearance: posts.clearance,
    strokeClearance: stroke.clearance,
    blockClearance: block.clearance,
    handClearance: hands.clearance,
    findings: [
      ...overlaps,
      ...touching.findings,
      ...swing.findings,
      ...posts.findings,
      ...stroke.findings,
      ...block.findings,
      ...hands.findings,
    ],
  }
}

/** The bar is driven through the lever; of the cutter, screws bite into their pilot holes. */
const meantToMeet = (one: string, other: string): boolean =>
  [one, other].includes('hand-bar') || (!one.startsWith('press-') && !other.startsWith('press-'))

const facesOf = (press: LeverPress, cutter?: GridCutter): readonly Face[] => {
  const { lumber, panel, frame } = press.input
  const length = (key: string): number => press.parts.find((part) => part.key === key)?.length ?? 0
  const sides = cutter
    ? cutter.parts.filter(({ key }) => key.startsWith('cutter-side')).map(({ key }) => key)
    : ['cutter-side']
  const plate = lumber.width ** 2
  return [
    ['press-packer', 'press-post', 'y', 0.95 * plate],
    ['press-packer', 'press-spine', 'y', 0.95 * plate],
    ['press-board', 'press-spine', 'z', length('press-board') * lumber.thickness],
    ['press-foot', 'press-spine', 'z', lumber.width * lumber.thickness],
    ['press-cleat', 'press-board', 'z', length('press-cleat') * 0.03],
    ['press-bridge-end', 'press-beam', 'z', lumber.thickness * panel.thickness],
    ['press-bridge-end', sides, 'z', frame.side * panel.thickness],
  ]
}

/** Small swings with bridge and frame standing still: both go down with the link. */
const swingOf = (press: LeverPress, others: readonly Placed[], solids: Solids): Proved => {
  const { link } = press.geometry
  const { beam } = pressLevels(press.input, press.geometry)
  const carried: Along = (angle) => {
    const { arm } = press.geometry
    const leans = arm * (1 - Math.cos(angle))
    return { x: -leans, z: beam + Math.sqrt(link ** 2 - leans ** 2) }
  }
  return passes(swingPieces(press, carried, solids), others, solids, 'press-lever-meets')
}

const passes = (
  pieces: readonly { readonly solid: Solid; readonly arc: number }[],
  others: readonly Placed[],
  solids: Solids,
  kind: 'press-lever-meets' | 'press-hands-meet',
): Proved => {
  const findings: Finding[] = []
  let clearance = SEARCH
  for (const { solid, arc } of pieces)
    for (const other of others) {
      const gap = solids.gap(solid, other.solid, SEARCH) - arc
      clearance = Math.min(clearance, gap)
      if (gap >= PASSES) continue
      const room = { is: Math.max(0, gap), needed: PASSES }
      findings.push(
        kind === 'press-lever-meets'
          ? {
              code: 'press-lever-meets',
              severity: 'stop',
              values: { one: 'press-lever', other: other.key, ...room },
            }
          : {
              code: 'press-hands-meet',
              severity: 'stop',
              values: { one: 'hand-bar', other: other.key, ...room },
            },
      )
    }
  return { clearance, findings: deepestOfPairs(findings) }
}

/** In every hole the lever swings between the posts and over the block. */
const postsOf = (press: LeverPress, wood: readonly Placed[], solids: Solids): Proved => {
  const block: Placed = { key: 'block', solid: solids.box(blockBox(press)), boxes: [] }
  const others = [...wood.filter(({ key }) => isStand(key)), block]
  const all = press.geometry.steps.map(({ pin }) => {
    const { arm } = press.geometry
    const carried: Along = (angle) => ({
      x: -arm + arm * Math.cos(angle),
      z: pin + arm * Math.sin(angle),
    })
    return passes(swingPieces(press, carried, solids), others, solids, 'press-lever-meets')
  })
  return {
    clearance: Math.min(...all.map(({ clearance }) => clearance)),
    findings: deepestOfPairs(all.flatMap(({ findings }) => findings)),
  }
}

/** Frame and bridge from first touch to the end: longer boxes, against the stand's. */
const strokeOf = (press: LeverPress, wood: readonly Placed[], frame: readonly Placed[]): Proved => {
  const { topAtStart, topAtEnd } = press.input.frame
  const { frameTop } = pressLevels(press.input, press.geometry)
  const findings: Finding[] = []
  let clearance = SEARCH
  const moving = [...wood.filter(({ key }) => isBridge(key)), ...frame]
  for (const one of moving)
    for (const other of wood.filter(({ key }) => isStand(key)))
      for (const own of one.boxes)
        for (const box of other.boxes) {
          const swept = stretched(shifted(own, topAtEnd - frameTop), 'z', topAtStart - topAtEnd)
          const depth = sharedDepth(swept, box)
          // stop blocks stand on the board at the end
          if (depth < -TOLERANCE) clearance = Math.min(clearance, -depth)
          if (depth > TOLERANCE)
            findings.push({
              code: 'press-frame-meets-stand',
              severity: 'stop',
              values: { one: one.key, other: other.key, overlap: depth },
            })
        }
  return { clearance, findings: deepestOfPairs(findings) }
}

/** The bridge at the end of the stroke, over and round the block. */
const blockOf = (press: LeverPress, wood: readonly Placed[], solids: Solids): Proved => {
  const { topAtEnd } = press.input.frame
  const down: Vec3 = { x: 0, y: 0, z: topAtEnd - pressLevels(press.input, press.geometry).frameTop }
  const block = solids.box(blockBox(press))
  const findings: Finding[] = []
  let clearance = SEARCH
  for (const { key, solid } of wood.filter((one) => isBridge(one.key))) {
    const lowest = solids.moved(solid, down)
    clearance = Math.min(clearance, solids.gap(lowest, block, SEARCH))
    const shared = solids.overlap(lowest, block)
    if (shared)
      findings.push({
        code: 'press-bridge-meets-block',
        severity: 'stop',
        values: { one: key, other: 'block', overlap: depthOf(shared.bounds) },
      })
  }
  return { clearance, findings: deepestOfPairs(findings) }
}

/** A fist's room round the bar, carried by the lever from the upper to the lower end of its swing. */
const handsOf = (press: LeverPress, others: readonly Placed[], solids: Solids): Proved => {
  const { angle, link } = press.geometry
  const { beam } = pressLevels(press.input, press.geometry)
  const rooms = [-angle, 0, angle].map((at) => {
    const { bar } = leverAt(press, at, { x: 0, z: beam + link })
    return solids.box(grown(bar, FIST))
  })
  const whole = solids.hull(rooms)
  return passes([{ solid: whole, arc: 0 }], others, solids, 'press-hands-meet')
}
