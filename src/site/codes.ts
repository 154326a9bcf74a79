/** Codes of all papers for the look-up page: what each sheet is now, and what was written down of it. */
import { inlineWords } from '../sheets/compose.ts'
import type { Frame } from '../sheets/frame.ts'
import type { Sheet } from '../sheets/model.ts'
import { excerpts } from '../sheets/printed/excerpt.ts'
import type { Paper, PrintedPapers, SheetChanges } from '../sheets/printed/types.ts'
import type { CodedSheet, KnownPaper } from './browser/look-up.ts'
import { dataScript } from './scripts.ts'
import { fileOf } from './site-data.ts'

/** What is known of papers beyond the sheets themselves. */
export interface PapersOfSite {
  readonly papers: PrintedPapers
  /** all that were ever written down, taken down or not */
  readonly recorded: readonly Pick<Paper, 'sheet' | 'revision' | 'code'>[]
}

const NOTHING: PapersOfSite = { papers: { outOfDate: [], right: [] }, recorded: [] }

export const codesScript = (
  frame: Pick<Frame, 'say'>,
  sheets: readonly Sheet[],
  { papers, recorded }: PapersOfSite = NOTHING,
): string => {
  const changes = new Map(papers.outOfDate.map((one) => [one.paper.code, one]))
  const papersOf = (id: string): KnownPaper[] => {
    const own = new Map(recorded.filter(({ sheet }) => sheet === id).map((one) => [one.code, one]))
    return [...own.values()].map(({ code, revision }) => {
      const known = changes.get(code)
      return {
        code,
        revision,
        ...(known ? { where: known.paper.where } : {}),
        ...(known?.changes ? { changes: changeLines(frame, known.changes) } : {}),
      }
    })
  }
  const isRecorded = new Set(recorded.map(({ code }) => code))
  const present = sheets.flatMap((sheet): CodedSheet[] => {
    const code = sheet.code?.shown
    if (code === undefined) return []
    return [
      {
        letters: code.slice(0, code.indexOf('-')),
        title: inlineWords(sheet.title),
        now: {
          number: sheet.number,
          file: fileOf(sheet),
          code,
          revision: Number(code.split('-')[1]),
          recorded: isRecorded.has(code),
        },
        papers: papersOf(sheet.id),
      },
    ]
  })
  const ids = new Set(sheets.map(({ id }) => id))
  const gone = [...new Set(recorded.map(({ sheet }) => sheet).filter((id) => !ids.has(id)))].map(
    (id): CodedSheet => {
      const own = papersOf(id)
      const title = papers.outOfDate.find(({ paper }) => paper.sheet === id)?.title ?? id
      return { letters: own[0]?.code.split('-')[0] ?? '', title, papers: own }
    },
  )
  return dataScript('kettleCodes', [...present, ...gone])
}

const changeLines = ({ say }: Pick<Frame, 'say'>, changes: SheetChanges): string[] => [
  ...(changes.language === undefined
    ? []
    : [inlineWords(say('code.change-language', { language: changes.language }))]),
  ...changes.values.map(({ label, before = '', now = '' }) =>
    inlineWords(
      say(before === '' ? 'code.change-new' : now === '' ? 'code.change-gone' : 'code.change', {
        label,
        before,
        now,
      }),
    ),
  ),
  ...changes.lines.map((line) => {
    const { before = '', now = '' } = excerpts(line.before, line.now)
    const key =
      before === '' ? 'code.change-words-new' : now === '' ? 'code.change-words-gone' : 'code.change-words'
    return inlineWords(say(key, { before, now }))
  }),
  ...changes.drawings.map((label) => inlineWords(say('code.change-drawing', { label }))),
]
