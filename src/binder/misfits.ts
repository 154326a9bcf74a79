/** Readings of finished cutters as calculators take them, and what of them does not go together. */
import type { Finding } from '../findings.ts'
import type { BarAsBuilt, BarCutter } from '../fixtures/bar-cutter/types.ts'
import type { GridAsBuilt, GridCutter } from '../fixtures/grid-cutter/types.ts'
import { layerRuns, wirePlaces } from '../fixtures/grid-cutter/wires.ts'
import { frameFit, wireFit } from '../fixtures/measured-fit.ts'
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

/** Of the frame over block and base, and of its wires over their grooves; nothing where no reading is about them. */
export const gridMisfits = (cutter: GridCutter, readings: AsBuiltSection | undefined): readonly Finding[] => {
  const found = readings?.['grid-cutter']
  if (!readings || !found) return []
  const { input } = cutter
  const { mould, bow, limits, wire } = input
  const measured = gridAsBuilt(readings)
  const inside = frameInside(cutter, measured)
  const { acrossLength, acrossWidth } = frameWires(cutter, measured)
  const frames = (['length', 'width'] as const).flatMap((runs) =>
    found[`inside-${runs}`] === undefined
      ? []
      : frameFit({
          runs,
          inside: inside[runs],
          block: mould.lined[runs],
          base: mould.base[runs],
          bow,
          clearance: limits.clearance,
        }),
  )
  const { trim } = mould.block
  const layers = (['short', 'long'] as const).flatMap((layer) => {
    const runs = layerRuns(input, layer)
    // a wire that runs along the width cuts the length
    const cuts = runs === 'width' ? 'length' : 'width'
    return wireFit({
      wire: `wire-${layer}`,
      wires: cuts === 'length' ? acrossLength : acrossWidth,
      channels: wirePlaces(input, runs),
      width: mould.input.base.grooveWidth,
      diameter: wire.diameter,
      play: Math.max(0, (inside[cuts] - mould.base[cuts]) / 2),
      open: [trim[cuts].start > 0, trim[cuts].end > 0],
    })
  })
  return [...frames, ...layers]
}

/** Of the slicing wires over the grooves of the platform and the slots of the fence. */
export const barMisfits = (
  { input }: Pick<BarCutter, 'input'>,
  readings: AsBuiltSection | undefined,
): readonly Finding[] => {
  const wires = readings?.['bar-cutter']?.wires
  if (!wires) return []
  return wireFit({
    wire: 'cutter-wire',
    wires,
    channels: input.block.cutsAcrossHeight,
    width: Math.min(input.platform.grooveWidth, input.fence.slotWidth),
    diameter: input.wire.diameter,
    play: input.limits.wander,
    open: [false, false],
  })
}
