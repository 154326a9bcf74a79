/** Which revision each sheet is: that of the paper which shows the same, or the next one. */

import { type SheetCode, sheetCode } from '../labelling/paper-code.ts'
import type { Frame } from '../sheets/frame.ts'
import type { Sheet } from '../sheets/model.ts'
import type { ShownSheet } from '../sheets/printed/shown-types.ts'
import { type FrameWords, fingerprintOf, sha256, shownSheet } from './shown-sheet.ts'

/** A print of a sheet that is written down. */
export interface RecordedSheet {
  readonly id: string
  readonly revision: number
  readonly code: string
  /** the first figures of its fingerprint */
  readonly shows: string
}

export interface Revised {
  readonly sheet: Sheet
  readonly shown: ShownSheet
  readonly fingerprint: string
  readonly revision: number
  readonly code: SheetCode
  /** whether a paper of it is written down */
  readonly recorded: boolean
}

/** As records have it: 64 bits, too many for two papers of one sheet to share them by chance. */
export const shortFingerprint = (fingerprint: string): string => fingerprint.slice(0, 16)

/** The code of a paper with this content. */
export const codeOf = (id: string, revision: number, fingerprint: string): SheetCode =>
  sheetCode(sha256(id), revision, fingerprint)

/**
 * The revision of what is shown now.
 *
 * The latest recorded one that shows the same, by its fingerprint; else the highest so far and one more: what this paper is
 * as soon as it is written down. So the record changes no byte of it.
 */
export const revisionOf = (
  id: string,
  fingerprint: string,
  records: readonly RecordedSheet[],
): { readonly revision: number; readonly recorded: boolean } => {
  const own = records.filter((record) => record.id === id)
  const same = own
    .filter(({ shows }) => shows === shortFingerprint(fingerprint))
    .map(({ revision }) => revision)
  if (same.length > 0) return { revision: Math.max(...same), recorded: true }
  return { revision: Math.max(0, ...own.map(({ revision }) => revision)) + 1, recorded: false }
}

/** Every sheet with its revision and its code in its head. */
export const withRevisions = (
  { say, show }: Pick<Frame, 'say' | 'show'>,
  sheets: readonly Sheet[],
  records: readonly RecordedSheet[],
  words: FrameWords,
  language: string,
): readonly Revised[] =>
  sheets.map((sheet) => {
    const shown = naming(sheet.id, () => shownSheet(sheet, words, language))
    const fingerprint = fingerprintOf(shown)
    const { revision, recorded } = revisionOf(sheet.id, fingerprint, records)
    const code = codeOf(sheet.id, revision, fingerprint)
    const number = show.count('sheet.revision', revision)
    const printed = { name: 'sheet.code', value: code.code, unit: 'code', shown: code.code }
    const { values, ...rest } = sheet
    const short = shortFingerprint(fingerprint)
    return {
      // a page of labels is cut apart: it is printed anew each time, and bears no code
      sheet: sheet.wholePage
        ? { ...sheet, fingerprint: short }
        : {
            ...rest,
            revision: say('code.number', { revision: number }),
            code: printed,
            fingerprint: short,
            values: new Map([...values, [number.name, number], [printed.name, printed]]),
          },
      shown,
      fingerprint,
      revision,
      code,
      recorded,
    }
  })

/** A fault of the program says on which sheet it is: whoever meets it can leave that sheet's thing out until it is mended. */
const naming = <T>(id: string, read: () => T): T => {
  try {
    return read()
  } catch (error) {
    throw new Error(`Sheet ${id}: ${(error as Error).message}`, { cause: error })
  }
}
