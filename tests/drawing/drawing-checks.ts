/** What every drawing of a fixture has to keep to, whatever it shows. */
import { expect } from 'vitest'
import { overlaps } from '../../src/drawing/lettering.ts'
import type { Drawing } from '../../src/drawing/types.ts'
import type { Part } from '../../src/geometry/part.ts'

/** Names of all coordinates that the drawing of a part has to fix, each once. */
export const coordinatesOf = ({ features }: Part): readonly string[] =>
  features
    .flatMap((feature) => {
      const own = (...whats: readonly string[]) => whats.map((what) => `${feature.name}.${what}`)
      if (feature.kind === 'hole')
        return [...own('u', 'v', 'diameter'), ...(feature.counterbore ? own('recess', 'recess-depth') : [])]
      if (feature.kind === 'fold') return own('at')
      if (feature.kind === 'chamfer') return own('size')
      // the wall of a rebate is its place and its size in one
      return feature.kind === 'rebate' ? own('at', 'depth') : own('at', 'size', 'depth')
    })
    .sort()

export const expectInside = (
  drawings: readonly Drawing[],
  box: { readonly width: number; readonly height: number },
): void => {
  for (const { name, widthMm, heightMm } of drawings) {
    expect(widthMm, name).toBeLessThanOrEqual(box.width)
    expect(heightMm, name).toBeLessThanOrEqual(box.height)
  }
}

/** Every value on the paper, and clear of every other. */
export const expectClear = (drawings: readonly Drawing[]): void => {
  for (const { dimensions, widthMm, heightMm } of drawings)
    dimensions.forEach(({ name, box }, index) => {
      expect(Math.min(box.x, box.y), name).toBeGreaterThanOrEqual(0)
      expect(box.x + box.width, name).toBeLessThanOrEqual(widthMm)
      expect(box.y + box.height, name).toBeLessThanOrEqual(heightMm)
      for (const other of dimensions.slice(index + 1))
        expect(overlaps(box, other.box), `${name} and ${other.name}`).toBe(false)
    })
}

export const expectNamedOnce = (drawings: readonly Drawing[]): void => {
  const names = drawings.flatMap(({ dimensions }) => dimensions.map(({ name }) => name))
  expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([])
  for (const { svg, dimensions } of drawings) {
    expect(svg).not.toMatch(/NaN|Infinity|undefined|\d\.\d{4,}/)
    for (const { name } of dimensions) expect(svg).toContain(`data-name="${name}"`)
  }
}
