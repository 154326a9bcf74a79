/** Proof that a designed mould can be put together, holds together, and comes apart round a set block. */
import type { Finding } from '../findings.ts'
import type { BlockMould } from '../fixtures/block-mould.ts'
import { shortWiresRun } from '../fixtures/mould-grooves.ts'
import type { Part } from '../geometry/part.ts'
import type { Box, Vec3 } from '../geometry/placement.ts'
import {
  contactsOf,
  deepestOfPairs,
  type Face,
  keysOf,
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

export interface MouldProof {
  /** pairs of solids that were held against each other */
  readonly pairs: number
  /** faces that have to touch and do */
  readonly contacts: number
  /** least room round a rod in its holes [m] */
  readonly rodClearance: number
  /** least room between the base and the lining round it [m] */
  readonly baseClearance: number
  /** ways in which something was taken off, all clear */
  readonly moves: number
  readonly findings: readonly Finding[]
}

/**
 * Proves one mould.
 *
 *     no two solids share volume;  every pair that is glued, seated or clamped touches on at least 0.9 of its face;
 *     a rod has room all round in its holes and is not cut off by the wood's edge;
 *     lid up, rods out, sides off, ends off, lining off, long strips drawn, short strips drawn: what moves sweeps through
 *     nothing, with the set block in place
 *
 * Everything moves along an axis, so that the sweep of each box of wood is a longer box: nothing lies between two
 * positions that is not looked at. Glue, the lining's fold and play of nuts are left out.
 *
 * @param mould  as designed [m]
 * @param solids the workshop that makes and compares solids
 * @returns what was proved [m], and a stop for each pair that fails, with how deep they overlap [m]
 * @source common practice
 */
export function proveMould(mould: BlockMould, solids: Solids): MouldProof {
  const wood = placedParts([...mould.parts, ...mould.liningInPlace], solids)
  const metal = placedRounds(mould.rounds, solids)
  const all = [...wood, ...metal]
  const overlaps = overlapsOf(all, solids, threaded)
  const touching = contactsOf(facesOf(mould), all, solids)
  const rods = rodsOf(mould, wood, solids)
  const moves = movesOf(mould, wood, metal)
  const base = wood.filter(({ key }) => key === 'base-top')
  const lining = wood.filter(({ key }) => key.startsWith('lining'))
  const walls = lining.length > 0 ? lining : wood.filter(({ key }) => key === 'side' || key === 'end')
  const baseClearance = Math.min(
    ...base.flatMap((one) => walls.map((wall) => solids.gap(one.solid, wall.solid, SEARCH))),
  )
  solids.free()
  return {
    pairs: (all.length * (all.length - 1)) / 2,
    contacts: touching.count,
    rodClearance: rods.clearance,
    baseClearance,
    moves: moves.count,
    findings: [...overlaps, ...touching.findings, ...rods.findings, ...moves.findings],
  }
}

/** m; a gap is looked for as far as this */
const SEARCH = 0.01
/** Share of a long strip's foot that lies on wood: the deeper grooves that it crosses take the rest */
const STANDS_ON = 0.5
/** m; a rod with less room than this is driven in, and does not come out of swollen wood (common practice) */
const ROD_ROOM = 0.0002

/** Washers and nuts are solid here: the rod that goes through them is meant to. */
const threaded = (one: string, other: string): boolean =>
  (one === 'rod' && THREADED.has(other)) || (other === 'rod' && THREADED.has(one))
const THREADED: ReadonlySet<string> = new Set(['washer', 'nut'])

const facesOf = (mould: BlockMould): readonly Face[] => {
  const size = (key: string): Part => {
    const part = mould.parts.find((one) => one.key === key)
    if (!part) throw new Error(`The mould has no ${key}.`)
    return part
  }
  const [end, strip, cleat, rail] = [size('end'), size('strip'), size('cleat'), size('rail')]
  const { dado, rods, endChamfer } = mould.input
  const ring = (outside: number, hole: number): number => (Math.PI / 4) * (outside ** 2 - hole ** 2)
  const { thread } = rods
  const strips = mould.parts.filter(({ key }) => key.startsWith('groove-strip') || key.startsWith('edge-bar'))
  return [
    // flush with the base they stand on the bottoms of their grooves; crossing grooves take up to half of that
    ...strips.map(
      ({ key, length, thickness, features }) =>
        [key, 'base-top', 'z', length * thickness * (features.length > 0 ? 1 : STANDS_ON)] as const,
    ),
    // the batter pushes an end against the outer wall of its dado; the bevel takes its leg off that wall
    ['end', 'side', 'x', Math.max(0, dado.depth - endChamfer) * end.width],
    ['strip', 'side', 'y', strip.length * strip.width],
    ['cleat', 'lid', 'z', cleat.length * cleat.width],
    ['rail', 'base-top', 'z', rail.length * rail.thickness],
    ['washer', 'side', 'y', ring(thread.washer.outsideDiameter, thread.holeDiameter)],
    ['nut', 'washer', 'y', ring(thread.nut.acrossFlats, thread.diameter)],
  ]
}

const rodsOf = (mould: BlockMould, wood: readonly Placed[], solids: Solids): Proved => {
  const rods = mould.rounds.filter(({ key }) => key === 'rod')
  const findings: Finding[] = []
  let clearance = SEARCH
  for (const rod of rods) {
    const solid = solids.round(rod)
    for (const { key, solid: part } of wood) {
      const gap = solids.gap(solid, part, SEARCH)
      if (key === 'side') clearance = Math.min(clearance, gap)
      if (gap < ROD_ROOM)
        findings.push({
          code: 'rod-without-room',
          severity: 'stop',
          values: { one: 'rod', other: key, is: gap, needed: ROD_ROOM },
        })
    }
    // every side has wood all round where the rod goes through: its bounds hold the rod's
    for (const side of wood.filter((one) => one.key === 'side'))
      if (!holdsAcross(side.solid.bounds, solid.bounds))
        findings.push({
          code: 'rod-outside-part',
          severity: 'stop',
          values: { one: 'rod', other: 'side' },
        })
  }
  return { clearance, findings }
}

/** Across a rod that runs along y. */
const holdsAcross = (outer: Box, inner: Box): boolean =>
  outer.min.x < inner.min.x &&
  outer.max.x > inner.max.x &&
  outer.min.z < inner.min.z &&
  outer.max.z > inner.max.z

interface Move {
  readonly what: readonly string[]
  readonly along: keyof Vec3
  /** how far it has to go until it is free [m] */
  readonly distance: number
  /** what is still there */
  readonly past: readonly string[]
  /** only pieces on this side of the middle move this way; both ways where missing */
  readonly split: boolean
}

/** In the order in which a mould is taken apart. */
const movesOf = (
  mould: BlockMould,
  wood: readonly Placed[],
  metal: readonly Placed[],
): { readonly count: number; readonly findings: readonly Finding[] } => {
  const { block, input, base, lined } = mould
  const soap: Box = {
    min: { x: -lined.length / 2, y: -lined.width / 2, z: base.height },
    max: { x: lined.length / 2, y: lined.width / 2, z: base.height + block.setHeight },
  }
  const strips = (which: 'short' | 'long'): readonly string[] =>
    keysOf(wood).filter(
      (key) => key.startsWith(`groove-strip-${which}`) || key.startsWith(`edge-bar-${which}`),
    )
  const shortAlong = shortWiresRun(input) === 'width' ? 'y' : 'x'
  const clear = 0.005 // m, until a hand can turn it
  const moves: readonly Move[] = [
    {
      what: ['lid', 'cleat'],
      along: 'z',
      distance: input.panels.lid.thickness + clear,
      past: ['side', 'end', 'lining-side', 'lining-end', 'block'],
      split: false,
    },
    // a side is slid up along the ends to break it loose
    {
      what: ['side', 'strip'],
      along: 'z',
      distance: LOOSEN,
      past: ['end', 'lining-side', 'lining-end', 'base-top', 'rail', 'block'],
      split: false,
    },
    {
      what: ['side', 'strip'],
      along: 'y',
      distance: input.dado.depth + clear,
      past: ['end', 'lining-side', 'lining-end', 'base-top', 'rail', 'block'],
      split: true,
    },
    {
      what: ['end'],
      along: 'x',
      distance: input.panels.end.thickness + clear,
      past: ['lining-side', 'lining-end', 'base-top', 'rail', 'block'],
      split: true,
    },
    {
      what: ['lining-side'],
      along: 'y',
      distance: input.panels.lining.thickness + clear,
      past: ['lining-end', 'base-top', 'rail', 'block'],
      split: true,
    },
    {
      what: ['lining-end'],
      along: 'x',
      distance: input.panels.lining.thickness + clear,
      past: ['base-top', 'rail', 'block'],
      split: true,
    },
    {
      what: strips('long'),
      along: shortAlong === 'y' ? 'x' : 'y',
      distance: Math.max(base.length, base.width),
      past: ['base-top', ...strips('short'), 'block'],
      split: false,
    },
    {
      what: strips('short'),
      along: shortAlong,
      distance: Math.max(base.length, base.width),
      past: ['base-top', 'block'],
      split: false,
    },
  ]
  const rods = metal.filter(({ key }) => key === 'rod')
  const findings: Finding[] = []
  const boxesOf = (keys: readonly string[]): { readonly key: string; readonly box: Box }[] => [
    ...wood
      .filter(({ key }) => keys.includes(key))
      .flatMap(({ key, boxes }) => boxes.map((box) => ({ key, box }))),
    ...(keys.includes('block') ? [{ key: 'block', box: soap }] : []),
  ]
  const check = (
    key: string,
    box: Box,
    past: readonly { readonly key: string; readonly box: Box }[],
  ): void => {
    for (const other of past) {
      const depth = sharedDepth(box, other.box)
      if (depth > TOLERANCE)
        findings.push({
          code: 'mould-does-not-come-apart',
          severity: 'stop',
          values: { one: key, other: other.key, overlap: depth },
        })
    }
  }
  for (const { what, along, distance, past, split } of moves) {
    const obstacles = boxesOf(past)
    for (const { key, box } of boxesOf(what)) {
      const sign = split && box.min[along] + box.max[along] < 0 ? -1 : 1
      check(key, stretched(box, along, sign * distance), obstacles)
    }
  }
  // A rod is drawn out past base and block; the holes that it goes through are proved by its room in them.
  for (const { key, solid } of rods)
    check(
      key,
      stretched(solid.bounds, 'y', mould.rods.length),
      boxesOf(['base-top', 'rail', 'end', 'lining-side', 'lining-end', 'block']),
    )
  return { count: moves.length + rods.length, findings: deepestOfPairs(findings) }
}

/** m; a finger's width (common practice) */
const LOOSEN = 0.02
