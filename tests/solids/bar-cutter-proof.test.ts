/** A bar cutter that works, and cutters that were spoiled on purpose. */
import { describe, expect, test } from 'vitest'
import { designBarCutter } from '../../src/fixtures/bar-cutter/design.ts'
import type { BarCutter, BarCutterInput } from '../../src/fixtures/bar-cutter/types.ts'
import type { Part } from '../../src/geometry/part.ts'
import { type BarCutterProof, proveBarCutter } from '../../src/solids/bar-cutter-proof.ts'
import { loadSolids } from '../../src/solids/solids.ts'
import { demoCutterInput, slicesOf } from '../fixtures/bar-cutter-input.ts'
import { isSoak } from '../long.ts'

const solids = await loadSolids()
const design = (more: Partial<BarCutterInput> = {}): BarCutter =>
  designBarCutter({ ...demoCutterInput, ...more })
const prove = (cutter: BarCutter): BarCutterProof => proveBarCutter(cutter, solids)
const told = ({ findings }: BarCutterProof): string[] =>
  findings.map(({ code, values }) => `${code} ${values.one} ${values.other}`)
const depth = ({ findings }: BarCutterProof, code: string, other: string): number =>
  Number(findings.find((one) => one.code === code && one.values.other === other)?.values.overlap)
/** The cutter with one part made otherwise than designed. */
const spoiled = (key: string, change: (part: Part) => Partial<Part>): BarCutter => {
  const cutter = design()
  return {
    ...cutter,
    parts: cutter.parts.map((part) => (part.key === key ? { ...part, ...change(part) } : part)),
  }
}
const moved = (part: Part, by: { x?: number; y?: number; z?: number }): Part['placements'] =>
  part.placements.map((placement) => ({
    ...placement,
    origin: {
      x: placement.origin.x + (by.x ?? 0),
      y: placement.origin.y + (by.y ?? 0),
      z: placement.origin.z + (by.z ?? 0),
    },
  }))

describe('by hand: the bar cutter as designed', () => {
  const proof = prove(design())

  test('works', () => expect(told(proof)).toEqual([]))

  test('16 pieces of wood, hinge of 3; 7 pegs of 3 rounds, 14 pins, an anchor of 2', () =>
    // 56 · 55 / 2
    expect(proof.pairs).toBe(1540))

  test('risers, fence, end stop, posts, braces, rests, laps and a leaf touch', () =>
    // 2 + 2, 1 + 1, 1 + 1, (1 + 1) · 2, 2 + 2, 2 + 2, 2 + 2 + 2, 1
    expect(proof.contacts).toBe(27))

  test('105 degrees are 35 steps of 3, or 36 where the sum comes out a hair more', () => {
    expect([35, 36]).toContain(proof.steps)
    // 348.5 mm (1 / cos 1.5° − 1) = 348.5 · 0.000343
    expect(proof.stepExcess).toBeLessThan(0.00012)
  })

  test('a wire of 0.5 mm has (3.175 − 0.5) / 2 on either side, the frame its 4 mm but for a step', () => {
    expect(proof.wireClearance).toBeCloseTo(0.0013375, 6)
    expect(proof.frameClearance).toBeGreaterThan(0.0038)
    expect(proof.frameClearance).toBeLessThan(0.0041)
  })

  const others: [string, Partial<BarCutterInput>][] = [
    ['8 slices, all in pairs', { block: slicesOf(8, { start: 0, end: 0.012 }) }],
    ['both ends trimmed', { block: slicesOf(6, { start: 0.008, end: 0.012 }) }],
    ['slices of 20 mm, pegs at every second wire', { block: slicesOf(9, { start: 0, end: 0.012 }, 0.02) }],
    ['one wire', { block: slicesOf(2, { start: 0, end: 0 }) }],
    ['wires that trail by 6 mm', { wire: { ...demoCutterInput.wire, lag: 0.006 } }],
    ['a fence as high as the loaf', { fence: { ...demoCutterInput.fence, heightShare: 1 } }],
    ['a bar that is higher than wide on its side', { bar: { alongLength: 0.09, alongWidth: 0.04 } }],
    [
      'other boards',
      {
        panels: {
          base: { material: 'b', thickness: 0.0238, density: 680 },
          platform: { material: 'b', thickness: 0.0149, density: 680 },
          fence: { material: 'b', thickness: 0.0121, density: 680 },
          frame: { material: 'b', thickness: 0.0149, density: 680 },
          upright: { material: 'b', thickness: 0.0238, density: 680 },
        },
      },
    ],
  ]
  // each day those with a wire alone, with pegs at every second wire, and with other boards; in the soak all of them
  const daily = /^one wire|second wire$|^other boards/
  test.each(others.filter(([name]) => isSoak || daily.test(name)))('so does one with %s', (_, more) => {
    const cutter = design(more)
    expect(cutter.findings).toEqual([])
    expect(told(prove(cutter))).toEqual([])
  })
})

describe('by hand: cutters that are not as designed', () => {
  test('slots 5 mm too shallow stop the wires', () => {
    // bottom 5 mm higher than 2 mm below the wires: 3 mm into the wood, as far as a wire is thick
    const proof = prove(
      spoiled('cutter-fence', (part) => ({
        features: part.features.map((feature) =>
          feature.kind === 'notch' ? { ...feature, depth: feature.depth - 0.005 } : feature,
        ),
      })),
    )
    expect(told(proof)).toEqual(['bar-cutter-wire-touches cutter-wire cutter-fence'])
  })

  test('grooves 2 mm from their places meet the wires', () => {
    const proof = prove(
      spoiled('cutter-platform', (part) => ({
        features: part.features.map((feature) =>
          feature.kind === 'groove' ? { ...feature, at: feature.at + 0.002 } : feature,
        ),
      })),
    )
    expect(told(proof)).toEqual(['bar-cutter-wire-touches cutter-wire cutter-platform'])
    expect(proof.wireClearance).toBe(0)
  })

  test('a fence 7 mm too far out is hit by the front rail, 7 − 4 mm at its corner', () => {
    const proof = prove(spoiled('cutter-fence', (part) => ({ placements: moved(part, { y: 0.007 }) })))
    expect(told(proof)).toContain('bar-cutter-frame-hits cutter-front-rail cutter-fence')
    expect(told(proof)).toContain('parts-do-not-touch cutter-fence cutter-riser')
    expect(proof.frameClearance).toBe(0)
  })

  test('wires that trail by 5 mm, an eighth of an inch below the platform, stay in the loaf', () => {
    const cutter = design({
      wire: { ...demoCutterInput.wire, lag: 0.005 },
      platform: { ...demoCutterInput.platform, wireDepth: 0.003175 },
    })
    expect(cutter.findings.map(({ code }) => code)).toEqual(['bar-cutter-skin-left'])
    // 5 − 3.175 + 0.25
    const proof = prove(cutter)
    expect(told(proof)).toEqual(['bar-cutter-wire-stays-in-loaf cutter-wire loaf'])
    expect(depth(proof, 'bar-cutter-wire-stays-in-loaf', 'loaf')).toBeCloseTo(0.002075, 4)
  })

  test('wires that trail by 20 mm come up against the edges of their rails, 8 mm beyond the pins', () => {
    const { panels, platform, wire } = demoCutterInput
    const cutter = design({
      panels: { ...panels, platform: { material: 'b', thickness: 0.04, density: 680 } },
      platform: { ...platform, height: 0.11 },
      wire: { ...wire, lag: 0.02 },
    })
    expect(cutter.findings).toEqual([])
    // a sixth of the way up 20 · 5/9 = 11.1 mm in 20.2 mm, so 4.4 at the edge, and the wood is 4 above the wires
    expect(told(prove(cutter))).toEqual([
      'bar-cutter-wire-touches cutter-wire cutter-front-rail',
      'bar-cutter-wire-touches cutter-wire cutter-back-rail',
    ])
  })

  test('buttons that sweep 31 mm at a pitch of 28.575 run into each other', () => {
    const { peg } = demoCutterInput
    const cutter = design({ peg: { ...peg, button: { ...peg.button, diameter: 0.031 } } })
    const each: BarCutter = design()
    const wide = {
      ...each,
      rounds: each.rounds.map((round) =>
        round.key === 'peg-button' ? { ...round, diameter: 0.031 } : round,
      ),
    }
    expect(told(prove(wide))).toContain('parts-overlap peg-button peg-button')
    // the design takes every second peg out instead
    expect(cutter.staggered).toBe(true)
    expect(told(prove(cutter))).toEqual([])
  })

  test('a pin 3 mm beside its hole is in the wood, and its wire runs into it or loose', () => {
    const cutter = design()
    const [first] = cutter.rounds
    const proof = prove({
      ...cutter,
      rounds: cutter.rounds.map((round) =>
        round === first ? { ...round, centre: [round.centre[0] - 0.003, round.centre[1]] } : round,
      ),
    })
    expect(told(proof)).toContain('parts-overlap cutter-front-rail wire-pin')
  })

  test('a back stop 5 mm too near is hit by the arms', () => {
    const proof = prove(spoiled('cutter-back-stop', (part) => ({ placements: moved(part, { y: 0.005 }) })))
    expect(told(proof)).toContain('bar-cutter-frame-hits cutter-arm cutter-back-stop')
  })

  test('a hinge post 1 mm too high stands in the leaf', () => {
    const proof = prove(spoiled('cutter-hinge-post', (part) => ({ width: part.width + 0.001 })))
    expect(told(proof)).toContain('parts-overlap cutter-hinge-post hinge-leaf')
    expect(depth(proof, 'parts-overlap', 'hinge-leaf')).toBeCloseTo(0.001, 6)
  })

  test('rests 1 mm short leave the arms in the air', () =>
    expect(told(prove(spoiled('cutter-rest', (part) => ({ width: part.width - 0.001 }))))).toEqual([
      'parts-do-not-touch cutter-arm cutter-rest',
    ]))

  test('rests 1 mm long are in the arms', () => {
    const proof = prove(spoiled('cutter-rest', (part) => ({ width: part.width + 0.001 })))
    expect(told(proof)).toContain('bar-cutter-frame-hits cutter-arm cutter-rest')
    expect(depth(proof, 'bar-cutter-frame-hits', 'cutter-rest')).toBeCloseTo(0.001, 4)
  })

  test('an end stop at the other end as well keeps the bars in', () => {
    const proof = prove(
      spoiled('cutter-end-stop', (part) => {
        const [own] = part.placements
        return {
          count: 2,
          placements: [own!, { ...own!, origin: { ...own!.origin, x: 0.222, z: own!.origin.z + 0.006 } }],
        }
      }),
    )
    expect(told(proof)).toContain('bar-cutter-bars-do-not-come-out loaf cutter-end-stop')
  })

  test('a frame without clearance meets the fence', () => {
    const { frame } = demoCutterInput
    const proof = prove(design({ frame: { ...frame, clearance: -0.002 } }))
    expect(told(proof)).toContain('bar-cutter-frame-hits cutter-front-rail cutter-fence')
    expect(depth(proof, 'bar-cutter-frame-hits', 'cutter-fence')).toBeGreaterThan(0.001)
  })

  test('two wires at one place touch', () => {
    const cutter = design()
    const [, second, third] = cutter.wires
    const proof = prove({
      ...cutter,
      wires: cutter.wires.map((wire) => (wire === third ? { ...wire, path: second!.path } : wire)),
    })
    expect(told(proof)).toContain('bar-cutter-wire-touches cutter-wire cutter-wire')
  })
})
