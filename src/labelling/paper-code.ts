/** The code on a paper: which sheet, which revision, which content, and a check character that finds slips. */
import { CODE_LETTERS, checkCharacter, checks } from './batch-code.ts'

/** Letters of the sheet's id, and of what it shows. */
const OF_ID = 4
const OF_CONTENT = 3
/** With the check character at the end. */
const TAIL = OF_CONTENT + 1
const MOST_REVISION = 9999
const BITS = 5

export interface SheetCode {
  /** as it is printed: `H7KQ-2-M4TX` */
  readonly code: string
  readonly sheet: string
  readonly revision: number
  /** of what is shown, check character and all */
  readonly content: string
}

export type SheetCodeProblem = 'length' | 'letters' | 'revision' | 'check'

export type SheetCodeRead =
  | { readonly ok: true; readonly read: SheetCode }
  /** `at` counts characters from 1, dashes and spaces left out */
  | { readonly ok: false; readonly problem: SheetCodeProblem; readonly at?: number; readonly letter?: string }

/**
 * Code of a paper.
 *
 *     4 letters of the sheet's id – revision – 3 letters of what it shows, check character (MOD 37-2)
 *
 * The check character may be 0, 1, I, O or an asterisk in the standard: the letters of what is shown are then taken
 * five bits further on in its hash, until the whole code keeps to letters that cannot be mistaken. Two sheets of a
 * binder may share their four letters (one pair in a million), two papers of one sheet their last ones (one in
 * 32 768): the code leads to a paper, it does not prove one.
 *
 * @param idHash      SHA-256 of the sheet's id, in hexadecimal figures
 * @param revision    whole, 1 to 9999
 * @param fingerprint SHA-256 of what it shows, in hexadecimal figures
 * @source iso-7064
 */
export function sheetCode(idHash: string, revision: number, fingerprint: string): SheetCode {
  if (!Number.isInteger(revision) || revision < 1 || revision > MOST_REVISION)
    throw new RangeError(`No code has the revision ${revision}.`)
  const sheet = lettersOf(idHash, 0, OF_ID)
  const places = Math.floor((fingerprint.length * 4) / BITS) - OF_CONTENT
  for (let from = 0; from <= places; from += 1) {
    const letters = lettersOf(fingerprint, from, OF_CONTENT)
    const check = checkCharacter(`${sheet}${revision}${letters}`)
    if (check !== undefined && CODE_LETTERS.includes(check)) {
      const content = letters + check
      return { code: printed(sheet, String(revision), content), sheet, revision, content }
    }
  }
  // 5 of 37 values are left out, and there are some fifty places: it does not come to this
  throw new Error('No letters of this content keep the code to its alphabet.')
}

/**
 * Reads a code as somebody typed it off a paper.
 *
 *     Σ value · 2^place ≡ 1 (mod 37)
 *
 * Dashes, spaces and small letters do not count; in the revision, which is all figures, O is 0 and I is 1.
 * One wrong character, or two neighbours that changed places, are always found.
 *
 * @source iso-7064
 */
export function readSheetCode(typed: string): SheetCodeRead {
  const plain = typed.replace(/[\s\u2010-\u2015-]/g, '').toUpperCase()
  const length = plain.length - OF_ID - TAIL
  if (length < 1 || length > String(MOST_REVISION).length) return { ok: false, problem: 'length' }
  const sheet = plain.slice(0, OF_ID)
  const revision = plain
    .slice(OF_ID, OF_ID + length)
    .replace(/O/g, '0')
    .replace(/I/g, '1')
  const content = plain.slice(-TAIL)
  const whole = sheet + revision + content
  for (const [at, letter] of [...whole].entries()) {
    const isFigure = at >= OF_ID && at < OF_ID + length
    if (isFigure ? /\d/.test(letter) : CODE_LETTERS.includes(letter)) continue
    return { ok: false, problem: isFigure ? 'revision' : 'letters', at: at + 1, letter: plain[at] ?? letter }
  }
  if (revision.startsWith('0')) return { ok: false, problem: 'revision', at: OF_ID + 1, letter: '0' }
  if (!checks(whole)) return { ok: false, problem: 'check' }
  return {
    ok: true,
    read: { code: printed(sheet, revision, content), sheet, revision: Number(revision), content },
  }
}

const printed = (...groups: readonly string[]): string => groups.join('-')

/** Five bits a letter, from the front. */
const lettersOf = (hex: string, from: number, count: number): string => {
  const bits = [...hex].map((figure) => Number.parseInt(figure, 16).toString(2).padStart(4, '0')).join('')
  let letters = ''
  for (let place = from; place < from + count; place += 1)
    letters += CODE_LETTERS[Number.parseInt(bits.slice(place * BITS, (place + 1) * BITS), 2)] ?? ''
  return letters
}
