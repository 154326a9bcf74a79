/**
 * Choice of a standard scale.
 */
import type { Scale } from './types.ts'

/** Reducing scales of ISO 5455, largest first (from memory). */
export const standardScales: readonly Scale[] = [1, 2, 5, 10, 20, 50, 100].map((model) => ({
  paper: 1,
  model,
}))

/**
 * Millimetres on paper of a length of the thing.
 *
 * Formula: 1000 x length x paper / model. Validity: any scale.
 * @param metres length of the thing [m]
 * @param scale of the view
 * @returns length on paper [mm]
 * @source common practice
 */
export const onPaper = (metres: number, scale: Scale): number => (metres * 1000 * scale.paper) / scale.model

/**
 * Largest standard scale at which a drawing fits its box.
 *
 * Formula: first scale, from the largest down, whose size is within the box. Validity: the smallest scale is
 * returned when nothing fits, so that the caller still has a drawing to look at.
 * @param sizeAt size of the whole drawing at a scale [mm]
 * @param box that it must fit [mm]
 * @param scales to choose from, largest first
 * @returns the scale
 * @source common practice
 */
export function fittingScale(
  sizeAt: (scale: Scale) => { readonly width: number; readonly height: number },
  box: { readonly width: number; readonly height: number },
  scales: readonly Scale[] = standardScales,
): Scale {
  const fits = (scale: Scale) => {
    const size = sizeAt(scale)
    return size.width <= box.width + 1e-9 && size.height <= box.height + 1e-9
  }
  return scales.find(fits) ?? scales[scales.length - 1]!
}
