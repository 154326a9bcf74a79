/** What commands say on a terminal: stages as they go, stops on standard error. */
import { performance } from 'node:perf_hooks'
import { renderDiagnostics } from '../diagnostics.ts'
import { holdsOf, inlineWords } from '../sheets/compose.ts'
import type { Sheet } from '../sheets/model.ts'
import { stillToWrite } from '../starter/still-to-write.ts'
import { type Composed, compose } from './compose.ts'
import type { Options } from './options.ts'
import { colourWanted, isWatched, say } from './say.ts'

/** Sheets that must not be used, and what meets that should not: each reason a line. */
const stopLines = (sheets: readonly Sheet[]): string => {
  const lines = (what: string, id: string, reasons: Sheet['conflicts'] = []): string[] =>
    reasons.map(
      ({ code, reason, place }) =>
        `${what}: ${id}  ${code}  ${inlineWords(reason)}${place ? ` (${place})` : ''}\n`,
    )
  return [
    ...sheets.flatMap(({ id, stopped }) => lines('stopped', id, stopped)),
    ...sheets.flatMap(({ id, conflicts }) => lines('conflict', id, conflicts)),
  ].join('')
}

/** What a person wants to know at the end: whether all is well, and how much of it is not. */
export const verdict = (sheets: readonly Sheet[]): string => {
  const stopped = sheets.filter((sheet) => sheet.stopped).length
  const conflicts = sheets.reduce((sum, sheet) => sum + (sheet.conflicts?.length ?? 0), 0)
  // a sheet that stands, and whose bars leave the shop only after a test
  const held = sheets.filter((sheet) => holdsOf(sheet).length > 0)
  const onHold =
    held.length === 0
      ? ''
      : `; held for a test: ${held.map(({ number, title }) => `${number} (${inlineWords(title)})`).join(', ')}`
  const said = [
    ...(stopped > 0 ? [`${stopped} stopped`] : []),
    ...(conflicts > 0 ? [`${conflicts} ${conflicts === 1 ? 'conflict' : 'conflicts'}`] : []),
  ]
  return `${said.length === 0 ? 'nothing wrong' : `no mistakes; ${said.join(', ')}, see above`}${onHold}`
}

/** What nobody wrote yet that a new folder asks for, a file a line: it would be missing on paper on the day. */
const toWriteLines = (documents: Composed['documents']): string =>
  stillToWrite(documents)
    .map(({ file, lines, text, section }) => `to write: ${file}:${lines.join(', ')}  ${section}: ${text}\n`)
    .join('')

/** What somebody should know of a binder that has no mistakes. */
export const noteLines = (sheets: readonly Sheet[], documents: Composed['documents']): string =>
  stopLines(sheets) + toWriteLines(documents)

/** What is wrong, with the lines it is about. */
export const sayMistakes = (diagnostics: Composed['diagnostics'], documents: Composed['documents']): void => {
  process.stderr.write(renderDiagnostics(diagnostics, documents, { colour: colourWanted() }))
}

/** Composes a folder and tells on standard error what is wrong or stopped. @returns nothing when it has mistakes */
export const composeAndTell = async (
  { folder, shown }: Options,
  looking: { readonly causes?: boolean } = {},
): Promise<Composed['binder']> => {
  const { binder, diagnostics, documents } = await compose(folder, shown, undefined, looking)
  sayMistakes(diagnostics, documents)
  if (binder) process.stderr.write(noteLines(binder.sheets, documents))
  return binder
}

export interface Stages {
  readonly begin: (name: string) => void
  readonly end: () => readonly { readonly name: string; readonly seconds: number }[]
}

/** Names each stage on a terminal with the time that it took. */
export const stages = (): Stages => {
  const done: { name: string; seconds: number }[] = []
  let current: { name: string; from: number } | undefined
  const close = (): void => {
    if (!current) return
    const seconds = (performance.now() - current.from) / 1000
    done.push({ name: current.name, seconds })
    if (isWatched()) say(`  ${current.name.padEnd(16)} ${seconds.toFixed(2)} s`)
    current = undefined
  }
  return {
    begin: (name) => {
      close()
      current = { name, from: performance.now() }
    },
    end: () => {
      close()
      return done
    },
  }
}
