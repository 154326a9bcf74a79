/** Notes and titles that have no room on one line. */
import { describe, expect, it } from 'vitest'
import { textsOf } from '../../src/drawing/dimension-rows.ts'
import type { LeaderRequest } from '../../src/drawing/dimension-types.ts'
import { drawLeader } from '../../src/drawing/leader.ts'
import { drawSheet } from '../../src/drawing/sheet.ts'
import { drawingStyle, type TextMark } from '../../src/drawing/types.ts'
import { paperView } from '../../src/drawing/view.ts'
import { outside } from './outside.ts'

const style = drawingStyle
const format = (metres: number) => ({ shown: (metres * 1000).toFixed(1) })
const words = ({ runs }: TextMark): string =>
  runs.map((run) => (run.kind === 'diameter' ? 'Ø' : run.text)).join('')

const recess: LeaderRequest = {
  kind: 'leader',
  name: 'note',
  at: { x: 0, y: 0 },
  text: [
    { words: '6 × recess, outer face ' },
    { diameter: 0.0095, name: 'wide' },
    { words: ' × ' },
    { length: 0.003, name: 'deep' },
    { words: ' mm deep' },
  ],
}

const noted = (room?: number, leader = recess) =>
  drawLeader({
    leader,
    toPaper: ({ x, y }) => ({ x: x * 1000, y: y * 1000 }),
    paperPerMetre: 1000,
    format,
    style,
    taken: [],
    lines: [],
    ...(room === undefined ? {} : { within: { room, drawn: { x: -10, y: -10, width: 20, height: 20 } } }),
  })

describe('by hand: a note on two lines', () => {
  it('stands on one where nothing is said of room, or there is enough', () => {
    for (const room of [undefined, 200])
      expect(textsOf(noted(room)).map(words)).toEqual(['6 × recess, outer face Ø9.5 × 3.0 mm deep'])
  })

  it('breaks at its comma before anywhere else, one line under the other', () => {
    const texts = textsOf(noted(100))
    expect(texts.map(words)).toEqual(['6 × recess,', 'outer face Ø9.5 × 3.0 mm deep'])
    const [first, second] = texts
    // 1.25 type sizes of 3.5 mm / 0.714
    expect(first!.at.y - second!.at.y).toBeCloseTo(6.13, 2)
    expect(first!.box.y).toBeGreaterThan(second!.box.y + second!.box.height)
  })

  it('keeps a count, a number and its unit together, whatever room there is', () => {
    const ways = new Set<string>()
    for (let room = 20; room < 160; room += 2) ways.add(textsOf(noted(room)).map(words).join(' | '))
    expect(ways).toEqual(
      new Set([
        '6 × recess, outer face Ø9.5 × 3.0 mm deep',
        '6 × recess, outer face | Ø9.5 × 3.0 mm deep',
        '6 × recess, | outer face Ø9.5 × 3.0 mm deep',
      ]),
    )
  })

  it('knows on which line a value stands', () => {
    const { values, below } = noted(100)
    expect(values?.map(({ name }) => name)).toEqual(['wide', 'deep'])
    for (const { box } of values ?? []) {
      expect(box.y).toBe(below!.box.y)
      expect(box.x).toBeGreaterThan(below!.box.x)
      expect(box.x + box.width).toBeLessThan(below!.box.x + below!.box.width)
    }
  })
})

const title = 'Fence, face to the loaf; datum: stop end, foot, make 1'
const view = (room?: number) =>
  paperView(
    {
      name: 'face',
      title,
      titleValue: { shown: '17.8 mm', after: 'thick' },
      dimensions: [],
    },
    { scale: { paper: 1, model: 1 }, format, style, ...(room === undefined ? {} : { room }) },
  )
const titlesOf = (room?: number): readonly string[] =>
  view(room).marks.flatMap((mark) => (mark.kind === 'text' ? [words(mark)] : []))

describe('by hand: a title on two lines', () => {
  it('breaks at the comma or semicolon that makes its lines most alike', () => {
    expect(titlesOf(200)).toEqual([`${title}, 17.8 mm thick`])
    expect(titlesOf(120)).toEqual([
      'Fence, face to the loaf; datum: stop end,',
      'foot, make 1, 17.8 mm thick',
    ])
  })

  it('keeps to its room in bold letters, too', () => {
    for (const room of [120, 130, 140]) expect(view(room).extent.width).toBeLessThanOrEqual(room)
  })
})

describe('by hand: a sheet whose notes are too wide for its paper', () => {
  const sheet = (box: { readonly width: number; readonly height: number }, oneLine: boolean) =>
    drawSheet({
      name: 'part',
      label: 'Part',
      scaleWord: 'Scale',
      framed: true,
      details: [],
      box,
      projection: 'third-angle',
      format,
      ...(oneLine ? { onOneLine: true } : {}),
      top: {
        name: 'face',
        title: 'Face',
        lines: {
          visible: [],
          hidden: [],
          circles: [],
          hexagons: [],
          centres: [],
          axes: [],
          outline: { x: 0, y: 0, width: 0.3, height: 0.2 },
        },
        dimensions: [{ ...recess, at: { x: 0.29, y: 0.1 } }],
      },
    })

  // the note takes about 105 mm with its arrow: on the narrower paper it fits at no scale, on the wider at 1:50
  it.each([
    { width: 100, fits: false },
    { width: 120, fits: true },
  ])(
    'is drawn clearly on $width mm with them on two lines, and would have been a speck',
    ({ width, fits }) => {
      const box = { width, height: 150 }
      const [speck, clear] = [sheet(box, true), sheet(box, false)]
      expect(speck.widthMm <= width).toBe(fits)
      expect(speck.scale.model).toBeGreaterThan(10)
      expect(clear.scale.model).toBeLessThanOrEqual(10)
      expect(clear.widthMm).toBeLessThanOrEqual(box.width)
      expect(outside(clear.svg)).toEqual([])
    },
  )
})
