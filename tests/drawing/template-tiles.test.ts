import { describe, expect, it } from 'vitest'
import { crosses, overlaps } from '../../src/drawing/lettering.ts'
import { markBox } from '../../src/drawing/mark-bounds.ts'
import { templateShapes } from '../../src/drawing/templates/template-features.ts'
import { OVERLAP } from '../../src/drawing/templates/template-grid.ts'
import { tilePlace } from '../../src/drawing/templates/template-tile.ts'
import { type PartTemplate, partTemplate } from '../../src/drawing/templates/template-tiles.ts'
import type { Mark, Point, TextMark } from '../../src/drawing/types.ts'
import { type BlockMouldInput, designBlockMould } from '../../src/fixtures/block-mould.ts'
import type { Feature, Hole, Part } from '../../src/geometry/part.ts'
import { demoMouldInput, denseMouldInput, tinyMouldInput } from '../fixtures/mould-input.ts'
import { ROOMS, templateOptions } from './template-words.ts'

const noBaseRods: BlockMouldInput = {
  ...demoMouldInput,
  rods: { ...demoMouldInput.rods, baseRodCount: 0 },
}

const board: Part = {
  key: 'board',
  count: 1,
  length: 0.6,
  width: 0.1,
  thickness: 0.018,
  material: 'm',
  density: 700,
  grain: 'length',
  features: [],
  placements: [],
  handed: false,
}
const hole = (name: string, u: number, v: number, diameter = 0.006): Hole => ({
  kind: 'hole',
  name,
  u,
  v,
  diameter,
})

const moulds = {
  demo: demoMouldInput,
  'no rods in the base': noBaseRods,
  dense: denseMouldInput,
  tiny: tinyMouldInput,
}
const cases = Object.entries(moulds).flatMap(([mould, input]) =>
  Object.entries(ROOMS).map(([paper, room]) => {
    const { parts } = designBlockMould(input)
    const made = parts.flatMap((part) => partTemplate(part, templateOptions(room)) ?? [])
    return [`${mould}, ${paper}`, { parts, made, room }] as const
  }),
)

const texts = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []))
const words = (mark: TextMark): string => mark.runs.map((run) => ('text' in run ? run.text : '')).join('')
/** Everything that is marked on wood or cut: all lines but hatching. */
const solid = (marks: readonly Mark[]) =>
  marks.flatMap((mark) => (mark.kind === 'line' && mark.class !== 'hatch' ? [mark] : []))
const tilesOf = ({ pages }: PartTemplate) => pages.flatMap((page) => page.tiles)

describe.each(cases)('by hand: %s', (_, { parts, made, room }) => {
  it('has a template for every part with holes or channels, and for no other', () => {
    // a bevel is not set out; notches are marked from the grooves, and a fold is one line across a sheet
    const left = ['chamfer', 'notch', 'fold']
    const wanted = parts.filter(({ features }) => features.some(({ kind }) => !left.includes(kind)))
    expect(made.map(({ part }) => part.key)).toEqual(wanted.map(({ key }) => key))
  })

  it('keeps every page in the room, and everything on its page', () => {
    for (const { name, widthMm, heightMm, marks } of made.flatMap(({ pages }) => pages)) {
      expect(widthMm, name).toBeLessThanOrEqual(room.width)
      expect(heightMm, name).toBeLessThanOrEqual(room.height)
      for (const box of marks.map(markBox)) {
        expect(Math.min(box.x, box.y), name).toBeGreaterThanOrEqual(0)
        expect(box.x + box.width, name).toBeLessThanOrEqual(widthMm)
        expect(box.y + box.height, name).toBeLessThanOrEqual(heightMm)
      }
    }
  })

  it('has every hole whole, and every wall without a gap', () => {
    for (const template of made)
      for (const shape of templateShapes(template.part)) {
        const places = tilesOf(template).map((tile) => ({
          ...tile,
          to: tilePlace(tile.tile, template.grid.turned),
        }))
        if (shape.circle) {
          const { centre, radius } = shape.circle
          const on = places.filter(({ marks, to }) =>
            marks.some(
              (mark) =>
                mark.kind === 'circle' &&
                isAt(mark.centre, to(centre)) &&
                Math.abs(mark.radius - radius) < 1e-6,
            ),
          )
          expect(on.length, shape.name).toBeGreaterThan(0)
          continue
        }
        for (const { a, b } of shape.lines) {
          // every millimetre along the line lies on a drawn piece of it
          const length = Math.hypot(b.x - a.x, b.y - a.y)
          for (let along = 0.5; along < length; along += 1) {
            const point = { x: a.x + ((b.x - a.x) * along) / length, y: a.y + ((b.y - a.y) * along) / length }
            const drawn = places.some(({ marks, to }) => solid(marks).some((line) => liesOn(to(point), line)))
            expect(drawn, `${shape.name} at ${along}`).toBe(true)
          }
        }
      }
  })

  it('joins: neighbours overlap by 10 mm and share two letters far apart, drawn at the same place', () => {
    for (const template of made) {
      const { seams, grid } = template
      const letters = seams.flatMap(({ marks }) => marks.map(({ letter }) => letter))
      expect(new Set(letters).size).toBe(letters.length)
      for (const pieces of [grid.columns, grid.rows])
        for (const [index, { from }] of pieces.slice(1).entries())
          expect(pieces[index]!.to - from, template.part.key).toBeCloseTo(OVERLAP, 6)
      for (const { near, far, marks } of seams) {
        expect(marks).toHaveLength(2)
        const [first, last] = marks.map(({ at }) => at) as [Point, Point]
        expect(Math.hypot(last.x - first.x, last.y - first.y)).toBeGreaterThan(20)
        for (const { letter, at } of marks)
          for (const tile of [near, far]) {
            const drawn = tilesOf(template).find((one) => one.tile === tile)!
            const place = tilePlace(tile, grid.turned)(at)
            const arms = solid(drawn.marks).filter((line) => isAt(middleOf(line), place))
            expect(arms.length, `${tile.name} ${letter}`).toBeGreaterThanOrEqual(2)
            expect(texts(drawn.marks).map(words)).toContain(letter)
          }
      }
    }
  })

  it('can be laid down: tiles that hang together reach an edge of the part both ways', () => {
    for (const { grid, seams } of made) {
      let groups = grid.tiles.map((tile) => new Set([tile]))
      for (const { near, far } of seams) {
        const touched = groups.filter((group) => group.has(near) || group.has(far))
        groups = [
          ...groups.filter((group) => !touched.includes(group)),
          new Set(touched.flatMap((group) => [...group])),
        ]
      }
      for (const group of groups) {
        const all = [...group]
        expect(all.some(({ column }) => column === 0 || column === grid.columns.length - 1)).toBe(true)
        expect(all.some(({ row }) => row === 0 || row === grid.rows.length - 1)).toBe(true)
      }
    }
  })

  it('names each tile on itself, the datum corner on one, and the way to it on the others', () => {
    for (const template of made)
      for (const { tile, marks } of tilesOf(template)) {
        const said = texts(marks).map(words)
        expect(
          said.some((text) => text.includes(tile.name) && !text.includes('under')),
          tile.name,
        ).toBe(true)
        expect(said.includes('datum corner') || said.includes('towards the'), tile.name).toBe(true)
        expect(
          marks.some(({ kind }) => kind === 'arrow'),
          tile.name,
        ).toBe(true)
      }
  })

  it('says every depth and diameter somewhere on each page that needs it', () => {
    for (const { pages } of made)
      for (const { tiles, marks } of pages) {
        const said = texts(marks).map(words).join('\n')
        for (const { size, kind } of tiles.flatMap(({ labelled, unlabelled }) => [
          ...labelled,
          ...unlabelled,
        ]))
          expect(said).toContain(`${kind}, ${Math.round(size.metres * 10000) / 10} mm deep`)
      }
  })

  it('sets no text on another, nor on a line', () => {
    for (const { name, marks } of made.flatMap(({ pages }) => pages)) {
      const boxes = texts(marks)
      boxes.forEach((a, index) => {
        for (const b of boxes.slice(index + 1))
          expect(overlaps(a.box, b.box), `${name}: ${words(a)} on ${words(b)}`).toBe(false)
        for (const line of solid(marks))
          expect(crosses(line.a, line.b, a.box), `${name}: ${words(a)} on a line`).toBe(false)
        for (const mark of marks)
          if (mark.kind === 'circle')
            expect(overlaps(markBox(mark), a.box), `${name}: ${words(a)}`).toBe(false)
      })
    }
  })

  it('names what was left out, and each tile once', () => {
    for (const { grid } of made) {
      const all = [...grid.tiles.map(({ name }) => name), ...grid.leftOut]
      expect(new Set(all).size).toBe(all.length)
      expect(all).toHaveLength(grid.columns.length * grid.rows.length)
      for (const { rect } of grid.tiles) expect(Math.min(rect.width, rect.height)).toBeGreaterThan(OVERLAP)
    }
  })
})

describe('by hand: the division', () => {
  const of = (features: readonly Feature[], size: Partial<Part> = {}) =>
    partTemplate({ ...board, ...size, features }, templateOptions(ROOMS.Letter))

  it('takes the side of the demo on two pages: two lips, each in two pieces', () => {
    const side = partTemplate(designBlockMould(noBaseRods).parts[0]!, templateOptions(ROOMS.Letter))!
    // far wall of the first dado at 38.1 + 18.1 = 56.2 mm, and 8 mm more; 339.7 mm high, so two rows of 174.9 mm
    expect(side.grid.columns[0]).toEqual({ from: 0, to: expect.closeTo(64.2, 6) })
    expect(side.grid.rows.map(({ from, to }) => to - from)).toEqual([
      expect.closeTo((339.725 + 10) / 2, 3),
      expect.closeTo((339.725 + 10) / 2, 3),
    ])
    expect(side.grid.tiles.map(({ name }) => name)).toEqual(['A1', 'A4', 'B1', 'B4'])
    expect(side.grid.leftOut).toEqual(['A2', 'A3', 'B2', 'B3'])
    expect(side.pages.map(({ tiles }) => tiles.map(({ tile }) => tile.name))).toEqual([
      ['A1', 'A4'],
      ['B1', 'B4'],
    ])
  })

  it('puts match marks on the middle of the overlap', () => {
    const base = partTemplate(designBlockMould(demoMouldInput).parts[4]!, templateOptions(ROOMS.Letter))!
    const [left, right] = base.grid.columns
    expect(base.seams[0]!.at).toBeCloseTo((left!.to + right!.from) / 2, 9)
    for (const { at } of base.seams[0]!.marks) expect(at.x).toBeCloseTo(right!.from + 5, 9)
  })

  it('keeps tiles without a feature where a hole in the middle could not be laid down otherwise', () => {
    // 600 mm long; the room is 168.4 mm wide, so the hole at 300 mm is reached over the tiles nearer the datum
    const { grid } = of([hole('middle', 0.3, 0.05)])!
    const last = grid.tiles.at(-1)!
    expect(grid.tiles.map(({ column }) => column)).toEqual(
      Array.from({ length: last.column + 1 }, (_, index) => index),
    )
    expect(last.rect.x).toBeLessThan(300 - 3)
    expect(last.rect.x + last.rect.width).toBeGreaterThan(300 + 3)
  })

  it('turns a part where that saves tiles, marks its datum corner bottom right, and says so', () => {
    // 210 mm long and 100 mm wide: too wide for 168.4 mm, but not too high for 216 mm
    const { grid, pages } = of([hole('a', 0.01, 0.01), hole('b', 0.2, 0.09)], { length: 0.21 })!
    expect(grid.turned).toBe(true)
    expect(grid.tiles).toHaveLength(1)
    const { marks, width } = pages[0]!.tiles[0]!
    const corner = marks.find((mark) => mark.kind === 'arrow')
    expect(corner?.kind === 'arrow' && corner.points[0]).toEqual({ x: width, y: 0 })
    // hole a lies 10 mm along and 10 mm across: 100 - 10 = 90 mm from the left, 10 mm up
    expect(marks.find((mark) => mark.kind === 'circle')).toMatchObject({
      centre: { x: 90, y: 10 },
      radius: 3,
    })
    expect(texts(pages[0]!.marks).map(words).join(' ')).toContain('Lies turned a quarter')
  })

  it('has every hole of a long row whole, and the cross of one that no page can hold', () => {
    // holes of 12 mm every 20 mm leave 8 mm between them, less than the 10 mm of an overlap
    const row = Array.from({ length: 29 }, (_, index) => hole(`h${index}`, 0.02 + index * 0.02, 0.05, 0.012))
    const tiles = tilesOf(of(row)!)
    for (const { u } of row) {
      const whole = tiles.filter(
        ({ tile }) => tile.rect.x <= u * 1000 - 6 && tile.rect.x + tile.rect.width >= u * 1000 + 6,
      )
      expect(whole.length, `hole at ${u}`).toBeGreaterThan(0)
    }
    // 260 mm in a board of 300 by 300 mm; the room is 168.4 by about 216 mm
    const large = of([hole('large', 0.15, 0.15, 0.26)], { length: 0.3, width: 0.3 })!
    const crossed = tilesOf(large).filter(({ tile, marks }) => {
      const place = tilePlace(tile, large.grid.turned)({ x: 150, y: 150 })
      return solid(marks).filter((line) => line.class === 'extension' && liesOn(place, line)).length === 2
    })
    expect(crossed.length).toBeGreaterThan(0)
    expect(tilesOf(large).every(({ marks }) => marks.every(({ kind }) => kind !== 'circle'))).toBe(true)
  })

  it('ignores kinds that it does not know, and what is cut from the other face', () => {
    const strange = { kind: 'counterbore', name: 'new', u: 0.1, v: 0.05 } as unknown as Feature
    const below: Feature = {
      kind: 'dado',
      name: 'below',
      face: 'lower',
      runs: 'width',
      at: 0.1,
      size: 0.02,
      depth: 0.005,
    }
    expect(of([strange, below])).toBeUndefined()
    expect(of([strange, hole('a', 0.02, 0.02)])!.grid.tiles).toHaveLength(1)
  })

  it('says of a handed part that a piece turned end for end does not fit', () => {
    const { pages } = of([hole('a', 0.02, 0.02)], { handed: true, count: 2 })!
    const said = texts(pages[0]!.marks).map(words).join(' ')
    expect(said).toContain('Does not fit when turned end for end')
    expect(said).toContain('Serves all 2 pieces')
  })

  it('has check scales of 100 mm both ways, each a path of its own', () => {
    const { svg } = of([hole('a', 0.02, 0.02)])!.pages[0]!
    expect(svg).toContain('class="drawing full-size" data-check-scale-mm="100"')
    const spans = [
      ...svg.matchAll(
        /data-view="[^"]*check-scale-(\w+)"><path class="dimension" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/g,
      ),
    ]
    expect(spans.map(([, way]) => way)).toEqual(['across', 'down'])
    expect(Number(spans[0]![4]) - Number(spans[0]![2])).toBeCloseTo(100, 3)
    expect(Number(spans[1]![5]) - Number(spans[1]![3])).toBeCloseTo(100, 3)
  })
})

const isAt = (a: Point, b: Point): boolean => Math.hypot(a.x - b.x, a.y - b.y) < 1e-6
const middleOf = ({ a, b }: { a: Point; b: Point }): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 })

function liesOn({ x, y }: Point, { a, b }: { a: Point; b: Point }): boolean {
  const [low, high] = [Math.min(a.x, b.x) - 1e-6, Math.max(a.x, b.x) + 1e-6]
  const [under, over] = [Math.min(a.y, b.y) - 1e-6, Math.max(a.y, b.y) + 1e-6]
  return x >= low && x <= high && y >= under && y <= over
}
