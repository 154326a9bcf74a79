/** A lever press that stands, on a real cutter and on four boards, and some that were spoiled on purpose. */
import { describe, expect, test } from 'vitest'
import { designGridCutter } from '../../src/fixtures/grid-cutter/design.ts'
import {
  designLeverPress,
  type LeverPress,
  type LeverPressInput,
  pressedFrameOf,
} from '../../src/fixtures/lever-press/design.ts'
import type { Part } from '../../src/geometry/part.ts'
import { randomSource } from '../../src/numerics/random.ts'
import { type LeverPressProof, proveLeverPress } from '../../src/solids/lever-press-proof.ts'
import { loadSolids } from '../../src/solids/solids.ts'
import { demoGridInput } from '../fixtures/grid-input.ts'
import { demoPressInput } from '../fixtures/lever-press-input.ts'
import { isSoak } from '../long.ts'

const solids = await loadSolids()
const design = (more: Partial<LeverPressInput> = {}): LeverPress =>
  designLeverPress({ ...demoPressInput, ...more })
const press = design()
const told = ({ findings }: LeverPressProof): string[] => [
  ...new Set(findings.map(({ code, values }) => [code, values.one, values.other].join(' '))),
]
const withPart = (key: string, change: (part: Part) => Partial<Part>): LeverPress => ({
  ...press,
  parts: press.parts.map((part) => (part.key === key ? { ...part, ...change(part) } : part)),
})
const moved = (part: Part, by: { readonly x?: number; readonly z?: number }): Partial<Part> => ({
  placements: part.placements.map((placement) => ({
    ...placement,
    origin: {
      ...placement.origin,
      x: placement.origin.x + (by.x ?? 0),
      z: placement.origin.z + (by.z ?? 0),
    },
  })),
})
const withGeometry = (more: Partial<LeverPress['geometry']>): LeverPress => ({
  ...press,
  geometry: { ...press.geometry, ...more },
})

describe('by hand: the press as designed', () => {
  const proof = proveLeverPress(press, solids)

  test('goes together, swings and goes down', () => expect(told(proof)).toEqual([]))

  test('16 pieces of wood, 6 of metal and 4 boards of the frame', () => {
    // lever, 2 posts, spine, 2 feet, 2 packers, board, 2 cleats, beam, 2 legs, 2 plates; 26 · 25 / 2
    expect(proof.pairs).toBe(325)
    // 2 packers both ways, board, 2 feet, 2 cleats, 2 legs on beam and on sides
    expect(proof.contacts).toBe(13)
  })

  test('15 mm over the block and beside the posts, 3 mm of packer beside the lever', () => {
    expect(proof.blockClearance).toBeCloseTo(0.015, 6)
    expect(proof.strokeClearance).toBeCloseTo(0.015, 6)
    expect(proof.postClearance).toBeCloseTo(0.003, 3)
  })

  test('about 15 mm between lever and bridge: bolt and corner come 3 mm nearer as the lever swings', () => {
    expect(proof.swingClearance).toBeGreaterThan(0.01)
    expect(proof.swingClearance).toBeLessThan(0.0151)
  })
})

describe('by hand: on the cutter of the block of 5 by 3 loaves', () => {
  test('stands on its handles, clear of pegs, shelves and stop blocks', () => {
    const cutter = designGridCutter(demoGridInput)
    const own = design({ frame: pressedFrameOf(cutter, 20) })
    expect(own.findings).toEqual([])
    expect(told(proveLeverPress(own, solids, cutter))).toEqual([])
  })
})

describe('by hand: presses that do not stand', () => {
  test('a lever that swings 15 degrees instead of 8.7 meets the bridge', () =>
    expect(told(proveLeverPress(withGeometry({ angle: 0.26 }), solids))).toContain(
      'press-lever-meets press-lever press-bridge-end',
    ))

  test('a block 20 mm higher is hit by the beam, 5 mm deep', () => {
    const frame = { ...press.input.frame, blockTop: press.input.frame.blockTop + 0.02 }
    const proof = proveLeverPress({ ...press, input: { ...press.input, frame } }, solids)
    expect(told(proof)).toEqual(['press-bridge-meets-block press-beam block'])
    expect(proof.findings[0]?.values.overlap).toBeCloseTo(0.005, 6)
  })

  test('posts 60 mm nearer are hit by a leg of the bridge', () =>
    expect(
      told(
        proveLeverPress(
          withPart('press-post', (part) => moved(part, { x: 0.06 })),
          solids,
        ),
      ),
    ).toContain('press-frame-meets-stand press-bridge-end press-post'))

  test('a board that hangs 2 mm below the cleats is no stand for them, and is in the spine', () => {
    const found = told(
      proveLeverPress(
        withPart('press-board', (part) => moved(part, { z: -0.002 })),
        solids,
      ),
    )
    expect(found).toContain('parts-overlap press-spine press-board')
    expect(found).toContain('parts-do-not-touch press-cleat press-board')
  })

  test('packers of 0.5 mm leave the lever no room between its posts', () => {
    const near = (part: Part): Partial<Part> => ({
      placements: part.placements.map((placement) => ({
        ...placement,
        origin: { ...placement.origin, y: placement.origin.y - Math.sign(placement.origin.y) * 0.0025 },
      })),
    })
    expect(told(proveLeverPress(withPart('press-post', near), solids))).toContain(
      'press-lever-meets press-lever press-post',
    )
  })

  test('a bar 100 mm past the link, swinging 17 degrees, brings fists down on the beam', () =>
    expect(
      told(proveLeverPress(withGeometry({ lever: press.geometry.arm + 0.1, angle: 0.3 }), solids)),
    ).toContain('press-hands-meet hand-bar press-beam'))
})

describe('by hand: what the sizes let pass, the solids let pass', () => {
  test('for frames, blocks and boards of many kinds', () => {
    const random = randomSource(3)
    const between = (low: number, high: number): number => low + (high - low) * random()
    let stood = 0
    for (let run = 0; run < (isSoak ? 25 : 6); run += 1) {
      const topAtEnd = between(0.12, 0.2)
      const endToEnd = between(0.22, 0.42)
      const width = between(0.22, 0.4)
      const any = design({
        push: between(280, 520),
        frame: {
          ...demoPressInput.frame,
          endToEnd,
          width,
          reach: endToEnd / 2 + between(0.051, 0.08),
          topAtEnd,
          topAtStart: topAtEnd + between(0.1, 0.28),
          blockTop: topAtEnd + between(0.05, 0.22),
          base: { length: endToEnd - 0.04, width: width - 0.04, height: 0.0889 },
        },
        lumber: { ...demoPressInput.lumber, width: between(0.06, 0.1) },
      })
      if (any.findings.some(({ severity }) => severity === 'stop')) continue
      stood += 1
      expect(told(proveLeverPress(any, solids))).toEqual([])
    }
    expect(stood).toBeGreaterThan(isSoak ? 8 : 1)
  }, 60_000)
})
