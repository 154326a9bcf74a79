/** Whether records of printed papers can be true: codes that fit, one content a revision, nothing removed before it hung. */
import { type Diagnostic, pointer } from '../diagnostics.ts'
import { readSheetCode, type SheetCodeRead } from '../labelling/paper-code.ts'
import type { Placed } from '../schema/placed.ts'
import { isHung, type PrintedFile } from '../schema/printed.ts'
import { codeOf } from './revisions.ts'
import { sha256 } from './shown-sheet.ts'

/**
 * A sheet that is not there any more is no mistake: its papers are taken down. One that never was is: its code would
 * not be of it.
 *
 * @param ids of sheets that are there
 */
export const checkRecords = (
  { value, document }: Placed<PrintedFile>,
  ids: readonly string[],
): Diagnostic[] => {
  const diagnostics: Diagnostic[] = []
  const complain = (
    code: string,
    path: readonly (string | number)[],
    message: string,
    advice: string,
    other?: { readonly path: readonly (string | number)[]; readonly message: string },
  ): void => {
    diagnostics.push({
      severity: 'error',
      code,
      file: document.file,
      path: pointer(path),
      at: 'value',
      message,
      advice,
      ...(other
        ? {
            related: [
              {
                file: document.file,
                path: pointer(other.path),
                at: 'value' as const,
                message: other.message,
              },
            ],
          }
        : {}),
    })
  }
  const first = new Map<string, { readonly shows: string; readonly path: readonly (string | number)[] }>()
  /** by code, the places at which a paper hangs */
  const hanging = new Map<string, Set<string>>()
  let latest: { readonly date: string; readonly index: number } | undefined
  for (const [index, { date, how, where = '', sheets }] of value.entries.entries()) {
    if (latest && date < latest.date)
      complain(
        'printed-backwards',
        ['entries', index, 'date'],
        `This entry is of ${date}, and one above it is of ${latest.date}`,
        'Put the day right, or move the entry to its place: they stand in the order of their days.',
        { path: ['entries', latest.index, 'date'], message: 'the later day stands here' },
      )
    else latest = { date, index }
    for (const [place, { sheet, revision, code, shows }] of sheets.entries()) {
      const path = ['entries', index, 'sheets', place]
      const read = readSheetCode(code)
      if (!read.ok) {
        complain(
          'paper-code-wrong',
          [...path, 'code'],
          `"${code}" is no code of a paper: ${slip(read)}`,
          COPY_CODE,
        )
        continue
      }
      if (read.read.revision !== revision) {
        complain(
          'paper-code-wrong',
          [...path, 'code'],
          `"${code}" is of revision ${read.read.revision}, and this line says ${revision}`,
          COPY_CODE,
        )
        continue
      }
      const own = codeOf(sheet, revision, shows ?? sha256(sheet))
      if (own.sheet !== read.read.sheet) {
        const meant = ids.find((id) => codeOf(id, revision, sha256(id)).sheet === read.read.sheet)
        complain(
          'printed-sheet-unknown',
          [...path, 'sheet'],
          `No sheet was ever named "${sheet}": the code beside it is of another one`,
          meant === undefined
            ? 'Copy the name and the code as "npm run printed" wrote them; a sheet that was removed keeps both here.'
            : `The code is that of "${meant}": did you mean this one?`,
        )
        continue
      }
      if (!isHung(how)) {
        const places = hanging.get(code)
        if (!places || (where !== '' && !places.has(where)))
          complain(
            'paper-not-hanging',
            [...path, 'code'],
            `${code} is removed here, and by what stands above no such paper hangs ${where === '' ? 'anywhere' : `at "${where}"`}`,
            'Put this entry below the one that says where it hung, name the place as that one does, or take it out.',
          )
        else if (where === '') hanging.delete(code)
        else {
          places.delete(where)
          if (places.size === 0) hanging.delete(code)
        }
        continue
      }
      if (shows !== undefined && own.code !== read.read.code) {
        complain(
          'paper-code-wrong',
          [...path, 'code'],
          `"${code}" is not the code of a paper that shows ${shows}`,
          COPY_CODE,
        )
        continue
      }
      hanging.set(code, (hanging.get(code) ?? new Set()).add(where))
      const key = `${sheet} ${revision}`
      const before = first.get(key)
      if (before && shows !== undefined && before.shows !== shows)
        complain(
          'printed-otherwise',
          [...path, 'shows'],
          `Revision ${revision} of this sheet shows something else here than in an entry above`,
          'One of the two lines was typed or copied wrongly: a sheet that shows something else has a revision of its own.',
          { path: [...before.path, 'shows'], message: 'what it shows there' },
        )
      else if (shows !== undefined && !before) first.set(key, { shows, path })
    }
  }
  return diagnostics
}

const COPY_CODE = 'Copy the code as it stands in the title block of the paper, for example H7KQ-2-M4TX.'

const slip = (read: Extract<SheetCodeRead, { readonly ok: false }>): string => {
  switch (read.problem) {
    case 'length':
      return 'it has too few characters, or too many'
    case 'letters':
      return `character ${read.at}, "${read.letter}", is in no code`
    case 'revision':
      return `character ${read.at}, "${read.letter}", stands where the revision has its figures`
    case 'check':
      return 'its check character does not fit, so that one character is wrong, or two changed places'
  }
}
