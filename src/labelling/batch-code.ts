/** The batch code on a wrapper: a day, a key and a check character that finds typing errors. */
import { dateOf, dayNumber } from '../units/civil-day.ts'

/** Figures and letters that nobody takes for one another: no I and no O, no 0 and no 1. */
export const CODE_LETTERS = '23456789ABCDEFGHJKLMNPQRSTUVWXYZ'

/** Characters of ISO/IEC 7064 MOD 37-2 in the order of their values. */
const CHECKED = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*'
const MODULUS = 37
const RADIX = 2

/** Digits of a day in the alphabet of codes: 32³ days are nearly 90 years. */
const DAY_LENGTH = 3
const FIRST_DAY = '2000-01-01'
const MOST_DAYS = CODE_LETTERS.length ** DAY_LENGTH

/** Where a printed code is divided, for the eye. */
const GROUP = '-'

/**
 * Check character of a text.
 *
 *     Σ value · 2^place ≡ 1 (mod 37), the check character at place 0
 *
 * Valid for figures and capital letters, at most 35 of them.
 *
 * @param text figures and capital letters
 * @returns figure, letter or asterisk; undefined for other characters, or too many of them
 * @source iso-7064
 * @example checkCharacter('A2') // (10 · 4 + 2 · 2) mod 37 = 7, so 31: 'V'
 */
export function checkCharacter(text: string): string | undefined {
  const sum = weighed(`${text}0`)
  return sum === undefined ? undefined : CHECKED[(MODULUS + 1 - sum) % MODULUS]
}

/**
 * Whether the last character of a text is its check character.
 *
 *     Σ value · 2^place ≡ 1 (mod 37)
 *
 * Finds every wrong character and every pair of neighbours that changed places.
 *
 * @param text at most 36 characters, the last one may be an asterisk
 * @returns true when it is
 * @source iso-7064
 */
export const checks = (text: string): boolean => weighed(text) === 1

function weighed(text: string): number | undefined {
  // 2 to the 36th is 1 again: places further on would be taken for nearer ones
  if (text.length < 2 || text.length >= MODULUS) return undefined
  let sum = 0
  for (const [at, letter] of [...text].entries()) {
    const value = CHECKED.indexOf(letter)
    if (value < 0 || (letter === '*' && at < text.length - 1)) return undefined
    sum = (sum * RADIX + value) % MODULUS
  }
  return sum
}

export interface BatchCode {
  /** as it is printed, in groups */
  readonly code: string
  /** 2027-03-14 */
  readonly date: string
  readonly key: string
}

export type CodeProblem =
  | 'code-day-unknown'
  | 'code-key-letters'
  | 'code-length'
  | 'code-letters'
  | 'code-check'

export type CodeRead =
  | { readonly ok: true; readonly batch: BatchCode }
  /** `at` counts characters from 1, groups' hyphens left out */
  | { readonly ok: false; readonly problem: CodeProblem; readonly at?: number }

const LONGEST_KEY = 6

/**
 * Code of a batch.
 *
 *     days since 2000-01-01 in base 32 (three characters) – key – spare, check character
 *
 * Check characters of the standard may be 0, 1, I, O or an asterisk. The spare character is the first of the alphabet
 * with which it is none of these, so that the whole code keeps to letters that cannot be mistaken. Valid for days of
 * 2000 to 2089 and keys of one to six characters of the alphabet; small letters count as capitals.
 *
 * @param date day of the pour, year-month-day, a day that exists
 * @param key what tells batches of one day apart, chosen by the maker
 * @returns the code, or what is wrong with day or key
 * @source iso-7064, gregorian
 * @example batchCode('2027-03-14', 'HE') // read it back with readBatchCode
 */
export function batchCode(date: string, key: string): CodeRead {
  const days = dayCharacters(date)
  if (days === undefined) return { ok: false, problem: 'code-day-unknown' }
  const capitals = key.trim().toUpperCase()
  if (capitals.length < 1 || capitals.length > LONGEST_KEY) return { ok: false, problem: 'code-length' }
  const wrong = strange(capitals)
  if (wrong !== undefined) return { ok: false, problem: 'code-key-letters', at: wrong }
  for (const spare of CODE_LETTERS) {
    const check = checkCharacter(days + capitals + spare)
    if (check !== undefined && CODE_LETTERS.includes(check))
      return {
        ok: true,
        batch: { code: [days, capitals, spare + check].join(GROUP), date, key: capitals },
      }
  }
  // 37 values less 5 that are left out: of any 6 spares one serves
  return { ok: false, problem: 'code-check' }
}

/**
 * Reads a batch code back.
 *
 *     hyphens and spaces do not count, small letters count as capitals; the check character must be right
 *
 * One wrong character, or two neighbours that changed places, are always found.
 *
 * @param typed as somebody read it off a wrapper
 * @returns day and key, or what is wrong and where
 * @source iso-7064, gregorian
 */
export function readBatchCode(typed: string): CodeRead {
  const plain = typed.replace(/[\s-]/g, '').toUpperCase()
  const keyLength = plain.length - DAY_LENGTH - 2
  if (keyLength < 1 || keyLength > LONGEST_KEY) return { ok: false, problem: 'code-length' }
  const wrong = strange(plain)
  if (wrong !== undefined) return { ok: false, problem: 'code-letters', at: wrong }
  if (!checks(plain)) return { ok: false, problem: 'code-check' }
  const days = [...plain.slice(0, DAY_LENGTH)].reduce(
    (sum, letter) => sum * CODE_LETTERS.length + CODE_LETTERS.indexOf(letter),
    0,
  )
  const date = dateOf(dayNumber(FIRST_DAY) + days)
  const key = plain.slice(DAY_LENGTH, DAY_LENGTH + keyLength)
  const code = [plain.slice(0, DAY_LENGTH), key, plain.slice(-2)].join(GROUP)
  return { ok: true, batch: { code, date, key } }
}

/** Counted from 1; undefined: every character is of the alphabet. */
const strange = (text: string): number | undefined => {
  const at = [...text].findIndex((letter) => !CODE_LETTERS.includes(letter))
  return at < 0 ? undefined : at + 1
}

function dayCharacters(date: string): string | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) return undefined
  const day = dayNumber(date)
  let rest = day - dayNumber(FIRST_DAY)
  // a day that does not exist has the number of another one
  if (dateOf(day) !== date || rest < 0 || rest >= MOST_DAYS) return undefined
  let text = ''
  for (let place = 0; place < DAY_LENGTH; place += 1) {
    text = (CODE_LETTERS[rest % CODE_LETTERS.length] ?? '') + text
    rest = Math.floor(rest / CODE_LETTERS.length)
  }
  return text
}
