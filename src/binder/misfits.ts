/** Readings of finished cutters as calculators take them, and what of them does not go together. */
import type { Finding } from '../findings.ts'
import type { BarAsBuilt, BarCutter } from '../fixtures/bar-cutter/types.ts'
import type { GridAsBuilt, GridCutter } from '../fixtures/grid-cutter/types.ts'
import { layerRuns, wirePlaces } from '../fixtures/grid-cutter/wires.ts'
import {
  frameFit,
  frameNeeds,
  type MeasuredWires,
  unmeasuredFrameFit,
  wireFit,
  wireRoom,
} from '../fixtures/measured-fit.ts'
import type { AsBuiltSection } from '../schema/fixture.ts'

/** @returns what was typed of the grid cutter [m] */
export const gridAsBuilt = ({ 'grid-cutter': found }: AsBuiltSection): GridAsBuilt => ({
  insideLength: found?.['inside-length'],
  insideWidth: found?.['inside-width'],
  wiresAcrossLength: found?.['wires-across-length'],
  wiresAcrossWidth: found?.['wires-across-width'],
  speaking: {
    short: found?.['speaking-length']?.['short-wires'],
    long: found?.['speaking-length']?.['long-wires'],
  },
})

/** @returns what was typed of the bar cutter [m] */
export const barAsBuilt = ({ 'bar-cutter': found }: AsBuiltSection): BarAsBuilt => ({
  wires: found?.wires,
  speaking: found?.['speaking-length'],
})

/** Inside of the frame, as measured or as drawn [m]. */
export const frameInside = (
  cutter: Pick<GridCutter, 'inside'>,
  found: GridAsBuilt,
): { readonly length: number; readonly width: number } => ({
  length: found.insideLength ?? cutter.inside.length,
  width: found.insideWidth ?? cutter.inside.width,
})

/** Middles of the wires of both directions from the middle of the frame, as measured or as drawn [m]. */
export const frameWires = (
  { input, inside }: Pick<GridCutter, 'input' | 'inside'>,
  found: GridAsBuilt,
): { readonly acrossLength: readonly number[]; readonly acrossWidth: readonly number[] } => {
  const { length, width } = frameInside({ inside }, found)
  return {
    acrossLength: found.wiresAcrossLength?.map((place) => place - length / 2) ?? wirePlaces(input, 'width'),
    acrossWidth: found.wiresAcrossWidth?.map((place) => place - width / 2) ?? wirePlaces(input, 'length'),
  }
}

/**
 * Of the frame over block and base, and of its wires over their grooves; nothing where no reading is about them.
 *
 * @param before inside of the frame as it was drawn for a mould that nobody had measured [m]; a frame may be built to it
 */
export const gridMisfits = (
  cutter: GridCutter,
  readings: AsBuiltSection | undefined,
  before: GridCutter['inside'] | undefined,
): readonly Finding[] => {
  if (!readings) return []
  const found = readings['grid-cutter']
  const { input } = cutter
  const { mould, bow, limits } = input
  const measured = gridAsBuilt(readings)
  const inside = frameInside(cutter, measured)
  const { acrossLength, acrossWidth } = frameWires(cutter, measured)
  const frames = (['length', 'width'] as const).flatMap((runs) => {
    // a frame that nobody measured may be built as it was drawn
    const isMeasured = found?.[`inside-${runs}`] !== undefined
    const misfitOf = isMeasured ? frameFit : unmeasuredFrameFit
    return misfitOf({
      runs,
      inside: isMeasured ? inside[runs] : (before ?? inside)[runs],
      block: mould.lined[runs],
      base: mould.base[runs],
      bow,
      clearance: limits.clearance,
    })
  })
  if (!found) return frames
  const layers = (['short', 'long'] as const).flatMap((layer) => {
    const cuts = layerCuts(cutter, layer)
    return wireFit({
      wire: `wire-${layer}`,
      wires: cuts === 'length' ? acrossLength : acrossWidth,
      play: Math.max(0, (inside[cuts] - mould.base[cuts]) / 2),
      ...gridChannels(cutter, cuts),
    })
  })
  return [...frames, ...layers]
}

/** A wire that runs along the width cuts the length. */
const layerCuts = ({ input }: Pick<GridCutter, 'input'>, layer: 'short' | 'long'): 'length' | 'width' =>
  layerRuns(input, layer) === 'width' ? 'length' : 'width'

type Channels = Pick<MeasuredWires, 'channels' | 'width' | 'diameter' | 'open'>

/** What the wires go into that cut one direction of the block, from the middle of the frame. */
const gridChannels = ({ input }: Pick<GridCutter, 'input'>, cuts: 'length' | 'width'): Channels => {
  const { block, input: own } = input.mould
  const { start, end } = block.trim[cuts]
  return {
    channels: wirePlaces(input, cuts === 'length' ? 'width' : 'length'),
    width: own.base.grooveWidth,
    diameter: input.wire.diameter,
    open: [start > 0, end > 0],
  }
}

/** What something may measure before it has to be built anew [m]; an end that is left out is free. */
export interface Stands {
  readonly from?: number
  readonly to?: number
}

/** Places of wires, each between the walls of its channel. */
const wiresStand = (layer: Channels, shift = 0): readonly Stands[] => {
  const room = wireRoom(layer)
  const last = layer.channels.length - 1
  return layer.channels.map((channel, index) => ({
    ...(index === 0 && layer.open[0] ? {} : { from: shift + channel - room }),
    ...(index === last && layer.open[1] ? {} : { to: shift + channel + room }),
  }))
}

/** By which sizes of its own a grid cutter stands, over the mould as it is: what `gridMisfits` stops at, told before. */
export const gridStands = (
  cutter: GridCutter,
  readings: AsBuiltSection | undefined,
  side: 'length' | 'width',
): { readonly inside: Stands; readonly wires: readonly Stands[] } => {
  const { mould, bow, limits } = cutter.input
  const inside = frameInside(cutter, gridAsBuilt(readings ?? {}))[side]
  return {
    inside: {
      from: frameNeeds({
        block: mould.lined[side],
        base: mould.base[side],
        bow,
        clearance: limits.clearance,
      }),
    },
    wires: wiresStand(gridChannels(cutter, side), inside / 2),
  }
}

/** The same of a bar cutter's wires, from the end stop. */
export const barStands = (cutter: Pick<BarCutter, 'input'>): readonly Stands[] =>
  wiresStand(barChannels(cutter))

const barChannels = ({ input }: Pick<BarCutter, 'input'>): Channels => ({
  channels: input.block.cutsAcrossHeight,
  width: Math.min(input.platform.grooveWidth, input.fence.slotWidth),
  diameter: input.wire.diameter,
  open: [false, false],
})

/** Of the slicing wires over the grooves of the platform and the slots of the fence. */
export const barMisfits = (
  cutter: Pick<BarCutter, 'input'>,
  readings: AsBuiltSection | undefined,
): readonly Finding[] => {
  const wires = readings?.['bar-cutter']?.wires
  if (!wires) return []
  return wireFit({
    wire: 'cutter-wire',
    wires,
    play: cutter.input.limits.wander,
    ...barChannels(cutter),
  })
}
