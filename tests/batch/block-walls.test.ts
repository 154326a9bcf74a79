import { describe, expect, test } from 'vitest'
import { type Coverings, coveringsLeft, faceResistances, resistanceOf } from '../../src/batch/block-walls.ts'

const board = { thickness: 0.018, conductivity: 0.12 } // 0.15 m2 K/W
const foam = { thickness: 0.03, conductivity: 0.03 } // 1 m2 K/W
const covering = { layers: [board], insulation: [foam], film: 8 } // 0.15 + 1 + 0.125
const all: Coverings = {
  end: covering,
  side: covering,
  top: { ...covering, layers: [{ resistance: 0.2 }, board] },
  base: { layers: [board], film: 5 },
}

describe('by hand: resistances in series', () => {
  test('0.018/0.12 + 0.03/0.03 + 1/8 = 1.275; with an air gap 1.475; base 0.15 + 1/5 = 0.35', () => {
    expect(resistanceOf(covering)).toBeCloseTo(1.275, 12)
    const faces = faceResistances(all)
    expect([faces.end, faces.side, faces.top, faces.base].map((r) => Number(r.toFixed(9)))).toEqual([
      1.275, 1.275, 1.475, 0.35,
    ])
  })

  test('what is taken off leaves the air film', () => {
    const left = (off: Partial<Parameters<typeof coveringsLeft>[1]>) =>
      faceResistances(coveringsLeft(all, { lid: false, insulation: false, walls: false, ...off }))
    expect(left({ lid: true })).toMatchObject({ top: 0.125, side: resistanceOf(covering) })
    expect(left({ insulation: true }).side).toBeCloseTo(0.275, 12)
    expect(left({ insulation: true }).top).toBeCloseTo(0.475, 12)
    expect(left({ walls: true })).toMatchObject({ end: 0.125, side: 0.125 })
    // the lid lies on the walls: 1/8 of its film is left
    expect(left({ walls: true }).top).toBeCloseTo(0.125, 12)
    expect(left({ walls: true, lid: true, insulation: true }).base).toBeCloseTo(0.35, 12)
  })
})
