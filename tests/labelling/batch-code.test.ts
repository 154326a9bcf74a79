/** Batch codes: the check character, and that typing errors are found. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  batchCode,
  CODE_LETTERS,
  checkCharacter,
  checks,
  readBatchCode,
} from '../../src/labelling/batch-code.ts'

const codeOf = (date: string, key: string): string => {
  const found = batchCode(date, key)
  if (!found.ok) throw new Error(found.problem)
  return found.batch.code
}

describe('published: ISO/IEC 7064, MOD 37-2, examples recalled from descriptions of the standard', () => {
  test.each([
    ['G123489654321', 'Y'],
    ['A999914123456', 'N'],
  ])('%s: %s', (text, check) => {
    expect(checkCharacter(text)).toBe(check)
    expect(checks(text + check)).toBe(true)
  })
})

describe('by hand: check characters', () => {
  test.each([
    ['A2', 'V'], // 10 · 4 + 2 · 2 = 44 = 7 (mod 37); 38 − 7 = 31
    ['1', '*'], // 1 · 2 = 2; 38 − 2 = 36
    ['0', '1'], // 0; 38 = 1
    ['HE', 'G'], // 17 · 4 + 14 · 2 = 96 = 22; 38 − 22 = 16
  ])('%s', (text, check) => expect(checkCharacter(text)).toBe(check))

  test('none for other characters, for nothing, or for too many', () => {
    expect(checkCharacter('a2')).toBeUndefined()
    expect(checkCharacter('A*')).toBeUndefined()
    expect(checkCharacter('')).toBeUndefined()
    expect(checkCharacter('A'.repeat(35))).toBeDefined()
    expect(checkCharacter('A'.repeat(36))).toBeUndefined()
  })
})

describe('by hand: codes', () => {
  test('14 March 2027, key HE', () => {
    // 9934 days = 9 · 1024 + 22 · 32 + 14: characters 9, 22, 14 of 2 to 9, A to Z without I and O: B, Q, G
    // values B 11, Q 26, G 16, H 17, E 14, spare 2: ((((11 · 2 + 26) · 2 + 16) · 2 + 17) · 2 + 14) · 2 + 2 =
    // 48, 112, 241, 496, 994; · 2 = 1988 = 53 · 37 + 27; 38 − 27 = 11: B
    expect(codeOf('2027-03-14', 'he')).toBe('BQG-HE-2B')
    expect(readBatchCode(' bqg he 2b')).toEqual({
      ok: true,
      batch: { code: 'BQG-HE-2B', date: '2027-03-14', key: 'HE' },
    })
  })

  test('first and last day', () => {
    expect(codeOf('2000-01-01', 'A')).toMatch(/^222-A-/)
    // 32768 days less one
    expect(codeOf('2089-09-17', 'A')).toMatch(/^ZZZ-A-/)
    for (const day of ['1999-12-31', '2089-09-18', '2027-02-29', '2027-13-01', '14.3.2027'])
      expect(batchCode(day, 'A')).toEqual({ ok: false, problem: 'code-day-unknown' })
  })

  test('letters that are taken for one another are refused, with their place', () => {
    expect(batchCode('2027-03-14', 'HO')).toEqual({ ok: false, problem: 'code-key-letters', at: 2 })
    expect(readBatchCode('BQG-H0-2B')).toEqual({ ok: false, problem: 'code-letters', at: 5 })
    expect(batchCode('2027-03-14', '')).toEqual({ ok: false, problem: 'code-length' })
    expect(batchCode('2027-03-14', 'ABCDEFG')).toEqual({ ok: false, problem: 'code-length' })
    expect(readBatchCode('BQG-2B')).toEqual({ ok: false, problem: 'code-length' })
    expect([...CODE_LETTERS].filter((letter) => '01IO'.includes(letter))).toEqual([])
    expect(new Set(CODE_LETTERS).size).toBe(32)
  })
})

describe('by hand: typing errors', () => {
  const key = fc
    .array(fc.constantFrom(...CODE_LETTERS), { minLength: 1, maxLength: 6 })
    .map((letters) => letters.join(''))
  const day = fc
    .integer({ min: 0, max: 32_767 })
    .map((days) => new Date(Date.UTC(2000, 0, 1 + days)).toISOString().slice(0, 10))

  test('every code is read back, in letters that cannot be mistaken', () => {
    fc.assert(
      fc.property(day, key, (date, of) => {
        const code = codeOf(date, of)
        expect([...code.replaceAll('-', '')].filter((letter) => !CODE_LETTERS.includes(letter))).toEqual([])
        expect(readBatchCode(code)).toEqual({ ok: true, batch: { code, date, key: of } })
      }),
      { seed: 7064, numRuns: 500 },
    )
  })

  test('every wrong character and every pair that changed places is found', () => {
    fc.assert(
      fc.property(day, key, (date, of) => {
        const plain = codeOf(date, of).replaceAll('-', '')
        const wrong: string[] = []
        for (let at = 0; at < plain.length; at += 1) {
          for (const letter of CODE_LETTERS)
            if (letter !== plain[at]) wrong.push(plain.slice(0, at) + letter + plain.slice(at + 1))
          const [a, b] = [plain[at], plain[at + 1]]
          if (b !== undefined && a !== b) wrong.push(plain.slice(0, at) + b + a + plain.slice(at + 2))
        }
        expect(wrong.filter((typed) => readBatchCode(typed).ok)).toEqual([])
      }),
      { seed: 372, numRuns: 100 },
    )
  })
})
