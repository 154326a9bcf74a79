import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitLinear, sideFrame } from '../../src/drawing/linear-dimension.ts'
import { apart } from '../../src/drawing/ordinate.ts'
import { projectScene } from '../../src/drawing/projection.ts'
import { fittingScale, onPaper } from '../../src/drawing/scale.ts'
import { assemblyScene, partScene } from '../../src/drawing/scene.ts'
import { hatch } from '../../src/drawing/section.ts'
import { textRuns, textWidth } from '../../src/drawing/text-width.ts'
import { drawingStyle } from '../../src/drawing/types.ts'
import type { Part } from '../../src/geometry/part.ts'
import { identityPlacement } from '../../src/geometry/placement.ts'

const block = (x: number, y: number, length: number, key = 'block'): Part => ({
  key,
  count: 1,
  length,
  width: 0.1,
  thickness: 0.1,
  material: 'plywood',
  density: 680,
  grain: 'length',
  handed: false,
  features: [],
  placements: [{ ...identityPlacement, origin: { x, y, z: 0 } }],
})

describe('by hand', () => {
  it('draws 1,000 mm at 1:5 as 200 mm', () => {
    expect(onPaper(1, { paper: 1, model: 5 })).toBeCloseTo(200, 12)
  })

  it('takes the largest standard scale that fits', () => {
    const sizeAt = ({ model }: { model: number }) => ({ width: 400 / model, height: 300 / model })
    expect(fittingScale(sizeAt, { width: 175, height: 220 }).model).toBe(5)
    expect(fittingScale(sizeAt, { width: 80, height: 60 }).model).toBe(5)
    expect(fittingScale(sizeAt, { width: 79, height: 60 }).model).toBe(10)
  })

  it('measures text with its fraction', () => {
    const runs = textRuns('2\u202F1/4 in')
    expect(runs.map((run) => run.kind)).toEqual(['plain', 'fraction', 'plain'])
    // 572 + 130 + (350 + 130 + 350) + 260 + 258 + 618 = 2668 thousandths, at 10 mm
    expect(textWidth(runs, 10)).toBeCloseTo(26.68, 9)
  })

  it('puts value and arrows inside, then arrows outside, then both', () => {
    // '10' is 2 x 572 thousandths of 3.5/0.714 mm = 5.61 mm; with 2 mm around it 7.61, with two arrows 13.61
    const plan = (to: number) => ({ name: 'x', shown: '10', from: 0, to, fromOut: 0, toOut: 0 })
    const fitted = (to: number) => fitLinear(plan(to), drawingStyle, { outside: 'after', extra: 0 })
    expect(fitted(13.7)).toMatchObject({ text: 'inside', arrows: 'inside' })
    expect(fitted(13.5)).toMatchObject({ text: 'inside', arrows: 'outside' })
    expect(fitted(7.5)).toMatchObject({ text: 'after', arrows: 'outside' })
  })

  it('reads vertical dimensions from the right', () => {
    expect(sideFrame('left').turned).toBe(true)
    expect(sideFrame('left').at(3, 2)).toEqual({ x: -2, y: 3 })
    expect(sideFrame('above').at(3, 2)).toEqual({ x: 3, y: 2 })
  })

  it('moves close stations apart around their middle', () => {
    expect(apart([10, 11, 30], 5)).toEqual([8, 13, 30])
  })

  it('hatches a square in step', () => {
    // square of side 10, lines at 45 degrees every sqrt 2 across, so every 2 along: c = -8 … 8
    const spans = hatch([{ x: 0, y: 0, width: 10, height: 10 }], Math.SQRT2, 1)
    expect(spans).toHaveLength(9)
  })

  it('shows a box as four lines', () => {
    const lines = projectScene({
      scene: partScene(block(0, 0, 0.3)),
      viewpoint: 'top',
      showHidden: ['block'],
    })
    expect(lines.visible).toHaveLength(4)
    expect(lines.hidden).toHaveLength(0)
    expect(lines.outline).toEqual({ x: 0, y: 0, width: 0.3, height: 0.1 })
  })

  it('hides the box behind, where the one in front covers it', () => {
    // a box of 0.3 behind one of 0.2, both 0.1 high: seen from the front the back one shows from 0.2 to 0.3
    const scene = assemblyScene([block(0, 0, 0.2, 'near'), block(0, 0.5, 0.3, 'far')], [])
    const lines = projectScene({ scene, viewpoint: 'front', showHidden: [] })
    const lengths = lines.visible.map(({ a, b }) => Math.hypot(a.x - b.x, a.y - b.y))
    // bottom and top joined to 0.3 each, uprights at 0, 0.2 and 0.3 of 0.1 each
    expect(lengths.reduce((sum, length) => sum + length, 0)).toBeCloseTo(0.9, 6)
    expect(lines.hidden).toEqual([])
  })

  it('draws a covered edge as hidden when asked', () => {
    const scene = assemblyScene([block(0, 0, 0.3, 'near'), block(0.1, 0.5, 0.1, 'far')], [])
    const lines = projectScene({ scene, viewpoint: 'front', showHidden: ['far'] })
    expect(lines.hidden).toHaveLength(2)
  })
})

describe('by hand: stations of any kind', () => {
  it('keeps every value at least a pitch from the next', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 12 }), (places) => {
        const moved = apart(
          [...places].sort((a, b) => a - b),
          5,
        )
        for (let index = 1; index < moved.length; index++)
          expect(moved[index]! - moved[index - 1]!).toBeGreaterThanOrEqual(5 - 1e-6)
      }),
      { seed: 7, numRuns: 200 },
    )
  })
})
