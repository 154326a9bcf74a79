import { describe, expect, it } from 'vitest'
import { mouldDrawings } from '../../src/drawing/mould/mould-drawings.ts'
import type { MouldDrawingWords } from '../../src/drawing/mould/mould-words.ts'
import type { Drawing, LengthFormatter, Projection } from '../../src/drawing/types.ts'
import { type BlockMouldInput, designBlockMould } from '../../src/fixtures/block-mould.ts'
import {
  crowdedMouldInput,
  demoMouldInput,
  linedMouldInput,
  tinyMouldInput,
} from '../fixtures/mould-input.ts'
import { inches, itDrawsWell, millimetres } from './drawing-checks.ts'

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

describe.each(cases)('by hand: %s', (_, input, drawings) =>
  itDrawsWell(drawings, designBlockMould(input).parts, box),
)

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
