import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CODE_LETTERS } from '../../src/labelling/batch-code.ts'
import { readSheetCode } from '../../src/labelling/paper-code.ts'
import { codeOf } from '../../src/papers/revisions.ts'
import { sha256 } from '../../src/papers/shown-sheet.ts'

const some = fc.record({
  id: fc.string({ minLength: 1, maxLength: 20 }),
  revision: fc.integer({ min: 1, max: 9999 }),
  content: fc.string(),
})
const made = ({ id, revision, content }: { id: string; revision: number; content: string }) =>
  codeOf(id, revision, sha256(content))

describe('by hand: the code of a paper', () => {
  it('has its letters out of the hash, five bits each', () => {
    // SHA-256 of nothing begins e3b0 c442 98: 11100 01110 11000 01100 01000: 28 14 24 12 8 in the alphabet of 32
    const hash = sha256('')
    expect(hash.slice(0, 10)).toBe('e3b0c44298')
    const letters = [28, 14, 24, 12].map((place) => CODE_LETTERS[place]).join('')
    expect(codeOf('', 7, hash).code.slice(0, 7)).toBe(`${letters}-7-`)
  })

  it('is read back, in small letters, with spaces and dashes of any kind, O and I for figures', () => {
    fc.assert(
      fc.property(some, (one) => {
        const code = made(one)
        const [sheet = '', revision = '', content = ''] = code.code.split('-')
        const typed = ` ${sheet.toLowerCase()}\u2013${revision.replaceAll('0', 'o').replaceAll('1', 'i')} ${content}`
        expect(readSheetCode(typed)).toEqual({ ok: true, read: code })
        expect([...sheet, ...content].every((letter) => CODE_LETTERS.includes(letter))).toBe(true)
      }),
    )
  })

  it('finds each wrong character, and each pair of neighbours that changed places', () => {
    fc.assert(
      fc.property(some, (one) => {
        const { code } = made(one)
        const plain = code.replaceAll('-', '')
        for (let at = 0; at < plain.length; at += 1) {
          for (const letter of '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ') {
            const isForgiven =
              at >= 4 &&
              at < plain.length - 4 &&
              (letter === 'O' ? '0' : letter === 'I' ? '1' : letter) === plain[at]
            if (letter === plain[at] || isForgiven) continue
            expect(readSheetCode(plain.slice(0, at) + letter + plain.slice(at + 1)).ok).toBe(false)
          }
          const next = plain[at + 1]
          if (next === undefined || next === plain[at]) continue
          const swapped = `${plain.slice(0, at)}${next}${plain[at]}${plain.slice(at + 2)}`
          expect(readSheetCode(swapped).ok).toBe(false)
        }
      }),
      { numRuns: 20 },
    )
  })

  it('says which character is in no code', () => {
    expect(readSheetCode('H0KQ-2-M4TX')).toEqual({ ok: false, problem: 'letters', at: 2, letter: '0' })
    expect(readSheetCode('H7KQ-Z-M4TX')).toEqual({ ok: false, problem: 'revision', at: 5, letter: 'Z' })
    expect(readSheetCode('H7KQ')).toEqual({ ok: false, problem: 'length' })
    // no revision begins with a nought: the fifth character
    expect(readSheetCode('H7KQ-02-M4TX')).toEqual({ ok: false, problem: 'revision', at: 5, letter: '0' })
  })

  it('has another one for each revision and each content', () => {
    const codes = new Set(
      Array.from({ length: 50 }, (_, index) => [
        codeOf('a', index + 1, sha256('x')).code,
        codeOf('a', 51, sha256(String(index))).code,
      ]).flat(),
    )
    expect(codes.size).toBe(100)
    expect(() => codeOf('a', 0, sha256('x'))).toThrow(RangeError)
    // four figures are read, a fifth is not
    expect(() => codeOf('a', 9999, sha256('x'))).not.toThrow()
    expect(() => codeOf('a', 10_000, sha256('x'))).toThrow(RangeError)
  })
})
