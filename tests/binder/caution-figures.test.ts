/** Numbers that cautions name, of the demo's shop. */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { composeEdited, STATES, sheetOf } from '../sites/edited-demo.ts'

const kg = (sheet: Sheet, name: string): number => Number(sheet.values.get(name)?.value)

describe('by hand: cautions with the shop’s own numbers', () => {
  let sheets: readonly Sheet[] = []
  beforeAll(async () => {
    sheets = (await composeEdited(STATES.go)).sheets
  })
  const sheet = (id: string): Sheet => sheetOf({ sheets }, id)

  it('size the spill kit to the pail, filled as far as a batch may', () => {
    // a pail of 9 l, half full: 4.5 l, as in the test of the kit itself
    expect(kg(sheet('cautions/spill'), 'kit.pail')).toBeCloseTo(0.009, 9)
    expect(kg(sheet('cautions/spill'), 'kit.filled')).toBeCloseTo(0.0045, 9)
    expect(kg(sheet('cautions/spill'), 'kit.sandMass')).toBeCloseTo(24.69, 2)
  })

  it('lift what the batch sheet lifts', () => {
    const batch = sheets.find(({ kind }) => kind === 'batch') as Sheet
    for (const key of ['kettle-of-oils', 'pail-of-lye', 'jug-of-batter'])
      expect(kg(sheet('cautions/lifting'), `load.${key}.mass`)).toBe(kg(batch, `load.${key}.mass`))
    expect(kg(sheet('cautions/lifting'), 'load.kettle-of-batter.mass')).toBe(kg(batch, 'kettle.loaded'))
  })

  it('know the wires of both cutters', () => {
    const wires = [...sheet('cautions/wire').values.keys()].filter((name) => name.endsWith('.energy'))
    expect(wires).toEqual(['short', 'long', 'slicing'].map((kind) => `wire.five-by-three.${kind}.energy`))
    // 0.020 in: EA = 203.4 GPa · 0.20268 mm² = 41.23 kN; 170.8² · 0.2912 / (2 · 41 230) = 0.1030 J
    expect(kg(sheet('cautions/wire'), 'wire.five-by-three.long.energy')).toBeCloseTo(0.103, 3)
  })
})

describe('by hand: cautions of a binder with something stopped', () => {
  it('print no weight of a stopped batch', async () => {
    const lifting = sheetOf(await composeEdited(STATES['superfat under the floor']), 'cautions/lifting')
    expect([...lifting.values.keys()].filter((name) => /load\.(kettle|pail|jug|mould)/.test(name))).toEqual(
      [],
    )
  })

  it('print no wire and no cutter of a stopped mould', async () => {
    const binder = await composeEdited(STATES['dado too deep'])
    expect(
      [...sheetOf(binder, 'cautions/wire').values.keys()].filter((name) => name.startsWith('wire.')),
    ).toEqual([])
    const lifted = [...sheetOf(binder, 'cautions/lifting').values.keys()]
    expect(lifted.filter((name) => /\.(grid|bar)\./.test(name))).toEqual([])
  })
})
