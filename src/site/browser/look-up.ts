/** A code that somebody typed off a paper: which sheet it is of, and whether that paper may still be followed. */
import { readSheetCode, type SheetCodeRead } from '../../labelling/paper-code.ts'

/** A paper that was written down as printed. */
export interface KnownPaper {
  readonly code: string
  readonly revision: number
  /** where it hangs, in words; missing where it was taken down */
  readonly where?: string
  /** what changed since, a line each; missing where nobody knows */
  readonly changes?: readonly string[]
}

/** A sheet with its papers; without `now` there is no such sheet any more. */
export interface CodedSheet {
  /** the first letters of its codes */
  readonly letters: string
  readonly title: string
  readonly now?: {
    readonly number: string
    readonly file: string
    readonly code: string
    readonly revision: number
    readonly recorded: boolean
  }
  readonly papers: readonly KnownPaper[]
}

export type LookedUp =
  | { readonly kind: 'slip'; readonly slip: Extract<SheetCodeRead, { readonly ok: false }> }
  | { readonly kind: 'unknown' }
  | {
      readonly kind: 'current' | 'current-draft' | 'old' | 'gone' | 'newer' | 'draft'
      readonly code: string
      readonly sheet: CodedSheet
      readonly paper?: KnownPaper
    }

/** @param typed as it was read off the paper */
export const lookUpCode = (typed: string, sheets: readonly CodedSheet[]): LookedUp => {
  const read = readSheetCode(typed)
  if (!read.ok) return { kind: 'slip', slip: read }
  const { code, revision } = read.read
  const kin = sheets.filter(({ letters }) => letters === read.read.sheet)
  // two sheets may share their letters: the one that has this very paper goes first
  const sheet =
    kin.find(({ now, papers }) => now?.code === code || papers.some((one) => one.code === code)) ?? kin[0]
  if (!sheet) return { kind: 'unknown' }
  const paper = sheet.papers.find((one) => one.code === code)
  const found = { code, sheet, ...(paper ? { paper } : {}) }
  if (!sheet.now) return { kind: 'gone', ...found }
  if (sheet.now.code === code) return { kind: sheet.now.recorded ? 'current' : 'current-draft', ...found }
  if (paper) return { kind: 'old', ...found }
  return { kind: revision > sheet.now.revision ? 'newer' : 'draft', ...found }
}
