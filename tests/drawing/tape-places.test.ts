/** Where tape and rule go: places to scale, letters that nobody takes for each other's. */
import { describe, expect, test } from 'vitest'
import { type TapePlaces, tapePlaces } from '../../src/drawing/as-built/tape-places.ts'
import { overlaps } from '../../src/drawing/lettering.ts'
import { markBox } from '../../src/drawing/mark-bounds.ts'
import type { Mark, TextMark } from '../../src/drawing/types.ts'

const request: TapePlaces = {
  name: 'places',
  label: 'places',
  width: 170,
  mould: {
    title: 'Mould',
    inside: { length: 0.288, width: 0.212 },
    wall: 0.018,
    height: 0.254,
    below: 0.038,
    letters: { weighed: 'A', below: 'B', length: 'C', width: 'D' },
  },
  frame: {
    title: 'Frame',
    inside: { length: 0.288, width: 0.212 },
    wall: 0.018,
    across: { length: [0.058, 0.115, 0.172, 0.23], width: [0.071, 0.141] },
    rod: 0.004,
    letters: {
      length: 'E',
      width: 'F',
      acrossLength: 'G',
      acrossWidth: 'H',
      alongWidth: 'J',
      alongLength: 'K',
    },
  },
  bar: {
    title: 'Bar cutter',
    wires: [0.03, 0.06, 0.09, 0.12],
    loaf: { length: 0.14, width: 0.07 },
    speaking: 0.12,
    letters: { wires: 'L', speaking: 'M' },
  },
}

const textsOf = (marks: readonly Mark[]): TextMark[] =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []))
const wordOf = ({ runs }: TextMark): string =>
  runs.map((run) => (run.kind === 'diameter' ? '' : run.text)).join('')
/** with its circle */
const lettersOf = (marks: readonly Mark[]) =>
  textsOf(marks)
    .filter((mark) => wordOf(mark).length === 1)
    .map((mark) => ({
      letter: wordOf(mark),
      box: { x: mark.at.x - 2.7, y: mark.box.y + mark.box.height / 2 - 2.7, width: 5.4, height: 5.4 },
    }))

const VARIANTS: readonly (readonly [string, TapePlaces])[] = [
  ['all three', request],
  ['mould alone', { ...request, frame: undefined, bar: undefined } as unknown as TapePlaces],
  [
    'one wire each way',
    {
      ...request,
      frame: { ...request.frame!, across: { length: [0.144], width: [0.106] } },
      bar: { ...request.bar!, wires: [0.1] },
    },
  ],
  [
    'a frame without wires along',
    { ...request, frame: { ...request.frame!, across: { length: [0.1, 0.2], width: [] } } },
  ],
]

describe.each(VARIANTS)('by hand: %s', (_name, variant) => {
  const { marks, widthMm, heightMm } = tapePlaces(variant)

  test('has each letter once, and none over another', () => {
    const letters = lettersOf(marks)
    expect(new Set(letters.map(({ letter }) => letter)).size).toBe(letters.length)
    for (const [index, { letter, box }] of letters.entries())
      for (const other of letters.slice(index + 1))
        expect(overlaps(box, other.box), `${letter} and ${other.letter}`).toBe(false)
  })

  test('lies on its paper, and titles do not touch', () => {
    for (const mark of marks) {
      const { x, y, width, height } = markBox(mark)
      expect(x).toBeGreaterThanOrEqual(-0.01)
      expect(y).toBeGreaterThanOrEqual(-0.01)
      expect(x + width).toBeLessThanOrEqual(widthMm + 0.01)
      expect(y + height).toBeLessThanOrEqual(heightMm + 0.01)
    }
    const titles = textsOf(marks).filter((mark) => wordOf(mark).length > 1)
    for (const [index, { box }] of titles.entries())
      for (const other of titles.slice(index + 1)) expect(overlaps(box, other.box, 1)).toBe(false)
  })
})

describe('by hand: scale', () => {
  test('slicing wires 30 mm apart from the stop on stand at equal steps', () => {
    const { marks } = tapePlaces({ ...request, frame: undefined } as unknown as TapePlaces)
    // pins are the circles of 0.6 mm, two to a wire, beside it by as much
    const xs = marks.flatMap((mark) => (mark.kind === 'circle' && mark.radius === 0.6 ? [mark.centre.x] : []))
    const wires = [...new Set(xs.map((x) => Math.round(x * 1e6) / 1e6))].sort((a, b) => a - b)
    expect(wires).toHaveLength(4)
    const steps = wires.slice(1).map((x, index) => x - wires[index]!)
    for (const step of steps) expect(step).toBeCloseTo(steps[0]!, 6)
    // the loaf of 140 mm is 140 / 30 of a step long
    const loaf = marks.find(
      (mark) =>
        mark.kind === 'outline' &&
        Math.abs(
          Math.max(...mark.points.map(({ x }) => x)) -
            Math.min(...mark.points.map(({ x }) => x)) -
            (steps[0]! * 14) / 3,
        ) < 1e-6,
    )
    expect(loaf).toBeDefined()
  })
})
