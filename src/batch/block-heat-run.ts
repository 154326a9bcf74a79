/** One history of a soap block from the pour until it can be cut. */
import { MIDDLE, type Place, readAt } from '../numerics/brick-places.ts'
import {
  advance,
  type Extent,
  type FaceResistances,
  startBrick,
  storedHeat,
  withFaces,
} from '../numerics/conduction.ts'
import { type Gelled, gelled } from './block-gel.ts'
import { type ReactionCase, reactingCells } from './block-reaction.ts'
import { type Coverings, coveringsLeft, faceResistances, type TakenOff } from './block-walls.ts'

/** K and s; by which a block may be stripped and cut. */
export interface HeatRules {
  /** core must be this far past its peak before walls come off [K] */
  readonly pastPeak: number
  /** share that must have reacted in every part of a block that holds its shape [–] */
  readonly holdsShape: number
  /** s after the pour, before which walls stay on whatever is reckoned: the push test decides then */
  readonly stripNotBefore: number
  /** core must be below it for the cut [K], and the cautious end of the same rule */
  readonly cutBelow: number
  readonly cutBelowCautious: number
  /** s after the pour at the most */
  readonly longest: number
}

/** How finely a history is reckoned. */
export interface Resolution {
  /** in half the length, half the width and the whole height */
  readonly cells: Extent
  /** s, of the longest step; shorter ones are halves of it */
  readonly longestStep: number
  /** reacted share of what is left, at the fastest, in one step [–] */
  readonly reactedInStep: number
}

/** All numbers of one history, no bands. */
export interface HeatCase {
  readonly block: Extent
  /** kg/m3 */
  readonly density: number
  /** J/(kg K) */
  readonly heatCapacity: number
  /** W/(m K) */
  readonly conductivity: number
  readonly reaction: ReactionCase
  readonly coverings: Coverings
  /** K */
  readonly room: number
  readonly pour: number
  readonly gel: { readonly low: number; readonly nominal: number; readonly high: number }
  /** s after the pour, or when the block may be stripped; left out: they stay on */
  readonly lidOff?: number | undefined
  readonly insulationOff?: number | undefined
  readonly wallsOff?: number | 'when-held' | undefined
  readonly rules: HeatRules
  readonly resolution: Resolution
  /** s between the rows of the series */
  readonly every: number
  /** stop only at the longest time, not when the block may be cut */
  readonly whole?: boolean
}

/** Temperatures at one time [K]. */
export interface HeatRow {
  /** s after the pour */
  readonly time: number
  readonly core: number
  readonly topCentre: number
  readonly wallMiddle: number
  /** upper corner */
  readonly corner: number
  /** of the whole block [–] */
  readonly reacted: number
}

export interface HeatRun {
  readonly series: readonly HeatRow[]
  /** of the core [K, s] */
  readonly peak: number
  readonly peakTime: number
  readonly gelled: { readonly low: Gelled; readonly nominal: Gelled; readonly high: Gelled }
  /** s after the pour; undefined: not before the end */
  readonly held: number | undefined
  /** held, and no earlier than the walls are planned to come off */
  readonly strip: number | undefined
  readonly cut: number | undefined
  readonly cutCautious: number | undefined
  readonly end: number
  /** J of the whole block */
  readonly energy: { readonly generated: number; readonly lost: number; readonly stored: number }
}

const TOP: Place = { length: 'middle', width: 'middle', height: 'top' }
const BASE: Place = { length: 'middle', width: 'middle', height: 'base' }
const SIDE: Place = { length: 'middle', width: 'side', height: 'middle' }
const END: Place = { length: 'end', width: 'middle', height: 'middle' }
const CORNER: Place = { length: 'end', width: 'side', height: 'top' }

/**
 * History of one block: conduction, reaction, and what is taken off the mould on the way.
 *
 *     held:  core past its peak by so much, nothing above the gel temperature, every part reacted to the wanted share, and
 *            no earlier than the rule of the trade allows
 *     strip: held, and no earlier than the walls are planned to come off
 *     cut:   stripped, and the core below the limit, both for good
 *
 * Steps get shorter where the reaction is fast. Ends when the cautious cut is reached, or at the longest time.
 *
 * @param heat all numbers [SI]
 * @returns series, peak, gelled part and times
 * @source patankar, strang1968, common practice
 */
export function runBlock(heat: HeatCase): HeatRun {
  const { room, rules } = heat
  const off = {
    lid: reached(heat.lidOff, 0),
    insulation: reached(heat.insulationOff, 0),
    walls: reached(heat.wallsOff, 0),
  }
  const { cells } = heat.resolution
  let brick = startBrick(
    {
      size: heat.block,
      cells,
      conductivity: heat.conductivity,
      heatCapacity: heat.density * heat.heatCapacity,
    },
    facesWhen(heat, off),
    heat.pour - room + allAtOnce(heat),
  )
  const started = storedHeat(brick)
  const soap = reactingCells(heat.reaction, brick.above.length, room, heat.density, heat.heatCapacity)
  if (heat.reaction.form === 'all-at-once') soap.reacted.fill(1)
  const hottest = Float64Array.from(brick.above)
  const faceHottest = { fromEnd: -Infinity, fromSide: -Infinity, fromTop: -Infinity, fromBase: -Infinity }
  const changes = [heat.lidOff, heat.insulationOff, heat.wallsOff, rules.stripNotBefore].filter(
    (time): time is number => typeof time === 'number',
  )

  const series: HeatRow[] = []
  const core = crossing()
  const cautious = crossing()
  let time = 0
  let row = 0
  let peak = -Infinity
  let peakTime = 0
  let held: number | undefined
  let before = { time: 0, core: 0 }

  const look = (): void => {
    for (let i = 0; i < hottest.length; i += 1)
      if (brick.above[i]! > hottest[i]!) hottest[i] = brick.above[i]!
    faceHottest.fromEnd = Math.max(faceHottest.fromEnd, readAt(brick, END))
    faceHottest.fromSide = Math.max(faceHottest.fromSide, readAt(brick, SIDE))
    faceHottest.fromTop = Math.max(faceHottest.fromTop, readAt(brick, TOP))
    faceHottest.fromBase = Math.max(faceHottest.fromBase, readAt(brick, BASE))
    const now = { time, core: room + readAt(brick, MIDDLE) }
    core.see(before, now, rules.cutBelow)
    cautious.see(before, now, rules.cutBelowCautious)
    if (now.core > peak) {
      peak = now.core
      peakTime = time
    }
    before = now
    const mayHold = time >= rules.stripNotBefore - 1e-6 && now.core <= peak - rules.pastPeak
    if (held === undefined && mayHold) {
      const gelling = brick.above.some((value) => value + room > heat.gel.nominal)
      if (!gelling && soap.least() >= rules.holdsShape) held = time
    }
    if (time < row * heat.every - 1e-6) return
    row += 1
    series.push({
      time,
      core: now.core,
      topCentre: room + readAt(brick, TOP),
      wallMiddle: room + readAt(brick, SIDE),
      corner: room + readAt(brick, CORNER),
      reacted: soap.reacted.reduce((sum, x) => sum + x, 0) / soap.reacted.length,
    })
  }

  look()
  while (time < rules.longest - 1e-6) {
    if (!heat.whole && held !== undefined && cautious.at() !== undefined) break
    const next = nextOf([row * heat.every, rules.longest, ...changes], time)
    const step = Math.min(next - time, usualStep(heat.resolution, soap.fastest(brick.above)))
    advance(brick, step, soap.source)
    time += step
    look()
    const taken: TakenOff = {
      lid: reached(heat.lidOff, time),
      insulation: reached(heat.insulationOff, time),
      walls: heat.wallsOff === 'when-held' ? off.walls || held !== undefined : reached(heat.wallsOff, time),
    }
    if (taken.lid === off.lid && taken.insulation === off.insulation && taken.walls === off.walls) continue
    Object.assign(off, taken)
    brick = withFaces(brick, facesWhen(heat, off))
  }

  const later = (a: number | undefined, b: number | undefined): number | undefined =>
    a === undefined || b === undefined ? undefined : Math.max(a, b)
  const strip = later(held, typeof heat.wallsOff === 'number' ? heat.wallsOff : held)
  const gelledAt = (temperature: number): Gelled => gelled(brick, hottest, faceHottest, temperature, room)
  return {
    series,
    peak,
    peakTime,
    gelled: {
      low: gelledAt(heat.gel.low),
      nominal: gelledAt(heat.gel.nominal),
      high: gelledAt(heat.gel.high),
    },
    held,
    strip,
    cut: later(strip, core.at()),
    cutCautious: later(strip, cautious.at()),
    end: time,
    energy: {
      generated: brick.generated,
      lost: brick.lost,
      stored: storedHeat(brick) - started,
    },
  }
}

const facesWhen = (heat: HeatCase, off: TakenOff): FaceResistances =>
  faceResistances(coveringsLeft(heat.coverings, off))

/** K by which the whole reaction warms the block at once, where that is asked for */
const allAtOnce = ({ reaction, heatCapacity }: HeatCase): number =>
  reaction.form === 'all-at-once' ? (reaction.heat * (1 - reaction.started)) / heatCapacity : 0

/** Coming steps are halves of the longest: no more of what is left may react in one. */
const usualStep = (resolution: Resolution, fastest: number): number => {
  let step = resolution.longestStep
  const shortest = resolution.longestStep / 256
  while (step * fastest > resolution.reactedInStep && step > shortest) step /= 2
  return step
}

const nextOf = (times: readonly number[], after: number): number =>
  Math.min(...times.filter((time) => time > after + 1e-6))

const reached = (at: number | 'when-held' | undefined, time: number): boolean =>
  typeof at === 'number' && time >= at - 1e-6

/** When the core got below a limit for good: rising above it starts anew. */
const crossing = () => {
  let at: number | undefined
  return {
    see: (
      before: { readonly time: number; readonly core: number },
      now: { readonly time: number; readonly core: number },
      limit: number,
    ): void => {
      if (now.core > limit) at = undefined
      else if (at === undefined)
        at =
          before.core > limit
            ? before.time + ((now.time - before.time) * (before.core - limit)) / (before.core - now.core)
            : now.time
    },
    at: () => at,
  }
}
