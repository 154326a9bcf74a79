import { readFileSync } from 'node:fs'
import { inflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { unprintable } from '../../src/text/glyphs.ts'

/** Code points in the character map (format 4) of a WOFF 1.0 font. */
function mapped(file: string): Set<number> {
  const font = readFileSync(new URL(`../../node_modules/@fontsource/${file}`, import.meta.url))
  const count = font.readUInt16BE(12)
  const entry = Array.from({ length: count }, (_, index) => 44 + 20 * index).find(
    (offset) => font.toString('latin1', offset, offset + 4) === 'cmap',
  )
  if (entry === undefined) throw new Error(`${file} has no character map`)
  const [start, packed, full] = [4, 8, 12].map((offset) => font.readUInt32BE(entry + offset)) as [
    number,
    number,
    number,
  ]
  const raw = font.subarray(start, start + packed)
  const table = packed < full ? inflateSync(raw) : raw
  const found = new Set<number>()
  for (let index = 0; index < table.readUInt16BE(2); index += 1) {
    const at = table.readUInt32BE(8 + 8 * index)
    if (table.readUInt16BE(at) !== 4) continue
    const segments = table.readUInt16BE(at + 6) / 2
    for (let segment = 0; segment < segments; segment += 1) {
      const last = table.readUInt16BE(at + 14 + 2 * segment)
      const first = table.readUInt16BE(at + 16 + 2 * segments + 2 * segment)
      const delta = table.readInt16BE(at + 16 + 4 * segments + 2 * segment)
      const rangeAt = at + 16 + 6 * segments + 2 * segment
      const range = table.readUInt16BE(rangeAt)
      for (let code = first; code <= last && code < 0xffff; code += 1) {
        const glyph = range === 0 ? code : table.readUInt16BE(rangeAt + range + 2 * (code - first))
        if (glyph !== 0 && ((glyph + delta) & 0xffff) !== 0) found.add(code)
      }
    }
  }
  return found
}

/** A browser looks for a character in the files alone in whose range it is. */
const within = (family: string, part: string): ((code: number) => boolean) => {
  const file = new URL(`../../node_modules/@fontsource/${family}/unicode.json`, import.meta.url)
  const ranges = (JSON.parse(readFileSync(file, 'utf8'))[part] as string).split(',').map((range) => {
    const [first, last = first] = range.replace('U+', '').split('-') as [string, string?]
    return [Number.parseInt(first, 16), Number.parseInt(last, 16)] as const
  })
  return (code) => ranges.some(([first, last]) => code >= first && code <= last)
}

const union = (family: string, weight: number): Set<number> =>
  new Set(
    ['latin', 'latin-ext'].flatMap((part) =>
      [...mapped(`${family}/files/${family}-${part}-${weight}-normal.woff`)].filter(within(family, part)),
    ),
  )

describe('published: character maps of the shipped fonts, version 5.3.0', () => {
  const maps = ['noto-sans', 'noto-sans-mono'].flatMap((family) =>
    [400, 700].map((weight) => union(family, weight)),
  )
  const everywhere = (code: number): boolean => maps.every((map) => map.has(code))
  /** in the maps, but nothing to see, or nothing to be trusted */
  const LEFT_OUT = new Set([0x00, 0x0d, 0xad, 0x200b, 0xfeff, 0xfffd])

  test('exactly the characters that all four faces have', () => {
    const wrong: string[] = []
    for (let code = 1; code < 0xd800; code += 1) {
      if (code === 0x0a) continue
      const allowed = unprintable(String.fromCodePoint(code)).length === 0
      if (allowed !== (everywhere(code) && !LEFT_OUT.has(code))) wrong.push(code.toString(16))
    }
    expect(wrong).toEqual([])
  })
})

describe('by hand', () => {
  test('what sheets need is there', () => {
    expect(unprintable('½ ¼ ¾ × ° − ± µ ′ ″ ² ³ – — “quotes” ‘q’ … · é ß ø € \u00a0\u2009')).toEqual([])
  })
  test('what is missing is named once each, in order', () => {
    expect(unprintable('a → b ≤ c → ⅛ \u202f')).toEqual(['→', '≤', '⅛', '\u202f'])
    expect(unprintable('α😀')).toEqual(['α', '😀'])
    expect(unprintable('bell\u0007 \u001b[31m')).toEqual(['\u0007', '\u001b'])
    expect(unprintable('two\nlines')).toEqual([])
  })
})
