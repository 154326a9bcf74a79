/** What was printed beside what the binder says now: the page of papers that are out of date, and why they are. */
import type { Diagnostic, SourceDocument } from '../diagnostics.ts'
import { fullLine } from '../papers/changes.ts'
import { type KeptPaper, keptName, readInputsList, readKeptSheet } from '../papers/kept-text.ts'
import { outOfDateAmong, papersIn, printedPapers, recordedIn } from '../papers/papers.ts'
import type { Revised } from '../papers/revisions.ts'
import type { ProcessContent } from '../process.ts'
import { type Causes, findCauses, type ShownNow } from '../revisions/causes.ts'
import { compareInputs, type InputChange, type Inputs, inputText } from '../revisions/input-changes.ts'
import type { FileKinds } from '../schema/file-kind.ts'
import { filesOf, inputsOf, inputsReadIn } from '../schema/inputs.ts'
import type { PrintedFile } from '../schema/printed.ts'
import { type FolderFile, KEPT, readKept } from '../schema/read-folder.ts'
import type { ShownSheet } from '../sheets/printed/shown-types.ts'
import {
  type ChangeCause,
  drawingMark,
  lineMark,
  type OutOfDate,
  type Paper,
  type PrintedPapers,
} from '../sheets/printed/types.ts'
import type { PapersOfSite } from '../site/codes.ts'

/** Binders that are composed in all to find causes, each as long as an edit takes; beyond them groups are named whole. */
const MOST_COMPOSED = 40

/** A maker's folder as it is now. */
interface ReadFrom {
  /** absolute */
  readonly folder: string
  /** how messages name it */
  readonly shown: string
  readonly files: readonly FolderFile[]
  /** of the binder, and of its labels */
  readonly languages: readonly [string, string]
  readonly kinds: FileKinds
}

export interface PapersRead {
  readonly papers: PrintedPapers
  readonly diagnostics: readonly Diagnostic[]
  readonly documents: readonly SourceDocument[]
}

/**
 * @param composed  what a mixture of inputs shows, to look for causes; without it they are not looked for
 */
export const readPapers = async (
  from: ReadFrom,
  printed: PrintedFile | undefined,
  revised: readonly Revised[],
  composed?: (files: readonly FolderFile[]) => Promise<readonly Revised[] | undefined>,
): Promise<PapersRead> => {
  const papers = papersIn(printed)
  const wrong = outOfDateAmong(papers, revised)
  const names = [...new Set(wrong.map(({ sheet, revision }) => keptName(sheet, revision)))]
  const diagnostics: Diagnostic[] = []
  const documents: SourceDocument[] = []
  const kept = new Map<string, KeptPaper>()
  for (const file of await readKept(from.folder, from.shown, names)) {
    const read = readKeptSheet(file)
    documents.push(read.document)
    diagnostics.push(...read.diagnostics)
    if (read.kept) kept.set(keptName(read.kept.shown.id, read.kept.revision), read.kept)
  }
  const keptOf = ({ sheet, revision, shows }: Paper): KeptPaper | undefined => {
    const one = kept.get(keptName(sheet, revision))
    return one?.fingerprint.startsWith(shows) ? one : undefined
  }
  const shownOf = (paper: Paper): ShownSheet | undefined => keptOf(paper)?.shown
  const found = printedPapers(papers, revised, shownOf)
  if (!composed) return { papers: found, diagnostics, documents }
  const causes = await causesOf(found.outOfDate, keptOf, from, revised, composed)
  const outOfDate = found.outOfDate.map((one) => ({ ...one, causes: causes.get(one.paper) ?? one.causes }))
  return { papers: { ...found, outOfDate }, diagnostics, documents }
}

/** Marks of a sheet that a cause is looked for: its values, lines and drawings. */
const marksOf = (shown: ShownSheet): ReadonlyMap<string, string> => {
  const values = new Map(shown.values.map((value) => [value.name, value.shown]))
  return new Map([
    ...values,
    ...shown.lines.map(({ text }): [string, string] => [lineMark(fullLine(text, values)), 'there']),
    [lineMark(shown.number), 'there'],
    [lineMark(shown.title), 'there'],
    ...shown.drawings.map(({ label, hash }): [string, string] => [drawingMark(label), hash]),
  ])
}

const marksNow = (revised: readonly Revised[]): ShownNow =>
  new Map(revised.map(({ shown }) => [shown.id, marksOf(shown)]))

const askedOf = ({ changes }: OutOfDate): string[] =>
  changes
    ? [
        ...changes.values.map(({ name }) => name),
        ...changes.lines.map(({ before, now }) => lineMark(now ?? before ?? '')),
        ...changes.drawings.map(drawingMark),
        ...(changes.number ? [lineMark(changes.number.now)] : []),
        ...(changes.title ? [lineMark(changes.title.now)] : []),
      ]
    : []

const causesOf = async (
  outOfDate: readonly OutOfDate[],
  keptOf: (paper: Paper) => KeptPaper | undefined,
  { folder, shown, files, languages, kinds }: ReadFrom,
  revised: readonly Revised[],
  composed: (files: readonly FolderFile[]) => Promise<readonly Revised[] | undefined>,
): Promise<ReadonlyMap<Paper, OutOfDate['causes']>> => {
  const bySnapshot = new Map<string, OutOfDate[]>()
  for (const one of outOfDate) {
    const inputs = one.changes && keptOf(one.paper)?.inputs
    if (inputs !== undefined) bySnapshot.set(inputs, [...(bySnapshot.get(inputs) ?? []), one])
  }
  const read = (one: Inputs): Inputs => inputsReadIn(one, languages, kinds)
  const now = read(inputsOf(files))
  const shownNow = marksNow(revised)
  const causes = new Map<Paper, OutOfDate['causes']>()
  let left = MOST_COMPOSED
  // the newest print first: most of what changed since is asked of it
  for (const [name, papers] of [...bySnapshot].reverse()) {
    const before = await inputsAt(folder, shown, name)
    if (!before || left <= 0) continue
    const asked = new Map<string, readonly string[]>()
    for (const one of papers)
      asked.set(one.paper.sheet, [...(asked.get(one.paper.sheet) ?? []), ...askedOf(one)])
    const found: Causes = await findCauses(
      compareInputs(read(before), now),
      asked,
      shownNow,
      async (inputs) => {
        left -= 1
        const sheets = await composed(filesOf(inputs, shown))
        return sheets && marksNow(sheets.filter(({ sheet }) => asked.has(sheet.id)))
      },
      left,
    )
    for (const one of papers)
      causes.set(
        one.paper,
        new Map(askedOf(one).map((mark) => [mark, found.of(one.paper.sheet, mark).map(asCause)])),
      )
  }
  return causes
}

const asCause = ({ file, path, kind, before, now }: InputChange): ChangeCause => ({
  file,
  path,
  kind,
  ...(short(before) === undefined ? {} : { before: short(before) as string }),
  ...(short(now) === undefined ? {} : { now: short(now) as string }),
})

/** What fits a narrow column. */
const LONGEST = 24

const short = (node: InputChange['before']): string | undefined => {
  const text = node === undefined ? '' : inputText(node)
  return text === '' || text.length > LONGEST ? undefined : text
}

const inputsAt = async (folder: string, shown: string, name: string): Promise<Inputs | undefined> => {
  const [list] = await readKept(folder, shown, [name])
  const names = list && readInputsList(list)
  if (!names) return undefined
  const copies = new Map(
    (await readKept(folder, shown, [...new Set(names.values())])).map((file) => [file.below, file]),
  )
  const files: FolderFile[] = []
  for (const [below, kept] of names) {
    const copy = copies.get(`${KEPT}/${kept}`)
    // half a folder would put causes down to files that are only lost
    if (!copy) return undefined
    files.push({ file: `${shown}/${below}`, below, bytes: copy.bytes })
  }
  return inputsOf(files)
}

/** What the look-up page knows of papers. */
export const papersOfSite = (
  content: Pick<ProcessContent, 'printed'>,
  papers?: PrintedPapers,
): PapersOfSite => ({
  papers: papers ?? { outOfDate: [], right: [] },
  recorded: recordedIn(content.printed?.value).map(({ id, ...rest }) => ({ sheet: id, ...rest })),
})
