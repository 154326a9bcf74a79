import { describe, expect, it } from 'vitest'
import { crosses, overlaps } from '../../src/drawing/lettering.ts'
import { mouldDrawings } from '../../src/drawing/mould/mould-drawings.ts'
import type { MouldDrawingWords } from '../../src/drawing/mould/mould-words.ts'
import type { Drawing, LengthFormatter, Projection, Rect } from '../../src/drawing/types.ts'
import { type BlockMouldInput, designBlockMould } from '../../src/fixtures/block-mould.ts'
import {
  crowdedMouldInput,
  demoMouldInput,
  inch,
  linedMouldInput,
  tinyMouldInput,
} from '../fixtures/mould-input.ts'

const words: MouldDrawingWords = {
  scale: 'Scale',
  frontView: 'Front view',
  topView: 'Top view, lid off',
  topViewPlain: 'Top view',
  sideView: 'Right side',
  section: 'Section',
  detail: 'Detail',
  edgeView: 'Bottom edge',
  endEdgeView: 'Right edge',
  grain: 'grain',
  make: 'make',
  face: { side: 'Inside face', end: 'Inside face', 'base-top': 'Upper face' },
  through: 'through',
  bevel: '× 45°',
  recess: 'washer recess',
  notch: 'notch',
  deep: 'deep',
  fold: 'fold',
  scribe: 'line',
  thick: 'thick',
  seam: 'Seam',
  crossing: 'Crossing',
  sealNotes: {
    side: 'side',
    lining: 'lining',
    bead: 'bead of jelly',
    long: 'long strip, flush',
    short: 'short strip, notched',
  },
  glueUps: { strip: 'A side with its strip', base: 'The base on its rails', lid: 'The lid with its cleats' },
  labels: { assembly: 'Block mould, three views & a "section"' },
}

const millimetres: LengthFormatter = (metres) => ({
  shown: `${Math.round(metres * 10000) / 10} mm`,
})

/** Nearest 1/64 in, the longest fractions that a drawing has to hold. */
const inches: LengthFormatter = (metres) => {
  const total = Math.round((metres / inch) * 64)
  const whole = Math.floor(total / 64)
  let top = total % 64
  let bottom = 64
  if (top === 0) return { shown: `${whole} in` }
  while (top % 2 === 0) {
    top /= 2
    bottom /= 2
  }
  return { shown: whole > 0 ? `${whole}\u202F${top}/${bottom} in` : `${top}/${bottom} in` }
}

const box = { width: 173, height: 206 }
const draw = (input: BlockMouldInput, projection: Projection, formatter: LengthFormatter) =>
  mouldDrawings(designBlockMould(input), { box, formatter, exact: millimetres, projection, words })

const { block } = demoMouldInput
const trimmed: BlockMouldInput = {
  ...demoMouldInput,
  block: {
    ...block,
    length: block.length + 0.008,
    cutsAcrossLength: [0.004, ...block.cutsAcrossLength.map((cut) => cut + 0.004), block.length + 0.004],
    trim: { ...block.trim, length: { start: 0.004, end: 0.004 } },
  },
}

const recessed: BlockMouldInput = {
  ...linedMouldInput,
  rods: { ...demoMouldInput.rods, washerRecess: 0.002 },
}

const cases: readonly (readonly [string, BlockMouldInput, readonly Drawing[]])[] = [
  ['inches, third angle', demoMouldInput, draw(demoMouldInput, 'third-angle', inches)],
  ['millimetres, first angle', demoMouldInput, draw(demoMouldInput, 'first-angle', millimetres)],
  ['many bars', crowdedMouldInput, draw(crowdedMouldInput, 'third-angle', inches)],
  ['many bars, first angle', crowdedMouldInput, draw(crowdedMouldInput, 'first-angle', millimetres)],
  ['few bars', tinyMouldInput, draw(tinyMouldInput, 'third-angle', inches)],
  ['trimmed faces', trimmed, draw(trimmed, 'third-angle', inches)],
  ['washers let in, lined', recessed, draw(recessed, 'first-angle', millimetres)],
]

describe.each(cases)('by hand: %s', (_, input, drawings) => {
  const mould = designBlockMould(input)

  it('fits the box', () => {
    for (const drawing of drawings) {
      expect(drawing.widthMm, drawing.name).toBeLessThanOrEqual(box.width)
      expect(drawing.heightMm, drawing.name).toBeLessThanOrEqual(box.height)
    }
  })

  it('keeps every value clear of every other and on the paper', () => {
    for (const drawing of drawings)
      drawing.dimensions.forEach((a, index) => {
        expect(a.box.x, a.name).toBeGreaterThanOrEqual(0)
        expect(a.box.y, a.name).toBeGreaterThanOrEqual(0)
        expect(a.box.x + a.box.width, a.name).toBeLessThanOrEqual(drawing.widthMm)
        expect(a.box.y + a.box.height, a.name).toBeLessThanOrEqual(drawing.heightMm)
        for (const b of drawing.dimensions.slice(index + 1))
          expect(overlaps(a.box, b.box), `${a.name} and ${b.name}`).toBe(false)
      })
  })

  it('draws no outline through a value', () => {
    for (const drawing of drawings)
      for (const segment of lineSegments(drawing.svg, 'visible|section|break'))
        for (const dimension of drawing.dimensions)
          expect(touches(segment, dimension.box), `${drawing.name} ${dimension.name}`).toBe(false)
  })

  it('draws no line of a dimension or cut through the value of another', () => {
    for (const drawing of drawings)
      for (const group of drawing.svg.matchAll(/<g class="dimension-group" data-name="(.*?)">(.*?)<\/g>/g))
        for (const segment of lineSegments(group[2]!, 'extension|dimension'))
          for (const { name, box: rect } of drawing.dimensions)
            if (name !== group[1] && !group[2]!.includes(`data-name="${name}"`))
              expect(touches(segment, rect), `${group[1]} through ${name}`).toBe(false)
  })

  it('locates every feature once and only once', () => {
    for (const part of mould.parts) {
      const drawing = drawings.find((one) => one.name === `part.${part.key}`)!
      const located = drawing.dimensions.flatMap((dimension) => dimension.locates).sort()
      const wanted = part.features.flatMap((feature) => {
        const own = (what: string) => `${feature.name}.${what}`
        if (feature.kind === 'hole')
          return [
            ...['u', 'v', 'diameter'].map(own),
            ...(feature.counterbore ? ['recess', 'recess-depth'].map(own) : []),
          ]
        if (feature.kind === 'notch') return ['at', 'size', 'depth'].map(own)
        if (feature.kind === 'fold') return [own('at')]
        if (feature.kind === 'chamfer') return [own('size')]
        // the wall of a rebate is its place and its size in one
        return feature.kind === 'rebate' ? [own('at'), own('depth')] : [own('at'), own('size'), own('depth')]
      })
      expect(located, part.key).toEqual(wanted.sort())
    }
  })

  it('names every dimension once, with its value', () => {
    const names = drawings.flatMap((drawing) => drawing.dimensions.map((dimension) => dimension.name))
    expect(new Set(names).size).toBe(names.length)
    for (const drawing of drawings)
      for (const { name } of drawing.dimensions) expect(drawing.svg).toContain(`data-name="${name}"`)
  })

  it('writes balanced elements and plain numbers', () => {
    for (const { svg } of drawings) {
      expect(unclosed(svg)).toEqual([])
      expect(svg).not.toMatch(/NaN|Infinity|undefined|\d\.\d{4,}/)
    }
  })
})

describe('by hand: what the dimensions say', () => {
  const drawings = cases[0]![2]
  const value = (name: string) =>
    drawings.flatMap((drawing) => drawing.dimensions).find((dimension) => dimension.name === name)!

  it('measures the geometry', () => {
    // 11 1/4 in + 2 x 17.8 mm + 3 in = 397.55 mm, to the nearest 1/64 in 15 21/32 (15.6516 in)
    expect(value('part.side.length').value).toBeCloseTo(0.39755, 6)
    expect(value('part.side.length').shown).toBe('15\u202F21/32 in')
    expect(value('assembly.inside-length').shown).toBe('11\u202F1/4 in')
    expect(value('assembly.inside-width').shown).toBe('8\u202F1/4 in')
    expect(value('assembly.base-height').shown).toBe('3\u202F1/2 in')
    expect(value('assembly.soap-height').shown).toBe('8\u202F3/8 in')
    expect(value('part.side.dado-1.at').shown).toBe('1\u202F1/2 in')
    expect(value('part.side.dado-1.depth').shown).toBe('1/4 in')
    expect(value('part.side.rod-1-1.u').shown).toBe('3/4 in')
    // 2 1/4 in - 0.5 mm to the groove's middle
    expect(value('part.base-top.groove-x-1.at').value).toBeCloseTo(0.05665, 9)
  })

  it('gives only the fraction its fraction figures, and text that copies as typed', () => {
    const svg = drawings[0]!.svg
    expect(svg).toContain('11\u202F<tspan class="frac">1/4</tspan> in</text>')
  })

  it('draws the assembly at 1:5, the inside length 57.15 mm long', () => {
    // 11 1/4 in = 285.75 mm, at 1:5 57.15 mm, between the two extension lines of the dimension
    expect(drawings[0]!.scale).toEqual({ paper: 1, model: 5 })
    const group = /data-name="assembly\.inside-length">(.*?)<\/g>/.exec(drawings[0]!.svg)![1]!
    const xs = [.../class="extension" d="(.*?)"/.exec(group)![1]!.matchAll(/M([\d.]+) /g)].map((match) =>
      Number(match[1]),
    )
    expect(Math.abs(xs[1]! - xs[0]!)).toBeCloseTo(57.15, 2)
  })

  it('is the same on every run', () => {
    expect(draw(demoMouldInput, 'third-angle', inches)).toEqual(drawings)
  })
})

interface Segment {
  readonly x1: number
  readonly y1: number
  readonly x2: number
  readonly y2: number
}

function lineSegments(svg: string, kinds: string): readonly Segment[] {
  return [...svg.matchAll(new RegExp(`class="(?:${kinds})" d="(.*?)"`, 'g'))].flatMap((path) =>
    [...path[1]!.matchAll(/M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/g)].map((match) => {
      const [x1, y1, x2, y2] = match.slice(1).map(Number) as [number, number, number, number]
      return { x1, y1, x2, y2 }
    }),
  )
}

const touches = ({ x1, y1, x2, y2 }: Segment, rect: Rect): boolean =>
  crosses({ x: x1, y: y1 }, { x: x2, y: y2 }, rect)

function unclosed(svg: string): readonly string[] {
  const open: string[] = []
  for (const [, slash, name, rest] of svg.matchAll(/<(\/?)([a-z]+)((?:\s+[a-zA-Z:-]+="[^"<>]*")*\s*\/?)>/g)) {
    if (slash === '/') {
      if (open.pop() !== name) return [...open, `/${name}`]
    } else if (!rest!.endsWith('/')) open.push(name!)
  }
  const left = svg.replace(/<\/?[a-z]+(?:\s+[a-zA-Z:-]+="[^"<>]*")*\s*\/?>/g, '')
  return /[<>]|&(?!(?:amp|lt|gt|quot);)/.test(left) ? [...open, 'stray markup'] : open
}
