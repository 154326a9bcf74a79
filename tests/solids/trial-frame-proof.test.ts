/** A trial frame that stands, and some that were spoiled on purpose. */
import { describe, expect, test } from 'vitest'
import { designTrialFrame, type TrialFrame } from '../../src/fixtures/trial-frame/design.ts'
import type { Part } from '../../src/geometry/part.ts'
import { randomSource } from '../../src/numerics/random.ts'
import { loadSolids } from '../../src/solids/solids.ts'
import { proveTrialFrame, type TrialFrameProof } from '../../src/solids/trial-frame-proof.ts'
import { demoTrialInput } from '../fixtures/trial-frame-input.ts'

const solids = await loadSolids()
const trial = designTrialFrame(demoTrialInput)
const told = ({ findings }: TrialFrameProof): string[] => [
  ...new Set(findings.map(({ code, values }) => [code, values.one, values.other].join(' '))),
]
const withPart = (key: string, change: (part: Part) => Partial<Part>): TrialFrame => ({
  ...trial,
  parts: trial.parts.map((part) => (part.key === key ? { ...part, ...change(part) } : part)),
})

describe('by hand: the trial frame as designed', () => {
  const proof = proveTrialFrame(trial, solids)

  test('goes together and passes over block and base', () => expect(told(proof)).toEqual([]))

  test('2 cheeks, 2 spreaders, 2 shelves, top, 2 feet; 2 rods, 3 pegs of 3 pieces, 3 anchors of 2', () => {
    // 9 and 17 solids: 26 · 25 / 2
    expect(proof.pairs).toBe(325)
    // 2 spreaders, 2 shelves, 2 feet, 2 cheeks, 3 housings
    expect(proof.contacts).toBe(11)
  })

  test('3 mm beside block and base, 1 mm under the wires, half a millimetre in the holes', () => {
    expect(proof.clearance).toBeCloseTo(0.003, 9)
    expect(proof.grooveClearance).toBeCloseTo(0.001, 4)
    // (1.5875 - 0.508) / 2 = 0.54, prisms take a little
    expect(proof.holeClearance).toBeCloseTo(0.00053, 4)
  })
})

describe('by hand: trials that do not stand', () => {
  test('a block 8 mm longer is hit by both spreaders, 1 mm deep', () => {
    const block = { ...demoTrialInput.block, length: 0.148 }
    const proof = proveTrialFrame({ ...trial, input: { ...trial.input, block } }, solids)
    expect(told(proof)).toEqual(['trial-frame-meets-block trial-spreader block'])
    expect(proof.findings[0]?.values.overlap).toBeCloseTo(0.001, 9)
  })

  test('a foot 5 mm too high: the cheeks are in it', () =>
    expect(
      told(
        proveTrialFrame(
          withPart('trial-foot', ({ width }) => ({ width: width + 0.005 })),
          solids,
        ),
      ),
    ).toContain('parts-overlap trial-cheek trial-foot'))

  test('grooves 4 mm shallower: wires are in the wood', () =>
    expect(
      told(
        proveTrialFrame(
          withPart('trial-top', ({ features }) => ({
            features: features.map((one) =>
              one.kind === 'groove' ? { ...one, depth: one.depth - 0.004 } : one,
            ),
          })),
          solids,
        ),
      ),
    ).toEqual(['trial-wire-meets-base wire trial-top']))

  test('wires 1 mm above their holes rub on the cheeks', () =>
    expect(
      told(
        proveTrialFrame(
          { ...trial, wires: trial.wires.map((one) => ({ ...one, height: one.height + 0.001 })) },
          solids,
        ),
      ),
    ).toContain('trial-wire-meets-frame wire trial-cheek'))

  test('a button 14 mm lower turns in the shelf', () =>
    expect(
      told(
        proveTrialFrame(
          {
            ...trial,
            rounds: trial.rounds.map((one) =>
              one.key === 'peg-button' ? { ...one, centre: [one.centre[0], one.centre[1] - 0.014] } : one,
            ),
          },
          solids,
        ),
      ),
    ).toContain('trial-peg-cannot-turn peg-button trial-shelf'))
})

describe('by hand: what the sizes let pass, the solids let pass', () => {
  test('for blocks, boards and wires of many kinds', () => {
    const random = randomSource(5)
    const between = (low: number, high: number): number => low + (high - low) * random()
    let stood = 0
    for (let run = 0; run < 12; run += 1) {
      const cheek = { ...demoTrialInput.panels.cheek, thickness: between(0.015, 0.024) }
      const spacing = between(0.025, 0.05)
      const any = designTrialFrame({
        ...demoTrialInput,
        block: { ...demoTrialInput.block, length: 4 * spacing, width: between(0.08, 0.16) },
        spacing,
        window: between(0.01, 0.05),
        clearance: between(0.002, 0.005),
        panels: { ...demoTrialInput.panels, cheek, spreader: cheek },
      })
      if (any.findings.some(({ severity }) => severity === 'stop')) continue
      stood += 1
      expect(told(proveTrialFrame(any, solids))).toEqual([])
    }
    expect(stood).toBeGreaterThan(3)
  }, 60_000)
})
