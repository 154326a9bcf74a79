/** Reads a shipped font's own tables, so that what is reckoned with letters is held against the letters themselves. */
import { readFileSync } from 'node:fs'
import { inflateSync } from 'node:zlib'
import { fontFiles } from '../../src/print/fonts.ts'

export interface FontTables {
  /** of the type size */
  readonly smallLetter: number
  readonly capital: number
  readonly advance: (character: string) => number
}

/** @param weight 400 or 700 of Noto Sans, Latin */
export function fontTables(weight: 400 | 700): FontTables {
  const file = fontFiles().find(({ path }) => path.endsWith(`noto-sans-latin-${weight}-normal.woff2`))
  if (!file) throw new Error('No such font.')
  // the older file beside it holds the same tables, packed so that they can be read here
  const bytes = readFileSync(file.path.replace(/2$/, ''))
  const tables = new Map<string, Buffer>()
  for (let index = 0; index < bytes.readUInt16BE(12); index += 1) {
    const at = 44 + 20 * index
    const [from, packed, whole] = [4, 8, 12].map((step) => bytes.readUInt32BE(at + step)) as [
      number,
      number,
      number,
    ]
    const table = bytes.subarray(from, from + packed)
    tables.set(bytes.toString('latin1', at, at + 4), packed < whole ? inflateSync(table) : table)
  }
  const table = (name: string): Buffer => {
    const found = tables.get(name)
    if (!found) throw new Error(`No table ${name}.`)
    return found
  }
  const em = table('head').readUInt16BE(18)
  const os2 = table('OS/2')
  const metrics = table('hhea').readUInt16BE(34)
  const glyphs = glyphsOf(table('cmap'))
  return {
    smallLetter: os2.readInt16BE(86) / em,
    capital: os2.readInt16BE(88) / em,
    advance: (character) => {
      const glyph = glyphs(character.codePointAt(0) ?? 0)
      return table('hmtx').readUInt16BE(4 * Math.min(glyph, metrics - 1)) / em
    },
  }
}

/** Format 4 of the character map. */
function glyphsOf(cmap: Buffer): (code: number) => number {
  const starts = Array.from({ length: cmap.readUInt16BE(2) }, (_, index) =>
    cmap.readUInt32BE(4 + 8 * index + 4),
  )
  const at = starts.find((start) => cmap.readUInt16BE(start) === 4)
  if (at === undefined) throw new Error('No character map that is known here.')
  const twice = cmap.readUInt16BE(at + 6)
  return (code) => {
    for (let index = 0; index < twice / 2; index += 1) {
      if (cmap.readUInt16BE(at + 14 + 2 * index) < code) continue
      const start = cmap.readUInt16BE(at + 16 + twice + 2 * index)
      if (start > code) return 0
      const delta = cmap.readUInt16BE(at + 16 + 2 * twice + 2 * index)
      const place = at + 16 + 3 * twice + 2 * index
      const offset = cmap.readUInt16BE(place)
      if (offset === 0) return (code + delta) & 0xffff
      return cmap.readUInt16BE(place + offset + 2 * (code - start))
    }
    return 0
  }
}
