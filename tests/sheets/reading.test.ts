/** How large letters are at a distance, and that every kind of sheet has one. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { inflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { capitalHeight } from '../../src/drawing/types.ts'
import {
  LEAST_ANGLE,
  LEAST_PREFERRED,
  READINGS,
  type ReadingKind,
  seenAngle,
  typeSize,
  typeSizes,
} from '../../src/sheets/reading.ts'

const kinds = Object.keys(READINGS) as ReadingKind[]
const capitalOf = (points: number): number => (points * capitalHeight * 25.4) / 72 // mm

describe('published: NUREG-0700, height = 6.283 D MA / 21600', () => {
  // the digits of its own worked sizes: 20 arc minutes at 500 mm are 2.909 mm
  it('is what a type size comes from, to the half point that it is rounded up by', () => {
    for (const distance of [0.4, 0.5, 0.7, 1, 2])
      for (const angle of [16, 20, 22]) {
        const height = (6.283 * distance * 1000 * angle) / 21600 // mm
        const capital = capitalOf(typeSize({ distance, angle }))
        expect(capital).toBeGreaterThan(height - 0.002)
        expect(capital).toBeLessThan(height + capitalOf(0.5) + 0.002)
      }
    expect((6.283 * 500 * 20) / 21600).toBeCloseTo(2.909, 3)
    // 2.909 mm of capital: 11.55 pt, up to the half point
    expect(typeSize({ distance: 0.5, angle: 20 })).toBe(12)
  })

  it('turned round gives the angle again', () => {
    for (const distance of [0.4, 0.7, 1])
      for (const angle of [16, 20, 22]) {
        const points = ((6.283 * distance * angle) / 21600 / capitalHeight) * (72 / 0.0254)
        expect(seenAngle(points, distance)).toBeCloseTo(angle, 2)
      }
  })
})

describe('published: ISO 9241-3, 16 arc minutes at the least, 20 to 22 preferred', () => {
  it('holds for every kind of sheet', () => {
    for (const kind of kinds) {
      const { text, small } = typeSizes(kind)
      const { distance } = READINGS[kind]
      expect(seenAngle(small, distance), kind).toBeGreaterThanOrEqual(16)
      if (kind !== 'calendar') {
        expect(seenAngle(text, distance), kind).toBeGreaterThanOrEqual(20)
        // half a point at a desk is one arc minute
        expect(seenAngle(text, distance), kind).toBeLessThan(22.1)
      }
    }
    expect([LEAST_ANGLE, LEAST_PREFERRED]).toEqual([16, 20])
  })
})

describe('published: the OS/2 table of the typeface', () => {
  it('has the capital that the rule counts with', () => {
    const folder = dirname(createRequire(import.meta.url).resolve('@fontsource/noto-sans/package.json'))
    for (const weight of [400, 700]) {
      const font = readFileSync(join(folder, `files/noto-sans-latin-${weight}-normal.woff`))
      const units = tableOf(font, 'head').readUInt16BE(18)
      expect(tableOf(font, 'OS/2').readUInt16BE(88) / units).toBeCloseTo(capitalHeight, 9)
    }
  })
})

/** A table of a WOFF 1 file, unpacked. */
const tableOf = (font: Buffer, tag: string): Buffer => {
  for (let index = 0; index < font.readUInt16BE(12); index += 1) {
    const entry = 44 + index * 20
    if (font.toString('latin1', entry, entry + 4) !== tag) continue
    const start = font.readUInt32BE(entry + 4)
    const [packed, length] = [font.readUInt32BE(entry + 8), font.readUInt32BE(entry + 12)]
    const table = font.subarray(start, start + packed)
    return packed < length ? inflateSync(table) : table
  }
  throw new Error(`The font has no table ${tag}.`)
}
