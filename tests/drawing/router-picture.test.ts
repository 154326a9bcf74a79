import { describe, expect, it } from 'vitest'
import { routerPicture } from '../../src/drawing/router/router-picture.ts'
import type { Mark, Point } from '../../src/drawing/types.ts'
import type { Feature, Part } from '../../src/geometry/part.ts'
import { routerFiles } from '../../src/router/router-file.ts'
import { plainBoard } from '../geometry/plain-board.ts'

const part = (features: readonly Feature[], length = 0.27): Part => ({
  ...plainBoard,
  length,
  width: 0.09,
  features,
})

const FEATURES: readonly Feature[] = [
  { kind: 'dado', name: 'dado', face: 'upper', runs: 'width', at: 0.03, size: 0.0183, depth: 0.006 },
  { kind: 'groove', name: 'groove', face: 'upper', runs: 'length', at: 0.04, size: 0.003, depth: 0.003 },
  {
    kind: 'hole',
    name: 'hole',
    u: 0.2,
    v: 0.02,
    diameter: 0.005,
    counterbore: { diameter: 0.01, depth: 0.003, face: 'lower' },
  },
]

const WORDS = { label: 'files of a board', titles: ['First', 'Second'] }
const draw = (features = FEATURES, length?: number) => {
  const files = routerFiles(part(features, length))
  return { files, ...routerPicture(files, 165, WORDS) }
}

const outlines = (marks: readonly Mark[]) => marks.flatMap((mark) => (mark.kind === 'outline' ? [mark] : []))
const widthOf = (points: readonly Point[]) =>
  Math.max(...points.map(({ x }) => x)) - Math.min(...points.map(({ x }) => x))

describe('by hand: a board of 270 mm and its two files', () => {
  it('is drawn 135 mm long, both files at one scale', () => {
    const { marks } = draw()
    // the outline of the first, that of the second dashed
    const boards = outlines(marks).filter(({ points }) => widthOf(points) > 134)
    expect(boards.map((mark) => mark.class)).toEqual(['dimension', 'visible', 'hidden'])
    for (const { points } of boards) expect(widthOf(points)).toBeCloseTo(135, 6)
  })

  it('is no higher than 60 mm where it is short', () => {
    const [board] = outlines(draw([], 0.05).marks)
    const ys = (board?.points ?? []).map(({ y }) => y)
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(60, 6)
  })

  it('has a letter for every layer, each once in the row and once in the key', () => {
    const { marks, keys, files } = draw()
    expect(keys.map((key) => key.map(({ layer }) => layer))).toEqual(
      files.map(({ layers }) => layers.map(({ name }) => name)),
    )
    const texts = marks.flatMap((mark) =>
      mark.kind === 'text' ? mark.runs.map((run) => (run.kind === 'diameter' ? '' : run.text)) : [],
    )
    // the first has four layers, the second three
    expect(['A', 'B', 'C', 'D'].map((letter) => texts.filter((text) => text === letter).length)).toEqual([
      4, 4, 4, 2,
    ])
  })

  it('keeps all words apart and on the paper', () => {
    // four kinds of holes, one above the other at either end: their letters have to give way
    const crowdAt = (u: number) =>
      [4, 5, 6, 7].map(
        (diameter, index): Feature => ({
          kind: 'hole',
          name: `crowd-${index}`,
          u,
          v: 0.02 + 0.015 * index,
          diameter: diameter / 1000,
        }),
      )
    for (const features of [FEATURES, FEATURES.slice(0, 1), [], crowdAt(0.004), crowdAt(0.266)]) {
      const { marks, widthMm, heightMm } = draw(features)
      const boxes = marks.flatMap((mark) => (mark.kind === 'text' ? [mark.box] : []))
      for (const [index, a] of boxes.entries()) {
        expect(a.x).toBeGreaterThanOrEqual(0)
        expect(a.x + a.width).toBeLessThanOrEqual(widthMm)
        expect(a.y).toBeGreaterThanOrEqual(0)
        expect(a.y + a.height).toBeLessThanOrEqual(heightMm)
        for (const b of boxes.slice(index + 1))
          expect(
            a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height,
          ).toBe(false)
      }
    }
  })

  it('has the datum corner at the left of the first and at the right of the turned one', () => {
    const { marks } = draw()
    const corners = marks.flatMap((mark) =>
      mark.kind === 'arrow' && mark.points.length === 3 && widthOf(mark.points) > 3.9 ? [mark.points[0]] : [],
    )
    // 14 mm from the left, and 135 mm further
    expect(corners.map((at) => Math.round(at?.x ?? 0))).toEqual([14, 149])
  })
})
