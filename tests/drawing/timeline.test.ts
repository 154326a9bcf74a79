import { describe, expect, test } from 'vitest'
import { overlaps } from '../../src/drawing/lettering.ts'
import { type TimelineRequest, timeline } from '../../src/drawing/timeline.ts'

const HOUR = 60
const request: TimelineRequest = {
  name: 'pour-to-cut',
  label: 'From the pour to the cut',
  width: 160,
  from: 10 * HOUR,
  to: 58 * HOUR,
  hours: Array.from({ length: 9 }, (_, index) => ({
    at: (10 + 6 * index) * HOUR,
    shown: `${(10 + 6 * index) % 24}`,
  })),
  days: [
    { at: 0, shown: 'Sunday' },
    { at: 24 * HOUR, shown: 'Monday' },
    { at: 48 * HOUR, shown: 'Tuesday 16 March' },
  ],
  lanes: [
    { name: 'awake', spans: [{ from: 12 * HOUR, to: 18 * HOUR, kind: 'sure' }], moments: [] },
    {
      name: 'cut',
      spans: [{ from: 40 * HOUR, to: 80 * HOUR, kind: 'may' }],
      moments: [22 * HOUR, 99 * HOUR],
    },
  ],
}
const drawn = timeline(request)
const texts = drawn.marks.filter((mark) => mark.kind === 'text')
const said = texts.map(({ runs }) => runs.map((run) => ('text' in run ? run.text : '')).join(''))
const boxes = drawn.marks.filter((mark) => mark.kind === 'outline')
const axis = drawn.marks.find(
  (mark) => mark.kind === 'line' && mark.class === 'visible' && mark.a.y === mark.b.y,
)
const [left, right] = axis?.kind === 'line' ? [axis.a.x, axis.b.x] : [0, 0]

describe('by hand: 48 hours from ten o’clock, two lanes', () => {
  test('a bar of 6 hours that begins after 2 takes an eighth of the axis, from a 24th on', () => {
    const [first] = boxes
    const points = first?.kind === 'outline' ? first.points : []
    expect(points[0]?.x).toBeCloseTo(left + (2 / 48) * (right - left), 9)
    expect((points[1]?.x ?? 0) - (points[0]?.x ?? 0)).toBeCloseTo((right - left) / 8, 9)
  })

  test('what goes on after the axis is cut off at its end, 30 hours after its beginning', () => {
    const points = boxes[1]?.kind === 'outline' ? boxes[1].points : []
    expect(points[0]?.x).toBeCloseTo(left + (30 / 48) * (right - left), 9)
    expect(points[1]?.x).toBeCloseTo(right, 9)
  })

  test('a moment on the axis has an arrowhead, one beyond it none', () => {
    const arrows = drawn.marks.filter((mark) => mark.kind === 'arrow')
    expect(arrows).toHaveLength(1)
    expect(arrows[0]?.kind === 'arrow' ? arrows[0].points[0]?.x : 0).toBeCloseTo(
      left + 0.25 * (right - left),
      9,
    )
  })

  test('midnight is a line right through: at 14 and 38 hours of 48', () => {
    const lines = drawn.marks.filter(
      (mark) => mark.kind === 'line' && mark.class === 'visible' && mark.a.x === mark.b.x,
    )
    const places = lines.map((mark) => (mark.kind === 'line' ? (mark.a.x - left) / (right - left) : 0))
    // in two pieces each, with room for the hour’s name between them
    expect(places.filter((_, index) => index % 2 === 0)).toEqual([
      expect.closeTo(14 / 48, 9),
      expect.closeTo(38 / 48, 9),
    ])
  })

  test('names every lane, hour and day, nothing over another or past the paper', () => {
    expect(said).toEqual(
      expect.arrayContaining(['awake', 'cut', '10', '4', 'Sunday', 'Monday', 'Tuesday 16 March']),
    )
    texts.forEach(({ box }, index) => {
      expect(box.x).toBeGreaterThanOrEqual(-1e-9)
      expect(box.x + box.width).toBeLessThanOrEqual(request.width)
      for (const other of texts.slice(index + 1)) expect(overlaps(box, other.box)).toBe(false)
    })
  })

  test('a name without room is left out: of a day that ends the axis, of hours a quarter apart', () => {
    const narrow = timeline({
      ...request,
      to: 49 * HOUR,
      hours: Array.from({ length: 40 }, (_, index) => ({ at: 600 + 15 * index, shown: `10:${15 * index}` })),
    })
    const left = narrow.marks.flatMap((mark) =>
      mark.kind === 'text' ? [mark.runs.map((run) => ('text' in run ? run.text : '')).join('')] : [],
    )
    expect(left).not.toContain('Tuesday 16 March')
    expect(left.filter((text) => text.startsWith('10:')).length).toBeLessThan(20)
  })
})
