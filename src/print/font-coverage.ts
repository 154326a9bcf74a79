/** Finds the characters of a text that the shipped fonts do not hold; only asked when a print has been refused. */
import { readFileSync } from 'node:fs'
import { inflateSync } from 'node:zlib'
import { fontCoverageFiles } from './fonts.ts'
import type { PrintSheet } from './job.ts'

/**
 * Lists the characters of a sheet, in its text or its foot line, that none of the shipped fonts holds.
 *
 * @param html the whole document
 * @param sheet where to look; the whole document when left out or when the sheet itself has none
 * @returns characters in the order of the text, each once
 */
export function uncoveredCharacters(html: string, sheet?: PrintSheet): string[] {
  const covered = shippedCharacters()
  const lacking = (text: string): string[] => [
    ...new Set(
      [...text].filter((character) => {
        const code = character.codePointAt(0) ?? 0
        // spaces and marks of direction need no glyph of their own
        return !covered.has(code) && !/[\p{Z}\p{Cc}\p{Cf}]/u.test(character)
      }),
    ),
  ]
  if (sheet) {
    const start = html.search(new RegExp(`id=["']?${escapeForPattern(sheet.anchor)}["'\\s>]`))
    const end = start < 0 ? -1 : html.indexOf('<section', start)
    const own = start < 0 ? '' : html.slice(start, end < 0 ? undefined : end)
    const found = lacking(plainText(`<${own}`) + Object.values(sheet.foot).join(' '))
    if (found.length > 0) return found
  }
  return lacking(plainText(html))
}

let shipped: Set<number> | undefined

function shippedCharacters(): Set<number> {
  shipped ??= new Set(
    fontCoverageFiles().flatMap(({ path, range }) =>
      fontCharacters(readFileSync(path)).filter(inRange(range)),
    ),
  )
  return shipped
}

/** @param range as styles write it: `U+0100-02BA,U+20AC` */
const inRange = (range: string): ((code: number) => boolean) => {
  const parts = range.split(',').map((part) =>
    part
      .replace('U+', '')
      .split('-')
      .map((hex) => Number.parseInt(hex, 16)),
  )
  return (code) => parts.some(([first = 0, last = first]) => code >= first && code <= last)
}

/** Code points of a font file (WOFF 1): its character map, in format 4 or 12. */
export function fontCharacters(font: Buffer): number[] {
  const tables = font.readUInt16BE(12)
  for (let index = 0; index < tables; index += 1) {
    const entry = 44 + index * 20
    if (font.toString('latin1', entry, entry + 4) !== 'cmap') continue
    const start = font.readUInt32BE(entry + 4)
    const packed = font.subarray(start, start + font.readUInt32BE(entry + 8))
    const size = font.readUInt32BE(entry + 12)
    return mapCharacters(packed.length < size ? inflateSync(packed) : packed)
  }
  return []
}

function mapCharacters(map: Buffer): number[] {
  const characters: number[] = []
  const add = (first: number, last: number) => {
    for (let code = first; code <= last && code !== 0xffff; code += 1) characters.push(code)
  }
  for (let index = 0; index < map.readUInt16BE(2); index += 1) {
    const at = map.readUInt32BE(4 + index * 8 + 4)
    const format = map.readUInt16BE(at)
    if (format === 4) {
      const segments = map.readUInt16BE(at + 6) / 2
      for (let segment = 0; segment < segments; segment += 1) {
        const last = map.readUInt16BE(at + 14 + segment * 2)
        add(map.readUInt16BE(at + 16 + segments * 2 + segment * 2), last)
      }
    } else if (format === 12) {
      const groups = map.readUInt32BE(at + 12)
      for (let group = 0; group < groups; group += 1) {
        const from = at + 16 + group * 12
        add(map.readUInt32BE(from), map.readUInt32BE(from + 4))
      }
    }
  }
  return characters
}

const plainText = (html: string): string =>
  html
    .replace(/<(style|script)\b[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#x([0-9a-f]+);/gi, (_, hex: string) => String.fromCodePoint(Number.parseInt(hex, 16)))
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)))

const escapeForPattern = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
