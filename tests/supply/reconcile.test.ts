import { describe, expect, it } from 'vitest'
import {
  balanceBars,
  balanceBatter,
  balancePackaging,
  reconcileMaterials,
  releaseFindings,
} from '../../src/supply/reconcile.ts'

const codes = (findings: readonly { readonly code: string }[]): string[] => findings.map(({ code }) => code)

describe('by hand: planned and weighed', () => {
  const planned = [
    { material: 'olive', mass: 3.603, draws: 2, division: 0.001 },
    { material: 'castor', mass: 0.1, draws: 1, division: 0.001 },
    { material: 'beads', mass: 1.329, draws: 3, division: 0.001 },
  ]

  it('adds up the lots of a material, and says how far off they are', () => {
    const { materials, findings } = reconcileMaterials(planned, [
      { lot: 'O-1', material: 'olive', amount: 2.1 },
      { lot: 'R-1', material: 'castor', amount: 0.101 },
      { lot: 'O-2', material: 'olive', amount: 1.5 },
      { lot: 'N-1', material: 'beads', amount: 1.329 },
    ])
    // 2.1 + 1.5 − 3.603; 0.5 % of 3.603 is 0.018
    expect(materials[0]).toMatchObject({ weighed: 3.6, off: -0.003 })
    expect(materials[0]?.allowed).toBeCloseTo(0.018015, 9)
    expect(materials[0]?.lots.map(({ lot }) => lot)).toEqual(['O-1', 'O-2'])
    // 0.5 % of 100 g is half a gram, which the scale does not show: one draw may be one gram off
    expect(materials[1]).toMatchObject({ off: 0.001, allowed: 0.001 })
    expect(findings).toEqual([])
  })

  it('asks for a decision beyond half a percent', () => {
    const of = (amount: number) =>
      reconcileMaterials(planned.slice(2), [{ lot: 'N-1', material: 'beads', amount }]).findings
    // 1.329 · 0.005 = 6.645 g
    expect(of(1.3356)).toEqual([])
    expect(of(1.3357)).toEqual([
      {
        code: 'weighed-off-plan',
        severity: 'warn',
        values: { key: 'beads', what: 'beads', planned: 1.329, weighed: 1.3357 },
      },
    ])
    expect(codes(of(1.3223))).toEqual(['weighed-off-plan'])
  })

  it('names what has no lot, and what nobody planned; of a batch that nobody typed it says nothing', () => {
    const { materials, findings } = reconcileMaterials(planned.slice(0, 2), [
      { lot: 'O-1', material: 'olive', amount: 3.603 },
      { lot: 'W-1', material: 'chalk', amount: 0.01 },
      { lot: '?', material: undefined, amount: 1 },
    ])
    expect(codes(findings)).toEqual(['material-without-lot', 'material-not-planned'])
    expect(materials[1]).toMatchObject({ weighed: undefined, off: undefined })
    expect(reconcileMaterials(planned, []).findings).toEqual([])
  })
})

describe('by hand: bars, packaging, batter', () => {
  it('counts every bar once', () => {
    // 105 − 6 − 2 = 97, of 105 planned; 97 − 24 are in the shop
    expect(balanceBars({ planned: 105, cut: 105, tests: 6, rejected: 2, wrapped: 97, went: 24 })).toEqual({
      fit: 97,
      loose: 0,
      kept: 73,
      yield: 97 / 105,
      findings: [],
    })
  })

  it('does not take what nobody counted for nothing', () => {
    expect(balanceBars({ planned: 105 })).toMatchObject({ fit: undefined, kept: undefined, yield: undefined })
    expect(balanceBars({ planned: 105, cut: 100 })).toMatchObject({
      fit: 100,
      loose: undefined,
      kept: undefined,
    })
  })

  it('asks for bars that are fit and not wrapped', () => {
    expect(balanceBars({ planned: 105, cut: 105, tests: 5, wrapped: 98 }).findings).toEqual([
      {
        code: 'bars-unaccounted',
        severity: 'warn',
        values: { fitBars: 100, wrappedBars: 98, looseBars: 2 },
      },
    ])
  })

  it('accounts for every label, the lots one after the other', () => {
    const two = [
      { lot: 'L-1', taken: 40, spoiled: 1 },
      { lot: 'L-2', taken: 60, spoiled: undefined },
    ]
    // 39 good ones, then 58 of the 60 for 97 bars
    const { lots, findings } = balancePackaging(two, 97, 1)
    expect(lots.map(({ unaccounted }) => unaccounted)).toEqual([0, 2])
    expect(findings).toEqual([
      { code: 'pieces-unaccounted', severity: 'warn', values: { lot: 'L-2', pieces: 2 } },
    ])
    expect(balancePackaging(two, 99, 1).findings).toEqual([])
    // two on each bar: 39 + 60 for 100 pieces
    expect(balancePackaging(two, 50, 2).findings).toEqual([
      { code: 'pieces-too-few', severity: 'warn', values: { lot: 'L-2', pieces: 1 } },
    ])
  })

  it('finds batter again, or says how much it did not', () => {
    // 13.51 − 0.14 = 13.37; 105 · 0.118 = 12.39; 13.37 − 12.39 − 0.93 = 0.05
    const found = balanceBatter({ batter: 13.51, leftInPot: 0.14, trimmed: 0.93, bars: 105, barMass: 0.118 })
    expect(found.poured).toBeCloseTo(13.37, 9)
    expect(found.inBars).toBeCloseTo(12.39, 9)
    expect(found.rest).toBeCloseTo(0.05, 9)
    expect(found.share).toBeCloseTo(0.05 / 13.51, 9)
    expect(balanceBatter({ batter: 13.51, bars: 105, barMass: 0.118 })).toMatchObject({
      poured: undefined,
      rest: undefined,
    })
  })
})

describe('by hand: released, and in order', () => {
  const released = { decision: 'released', day: 128 } as const

  it('says nothing of a batch that was tested on its day, released then, and sold after it', () => {
    expect(
      releaseFindings({
        testDay: 128,
        tested: { day: 128, passed: true },
        release: released,
        went: [{ day: 128, bars: 24 }],
      }),
    ).toEqual([])
    expect(releaseFindings({ testDay: 128, went: [] })).toEqual([])
  })

  it.each([
    ['without a test', { release: released, went: [] }, ['released-untested']],
    [
      'before its test',
      { release: released, tested: { day: 129, passed: true }, went: [] },
      ['released-untested'],
    ],
    [
      'after a test that had not passed',
      { release: released, tested: { day: 128, passed: false }, went: [] },
      ['released-after-failed-test'],
    ],
    [
      'by a test a day too soon',
      { release: released, tested: { day: 127, passed: true }, went: [] },
      ['tested-before-test-day'],
    ],
    ['not at all, and sold', { went: [{ day: 140, bars: 3 }] }, ['went-unreleased']],
    [
      'held, and sold',
      { release: { decision: 'held', day: 128 } as const, went: [{ day: 140, bars: 3 }] },
      ['went-unreleased'],
    ],
  ])('tells a batch released %s', (_what, releasing, expected) => {
    expect(codes(releaseFindings({ testDay: 128, ...releasing }))).toEqual(expected)
  })

  it('counts the bars that left too soon', () => {
    const [finding] = releaseFindings({
      testDay: 128,
      tested: { day: 128, passed: true },
      release: released,
      went: [
        { day: 120, bars: 2 },
        { day: 127, bars: 3 },
        { day: 128, bars: 50 },
      ],
    })
    expect(finding).toEqual({ code: 'went-unreleased', severity: 'hold', values: { goneBars: 5 } })
  })
})
