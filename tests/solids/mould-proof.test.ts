/** A mould that stands, and moulds that were spoiled on purpose. */
import { describe, expect, test } from 'vitest'
import { blockDimensions } from '../../src/fixtures/block-dimensions.ts'
import { type BlockMould, type BlockMouldInput, designBlockMould } from '../../src/fixtures/block-mould.ts'
import type { Part, Round } from '../../src/geometry/part.ts'
import { type MouldProof, proveMould } from '../../src/solids/mould-proof.ts'
import { loadSolids } from '../../src/solids/solids.ts'
import { demoMouldInput } from '../fixtures/mould-input.ts'

const solids = await loadSolids()
const design = (more: Partial<BlockMouldInput> = {}): BlockMould =>
  designBlockMould({ ...demoMouldInput, ...more })
const prove = (mould: BlockMould): MouldProof => proveMould(mould, solids)
const told = ({ findings }: MouldProof): string[] => [
  ...new Set(findings.map(({ code, values }) => `${code} ${values.one} ${values.other}`)),
]
/** The mould with one part made otherwise than designed. */
const spoiled = (key: string, change: (part: Part) => Partial<Part>): BlockMould => {
  const mould = design()
  return {
    ...mould,
    parts: mould.parts.map((part) => (part.key === key ? { ...part, ...change(part) } : part)),
  }
}
const moved = (part: Part, by: { x?: number; y?: number; z?: number }): Part['placements'] =>
  part.placements.map((placement) => ({
    ...placement,
    origin: {
      x: placement.origin.x + (by.x ?? 0) * Math.sign(placement.origin.x || 1),
      y: placement.origin.y + (by.y ?? 0) * Math.sign(placement.origin.y || 1),
      z: placement.origin.z + (by.z ?? 0),
    },
  }))

describe('by hand: the mould as designed', () => {
  const proof = prove(design())

  test('stands', () => expect(told(proof)).toEqual([]))

  test('2 sides, 2 strips, lid, 2 ends, base top, 3 rails, 2 cleats, 2 + 4 groove strips; 6 rods with 2 washers and 2 nuts', () => {
    // 19 and 30 solids: 49 · 48 / 2
    expect(proof.pairs).toBe(1176)
    // 2 ends, 2 strips, 2 cleats, 3 rails, 6 groove strips, 12 washers, 12 nuts
    expect(proof.contacts).toBe(39)
  })

  test('1/4 in rods in holes of 9/32 in: (7.144 − 6.35) / 2 = 0.397 mm of room, the prisms take a little', () => {
    expect(proof.rodClearance).toBeLessThan(0.000397)
    expect(proof.rodClearance).toBeGreaterThan(0.00038)
  })

  test('the base has the half millimetre that it was given', () =>
    expect(proof.baseClearance).toBeCloseTo(0.0005, 7))

  test('with a lining of 1 mm in a gap of 1.2 mm, the base has 0.2 mm of room to it, and all comes apart', () => {
    const { panels, base, rods } = demoMouldInput
    const lined = prove(
      design({
        panels: { ...panels, lining: { material: 'sheet', thickness: 0.001, density: 905 } },
        base: { ...base, clearance: 0.0012 },
        rods: { ...rods, washerRecess: 0.002 },
      }),
    )
    expect(told(lined)).toEqual([])
    expect(lined.baseClearance).toBeCloseTo(0.0002, 7)
    // four leaves more than before: 53 · 52 / 2
    expect(lined.pairs).toBe(1378)
  })

  test('with all four faces trimmed the edge bars come out too', () => {
    const { block } = demoMouldInput
    const trim = { start: 0.005, end: 0.006 }
    const trimmed = blockDimensions({
      columns: 5,
      rows: 3,
      slices: 7,
      bar: { alongLength: 0.057, alongWidth: 0.07, thickness: 0.028 },
      wireAllowance: { length: 0, width: 0, height: 0 },
      trim: { length: trim, width: trim, height: block.trim.height },
    })
    const mould = design({ block: trimmed })
    expect(mould.findings).toEqual([])
    // 4 + 2 grooves between bars, a step at each of the four faces, each of another width
    expect(
      mould.parts
        .filter(({ key }) => /^(groove-strip|edge-bar)/.test(key))
        .map(({ key, count }) => `${count} ${key}`)
        .sort(),
    ).toEqual([
      '1 edge-bar-long',
      '1 edge-bar-long-2',
      '1 edge-bar-short',
      '1 edge-bar-short-2',
      '2 groove-strip-long',
      '4 groove-strip-short',
    ])
    expect(told(prove(mould))).toEqual([])
  })

  test('without base rods, with deep dadoes, thin panels and a wide lip it stands as well', () => {
    const thin = { material: 'b', thickness: 0.012, density: 680 }
    const { panels, dado, rods, base } = demoMouldInput
    expect(told(prove(design({ rods: { ...rods, baseRodCount: 0 } })))).toEqual([])
    expect(told(prove(design({ dado: { ...dado, depth: 0.008 } })))).toEqual([])
    expect(told(prove(design({ panels: { ...panels, end: thin, lid: thin, rail: thin } })))).toEqual([])
    expect(
      told(prove(design({ lip: 0.06, base: { ...base, railCount: 4 }, rods: { ...rods, baseRodCount: 0 } }))),
    ).toEqual([])
  })
})

describe('by hand: parts that are not as designed', () => {
  test('ends 2 mm too long run into the bottoms of their dadoes, 1 mm each', () => {
    const proof = prove(
      spoiled('end', (part) => ({
        length: part.length + 0.002,
        placements: moved(part, {}).map((placement) => ({
          ...placement,
          origin: { ...placement.origin, y: placement.origin.y + 0.001 * Math.sign(placement.origin.y) },
        })),
      })),
    )
    expect(told(proof)).toContain('parts-overlap side end')
    expect(proof.findings.find(({ code }) => code === 'parts-overlap')?.values.overlap).toBeCloseTo(0.001, 6)
  })

  test('a strip that stands 1 mm off is not glued to anything', () =>
    expect(told(prove(spoiled('strip', (part) => ({ placements: moved(part, { y: 0.001 }) }))))).toEqual([
      'parts-do-not-touch strip side',
    ]))

  test('rails half a millimetre short carry nothing', () =>
    expect(told(prove(spoiled('rail', (part) => ({ width: part.width - 0.0005 }))))).toEqual([
      'parts-do-not-touch rail base-top',
    ]))

  test('a side whose holes were drilled 3 mm away holds no rod', () => {
    const proof = prove(
      spoiled('side', (part) => ({
        features: part.features.map((feature) =>
          feature.kind === 'hole' ? { ...feature, v: feature.v + 0.003 } : feature,
        ),
      })),
    )
    expect(told(proof)).toEqual(
      expect.arrayContaining(['parts-overlap side rod', 'rod-without-room rod side']),
    )
  })

  test('a rod above the rim is outside of the wood', () => {
    const mould = design()
    const high = mould.outside.height + 0.002
    const up = (round: Round): Round => ({ ...round, centre: [round.centre[0], high] })
    const first = mould.rounds[0]?.centre
    const proof = prove({
      ...mould,
      rounds: mould.rounds.map((round) =>
        first && round.centre[0] === first[0] && round.centre[1] === first[1] ? up(round) : round,
      ),
    })
    expect(told(proof)).toContain('rod-outside-part rod side')
  })

  test('a base that reaches into the dadoes keeps the sides from coming off', () => {
    // wider than the inside by 4 mm: 2 mm into each side
    const proof = prove(
      spoiled('base-top', (part) => ({
        width: part.width + 0.006,
        placements: part.placements.map((placement) => ({
          ...placement,
          origin: { ...placement.origin, y: placement.origin.y - 0.003 },
        })),
      })),
    )
    expect(told(proof)).toEqual(expect.arrayContaining(['parts-overlap side base-top']))
  })

  test('cleats that are longer than the mould is wide keep the lid from going in', () => {
    const proof = prove(
      spoiled('cleat', (part) => ({
        length: part.length + 0.01,
        placements: part.placements.map((placement) => ({
          ...placement,
          origin: { ...placement.origin, y: placement.origin.y - 0.005 },
        })),
      })),
    )
    expect(told(proof)).toEqual(
      expect.arrayContaining(['parts-overlap side cleat', 'mould-does-not-come-apart cleat side']),
    )
  })

  test('a block that is 4 mm longer than the inside holds the ends', () => {
    const mould = design()
    const proof = prove({ ...mould, lined: { ...mould.lined, length: mould.lined.length + 0.004 } })
    expect(told(proof)).toContain('mould-does-not-come-apart end block')
  })

  test('a short strip without its notches fills the room of the long ones, 1/4 in deep', () => {
    const proof = prove(spoiled('groove-strip-short', () => ({ features: [] })))
    expect(told(proof)).toContain('parts-overlap groove-strip-long groove-strip-short')
    expect(proof.findings.find(({ code }) => code === 'mould-does-not-come-apart')?.values.one).toBe(
      'groove-strip-long',
    )
  })

  test('a short strip 2 mm higher than its groove is held down by nothing but the block, and stands in it', () => {
    const proof = prove(spoiled('groove-strip-short', (part) => ({ width: part.width + 0.002 })))
    expect(told(proof)).toContain('mould-does-not-come-apart groove-strip-short block')
  })

  test('a lining thicker than its gap leaves no room for the base', () => {
    const mould = design({
      panels: { ...demoMouldInput.panels, lining: { material: 'sheet', thickness: 0.001, density: 905 } },
    })
    expect(mould.findings.map(({ code }) => code)).toContain('mould-base-does-not-enter')
    expect(told(prove(mould))).toContain('parts-overlap base-top lining-side')
  })
})
