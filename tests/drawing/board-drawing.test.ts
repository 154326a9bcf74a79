/** Boards as they are sawn up, on paper: sizes, numbers and words, by hand and for any tree. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { crosses, overlaps } from '../../src/drawing/lettering.ts'
import { type BoardDrawing, boardDrawing } from '../../src/drawing/sheet-stock/board-drawing.ts'
import type { Mark, Point, Rect, TextMark } from '../../src/drawing/types.ts'
import { sawPlan, usualSawLimits } from '../../src/sheet-stock/saw-plan.ts'
import type { Board, Region } from '../../src/sheet-stock/types.ts'
import { randomLayout } from '../sheet-stock/random-trees.ts'
import { expectNamedOnce, inches, millimetres } from './drawing-checks.ts'

const BOX = { width: 180, height: 200 }

const draw = (
  region: Region,
  board: Pick<Board, 'length' | 'width' | 'trim'>,
  more: { readonly kerf?: number; readonly model?: number; readonly high?: number } = {},
) => {
  const plan = sawPlan({ region, board, kerf: more.kerf ?? 0.003, massPerArea: 0, limits: usualSawLimits })
  const keys = [...new Set(plan.pieces.flatMap(({ key }) => key ?? []))]
  return {
    plan,
    drawing: boardDrawing({
      name: 'board',
      label: 'a board',
      title: 'Board',
      plan,
      parts: new Map(keys.map((key, index) => [key, { number: index + 1, name: 'Side' }])),
      grain: true,
      words: { grain: 'grain', trim: 'trim', offcut: 'Offcut' },
      box: { ...BOX, height: more.high ?? BOX.height },
      format: inches,
      ...(more.model ? { scales: [{ paper: 1, model: more.model }] } : {}),
    }),
  }
}

const texts = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []))
const said = ({ runs }: TextMark): string =>
  runs.map((run) => (run.kind === 'diameter' ? '' : run.text)).join('')
const inside = (box: Rect, room: Rect, over = 1e-6): boolean =>
  box.x >= room.x - over &&
  box.y >= room.y - over &&
  box.x + box.width <= room.x + room.width + over &&
  box.y + box.height <= room.y + room.height + over

// 1.525 m square, 6 mm of trim; a part of 1 x 0.4 m at the corner, what is beside and beyond it is left
const square = { length: 1.525, width: 1.525, trim: 0.006 }
const one: Region = {
  kind: 'cut',
  cut: 'rip',
  along: 0,
  across: 0,
  length: 1.513,
  width: 1.513,
  first: {
    kind: 'cut',
    cut: 'crosscut',
    along: 0,
    across: 0,
    length: 1.513,
    width: 0.4,
    first: { kind: 'blank', key: 'a', turned: false, along: 0, across: 0, length: 1, width: 0.4 },
    second: { kind: 'offcut', along: 1.003, across: 0, length: 0.51, width: 0.4 },
  },
  second: { kind: 'offcut', along: 0, across: 0.403, length: 1.513, width: 1.11 },
}

describe('by hand: a part of 1000 x 400 mm on a board of 1525 mm', () => {
  const outlineOf = ({ drawing, plan }: ReturnType<typeof draw>): Rect =>
    drawing.outlines.get(plan.pieces.find(({ kind }) => kind === 'blank')!.id)!

  test('is 50 x 20 mm on paper at 1:20, and 100 x 40 mm at 1:10', () => {
    for (const [model, length, width] of [
      [20, 50, 20],
      [10, 100, 40],
    ] as const) {
      const rect = outlineOf(draw(one, square, { model }))
      expect(rect.width).toBeCloseTo(length, 9)
      expect(rect.height).toBeCloseTo(width, 9)
    }
  })

  test('stands 0.3 mm from the edges that are trimmed by 6 mm, at 1:20, and its lines are drawn there', () => {
    const made = draw(one, square, { model: 20 })
    const rect = outlineOf(made)
    const board = [...made.drawing.outlines.values()]
    expect(rect.x - Math.min(...board.map(({ x }) => x))).toBeCloseTo(0.3, 9)
    // its right side: 50 mm further on, in pieces where a number stands on it
    const right = made.drawing.marks.filter(
      (mark) =>
        mark.kind === 'line' &&
        Math.abs(mark.a.x - rect.x - 50) < 1e-6 &&
        Math.abs(mark.b.x - rect.x - 50) < 1e-6,
    )
    expect(right.length).toBeGreaterThan(0)
    // and no line runs through a number
    for (const { centre, radius } of made.drawing.circles)
      for (const mark of made.drawing.marks)
        if (mark.kind === 'line') {
          const box = { x: centre.x - radius / 2, y: centre.y - radius / 2, width: radius, height: radius }
          expect(crosses(mark.a, mark.b, box)).toBe(false)
        }
  })

  test('is drawn as large as the paper allows: 152.5 mm at 1:10 with what stands round it', () => {
    const { drawing } = draw(one, square)
    expect(drawing.scale).toEqual({ paper: 1, model: 10 })
    expect(drawing.widthMm).toBeLessThanOrEqual(BOX.width)
    expect(drawing.heightMm).toBeLessThanOrEqual(BOX.height)
  })

  test('says its number, its name and its size in it; offcuts say theirs', () => {
    const { drawing, plan } = draw(one, square)
    const words = texts(drawing.marks).map(said)
    // 1000 mm: 39 3/8 in (39.37); 400 mm: 15 3/4 in (15.748)
    expect(words).toContain('39\u202f3/8 in × 15\u202f3/4 in')
    expect(words.filter((text) => text.startsWith('Offcut')).sort()).toEqual(['Offcut 1', 'Offcut 2'])
    expect(plan.offcuts).toHaveLength(2)
    const rect = outlineOf({ drawing, plan })
    for (const mark of texts(drawing.marks).filter((text) => ['1', 'Side'].includes(said(text))))
      if (mark.class !== 'note-text' || said(mark) === 'Side') expect(inside(mark.box, rect)).toBe(true)
  })

  test('the chain of strips: 0.4 m and, with the edge that is not trimmed, 1.525 - 0.006 - 0.403', () => {
    const { drawing } = draw(one, square)
    const chain = drawing.dimensions.filter(({ name }) => name.startsWith('chain.')).map(({ value }) => value)
    expect(chain.map((value) => Math.round(value * 1000)).sort((a, b) => a - b)).toEqual([400, 1116])
  })
})

describe('by hand: upright, small, narrow', () => {
  // 180 x 220 mm: lying 2440/16 + 26 = 178.5; upright 2440/14 + 38 = 212.3
  test('a long narrow board stands upright where that is larger, its datum corner above', () => {
    const region: Region = {
      kind: 'cut',
      cut: 'crosscut',
      along: 0,
      across: 0,
      length: 2.44,
      width: 1.22,
      first: { kind: 'blank', key: 'a', turned: false, along: 0, across: 0, length: 0.6, width: 1.22 },
      second: { kind: 'offcut', along: 0.603, across: 0, length: 1.837, width: 1.22 },
    }
    const { drawing, plan } = draw(region, { length: 2.44, width: 1.22, trim: 0 }, { high: 220 })
    expect(drawing.upright).toBe(true)
    expect(drawing.scale.model).toBe(14)
    const part = drawing.outlines.get(plan.pieces.find(({ kind }) => kind === 'blank')!.id)!
    const rest = drawing.outlines.get(plan.offcuts[0]!.id)!
    expect(part.y).toBeGreaterThan(rest.y)
    expect(part.height / part.width).toBeCloseTo(0.6 / 1.22, 9)
  })

  test('a part of 10 x 300 mm has no room at 1:10, and its number stands beside it with a leader', () => {
    const region: Region = {
      kind: 'cut',
      cut: 'rip',
      along: 0,
      across: 0,
      length: 0.3,
      width: 0.5,
      first: { kind: 'blank', key: 'a', turned: false, along: 0, across: 0, length: 0.3, width: 0.01 },
      second: { kind: 'offcut', along: 0, across: 0.013, length: 0.3, width: 0.487 },
    }
    const { drawing, plan } = draw(region, { length: 0.3, width: 0.5, trim: 0 }, { model: 10 })
    const part = drawing.outlines.get(plan.pieces.find(({ kind }) => kind === 'blank')!.id)!
    const number = texts(drawing.marks).find((mark) => mark.class === 'view-title' && said(mark) === '1')!
    expect(overlaps(number.box, part)).toBe(false)
    // the leader ends with a dot in the part
    const dots = drawing.marks.flatMap((mark) =>
      mark.kind === 'circle' && mark.radius < 1 ? [mark.centre] : [],
    )
    expect(dots.some(({ x, y }) => inside({ x, y, width: 0, height: 0 }, part))).toBe(true)
  })

  test('ten crosscuts 20 mm apart: at 1:10 their numbers would touch, so they are led out', () => {
    const strip = (at: number): Region =>
      at > 9
        ? { kind: 'offcut', along: at * 0.023, across: 0, length: 1 - at * 0.023, width: 0.1 }
        : {
            kind: 'cut',
            cut: 'crosscut',
            along: at * 0.023,
            across: 0,
            length: 1 - at * 0.023,
            width: 0.1,
            first: {
              kind: 'blank',
              key: 'a',
              turned: false,
              along: at * 0.023,
              across: 0,
              length: 0.02,
              width: 0.1,
            },
            second: strip(at + 1),
          }
    const { drawing } = draw(strip(0), { length: 1, width: 0.1, trim: 0 }, { model: 10 })
    expect(drawing.circles.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])
    expectApart(drawing)
  })
})

/** Along or up the paper, as outlines are and leaders are not. */
const isStraight = ({ a, b }: { readonly a: Point; readonly b: Point }): boolean =>
  Math.abs(a.x - b.x) < 1e-9 || Math.abs(a.y - b.y) < 1e-9

/** No two numbers of cuts touch, and none is on a word. */
const expectApart = ({ circles, marks }: BoardDrawing): void => {
  for (const [index, { centre, radius }] of circles.entries())
    for (const other of circles.slice(index + 1))
      expect(Math.hypot(centre.x - other.centre.x, centre.y - other.centre.y)).toBeGreaterThan(
        radius + other.radius,
      )
  const words = texts(marks).filter(
    (mark) => !circles.some(({ centre }) => Math.hypot(mark.at.x - centre.x, mark.at.y - centre.y) < 2),
  )
  for (const [index, mark] of words.entries()) {
    for (const other of words.slice(index + 1))
      expect(overlaps(mark.box, other.box), `${said(mark)} on ${said(other)}`).toBe(false)
    for (const { centre, radius, number } of circles) {
      const square = 0.7 * radius
      const box = { x: centre.x - square, y: centre.y - square, width: 2 * square, height: 2 * square }
      expect(overlaps(mark.box, box), `${said(mark)} on cut ${number}`).toBe(false)
    }
  }
}

describe('by hand: for any tree', () => {
  test('pieces are to scale, sizes stand in their pieces, numbers stand apart, every cut has its own', () => {
    fc.assert(
      fc.property(randomLayout, ({ problem, layout }) => {
        const board = problem.boards[0]!
        const { drawing, plan } = draw(layout.boards[0]!.region, board, { kerf: problem.kerf })
        const perMetre = 1000 / drawing.scale.model
        for (const [id, rect] of drawing.outlines) {
          const { length, width } = plan.pieces[id]!.place
          const [across, up] = drawing.upright ? [width, length] : [length, width]
          expect(rect.width).toBeCloseTo(across * perMetre, 6)
          expect(rect.height).toBeCloseTo(up * perMetre, 6)
          expect(inside(rect, { x: 0, y: 0, width: drawing.widthMm, height: drawing.heightMm })).toBe(true)
        }
        expect(drawing.circles.map(({ number }) => number)).toEqual(plan.cuts.map(({ number }) => number))
        for (const mark of texts(drawing.marks)) {
          expect(
            inside(mark.box, { x: 0, y: 0, width: drawing.widthMm, height: drawing.heightMm }),
            said(mark),
          ).toBe(true)
          if (mark.class !== 'dimension-text') continue
          expect(
            [...drawing.outlines.values()].some((rect) => inside(mark.box, rect)),
            said(mark),
          ).toBe(true)
        }
        // lines of pieces stop at the rim of a number
        const lines = drawing.marks.filter((mark) => mark.kind === 'line')
        const cut = lines.filter((mark) => mark.class === 'hatch' || isStraight(mark))
        for (const { centre, radius } of drawing.circles) {
          const core = 0.6 * radius
          const box = { x: centre.x - core, y: centre.y - core, width: 2 * core, height: 2 * core }
          expect(cut.filter((mark) => crosses(mark.a, mark.b, box))).toEqual([])
        }
      }),
      { seed: 31, numRuns: 25 },
    )
  })

  test('names every size once, with its value, and writes plain numbers', () => {
    const { drawing } = draw(one, square)
    expectNamedOnce([drawing])
    expect(millimetres(0.4).shown).toBe('400 mm')
  })
})
