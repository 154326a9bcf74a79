import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type ShareBarGroup, type SharePattern, shareBar } from '../../src/drawing/share-bar.ts'
import type { Mark, TextMark } from '../../src/drawing/types.ts'

const PATTERNS: readonly SharePattern[] = ['blank', 'slanted', 'upright', 'crossed']

const groupsOf = (shares: readonly (readonly number[])[]): ShareBarGroup[] =>
  shares.map((parts, g) => ({
    name: `group-${g}`,
    label: `group number ${g}`,
    shown: '12.3 %',
    share: parts.reduce((sum, share) => sum + share, 0),
    pattern: PATTERNS[g % 4]!,
    parts: parts.map((share, p) => ({ name: `part-${g}-${p}`, label: `acid ${p}`, shown: '12.3 %', share })),
  }))

const draw = (shares: readonly (readonly number[])[], width = 100) =>
  shareBar({ name: 'bar', label: 'a bar', width, groups: groupsOf(shares) })

const texts = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []))
const lines = (marks: readonly Mark[], kind: string) =>
  marks.flatMap((mark) => (mark.kind === 'line' && mark.class === kind ? [mark] : []))

describe('by hand', () => {
  test('a bar of 100 mm: parts of 20 % and 30 % end at 20 mm and 50 mm, their groups likewise', () => {
    const { marks } = draw([[0.2, 0.3], [0.5]])
    expect(lines(marks, 'dimension').map(({ a }) => a.x)).toEqual([20])
    const boxes = marks.flatMap((mark) => (mark.kind === 'outline' ? [mark.points] : []))
    expect(boxes.map((points) => [points[0]!.x, points[1]!.x])).toEqual([
      [0, 50],
      [50, 100],
    ])
  })

  test('labels with room stand over the middle of their parts', () => {
    const { marks } = draw([[0.2, 0.3], [0.5]])
    const at = (name: string) => texts(marks).find((mark) => mark.name === name)?.at.x
    expect([at('part-0-0'), at('part-0-1'), at('part-1-0')]).toEqual([10, 35, 75])
    expect([at('group-0'), at('group-1')]).toEqual([25, 75])
  })

  test('groups are told apart by lines alone: none, slanted, upright, crossed', () => {
    const { marks } = draw([[0.25], [0.25], [0.25], [0.25]])
    const slopes = (from: number, to: number): Set<number> =>
      new Set(
        lines(marks, 'hatch')
          .filter(({ a, b }) => (a.x + b.x) / 2 > from && (a.x + b.x) / 2 < to)
          .map(({ a, b }) => (a.x === b.x ? 0 : Math.sign((b.y - a.y) * (b.x - a.x)))),
      )
    expect([...slopes(0, 25)]).toEqual([])
    expect([...slopes(25, 50)]).toEqual([1])
    expect([...slopes(50, 75)]).toEqual([0])
    expect([...slopes(75, 100)].sort()).toEqual([-1, 1])
  })

  test('a part under 1.2 % is drawn without a label', () => {
    const { marks, written } = draw([[0.989, 0.011]])
    expect(written).toEqual(['part-0-0', 'group-0'])
    expect(lines(marks, 'dimension').map(({ a }) => a.x)).toEqual([98.9])
  })

  test('where labels do not fit, the smallest parts go without', () => {
    // each label is about 9 mm wide with its gap: a bar of 30 mm has room for three of them at most
    const { written } = draw([[0.3, 0.25, 0.2, 0.15, 0.1]], 30)
    const parts = written.filter((name) => name.startsWith('part'))
    expect(parts.length).toBeGreaterThan(0)
    expect(parts.length).toBeLessThan(4)
    expect(parts).toEqual(['part-0-0', 'part-0-1', 'part-0-2'].slice(0, parts.length))
  })

  test('values carry their names, words do not; the label is there for those who cannot see it', () => {
    const { svg } = shareBar({ name: 'b', label: 'a <bar>', width: 90, groups: groupsOf([[1]]) })
    expect(svg).toContain('aria-label="a &lt;bar&gt;"')
    expect(svg).toMatch(/class="dimension-text" data-name="part-0-0"/)
    expect(svg).not.toMatch(/class="note-text" data-name/)
  })

  test('an empty whole draws nothing and does not fail', () => {
    expect(draw([[]]).written).toEqual([])
    expect(draw([]).svg).toContain('<svg')
  })
})

describe('by hand: for any shares', () => {
  const wholes = fc
    .array(fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 1, maxLength: 6 }), {
      minLength: 1,
      maxLength: 4,
    })
    .map((groups) => {
      const sum = groups.flat().reduce((total, share) => total + share, 0)
      return groups.map((parts) => parts.map((share) => share / sum))
    })

  test('no two labels touch, none leaves the drawing, no hatching leaves its group', () => {
    fc.assert(
      fc.property(wholes, fc.integer({ min: 60, max: 200 }), (shares, width) => {
        const { marks, heightMm } = draw(shares, width)
        const all = texts(marks)
        for (const [index, one] of all.entries()) {
          expect(one.box.x).toBeGreaterThanOrEqual(-1e-9)
          expect(one.box.x + one.box.width).toBeLessThanOrEqual(width + 1e-9)
          expect(one.box.y).toBeGreaterThanOrEqual(0)
          expect(one.box.y + one.box.height).toBeLessThanOrEqual(heightMm)
          for (const other of all.slice(index + 1)) {
            const beside =
              one.box.x + one.box.width < other.box.x + 1e-9 ||
              other.box.x + other.box.width < one.box.x + 1e-9
            expect(beside || one.at.y !== other.at.y).toBe(true)
          }
        }
        // leaders of one side keep the order of the parts, so that none crosses another
        for (const up of [true, false]) {
          const leaders = lines(marks, 'extension').filter(({ a, b }) => b.y > a.y === up)
          for (const [index, one] of leaders.entries())
            if (index > 0) expect(one.b.x).toBeGreaterThan(leaders[index - 1]!.b.x)
        }
        const boxes = marks.flatMap((mark) => (mark.kind === 'outline' ? [mark.points] : []))
        for (const { a, b } of lines(marks, 'hatch'))
          expect(
            boxes.some(([low, , high]) =>
              [a, b].every(
                ({ x, y }) =>
                  x > low!.x - 1e-9 && x < high!.x + 1e-9 && y > low!.y - 1e-9 && y < high!.y + 1e-9,
              ),
            ),
          ).toBe(true)
      }),
      { seed: 3, numRuns: 200 },
    )
  })
})
