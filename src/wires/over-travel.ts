/**
 * How far the frame goes beyond the block's underside, because the middles of its wires trail above their ends: over-travel,
 * grooves, and the gap between the two layers of wires.
 */
import type { Finding } from '../findings.ts'
import { risingRoot } from '../numerics/root.ts'
import { type LoadedWire, loadWire, type WireUnderLoad } from './loaded-wire.ts'

/** Like wires of one direction. */
export interface CutLayer {
  /** one wire of it, with its load */
  readonly wire: WireUnderLoad
  /** [m] */
  readonly diameter: number
  /** where the wires of the other direction cross it, from its middle [m] */
  readonly crossings: readonly number[]
}

/** m; what no wire and no frame that is built by hand goes without (estimates) */
export const CUT_MARGINS = {
  /** between loaded wires of the two layers where they cross */
  betweenWires: 0.001,
  /** of the middle of a wire below the block's underside at the end of the stroke */
  below: 0.0015,
  /** from a wire to the bottom of its groove */
  overBottom: 0.001,
  /** of a wire to each side: the frame's play about the block, and what the wire wanders */
  wander: 0.001,
  /** wood left under the deepest groove (common practice) */
  web: 0.006,
} as const

export interface LayerTravel {
  /** of the middle of its wire in the whole width of soap [m] */
  readonly lag: number
  /** of the ends below the underside when the last soap must part at the latest [m] */
  readonly breakthrough: number
  /** of the ends below the underside at the end of the stroke [m]: at least what lag and margin ask for */
  readonly overTravel: number
  readonly needed: number
  /** of its groove [m] */
  readonly grooveDepth: number
}

export interface CutThrough {
  readonly leading: LayerTravel
  readonly trailing: LayerTravel
  /** of the trailing wires above the leading ones, at rest [m]: as given, or what is needed */
  readonly gap: number
  readonly gapNeeded: number
  /** least between surfaces of crossing wires while the block is cut [m]; below 0 they saw each other */
  readonly clearance: number
  /** of the leading wires' ends, counted from the block's underside [m] */
  readonly stroke: number
  /** left under the deepest groove [m] */
  readonly web: number
  readonly findings: readonly Finding[]
}

export interface CutFrame {
  /** wires that meet the soap first, and those above them */
  readonly leading: CutLayer
  readonly trailing: CutLayer
  /** of the trailing wires above the leading ones [m]; what is needed unless given */
  readonly gap?: number
  /** thickness of the panel that is grooved [m] */
  readonly panel: number
  readonly grooveWidth: number
  /** as built or as designed [m]; what is needed unless given */
  readonly grooveDepth?: { readonly leading: number; readonly trailing: number }
}

/** Widths of the last soap that are tried for the breakthrough. */
const STEPS = 200

/**
 * How far the ends of a wire must go below the underside of soap that parts only when the wire's middle is through.
 *
 *     greatest over the width w′ still uncut: slope(w′) · (L − w′)/2
 *
 * As the ends go down, soap parts from both sides and what is left grows narrower; the ends lie below the underside by the
 * slope of the wire along what is free. That is greatest with about half of the length uncut; from there the wire goes
 * through by itself. Half of the full lag, about: soap that tears in rags at last takes all of it.
 *
 * @param wire as it lies in the whole width
 * @returns over-travel of the ends [m], at least
 * @throws RangeError as `loadWire`
 * @source irvine-cables
 */
export function breakthrough(wire: WireUnderLoad): number {
  let most = 0
  for (let step = 1; step <= STEPS; step += 1) {
    const soapWidth = (wire.soapWidth * step) / STEPS
    const { slope } = loadWire({ ...wire, soapWidth })
    most = Math.max(most, (Math.tan(slope) * (wire.length - soapWidth)) / 2)
  }
  return most
}

/**
 * Least distance between the surfaces of crossing wires, for a gap between their layers at rest.
 *
 *     gap + lag of the upper wire there − lag of the lower wire there − half of both diameters
 *
 * Three times count: the leading wires in soap alone, both, and the trailing ones alone. Short wires should lead: they bow
 * up less into those above, and what the long ones bow up takes these away from them.
 *
 * @param leading, trailing layers; crossings of the one in the order of the other's wires do not matter, all pairs count
 * @param gap at rest [m]
 * @returns distance [m]; below 0 they touch
 * @throws RangeError as `loadWire`
 * @source irvine-cables, common practice
 */
export function layerClearance(leading: CutLayer, trailing: CutLayer, gap: number): number {
  return gap - closing(leading, trailing)
}

/** What the loaded wires and their thickness take of the gap, at worst. */
function closing(leading: CutLayer, trailing: CutLayer): number {
  const lower = loadWire(leading.wire)
  const upper = loadWire(trailing.wire)
  const thickness = (leading.diameter + trailing.diameter) / 2
  const least = (wire: LoadedWire, places: readonly number[]): number =>
    Math.min(...(places.length > 0 ? places : [0]).map(wire.lagAt))
  const most = (wire: LoadedWire, places: readonly number[]): number =>
    Math.max(...(places.length > 0 ? places : [0]).map(wire.lagAt))
  const alone = most(lower, leading.crossings)
  const both = alone - least(upper, trailing.crossings)
  const after = -least(upper, trailing.crossings)
  return Math.max(alone, both, after, 0) + thickness
}

/**
 * Gap between the layers that keeps loaded wires apart, whatever lies in soap.
 *
 *     greater of:  what crossing wires close + 1 mm
 *                  difference of the lags + 2 diameters + 1 mm, the rule of the trade
 *
 * @param leading  layer that meets the soap first
 * @param trailing layer above it
 * @returns gap at rest, middle to middle [m]
 * @throws RangeError as `loadWire`
 * @source irvine-cables, common practice
 */
export function gapNeeded(leading: CutLayer, trailing: CutLayer): number {
  const difference = Math.abs(loadWire(trailing.wire).lag - loadWire(leading.wire).lag)
  const rule = difference + leading.diameter + trailing.diameter
  return Math.max(closing(leading, trailing), rule) + CUT_MARGINS.betweenWires
}

/**
 * Stroke, grooves and gap of a frame that divides a block on a grooved base.
 *
 *     over-travel of a layer ≥ its lag + 1.5 mm;   stroke = greater of leading, gap + trailing
 *     groove = over-travel + d/2 + 1 mm;   web = panel − deepest groove
 *
 * The ends go down by the stroke together: the trailing ones by the gap less. At the end no soap holds the wires: they lie
 * straight, as deep as their ends. Lag in the whole width counts, not the smaller one at breakthrough: the last skin tears.
 *
 * @param frame layers, gap, panel, grooves [m]
 * @returns travel, depths, clearance and web [m], and a stop for each that conflicts
 * @throws RangeError as `loadWire`
 * @source irvine-cables, common practice
 */
export function cutThrough(frame: CutFrame): CutThrough {
  const { leading, trailing, panel, grooveWidth } = frame
  const needed = gapNeeded(leading, trailing)
  const gap = frame.gap ?? needed
  const clearance = layerClearance(leading, trailing, gap)
  const lags = { leading: loadWire(leading.wire).lag, trailing: loadWire(trailing.wire).lag }
  const reach = { leading: lags.leading + CUT_MARGINS.below, trailing: lags.trailing + CUT_MARGINS.below }
  const stroke = Math.max(reach.leading, gap + reach.trailing)
  const travelOf = (name: 'leading' | 'trailing'): LayerTravel => {
    const layer = frame[name]
    const overTravel = name === 'leading' ? stroke : stroke - gap
    return {
      lag: lags[name],
      breakthrough: breakthrough(layer.wire),
      overTravel,
      needed: reach[name],
      grooveDepth: frame.grooveDepth?.[name] ?? overTravel + layer.diameter / 2 + CUT_MARGINS.overBottom,
    }
  }
  const travel = { leading: travelOf('leading'), trailing: travelOf('trailing') }
  const deepest = Math.max(travel.leading.grooveDepth, travel.trailing.grooveDepth)
  const web = panel - deepest
  const findings: Finding[] = []
  if (gap < needed * (1 - 1e-9))
    findings.push({
      code: 'wire-layers-touch',
      severity: clearance < 0 ? 'stop' : 'warn',
      values: { gap, needed, clearance, leadingLag: lags.leading, trailingLag: lags.trailing },
    })
  if (web < CUT_MARGINS.web * (1 - 1e-9))
    findings.push({
      code: 'groove-web-thin',
      severity: 'stop',
      values: { web, needed: CUT_MARGINS.web, panel, depth: deepest },
    })
  for (const name of ['leading', 'trailing'] as const) {
    const { diameter } = frame[name]
    const width = diameter + 2 * CUT_MARGINS.wander
    if (grooveWidth < width * (1 - 1e-9))
      findings.push({
        code: 'wire-thick-for-groove',
        severity: grooveWidth <= diameter ? 'stop' : 'warn',
        values: { layer: name, groove: grooveWidth, needed: width, diameter },
      })
    const { overTravel, grooveDepth } = travel[name]
    // the wire itself must fit; what is left under it may be less than is designed for
    const depth = overTravel + diameter / 2
    if (grooveDepth < depth * (1 - 1e-9))
      findings.push({
        code: 'groove-shallow-for-lag',
        severity: 'stop',
        values: { layer: name, depth: grooveDepth, needed: depth, lag: lags[name], overTravel },
      })
  }
  return { ...travel, gap, gapNeeded: needed, clearance, stroke, web, findings }
}

/** N/m beyond which nobody cuts: five times the latest block. */
const LOAD_END = 2000

/**
 * The most that soap may resist before the wires trail farther than gap and grooves allow.
 *
 *     greatest q at which every wire, at the end of its stroke, still lies in its groove and no two touch, by bisection
 *
 * @param frame with its gap and its groove depths; the load of its wires does not count
 * @returns load [N/m], 0 when not even unloaded wires fit
 * @throws RangeError as `loadWire`
 * @source irvine-cables, common practice
 */
export function cuttingLoadOfGrooves(
  frame: CutFrame & Required<Pick<CutFrame, 'gap' | 'grooveDepth'>>,
): number {
  const short = (load: number): number => {
    const leading = { ...frame.leading, wire: { ...frame.leading.wire, load } }
    const trailing = { ...frame.trailing, wire: { ...frame.trailing.wire, load } }
    const reach = (layer: CutLayer): number => loadWire(layer.wire).lag + CUT_MARGINS.below
    const stroke = Math.max(reach(leading), frame.gap + reach(trailing))
    return Math.max(
      stroke + leading.diameter / 2 - frame.grooveDepth.leading,
      stroke - frame.gap + trailing.diameter / 2 - frame.grooveDepth.trailing,
      -layerClearance(leading, trailing, frame.gap),
    )
  }
  return risingRoot(short, 0, { low: 0, high: LOAD_END, tolerance: 1e-6 })
}
