/** A grid cutter that stands, and cutters that were spoiled on purpose. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  designGridCutter,
  type GridCutter,
  type GridCutterInput,
} from '../../src/fixtures/grid-cutter/design.ts'
import type { GridWire } from '../../src/fixtures/grid-cutter/types.ts'
import type { HardwareRound } from '../../src/fixtures/wire-hardware.ts'
import type { Part } from '../../src/geometry/part.ts'
import { type GridCutterProof, proveGridCutter } from '../../src/solids/grid-cutter-proof.ts'
import { loadSolids } from '../../src/solids/solids.ts'
import { blockOf, demoGridInput, gridMouldInput, gridOnMould } from '../fixtures/grid-input.ts'
import { isSoak } from '../long.ts'

const solids = await loadSolids()
const design = (more: Partial<GridCutterInput> = {}): GridCutter =>
  designGridCutter({ ...demoGridInput, ...more })
const prove = (cutter: GridCutter): GridCutterProof => proveGridCutter(cutter, solids)
const told = ({ findings }: GridCutterProof): string[] => [
  ...new Set(findings.map(({ code, values }) => [code, values.one, values.other].filter(Boolean).join(' '))),
]
const withPart = (key: string, change: (part: Part) => Partial<Part>): GridCutter => {
  const cutter = design()
  return {
    ...cutter,
    parts: cutter.parts.map((part) => (part.key === key ? { ...part, ...change(part) } : part)),
  }
}
const withRounds = (change: (round: HardwareRound) => HardwareRound): GridCutter => {
  const cutter = design()
  return { ...cutter, rounds: cutter.rounds.map(change) }
}
const withWires = (change: (wire: GridWire) => Partial<GridWire>): GridCutter => {
  const cutter = design()
  return { ...cutter, wires: cutter.wires.map((wire) => ({ ...wire, ...change(wire) })) }
}
const base = (more: Partial<typeof gridMouldInput.base>): GridCutter =>
  designGridCutter(gridOnMould({ base: { ...gridMouldInput.base, ...more } }))

describe('by hand: the cutter as designed', () => {
  const proof = prove(design())

  test('goes down, cuts through and comes off', () => expect(told(proof)).toEqual([]))

  test('2 sides, 2 ends, 4 shelves, 4 stop blocks; 4 rods, 6 pegs of 3 pieces, 6 anchors of 2; 4 cleats and 4 sticks on a board', () => {
    // 12 and 34 solids, 4 cleats, 4 mark sticks and their board: 55 · 54 / 2
    expect(proof.pairs).toBe(1485)
    // 2 ends, 4 shelves, 4 stop blocks on ends, on sides and on the board, 4 cleats on it, 4 sticks, 6 housings
    expect(proof.contacts).toBe(32)
  })

  test('1 mm of clearance less 0.2 mm of bow beside the block, 1.5 mm beside the base', () => {
    expect(proof.blockClearance).toBeCloseTo(0.0008, 9)
    expect(proof.baseClearance).toBeCloseTo(0.0015, 9)
  })

  test('cleats are clear of all that moves by the 4 mm that are searched; a loaf at a corner has the 0.8 mm of the block', () => {
    expect(proof.cleatClearance).toBeCloseTo(0.004, 9) // 21 mm below, 15 beside
    expect(proof.stickClearance).toBeCloseTo(0.008, 9) // as far as is searched: 41 beside the handles
    expect(proof.loafClearance).toBeCloseTo(0.0008, 9)
  })

  test('short wires bowed by 4 mm below straight long ones: 5.08 - 3.58 - 0.5 mm where they cross', () => {
    // they cross 34.925 mm from the middle of a half of 107.46: bowed by 4 (1 - 0.1056) = 3.58 mm, so 1 mm of room;
    // chords of eight pieces lie a little lower there
    expect(proof.wireClearance).toBeCloseTo(0.001, 4)
  })

  test('in grooves: the long ones 10 - 8.5 - 0.25 = 1.25 mm above the bottom, the short ones 16 - 13.83 = 2.17', () => {
    // walls: (5 - 0.5) / 2 = 2.25 mm
    expect(proof.grooveClearance).toBeCloseTo(0.00125, 4)
  })
})

describe('by hand: wires in their holes', () => {
  test('1/16 in less half a millimetre: 0.544 mm all round, the prisms and the wire take a little', () => {
    const { holeClearance } = prove(design())
    expect(holeClearance).toBeLessThan((0.0015875 - 0.0005) / 2)
    expect(holeClearance).toBeGreaterThan(0.0005)
  })

  test('wires 0.5 mm above their holes rub on the wood', () =>
    expect(
      told(prove(withWires(({ layer, height }) => (layer === 'long' ? { height: height + 0.0005 } : {})))),
    ).toContain('grid-wire-meets-frame wire-long cutter-end'))
})

describe('by hand: others that stand', () => {
  test('all faces trimmed, by different amounts', () => {
    const trim = { start: 0.01, end: 0.006 }
    const cutter = designGridCutter({
      ...gridOnMould({
        block: blockOf(5, 3, { length: trim, width: { start: 0.008, end: 0.009 } }),
      }),
      handle: 0.11,
    })
    expect(cutter.findings).toEqual([])
    expect(told(prove(cutter))).toEqual([])
  })

  test('looped wires, an odd number of them', () =>
    expect(
      told(
        prove(
          designGridCutter({
            ...gridOnMould({ block: blockOf(4, 3) }),
            wire: { ...demoGridInput.wire, looped: true },
          }),
        ),
      ),
    ).toEqual([]))

  test('one layer alone, in either direction', () => {
    expect(told(prove(designGridCutter(gridOnMould({ block: blockOf(5, 1) }))))).toEqual([])
    expect(told(prove(designGridCutter(gridOnMould({ block: blockOf(1, 3) }))))).toEqual([])
  })

  test('a block that is wider than long: the short wires run through the ends', () => {
    const cutter = designGridCutter(gridOnMould({ block: blockOf(3, 5) }))
    expect(cutter.layers[0]).toMatchObject({ layer: 'short', runs: 'length' })
    expect(told(prove(cutter))).toEqual([])
  })

  test('pegs that change sides', () => {
    const block = {
      ...blockOf(5, 1),
      cutsAcrossLength: [-1.5, -0.5, 0.5, 1.5].map((step) => 0.142875 + step * 0.03),
    }
    const cutter = designGridCutter(gridOnMould({ block }))
    expect(cutter.layers[0]?.pegs.staggered).toBe(true)
    expect(told(prove(cutter))).toEqual([])
  })
})

describe('by hand: what the sizes let pass, the solids let pass', () => {
  test('for blocks, boards, wires and lags of many kinds', () => {
    const millimetres = (least: number, most: number) =>
      fc.integer({ min: 10 * least, max: 10 * most }).map((tenths) => tenths / 1e4)
    const trim = fc.record({
      start: fc.constantFrom(0, 0.008, 0.012),
      end: fc.constantFrom(0, 0.009),
    })
    let stood = 0
    fc.assert(
      fc.property(
        fc.record({
          columns: fc.integer({ min: 1, max: 6 }),
          rows: fc.integer({ min: 1, max: 4 }),
          length: trim,
          width: trim,
          side: millimetres(15, 24),
          clearance: millimetres(0.8, 1.4),
          lagShort: millimetres(1, 5),
          lagLong: millimetres(2, 7),
          diameter: fc.constantFrom(0.0004, 0.0005, 0.0006),
          looped: fc.boolean(),
          handle: fc.constantFrom(0.05, 0.12),
        }),
        (any) => {
          const board = { ...demoGridInput.panels.side, thickness: any.side }
          const cutter = designGridCutter({
            ...gridOnMould({
              block: blockOf(any.columns, any.rows, { length: any.length, width: any.width }),
            }),
            panels: { ...demoGridInput.panels, side: board, end: board, stop: board },
            clearance: any.clearance,
            handle: any.handle,
            wire: {
              ...demoGridInput.wire,
              diameter: any.diameter,
              lag: { short: any.lagShort, long: any.lagLong },
              looped: any.looped,
            },
          })
          expect(Number.isFinite(cutter.mass)).toBe(true)
          if (cutter.findings.length > 0) return
          stood += 1
          expect(told(prove(cutter))).toEqual([])
        },
      ),
      { numRuns: isSoak ? 25 : 5, seed: 7 },
    )
    expect(stood).toBeGreaterThan(isSoak ? 3 : 0)
  }, 120_000)
})

describe('by hand: cutters that do not stand', () => {
  test('ends 2 mm too long run into the bottoms of their dadoes, 1 mm each', () => {
    const proof = prove(
      withPart('cutter-end', (part) => ({
        length: part.length + 0.002,
        placements: part.placements.map((placement) => ({
          ...placement,
          origin: { ...placement.origin, y: placement.origin.y + 0.001 * Math.sign(placement.origin.y) },
        })),
      })),
    )
    expect(told(proof)).toContain('parts-overlap cutter-side cutter-end')
    expect(proof.findings.find(({ code }) => code === 'parts-overlap')?.values.overlap).toBeCloseTo(0.001, 6)
  })

  test('a stop block that stands 1 mm off its end is glued to the side alone', () =>
    expect(
      told(
        prove(
          withPart('stop-block', (part) => ({
            placements: part.placements.map((placement) => ({
              ...placement,
              origin: { ...placement.origin, x: placement.origin.x + 0.001 * Math.sign(placement.origin.x) },
            })),
          })),
        ),
      ),
    ).toEqual(['parts-do-not-touch stop-block cutter-end']))

  test('a block that bows out by 1.5 mm is hit by the frame, half a millimetre deep', () => {
    const proof = prove(design({ bow: 0.0015 }))
    expect(told(proof)).toEqual(
      expect.arrayContaining([
        'grid-frame-meets-block cutter-side block',
        'grid-frame-meets-block cutter-end block',
      ]),
    )
    expect(proof.findings.find(({ code }) => code === 'grid-frame-meets-block')?.values.overlap).toBeCloseTo(
      0.0005,
      6,
    )
  })

  test('a base 4 mm longer than the frame stops it', () => {
    const cutter = design()
    const { mould } = cutter.input
    const wide = mould.parts.map((part) =>
      part.key === 'base-top'
        ? {
            ...part,
            length: part.length + 0.007,
            placements: part.placements.map((placement) => ({
              ...placement,
              origin: { ...placement.origin, x: placement.origin.x - 0.0035 },
            })),
          }
        : part,
    )
    const proof = prove({ ...cutter, input: { ...cutter.input, mould: { ...mould, parts: wide } } })
    expect(told(proof)).toContain('grid-frame-meets-block cutter-end base-top')
  })

  test('grooves 4 mm wide: a frame pushed aside by 2 mm saws 0.25 mm into their walls', () => {
    const proof = prove(base({ grooveWidth: 0.004 }))
    expect(told(proof)).toEqual([
      'grid-wire-meets-base wire-short base-top',
      'grid-wire-meets-base wire-long base-top',
    ])
    // 0.25 of wire and 2 of way in half of 4 mm; the prism's corners add 0.01
    for (const { values } of proof.findings) expect(Number(values.overlap) * 1000).toBeCloseTo(0.25, 1)
  })

  test('grooves of 8 mm for ends that go 8.5 mm deep: half a millimetre and half a wire are in the wood', () => {
    const proof = prove(base({ grooveDepth: { shortWires: 0.016, longWires: 0.008 } }))
    expect(told(proof)).toEqual(['grid-wire-meets-base wire-long base-top'])
    expect(proof.findings[0]?.values.overlap).toBeCloseTo(0.00075, 4)
  })

  test('wires 2 mm beside their grooves meet the wall, pushed aside', () =>
    // and they rub in their holes
    expect(told(prove(withWires(({ layer, at }) => (layer === 'short' ? { at: at + 0.002 } : {}))))).toEqual([
      'grid-wire-meets-base wire-short base-top',
      'grid-wire-meets-frame wire-short cutter-side',
    ]))

  test('layers 4 mm apart: short wires bowed by 4 mm meet the long ones', () =>
    expect(told(prove(design({ layerGap: 0.004 })))).toEqual(['grid-wires-meet wire-short wire-long']))

  test('a button that hangs 20 mm lower turns in the shelf', () =>
    expect(
      told(
        prove(
          withRounds((round) =>
            round.key === 'peg-button'
              ? { ...round, centre: [round.centre[0], round.centre[1] - 0.012] }
              : round,
          ),
        ),
      ),
    ).toContain('grid-peg-cannot-turn peg-button side-shelf'))

  test('a post that reaches 60 mm down is below the edge of the frame', () => {
    const proof = prove(
      withRounds((round) => (round.key === 'peg-post' ? { ...round, from: round.to - 0.08 } : round)),
    )
    expect(told(proof)).toContain('grid-part-below-edge peg-post')
  })

  test('cleats 40 mm high are hit by the frame, which ends 33.012 above their board: 6.988 mm', () => {
    const proof = prove(withPart('base-cleat', () => ({ thickness: 0.04 })))
    expect(told(proof)).toContain('grid-frame-meets-block cutter-side base-cleat')
    expect(told(proof)).toContain('grid-frame-meets-block cutter-end base-cleat')
    expect(
      proof.findings.find(({ values }) => values.other === 'base-cleat' && values.one === 'cutter-side')
        ?.values.overlap,
    ).toBeCloseTo(0.0069875, 6)
    expect(proof.cleatClearance).toBeCloseTo(-0.0069875, 6)
  })

  test('cleats 1 mm further in stand in the foot of the base', () => {
    const proof = prove(
      withPart('base-cleat', (part) => ({
        placements: part.placements.map((placement) => ({
          ...placement,
          origin: { ...placement.origin, y: placement.origin.y - 0.001 },
        })),
      })),
    )
    expect(told(proof)).toEqual(['parts-overlap rail base-cleat'])
  })

  test('a cleat in a corner is under a stop block', () =>
    expect(
      told(
        prove(
          withPart('base-cleat', (part) => ({
            placements: part.placements.map((placement) => ({
              ...placement,
              origin: { ...placement.origin, y: placement.origin.y + (placement.u === '+y' ? 0.08 : 0) },
            })),
          })),
        ),
      ),
    ).toEqual(['parts-overlap stop-block base-cleat', 'grid-frame-meets-block stop-block base-cleat']))

  test('a board 1 mm lower leaves stop blocks and cleats in the air', () =>
    expect(
      told(
        prove(
          withPart('stand-board', (part) => ({
            placements: part.placements.map((placement) => ({
              ...placement,
              origin: { ...placement.origin, z: placement.origin.z - 0.001 },
            })),
          })),
        ),
      ),
    ).toEqual(['parts-do-not-touch base-cleat stand-board', 'parts-do-not-touch stop-block stand-board']))

  test('long wires that trail by 9 mm, 8.5 below the base, are 0.75 mm in the loaves when the frame stands', () => {
    const proof = prove(withWires(({ layer }) => (layer === 'long' ? { lag: 0.009 } : {})))
    const stays = proof.findings.find(({ code }) => code === 'grid-wire-stays-in-loaf')
    expect(stays?.values).toEqual({ one: 'wire-long', overlap: expect.closeTo(0.00075, 9) })
  })

  test('a block that bows out by 1.5 mm does not let go of its corner loaves', () =>
    expect(told(prove(design({ bow: 0.0015 })))).toEqual(
      expect.arrayContaining([
        'grid-loaf-does-not-come-out loaf cutter-side',
        'grid-loaf-does-not-come-out loaf cutter-end',
      ]),
    ))

  test('two pegs on one place take up the same room', () => {
    const cutter = design()
    const first = cutter.rounds.find(({ key }) => key === 'peg-body')!
    const proof = prove({
      ...cutter,
      rounds: [
        ...cutter.rounds,
        { ...first, of: 'another', centre: [first.centre[0] + 0.01, first.centre[1]] },
      ],
    })
    expect(told(proof)).toContain('parts-overlap peg-body peg-body')
  })
})
