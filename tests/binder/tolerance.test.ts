/** Tolerances of a fixture's file: the chain behind its bars, what is common practice where it says nothing, and limits. */
import { describe, expect, test } from 'vitest'
import { type BoundBinder, bind } from '../../src/binder/bind.ts'
import { USUAL_TOLERANCES } from '../../src/binder/bind-tolerance.ts'
import { bindAndCompose, contentOf, loadFiles, longerFile } from '../sites/small-binder.ts'

const CUTTERS = `grid-cutter:
  panels: { side: birch, end: birch, shelf: birch }
  wire: 0.5 mm
bar-cutter:
  panels: { base: birch, platform: birch, fence: birch, frame: birch, upright: birch }
  wire: 0.36 mm
`
const FIXTURE = 'fixtures/small.yaml'
const files = (more: string) => longerFile(FIXTURE, `${CUTTERS}${more}`)
const known = new Map<string, BoundBinder>()
const binderOf = (more: string): BoundBinder => {
  const binder = known.get(more) ?? bind(contentOf(files(more))).binder
  known.set(more, binder)
  return binder
}
const bound = (more: string) => {
  const [tolerance] = binderOf(more).tolerances
  if (!tolerance) throw new Error('no tolerances')
  return tolerance
}

/** All else exact. */
const ONLY = (more: string): string =>
  `tolerances: ${JSON.stringify({
    'wire-spacing': '0 mm',
    'slice-spacing': '0 mm',
    'soap-leads': '0 mm',
    'mould-inside': '0 mm',
    'gauge-laid': '0 mm',
    'frame-centred': '0 mm',
    'end-stop': '0 mm',
    density: '0 %',
    ...(JSON.parse(more) as object),
  })}\n`

describe('published: a workable set of tolerances for shop plywood (common practice)', () => {
  // 1/64 in for joints, 1/32 in for outlines, 0.010 in for the pitch of wires
  test('stands where a file says nothing', () => {
    expect(USUAL_TOLERANCES['gauge-laid']).toBeCloseTo(0.000396875, 12)
    expect(USUAL_TOLERANCES['mould-inside']).toBeCloseTo(0.00079375, 12)
    expect(USUAL_TOLERANCES['wire-spacing']).toBeCloseTo(0.000254, 12)
    const of = (key: string) => bound('').errors.find((error) => error.key === key)
    expect(of('slice-spacing')).toMatchObject({
      tolerance: USUAL_TOLERANCES['slice-spacing'],
      isTyped: false,
    })
    expect(of('inside-sawn')?.tolerance).toBe(USUAL_TOLERANCES['mould-inside'])
  })
})

describe('by hand: a block of three by two loaves of six bars, 60 by 70 by 25 mm', () => {
  test('has faces round its sides and at the end stop, and a wire at its trimmed top', () => {
    const { chain } = bound('')
    const mm = (cells: readonly number[]) => cells.map((cell) => Number((cell * 1000).toFixed(6)))
    expect(mm(chain.length.cells)).toEqual([60, 60, 60])
    expect(mm(chain.width.cells)).toEqual([70, 70])
    expect(mm(chain.height.cells)).toEqual([25, 25, 25, 25, 25, 25])
    expect([chain.length.ends, chain.width.ends, chain.height.ends]).toEqual([
      ['face', 'face'],
      ['face', 'face'],
      ['face', 'wire'],
    ])
    // the top is trimmed: how high it was filled is no bar's business
    expect(bound('').errors.map(({ key }) => key)).not.toContain('fill-height')
  })

  test('slicing wires of ± 0.3 mm alone', () => {
    // first bar one wire, five bars two: mean variance 11/6 · (0.1 / 25)² = 2.93333e-5; 3 √ = 0.0162481
    const tolerance = bound(ONLY('{"slice-spacing": "0.3 mm", "wanted-spread": "1 g"}'))
    // drawn bars: 20 000 blocks leave a deviation uncertain by about 1 / √(2 · 20 000) = 0.5 % at the most
    expect(Math.abs(tolerance.nearlyAll / 0.0162481 - 1)).toBeLessThan(0.015)
    expect(tolerance.drawn.all.deviation).toBeCloseTo(0.0162481 / 3, 4)
    // to 1 g: in proportion; wires of the grid cutter cannot make up for it
    const { needed, barMass } = tolerance
    expect(needed.each['slice-spacing']?.tolerance).toBeCloseTo((0.0003 * 0.001) / (0.0162481 * barMass), 7)
    expect(needed.each['wire-spacing']?.tolerance).toBeUndefined()
  })

  test('the mould’s inside of ± 1.2 mm alone: outer loaves, each half of it', () => {
    // 0.6/60 in two of three columns, 0.6/70 in both rows, uniform:
    // variance 2/3 · 0.01²/3 + 0.00857143²/3 = 4.67120e-5; 3 √ = 0.0205039
    const { nearlyAll, drawn, kinds } = bound(ONLY('{"mould-inside": "1.2 mm"}'))
    expect(Math.abs(nearlyAll / 0.0205039 - 1)).toBeLessThan(0.015)
    expect(Math.abs(drawn.all.deviation / (0.0205039 / 3) - 1)).toBeLessThan(0.02)
    // two of three columns have two faces at each of their loaves, the middle one has one
    expect(kinds.map(({ kind, bars }) => [kind, bars])).toEqual([
      ['edge', 12],
      ['corner', 24],
    ])
    expect(kinds[1]?.worst).toBeCloseTo(0.01 + 0.6 / 70, 9)
  })

  test('the frame goes no farther than its room beside the block, and as far where nothing is typed', () => {
    const binder = binderOf('')
    const room = (binder.gridCutters[0]!.cutter.inside.length - 0.18) / 2
    const centred = (more: string) => bound(more).errors.find(({ key }) => key === 'frame-centred')
    expect(room).toBeGreaterThan(0.0005)
    expect(centred('')?.tolerance).toBeCloseTo(room, 9)
    expect(centred('tolerances: { frame-centred: 0.2 mm }\n')).toMatchObject({
      tolerance: 0.0002,
      isTyped: true,
    })
    expect(centred('tolerances: { frame-centred: 5 mm }\n')?.tolerance).toBeCloseTo(room, 9)
  })

  test('a mould that was measured 2 mm longer: half of that in each outer column, bars heavier by 182 / 180', () => {
    const drawn = bound('')
    const measured = bound('as-built: { inside-length: 184 mm }\n')
    const mm = measured.chain.length.cells.map((cell) => Number((cell * 1000).toFixed(6)))
    expect(mm).toEqual([61, 60, 61])
    expect(measured.barMass / drawn.barMass).toBeCloseTo(182 / 180, 9)
  })
})

describe('by hand: bars below a weight', () => {
  test('soap of ± 5 % alone: a fifth is more than 3 % too light', () => {
    // uniform: (5 − 3) / 10
    const { limits } = bound(ONLY('{"density": "5 %"}'))
    expect(limits).toHaveLength(1)
    expect(limits[0]?.of).toBe('presumed')
    const { share = 0, standardError = 0, blocks } = limits[0] ?? {}
    expect(standardError).toBeCloseTo(Math.sqrt((0.2 * 0.8) / 20_000), 4)
    expect(Math.abs(share - 0.2)).toBeLessThan(4 * standardError)
    // all bars of a block are of one soap
    expect(blocks).toBe(share)
  })

  test('a weight that is typed', () => {
    const { barMass } = bound('')
    // 2 % below the mean of ± 5 %: (5 − 2) / 10
    const { limits } = bound(ONLY(`{"density": "5 %", "least-weight": "${(barMass * 980).toFixed(4)} g"}`))
    expect(limits.map(({ of }) => of)).toEqual(['typed'])
    expect(Math.abs((limits[0]?.share ?? 0) - 0.3)).toBeLessThan(0.013)
  })

  test('a label, by what is left of a bar on its last day of sale', () => {
    const batch = [...files('').keys()].find((name) => name.startsWith('batches/')) ?? ''
    const labelled = files(ONLY('{"density": "5 %"}'))
    labelled.set(batch, `${labelled.get(batch)}label-weight: 90 g\n`)
    const { tolerances, cures } = bind(contentOf(labelled)).binder
    const cure = cures[0]!
    const { middle, low } = cure.weightOn(cure.label.until)
    const [limit] = tolerances[0]!.limits
    expect(limit?.of).toBe('batch')
    // a bar keeps the share of its weight that the mean bar keeps
    expect((limit?.green ?? 0) * (middle / cure.barMass)).toBeCloseTo(0.09, 9)
    expect((limit?.dryEnd?.green ?? 0) * (low / cure.barMass)).toBeCloseTo(0.09, 9)
    expect(limit?.dryEnd?.green).toBeGreaterThan(limit?.green ?? 0)
  })
})

describe('by hand: what cannot be had', () => {
  test('a spread that wires alone do not give is found, and stops nothing', () => {
    const { findings } = bound('tolerances: { density: 5 %, wanted-spread: 1 g }\n')
    expect(findings).toMatchObject([{ code: 'wanted-spread-out-of-reach', severity: 'warn' }])
  })

  test('a fixture without a cutter has no such sheet', () => {
    const { binder, sheets } = bindAndCompose(contentOf(longerFile(FIXTURE, '')))
    expect(binder.tolerances).toEqual([])
    expect(sheets.map(({ id }) => id)).not.toContain('tolerance/small')
  })

  test.each([
    ['wire-spacing: -1 mm', 'negative'],
    ['wire-spacing: 2 in', 'out-of-range'],
    ['density: 40 %', 'out-of-range'],
    ['wanted-spread: 0 g', 'out-of-range'],
    ['wanted-spread: 3 mm', 'unit-wrong-kind'],
    ['wire-spacing: 0.3', 'unit-missing'],
    ['slice-spacing: 4 mm', 'tolerance-too-wide'],
    ['mould-inside: 10 mm', 'tolerance-too-wide'],
    ['pin-spacing: 1 mm', 'name-unknown'],
  ])('%s is refused at its place', (typed, code) => {
    const { diagnostics } = loadFiles(files(`tolerances: { ${typed} }\n`))
    expect(diagnostics.map((one) => one.code)).toEqual([code])
    expect(diagnostics[0]?.path).toContain('/tolerances')
  })

  test('3.75 mm of a bar of 25 mm is just allowed', () => {
    expect(loadFiles(files('tolerances: { slice-spacing: 3.75 mm }\n')).diagnostics).toEqual([])
  })
})

describe('by hand: one cutter alone', () => {
  test('without a grid cutter no frame is off the middle', () => {
    const bar = CUTTERS.slice(CUTTERS.indexOf('bar-cutter'))
    const [tolerance] = bind(contentOf(longerFile(FIXTURE, bar))).binder.tolerances
    expect(tolerance?.errors.map(({ key }) => key)).not.toContain('frame-centred')
    expect(tolerance?.errors.map(({ key }) => key)).toContain('slice-spacing')
  })
})
