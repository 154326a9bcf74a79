/** Strength and sizes of wire against the wire maker's tables and gauge lists. */
import { describe, expect, test } from 'vitest'
import { tensileStrength, type WireMaterial, wireFigures } from '../../src/wires/strength.ts'
import {
  gaugeDiameter,
  gaugeOf,
  nearestSizes,
  thinnestFor,
  wirePieces,
  wireSizes,
} from '../../src/wires/wire-to-buy.ts'

const inch = 0.0254
const wire = (inches: number, material: WireMaterial = 'music-wire') => ({
  material,
  diameter: inches * inch,
})

describe('published: data sheet of a wire maker for ASTM A228 (least ksi read; MPa, N and g/m computed apart)', () => {
  test.each([
    // in, MPa, N, g/m
    [0.01, 2668, 135.2, 0.3978],
    [0.013, 2572, 220.2, 0.6722],
    [0.016, 2496, 323.8, 1.0183],
    [0.02, 2413, 489.1, 1.5911],
    [0.024, 2351, 686.2, 2.2911],
    [0.032, 2255, 1169.8, 4.0731],
    [0.045, 2130, 2186.0, 8.0547],
    [0.063, 2020, 4062.8, 15.7873],
  ])('%f in: %i MPa, %f N, %f g/m', (inches, megapascals, newtons, grams) => {
    const figures = wireFigures(wire(inches))
    expect(Math.abs(figures.strength / 1e6 - megapascals)).toBeLessThan(0.6)
    expect(Math.abs(figures.breakingLoad - newtons)).toBeLessThan(0.06)
    expect(figures.massPerLength * 1000).toBeCloseTo(grams, 3)
  })

  test('sizes of the standard, whole thousandths of an inch, have whole ksi', () => {
    const thousandths = [
      10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 24, 26, 28, 30, 32, 34, 36, 38, 40, 42, 45, 48, 51, 55, 59, 63,
    ]
    for (const size of thousandths) {
      const ksi = tensileStrength(wire(size / 1000)) / 6.894757e6
      expect(Math.abs(ksi - Math.round(ksi)), `${size}`).toBeLessThan(1e-6)
    }
  })

  test.each([
    // gauge sizes between the rows: least ksi by interpolation, breaking load [N]
    ['12', 331.5, 974.0],
    ['15', 322.5, 1380.2],
    ['19', 311.7, 2013.3],
    ['22', 305.0, 2558.4],
  ])('gauge %s: %f ksi, %f N', (gauge, ksi, newtons) => {
    const figures = wireFigures({ material: 'music-wire', diameter: gaugeDiameter(gauge) ?? 0 })
    expect(Math.abs(figures.strength / 6.894757e6 - ksi)).toBeLessThan(0.05)
    expect(Math.abs(figures.breakingLoad - newtons)).toBeLessThan(0.3)
  })

  test('a handbook formula, 2211 / d^0.145 (read), lies 1.0 to 2.5 % above the table from 0.01 to 0.063 in', () => {
    for (let thousandths = 10; thousandths <= 63; thousandths += 1) {
      const formula = 2211 / (thousandths * 0.0254) ** 0.145
      const ratio = formula / (tensileStrength(wire(thousandths / 1000)) / 1e6)
      // 201 ksi and 2211 MPa are rounded apart: 0.2 %
      expect(ratio).toBeGreaterThan(1.0085)
      expect(ratio).toBeLessThan(1.0245)
    }
  })
})

describe('published: data sheet of a wire maker for ASTM A313, type 302 (read)', () => {
  test.each([
    [0.01, 320],
    [0.013, 314],
    [0.0165, 306],
    [0.02, 300],
    [0.0201, 296],
    [0.031, 285],
    [0.063, 258],
  ])('%f in: %i ksi', (inches, ksi) =>
    expect(tensileStrength(wire(inches, 'stainless-302')) / 6.894757e6).toBeCloseTo(ksi, 9),
  )

  test('sizes are whole thousandths of an inch, strengths whole ksi: the next row holds right above each', () => {
    const at = (inches: number): number => tensileStrength(wire(inches, 'stainless-302')) / 6.894757e6
    const wrong: string[] = []
    for (let thousandths = 10; thousandths < 63; thousandths += 1) {
      const [here, next] = [at(thousandths / 1000), at((thousandths + 1) / 1000)]
      if (Math.abs(here - Math.round(here)) > 1e-6) wrong.push(`${thousandths}: ${here}`)
      // between two whole thousandths nothing changes
      for (const more of [0.1, 0.5, 0.9])
        if (at((thousandths + more) / 1000) !== next) wrong.push(`${thousandths + more}`)
    }
    expect(wrong).toEqual([])
  })

  test('A = 169 ksi, m = 0.146 of a handbook (from memory) agrees within 2.5 % from 0.013 in', () => {
    for (const { inches } of wireSizes('stainless-302').filter((size) => size.inches >= 0.013)) {
      const formula = 169 / inches ** 0.146
      const table = tensileStrength(wire(inches, 'stainless-302')) / 6.894757e6
      expect(Math.abs(formula / table - 1)).toBeLessThan(0.025)
    }
  })

  test('is weaker than music wire at every size, by 12 to 18 %', () => {
    for (const { inches } of wireSizes('stainless-302')) {
      const ratio = tensileStrength(wire(inches, 'stainless-302')) / tensileStrength(wire(inches))
      expect(ratio).toBeGreaterThan(0.82)
      expect(ratio).toBeLessThan(0.885)
    }
  })

  test('modulus 28 million psi (read): 193.1 GPa', () =>
    expect(wireFigures(wire(0.02, 'stainless-302')).modulus / 1e9).toBeCloseTo(193.05, 1))
})

describe('published: modulus of music wire 203.4 GPa to 0.032 in, 200.0 GPa to 0.063 in (memory)', () => {
  test.each([
    [0.02, 203.4],
    [0.032, 203.4],
    [0.033, 200.0],
    [0.063, 200.0],
  ])('%f in: %f GPa', (inches, gigapascals) =>
    expect(wireFigures(wire(inches)).modulus / 1e9).toBeCloseTo(gigapascals, 6),
  )
})

describe('by hand: no figure where the tables end', () => {
  test.each([0.009, 0.064, Number.NaN])('%f in', (inches) => {
    expect(() => tensileStrength(wire(inches))).toThrow(RangeError)
    expect(() => tensileStrength(wire(inches, 'stainless-302'))).toThrow(RangeError)
  })

  test('strength falls as wire grows thicker, and the load that it bears grows', () => {
    let before = wireFigures(wire(0.01))
    for (let thousandths = 10.5; thousandths <= 63; thousandths += 0.5) {
      const now = wireFigures(wire(thousandths / 1000))
      expect(now.strength).toBeLessThan(before.strength)
      expect(now.breakingLoad).toBeGreaterThan(before.breakingLoad)
      before = now
    }
  })
})

describe('published: music wire gauge (read in two lists that agree)', () => {
  test.each([
    ['1', 0.01],
    ['6', 0.016],
    ['8', 0.02],
    ['12', 0.029],
    ['20', 0.045],
    ['26', 0.063],
  ])('number %s is %f in', (gauge, inches) => {
    expect(gaugeDiameter(gauge)).toBeCloseTo(inches * inch, 12)
    expect(gaugeOf(inches * inch)).toBe(gauge)
  })

  test('0.015 in is a size without a number; 0.029 in a number without a size of the standard', () => {
    expect(gaugeOf(0.015 * inch)).toBeUndefined()
    expect(gaugeDiameter('27')).toBeUndefined()
    const sizes = wireSizes('music-wire')
    expect(sizes.find(({ inches }) => inches === 0.015)).toMatchObject({ preferred: true })
    expect(sizes.find(({ inches }) => inches === 0.029)).toMatchObject({ preferred: false, gauge: '12' })
  })
})

describe('by hand: wire to buy', () => {
  test('half a millimetre, 0.01969 in: between 0.018 and 0.020 in, nearer to number 8', () => {
    const { thinner, thicker, nearest } = nearestSizes({ material: 'music-wire', diameter: 0.0005 })
    expect([thinner?.inches, thicker?.inches]).toEqual([0.018, 0.02])
    expect(nearest).toMatchObject({ inches: 0.02, gauge: '8', preferred: true })
  })

  test('a size that is sold is its own neighbour; beyond the ends there is only one', () => {
    expect(nearestSizes(wire(0.016))).toMatchObject({
      thinner: { inches: 0.016 },
      thicker: { inches: 0.016 },
    })
    expect(nearestSizes(wire(0.008)).thinner).toBeUndefined()
    expect(nearestSizes(wire(0.07)).thicker).toBeUndefined()
    expect(nearestSizes(wire(0.07, 'stainless-302')).nearest).toMatchObject({ inches: 0.063 })
  })

  test('200 N with twice as much to break: 400 N, which 0.018 in bears (403.0) and 0.016 in does not (323.8)', () => {
    expect(thinnestFor('music-wire', 200, 2)?.inches).toBe(0.018)
    expect(thinnestFor('music-wire', 3000, 2)).toBeUndefined()
    // stainless: 0.018 in bears 304 ksi = 2096 MPa on 0.1642 mm2 = 344 N; 0.020 in 300 ksi on 0.2027 mm2 = 419 N
    expect(thinnestFor('stainless-302', 200, 2)?.inches).toBe(0.02)
  })

  test('a wire that bears just what it has to will do', () => {
    for (const inches of [0.01, 0.018, 0.02, 0.063])
      for (const material of ['music-wire', 'stainless-302'] as const) {
        const { breakingLoad } = wireFigures(wire(inches, material))
        expect(thinnestFor(material, breakingLoad / 2, 2)?.inches).toBe(inches)
        expect(thinnestFor(material, breakingLoad * 0.5001, 2)?.inches).not.toBe(inches)
      }
  })

  test('seven wires of 0.3 m, two a piece, 30 mm apart: three pairs and a single', () => {
    // pair 2 · 0.3 + 0.03 + 2 · 0.09 = 0.81; single 0.3 + 0.06 + 0.09 = 0.45; 3 · 0.81 + 0.45 + one spare pair 0.81 = 3.69
    const pieces = wirePieces({ length: 0.3, count: 7, spacing: 0.03, perPiece: 2, spare: 1 })
    expect(pieces).toMatchObject({ full: 3, single: true })
    expect(pieces.fullLength).toBeCloseTo(0.81, 12)
    expect(pieces.total).toBeCloseTo(3.69, 12)
    // one a piece: 4 · 0.45 and two spare
    const each = wirePieces({ length: 0.3, count: 4, spacing: 0.06, perPiece: 1, spare: 2 })
    expect(each).toMatchObject({ full: 4, single: false })
    expect(each.total).toBeCloseTo(2.7, 12)
    // a lone wire has no pair to keep in reserve
    const lone = wirePieces({ length: 0.3, count: 1, spacing: 0.03, perPiece: 2, spare: 1 })
    expect(lone).toMatchObject({ full: 0, single: true })
    expect(lone.total).toBeCloseTo(0.9, 12)
  })
})
