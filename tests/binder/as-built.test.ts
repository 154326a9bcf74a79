/** A maker types in what the finished mould measures: the batch fills the mould that really exists. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { bindAndCompose, contentOf, longerFile } from '../sites/small-binder.ts'

const loaded = (asBuilt: string) => contentOf(longerFile('fixtures/small.yaml', asBuilt))
const bound = (asBuilt: string) => {
  const { moulds, batches } = bind(loaded(asBuilt)).binder
  return { mould: moulds[0]!, batch: batches[0]! }
}

describe('by hand: a block of 180 by 140 mm in a lining of 1 mm', () => {
  const designed = bound('')

  test('as designed', () => {
    expect(designed.batch.fill.area).toBeCloseTo(0.18 * 0.14, 12)
    expect(designed.mould.mould.inside.length).toBeCloseTo(0.182, 12)
  })

  test('measured 2 mm longer inside: more oil by 182 / 180', () => {
    const { batch } = bound('as-built: { inside-length: 184 mm }\n')
    expect(batch.fill.area).toBeCloseTo(0.182 * 0.14, 12)
    expect(batch.fill.oilMass / designed.batch.fill.oilMass).toBeCloseTo(182 / 180, 9)
  })

  test('filled with 4.2 kg of water to 40 mm below a rim of 205 mm: 4.2 / 998 m3 over 165 mm', () => {
    const { batch } = bound('as-built: { water: { weighed: 4.2 kg, below-rim: 40 mm } }\n')
    // six slices of 25 mm and 15 mm of trim are 165 mm, and 40 mm of freeboard
    const area = 4.2 / 998 / 0.165
    expect(batch.fill.area).toBeCloseTo(area, 9)
    expect(batch.fill.oilMass / designed.batch.fill.oilMass).toBeCloseTo(area / (0.18 * 0.14), 9)
  })

  test('a lower rim leaves less room above the pour', () => {
    const { batch } = bound('as-built: { rim-above-bench: 283 mm }\n')
    // designed 80 + 165 + 40 = 285
    expect(designed.batch.fill.freeboard - batch.fill.freeboard).toBeCloseTo(0.002, 9)
  })

  test('measured parts never stop a mould that stands: a tape does not agree with itself to a hair', () => {
    const { mould } = bound('as-built: { base-height: 80.4 mm, parts: { rail: { width: 61.8 mm } } }\n')
    expect(mould.findings).toEqual([])
  })

  test('the sheet says what was measured', () => {
    const { sheets } = bindAndCompose(loaded('as-built: { inside-length: 184 mm }\n'))
    const values = sheets.find(({ id }) => id === 'fixture/small')!.values
    expect(values.get('as-built.inside-length')?.value).toBeCloseTo(0.184, 12)
    expect(values.get('mould.inside.length')?.value).toBeCloseTo(0.184, 12)
  })

  test('a mould too short for its bars stops the batch as well', () => {
    const { batch } = bound('as-built: { inside-length: 178 mm }\n')
    expect(batch.state).toBe('stop')
    expect(batch.findings.map(({ code }) => code)).toContain('mould-block-shorter-than-bars')
  })
})
