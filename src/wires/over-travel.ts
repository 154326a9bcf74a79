/**
 * How far the frame goes beyond the block's underside, because the middles of its wires trail above their ends: over-travel,
 * grooves, and the gap between the two layers of wires.
 */
import { risingRoot } from '../numerics/root.ts'
import { loadWire, type WireUnderLoad } from './loaded-wire.ts'

/** Like wires of one direction. */
export interface CutLayer {
  /** one wire of it, with its load */
  readonly wire: WireUnderLoad
  /** [m] */
  readonly diameter: number
  /** where the wires of the other direction cross it, from its middle [m] */
  readonly crossings: readonly number[]
}

/** A layer as its wires lie in soap. */
export interface BowedLayer extends Omit<CutLayer, 'wire'> {
  /** of the middle above the ends, and of any place from the middle [m] */
  readonly lag: number
  readonly lagAt: (fromMiddle: number) => number
}

/** The wires of a layer under their load. @throws RangeError as `loadWire` */
export const bowedLayer = ({ wire, ...layer }: CutLayer): BowedLayer => {
  const { lag, lagAt } = loadWire(wire)
  return { ...layer, lag, lagAt }
}

/** m; what no wire and no frame that is built by hand goes without (estimates) */
export const CUT_MARGINS = {
  /** between loaded wires of the two layers where they cross */
  betweenWires: 0.001,
  /** of the middle of a wire below the block's underside at the end of the stroke: less of a skin is wiped off */
  below: 0.0015,
  /** from a wire to the bottom of its groove: crumbs lie in it */
  overBottom: 0.001,
  /** of a wire to each side beyond the play of its frame: a pin hole marked with a gauge and drilled by hand */
  wander: 0.0005,
  /** wood left under the deepest groove (common practice) */
  web: 0.006,
} as const

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
 * @source irvine-cables, common practice
 */
export function layerClearance(leading: BowedLayer, trailing: BowedLayer, gap: number): number {
  return gap - closing(leading, trailing)
}

/** What the loaded wires and their thickness take of the gap, at worst. */
function closing(leading: BowedLayer, trailing: BowedLayer): number {
  const thickness = (leading.diameter + trailing.diameter) / 2
  const lagsAt = ({ crossings, lagAt }: BowedLayer): readonly number[] =>
    (crossings.length > 0 ? crossings : [0]).map(lagAt)
  const alone = Math.max(...lagsAt(leading))
  const least = Math.min(...lagsAt(trailing))
  return Math.max(alone, alone - least, -least, 0) + thickness
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
 * @source irvine-cables, common practice
 */
export function gapNeeded(leading: BowedLayer, trailing: BowedLayer): number {
  const rule = Math.abs(trailing.lag - leading.lag) + leading.diameter + trailing.diameter
  return Math.max(closing(leading, trailing), rule) + CUT_MARGINS.betweenWires
}

/** Of the two layers: the wires that meet the soap first, and those above them; one that is missing has no lag. */
export interface LayerLags {
  readonly leading?: number | undefined
  readonly trailing?: number | undefined
}

/**
 * How far the ends of both layers go below the block's underside.
 *
 *     stroke of the leading ends = greater of lag + 1.5 mm, and gap + the other's lag + 1.5 mm;   trailing: the gap less
 *
 * The ends go down together. At the end no soap holds the wires: they lie straight, as deep as their ends. Lag in the
 * whole width counts, not the smaller one at breakthrough: the last skin tears.
 *
 * @param lags of the middles above their ends [m]; of a layer without wires left out
 * @param gap  between the layers [m], 0 where there is one
 * @returns over-travel of the ends of both layers [m]
 * @source common practice
 */
export function overTravelOf(
  lags: LayerLags,
  gap: number,
): { readonly leading: number; readonly trailing: number } {
  const reach = (lag: number | undefined): number => (lag === undefined ? -gap : lag + CUT_MARGINS.below)
  const leading = Math.max(lags.leading === undefined ? 0 : reach(lags.leading), gap + reach(lags.trailing))
  return { leading, trailing: leading - gap }
}

/**
 * Depth of a groove in which a wire ends its stroke.
 *
 *     over-travel + d/2 + 1 mm
 *
 * @param overTravel of the wire's ends [m]
 * @param diameter   of the wire [m]
 * @returns depth [m]
 * @source common practice
 */
export const grooveDepthFor = (overTravel: number, diameter: number): number =>
  overTravel + diameter / 2 + CUT_MARGINS.overBottom

/**
 * Most that a wire of each layer may trail in a frame as it is built.
 *
 *     over-travel = least of what the grooves take, the leading ones less the gap;   lag = that − 1.5 mm
 *     leading wires besides: (gap + what it may grow − d − 1 mm) / share of their lag where they are crossed
 *
 * @param frame depth of each layer's grooves [m], of a layer without wires left out; gap, 0 where there is one layer, and what it
 *   may still grow [m]; diameter [m]; share of the leading wires' lag at the worst crossing [–]
 * @returns lags [m], 0 where not even a straight wire fits
 * @source common practice
 */
export function lagAllowed(frame: {
  readonly grooves: LayerLags
  readonly gap: number
  readonly gapSpare: number
  readonly diameter: number
  readonly crossed: number
}): { readonly leading: number; readonly trailing: number } {
  const { grooves, gap, gapSpare, diameter, crossed } = frame
  const takes = (depth: number | undefined): number =>
    depth === undefined ? Number.POSITIVE_INFINITY : depth - diameter / 2 - CUT_MARGINS.overBottom
  const ends = Math.min(takes(grooves.leading), takes(grooves.trailing) + gap)
  const below =
    grooves.trailing === undefined
      ? Number.POSITIVE_INFINITY
      : (gap + gapSpare - diameter - CUT_MARGINS.betweenWires) / crossed
  return {
    leading: Math.max(0, Math.min(ends - CUT_MARGINS.below, below)),
    trailing: Math.max(0, ends - gap - CUT_MARGINS.below),
  }
}

/** Layers as they are built: one of them may be missing. */
export interface BuiltLayers {
  readonly leading?: CutLayer | undefined
  readonly trailing?: CutLayer | undefined
  /** [m], 0 where there is one layer */
  readonly gap: number
  readonly grooveDepth: { readonly leading: number; readonly trailing: number }
}

/** N/m beyond which nobody cuts: five times the latest block. */
const LOAD_END = 2000

/**
 * The most that soap may resist before the wires trail farther than gap and grooves allow.
 *
 *     greatest q at which every wire, at the end of its stroke, still lies in its groove and no two touch, by bisection
 *
 * A wire counts by its lag + 1.5 mm and half of itself: of what is left under it nothing is kept back.
 *
 * @param built layers with their gap and grooves; the load of their wires does not count
 * @returns load [N/m], 0 when not even unloaded wires fit
 * @throws RangeError as `loadWire`
 * @source irvine-cables, common practice
 */
export function cuttingLoadOfGrooves(built: BuiltLayers): number {
  const { gap, grooveDepth } = built
  const at = (layer: CutLayer | undefined, load: number): BowedLayer | undefined =>
    layer && bowedLayer({ ...layer, wire: { ...layer.wire, load } })
  const short = (load: number): number => {
    const leading = at(built.leading, load)
    const trailing = at(built.trailing, load)
    const ends = overTravelOf({ leading: leading?.lag, trailing: trailing?.lag }, gap)
    const deep = (layer: BowedLayer | undefined, end: number, depth: number): number =>
      layer ? end + layer.diameter / 2 - depth : -1
    return Math.max(
      deep(leading, ends.leading, grooveDepth.leading),
      deep(trailing, ends.trailing, grooveDepth.trailing),
      leading && trailing ? -layerClearance(leading, trailing, gap) : -1,
    )
  }
  return risingRoot(short, 0, { low: 0, high: LOAD_END, tolerance: 1e-6 })
}
