/** Proof that a designed grid cutter goes together, goes down over block and base, cuts through, and comes off again. */
import type { Finding } from '../findings.ts'
import type { GridCutter } from '../fixtures/grid-cutter/design.ts'
import type { GridWire } from '../fixtures/grid-cutter/types.ts'
import { isChannel, type Part } from '../geometry/part.ts'
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
import type { Solid, Solids } from './solids.ts'
import {
  HOLE_ROOM,
  intoGroove,
  provedOf,
  TURNS_IN,
  throughHoles,
  turningButtons,
  wirePieces,
} from './strung-frame.ts'

export interface GridCutterProof {
  /** pairs of solids that were held against each other */
  readonly pairs: number
  /** faces that have to touch and do */
  readonly contacts: number
  /** least room of the frame beside the block and beside the base, in the middle, over the whole stroke [m] */
  readonly blockClearance: number
  readonly baseClearance: number
  /** least room of the frame, on its whole way, beside the cleats round the base's foot [m] */
  readonly cleatClearance: number
  /** and beside the sticks with the marks [m] */
  readonly stickClearance: number
  /** least room of a loaf at a corner, drawn straight up between the walls of the frame [m] */
  readonly loafClearance: number
  /** least room of a wire in its groove, at rest and loaded, frame in the middle [m] */
  readonly grooveClearance: number
  /** least room between wires of two layers under any load [m] */
  readonly wireClearance: number
  /** least room of a straight wire beside the wood of the frame, from peg to anchor [m] */
  readonly holeClearance: number
  /** least room round the button of a peg that is turned [m] */
  readonly buttonClearance: number
  readonly findings: readonly Finding[]
}

/** m; a gap is looked for as far as this */
const SEARCH = 0.004
/** m; how far above the base a wire's way into its groove begins */
const ABOVE_BASE = 0.005
/** m; until the frame's lower edge is above the block and a hand can turn it (common practice) */
const LIFT = 0.005

/**
 * Proves one grid cutter.
 *
 *     no two solids share volume, with the room that buttons turn in;  what is glued or seated touches;
 *     every piece of wood and metal sweeps past block, with its bow, base, cleats and mark sticks, from above the block to the end and
 *     back; the base stands between its cleats, and these on their board;
 *     every wire, at rest and bowed by its lag, pushed to either side as far as frame and pins let it, sweeps from above
 *     the base to the bottom of its stroke without touching the base;
 *     every wire has room in its holes, and none has wood in its way from peg to anchor;
 *     no two wires of two layers touch while the lower ones go from straight to bowed, the upper ones being either;
 *     with the frame down every wire, loaded too, is below the loaves, and each loaf at a corner goes straight up out of it;
 *     nothing but stop blocks is below the frame's lower edge, and these stand on the bench
 *
 * The frame moves along one axis, so that the sweep of each box of wood is a longer box. A bowed wire is a parabola of
 * straight pieces between its rods, whose way is the hull of its places. The block is a box that is larger by its bow all
 * round.
 *
 * @param cutter as designed [m]
 * @param solids the workshop that makes and compares solids
 * @returns what was proved [m], and a stop for each pair that fails, with how deep they overlap [m]
 * @source common practice
 */
export function proveGridCutter(cutter: GridCutter, solids: Solids): GridCutterProof {
  const stands = ({ key }: Part): boolean => cutter.standing.includes(key)
  const standing = placedParts(cutter.parts.filter(stands), solids)
  const wood = placedParts(
    cutter.parts.filter((part) => !stands(part)),
    solids,
  )
  const metal = placedRounds(cutter.rounds, solids)
  const frame = [...wood, ...metal]
  const all = [...frame, ...standing]
  const base = placedParts(
    cutter.input.mould.parts.filter(({ key }) => key === 'base-top' || key === 'rail'),
    solids,
  )
  const overlaps = overlapsOf(all, solids, meantToMeet)
  const touching = contactsOf(facesOf(cutter), all, solids)
  const stroke = strokeOf(cutter, frame, base, standing)
  const shapes = cutter.wires.map(
    (wire): Shape => ({ wire, rest: wirePieces(wire, 0, solids), loaded: wirePieces(wire, 1, solids) }),
  )
  const grooves = groovesOf(cutter, shapes, base, solids)
  const wires = wiresOf(shapes, solids)
  const holes = holesOf(cutter, wood, solids)
  const buttons = buttonsOf([...wood, ...metal], solids)
  const below = belowEdge(cutter, frame)
  const loaves = loavesOut(cutter, frame)
  solids.free()
  return {
    pairs: (all.length * (all.length - 1)) / 2,
    contacts: touching.count,
    blockClearance: stroke.block,
    baseClearance: stroke.base,
    cleatClearance: stroke.cleat,
    stickClearance: stroke.stick,
    loafClearance: loaves.clearance,
    grooveClearance: grooves.clearance,
    wireClearance: wires.clearance,
    holeClearance: holes.clearance,
    buttonClearance: buttons.clearance,
    findings: [
      ...overlaps,
      ...touching.findings,
      ...stroke.findings,
      ...grooves.findings,
      ...wires.findings,
      ...holes.findings,
      ...buttons.findings,
      ...below,
      ...loaves.findings,
    ],
  }
}

/** A screw bites into its pilot hole, a pin is driven into its own. */
const meantToMeet = (one: string, other: string): boolean =>
  [one, other].some((key) => key.startsWith('anchor-')) && [one, other].some((key) => key.includes('shelf'))

const facesOf = (cutter: GridCutter): readonly Face[] => {
  const { parts, input, outside } = cutter
  const { peg, panels, dado } = input
  const named = (start: string): readonly Part[] => parts.filter(({ key }) => key.startsWith(start))
  const keys = (start: string): readonly string[] => named(start).map(({ key }) => key)
  const [sides, ends] = [keys('cutter-side'), keys('cutter-end')]
  const stop = parts.find(({ key }) => key === 'stop-block')
  const stopFoot = stop ? stop.width * stop.thickness : 0
  const { cleat } = cutter.stand
  const stick = parts.find(({ key }) => key === 'mark-stick')
  const ring = (Math.PI / 4) * (peg.body.diameter ** 2 - peg.bore ** 2)
  return [
    // the long wires pull an end against the inner wall of its dado; rods and shelves take their kerfs off that wall
    ...ends.map((end): Face => [end, sides, 'x', dado.depth * (outside.height - cutAlong(parts)) * SEATED]),
    ...named('side-shelf').map(({ key, length }): Face => [key, sides, 'y', length * panels.shelf.thickness]),
    ...named('end-shelf').map(({ key, length }): Face => [key, ends, 'x', length * panels.shelf.thickness]),
    ...(stop
      ? [
          ['stop-block', ends, 'x', (stop.length - cutter.edgeAtEnd) * stop.width] as const,
          ['stop-block', sides, 'y', (stop.length - cutter.edgeAtEnd) * stop.thickness] as const,
        ]
      : []),
    ['base-cleat', 'stand-board', 'z', cleat.length * cleat.width],
    ['mark-stick', 'stand-board', 'x', (stick?.length ?? 0) * cutter.stand.board.thickness],
    ['stop-block', 'stand-board', 'z', stopFoot],
    ['peg-body', [...keys('side-shelf'), ...keys('end-shelf')], 'z', ring],
  ]
}

/** Share of a wall that screw holes leave */
const SEATED = 0.98

/** Most that channels along a rail take off a joint across it [m]. */
const cutAlong = (parts: readonly Part[]): number =>
  parts
    .filter(({ key }) => key.startsWith('cutter-'))
    .map(({ features }) =>
      features.filter(isChannel).reduce((sum, { runs, size }) => (runs === 'length' ? sum + size : sum), 0),
    )
    .reduce((sum, size) => sum + size, 0)

/** From above the block to the end, and back up: one way, as the loaves are gone when the frame is lifted off. */
const strokeOf = (
  cutter: GridCutter,
  frame: readonly Placed[],
  base: readonly Placed[],
  standing: readonly Placed[],
): {
  readonly block: number
  readonly base: number
  readonly cleat: number
  readonly stick: number
  readonly findings: readonly Finding[]
} => {
  const { mould, bow } = cutter.input
  const top = mould.base.height + mould.block.setHeight
  const half = { x: mould.lined.length / 2 + bow, y: mould.lined.width / 2 + bow }
  const block: Box = {
    min: { x: -half.x, y: -half.y, z: mould.base.height },
    max: { x: half.x, y: half.y, z: top },
  }
  const up = top - cutter.edgeAtEnd + LIFT
  const findings: Finding[] = []
  const room = { block: SEARCH, base: SEARCH, cleat: SEARCH, stick: 2 * SEARCH }
  const pass = (one: Placed, other: string, box: Box, to: keyof typeof room): void => {
    for (const own of one.boxes) {
      // what stands below the frame's lower edge comes from higher up by as much
      const swept = stretched(own, 'z', up)
      const depth = sharedDepth(swept, box)
      if (swept.max.z > box.min.z && swept.min.z < box.max.z) room[to] = Math.min(room[to], -depth)
      if (depth > TOLERANCE)
        findings.push({
          code: 'grid-frame-meets-block',
          severity: 'stop',
          values: { one: one.key, other, overlap: depth },
        })
    }
  }
  for (const one of frame) {
    pass(one, 'block', block, 'block')
    for (const other of base) for (const box of other.boxes) pass(one, other.key, box, 'base')
    for (const other of standing)
      if (other.key !== 'stand-board')
        for (const box of other.boxes)
          pass(one, other.key, box, other.key === 'mark-stick' ? 'stick' : 'cleat')
  }
  for (const one of base)
    for (const other of standing)
      for (const foot of one.boxes)
        for (const box of other.boxes) {
          const overlap = sharedDepth(foot, box)
          if (overlap > TOLERANCE)
            findings.push({
              code: 'parts-overlap',
              severity: 'stop',
              values: { one: one.key, other: other.key, overlap },
            })
        }
  return { ...room, findings: deepestOfPairs(findings) }
}

/** m; a loaf is clear of the frame when it is as far above it (common practice) */
const CLEAR = 0.01

/**
 * With the stroke at its end: no wire is left in a loaf, and the loaf at each corner, which is the first to be taken, goes
 * straight up between the walls. It is as far out as it bows.
 */
const loavesOut = ({ input, wires, edgeAtEnd, outside }: GridCutter, frame: readonly Placed[]): Proved => {
  const { mould, bow } = input
  const { block, lined, base } = mould
  const findings: Finding[] = []
  let clearance = SEARCH
  for (const { layer, height, lag, diameter } of wires) {
    const overlap = height + lag + diameter / 2 - base.height
    if (overlap > TOLERANCE)
      findings.push({
        code: 'grid-wire-stays-in-loaf',
        severity: 'stop',
        values: { one: `wire-${layer}`, overlap },
      })
  }
  // Outermost pieces from the face to the first cut: with them a loaf goes, or after them.
  const ends = (key: 'length' | 'width', cuts: readonly number[]): readonly (readonly [number, number])[] => {
    const half = lined[key] / 2
    const middle = block[key] / 2
    return [
      [-half - bow, (cuts[0] ?? block[key]) - middle],
      [(cuts.at(-1) ?? 0) - middle, half + bow],
    ]
  }
  const lift = edgeAtEnd + outside.height + CLEAR - base.height
  for (const x of ends('length', block.cutsAcrossLength))
    for (const y of ends('width', block.cutsAcrossWidth)) {
      const loaf = stretched(
        {
          min: { x: x[0], y: y[0], z: base.height },
          max: { x: x[1], y: y[1], z: base.height + block.setHeight },
        },
        'z',
        lift,
      )
      for (const { key, boxes } of frame)
        for (const box of boxes) {
          const overlap = sharedDepth(loaf, box)
          if (box.max.z > loaf.min.z) clearance = Math.min(clearance, -overlap)
          if (overlap > TOLERANCE)
            findings.push({
              code: 'grid-loaf-does-not-come-out',
              severity: 'stop',
              values: { one: 'loaf', other: key, overlap },
            })
        }
    }
  return { clearance, findings: deepestOfPairs(findings) }
}

/** A wire in pieces, straight and bowed by its lag. */
interface Shape {
  readonly wire: GridWire
  readonly rest: readonly Solid[]
  readonly loaded: readonly Solid[]
}

/** Each wire on its way into its groove, with the room that it may wander. */
const groovesOf = (
  { input, guide }: GridCutter,
  shapes: readonly Shape[],
  base: readonly Placed[],
  solids: Solids,
): Proved => {
  const { mould, limits } = input
  const ways = shapes.map(({ wire, rest, loaded }) => {
    const up = mould.base.height + ABOVE_BASE - wire.height
    const aside = (wire.runs === 'width' ? guide.play.length : guide.play.width) + limits.wander
    return {
      one: `wire-${wire.layer}`,
      ...intoGroove({ ...wire, rest, loaded, up }, base, { aside, search: SEARCH }, solids),
    }
  })
  return provedOf(
    ways,
    SEARCH,
    (one, { key, by }): Finding => ({
      code: 'grid-wire-meets-base',
      severity: 'stop',
      values: { one, other: key, overlap: by },
    }),
  )
}

/** Lower wires on their way from straight to bowed, against upper ones that are straight, and bowed. */
const wiresOf = (shapes: readonly Shape[], solids: Solids): Proved => {
  const findings: Finding[] = []
  let clearance = SEARCH
  const lower = shapes
    .filter(({ wire }) => wire.layer === 'short')
    .map(({ rest, loaded }) => rest.map((piece, index) => solids.hull([piece, loaded[index] ?? piece])))
  const upper = shapes.filter(({ wire }) => wire.layer === 'long')
  for (const pieces of lower)
    for (const { rest, loaded } of upper)
      for (const a of pieces)
        for (const b of [...rest, ...loaded]) {
          const gap = solids.gap(a, b, SEARCH)
          clearance = Math.min(clearance, gap)
          if (gap > 0) continue
          findings.push({
            code: 'grid-wires-meet',
            severity: 'stop',
            values: {
              one: 'wire-short',
              other: 'wire-long',
              overlap: Math.max(0, sharedDepth(a.bounds, b.bounds)),
            },
          })
        }
  return { clearance, findings: deepestOfPairs(findings) }
}

const holesOf = ({ wires, input }: GridCutter, wood: readonly Placed[], solids: Solids): Proved => {
  const { panels, shelfDepth } = input
  const ways = wires.map((wire) => {
    // past the outer face of the rail and below the shelf
    const reach = wire.half + panels.side.thickness + panels.end.thickness + shelfDepth / 2
    return { one: `wire-${wire.layer}`, ...throughHoles(wire, reach, wood, SEARCH, solids) }
  })
  return provedOf(
    ways,
    SEARCH,
    (one, { key, by }): Finding => ({
      code: 'grid-wire-meets-frame',
      severity: 'stop',
      values: { one, other: key, is: by, needed: HOLE_ROOM },
    }),
  )
}

const buttonsOf = (frame: readonly Placed[], solids: Solids): Proved => {
  const ways = [{ one: 'peg-button', ...turningButtons(frame, SEARCH, solids) }]
  return provedOf(
    ways,
    SEARCH,
    (one, { key, by }): Finding => ({
      code: 'grid-peg-cannot-turn',
      severity: 'stop',
      values: { one, other: key, is: by, needed: TURNS_IN },
    }),
  )
}

/** The frame is set down on its edge in the rack, and goes down past hands: only stop blocks may be lower. */
const belowEdge = (cutter: GridCutter, frame: readonly Placed[]): readonly Finding[] =>
  deepestOfPairs(
    frame.flatMap(({ key, solid }): Finding[] => {
      const lowest = key === 'stop-block' ? 0 : cutter.edgeAtEnd
      const depth = lowest - solid.bounds.min.z
      return depth > TOLERANCE
        ? [
            {
              code: 'grid-part-below-edge',
              severity: 'stop',
              values: { one: key, overlap: depth },
            },
          ]
        : []
    }),
  )
